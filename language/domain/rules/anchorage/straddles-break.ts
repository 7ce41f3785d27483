import { anchorsOf } from '../../fit/piece-anchors.ts';
import type { Side } from '../../fit/piece-requirements.ts';
import { diametersOn, endDistanceSubjects, isAtCorner, takesOneAnchor } from '../../fit/piece-requirements.ts';
import { removeAnchor } from '../../fixes/anchor-fixes.ts';
import type { Layout, NewAnchor, Wall } from '../../model/layout.ts';
import { minus } from '../../units/length.ts';
import { inTheWay, placedAnchor, waysOut } from '../clearance/anchor-fit.ts';
import { defineRule } from '../define.ts';
import { demo } from '../example-texts.ts';

const twoBoards = ['sill F2 to end size 2x6 set-back 3/4" headroom 11-1/8"'];
const firstBoard = 'to 5\'-0" size 2x6 set-back 3/4" headroom 11-1/8"';
const onBoards = [`0'-10"`, `4'-2"`, `5'-10"`, `8'-4"`, `10'-10"`, `13'-2"`];

export const straddlesBreak = defineRule({
  id: 'anchorage/straddles-break',
  severity: 'error',
  on: 'anchor',
  summary: 'A plate or a washer lies across the joint of two boards, or over the end of one.',
  why: 'Half of its screws hold each board, or hold nothing. Neither board is tied down by a whole connector, and the ends are where boards split.',
  remedy: 'Move it until all of it lies on one board, with the end distance kept.',
  subjects: { 'piece-count': 'number', ...endDistanceSubjects, 'side-plate-as-bolt': 'length' },
  examples: [
    {
      failing: demo({ anchors: [...onBoards, `5'-2"`], sill: firstBoard, found: twoBoards }),
      passing: demo({ anchors: onBoards, sill: firstBoard, found: twoBoards }),
    },
  ],
  check({ wall, anchor, connector }, context) {
    const placed = placedAnchor(context.layout, wall, anchor, connector);
    const piece = placed?.piece;
    if (!placed || !piece) return;
    const [side] = straddledEnds(context.layout, wall, anchor);
    if (!side) return;
    const end = side === 'left' ? piece.from : piece.to;
    const { show, showStation } = context;
    const wide = connector.body ? `, ${show(connector.body.wide)} wide,` : '';
    const over = side === 'left' ? minus(placed.station, end) : minus(end, placed.station);
    context.report({
      message:
        `${anchor.name} at ${showStation(placed.station)}${wide} lies over the ${side} end of sill ${piece.name} at ${showStation(end)}, ` +
        `${show(over)} from its middle: part of it holds nothing of this board. Move all of it onto one board.`,
      span: anchor.stationSource ?? anchor.source,
      related: [{ span: piece.source, message: `sill ${piece.name}` }],
      fixes: (now) => [
        ...waysOut(now, wall, piece, anchor),
        ...anchorsOf(wall, piece).flatMap((each) => (each.id === anchor.id ? removeAnchor(each) : [])),
      ],
    });
  },
});

/**
 * The ends of its board that the body of a new anchor lies over. At a corner of the house the end distance says it already,
 * except on a board so short that it has none.
 */
export function straddledEnds(layout: Layout, wall: Wall, anchor: NewAnchor): readonly Side[] {
  const placed = anchor.connector && placedAnchor(layout, wall, anchor, anchor.connector);
  const piece = placed?.piece;
  if (!placed || !piece) return [];
  const over = inTheWay(placed, ['joint']);
  if (over.length === 0) return [];
  const lone = takesOneAnchor(layout, wall, piece, diametersOn(wall, piece));
  return (['left', 'right'] as const).filter((side) => {
    const end = side === 'left' ? piece.from : piece.to;
    return over.some((each) => each.from < end && end < each.to) && (lone || !isAtCorner(wall, piece, side));
  });
}
