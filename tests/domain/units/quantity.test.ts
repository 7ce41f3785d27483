import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { formatQuantity, formatQuantityIn } from '../../../language/domain/units/format-quantity.ts';
import { parseQuantity } from '../../../language/domain/units/parse-quantity.ts';
import type { Dimension } from '../../../language/domain/units/quantity.ts';
import { inUnit, QUANTITY_UNITS, quantityOf } from '../../../language/domain/units/quantity.ts';

describe('a quantity', () => {
  it.each<[string, Dimension, number, string]>([
    ['2500 psi', 'pressure', 2500, 'psi'],
    ['2500psi', 'pressure', 2500, 'psi'],
    ['45 ksi', 'pressure', 45, 'ksi'],
    ['80 psf', 'pressure', 80, 'psf'],
    ['13.8 MPa', 'pressure', 13.8, 'MPa'],
    ['4 kPa', 'pressure', 4, 'kPa'],
    ['390 kg/m2', 'pressure', 390, 'kg/m2'],
    ['390 kg/m²', 'pressure', 390, 'kg/m²'],
    ['150 pcf', 'density', 150, 'pcf'],
    ['380 plf', 'force-per-length', 380, 'plf'],
    ['5.5 kN/m', 'force-per-length', 5.5, 'kN/m'],
    ['900 lb', 'force', 900, 'lb'],
    ['900 lbs', 'force', 900, 'lbs'],
    ['1 kip', 'force', 1, 'kip'],
    ['17.6 kips', 'force', 17.6, 'kips'],
    ['4 kN', 'force', 4, 'kN'],
    ['4 N', 'force', 4, 'N'],
    ['12 kg', 'mass', 12, 'kg'],
    ['45 ft-lb', 'moment', 45, 'ft-lb'],
    ['61 N·m', 'moment', 61, 'N·m'],
    ['61 N-m', 'moment', 61, 'N-m'],
    ['1097 sq ft', 'area', 1097, 'sq ft'],
    ['1097 sq  ft', 'area', 1097, 'sq ft'],
    ['128 sq in', 'area', 128, 'sq in'],
    ['102 m2', 'area', 102, 'm2'],
    ['102 m²', 'area', 102, 'm²'],
    ['35 min', 'time', 35, 'min'],
    ['1 hour', 'time', 1, 'hour'],
    ['8 hours', 'time', 8, 'hours'],
    ['25 %', 'share', 25, '%'],
    ['25%', 'share', 25, '%'],
    ['45°', 'angle', 45, '°'],
    ['-45°', 'angle', -45, '°'],
    ['−45 deg', 'angle', -45, 'deg'],
    ['+1.00', 'number', 1, ''],
    ['1924', 'number', 1924, ''],
    // Phones capitalise.
    ['2500 Psi', 'pressure', 2500, 'psi'],
    ['4 KN', 'force', 4, 'kN'],
    ['4 n', 'force', 4, 'N'],
  ])('%s is read', (text, dimension, value, unit) => {
    const quantity = parseQuantity(text);
    expect(quantity).toEqual(quantityOf(value, unit));
    expect(quantity?.dimension).toBe(dimension);
  });

  it.each([
    '',
    ' ',
    'psi',
    '12"',
    `3'-4"`,
    '1067 mm',
    '$19.50',
    '2500 psi psi',
    '25 % of it',
    '1e5 N',
    '12.',
    '1,200 lb',
    '--4 N',
    '99999999999999999',
  ])('%s is none', (text) => {
    expect(parseQuantity(text)).toBeUndefined();
  });

  it('has base units as its type says', () => {
    expect(parseQuantity('25 %')?.amount).toBe(0.25);
    expect(parseQuantity('2 hours')?.amount).toBe(120);
    expect(parseQuantity('45 deg')?.amount).toBe(45);
    expect(parseQuantity('3 kN')?.amount).toBe(3000);
    expect(parseQuantity('-0')?.amount).toBe(0);
  });

  it('prints as it was written', () => {
    const written = [
      '2500 psi',
      '13.8 MPa',
      '25 %',
      '45°',
      '-45°',
      '1097 sq ft',
      '0.1 pcf',
      '33 %',
      '0.0000001 N',
      '1924',
      '0 lb',
    ];
    for (const text of written) {
      const quantity = parseQuantity(text);
      expect(quantity && formatQuantity(quantity)).toBe(text);
    }
  });

  it('prints in another unit of its dimension, and in no other', () => {
    const strength = quantityOf(13.8, 'MPa');
    if (!strength) throw new Error('MPa is a unit');
    expect(formatQuantityIn(strength, 'psi')).toBe('2002 psi');
    expect(formatQuantityIn(strength, 'lb')).toBeUndefined();
    expect(formatQuantityIn(strength, 'furlong')).toBeUndefined();
    expect(inUnit(strength, 'kPa')).toBeCloseTo(13_800, 6);
  });

  it('reads back what it prints, in every unit', () => {
    const unit = fc.constantFrom(...QUANTITY_UNITS.keys());
    fc.assert(
      fc.property(
        unit,
        fc.integer({ min: -1_000_000, max: 1_000_000 }),
        fc.integer({ min: 0, max: 4 }),
        (name, count, digits) => {
          const quantity = quantityOf(count / 10 ** digits || 0, name);
          expect(quantity && parseQuantity(formatQuantity(quantity))).toEqual(quantity);
        },
      ),
      { numRuns: 1000 },
    );
  });

  it('is answered for any text without a crash', () => {
    fc.assert(
      fc.property(fc.string(), (text) => {
        const quantity = parseQuantity(text);
        if (quantity) expect(Number.isFinite(quantity.amount)).toBe(true);
      }),
    );
    for (const part of ['9', '9.', ' ', '9 ', '%']) expect(parseQuantity(part.repeat(1_000_000))).toBeUndefined();
  });
});
