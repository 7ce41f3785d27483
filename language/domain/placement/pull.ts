import type { IntervalSet } from './interval-set.ts';

/**
 * How far a placement strays from the preferred stations, as a function of where its leftmost anchor stands: straight
 * pieces over whole numbers, flat `[from, to, value at from, rise per step, …]`, ascending, never overlapping. Where there
 * is no piece, nothing can stand. The same job as an interval set, with a number at every place, and as independent of
 * the unit.
 */
export type Pull = readonly number[];

const WIDTH = 4;

export function isNoPull(pull: Pull): boolean {
  return pull.length === 0;
}

/** The same value everywhere on a set. */
export function evenPull(set: IntervalSet, value: number): Pull {
  const pull: number[] = [];
  for (let at = 0; at < set.length; at += 2) pull.push(number(set, at), number(set, at + 1), value, 0);
  return pull;
}

/**
 * Distance to the nearest of `targets` (ascending, in the problem's unit) at each whole `place`, which stands at
 * `place × step`. Without targets it is 0 everywhere.
 */
export function distanceToNearest(targets: readonly number[], step: number, least: number, greatest: number): Pull {
  if (least > greatest) return [];
  if (targets.length === 0) return [least, greatest, 0, 0];
  const pull: number[] = [];
  let from = least;
  for (const [index, target] of targets.entries()) {
    const next = targets[index + 1];
    // The places that this target serves end halfway to the next one; a tie is equally far from both.
    const to = next === undefined ? greatest : Math.min(greatest, Math.floor((target + next) / 2 / step));
    if (to < from) continue;
    const turn = Math.floor(target / step);
    if (from <= turn) {
      const end = Math.min(turn, to);
      append(pull, from, end, target - from * step, -step);
      from = end + 1;
    }
    if (from <= to) append(pull, from, to, from * step - target, step);
    from = to + 1;
  }
  return pull;
}

export function clipPull(pull: Pull, least: number, greatest: number): Pull {
  const clipped: number[] = [];
  for (let at = 0; at < pull.length; at += WIDTH) {
    const from = Math.max(number(pull, at), least);
    const to = Math.min(number(pull, at + 1), greatest);
    if (from <= to) clipped.push(from, to, valueAt(pull, at, from), number(pull, at + 3));
  }
  return clipped;
}

/** The sum of two, on `set` only. */
export function sumOn(set: IntervalSet, a: Pull, b: Pull): Pull {
  const sum: number[] = [];
  let i = 0;
  let j = 0;
  let s = 0;
  while (i < a.length && j < b.length && s < set.length) {
    const from = Math.max(number(a, i), number(b, j), number(set, s));
    const endA = number(a, i + 1);
    const endB = number(b, j + 1);
    const endSet = number(set, s + 1);
    const to = Math.min(endA, endB, endSet);
    if (from <= to) {
      append(sum, from, to, valueAt(a, i, from) + valueAt(b, j, from), number(a, i + 3) + number(b, j + 3));
    }
    if (endA === to) i += WIDTH;
    if (endB === to) j += WIDTH;
    if (endSet === to) s += 2;
  }
  return sum;
}

/** `pull` on `set` only. */
export function pullOn(set: IntervalSet, pull: Pull): Pull {
  const on: number[] = [];
  let s = 0;
  for (let at = 0; at < pull.length; at += WIDTH) {
    while (s < set.length && number(set, s + 1) < number(pull, at)) s += 2;
    for (let part = s; part < set.length && number(set, part) <= number(pull, at + 1); part += 2) {
      const from = Math.max(number(pull, at), number(set, part));
      appendPart(on, from, Math.min(number(pull, at + 1), number(set, part + 1)), pull, at);
    }
  }
  return on;
}

/** The smaller of two wherever either is. */
export function lowerOf(a: Pull, b: Pull): Pull {
  if (a.length === 0) return b;
  if (b.length === 0) return a;
  const lower: number[] = [];
  overlay(a, b, (from, to, inA, inB) => {
    if (inA === undefined || inB === undefined)
      appendPart(lower, from, to, inA === undefined ? b : a, (inA ?? inB) as number);
    else
      splitWhereSmaller(a, inA, b, inB, from, to, (first, last, aIsSmaller) => {
        appendPart(lower, first, last, aIsSmaller ? a : b, aIsSmaller ? inA : inB);
      });
  });
  return lower;
}

/** What of `a` lies strictly below `b`, or where `b` is not. */
export function belowOf(a: Pull, b: Pull): Pull {
  if (a.length === 0 || b.length === 0) return a;
  const below: number[] = [];
  overlay(a, b, (from, to, inA, inB) => {
    if (inA === undefined) return;
    if (inB === undefined) appendPart(below, from, to, a, inA);
    else
      splitWhereSmaller(b, inB, a, inA, from, to, (first, last, bIsNotAbove) => {
        if (!bIsNotAbove) appendPart(below, first, last, a, inA);
      });
  });
  return below;
}

/**
 * At each place the least value between `least` and `greatest` to the right of it. A straight piece gives at most two
 * pieces: where its own lower end is in reach that value, elsewhere the value at the near or the far edge of the reach.
 */
