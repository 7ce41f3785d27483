import { tapeStep } from '../fixes/tape-step.ts';
import type { Defect, Layout, SillPiece, Wall } from '../model/layout.ts';
import { type PlacementMemory, placementMemory } from '../placement/memory.ts';
import { formatExactStation } from '../units/format-length.ts';
import { inches, type Length, NANOMETRES_PER_INCH, nanometres } from '../units/length.ts';
import type { ReliefWords } from './failure-words.ts';
import { type PlaceRequest, placeLayout } from './place-layout.ts';

const OF_WOOD: ReadonlySet<Defect['kind']> = new Set<Defect['kind']>(['rot', 'insects', 'split', 'notch']);
export const isDefectOfWood = ({ kind }: Defect): boolean => OF_WOOD.has(kind);

/** Sound wood is cut a foot past the soft part. Common practice, no source. */
const PAST_THE_DEFECT = inches(12);
/** No part is cut shorter. Common practice, no source. */
const SHORTEST_PART = inches(30);

/**
 * Where defects of its wood leave a board no placement: a piece of new board in their place, cut where both parts have one,
 * or a whole new board. Tried by placing anew with the cut; cuts are on whole inches, or whole 25 mm. The cheapest, then
 * the one with the most room at the cut, then the shortest.
 */
export function replacementFor(request: PlaceRequest, wall: Wall, piece: SillPiece): ReliefWords | undefined {
  const [layout] = request.layouts;
  const soft = wall.defects.filter(
    (defect) =>
      !defect.remedied &&
      isDefectOfWood(defect) &&
      defect.stretch !== undefined &&
      defect.stretch.from < piece.to &&
      defect.stretch.to > piece.from,
  );
  if (soft.length === 0) return undefined;
  const from = Math.min(...soft.map(({ stretch }) => stretch?.from ?? piece.from)) - PAST_THE_DEFECT;
  const to = Math.max(...soft.map(({ stretch }) => stretch?.to ?? piece.to)) + PAST_THE_DEFECT;
  // One cut: the new wood reaches from it to the nearer end of the board.
  const fromLeft = from - piece.from <= piece.to - to;
  const step = layout.title.units === 'metric' ? 25 * tapeStep('metric') : NANOMETRES_PER_INCH;
  const memory = placementMemory();
  const mended: Wall = {
    ...wall,
    defects: wall.defects.map((defect) => (soft.includes(defect) ? { ...defect, remedied: true } : defect)),
  };
  let best:
    | { readonly cost: number; readonly room: number; readonly long: number; readonly cut: Length | undefined }
    | undefined;
  const consider = (cut: Length | undefined): void => {
    const tried = costWith(request, wall, mended, piece, cut, memory);
    if (tried === undefined) return;
    const long = cut === undefined ? piece.to - piece.from : fromLeft ? cut - piece.from : piece.to - cut;
    const candidate = { ...tried, long, cut };
    if (best === undefined || isBetter(candidate, best)) best = candidate;
  };
  consider(undefined);
  const least = fromLeft ? Math.max(to, piece.from + SHORTEST_PART) : piece.from + SHORTEST_PART;
  const most = fromLeft ? piece.to - SHORTEST_PART : Math.min(from, piece.to - SHORTEST_PART);
  for (let at = Math.ceil(least / step) * step; at <= most; at += step) consider(nanometres(at));
  if (best === undefined) return undefined;
  const { cut, cost } = best;
  const show = (at: Length) => formatExactStation(at, layout.title.units);
  const range =
    cut === undefined
      ? `${show(piece.from)} to ${show(piece.to)}`
      : fromLeft
        ? `${show(piece.from)} to ${show(cut)}`
        : `${show(cut)} to ${show(piece.to)}`;
  return { words: `write \`replace sill ${piece.name} ${range}\` with new wood, and place again`, cost };
}

interface Tried {
  readonly cost: number;
  readonly room: number;
}

function isBetter(a: Tried & { readonly long: number }, b: Tried & { readonly long: number }): boolean {
  // Two ends more cost anchors of their own: a cut is worth it where it saves wood, so wood goes first among those that can be placed.
  const halfA = Math.min(a.room, GOOD_ROOM);
  const halfB = Math.min(b.room, GOOD_ROOM);
  if (halfA !== halfB) return halfA > halfB;
  return a.long !== b.long ? a.long < b.long : a.cost < b.cost;
}

/** More room than this round every anchor is as good as this much. */
const GOOD_ROOM = inches(1);

function costWith(
  request: PlaceRequest,
  wall: Wall,
  mended: Wall,
  piece: SillPiece,
  cut: Length | undefined,
  memory: PlacementMemory,
): Tried | undefined {
  const parts: readonly SillPiece[] =
    cut === undefined
      ? [piece]
      : [
          { ...piece, id: `${piece.id} left part`, to: cut, joint: 'butt' },
          { ...piece, id: `${piece.id} right part`, from: cut },
        ];
  const changed: Wall = { ...mended, pieces: mended.pieces.flatMap((each) => (each === piece ? parts : [each])) };
  const [first, ...rest] = request.layouts.map((layout): Layout => {
    return { ...layout, walls: layout.walls.map((each) => (each === wall ? changed : each)) };
  });
  if (first === undefined) return undefined;
  let cost = 0;
  let room = Number.POSITIVE_INFINITY;
  for (const part of parts) {
    const placement = placeLayout({
      ...request,
      layouts: [first, ...rest],
      scope: { kind: 'piece', wall: changed, piece: part },
      memory,
      unexplained: true,
    });
    const board = placement.boards[0];
    if (board?.outcome !== 'placed') return undefined;
    cost += board.cost;
    room = Math.min(room, board.slack ?? 0);
  }
  return { cost, room };
}
