import { gapBetween } from './chain.ts';
import type { MarkedChain } from './tape-marks.ts';

/** An anchor whose station is settled: a new one on a tape mark, or a stop, which may stand between two of them. */
export interface Settled {
  readonly anchorClass: number;
  readonly station: number;
  /** In tape marks; `undefined` for a stop. */
  readonly place: number | undefined;
}

/** Places from one to another; none where `least` is the greater. */
export interface Range {
  readonly least: number;
  readonly greatest: number;
}
const nothing: Range = { least: 0, greatest: -1 };

/** Where a new anchor of a class may stand as the right neighbour of a settled one. */
export function rightOf(marked: MarkedChain, left: Settled, anchorClass: number): Range {
  if (left.place !== undefined) {
    return {
      least: left.place + (marked.gapLeast[left.anchorClass]?.[anchorClass] ?? 0),
      greatest: left.place + (marked.gapGreatest[left.anchorClass]?.[anchorClass] ?? 0),
    };
  }
  const gap = gapOf(marked, left.anchorClass, anchorClass);
  if (gap === undefined) return nothing;
  return {
    least: Math.ceil((left.station + gap.least) / marked.step),
    greatest: Math.floor((left.station + gap.greatest) / marked.step),
  };
}

/** Where a new anchor of a class may stand as the left neighbour of a stop. */
export function leftOfStop(marked: MarkedChain, stop: Settled, anchorClass: number): Range {
  const gap = gapOf(marked, anchorClass, stop.anchorClass);
  if (gap === undefined) return nothing;
  return {
    least: Math.ceil((stop.station - gap.greatest) / marked.step),
    greatest: Math.floor((stop.station - gap.least) / marked.step),
  };
}

export function mayBeNeighbours(marked: MarkedChain, left: Settled, right: Settled): boolean {
  if (right.place !== undefined) {
    const { least, greatest } = rightOf(marked, left, right.anchorClass);
    return right.place >= least && right.place <= greatest;
  }
  if (left.place !== undefined) {
    const { least, greatest } = leftOfStop(marked, right, left.anchorClass);
    return left.place >= least && left.place <= greatest;
  }
  const gap = gapOf(marked, left.anchorClass, right.anchorClass);
  const between = right.station - left.station;
  return gap !== undefined && between >= gap.least && between <= gap.greatest;
}

function gapOf({ classes, slip, slack, step }: MarkedChain, left: number, right: number): Range | undefined {
  const a = classes[left];
  const b = classes[right];
  return a === undefined || b === undefined ? undefined : gapBetween(a, b, slip, slack * step);
}
