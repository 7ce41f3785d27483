import type { MarkedPiece } from './tape-marks.ts';

/**
 * Least costs of what is left, wherever it stands. They depend on numbers only, never exceed the true cost, and placing an
 * anchor never lowers one by more than the anchor costs: the search needs all three.
 */
export interface Bounds {
  readonly cheapest: number;
  /** The most anchors that the piece can come to need. */
  readonly greatestNeed: number;
  /** For strength still wanted. */
  toCover(strength: number): number;
  /** For anchors still wanted. */
  toCount(anchors: number): number;
  readonly wholePiece: number;
}

export function boundsOf(piece: MarkedPiece): Bounds {
  const { offers } = piece;
  const cheapest = Math.min(...offers.map(({ cost }) => cost));
  const strong = offers.filter(({ capacity }) => capacity > 0);
  const toCount = (anchors: number) => (anchors > 0 ? anchors * cheapest : 0);
  const toCover = (strength: number) => {
    if (strength <= 0) return 0;
    // Whole numbers below 2^53, checked on input: the quotient rounds up exactly.
    const covered = strong.map(({ cost, capacity }) => Math.ceil((strength * cost) / capacity));
    return Math.max(cheapest, Math.min(...covered));
  };
  const leastNeed = piece.stops.some(({ options }) => options.some(({ kind }) => kind === undefined))
    ? piece.need
    : Math.min(...offers.map(({ need }) => need));
  return {
    cheapest,
    greatestNeed: Math.max(piece.need, ...offers.map(({ need }) => need)),
    toCover,
    toCount,
    wholePiece: Math.max(toCover(piece.demand), toCount(leastNeed)),
  };
}

/** By piece: the least cost of all pieces to the left of it. */
export function leastRestCosts(bounds: readonly Bounds[]): number[] {
  const rest = [0];
  for (const bound of bounds) rest.push((rest.at(-1) ?? 0) + bound.wholePiece);
  return rest;
}
