import { checkPlacement } from './check.ts';
import { clearStretches } from './clear-stretches.ts';
import { type Explanation, explainFailure } from './explain.ts';
import type { FixedAnchor, PlacedAnchor, PlacementObstruction, PlacementPiece, PlacementProblem } from './problem.ts';
import { betweenNeighbours, rowsOf } from './slide.ts';
import { type SolveOptions, solvePlacement } from './solve.ts';

/** What to do where a hole failed: it met steel or a stone, or it spun. */
export type NextSpot =
  /** Any one of these replaces it; everything else stays. The same kind first, then nearest to the dead hole. */
  | { readonly kind: 'spots'; readonly spots: readonly PlacedAnchor[] }
  /** No single one does, but these together do. */
  | { readonly kind: 'more-anchors'; readonly anchors: readonly PlacedAnchor[]; readonly cost: number }
  /** Stop here: nothing that the limits allow replaces it. */
  | { readonly kind: 'stop'; readonly explanations: readonly Explanation[] };

export interface FailedHole {
  readonly anchor: PlacedAnchor;
  /** Centre to centre, new hole from dead hole: twice the depth, by common practice, unless the approval says otherwise. */
  readonly away: number;
}

/**
 * Where to go on drilling when one hole of a placement fails. All other anchors are taken as in. The promised slip is not
 * held back: it was there to be used up. `undefined`: the placement does not hold the anchor.
 */
export function nextSpot(
  problem: PlacementProblem,
  anchors: readonly PlacedAnchor[],
  { anchor: failed, away }: FailedHole,
  options: SolveOptions = {},
): NextSpot | undefined {
  const others = anchors.filter((anchor) => anchor.piece !== failed.piece || anchor.station !== failed.station);
  const broken = problem.pieces.find(({ id }) => id === failed.piece);
  if (broken === undefined || others.length === anchors.length) return undefined;
  const deadHole: PlacementObstruction = {
    id: 'dead hole',
    physical: true,
    liftable: false,
    liftCost: undefined,
    blocks: [{ kind: undefined, from: failed.station - away, to: failed.station + away }],
  };
  const pieces = problem.pieces.map((piece) =>
    piece === broken ? { ...piece, obstructions: [...piece.obstructions, deadHole] } : piece,
  );
  const left: PlacementProblem = { ...problem, slip: 0, pieces };

  const spots = spotsFor(left, others, failed);
  if (spots.length > 0) return { kind: 'spots', spots };
  const around: PlacementProblem = { ...left, pieces: left.pieces.map((piece) => withStanding(left, piece, others)) };
  const answer = solvePlacement(around, options);
  if (answer.status === 'malformed') return undefined;
  if (answer.status === 'optimal' || answer.status === 'unproven') {
    return { kind: 'more-anchors', anchors: answer.anchors, cost: answer.cost };
  }
  return { kind: 'stop', explanations: answer.failed.map((failure) => explainFailure(around, failure, options)) };
}

/** The nearest tape marks of each clear stretch, for each kind, that put everything right with one anchor. */
function spotsFor(problem: PlacementProblem, others: readonly PlacedAnchor[], failed: PlacedAnchor): PlacedAnchor[] {
  const piece = problem.pieces.find(({ id }) => id === failed.piece);
  if (piece === undefined) return [];
  const { step } = problem;
  const rows = rowsOf(problem, others);
  const spots = piece.offers.flatMap((offer): PlacedAnchor[] => {
    const between = betweenNeighbours(problem, rows, piece, failed.station, offer.limits);
    return clearStretches(piece, offer.kind, offer.available, piece.obstructions).flatMap((part) => {
      const from = Math.ceil(Math.max(part.from, between.from) / step) * step;
      const to = Math.floor(Math.min(part.to, between.to) / step) * step;
      if (from > to) return [];
      const station = Math.min(Math.max(Math.round(failed.station / step) * step, from), to);
      return [{ piece: piece.id, station, kind: offer.kind }];
    });
  });
  const holds = (spot: PlacedAnchor) =>
    checkPlacement(problem, [...others, spot]).violations.every(({ standing }) => standing);
  const distance = ({ station }: PlacedAnchor) => Math.abs(station - failed.station);
  return spots
    .filter(holds)
    .sort(
      (a, b) =>
        Number(a.kind !== failed.kind) - Number(b.kind !== failed.kind) ||
        distance(a) - distance(b) ||
        a.station - b.station,
    );
}

function withStanding(
  problem: PlacementProblem,
  piece: PlacementPiece,
  anchors: readonly PlacedAnchor[],
): PlacementPiece {
  const standing = anchors
    .filter((anchor) => anchor.piece === piece.id)
    .flatMap(({ station, kind }): FixedAnchor[] => {
      const offer = piece.offers.find((candidate) => candidate.kind === kind);
      const capacity = problem.kinds.find(({ id }) => id === kind)?.capacity ?? 0;
      if (offer === undefined) return [];
      return [
        { id: `${kind} at ${station}`, station, limits: offer.limits, counts: true, capacity, drifts: false, kind },
      ];
    });
  return { ...piece, fixed: [...piece.fixed, ...standing] };
}
