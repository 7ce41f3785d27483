import type { RunResult } from './run-rule.ts';

type RawFindings = RunResult['findings'];
type RawFinding = RawFindings[number];

/**
 * Rules on the house run again after most edits and mostly say the same. A finding that says the very same as before is the same object:
 * whoever kept something of it keeps it.
 */
export function asBefore(before: RawFindings, now: RawFindings): RawFindings {
  if (before.length === 0) return now;
  const known = new Map(before.map((each) => [each.identity, each]));
  return now.map((each) => {
    const same = known.get(each.identity);
    return same && (same === each || saysTheSame(same, each)) ? same : each;
  });
}

function saysTheSame(a: RawFinding, b: RawFinding): boolean {
  const { span, related, asked, ...rest } = a.finding;
  const { span: spanNow, related: relatedNow, asked: askedNow, ...restNow } = b.finding;
  return (
    a.proposes === b.proposes &&
    hasSameFields(rest, restNow) &&
    hasSameFields(span, spanNow) &&
    related.length === relatedNow.length &&
    related.every(({ span: at, message }, index) => {
      const other = relatedNow[index];
      return other?.message === message && hasSameFields(at, other.span);
    }) &&
    (asked === askedNow ||
      (asked?.limit === askedNow?.limit && hasSameFields(asked?.query ?? {}, askedNow?.query ?? {})))
  );
}

export function hasSameFields(a: object, b: object): boolean {
  const other = Object.entries(b);
  return (
    Object.keys(a).length === other.length &&
    other.every(([key, value]) => Object.is(value, (a as Readonly<Record<string, unknown>>)[key]))
  );
}
