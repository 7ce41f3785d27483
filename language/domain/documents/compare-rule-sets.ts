import type { Finding, NotChecked, RuleId, Severity } from '../rules/finding.ts';
import type { AskedLimit } from '../rules/limit-words.ts';
import { rules } from '../rules/registry.ts';
import { limitFor, sayTheSame } from '../rulesets/limit-for.ts';
import type { Limit } from '../rulesets/rule-set.ts';
import type { CheckedLayout } from './findings-report.ts';

/** One layout, checked under one choice of rule sets. */
export interface Edition {
  /** As chosen, in order; a later set overrides an earlier one. */
  readonly ruleSets: readonly string[];
  readonly report: CheckedLayout;
}

/** One place of the house and what each edition says of it, in the order of the editions. */
export interface ComparedPlace {
  readonly rule: RuleId;
  /** Where it stands, as the first edition with a finding has it. */
  readonly finding: Finding | undefined;
  readonly wall: string | undefined;
  readonly piece: string | undefined;
  readonly under: readonly ComparedVerdict[];
  /** The editions do not say the same. */
  readonly differs: boolean;
}

export interface ComparedVerdict {
  /**
   * `no-finding`: nothing was found here, which does not say that the limit was kept by much, or that nothing is wrong.
   * `no-limit`: this edition says nothing of the case. `not-checked`: a measurement is missing, or its limits disagree.
   */
  readonly verdict: Severity | 'accepted' | 'no-finding' | 'no-limit' | 'not-checked';
  /** The limit that this edition has for the case, where there is one. */
  readonly limit: Limit | undefined;
  /** The measurement that is missing. */
  readonly wants: string | undefined;
  readonly finding: Finding | undefined;
}

/** The findings of several editions side by side: first the places where they differ, each part in house order. */
export function compareRuleSets(editions: readonly Edition[]): readonly ComparedPlace[] {
  const byKey = new Map<string, (Finding | undefined)[]>();
  for (const [index, { report }] of editions.entries()) {
    const copies = new Map<string, number>();
    for (const finding of report.checked.findings) {
      const base = keyOf(finding);
      const copy = (copies.get(base) ?? 0) + 1;
      copies.set(base, copy);
      const key = `${base} ${copy}`;
      const row = byKey.get(key) ?? editions.map(() => undefined);
      row[index] = finding;
      byKey.set(key, row);
    }
  }
  const found = [...byKey.values()].flatMap((findings) => comparedFinding(editions, findings) ?? []);
  const rows = [...found, ...uncheckedUnderSome(editions, found)];
  return [...rows.filter((row) => row.differs), ...rows.filter((row) => !row.differs)];
}

/** The same mistake has the same key under every edition. */
function keyOf({ rule, identity, wall, piece, span, message }: Finding): string {
  if (identity !== undefined) return `${identity}\n${wall ?? ''}\n${piece ?? ''}`;
  return `${rule}\n${span.block.file}\n${span.block.key}\n${span.start}\n${message}`;
}

function comparedFinding(
  editions: readonly Edition[],
  findings: readonly (Finding | undefined)[],
): ComparedPlace | undefined {
  const first = findings.find((finding) => finding !== undefined);
  if (!first) return undefined;
  const asked = findings.find((finding) => finding?.asked)?.asked;
  const under = editions.map((edition, index): ComparedVerdict => {
    const finding = findings[index];
    if (!finding) return withoutFinding(edition, first, asked);
    return {
      verdict: finding.accepted === undefined ? finding.severity : 'accepted',
      limit: finding.asked?.limit,
      wants: undefined,
      finding,
    };
  });
  const { rule, wall, piece } = first;
  return { rule, finding: first, wall, piece, under, differs: differ(under) };
}

/** What an edition has to say of a place where it found nothing: its own limit for the same case, or why it has none. */
function withoutFinding(edition: Edition, elsewhere: Finding, asked: AskedLimit | undefined): ComparedVerdict {
  const { report } = edition;
  const waiting = report.checked.notChecked.find(
    ({ rule, thing }) => rule === elsewhere.rule && thing === elsewhere.thing,
  );
  if (waiting) return { verdict: 'not-checked', limit: undefined, wants: waiting.wants, finding: undefined };
  const answer = asked && limitFor(report.layout.rules, asked.limit.subject, asked.query);
  switch (answer?.kind) {
    case 'limit':
      return { verdict: 'no-finding', limit: answer.limit, wants: undefined, finding: undefined };
    case 'none':
      return { verdict: 'no-limit', limit: undefined, wants: undefined, finding: undefined };
    case 'depends':
      return { verdict: 'not-checked', limit: undefined, wants: answer.wants, finding: undefined };
    case 'conflict':
      return { verdict: 'not-checked', limit: undefined, wants: 'limits that agree', finding: undefined };
    case undefined:
      return {
        verdict: isSilent(edition, elsewhere.rule) ? 'no-limit' : 'no-finding',
        limit: undefined,
        wants: undefined,
        finding: undefined,
      };
  }
}

/** Whether an edition limits nothing of what a rule reads. */
function isSilent(edition: Edition | undefined, id: string): boolean {
  const subjects = Object.keys(rules.find((rule) => rule.id === id)?.subjects ?? {});
  const limits = edition?.report.layout.rules.limits ?? [];
  return subjects.length > 0 && !limits.some((limit) => subjects.includes(limit.subject));
}

function differ(under: readonly ComparedVerdict[]): boolean {
  const [first, ...others] = under;
  return others.some((other) => first !== undefined && !alike(first, other));
}

function alike(a: ComparedVerdict, b: ComparedVerdict): boolean {
  if (a.verdict !== b.verdict) return false;
  return a.limit && b.limit ? sayTheSame(a.limit, b.limit) : a.limit === b.limit;
}

/** What one edition could not check and another could; what none could is counted in the totals. */
function uncheckedUnderSome(editions: readonly Edition[], found: readonly ComparedPlace[]): readonly ComparedPlace[] {
  const told = new Set(found.flatMap(({ rule, finding }) => (finding ? [`${rule} ${finding.thing}`] : [])));
  const byKey = new Map<string, (NotChecked | undefined)[]>();
  for (const [index, { report }] of editions.entries()) {
    for (const entry of report.checked.notChecked) {
      if (told.has(`${entry.rule} ${entry.thing}`)) continue;
      const key = `${entry.rule}\n${entry.thing}\n${entry.wants}`;
      const row = byKey.get(key) ?? editions.map(() => undefined);
      row[index] = entry;
      byKey.set(key, row);
    }
  }
  return [...byKey.values()].flatMap((entries): readonly ComparedPlace[] => {
    const first = entries.find((entry) => entry !== undefined);
    if (!first || entries.every((entry) => entry !== undefined)) return [];
    const under = entries.map(
      (entry, index): ComparedVerdict => ({
        verdict: entry ? 'not-checked' : isSilent(editions[index], first.rule) ? 'no-limit' : 'no-finding',
        limit: undefined,
        wants: entry?.wants,
        finding: undefined,
      }),
    );
    const rule = first.rule as RuleId;
    return [{ rule, finding: undefined, wall: first.wall, piece: first.piece, under, differs: true }];
  });
}
