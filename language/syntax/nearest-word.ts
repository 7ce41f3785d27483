/**
 * The candidate that was most likely meant: one slip in a word of up to five letters, two in a longer one (a letter too
 * many, too few, wrong, or two swapped). Of equally near ones that with the same first letter, then the first.
 */
export function nearestWord(word: string, candidates: Iterable<string>): string | undefined {
  const typed = word.toLowerCase();
  if (typed.length < 2 || typed.length > 40) return undefined;
  const mostSlips = typed.length < 6 ? 1 : 2;
  const letters = lettersOf(typed);
  let nearest: string | undefined;
  let least = Number.POSITIVE_INFINITY;
  for (const candidate of candidates) {
    const known = candidate.toLowerCase();
    if (Math.abs(known.length - typed.length) > mostSlips) continue;
    // One slip changes at most two letters of the set: most candidates go here, without the table.
    if (bits(letters ^ lettersOf(known)) > 2 * mostSlips) continue;
    const sameStart = known[0] === typed[0];
    const distance = slips(typed, known) + (sameStart ? 0 : 0.5);
    if (distance >= least || distance >= mostSlips + 1 || (typed.length === 2 && !sameStart)) continue;
    least = distance;
    nearest = candidate;
  }
  return nearest;
}

/** Which letters occur, one bit for each of a to z; other characters share one. */
function lettersOf(word: string): number {
  let letters = 0;
  for (let index = 0; index < word.length; index++) {
    const letter = word.charCodeAt(index) - 97;
    letters |= 1 << (letter >= 0 && letter < 26 ? letter : 26);
  }
  return letters;
}

function bits(set: number): number {
  let count = 0;
  for (let rest = set; rest !== 0; rest &= rest - 1) count++;
  return count;
}

/** Edit distance in which swapping two neighbours counts once (optimal string alignment). */
function slips(a: string, b: string): number {
  let twoAbove: readonly number[] = [];
  let above: readonly number[] = Array.from({ length: b.length + 1 }, (_, column) => column);
  for (let row = 1; row <= a.length; row++) {
    const current = [row];
    for (let column = 1; column <= b.length; column++) {
      const same = a[row - 1] === b[column - 1];
      let cost = Math.min(at(above, column) + 1, at(current, column - 1) + 1, at(above, column - 1) + (same ? 0 : 1));
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
