/**
 * Where an object stands in a list; `undefined` where it does not. For long lists of which an edit changes a member or two: where an
 * object stood last is where it is looked for first, so that no list is gone through, as a rule, to find something again.
 */
export function placeInList(list: readonly object[], member: object): number | undefined {
  const last = lastPlaces.get(member);
  if (last !== undefined) {
    for (const away of nearby) if (list[last + away] === member) return remembered(member, last + away);
  }
  const index = indexes.get(list);
  if (typeof index === 'object') return index.get(member);
  // A new object or two after an edit are found soonest by looking; where all are new, each would cost a look through the list.
  if ((index ?? 0) < mostLooks) {
    indexes.set(list, (index ?? 0) + 1);
    const place = list.indexOf(member);
    return place < 0 ? undefined : remembered(member, place);
  }
  const made = new Map<object, number>();
  for (const [place, each] of list.entries()) {
    made.set(each, place);
    lastPlaces.set(each, place);
  }
  indexes.set(list, made);
  return made.get(member);
}

function remembered(member: object, place: number): number {
  if (lastPlaces.get(member) !== place) lastPlaces.set(member, place);
  return place;
}

/** An edit that adds or takes away a few members moves those behind them so far. */
const nearby = [0, 1, -1, 2, -2] as const;
const mostLooks = 8;

const lastPlaces = new WeakMap<object, number>();
/** Of each list every place, or how often it was looked through. */
const indexes = new WeakMap<readonly object[], ReadonlyMap<object, number> | number>();
