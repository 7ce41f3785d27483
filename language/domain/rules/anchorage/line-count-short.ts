import { anchorsOf } from '../../fit/piece-anchors.ts';
import {
  countAsked,
  diametersOn,
  endDistanceAsked,
  endDistanceSubjects,
  lengthOfPiece,
  pastObstructionAllowed,
  spacingAsked,
  takesOneAnchor,
} from '../../fit/piece-requirements.ts';
import { lineOf, othersOfLine, speaksForLine } from '../../fit/storeys.ts';
import { insertAnchors } from '../../fixes/anchor-fixes.ts';
import type { Layout, SillPiece, Wall } from '../../model/layout.ts';
import { toleranceOf } from '../../rulesets/tolerance.ts';
import { minus } from '../../units/length.ts';
import { defineRule } from '../define.ts';
import { demo } from '../example-texts.ts';
import { sourceWords } from '../limit-words.ts';
import { countIsShort } from './counts.ts';
import { hasBareEnd } from './end-too-far.ts';

const openings = [`window W1 0'-6" to 2'-8" reaches-sill`];
const sill = 'size 2x6 set-back 3/4" headroom 11-1/8"';

export const lineCountShort = defineRule({
  id: 'anchorage/line-count-short',
  severity: 'error',
  on: 'wall',
  besides: 'along-line',
  summary: 'Moved past things in the way, the anchors of a line are fewer than it takes without them.',
  why: 'Where a window or a pipe fills the end of a board, the anchor may stand past it. That shortens the row, but not the force: as many anchors as on a clear line have to carry it.',
  remedy: 'Add an anchor next to what is in the way, so that the line has the number that it would have without it.',
  subjects: {
    'anchor-spacing': 'length',
    'piece-count': 'number',
    ...endDistanceSubjects,
    'side-plate-as-bolt': 'length',
    'end-window-past-obstruction': 'verdict',
    tolerance: 'length',
  },
  examples: [
    {
      failing: demo({
        length: `14'-2"`,
        sill,
        found: openings,
        anchors: [`3'-1"`, `6'-8"`, `10'-0"`, `13'-4"`],
      }),
      passing: demo({
        length: `14'-2"`,
        sill,
        found: openings,
        anchors: [`3'-1"`, `5'-8"`, `8'-3"`, `10'-10"`, `13'-4"`],
      }),
    },
  ],
  check({ wall }, context) {
    const { layout } = context;
    const exception = pastObstructionAllowed(layout);
    // Only past an obstruction can a row that keeps its gaps and its ends be short.
    if (!exception || !speaksForLine(layout, wall)) return;
    const walls = [wall, ...othersOfLine(layout, wall)].filter((each) => each.anchors.length > 0 || !each.noWork);
    const boards = walls.flatMap((each) => each.pieces.map((piece) => ({ wall: each, piece })));
    let has = 0;
    let full = 0;
    const short: (typeof boards)[number][] = [];
    for (const board of boards) {
      const counted = anchorsOf(board.wall, board.piece).length;
      const asked = fullCount(layout, board.wall, board.piece);
      // A finding on the board itself, or an open question, says more.
      if (asked === undefined || counted === 0 || countIsShort(layout, board.wall, board.piece)) return;
      if (hasWideGap(layout, board.wall, board.piece) || hasBareEnd(layout, board.wall, board.piece)) return;
      has += counted;
      full += asked;
      if (counted < asked) short.push(board);
    }
    const [first] = short;
    if (has >= full || !first) return;
    const line = lineOf(layout, wall);
    const what = line ? `Line ${line.name}` : `Wall ${wall.name}`;
    const missing = full - has;
    context.report({
      message:
        `${what} has ${has} anchors; without what stands in the way it takes ${full}, and that number stays ` +
        `(${sourceWords(exception)}). Add ${missing} on ${short.map((each) => each.piece.name).join(' or ')}, next to what is in the way.`,
      thing: wall.id,
      layer: 'design',
      span: wall.nameSource,
      related: short.map((each) => ({ span: each.piece.source, message: `sill ${each.piece.name}` })),
      citation: exception.citation,
      fixes: (now) =>
        short
          .filter((each) => each.wall === wall)
          .flatMap((each) =>
            insertAnchors(now, wall, each.piece, {
              kind: 'piece',
              atLeast: anchorsOf(wall, each.piece).length + missing,
            }),
          ),
    });
  },
});

/** How many anchors a board takes where nothing is in the way; `undefined` where the rules leave it open. */
export function fullCount(layout: Layout, wall: Wall, piece: SillPiece): number | undefined {
  const diameters = diametersOn(wall, piece);
  const count = countAsked(layout, wall, piece, diameters);
  const least = count.kind === 'asked' ? count.value : 1;
  if (count.kind !== 'asked' && count.kind !== 'none') return undefined;
  if (takesOneAnchor(layout, wall, piece, diameters)) return least;
  const left = endDistanceAsked(layout, wall, piece, 'left', 'most', diameters);
  const right = endDistanceAsked(layout, wall, piece, 'right', 'most', diameters);
  const spacing = spacingAsked(layout, wall, piece, piece, diameters);
  if (spacing.kind !== 'asked') return count.kind === 'asked' ? least : undefined;
  if (left.kind !== 'asked' || right.kind !== 'asked') return undefined;
  const tolerance = toleranceOf(layout.rules);
  const between = lengthOfPiece(piece) - left.value - right.value - 2 * tolerance;
  return Math.max(least, 2, Math.ceil(between / (spacing.value + tolerance)) + 1);
}

function hasWideGap(layout: Layout, wall: Wall, piece: SillPiece): boolean {
  const anchors = anchorsOf(wall, piece);
  const tolerance = toleranceOf(layout.rules);
  const diameters = diametersOn(wall, piece);
  return anchors.some((right, index) => {
    const left = anchors[index - 1];
    if (!left) return false;
    const asked = spacingAsked(layout, wall, piece, { from: left.station, to: right.station }, diameters);
    return asked.kind === 'asked' && minus(right.station, left.station) > asked.value + tolerance;
  });
}
