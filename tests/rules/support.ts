import { expect } from 'vitest';
import type { Analysis } from '../../language/analysis.ts';
import { writeEdits } from '../../language/analysis.ts';
import type { Finding } from '../../language/domain/rules/finding.ts';
import { parseLength } from '../../language/domain/units/parse-length.ts';
import { applyChanges } from '../../language/syntax/write-edit.ts';
import { analyse } from '../support/analyse.ts';

/** The findings of one rule. */
export function findingsOf(text: string, rule: string): readonly Finding[] {
  return analyse(text).findings.filter((each) => each.rule === rule);
}

/** Every rule that has something graver to say than for information. */
export function graveIn(text: string): readonly string[] {
  return analyse(text)
    .findings.filter((each) => each.severity !== 'info')
    .map((each) => each.rule);
}

/** What a rule says that it lacks. */
export function lackingOf(text: string, rule: string): readonly string[] {
  return analyse(text)
    .checked.notChecked.filter((each) => each.rule === rule)
    .map((each) => each.wants);
}

const gravelyWrong = (analysis: Analysis): readonly string[] =>
  analysis.findings
    .filter((each) => each.severity === 'error' || each.severity === 'stop')
    .map((each) => `${each.rule} ${each.thing} ${each.piece}`);

/** The text with the mend of that title written in. Its finding is gone, and nothing is wrong that was not before. */
export function mended(text: string, rule: string, title: RegExp): string {
  const before = analyse(text);
  const of = before.findings.filter((each) => each.rule === rule);
  const fix = of.flatMap((each) => each.fixes).find((each) => title.test(each.title));
  if (!fix) throw new Error(`no fix ${title}: ${of.flatMap((each) => each.fixes.map((x) => x.title)).join(' | ')}`);
  const written = writeEdits(before, fix.edits);
  if (written.kind === 'refused') throw new Error(written.reason);
  const after = applyChanges(text, written.changes);
  const again = analyse(after);
  expect(again.findings.filter((each) => each.rule === rule && each.severity !== 'info').length).toBeLessThan(
    of.length,
  );
  const known = new Set(gravelyWrong(before));
  expect(gravelyWrong(again).filter((each) => !known.has(each))).toEqual([]);
  return after;
}

/** The same layout in millimetres: every length in feet and inches becomes the exact metric one. */
export function inMetric(text: string): string {
  return text
    .replace(/-?(?:\d+'(?:-\d+(?: \d+\/\d+)?")?|\d+(?:-\d+\/\d+|\/\d+)?")/g, (typed) => {
      const parsed = parseLength(typed);
      return parsed.kind === 'length' ? `${parsed.length / 1_000_000}mm` : typed;
    })
    .replace(/^(layout "[^"]*"\n)/, '$1  units metric\n');
}

/** A wall with one board and nothing wrong but what a test puts there. Two storeys, side plates. */
export function wallText(say: {
  readonly length?: string;
  readonly storeys?: string;
  readonly rules?: string;
  readonly foundation?: readonly string[];
  readonly sills?: readonly string[];
  readonly found?: readonly string[];
  /** `4'-8"`, or `bolt-half 4'-8"`. */
  readonly anchors?: readonly string[];
  readonly work?: readonly string[];
  readonly house?: readonly string[];
  readonly after?: readonly string[];
}): string {
  const anchors = (say.anchors ?? []).map((each, index) => {
    const [first, ...rest] = each.split(' ');
    const named = first !== undefined && /^[a-z]/.test(first);
    return `anchor F-${index + 1} ${named ? first : 'stepped-plate-s'} at ${named ? rest.join(' ') : each}`;
  });
  const work = [...anchors, ...(say.work ?? [])];
  return [
    'layout "X"',
    `  rules ${say.rules ?? 'existing-building'}`,
    '',
    'house',
    `  storeys ${say.storeys ?? '2'}`,
    '  dwellings 1',
    ...(say.house ?? []).map((line) => `  ${line}`),
    '',
    `wall F length ${say.length ?? `20'-0"`}`,
    ...(say.foundation ?? [`thick 8" showing 18" top 0"`]).map((line) => `  foundation ${line} sound`),
    ...(say.sills ?? ['F1']).map((line) => `  sill ${line} size 2x6 set-back 3/4" headroom 25-1/8"`),
    ...(say.found ?? []).map((line) => `  ${line}`),
    '',
    ...(work.length === 0 ? [] : ['work on F', ...work.map((line) => `  ${line}`), '']),
    ...(say.after ?? []),
    '',
  ].join('\n');
}

/** Anchors that keep every limit on a board of 20 ft. */
export const soundRow: readonly string[] = [`1'-0"`, `4'-7"`, `8'-2"`, `11'-9"`, `15'-4"`, `19'-0"`];
