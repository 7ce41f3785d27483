import { defineRule } from '../define.ts';
import { demo, sound } from '../example-texts.ts';
import {
  askedBy,
  clearSpotsWords,
  drillOf,
  haveMoved,
  inTheWay,
  inTheWayBut,
  placedAnchor,
  placesOf,
  sayLacking,
  waysOut,
} from './anchor-fit.ts';

export const sideRoomShort = defineRule({
  id: 'clearance/side-room-short',
  severity: 'error',
  on: 'anchor',
  summary: 'There is less free depth in front of the wall than drilling sideways wants.',
  why: 'The hammer and its bit do not fit between the wall and what stands before it, so the hole is slanted or left out.',
  remedy: 'Slide the plate past the thing, have the thing moved, or bolt from above where the headroom allows it.',
  subjects: { 'side-room': 'length' },
  examples: [
    {
      failing: demo({ anchors: sound, found: [`furnace H1 at 8'-8" wide 20" off 19-15/16"`] }),
      passing: demo({ anchors: sound, found: [`furnace H1 at 8'-8" wide 20" off 20"`] }),
    },
  ],
  check({ wall, anchor, connector }, context) {
    const placed = placedAnchor(context.layout, wall, anchor, connector);
    if (!placed || anchor.state === 'installed') return;
    sayLacking(placed, ['side-room'], context);
    // Where there is nothing to grip or the body meets something, that comes first, and sliding past it mends both.
    if (inTheWay(placed, ['no-concrete', 'thing', 'neighbour']).length > 0) return;
    const inFront = inTheWayBut(placed, ['side-room'], ['gas', 'power']);
    const [first] = inFront;
    if (!first) return;
    const answer = context.limit('side-room', drillOf(anchor));
    const limit = answer.kind === 'limit' ? answer.limit : undefined;
    const source = first.wanted === undefined ? '' : ` (${askedBy(limit, first.wanted, connector)})`;
    context.report({
      message:
        `No room to drill ${anchor.name} (${connector.name}) at ${context.showStation(placed.station)} sideways: ${first.words}${source}. ` +
        `${clearSpotsWords(placed, context)} Or bolt from above.`,
      span: anchor.stationSource ?? anchor.source,
      related: placesOf(inFront),
      citation: limit?.citation,
      fixes: (now) => [...waysOut(now, wall, placed.piece, anchor), ...haveMoved(wall, first.thing)],
    });
  },
});
