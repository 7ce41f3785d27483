import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { formatSheet } from '../../language/syntax/format.ts';
import { nodesOf } from '../../language/syntax/tree.ts';
import { randomFrom, readSheet, samples } from './support.ts';

/** What holds for every text, whatever it is. */
function expectSound(text: string): void {
  const read = readSheet(text);
  expect(read.map(({ cut }) => cut.text).join('') === text).toBe(true);
  for (const { cut, tree, problems } of read) {
    expect(problems.length).toBeLessThanOrEqual(51);
    for (const { start, end, message, replacements } of problems) {
      expect(start).toBeGreaterThanOrEqual(0);
      expect(end).toBeGreaterThanOrEqual(start);
      expect(end).toBeLessThanOrEqual(cut.text.length);
      expect(message.length).toBeLessThan(400);
      for (const replacement of replacements) {
        expect(replacement.start).toBeGreaterThanOrEqual(0);
        expect(replacement.end).toBeGreaterThanOrEqual(replacement.start);
        expect(replacement.end).toBeLessThanOrEqual(cut.text.length);
      }
    }
    for (const node of tree ? nodesOf(tree) : []) {
      expect(node.$start).toBeGreaterThanOrEqual(0);
      expect(node.$end).toBeGreaterThan(node.$start);
      expect(node.$end).toBeLessThanOrEqual(cut.text.length);
    }
  }
}

const long = 5_000_000;
const lines = (line: string, count = 1000): string => `${line}\n`.repeat(count);
const word = (text: string, count = 300): string => text.repeat(count);

const hostile: Readonly<Record<string, () => string>> = {
  'five million characters on one line': () => `wall A\n  note "${'x'.repeat(long)}`,
  'five million letters': () => 'x'.repeat(long),
  'five million digits': () => `wall A\n${'1'.repeat(long)}`,
  'five million blanks': () => `wall A\n${' '.repeat(long)}x`,
  'five million NULs': () => `wall A\n${'\0'.repeat(long)}`,
  'five million line breaks': () => '\n'.repeat(long),
  'twenty thousand brackets on a line': () => `wall A ${'{'.repeat(20_000)}`,
  'twenty thousand brackets on lines of their own': () => `wall A\n${'{\n'.repeat(20_000)}`,
  'twenty thousand brackets and nothing else': () => '{ '.repeat(20_000),
  'brackets, line after line': () => `wall A\n${lines(word('{ } '), 200)}`,
  'lone surrogates': () => `wall A\n${lines('\ud800 \udfff')}`,
  'feet and many blanks': () => `wall A\n${lines(`1'${' '.repeat(4000)}`, 300)}`,
  'a digit and many dashes': () => `wall A\n${lines(`1${'-'.repeat(4000)}`, 300)}`,
  'feet and many digits': () => `wall A\n${lines(`1'${'1'.repeat(4000)}`, 300)}`,
  'many quotes': () => `wall A\n${lines('"'.repeat(4000), 300)}`,
  'many opening quotes': () => `wall A\n${lines('“'.repeat(4000), 300)}`,
  'many backslashes in a text': () => `wall A\n${lines(`note "${'\\'.repeat(4000)}`, 300)}`,
  'a thousand tags on a line': () => `wall A\n${lines(word('note "x" '), 30)}`,
  'a thousand facts on a line': () => `wall A\n${lines(word('turn left '), 30)}`,
  'a thousand attributes on a line': () => `wall A\n${lines(`  sill ${word('butt ', 700)}`, 30)}`,
  'a thousand words that do not belong': () => `wall A\n${lines(`sill A to 3' ${word('foo ', 900)}`, 30)}`,
  'lists that end in a comma': () => `record 2026-01-01\n${lines(`omitted ${word('A, ', 1200)}`, 30)}`,
  'one block for each line': () => lines('wall A', 20_000),
  'prose at the left edge': () => lines('foo bar baz', 20_000),
  'prose, indented': () => `wall A\n${lines('  foo bar baz', 20_000)}`,
  'one line carried on without end': () => `wall A\n sill A\n${'+\n'.repeat(100_000)}`,
  'one line carried on without end, with words': () => `wall A\n sill A\n${'+ butt\n'.repeat(20_000)}`,
  comments: () => lines('// x', 100_000),
};

describe('any text is read', () => {
  it.each(Object.entries(hostile))('%s', (_, text) => {
    expectSound(text());
  });

  it('and so is binary data', () => {
    const random = randomFrom(1);
    const unit = (): string => String.fromCharCode(random.below(0x10000));
    const byte = (): string => String.fromCharCode(random.below(0x100));
    for (const make of [unit, byte]) {
      for (let trial = 0; trial < 20; trial++) expectSound(`wall A\n${Array.from({ length: 5000 }, make).join('')}`);
    }
  });

  it('and so is what is left of a sheet after rough edits', () => {
    fc.assert(
      fc.property(roughSheet, (text) => expectSound(text)),
      { seed: 3, numRuns: 150 },
    );
  });
});

/** A sample with pieces cut out, doubled, or put in. */
const roughSheet = fc
  .record({
    sample: fc.constantFrom(...samples),
    edits: fc.array(
      fc.record({
        at: fc.double({ min: 0, max: 1, noNaN: true }),
        length: fc.integer({ min: 0, max: 40 }),
        text: fc.oneof(
          fc.constantFrom(
            '\n',
            ' ',
            '"',
            '{',
            '+',
            '//',
            'wall ',
            "3'",
            'to',
            'at ',
            '\r\n',
            '\n  + ',
            '“',
            '\0',
            '½',
            '(',
            ',',
            'x',
          ),
          fc.string({ unit: 'binary', maxLength: 6 }),
        ),
      }),
      { minLength: 1, maxLength: 12 },
    ),
  })
  .map(({ sample, edits }) =>
    edits.reduce((text, edit) => {
      const at = Math.floor(edit.at * text.length);
      return text.slice(0, at) + edit.text + text.slice(at + edit.length);
    }, sample.text),
  );

describe('any text is formatted', () => {
  it('once: a second time changes nothing, and what cannot be read stays as it is', () => {
    fc.assert(
      fc.property(roughSheet, (text) => {
        const once = formatSheet(text);
        const twice = formatSheet(once.text);
        expect(twice.changes).toEqual([]);
        expect(twice.text).toBe(once.text);
        expect(twice.skipped.length).toBe(once.skipped.length);
        for (const { start, end } of once.skipped) {
          expect(once.changes.filter((change) => change.start < end && change.end > start)).toEqual([]);
          expect(once.text).toContain(text.slice(start, end));
        }
        expect(readSheet(once.text).map(({ problems }) => problems.length)).toEqual(
          readSheet(text).map(({ problems }) => problems.length),
        );
      }),
      { seed: 5, numRuns: 150 },
    );
  });

  it.each(Object.entries(hostile))('%s', (_, text) => {
    const once = formatSheet(text().slice(0, 300_000));
    expect(formatSheet(once.text).changes).toEqual([]);
  });
});
