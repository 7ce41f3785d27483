import type { Stretch } from '../model/layout.ts';

/** Finds what overlaps a stretch without looking at everything. */
export interface IntervalIndex<Item extends Stretch> {
  /** Items that share more than an end with the open stretch `from` to `to`, in order of `from`. */
  overlapping(from: number, to: number): readonly Item[];
}

/** Sorted by left end, with the furthest right end so far beside it: a query looks back only as far as something reaches. */
export function intervalIndex<Item extends Stretch>(items: readonly Item[]): IntervalIndex<Item> {
  if (items.length === 0) return nothingThere;
  const sorted = items.toSorted((a, b) => a.from - b.from || a.to - b.to);
  const reach = new Float64Array(sorted.length);
  let furthest = Number.NEGATIVE_INFINITY;
  for (const [index, item] of sorted.entries()) {
    furthest = Math.max(furthest, item.to);
    reach[index] = furthest;
  }
  return {
    overlapping(from, to) {
      const found: Item[] = [];
      for (let index = firstNotBefore(sorted, to) - 1; index >= 0; index -= 1) {
        if ((reach[index] ?? from) <= from) break;
        const item = sorted[index];
        if (item && item.to > from) found.push(item);
      }
      return found.reverse();
    },
  };
}

/** Of most things a wall has none. */
const nothingThere: IntervalIndex<never> = { overlapping: () => [] };

/** The first index whose item starts at `station` or later. */
function firstNotBefore(sorted: readonly Stretch[], station: number): number {
  let low = 0;
  let high = sorted.length;
  while (low < high) {
    const middle = (low + high) >>> 1;
    if ((sorted[middle]?.from ?? station) < station) low = middle + 1;
    else high = middle;
  }
  return low;
}
