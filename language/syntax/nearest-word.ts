/**
 * The candidate that was most likely meant: one slip in a word of three to five letters, two in a longer one
 * (a letter too many, too few, wrong, or two swapped). The first of equally near ones.
 */
export function nearestWord(word: string, candidates: Iterable<string>): string | undefined {
  const typed = word.toLowerCase();
  if (typed.length < 3 || typed.length > 40) return undefined;
  let nearest: string | undefined;
  let least = typed.length < 6 ? 2 : 3;
  for (const candidate of candidates) {
    if (Math.abs(candidate.length - typed.length) >= least) continue;
    const distance = slips(typed, candidate.toLowerCase());
    if (distance < least) {
      least = distance;
      nearest = candidate;
    }
  }
  return nearest;
}

/** Edit distance in which swapping two neighbours counts once (optimal string alignment). */
function slips(a: string, b: string): number {
  let twoAbove: readonly number[] = [];
  let above: readonly number[] = Array.from({ length: b.length + 1 }, (_, column) => column);
  for (let row = 1; row <= a.length; row++) {
    const current = [row];
    for (let column = 1; column <= b.length; column++) {
      const same = a[row - 1] === b[column - 1];
      let cost = Math.min(
        at(above, column) + 1,
        at(current, column - 1) + 1,
        at(above, column - 1) + (same ? 0 : 1),
      );
      if (row > 1 && column > 1 && a[row - 1] === b[column - 2] && a[row - 2] === b[column - 1]) {
        cost = Math.min(cost, at(twoAbove, column - 2) + 1);
      }
      current.push(cost);
    }
    twoAbove = above;
    above = current;
  }
  return at(above, b.length);
}

function at(row: readonly number[], column: number): number {
  return row[column] ?? Number.POSITIVE_INFINITY;
}
