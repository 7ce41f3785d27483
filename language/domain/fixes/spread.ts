import type { Stretch } from '../model/layout.ts';
import type { Length } from '../units/length.ts';
import { nanometres } from '../units/length.ts';

/** One run of new anchors between what bounds it on the left and on the right. */
export interface SpreadProblem {
  readonly left: SpreadBound;
  readonly right: SpreadBound;
  /** Where the new anchors may stand, in order. */
  readonly clear: readonly Stretch[];
  /** Two neighbours are at most this far apart; `undefined`: however far. */
  readonly most: Length | undefined;
  /** Two neighbours are at least this far apart. */
  readonly apart: Length;
  /** Stations are whole multiples of it. */
  readonly step: Length;
}
export type SpreadBound =
  /** An anchor that stays where it is. */
  | { readonly kind: 'anchor'; readonly station: Length }
  /** The end of a board: the nearest anchor stands in this window. */
  | { readonly kind: 'end'; readonly window: Stretch };

/**
 * Stations for a given number of new anchors that keep every limit, or `undefined` where there are none. Exact: of all ways,
 * one with the most room to the nearest limit or blocked stretch, and of those one that is evenly spaced.
 *
 * All positions an anchor can have are carried along as stretches of tape marks (reachable sets), never tried one by one.
 */
export function spread(problem: SpreadProblem, count: number): readonly Length[] | undefined {
  if (count === 0) return [];
  const onTape = onTapeMarks(problem);
  let best = reach(onTape, count, 0);
  if (!best) return undefined;
  // More room is a stricter problem: look for the most that can be had.
  let low = 0;
  let high = onTape.span;
  while (low < high) {
    const middle = Math.ceil((low + high) / 2);
    const found = reach(onTape, count, middle);
    if (found) {
      best = found;
      low = middle;
    } else high = middle - 1;
  }
  return evenly(onTape, best, low).map((mark) => nanometres(mark * problem.step));
}

/** A run of tape marks, both ends included. */
type Marks = readonly [from: number, to: number];

interface OnTape {
  readonly first: (room: number) => Marks;
  readonly last: (room: number) => Marks;
  readonly clear: readonly Marks[];
  readonly most: number;
  readonly apart: number;
  /** In marks: no room is larger. */
  readonly span: number;
  readonly aimFirst: number;
  readonly aimLast: number;
  readonly endsAimed: { readonly left: boolean; readonly right: boolean };
}

function onTapeMarks({ left, right, clear, most, apart, step }: SpreadProblem): OnTape {
  const up = (length: number): number => Math.ceil(length / step);
  const down = (length: number): number => Math.floor(length / step);
  const farLeft = left.kind === 'anchor' ? left.station : left.window.from;
  const farRight = right.kind === 'anchor' ? right.station : right.window.to;
  const span = Math.max(0, down(farRight - farLeft));
  const furthest = most ?? nanometres(Math.max(0, farRight - farLeft));
  return {
    first: (room) =>
      left.kind === 'end'
        ? [up(left.window.from) + room, down(left.window.to) - room]
        : [up(left.station + apart) + room, down(left.station + furthest) - (most === undefined ? 0 : room)],
    last: (room) =>
      right.kind === 'end'
        ? [up(right.window.from) + room, down(right.window.to) - room]
        : [up(right.station - furthest) + (most === undefined ? 0 : room), down(right.station - apart) - room],
    clear: clear.flatMap((each): readonly Marks[] =>
      up(each.from) <= down(each.to) ? [[up(each.from), down(each.to)]] : [],
    ),
    most: most === undefined ? span + 1 : down(most),
    apart: up(apart),
    span,
    aimFirst: left.kind === 'anchor' ? left.station / step : (left.window.from + left.window.to) / 2 / step,
    aimLast: right.kind === 'anchor' ? right.station / step : (right.window.from + right.window.to) / 2 / step,
    endsAimed: { left: left.kind === 'end', right: right.kind === 'end' },
  };
}

/** For each anchor in turn, every position from which all that follow can still be placed. */
type Reached = readonly (readonly Marks[])[];

function reach(tape: OnTape, count: number, room: number): Reached | undefined {
  const clear = tape.clear.flatMap(([from, to]): readonly Marks[] =>
    from + room <= to - room ? [[from + room, to - room]] : [],
  );
  const [nearest, furthest] = stepRange(tape, room);
  if (nearest > furthest && count > 1) return undefined;
  // From the right end backwards, then each anchor has only positions that lead to the end.
  const sets: (readonly Marks[])[] = [];
  let open = cut(clear, tape.last(room));
  sets.push(open);
  for (let index = 1; index < count; index += 1) {
    open = meet(clear, union(open.map(([from, to]): Marks => [from - furthest, to - nearest])));
    if (open.length === 0) return undefined;
    sets.push(open);
  }
  const starts = cut(open, tape.first(room));
  if (starts.length === 0) return undefined;
  sets[count - 1] = starts;
  return sets.reverse();
}

function stepRange(tape: OnTape, room: number): Marks {
  return [tape.apart + room, tape.most > tape.span ? tape.most : tape.most - room];
}

/** From the left, each as near as it can be to even spacing. */
function evenly(tape: OnTape, sets: Reached, room: number): readonly number[] {
  const [nearest, furthest] = stepRange(tape, room);
  const count = sets.length;
  const steps = count + 1 - (tape.endsAimed.left ? 1 : 0) - (tape.endsAimed.right ? 1 : 0);
  const chosen: number[] = [];
  for (const set of sets) {
    const before = chosen[chosen.length - 1];
    const open = before === undefined ? set : cut(set, [before + nearest, before + furthest]);
    const index = chosen.length + (tape.endsAimed.left ? 0 : 1);
    const aim =
      steps <= 0
        ? (tape.aimFirst + tape.aimLast) / 2
        : tape.aimFirst + ((tape.aimLast - tape.aimFirst) * index) / steps;
    const mark = nearestMark(open, aim);
    if (mark === undefined) return chosen;
    chosen.push(mark);
  }
  return chosen;
}

/** The mark of a set nearest to an aim; of two as near, the left one. */
export function nearestMark(set: readonly Marks[], aim: number): number | undefined {
  let best: number | undefined;
  for (const [from, to] of set) {
    const mark = Math.min(to, Math.max(from, Math.ceil(aim - 0.5)));
    if (best === undefined || Math.abs(mark - aim) < Math.abs(best - aim)) best = mark;
  }
  return best;
}

const cut = (set: readonly Marks[], by: Marks): readonly Marks[] => meet(set, [by]);

function meet(a: readonly Marks[], b: readonly Marks[]): readonly Marks[] {
  const common: Marks[] = [];
  let i = 0;
  let j = 0;
  for (let x = a[i], y = b[j]; x && y; x = a[i], y = b[j]) {
    const from = Math.max(x[0], y[0]);
    const to = Math.min(x[1], y[1]);
    if (from <= to) common.push([from, to]);
    if (x[1] < y[1]) i += 1;
    else j += 1;
  }
  return common;
}

function union(set: readonly Marks[]): readonly Marks[] {
  const joined: [number, number][] = [];
  for (const [from, to] of set.toSorted((a, b) => a[0] - b[0])) {
    const last = joined[joined.length - 1];
    if (last && from <= last[1] + 1) last[1] = Math.max(last[1], to);
    else joined.push([from, to]);
  }
  return joined;
}
