import type { Analysis } from '../../../language/analysis.ts';
import { writeEdits } from '../../../language/analysis.ts';
import type { Finding, Fix } from '../../../language/domain/rules/finding.ts';
import { applyChanges } from '../../../language/syntax/write-edit.ts';
import { analyse } from '../../support/analyse.ts';
import { MAIN } from '../../support/memory-host.ts';

/** One wall as somebody would type it. What is left out gets a plain value that no rule minds. */
export function wallText(say: {
  readonly work: readonly string[];
  readonly found?: readonly string[];
  readonly sill?: string;
  readonly foundation?: string;
  readonly units?: 'metric';
  readonly rules?: string;
  readonly after?: readonly string[];
}): string {
  return [
    'layout "X"',
    `  rules ${say.rules ?? 'existing-building'}`,
    ...(say.units ? [`  units ${say.units}`] : []),
    '',
    'house',
    '  storeys 2',
    '',
    `wall F faces north from (0", 0") length 20'-0"`,
    `  foundation ${say.foundation ?? `thick 8" showing 18" top 0"`}`,
    `  sill F1 ${say.sill ?? `size 1-5/8" x 5-5/8" set-back 3/4" headroom 25-1/8"`}`,
    ...(say.found ?? []).map((line) => `  ${line}`),
    '',
    'work on F',
    ...say.work.map((line) => `  ${line}`),
    ...(say.after ?? []),
    '',
  ].join('\n');
}

/** Findings of one rule, or of every clearance rule. */
export function findingsOf(text: string, rule: string = 'clearance/'): readonly Finding[] {
  return analyse(text).findings.filter((each) => each.rule.startsWith(rule));
}
export const idsOf = (text: string, rule = 'clearance/'): readonly string[] =>
  findingsOf(text, rule).map((each) => each.rule);

/** What a rule says that it lacks. */
export const lackingOf = (text: string, rule: string): readonly string[] =>
  analyse(text)
    .checked.notChecked.filter((each) => each.rule === rule)
    .map((each) => each.wants);

/** The text with a fix written into it. The finding it was offered for must be gone, and no error may be new. */
export function mended(text: string, rule: string, title: RegExp): string {
  const before = analyse(text);
  const finding = before.findings.find((each) => each.rule === rule);
  const fix = finding?.fixes.find((each) => title.test(each.title));
  if (!finding || !fix) {
    throw new Error(`no fix ${title} for ${rule}: ${(finding?.fixes ?? []).map((each) => each.title).join(' | ')}`);
  }
  const after = written(text, before, fix);
  const errors = (analysis: Analysis): readonly string[] =>
    analysis.findings.filter((each) => each.severity === 'error').map((each) => `${each.rule} ${each.thing}`);
  const now = analyse(after);
  const left = now.findings.filter((each) => each.rule === rule && each.thing === finding.thing);
  if (left.some((each) => each.message === finding.message)) throw new Error(`still there: ${finding.message}`);
  const known = new Set(errors(before));
  const added = errors(now).filter((each) => !known.has(each));
  if (added.length > 0) throw new Error(`new: ${added.join(', ')}`);
  return after;
}

function written(text: string, analysis: Analysis, fix: Fix): string {
  const edits = writeEdits(analysis, fix.edits);
  if (edits.kind === 'refused') throw new Error(`${fix.title}: ${edits.reason}`);
  return applyChanges(
    text,
    edits.changes.filter((each) => each.file === MAIN),
  );
}

export const titlesOf = (text: string, rule: string): readonly string[] =>
  findingsOf(text, rule).flatMap((each) => each.fixes.map((fix) => fix.title));
