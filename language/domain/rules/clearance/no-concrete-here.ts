import { fitSubjects } from '../../fit/footprint.ts';
import { defineRule } from '../define.ts';
import { demo, sound } from '../example-texts.ts';
import { clearSpotsWords, inTheWay, placedHole, sayLacking, waysOut } from './anchor-fit.ts';

export const noConcreteHere = defineRule({
  id: 'clearance/no-concrete-here',
  severity: 'error',
  on: 'anchor',
  summary: 'A hole for an anchor falls into an opening of the foundation, or too near to its edge.',
  why: 'There is nothing to grip, or so little concrete beside the opening that it breaks out.',
  remedy: 'Slide the anchor past the opening and the edge distance of its holes.',
  subjects: { 'opening-edge': fitSubjects['opening-edge'] },
  examples: [
    {
      failing: demo({ anchors: sound, found: [`vent V1 8'-0" to 9'-4"`] }),
      passing: demo({ anchors: sound, found: [`vent V1 6'-0" to 7'-4"`] }),
    },
  ],
  check({ wall, anchor, connector }, context) {
    const placed = placedHole(context.layout, wall, anchor, connector);
    if (!placed) return;
    sayLacking(placed, ['no-concrete'], context);
    const [first, ...others] = inTheWay(placed, ['no-concrete']);
    if (!first) return;
    const { showStation } = context;
    context.report({
      message:
        `${anchor.name} (${connector.name}) at ${showStation(placed.station)} has no concrete to grip: ${first.words}, with the edge distance of its ` +
        `holes. ${clearSpotsWords(placed, context)}`.trimEnd(),
      span: anchor.stationSource ?? anchor.source,
      related: [first, ...others].flatMap((each) => (each.span ? [{ span: each.span, message: each.words }] : [])),
      fixes: (now) => waysOut(now, wall, placed.piece, anchor),
    });
  },
});
