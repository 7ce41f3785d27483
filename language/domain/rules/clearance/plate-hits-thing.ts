import { distanceAlong } from '../../fit/fit-case.ts';
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
  standsInRot,
  waysOut,
} from './anchor-fit.ts';

export const plateHitsThing = defineRule({
  id: 'clearance/plate-hits-thing',
  severity: 'error',
  on: 'anchor',
  summary: 'The body of a connector meets a pipe, a conduit, an opening or the concrete of the next wall.',
  why: 'It will not go on. Found out on site, it gets cut, bent, or left out.',
  remedy: 'Slide it clear, take a connector that fits, or have the thing moved by the trade that it belongs to.',
  subjects: { 'drill-clear': 'length' },
  examples: [
    {
      failing: demo({ anchors: sound, found: [`pipe P1 "drain" at 8'-8" wide 3"`] }),
      passing: demo({ anchors: sound, found: [`pipe P1 "drain" at 6'-8" wide 3"`] }),
    },
  ],
  check({ wall, anchor, connector }, context) {
    const placed = placedAnchor(context.layout, wall, anchor, connector);
    if (!placed) return;
    sayLacking(placed, ['thing', 'neighbour'], context);
    // No concrete to grip is the graver mistake of the two, and sliding past it mends both.
    if (inTheWay(placed, ['no-concrete']).length > 0 || standsInRot(placed)) return;
    // That holes come too near to gas or power is graver than that the body meets the pipe.
    const met = inTheWayBut(placed, ['thing', 'neighbour'], ['gas', 'power']);
    const [first] = met;
    if (!first) return;
    const { show, showStation } = context;
    const answer = context.limit('drill-clear', drillOf(anchor));
    const limit = answer.kind === 'limit' && connector.kind === 'through-bolt' ? answer.limit : undefined;
    const wide = connector.body ? `, ${show(connector.body.wide)} wide,` : '';
    // A bolt has no body in front of the wall: what it wants is room round the drill.
    const meets =
      first.wanted === undefined
        ? `meets ${first.words}`
        : `is ${show(distanceAlong(first, placed.station))} from ${first.words}; ${show(first.wanted)} wanted (${askedBy(limit, first.wanted, connector)})`;
    const caution = first.service ? ' Locate and expose both sides first.' : '';
    context.report({
      message: `${anchor.name} (${connector.name}${wide} at ${showStation(placed.station)}) ${meets}. ${clearSpotsWords(placed, context)}${caution}`,
      span: anchor.stationSource ?? anchor.source,
      related: placesOf(met),
      citation: first.wanted === undefined ? undefined : limit?.citation,
      fixes: (now) => [...waysOut(now, wall, placed.piece, anchor), ...haveMoved(wall, first.thing)],
    });
  },
});
