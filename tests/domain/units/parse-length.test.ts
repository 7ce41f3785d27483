import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { feet, inches, millimetres, nanometres } from '../../../language/domain/units/length.ts';
import type { ReadLength } from '../../../language/domain/units/parse-length.ts';
import { LONGEST_LENGTH, parseLength } from '../../../language/domain/units/parse-length.ts';

function read(text: string): ReadLength {
  const parsed = parseLength(text);
  if (parsed.kind !== 'length') throw new Error(`${text} was not read: ${parsed.reason}`);
  return parsed;
}

describe('a length', () => {
  it.each([
    // Feet and inches.
    [`3'-4 1/2"`, 40.5],
    [`3' 4-1/2`, 40.5],
    [`3'-4-1/2"`, 40.5],
    [`3'4 1/2"`, 40.5],
    [`3' - 4 1/2 "`, 40.5],
    [`3'-4½"`, 40.5],
    [`3'-4 ½"`, 40.5],
    [`3'-4.5"`, 40.5],
    [`3' 4.5`, 40.5],
    [`3'-0 1/2"`, 36.5],
    [`3' 1/2"`, 36.5],
    [`3'½`, 36.5],
    [`0'-0"`, 0],
    [`0'-10"`, 10],
    [`12'-3`, 147],
    [`12 ft 3 in`, 147],
    [`12ft3in`, 147],
    [`12 ft. 3 in.`, 147],
    [`12 feet 3 inches`, 147],
    [`1 foot 1 inch`, 13],
    [`12'`, 144],
    [`12 ft`, 144],
    [`12.5'`, 150],
    [`12½'`, 150],
    // The marks that editors, phones and spreadsheets put in.
    [`3′-4½″`, 40.5],
    [`3’–4½”`, 40.5],
    [`3‘-4“`, 40],
    [`3ʹ-4ʺ`, 40],
    [`3'-4''`, 40],
    [`3′-4′′`, 40],
    [`3’-4’’`, 40],
    [`3'‐4"`, 40],
    [`3'‑4"`, 40],
    [`3'‒4"`, 40],
    [`3'–4"`, 40],
    [`3'—4"`, 40],
    [`3'−4"`, 40],
    [`3'\u00a0-\u20094"`, 40],
    // Inches.
    [`42"`, 42],
    [`3-1/2"`, 3.5],
    [`3 1/2"`, 3.5],
    [`3½"`, 3.5],
    [`3–1⁄2″`, 3.5],
    [`1/2"`, 0.5],
    [`½"`, 0.5],
    [`.5"`, 0.5],
    [`40.5in`, 40.5],
    [`40.5 inches`, 40.5],
    [`40.5 IN`, 40.5],
    [`0.229"`, 0.229],
    // Levels.
    [`-2'-4 3/8"`, -28.375],
    [`−2'-4 3/8"`, -28.375],
    [`+2'-4 3/8"`, 28.375],
    [`- 3"`, -3],
    [`-0'-0"`, 0],
    [`0`, 0],
    [`-0`, 0],
    [`0.0`, 0],
  ])('%s is read as %f in', (text, expected) => {
    const parsed = read(text);
    expect(parsed.length).toBe(inches(expected));
    expect(Object.is(parsed.length, -0)).toBe(false);
    expect(parsed.doubt).toBeUndefined();
    expect(parsed.exact).toBe(true);
  });

  it.each([
    ['1067mm', 1067],
    ['1067 mm', 1067],
    ['106.7 cm', 1067],
    ['1.067m', 1067],
    ['1.067 metres', 1067],
    ['1 meter', 1000],
    ['-300 MM', -300],
    ['0.000001 mm', 0.000_001],
  ])('%s is read as %f mm', (text, expected) => {
    expect(read(text)).toMatchObject({ length: millimetres(expected), exact: true });
    expect(read(text).doubt).toBeUndefined();
  });

  it.each([
    [`3'-4 1/2"`, true],
    [`1/64"`, true],
    ['1067 mm', true],
    ['1067.5 mm', false],
    [`0.229"`, false],
    [`1/3"`, false],
    ['9.525 mm', true], // 3/8 in
  ])('%s is on a tape: %s', (text, expected) => {
    expect(read(text).onTape).toBe(expected);
  });
});

