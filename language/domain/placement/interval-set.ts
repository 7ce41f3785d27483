/**
 * A set of whole numbers as ascending closed intervals, flat: `[from, to, from, to, …]`. Neighbouring numbers belong to
 * one interval, so two sets are equal exactly when their arrays are. Never points in a list: a set stays a few numbers
 * long however fine the unit is.
 */
export type IntervalSet = readonly number[];

export const nowhere: IntervalSet = [];

export function isNowhere(set: IntervalSet): boolean {
  return set.length === 0;
}

/** From any list of intervals, in any order, overlapping or not. */
export function intervalSet(intervals: readonly (readonly [number, number])[]): IntervalSet {
  const sorted = intervals.filter(([from, to]) => from <= to).sort((a, b) => a[0] - b[0]);
  const set: number[] = [];
  for (const [from, to] of sorted) append(set, from, to);
  return set;
}

export function contains(set: IntervalSet, place: number): boolean {
  for (let at = 0; at < set.length; at += 2) {
    if (place < number(set, at)) return false;
    if (place <= number(set, at + 1)) return true;
  }
  return false;
}

export function clip(set: IntervalSet, least: number, greatest: number): IntervalSet {
  if (set.length === 0 || (number(set, 0) >= least && number(set, set.length - 1) <= greatest)) return set;
  const clipped: number[] = [];
  for (let at = 0; at < set.length; at += 2) {
    const from = Math.max(number(set, at), least);
    const to = Math.min(number(set, at + 1), greatest);
    if (from <= to) clipped.push(from, to);
  }
  return clipped;
}

export function intersection(a: IntervalSet, b: IntervalSet): IntervalSet {
  const both: number[] = [];
  let i = 0;
  let j = 0;
  while (i < a.length && j < b.length) {
    const from = Math.max(number(a, i), number(b, j));
    const to = Math.min(number(a, i + 1), number(b, j + 1));
    if (from <= to) both.push(from, to);
    if (number(a, i + 1) < number(b, j + 1)) i += 2;
    else j += 2;
  }
  return both;
}

export function union(a: IntervalSet, b: IntervalSet): IntervalSet {
  if (a.length === 0) return b;
  if (b.length === 0) return a;
  const either: number[] = [];
  let i = 0;
  let j = 0;
  while (i < a.length || j < b.length) {
    if (j >= b.length || (i < a.length && number(a, i) <= number(b, j))) {
      append(either, number(a, i), number(a, i + 1));
      i += 2;
    } else {
      append(either, number(b, j), number(b, j + 1));
      j += 2;
    }
  }
  return either;
}

/** `a` without `b`. Exact only because the numbers are whole: `[0, 9]` without `[3, 5]` is `[0, 2]` and `[6, 9]`. */
export function difference(a: IntervalSet, b: IntervalSet): IntervalSet {
  if (a.length === 0 || b.length === 0) return a;
  const rest: number[] = [];
  let j = 0;
  for (let i = 0; i < a.length; i += 2) {
    let from = number(a, i);
    const to = number(a, i + 1);
    while (j < b.length && number(b, j + 1) < from) j += 2;
    let at = j;
    while (from <= to && at < b.length && number(b, at) <= to) {
      if (number(b, at) > from) rest.push(from, number(b, at) - 1);
      from = number(b, at + 1) + 1;
      at += 2;
    }
    if (from <= to) rest.push(from, to);
  }
  return rest;
}

/** Every place from which some place of `set` lies between `least` and `greatest` to the right. */
export function reachedFromTheLeft(set: IntervalSet, least: number, greatest: number): IntervalSet {
  if (least > greatest) return nowhere;
  const reached: number[] = [];
  for (let at = 0; at < set.length; at += 2) append(reached, number(set, at) - greatest, number(set, at + 1) - least);
  return reached;
}

/** Adds an interval that starts no earlier than the last one. */
function append(set: number[], from: number, to: number): void {
  const last = set.length - 1;
  if (last > 0 && from <= number(set, last) + 1) {
    if (to > number(set, last)) set[last] = to;
  } else set.push(from, to);
}

function number(set: IntervalSet, at: number): number {
  return set[at] as number;
}
