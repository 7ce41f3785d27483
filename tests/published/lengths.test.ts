import fc from 'fast-check';
import Fraction from 'fraction.js';
import { describe, expect, it } from 'vitest';
import { formatExact } from '../../language/domain/units/format-length.ts';
import { feet, inches, millimetres, nanometres } from '../../language/domain/units/length.ts';
import { parseLength } from '../../language/domain/units/parse-length.ts';

/** NIST SP 811, appendix B.8: 1 in = 2.54 E-02 m and 1 ft = 3.048 E-01 m, both exact. */
const INCH = new Fraction('0.0254');
const FOOT = new Fraction('0.3048');
const NANOMETRE = new Fraction(1, 1_000_000_000);

/** Against fraction.js, a library of exact fractions: metres, then whole nanometres, half away from zero. */
function nanometresOf(metres: Fraction): number {
  return Number(metres.div(NANOMETRE).round(0).valueOf());
}

function readLength(text: string): number {
  const parsed = parseLength(text);
  if (parsed.kind !== 'length') throw new Error(`${text} was not read`);
  return parsed.length;
}

describe('lengths against an exact fraction library', () => {
  it('agree for every 1/64 in up to 100 ft, however they are written', () => {
    let compared = 0;
    for (let count = 0; count <= 100 * 12 * 64; count += 1) {
      const expected = nanometresOf(INCH.mul(new Fraction(count, 64)));
      const wholeFeet = Math.floor(count / 768);
      const wholeInches = Math.floor((count % 768) / 64);
      const part = `${count % 64}/64`;
      const length = nanometres(expected);
      expect(readLength(`${wholeFeet}'-${wholeInches} ${part}"`)).toBe(expected);
      expect(readLength(`${Math.floor(count / 64)}-${part}"`)).toBe(expected);
      expect(readLength(formatExact(length, 'feet-inches'))).toBe(expected);
      compared += 1;
    }
    expect(compared).toBe(76_801);
  });

  it('agree for every whole millimetre up to 30 480 (100 ft), in mm, cm and m', () => {
    for (let count = 0; count <= 30_480; count += 1) {
      const expected = nanometresOf(new Fraction(count, 1000));
      expect(readLength(`${count} mm`)).toBe(expected);
      expect(readLength(`${Math.floor(count / 10)}.${count % 10} cm`)).toBe(expected);
      expect(readLength(`${Math.floor(count / 1000)}.${String(count % 1000).padStart(3, '0')} m`)).toBe(expected);
      expect(readLength(formatExact(nanometres(expected), 'feet-inches'))).toBe(expected);
    }
  });

  it('agree for any fraction and any decimal, rounded to the nearest nanometre', () => {
    const small = fc.integer({ min: 0, max: 999 });
    fc.assert(
      fc.property(small, small, small, fc.integer({ min: 1, max: 999 }), (wholeFeet, wholeInches, count, over) => {
        const metres = FOOT.mul(wholeFeet).add(INCH.mul(new Fraction(count, over).add(wholeInches)));
        expect(readLength(`${wholeFeet}'-${wholeInches} ${count}/${over}"`)).toBe(nanometresOf(metres));
        expect(readLength(`-${wholeFeet}'-${wholeInches} ${count}/${over}"`)).toBe(-nanometresOf(metres) || 0);
      }),
      { numRuns: 2000 },
    );
    const decimals = fc.stringMatching(/^\d{1,3}\.\d{1,18}$/);
    fc.assert(
      fc.property(decimals, (number) => {
        expect(readLength(`${number} in`)).toBe(nanometresOf(INCH.mul(number)));
        expect(readLength(`${number}'`)).toBe(nanometresOf(FOOT.mul(number)));
        expect(readLength(`${number} m`)).toBe(nanometresOf(new Fraction(number)));
      }),
      { numRuns: 2000 },
    );
  });
});

describe('lengths against published conversions', () => {
  it('agree with NIST SP 811, appendix B.8', () => {
    expect(inches(1)).toBe(millimetres(25.4));
    expect(feet(1)).toBe(millimetres(304.8));
    expect(readLength('1 in')).toBe(25_400_000);
    expect(readLength('1 ft')).toBe(304_800_000);
  });

  // By the definition of the inch, not the rounded sizes that metric tables print.
  it.each([
    [`1/2"`, '12.7 mm'],
    [`5/8"`, '15.875 mm'],
    [`0.229"`, '5.8166 mm'],
    [`4'-0"`, '1219.2 mm'],
    [`36'-4"`, '11074.4 mm'],
  ])('%s is exactly %s', (imperial, metric) => {
    expect(readLength(imperial)).toBe(readLength(metric));
  });
});
