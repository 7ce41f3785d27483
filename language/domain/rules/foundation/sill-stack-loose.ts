import { footprintOf } from '../../fit/footprint.ts';
import { changeConnector } from '../../fixes/anchor-fixes.ts';
import { knownValue } from '../../model/reading.ts';
import { placedAnchor } from '../clearance/anchor-fit.ts';
import { defineRule } from '../define.ts';
import { demo } from '../example-texts.ts';

const doubled = {
  anchors: [`1'-0"`],
  length: `2'-0"`,
  sill: `size 2x6 set-back 3/4" headroom 25" double`,
} as const;

export const sillStackLoose = defineRule({
  id: 'foundation/sill-stack-loose',
  severity: 'warning',
  on: 'anchor',
  summary: 'On a double sill the screws of a side plate reach one of the two boards only.',
  why: 'The board that no screw holds slides on the other. A bolt down through both holds both.',
  remedy:
    'Stitch the boards together with nails or screws and note it, take a plate with screws in both, or bolt through both.',
  subjects: {},
  examples: [
    {
      failing: demo(doubled),
      passing: demo({ ...doubled, connectors: ['bolt-half'], sill: doubled.sill.replace('3/4"', '1-1/2"') }),
    },
  ],
  check({ wall, anchor, connector }, context) {
    const placed = placedAnchor(context.layout, wall, anchor, connector);
    const piece = placed?.piece;
    if (!placed || !piece?.double || connector.kind === 'through-bolt') return;
    const thick = knownValue(piece.size?.thick);
    const { heights } = footprintOf(placed.fitCase);
    if (thick === undefined || !heights) {
      context.lacks({ wants: `thickness of sill ${piece.name}`, at: piece.source, thing: piece.id });
      return;
    }
    const middle = Math.floor((heights.low + heights.high) / 2);
    const screws = connector.holes
      .filter((each) => each.member === 'sill')
      .flatMap((each) => each.points)
      .map(({ y }) => middle + y);
    const inLower = screws.some((height) => 0 < height && height < thick);
    const inUpper = screws.some((height) => thick < height && height < 2 * thick);
    if (inLower && inUpper) return;
    context.report({
      message:
        `Sill ${piece.name} is double, and the screws of ${anchor.name} (${connector.name}) at ${context.showStation(placed.station)} reach one of its ` +
        'boards only: the other can slide. Stitch them together and note it, or bolt through both.',
      span: anchor.connectorSource ?? anchor.source,
      related: [{ span: piece.source, message: `sill ${piece.name}` }],
      fixes: (now) => changeConnector(now, wall, piece, anchor),
    });
  },
});