describe('a fraction in one character', () => {
  it.each([...'½¼¾⅛⅜⅝⅞⅓⅔⅙⅚⅕⅖⅗⅘⅐⅑⅒'])('%s is the fraction that Unicode spells it as', (character) => {
    const spelled = character.normalize('NFKD');
    expect(spelled).toMatch(/^\d+⁄\d+$/);
    expect(parseLength(`3${character}"`)).toEqual(parseLength(`3 ${spelled}"`));
    expect(parseLength(`3'-${character}"`)).toEqual(parseLength(`3'-${spelled}"`));
  });
});

describe('a length that should be looked at again', () => {
  it.each([
    [`1/3"`, 8_466_667, `1/3" is not on a tape`, [`5/16"`]],
    [`⅓"`, 8_466_667, `1/3" is not on a tape`, [`5/16"`]],
    [`-1/3"`, -8_466_667, `1/3" is not on a tape`, [`-5/16"`]],
    [`1/128"`, 198_438, `1/128" is not on a tape`, [`1/16"`]],
    [`3 17/16"`, 103_187_500, `17/16" is more than a whole inch`, [`4-1/16"`]],
    [`5/4"`, 31_750_000, `5/4" is more than a whole inch`, [`1-1/4"`]],
    [`4/4"`, 25_400_000, `4/4" is a whole inch`, [`1"`]],
    [`7/3"`, 59_266_667, `7/3" is more than a whole inch; 7/3" is not on a tape`, [`2-5/16"`]],
    [`12'-14"`, 4_013_200_000, `14" after the feet is a foot or more`, [`13'-2"`]],
    [`3-4 1/2`, 1_028_700_000, `no foot mark: taken for 3'-4 1/2"`, [`3'-4 1/2"`]],
    [`3-4-1/2`, 1_028_700_000, `no foot mark: taken for 3'-4 1/2"`, [`3'-4 1/2"`]],
    [`36–4`, 11_074_400_000, `no foot mark: taken for 36'-4"`, [`36'-4"`]],
    [`3-4 1/2"`, 1_028_700_000, `no foot mark: taken for 3'-4 1/2"`, [`3'-4 1/2"`]],
    [
      `12.3'`,
      3_749_040_000,
      `12.3' is 12'-3 5/8": parts of a foot in decimals are not on this tape`,
      [`12'-3 5/8"`, `12'-3"`],
    ],
  ])('%s is read, and questioned', (text, length, doubt, suggestions) => {
    expect(read(text)).toMatchObject({ length, doubt, suggestions });
  });

  it('says where a whole nanometre is not exactly what was written', () => {
    expect(read(`1/3"`).exact).toBe(false);
    expect(read('0.3333333333 in').exact).toBe(false);
    expect(read(`0.33${'0'.repeat(60)}1 in`).exact).toBe(false);
    expect(read(`0.33${'0'.repeat(60)} in`).exact).toBe(true);
  });
});

describe('a number without its unit', () => {
  it.each([
    ['12', [`12"`, `12'`, '12 mm']],
    ['-12', [`-12"`, `-12'`, '-12 mm']],
    ['12.5', [`12.5"`, `12.5'`, '12.5 mm']],
    ['1067', ['1067 mm', `1067"`, `1067'`]],
    ['1/2', [`1/2"`]],
    ['½', [`1/2"`]],
    ['3 1/2', [`3-1/2"`]],
    ['3-1/2', [`3-1/2"`]],
    ['17/16', [`1-1/16"`]],
    ['3-14', [`4'-2"`]],
    [`3 4 1/2"`, [`3'-4 1/2"`]],
  ])('%s is questioned, with what it may be', (text, suggestions) => {
    expect(parseLength(text)).toMatchObject({ kind: 'bare', suggestions });
  });

  it('offers only what can be read without a doubt', () => {
    for (const text of [
      '12',
      '-12',
      '12.5',
      '1067',
      '1/2',
      '1/3',
      '3-1/2',
      '17/16',
      '3-14',
      `3 4 1/2"`,
      `3-4"`,
      '1,067 m',
    ]) {
      const parsed = parseLength(text);
      expect(parsed.suggestions?.length).toBeGreaterThan(0);
      for (const suggestion of parsed.suggestions ?? []) expect(read(suggestion).doubt).toBeUndefined();
    }
  });
});

