import { insideEnds, mostFrom } from './chain.ts';
import { clearStretches } from './clear-stretches.ts';
import type { AnchorLimits, PlacedAnchor, PlacementPiece, PlacementProblem, Stretch } from './problem.ts';

/** How far one anchor may slide while all others stay: whole tape marks, from its station to either side. */
export interface Slide {
  readonly anchor: PlacedAnchor;
  readonly left: number;
  readonly right: number;
}

/**
 * The rule of thumb for the crew: "this one may go so far left, so far right". For every new anchor of a placement that
 * keeps its limits; the promised slip is not held back, as the others are taken where they are drawn. An end anchor on the
 * one spot that an obstruction leaves may not slide.
 */
export function slides(problem: PlacementProblem, anchors: readonly PlacedAnchor[]): Slide[] {
  const rows = rowsOf(problem, anchors);
  return anchors.map((anchor) => {
    const room = roomOf(problem, rows, anchor);
    if (room === undefined) return { anchor, left: 0, right: 0 };
    const marks = (length: number) => Math.max(0, Math.floor(length / problem.step) * problem.step);
    return { anchor, left: marks(anchor.station - room.from), right: marks(room.to - anchor.station) };
  });
}

/** Where an anchor of a kind may stand between its neighbours, by the limits alone; obstructions are another matter. */
export function betweenNeighbours(
  problem: PlacementProblem,
  rows: readonly Row[],
  piece: PlacementPiece,
  station: number,
  limits: AnchorLimits,
): Stretch {
  const index = problem.pieces.indexOf(piece);
  const row = rows[index] ?? [];
  const before = row.filter((other) => other.station < station).at(-1);
  const after = row.find((other) => other.station > station);
  // Across a break that joins, the last anchor of the piece before and the first of the piece after are neighbours too.
  const joined = problem.pieces[index - 1]?.joinsNext === true ? rows[index - 1]?.at(-1) : undefined;
  const joining = piece.joinsNext ? rows[index + 1]?.[0] : undefined;
  const left = before ?? joined;
  const right = after ?? joining;
  let { from, to } = insideEnds(piece, limits);
  if (before === undefined) to = Math.min(to, piece.from + mostFrom('left', limits));
  if (after === undefined) from = Math.max(from, piece.to - mostFrom('right', limits));
  if (left !== undefined) {
    from = Math.max(from, left.station + Math.max(left.limits.minGap, limits.minGap));
    to = Math.min(to, left.station + strictest(left.limits, limits));
  }
  if (right !== undefined) {
    to = Math.min(to, right.station - Math.max(right.limits.minGap, limits.minGap));
    from = Math.max(from, right.station - strictest(right.limits, limits));
  }
  return { from, to };
}

/** All anchors that count, fixed and new, by piece, then by station. */
export type Row = readonly { readonly station: number; readonly limits: AnchorLimits }[];
export function rowsOf(problem: PlacementProblem, anchors: readonly PlacedAnchor[]): Row[] {
  return problem.pieces.map((piece) => {
    const fixed = piece.fixed.filter(({ counts }) => counts).map(({ station, limits }) => ({ station, limits }));
    const placed = anchors
      .filter((anchor) => anchor.piece === piece.id)
      .flatMap(({ station, kind }) => {
        const offer = piece.offers.find((candidate) => candidate.kind === kind);
        return offer === undefined ? [] : [{ station, limits: offer.limits }];
      });
    return [...fixed, ...placed].sort((a, b) => a.station - b.station);
  });
}

function roomOf(
  problem: PlacementProblem,
  rows: readonly Row[],
  { piece: id, station, kind }: PlacedAnchor,
): Stretch | undefined {
  const piece = problem.pieces.find((candidate) => candidate.id === id);
  const offer = piece?.offers.find((candidate) => candidate.kind === kind);
  if (piece === undefined || offer === undefined) return undefined;
  const clear = clearStretches(piece, kind, offer.available, piece.obstructions).find(
    ({ from, to }) => from <= station && station <= to,
  );
  const between = betweenNeighbours(problem, rows, piece, station, offer.limits);
  // Outside its own window it stands where the exception for obstructed ends put it.
  if (clear === undefined || station < between.from || station > between.to) return undefined;
  return { from: Math.max(clear.from, between.from), to: Math.min(clear.to, between.to) };
}

function strictest(a: AnchorLimits, b: AnchorLimits): number {
  return Math.min(a.maxGap ?? Number.POSITIVE_INFINITY, b.maxGap ?? Number.POSITIVE_INFINITY);
}
