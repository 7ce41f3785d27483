import type { SillPiece, Wall } from '../../model/layout.ts';
import type { Length } from '../../units/length.ts';
import { inTheWay, placedAnchor } from '../clearance/anchor-fit.ts';
import type { RuleContext } from '../define.ts';
import { defineRule } from '../define.ts';
import { demo, sound } from '../example-texts.ts';

const twoBoards = ['sill F2 to 12\'-6" size 2x6 set-back 3/4" headroom 11-1/8"'];
const firstBoard = 'to 5\'-0" size 2x6 set-back 3/4" headroom 11-1/8"';
const onBoards = [`0'-10"`, `4'-2"`, `5'-10"`, `7'-10"`, `9'-10"`, `11'-8"`];

export const itemOnMissingSill = defineRule({
  id: 'geometry/item-on-missing-sill',
  severity: 'error',
  on: 'anchor',
  summary: 'A new anchor stands where no sill board lies.',
  why: 'It has nothing to tie down, so it counts for no board. Most often a station is mistyped, or a board is missing from the survey.',
  remedy: 'Move the anchor onto a board, or write down the board that lies there.',
  subjects: {},
  examples: [
    {
      failing: demo({ anchors: [...onBoards, `13'-3"`], sill: firstBoard, found: twoBoards }),
      passing: demo({ anchors: onBoards, sill: firstBoard, found: twoBoards }),
    },
    {
      failing: demo({ anchors: [`4'-8"`], sill: 'none', found: ['no sill'] }).replace('  sill F1 none\n', ''),
      passing: demo({ anchors: sound }),
    },
  ],
  check({ wall, anchor, connector }, context) {
    if (anchor.station === undefined) {
      context.lacks({ wants: `place of ${anchor.name}`, at: anchor.stationSource ?? anchor.source });
      return;
    }
    const placed = placedAnchor(context.layout, wall, anchor, connector);
    if (!placed || placed.piece) return;
    const { station } = placed;
    if (wall.unplaced.length > 0) {
      for (const { wants, source } of wall.unplaced) context.lacks({ wants, at: source, thing: wall.id });
      return;
    }
    // A station past an end of the wall, or in an opening, is told already.
    if (station < 0 || (wall.length !== undefined && station > wall.length)) return;
    if (inTheWay(placed, ['no-concrete']).length > 0) return;
    context.report({
      message:
        `${anchor.name} at ${context.showStation(station)} stands on no sill board, so it ties nothing and counts for none. ` +
        `${nearestBoards(wall, station, context)}`,
      span: anchor.stationSource ?? anchor.source,
    });
  },
});

function nearestBoards(wall: Wall, station: Length, { showStation }: RuleContext): string {
  const last = (best: SillPiece | undefined, each: SillPiece): SillPiece => (best && best.to >= each.to ? best : each);
  const first = (best: SillPiece | undefined, each: SillPiece): SillPiece =>
    best && best.from <= each.from ? best : each;
  const left = wall.pieces.filter((piece) => piece.to < station).reduce<SillPiece | undefined>(last, undefined);
  const right = wall.pieces.filter((piece) => piece.from > station).reduce<SillPiece | undefined>(first, undefined);
  const words = [
    ...(left ? [`${left.name} ends at ${showStation(left.to)}`] : []),
    ...(right ? [`${right.name} begins at ${showStation(right.from)}`] : []),
  ];
  if (words.length === 0) return `Wall ${wall.name} has no sill.`;
  return `${words.join('; ')}: move it onto a board.`;
}
