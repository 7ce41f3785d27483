import { thingsOn } from '../../fit/blocked-by-things.ts';
import { whatPanelMeets } from '../../fit/panel-room.ts';
import { stretchWords, thingWords } from '../../fit/thing-words.ts';
import { panelsPast } from '../../fixes/panel-fixes.ts';
import { leastLength } from '../../rulesets/compare.ts';
import { nanometres } from '../../units/length.ts';
import { defineRule } from '../define.ts';
import { panelDemo } from '../example-texts.ts';
import { sourceWords } from '../limit-words.ts';
import { haveMoved } from './anchor-fit.ts';

export const panelHitsThing = defineRule({
  id: 'clearance/panel-hits-thing',
  severity: 'error',
  on: 'wall',
  summary: 'A bracing panel runs across an opening or a pipe, or something in front of it leaves no room to nail it.',
  why: 'A sheet that is cut round a thing on site is no longer the panel that was counted, and one that cannot be nailed braces nothing.',
  remedy: 'End the panel at the thing and make up the length elsewhere on the line, split it, or have the thing moved.',
  subjects: {
    'panel-room': 'length',
    'panel-past-obstruction': 'verdict',
    'panel-length': 'length',
    tolerance: 'length',
  },
  examples: [
    {
      failing: panelDemo({ panels: [`F-P1 0'-0" to 8'-0"`], found: [`pipe P1 "drain" at 6'-0" wide 4"`] }),
      passing: panelDemo({ panels: [`F-P1 0'-0" to 5'-4"`], found: [`pipe P1 "drain" at 6'-0" wide 4"`] }),
    },
  ],
  check({ wall }, context) {
    const { layout, show } = context;
    const { units } = layout.title;
    for (const thing of wall.panels.length === 0 ? [] : thingsOn(wall).placeless) {
      const words = thingWords({ ...thing, stretch: undefined }, units);
      context.lacks({ wants: `place of ${words} on wall ${wall.name}`, at: thing.source, thing: thing.id });
    }
    for (const panel of wall.panels) {
      const { stretch } = panel;
      if (!stretch || panel.state === 'omitted') continue;
      const { meetings, lacking } = whatPanelMeets(layout, wall, panel);
      for (const { wants, thing, span } of lacking) context.lacks({ wants, at: span, thing });
      const allowed = context.limit('panel-past-obstruction', {});
      const exception = allowed.kind === 'limit' ? allowed.limit : undefined;
      const hammer = context.limit('panel-room', {});
      const room = hammer.kind === 'limit' ? hammer.limit : undefined;
      for (const { thing, extent, how, off } of meetings) {
        if (how === 'hidden') continue;
        const into = nanometres(Math.min(stretch.to, extent.to) - Math.max(stretch.from, extent.from));
        const wanted = room && leastLength(room)?.reach;
        const what =
          how === 'crosses'
            ? `runs ${into > 0 ? `${show(into)} ` : ''}across ${thingWords(thing, units)}`
            : `has ${show(off)} in front of it at ${thingWords(thing, units)}, too little to nail it` +
              (room && wanted !== undefined ? `: ${show(wanted)} (${sourceWords(room)})` : '');
        const total = exception ? `as much panel in all as without it (${sourceWords(exception)})` : 'as much in all';
        context.report({
          message: `Panel ${panel.name} ${stretchWords(stretch, units)} ${what}. End it there, split or move it: ${total}.`,
          thing: panel.id,
          about: `${panel.id} ${thing.id}`,
          layer: 'design',
          station: stretch.from,
          stationTo: stretch.to,
          span: panel.stretchSource,
          related: [{ span: thing.source, message: thingWords(thing, units) }],
          citation: how === 'crosses' ? exception?.citation : room?.citation,
          fixes: (now) => [...panelsPast(now, wall, panel), ...haveMoved(wall, thing.id)],
        });
      }
    }
  },
});
