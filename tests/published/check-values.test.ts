import { describe, expect, it } from 'vitest';
import type { ValueVerdict } from '../../language/domain/engineering/verify-values.ts';
import { verifyValues } from '../../language/domain/engineering/verify-values.ts';
import entries from '../../language/library/check-values.json' with { type: 'json' };

/*
 * Figures from outside, each with its source, tolerance and trust: `found` was read in a public text, `from memory` was
 * written from memory of one, `arithmetic` was worked from the formulas by other hands and only checks that we do not slip.
 */
const verdicts = verifyValues(entries);

const groups: readonly (readonly [ValueVerdict['origin'], number])[] = [
  ['found', 46],
  ['from memory', 49],
  ['arithmetic', 43],
];

describe('published values come out of our own formulas and tables', () => {
  it('counts every entry in one of three groups, and prints the count', () => {
    const lines = groups.map(([origin]) => {
      const group = verdicts.filter((verdict) => verdict.origin === origin);
      const agreeing = group.filter((verdict) => verdict.verdict === 'agrees');
      return `${origin}: ${agreeing.length} of ${group.length} agree`;
    });
    console.log(lines.join('\n'));
    expect(
      Object.fromEntries(groups.map(([origin]) => [origin, verdicts.filter((each) => each.origin === origin).length])),
    ).toEqual(Object.fromEntries(groups));
    expect(new Set(verdicts.map((verdict) => verdict.id)).size).toBe(138);
  });

  for (const [origin] of groups) {
    describe(origin, () => {
      for (const verdict of verdicts.filter((each) => each.origin === origin)) {
        it(`${verdict.id}: ${verdict.source}, ${verdict.section}`, () => {
          expect(`${verdict.verdict}${verdict.reason ? `: ${verdict.reason}` : ''}`).toBe('agrees');
        });
      }
    });
  }
});
