import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { Analysis } from '../../../language/analysis.ts';
import { createAnalyser } from '../../../language/analysis.ts';
import type { Finding } from '../../../language/domain/rules/finding.ts';
import { formatExactStation } from '../../../language/domain/units/format-length.ts';
import type { Length } from '../../../language/domain/units/length.ts';
import { parseLength } from '../../../language/domain/units/parse-length.ts';
import { exampleHost } from '../../support/read-layout.ts';

/**
 * What a person finds in the demo houses, worked out by hand from the survey, the rule pages and the hardware. The last
 * column, the reason with its arithmetic, is for people. A change of a list says which measurement or limit moved it.
 */
describe.each(['maple-surveyed', 'maple-designed'])('%s', (house) => {
  const list = readList(`${house}.txt`);
  const analysis = createAnalyser(exampleHost).analyse(`${house}.sill`);

  it('has the findings of the list worked out by hand, and no other', () => {
    expect(analysis.findings.map(asRow).sort()).toEqual([...list.findings].sort());
  });

  it('lacks the measurements of the list, and no other', () => {
    expect(lacking(analysis)).toEqual([...list.notChecked].sort());
  });
});

it('a station of the list is one place however it is written', () => {
  expect(stationRow(`40'`)).toBe(stationRow(`480"`));
  expect(stationRow(`8-1/2" to 1'`)).toBe(`0'-8 1/2" to 1'-0"`);
  expect(() => stationRow('somewhere')).toThrow('somewhere');
});

/** `severity [accepted] | rule | wall | piece | station`. */
function asRow(finding: Finding): string {
  const from = finding.station === undefined ? '-' : station(finding.station);
  return [
    finding.accepted === undefined ? finding.severity : `${finding.severity} accepted`,
    finding.rule,
    finding.wall ?? '-',
    finding.piece ?? '-',
    finding.stationTo === undefined ? from : `${from} to ${station(finding.stationTo)}`,
  ].join(' | ');
}

/** `rule | wall | what is missing`. */
function lacking(analysis: Analysis): readonly string[] {
  return analysis.checked.notChecked.map(({ rule, wall, wants }) => [rule, wall ?? '-', wants].join(' | ')).sort();
}

function readList(name: string): { readonly findings: readonly string[]; readonly notChecked: readonly string[] } {
  const findings: string[] = [];
  const notChecked: string[] = [];
  for (const line of readFileSync(join(import.meta.dirname, name), 'utf8').split('\n')) {
    if (line === '' || line.startsWith('#')) continue;
    const [first = '', rule = '', wall = '', fourth = '', place = '', reason] = line.split(' | ');
    if (first === 'not checked') notChecked.push([rule, wall, fourth].join(' | '));
    else if (reason === undefined) throw new Error(`${name}: a finding has six columns: ${line}`);
    else findings.push([first, rule, wall, fourth, stationRow(place)].join(' | '));
  }
  return { findings, notChecked };
}

function stationRow(text: string): string {
  if (text === '-') return text;
  return text
    .split(' to ')
    .map((each) => {
      const read = parseLength(each);
      if (read.kind !== 'length') throw new Error(`not a station: ${each}`);
      return station(read.length);
    })
    .join(' to ');
}

const station = (length: Length): string => formatExactStation(length, 'feet-inches');
