import type { Stretch } from '../model/layout.ts';
import type { Length } from '../units/length.ts';
import { larger, smaller } from '../units/length.ts';

/** Closed stretches in order that do not touch; one station is a stretch from itself to itself. */
export type Intervals = readonly Stretch[];

/** What is left of a closed stretch when open stretches are taken out. Touching is allowed, so ends stay in. */
export function withoutOpen(whole: Stretch, taken: readonly Stretch[]): Intervals {
  const left: Stretch[] = [];
  let from: Length = whole.from;
  for (const hole of taken.toSorted((a, b) => a.from - b.from)) {
    // A hole without inside takes nothing.
    if (hole.to <= hole.from || hole.to <= from) continue;
    if (hole.from >= whole.to && hole.from > whole.from) break;
    if (hole.from >= from) left.push({ from, to: smaller(hole.from, whole.to) });
    from = hole.to;
  }
  if (from <= whole.to) left.push({ from, to: whole.to });
  return left;
}

/** The parts of intervals that lie within a closed stretch. */
export function within(intervals: Intervals, stretch: Stretch): Intervals {
  return intervals.flatMap((each) => {
    const from = larger(each.from, stretch.from);
    const to = smaller(each.to, stretch.to);
    return from <= to ? [{ from, to }] : [];
  });
}

export const contains = (intervals: Intervals, station: Length): boolean =>
  intervals.some((each) => each.from <= station && station <= each.to);
