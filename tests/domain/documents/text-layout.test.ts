import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  columnsOf,
  padColumns,
  printable,
  wrapClauses,
  wrapWords,
} from '../../../language/domain/documents/text-layout.ts';
import { textTable } from '../../../language/domain/documents/text-table.ts';

describe('wrapping', () => {
  it('breaks at spaces and keeps every word', () => {
    expect(wrapWords('an aid to drafting and checking', 12)).toEqual(['an aid to', 'drafting and', 'checking']);
  });

  it('cuts a word that is wider than the line', () => {
    expect(wrapWords('abcdefghij', 4)).toEqual(['abcd', 'efgh', 'ij']);
  });

  it('never exceeds the width and loses nothing but spaces', () => {
    fc.assert(
      fc.property(fc.string(), fc.integer({ min: 2, max: 40 }), (text, width) => {
        const lines = wrapWords(text, width);
        for (const line of lines) expect(columnsOf(line)).toBeLessThanOrEqual(width);
        expect(lines.join('').replaceAll(' ', '')).toBe(text.replaceAll(' ', ''));
      }),
    );
  });

  it('takes a word of a million letters in its stride', () => {
    expect(wrapWords('x'.repeat(1_000_000), 100)).toHaveLength(10_000);
  });
});

describe('columns', () => {
  // Unicode Standard Annex 11: Wide characters take two columns; combining marks take none.
  it('count wide characters twice and combining marks not at all', () => {
    expect(columnsOf('süd')).toBe(3);
    expect(columnsOf('北墙')).toBe(4);
    expect(columnsOf('e\u0301')).toBe(1);
  });

  it('pad on either side', () => {
    expect(padColumns('北', 4)).toBe('北  ');
    expect(padColumns('7', 3, 'left')).toBe('  7');
  });
});

describe('printable text', () => {
  it('spells out what would recolour or reorder a terminal', () => {
    expect(printable('red\u001b[31m and \u202Eback')).toBe('red\\u{1b}[31m and \\u{202e}back');
  });

  it('keeps a name in any script, and turns line breaks into spaces', () => {
    expect(printable('süd 北\r\nnext')).toBe('süd 北 next');
  });

  it('spells out half a surrogate pair, which no output could carry', () => {
    expect(printable('a\ud800b')).toBe('a\\u{d800}b');
    expect(printable('a😀b')).toBe('a😀b');
  });
});

describe('a table', () => {
  const columns = [
    { heading: 'Mark', text: (row: readonly [string, string]) => row[0] },
    { heading: 'Station', text: (row: readonly [string, string]) => row[1], numeric: true },
  ];

  it('lines up words on the left and numbers on the right', () => {
    expect(
      textTable(
        columns,
        [
          ['A-1', `0'-10"`],
          ['A-10', `12'-0"`],
        ],
        80,
      ),
    ).toEqual(['Mark  Station', '----  -------', `A-1    0'-10"`, `A-10   12'-0"`]);
  });

  it('keeps a length with its fraction in one piece, and makes other cells give way', () => {
    const lines = textTable(columns, [['one two three four', `36'-4 3/8"`]], 20);
    expect(lines.join('\n')).toContain(`36'-4 3/8"`);
  });

  it('lets a long cell run on below itself', () => {
    expect(textTable(columns, [['set by hand', '1']], 15)).toEqual([
      'Mark    Station',
      '------  -------',
      'set by        1',
      'hand',
    ]);
  });

  it('stays within its width whatever the cells hold', () => {
    fc.assert(
      fc.property(fc.array(fc.tuple(fc.string({ maxLength: 60 }), fc.string({ maxLength: 60 }))), (rows) => {
        for (const line of textTable(columns, rows, 40)) expect(columnsOf(line)).toBeLessThanOrEqual(40);
      }),
    );
  });

  it('shows 100 000 rows', () => {
    const rows = Array.from({ length: 100_000 }, (_, index) => [`A-${index}`, '1'] as const);
    expect(textTable(columns, rows, 80)).toHaveLength(100_002);
  });
});

describe('clauses', () => {
  it('break after a semicolon, and none stands alone that could have company', () => {
    expect(wrapClauses('8 errors under the rules; 0 not checked; 6 assumed.', 40)).toEqual([
      '8 errors under the rules;',
      '0 not checked; 6 assumed.',
    ]);
    expect(wrapClauses('short; enough', 40)).toEqual(['short; enough']);
  });
});
