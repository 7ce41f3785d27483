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
  const [was, is] = [a.finding, b.finding];
  return (
    a.proposes === b.proposes &&
    hasSameFields(was, is, byTheirParts) &&
    hasSameFields(was.span, is.span) &&
    was.related.length === is.related.length &&
    was.related.every(({ span, message }, index) => {
      const other = is.related[index];
      return other?.message === message && hasSameFields(span, other.span);
    }) &&
    (was.asked === is.asked ||
      (was.asked?.limit === is.asked?.limit && hasSameFields(was.asked?.query ?? {}, is.asked?.query ?? {})))
  );
}

const byTheirParts: ReadonlySet<string> = new Set([
  'span',
  'related',
  'asked',
] satisfies (keyof RawFinding['finding'])[]);
const none: ReadonlySet<string> = new Set();

export function hasSameFields(a: object, b: object, but = none): boolean {
  let more = 0;
  for (const name in a) {
    if (!(name in b) || !(but.has(name) || Object.is(a[name as keyof typeof a], b[name as keyof typeof b])))
      return false;
    more -= 1;
  }
  for (const _ in b) more += 1;
  return more === 0;
}
