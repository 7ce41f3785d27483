import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { LengthUnits } from '../../language/domain/model/layout.ts';
import { feet, inches, type Length, millimetres, nanometres, sixteenth } from '../../language/domain/units/length.ts';
import { parseLength } from '../../language/domain/units/parse-length.ts';
import { stationLike, unitsOfWords } from '../../language/syntax/print/station-like.ts';

const at = (feetPart: number, inchPart: number): Length => nanometres(feet(feetPart) + inches(inchPart));
const like = (words: string, before: Length, after: Length, units: LengthUnits = 'feet-inches'): string =>
  stationLike({ words, station: before }, after, units);
const lengthOf = (words: string): Length => {
  const read = parseLength(words);
  if (read.kind !== 'length') throw new Error(`${words} is no length`);
  return read.length;
};

describe('a station in the words of the one before', () => {
  it('keeps the unit, the signs and the blanks', () => {
    const to = at(6, 4.5);
    for (const [words, expected] of [
      [`3'-4"`, `6'-4 1/2"`],
      [`3' 4"`, `6' 4 1/2"`],
      [`3'4-1/2"`, `6'4-1/2"`],
      [`3′-4″`, `6′-4 1/2″`],
      ['3 ft 4 in', '6 ft 4 1/2 in'],
      [`3'`, `6'-4 1/2"`],
      [`3.5'`, `6'-4 1/2"`],
      [`40"`, `76-1/2"`],
      [`40-1/4"`, `76-1/2"`],
      ['40 in', '76-1/2 in'],
      ['1016 mm', '1943.1 mm'],
      ['1016mm', '1943.1mm'],
      ['1.016 m', '1.9431 m'],
      ['101.6 cm', '194.31 cm'],
    ] as const) {
      expect(like(words, lengthOf(words), to), words).toBe(expected);
    }
  });

  it('stays a distance from the same end or the same edge', () => {
    expect(like(`2'-0" from right`, at(10, 0), at(9, 11.5))).toBe(`2'-0 1/2" from right`);
    expect(like(`7" right of V1`, at(10, 0), at(10, 1))).toBe(`8" right of V1`);
    expect(like(`7"  left  of "the vent"`, at(10, 0), at(10, 1))).toBe(`6"  left  of "the vent"`);
    expect(like('told 7" right of V1', at(10, 0), at(10, 1))).toBe('told 8" right of V1');
  });

  it('is written from the left where the same words cannot say it', () => {
    expect(like(`7" right of V1`, at(10, 0), at(9, 0))).toBe(`9'-0"`);
    expect(like('start', nanometres(0), at(0, 10))).toBe(`0'-10"`);
    expect(like('end', at(30, 0), at(29, 0))).toBe(`29'-0"`);
    expect(like('unknown', at(30, 0), at(29, 0))).toBe(`29'-0"`);
  });

  it('means exactly the new place, whatever was written', () => {
    const written = fc.constantFrom(
      `3'-4"`,
      `3' 4"`,
      `40"`,
      '40 in',
      '1016 mm',
      '1.016 m',
      '101.6cm',
      `3.5'`,
      '3-4 1/2',
    );
    const units = fc.constantFrom<LengthUnits>('feet-inches', 'metric');
    const station = fc.oneof(
      fc.integer({ min: 0, max: 16 * 12 * 40 }).map((count) => nanometres(count * sixteenth)),
      fc.integer({ min: 0, max: 12000 }).map((count) => millimetres(count)),
    );
    fc.assert(
      fc.property(written, station, units, (words, to, layoutUnits) => {
        expect(lengthOf(like(words, at(3, 4), to, layoutUnits))).toBe(to);
        const fromRight = like(`${words} from right`, at(3, 4), to, layoutUnits);
        const kept = lengthOf(words) + at(3, 4) - to;
        expect(lengthOf(fromRight.replace(' from right', ''))).toBe(kept < 0 ? to : kept);
        expect(fromRight.endsWith(' from right')).toBe(kept >= 0);
      }),
    );
  });

  it('is moved by the marks of the tape that it was read with', () => {
    expect(unitsOfWords('1016 mm', 'feet-inches')).toBe('metric');
    expect(unitsOfWords(`3'-4"`, 'metric')).toBe('feet-inches');
    expect(unitsOfWords('7" right of m2', 'metric')).toBe('feet-inches');
    expect(unitsOfWords('start', 'metric')).toBe('metric');
  });
});