describe('what is no length', () => {
  it.each([
    ['', 'no length here'],
    ['   ', 'no length here'],
    ['abc', 'abc is no length'],
    ['12 yd', 'yd is no unit of length here'],
    [`12'-`, `12'- is half typed`],
    [`12'-3 1/`, `12'-3 1/ is half typed`],
    ['-', '- is no length'],
    ['--3"', '--3" is no length'],
    [`4" 3'`, `4" 3' is no length`],
    [`5'-0"-6'-4"`, `5'-0"-6'-4" is no length`],
    [`12.5'-3"`, `12.5'-3" gives parts of a foot and then inches`],
    ['1/2 mm', 'metric lengths are read with decimals'],
    ['1/0"', '1/0" has 0 under the fraction bar'],
    [`3'-1/0"`, `3'-1/0" has 0 under the fraction bar`],
    ['1/0', '1/0 has 0 under the fraction bar'],
    ['3-4 1/0', '3-4 1/0 has 0 under the fraction bar'],
    ['1,067 m', '1,067 m has a comma'],
    [`3-4"`, `3-4" may be 3'-4" or a fraction of an inch`],
    ['99999999 m', '99999999 m is longer than 10 000 ft'],
    ['99999999', '99999999 is longer than 10 000 ft'],
    [`10000'-1"`, `10000'-1" is longer than 10 000 ft`],
    ['2026-06-11', '2026-06-11 is no length'],
    ['2x6', 'x is no unit of length here'],
  ])('%s is refused in words', (text, reason) => {
    const parsed = parseLength(text);
    expect(parsed.kind).toBe('bad');
    expect(parsed.kind === 'bad' && parsed.reason).toContain(reason);
  });

  it('takes the longest length and refuses the next one', () => {
    expect(read(`10000'`).length).toBe(LONGEST_LENGTH);
    expect(LONGEST_LENGTH).toBe(feet(10_000));
    expect(parseLength('3048000.000001 mm').kind).toBe('bad');
  });

  it('never shows an endless text in its reason, nor a line break', () => {
    const parsed = parseLength(`1\n2 ${'x'.repeat(5000)}`);
    expect(parsed.kind === 'bad' && parsed.reason.length).toBeLessThan(120);
    expect(parsed.kind === 'bad' && parsed.reason).not.toContain('\n');
  });
});

describe('any text', () => {
  const piece = fc.constantFrom(
    ...[
      '0',
      '1',
      '12',
      '3.5',
      '1/2',
      '½',
      '-',
      '–',
      "'",
      '"',
      '′',
      '″',
      ' ',
      'ft',
      'in',
      'mm',
      'm',
      '/',
      '.',
      ',',
      '+',
      'x',
      '\n',
    ],
  );

  it('gives an answer with words, never a crash', () => {
    const text = fc.oneof(
      fc.string(),
      fc.array(piece, { maxLength: 14 }).map((pieces) => pieces.join('')),
    );
    fc.assert(
      fc.property(text, (given) => {
        const parsed = parseLength(given);
        if (parsed.kind === 'length') {
          expect(Number.isSafeInteger(parsed.length)).toBe(true);
          expect(Math.abs(parsed.length)).toBeLessThanOrEqual(LONGEST_LENGTH);
          expect(parsed.suggestions === undefined).toBe(parsed.doubt === undefined);
        } else expect(parsed.reason).not.toBe('');
        for (const suggestion of parsed.suggestions ?? []) {
          const again = parseLength(suggestion);
          expect(again.kind === 'length' && again.doubt === undefined, suggestion).toBe(true);
        }
      }),
      { numRuns: 3000 },
    );
  });

  it('is read the same with spaces around it', () => {
    fc.assert(
      fc.property(fc.array(piece, { maxLength: 10 }), (pieces) => {
        const text = pieces.join('');
        const plain = parseLength(text);
        const spaced = parseLength(`  ${text}\t`);
        expect(spaced.kind).toBe(plain.kind);
        if (plain.kind === 'length' && spaced.kind === 'length') expect(spaced.length).toBe(plain.length);
      }),
    );
  });

  it('changes sign with a sign in front', () => {
    fc.assert(
      fc.property(fc.array(piece, { maxLength: 10 }), (pieces) => {
        const text = pieces.join('').trim();
        const plain = parseLength(text);
        if (plain.kind !== 'length' || /^[-–+]/.test(text)) return;
        expect(parseLength(`-${text}`)).toMatchObject({ kind: 'length', length: nanometres(-plain.length) });
      }),
    );
  });

  it.each(['9', '0', '0.', '1/', '1 ', "'", '-', ' ', 'a', '.', '½', ','])(
    'is read even when %s is repeated a million times',
    (part) => {
      const text = part.repeat(1_000_000);
      for (const given of [text, `${text}"`, `3'-${text}`]) expect(parseLength(given).kind).not.toBe('bare');
    },
  );
});