export function leastToTheRight(pull: Pull, least: number, greatest: number): Pull {
  if (least > greatest || pull.length === 0) return [];
  const reach = greatest - least;
  const parts: Pull[] = [];
  for (let at = 0; at < pull.length; at += WIDTH) {
    const from = number(pull, at);
    const to = number(pull, at + 1);
    const value = number(pull, at + 2);
    const rise = number(pull, at + 3);
    if (rise === 0 || from === to) parts.push([from - greatest, to - least, value, 0]);
    else if (reach === 0) parts.push([from - least, to - least, value, rise]);
    else if (rise > 0)
      parts.push([from - greatest, from - least, value, 0, from - least + 1, to - least, value + rise, rise]);
    else
      parts.push([
        from - greatest,
        to - greatest,
        value,
        rise,
        to - greatest + 1,
        to - least,
        value + rise * (to - from),
        0,
      ]);
  }
  return lowest(parts, 0, parts.length);
}

export function leastOf(pull: Pull): number {
  let least = Number.POSITIVE_INFINITY;
  for (let at = 0; at < pull.length; at += WIDTH) {
    least = Math.min(least, number(pull, at + 2), valueAt(pull, at, number(pull, at + 1)));
  }
  return least;
}

/** The first place from `least` to `greatest` whose value is `atMost` or less. */
export function firstPlace(pull: Pull, least: number, greatest: number, atMost: number): number | undefined {
  for (let at = 0; at < pull.length; at += WIDTH) {
    const from = Math.max(number(pull, at), least);
    const to = Math.min(number(pull, at + 1), greatest);
    if (from > to) continue;
    const value = valueAt(pull, at, from);
    if (value <= atMost) return from;
    const rise = number(pull, at + 3);
    if (rise >= 0) continue;
    const place = from + Math.ceil((value - atMost) / -rise);
    if (place <= to) return place;
  }
  return undefined;
}

export function pullAt(pull: Pull, place: number): number | undefined {
  for (let at = 0; at < pull.length; at += WIDTH) {
    if (place < number(pull, at)) return undefined;
    if (place <= number(pull, at + 1)) return valueAt(pull, at, place);
  }
  return undefined;
}

/** Lower envelope of many, by halves: each place is merged log times. */
function lowest(parts: readonly Pull[], from: number, to: number): Pull {
  if (to - from === 1) return parts[from] as Pull;
  const middle = (from + to) >> 1;
  return lowerOf(lowest(parts, from, middle), lowest(parts, middle, to));
}

/** Calls `visit` on each stretch where the pieces in force do not change, with their offsets. */
function overlay(
  a: Pull,
  b: Pull,
  visit: (from: number, to: number, inA: number | undefined, inB: number | undefined) => void,
): void {
  let i = 0;
  let j = 0;
  let from = Number.NEGATIVE_INFINITY;
  while (i < a.length || j < b.length) {
    const startA = i < a.length ? Math.max(from, number(a, i)) : Number.POSITIVE_INFINITY;
    const startB = j < b.length ? Math.max(from, number(b, j)) : Number.POSITIVE_INFINITY;
    const endA = i < a.length ? number(a, i + 1) : Number.POSITIVE_INFINITY;
    const endB = j < b.length ? number(b, j + 1) : Number.POSITIVE_INFINITY;
    const start = Math.min(startA, startB);
    const inA = startA === start;
    const inB = startB === start;
    const to = Math.min(inA ? endA : startA - 1, inB ? endB : startB - 1);
    visit(start, to, inA ? i : undefined, inB ? j : undefined);
    from = to + 1;
    if (endA === to) i += WIDTH;
    if (endB === to) j += WIDTH;
  }
}

/** Cuts `[from, to]`, where both are straight, into at most two parts: `a` not above `b`, and `a` above `b`. */
function splitWhereSmaller(
  a: Pull,
  inA: number,
  b: Pull,
  inB: number,
  from: number,
  to: number,
  visit: (from: number, to: number, aIsNotAbove: boolean) => void,
): void {
  const atFrom = valueAt(a, inA, from) - valueAt(b, inB, from);
  const atTo = valueAt(a, inA, to) - valueAt(b, inB, to);
  const rise = number(a, inA + 3) - number(b, inB + 3);
  if (atFrom <= 0 === atTo <= 0) visit(from, to, atFrom <= 0);
  else if (atFrom > 0) {
    const crossing = from + Math.ceil(atFrom / -rise);
    visit(from, crossing - 1, false);
    visit(crossing, to, true);
  } else {
    const last = from + Math.floor(-atFrom / rise);
    visit(from, last, true);
    visit(last + 1, to, false);
  }
}

function appendPart(pull: number[], from: number, to: number, source: Pull, at: number): void {
  append(pull, from, to, valueAt(source, at, from), number(source, at + 3));
}

function append(pull: number[], from: number, to: number, value: number, rise: number): void {
  const last = pull.length - WIDTH;
  if (last >= 0 && number(pull, last + 1) === from - 1) {
    const lastFrom = number(pull, last);
    const lastRise = number(pull, last + 3);
    const single = lastFrom === from - 1;
    const riseBetween = value - valueAt(pull, last, from - 1);
    if ((single || lastRise === riseBetween) && (from === to || rise === riseBetween)) {
      pull[last + 1] = to;
      pull[last + 3] = riseBetween;
      return;
    }
  }
  pull.push(from, to, value, rise);
}

function valueAt(pull: Pull, at: number, place: number): number {
  return number(pull, at + 2) + number(pull, at + 3) * (place - number(pull, at));
}

function number(values: readonly number[], at: number): number {
  return values[at] as number;
}
