import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import process from 'node:process';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Analysis, createAnalyser } from '../../language/analysis.ts';
import { findingsToJson, findingsToText } from '../../language/domain/documents/findings-report.ts';
import { writeSchedule } from '../../language/domain/documents/write-schedule.ts';
import { formatSheet } from '../../language/syntax/format.ts';
import { placesIn, toCheckedLayout } from '../../server/src/cli/open-layout.ts';
import { analyse } from '../support/analyse.ts';
import { MAIN } from '../support/memory-host.ts';

const example = (name: string): string => readFileSync(join(import.meta.dirname, '..', '..', 'examples', name), 'utf8');
/** The long proofs leave nothing out. */
const long = Boolean(process.env.SILLWRIGHT_LONG);
const surveyed = example('maple-surveyed.sill');
const first = example('first-wall.sill');

/** Every finding stands inside a text that is there, and says something on at most two lines. */
function expectLocated(analysis: Analysis): void {
  for (const finding of analysis.findings) {
    const place = analysis.locate(finding.span);
    const length = place && analysis.textOf(place.file)?.length;
    if (!place || length === undefined) throw new Error(`${finding.rule} stands nowhere: ${finding.message}`);
    if (place.start < 0 || place.end < place.start || place.end > length) {
      throw new Error(`${finding.rule} stands at ${place.start} to ${place.end} of ${length}`);
    }
    const lines = finding.message.split('\n').length;
    if (finding.message.trim() === '' || lines > 2)
      throw new Error(`${finding.rule} says ${JSON.stringify(finding.message)}`);
  }
}

/** Everything that is written of a layout can be written of this one. */
function expectOutputs(analysis: Analysis): void {
  const report = toCheckedLayout(analysis);
  const parsed = JSON.parse(findingsToJson([report])) as { findings: { range: unknown }[] };
  expect(parsed.findings.length).toBe(analysis.findings.length);
  // Text with half a surrogate pair in it can be written to no file.
  const text = findingsToText(report);
  expect(Buffer.from(text).toString()).toBe(text);
  const findLine = (span: Parameters<ReturnType<typeof placesIn>>[0]) => {
    const place = placesIn(analysis)(span);
    return place && { file: place.file, line: place.range.start.line + 1 };
  };
  expect(writeSchedule(analysis.layout, analysis.checked, findLine, { form: 'text' })).toContain('connector');
}

describe('a text that breaks off', () => {
  // The example is ASCII, so a byte is a character; broken characters are in tests/cli/reading.test.ts.
  for (const [name, text, step] of [
    ['maple-surveyed.sill', surveyed, long ? 1 : 3],
    ['maple-designed.sill', example('maple-designed.sill'), long ? 1 : 11],
    ['first-wall.sill', first, long ? 1 : 7],
  ] as const) {
    it(`at ${step === 1 ? 'every byte' : `every ${step} bytes`} of ${name} gives an answer in which every message is located`, () => {
      let current = '';
      const analyser = createAnalyser({
        read: (file) => (file === MAIN ? { text: current } : { text: surveyed }),
        resolve: (_from, path) => ({ file: path }),
      });
      for (let length = 0; length <= text.length; length += step) {
        current = text.slice(0, length);
        const analysis = analyser.analyse(MAIN);
        expectLocated(analysis);
        if (length % 997 === 0) expectOutputs(analysis);
      }
    });
  }

  it('is analysed alike whatever was analysed before it', () => {
    let current = '';
    const analyser = createAnalyser({ read: () => ({ text: current }), resolve: (_from, path) => ({ refused: path }) });
    for (let length = 0; length <= first.length; length += 37) {
      current = first.slice(0, length);
      const kept = analyser.analyse(MAIN);
      const fresh = analyse(current);
      expect(findingsToJson([toCheckedLayout(kept)])).toBe(findingsToJson([toCheckedLayout(fresh)]));
    }
  });
});

