/** The places of as many numbers as rise from one to the next, the others left out. */
export function longestRising(numbers: readonly (number | undefined)[]): ReadonlySet<number> {
  /** Of the rising rows of each length, the one with the lowest end: where it ends, and where each goes on from. */
  const ends: number[] = [];
  const from = new Map<number, number | undefined>();
  for (const [at, number] of numbers.entries()) {
    if (number === undefined) continue;
    let [low, high] = [0, ends.length];
    while (low < high) {
      const middle = (low + high) >> 1;
      if ((numbers[ends[middle] ?? 0] ?? 0) < number) low = middle + 1;
      else high = middle;
    }
    from.set(at, ends[low - 1]);
    ends[low] = at;
  }
  const longest = new Set<number>();
  for (let at = ends.at(-1); at !== undefined; at = from.get(at)) longest.add(at);
  return longest;
}
