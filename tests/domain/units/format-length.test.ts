import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { LengthUnits } from '../../../language/domain/model/layout.ts';
import {
  formatBoth,
  formatExact,
  formatExactStation,
  formatInches,
  formatLength,
  formatStation,
} from '../../../language/domain/units/format-length.ts';
import type { Length } from '../../../language/domain/units/length.ts';
import {
  feet,
  inches,
  millimetre,
  millimetres,
  nanometres,
  roundTo,
  sixteenth,
} from '../../../language/domain/units/length.ts';
import { LONGEST_LENGTH, parseLength } from '../../../language/domain/units/parse-length.ts';

const anyLength = fc.integer({ min: -LONGEST_LENGTH, max: LONGEST_LENGTH }).map(nanometres);
const anyUnits = fc.constantFrom<LengthUnits>('feet-inches', 'metric');

describe('a length in print', () => {
  it.each<[number, string, string, string]>([
    [0, `0"`, `0'-0"`, '0 mm'],
    [0.5, `1/2"`, `0'-0 1/2"`, '13 mm'],
    [3.5, `3-1/2"`, `0'-3 1/2"`, '89 mm'],
    [10, `10"`, `0'-10"`, '254 mm'],
    [12, `1'-0"`, `1'-0"`, '305 mm'],
    [36.5, `3'-0 1/2"`, `3'-0 1/2"`, '927 mm'],
    [40.5, `3'-4 1/2"`, `3'-4 1/2"`, '1029 mm'],
    [-28.375, `-2'-4 3/8"`, `-2'-4 3/8"`, '-721 mm'],
    [-0.25, `-1/4"`, `-0'-0 1/4"`, '-6 mm'],
    // Rounding to 1/16 carries: into the next inch, the next foot, and away from zero on a tie.
    [11 + 15 / 16 + 1 / 32, `1'-0"`, `1'-0"`, '304 mm'],
    [23.99, `2'-0"`, `2'-0"`, '609 mm'],
    [3 + 1 / 32, `3-1/16"`, `0'-3 1/16"`, '77 mm'],
    [-(3 + 1 / 32), `-3-1/16"`, `-0'-3 1/16"`, '-77 mm'],
    [1 / 64, `0"`, `0'-0"`, '0 mm'],
    [-1 / 64, `0"`, `0'-0"`, '0 mm'],
  ])('of %f in reads %s, as a station %s, in metric %s', (count, asLength, asStation, metric) => {
    expect(formatLength(inches(count), 'feet-inches')).toBe(asLength);
    expect(formatStation(inches(count), 'feet-inches')).toBe(asStation);
    expect(formatLength(inches(count), 'metric')).toBe(metric);
    expect(formatStation(inches(count), 'metric')).toBe(metric);
  });

  it('is said in inches alone where the trade does so', () => {
    expect(formatInches(inches(25.125), 'feet-inches')).toBe(`25-1/8"`);
    expect(formatInches(feet(4), 'feet-inches')).toBe(`48"`);
    expect(formatInches(feet(4), 'metric')).toBe('1219 mm');
  });

  it('is given in both systems for a hover', () => {
    expect(formatBoth(inches(40.5))).toBe(`3'-4 1/2" (1029 mm)`);
    expect(formatBoth(millimetres(1220))).toBe(`4'-0 1/16" (1220 mm)`);
  });

  it('reads back as the nearest mark, and never shows a sign before nothing', () => {
    fc.assert(
      fc.property(anyLength, anyUnits, (length, units) => {
        const step = units === 'metric' ? millimetre : sixteenth;
        // A tie goes away from zero.
        const nearest = length < 0 ? nanometres(-roundTo(nanometres(-length), step)) : roundTo(length, step);
        for (const text of [formatLength, formatStation, formatInches].map((format) => format(length, units))) {
          if (Math.abs(nearest) <= LONGEST_LENGTH) {
            expect(parseLength(text)).toEqual({ kind: 'length', length: nearest, exact: true, onTape: true });
          }
          if (nearest === 0) expect(text).not.toMatch(/^-/);
        }
      }),
    );
  });
});

describe('a length in a file', () => {
  it.each<[Length, string, string]>([
    [inches(3.5), `3-1/2"`, '88.9 mm'],
    [inches(40.5 + 1 / 64), `3'-4 33/64"`, '1029.096875 mm'],
    [inches(1 / 64), `1/64"`, '0.396875 mm'],
    [feet(1), `1'-0"`, '304.8 mm'],
    [inches(12 - 1 / 64), `11-63/64"`, '304.403125 mm'],
    [millimetres(1220), '1220 mm', '1220 mm'],
    [millimetres(254), `10"`, '254 mm'],
    [nanometres(1), '0.000001 mm', '0.000001 mm'],
    [nanometres(-8_466_667), '-8.466667 mm', '-8.466667 mm'],
    [nanometres(0), `0"`, '0 mm'],
  ])('of %i nm is written %s, with metric units %s', (length, withInches, withMetric) => {
    expect(formatExact(length, 'feet-inches')).toBe(withInches);
    expect(formatExact(length, 'metric')).toBe(withMetric);
  });

  it('is written as a station with its feet', () => {
    expect(formatExactStation(inches(10), 'feet-inches')).toBe(`0'-10"`);
    expect(formatExactStation(inches(10), 'metric')).toBe('254 mm');
  });

  it('reads back as exactly the same length, without a doubt', () => {
    const onTape = fc.integer({ min: -64 * 12_000, max: 64 * 12_000 }).map((count) => nanometres(count * 396_875));
    fc.assert(
      fc.property(fc.oneof(anyLength, onTape), anyUnits, (length, units) => {
        for (const text of [formatExact(length, units), formatExactStation(length, units)]) {
          const parsed = parseLength(text);
          expect(parsed).toMatchObject({ kind: 'length', length, exact: true });
          expect(parsed.kind === 'length' && parsed.doubt).toBeUndefined();
        }
      }),
      { numRuns: 2000 },
    );
  });
});
