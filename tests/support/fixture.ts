import { expect } from 'vitest';
import type { Analysis } from '../../language/analysis.ts';
import { analyse, placedFindings } from './analyse.ts';
import { MAIN } from './memory-host.ts';

/**
 * A layout with the findings that it must give drawn under the text, each on a comment line of its own:
 *
 *     wall F length 20'
 *     //   ^ error anchorage/piece-without-anchor
 *
 * `//- name.sill` begins another file. Every finding must be drawn, and none may be surplus.
 */
export interface Fixture {
  readonly files: Readonly<Record<string, string>>;
  readonly drawn: readonly DrawnFinding[];
}

export interface DrawnFinding {
  readonly file: string;
  readonly line: number;
  readonly from: number;
  readonly to: number;
  readonly severity: string;
  readonly rule: string;
}

export function readFixture(text: string): Fixture {
  const files: Record<string, string> = {};
  const drawn: DrawnFinding[] = [];
  let file = MAIN;
  let lines: string[] = [];
  // The line that a marker points at: the last one that is no marker.
  let target = 0;
  const finish = (): void => {
    if (lines.some((line) => line.trim() !== '')) files[file] = `${lines.join('\n').replace(/\n+$/, '')}\n`;
  };
  for (const line of text.replace(/^\n/, '').split('\n')) {
    const name = /^\/\/- (\S+)/.exec(line)?.[1];
    if (name !== undefined) {
      finish();
      file = name;
      lines = [];
      target = 0;
      continue;
    }
    const marker = /^(\/\/\s*)(\^+) (stop|error|warning|info) (\S+)\s*$/.exec(line);
    if (marker) {
      const from = marker[1]?.length ?? 0;
      drawn.push({
        file,
        line: target,
        from,
        to: from + (marker[2]?.length ?? 0),
        severity: marker[3] ?? '',
        rule: marker[4] ?? '',
      });
    } else target = lines.length;
    lines.push(line);
  }
  finish();
  return { files, drawn };
}

/** Analyses the fixture and holds its findings against those drawn in it. */
export function expectDrawnFindings(text: string): Analysis {
  const fixture = readFixture(text);
  const analysis = analyse(fixture.files);
  const found = placedFindings(analysis)
    .filter(
      (finding) =>
        !analysis.checked.findings.some((each) => each.accepted !== undefined && each.message === finding.message),
    )
    .map(({ message: _message, ...finding }) => finding);
  const order = (a: DrawnFinding, b: DrawnFinding): number =>
    a.file.localeCompare(b.file) || a.line - b.line || a.from - b.from || a.rule.localeCompare(b.rule);
  expect([...found].sort(order)).toEqual([...fixture.drawn].sort(order));
  return analysis;
}
