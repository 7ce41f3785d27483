import { serviceOf } from '../../fit/blocked-by-things.ts';
import { whatPanelMeets } from '../../fit/panel-room.ts';
import { stretchWords, thingWords } from '../../fit/thing-words.ts';
import { panelsPast } from '../../fixes/panel-fixes.ts';
import { defineRule } from '../define.ts';
import { panelDemo } from '../example-texts.ts';
import { CAUTION, haveMoved, withCaution } from './anchor-fit.ts';

export const panelHidesService = defineRule({
  id: 'clearance/panel-hides-service',
  severity: 'warning',
  on: 'wall',
  summary: 'A bracing panel covers a meter, a clean-out, a shut-off or the crawl door.',
  why: 'Somebody has to reach it, in a hurry perhaps, and will cut the panel open to get there.',
  remedy:
    'End the panel beside it, or plan a cut-out with blocked and nailed edges, and have the trade move what can be moved.',
  subjects: { 'panel-length': 'length', 'panel-room': 'length', tolerance: 'length' },
  examples: [
    {
      failing: panelDemo({ panels: [`F-P1 0'-0" to 8'-0"`], found: [`pipe CO "clean-out" at 7'-0" wide 4" off 1"`] }),
      passing: panelDemo({ panels: [`F-P1 0'-0" to 6'-8"`], found: [`pipe CO "clean-out" at 7'-0" wide 4" off 1"`] }),
    },
  ],
  check({ wall }, context) {
    const { layout } = context;
    const { units } = layout.title;
    for (const panel of wall.panels) {
      const { stretch } = panel;
      if (!stretch || panel.state === 'omitted') continue;
      for (const { thing, how } of whatPanelMeets(layout, wall, panel).meetings) {
        if (how !== 'hidden') continue;
        const service = serviceOf(thing) !== undefined;
        const caution = service ? ` L${CAUTION.slice(1)}.` : '';
        context.report({
          message:
            `Panel ${panel.name} ${stretchWords(stretch, units)} covers ${thingWords(thing, units)}, which somebody has to reach. ` +
            `End it beside that, or plan a cut-out with blocked edges.${caution}`,
          thing: panel.id,
          about: `${panel.id} ${thing.id}`,
          layer: 'design',
          station: stretch.from,
          stationTo: stretch.to,
          span: panel.stretchSource,
          related: [{ span: thing.source, message: thingWords(thing, units) }],
          fixes: (now) => {
            const fixes = [...panelsPast(now, wall, panel), ...haveMoved(wall, thing.id)];
            return service ? withCaution(fixes) : fixes;
          },
        });
      }
    }
  },
});
