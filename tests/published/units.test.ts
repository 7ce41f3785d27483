import { describe, expect, it } from 'vitest';
import { inches } from '../../language/domain/units/length.ts';
import { nominalSize } from '../../language/domain/units/nominal-size.ts';
import { parseQuantity } from '../../language/domain/units/parse-quantity.ts';

describe('conversions against NIST SP 811, appendix B.8', () => {
  // The printed factors, six decimals of the mantissa (from memory; psf and psi also read in public quotations of it).
  it.each([
    ['1 psi', 'pound-force per square inch to pascal', 6.894757e3],
    ['1 ksi', 'kip per square inch to pascal', 6.894757e6],
    ['1 psf', 'pound-force per square foot to pascal', 4.788026e1],
    ['1 kg/m2', 'kilogram-force per square metre to pascal', 9.80665],
    ['1 lb', 'pound-force to newton', 4.448222],
    ['1 kip', 'kip (1000 lbf) to newton', 4.448222e3],
    ['1 plf', 'pound-force per foot to newton per metre', 1.45939e1],
    ['1 pcf', 'pound per cubic foot to kilogram per cubic metre', 1.601846e1],
    ['1 ft-lb', 'foot pound-force to newton metre', 1.355818],
    ['1 sq ft', 'square foot to square metre', 9.290304e-2],
    ['1 sq in', 'square inch to square metre', 6.4516e-4],
  ])('%s: %s', (text, _name, factor) => {
    const amount = parseQuantity(text)?.amount ?? Number.NaN;
    expect(Number(amount.toPrecision(7))).toBe(factor);
  });
});

describe('dressed sizes against the American Softwood Lumber Standard PS 20, table 3', () => {
  // From memory; the same sizes stand in the section tables of the National Design Specification supplement.
  it.each([
    ['1x4', 3 / 4, 3.5],
    ['1x12', 3 / 4, 11.25],
    ['2x2', 1.5, 1.5],
    ['2x3', 1.5, 2.5],
    ['2x4', 1.5, 3.5],
    ['2x5', 1.5, 4.5],
    ['2x6', 1.5, 5.5],
    ['2x8', 1.5, 7.25],
    ['2x10', 1.5, 9.25],
    ['2x12', 1.5, 11.25],
    ['2x14', 1.5, 13.25],
    ['3x6', 2.5, 5.5],
    ['3x16', 2.5, 15.25],
    ['4x4', 3.5, 3.5],
    ['4x6', 3.5, 5.5],
    ['4x8', 3.5, 7.25],
    ['4x16', 3.5, 15.25],
    ['6x6', 5.5, 5.5],
    ['6x8', 5.5, 7.5],
    ['6x10', 5.5, 9.5],
    ['8x8', 7.5, 7.5],
    ['12x16', 11.5, 15.5],
  ])('%s is %f x %f in', (text, thick, wide) => {
    expect(nominalSize(text)).toEqual({ thick: inches(thick), wide: inches(wide) });
  });
});
