/**
 * What is made of a long list of which an edit changes a member or two: it is made by runs of some dozen members, and a run whose
 * members are the very same objects keeps what was made of it. To find the runs that changed, the two lists are compared from both
 * ends, without a look into their members.
 */
export type InRuns<Member extends object, Made> = (list: readonly Member[]) => readonly Made[];

/**
 * @param make what is wanted of one run. `before` was made of the members that stood there: where a part of it comes out the same,
 * its objects are to be handed on, so that what is made of them in turn stays too
 */
export function createRuns<Member extends object, Made>(
  make: (members: readonly Member[], before: Made | undefined) => Made,
): InRuns<Member, Made> {
  let last: readonly Member[] = [];
  let runs: readonly Run<Made>[] = [];
  let made: readonly Made[] = [];
  return (list) => {
    if (list === last) return made;
    const same = sameAtEnds(last, list);
    let first = 0;
    let from = 0;
    for (let run = runs[first]; run && from + run.length <= same.start; run = runs[first]) {
      from += run.length;
      first += 1;
    }
    let behind = runs.length;
    let to = list.length;
    for (let run = runs[behind - 1]; run && behind > first && list.length - to + run.length <= same.end; ) {
      to -= run.length;
      behind -= 1;
      run = runs[behind - 1];
    }
    const between: Run<Made>[] = [];
    const length = to - from > longestRun ? usualRun : longestRun;
    for (let start = from; start < to; start += length) {
      const members = list.slice(start, Math.min(start + length, to));
      const before = first + between.length < behind ? runs[first + between.length] : undefined;
      between.push({ length: members.length, made: make(members, before?.made) });
    }
    const isAsBefore =
      behind - first === between.length && between.every((run, index) => run.made === runs[first + index]?.made);
    runs = runs.slice(0, first).concat(between, runs.slice(behind));
    last = list;
    if (!isAsBefore) made = runs.map((run) => run.made);
    return made;
  };
}

interface Run<Made> {
  /** How many members it has. */
  readonly length: number;
  readonly made: Made;
}

const usualRun = 32;
const longestRun = 64;

/** How many members two lists share at the start, and how many of the rest at the end. */
export function sameAtEnds(
  a: readonly unknown[],
  b: readonly unknown[],
): { readonly start: number; readonly end: number } {
  const most = Math.min(a.length, b.length);
  let start = 0;
  while (start < most && a[start] === b[start]) start += 1;
  let end = 0;
  while (end < most - start && a[a.length - 1 - end] === b[b.length - 1 - end]) end += 1;
  return { start, end };
}

/**
 * Where each member of a list stood in an earlier one, -1 where it did not. Both are walked down side by side, since an edit mostly
 * takes out, puts in or makes anew a few members; an index is made only where that leads nowhere.
 */
export function placesBefore(before: readonly unknown[], now: readonly unknown[]): readonly number[] {
  const { start, end } = sameAtEnds(before, now);
  const endBefore = before.length - end;
  const places: number[] = [];
  let index: ReadonlyMap<unknown, number> | undefined;
  let misses = 0;
  let next = start;
  for (let at = 0; at < start; at += 1) places.push(at);
  for (let at = start; at < now.length - end; at += 1) {
    let place = next;
    while (place < endBefore && place <= next + farAway && before[place] !== now[at]) place += 1;
    if (place >= endBefore || before[place] !== now[at]) {
      misses += 1;
      if (misses > mostMisses) index ??= new Map(before.map((each, stood) => [each, stood]));
      place = index?.get(now[at]) ?? -1;
    }
    if (place >= 0) next = place + 1;
    places.push(place);
  }
  for (let at = endBefore; at < before.length; at += 1) places.push(at);
  return places;
}
const farAway = 8;
const mostMisses = 32;

/** The list of before where the other has the very same members: what is kept by it stays too. */
export function sameList<Member>(before: readonly Member[] | undefined, now: readonly Member[]): readonly Member[] {
  return before && isSameList(before, now) ? before : now;
}

/** Whether two lists have the very same members. What was made of the one then holds of the other. */
export function isSameList(a: readonly unknown[], b: readonly unknown[]): boolean {
  if (a === b) return true;
  if (a.length !== b.length) return false;
  for (let index = 0; index < a.length; index += 1) if (!Object.is(a[index], b[index])) return false;
  return true;
}

/** All in one list. */
export function joined<Member>(lists: readonly (readonly Member[])[]): readonly Member[] {
  const [only, second] = lists;
  return only && !second ? only : ([] as Member[]).concat(...lists);
}

/** The places at which two lists of one length have another member. */
export function changedPlaces(before: readonly unknown[], now: readonly unknown[]): readonly number[] {
  const { start, end } = sameAtEnds(before, now);
  const places: number[] = [];
  for (let place = start; place < now.length - end; place += 1) if (before[place] !== now[place]) places.push(place);
  return places;
}