describe('a text with one thing wrong', () => {
  const pieces = [
    '"',
    "'",
    '{',
    '}',
    '+',
    '-',
    '//',
    '\n',
    '\r',
    '\0',
    '\u0004',
    '\ud800',
    '\udc00',
    '“',
    '½',
    '9'.repeat(400),
    'wall',
    'use "x"',
    '\u202e',
    '\ufeff',
  ];

  it('anywhere still gives an answer, and can be written out', () => {
    fc.assert(
      fc.property(fc.nat({ max: first.length }), fc.constantFrom(...pieces), fc.nat({ max: 12 }), (at, piece, cut) => {
        const analysis = analyse(first.slice(0, at) + piece + first.slice(at + cut));
        expectLocated(analysis);
        expectOutputs(analysis);
      }),
      { numRuns: long ? 20_000 : 150 },
    );
  });

  it('is formatted without losing a character that is not white space', () => {
    const ink = (text: string): string => text.replace(/\s/g, '').toLowerCase();
    fc.assert(
      fc.property(fc.nat({ max: first.length }), fc.constantFrom(...pieces), (at, piece) => {
        const text = first.slice(0, at) + piece + first.slice(at);
        expect(ink(formatSheet(text).text)).toBe(ink(text));
      }),
      { numRuns: long ? 20_000 : 200 },
    );
  });
});

describe('text that is no layout at all', () => {
  it('gives located findings, never a failure', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary', maxLength: 400 }), (text) => {
        expectLocated(analyse(text));
      }),
      { numRuns: long ? 50_000 : 300 },
    );
  });

  const huge: Readonly<Record<string, string>> = {
    'five million characters on one line': `note "${'x'.repeat(5_000_000)}"`,
    'five million characters of one word': 'x'.repeat(5_000_000),
    'five million digits': '7'.repeat(5_000_000),
    'a million feet marks': "1'".repeat(1_000_000),
    '20 000 nested braces': `${'{'.repeat(20_000)}${'}'.repeat(20_000)}`,
    '20 000 nested parentheses': `house\n  diagonal ${'('.repeat(20_000)}${')'.repeat(20_000)}`,
    '200 000 open strings': '"x\n'.repeat(200_000),
    '20 000 boards of one name': `wall A length 20'\n${'  sill A1\n'.repeat(20_000)}`,
    '20 000 carried-on lines': `wall A length 20'\n  sill A1\n${'    + note "x"\n'.repeat(20_000)}`,
    '100 000 empty lines': '\n'.repeat(100_000),
    '5 000 anchors of one mark': `wall A length 20'\nwork on A\n${'  anchor A-1 flat-plate at 1"\n'.repeat(5_000)}`,
    '20 000 blocks of work on one wall': `wall A length 20'\n${'work on A\n'.repeat(20_000)}`,
    '130 000 headings': 'wall A\n'.repeat(130_000),
    '5 000 things measured each from the next': `wall A length 20'\n${Array.from({ length: 5_000 }, (_, index) => `  vent V${index} at 7" right of V${index + 1} wide 3"\n`).join('')}`,
    '50 000 uses of a file that is not there': 'use "x.sill"\n'.repeat(50_000),
  };
  for (const [name, text] of Object.entries(huge)) {
    it(`takes ${name}`, () => {
      const analysis = analyse(text);
      expectLocated(analysis);
      if (text.trim() !== '') expect(analysis.findings.length).toBeGreaterThan(0);
    });
  }

  it('says nothing against an empty file that it would not say of a title without a house', () => {
    const analysis = analyse('');
    expectLocated(analysis);
    expectOutputs(analysis);
    expect(analysis.layout.walls).toEqual([]);
  });
});

describe('line ends and marks', () => {
  const shape = (text: string): unknown =>
    analyse(text).findings.map(({ rule, severity, message, wall, station }) => ({
      rule,
      severity,
      message,
      wall,
      station,
    }));

  it('CR LF means what LF means', () => {
    expect(shape(surveyed.replaceAll('\n', '\r\n'))).toEqual(shape(surveyed));
  });

  it('CR alone means what LF means', () => {
    expect(shape(surveyed.replaceAll('\n', '\r'))).toEqual(shape(surveyed));
  });

  it('no line end at the end of the file changes nothing', () => {
    expect(shape(surveyed.trimEnd())).toEqual(shape(surveyed));
  });
});
