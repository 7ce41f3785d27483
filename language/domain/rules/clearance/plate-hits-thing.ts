import { defineRule } from '../define.ts';
import { demo, sound } from '../example-texts.ts';
import { clearSpotsWords, inTheWay, placedAnchor, sayLacking, waysOut } from './anchor-fit.ts';

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
    if (inTheWay(placed, ['no-concrete']).length > 0) return;
    const [first, ...others] = inTheWay(placed, ['thing', 'neighbour']);
    if (!first) return;
    const { show, showStation } = context;
    const wide = connector.body ? `, ${show(connector.body.wide)} wide,` : '';
    const caution = first.service ? ' Locate and expose both sides first.' : '';
    context.report({
      message: `${anchor.name} (${connector.name}${wide} at ${showStation(placed.station)}) meets ${first.words}. ${clearSpotsWords(placed, context)}${caution}`,
      span: anchor.stationSource ?? anchor.source,
      related: [first, ...others].flatMap((each) => (each.span ? [{ span: each.span, message: each.words }] : [])),
      fixes: (now) => waysOut(now, wall, placed.piece, anchor),
    });
  },
});
