import type { Analysis } from '../../language/analysis.ts';

const revisions = new WeakMap<Analysis, number>();
let last = 0;

/**
 * A number for exactly these texts, of the file and of all that it uses: who asks for an edit sends it back, and an edit
 * that was asked for on other texts is refused.
 */
export function revisionOf(analysis: Analysis): number {
  const known = revisions.get(analysis);
  if (known !== undefined) return known;
  last += 1;
  revisions.set(analysis, last);
  return last;
}
