import { unit } from 'mathjs';
import { describe, expect, it } from 'vitest';
import { parseLength } from '../../language/domain/units/parse-length.ts';
import { parseQuantity } from '../../language/domain/units/parse-quantity.ts';

// Against mathjs, a general library with units that shares nothing with this project.
function bySiUnits(text: string): number {
  const read = parseQuantity(text);
  if (!read) throw new Error(`not read: ${text}`);
  return read.amount;
}

describe('conversions against a general units library', () => {
  it.each([
    ['2500 psi', '2500 psi', 'Pa'],
    ['12.5 ksi', '12500 psi', 'Pa'],
    ['13.8 MPa', '13.8 MPa', 'Pa'],
    ['380 plf', '380 lbf/ft', 'N/m'],
    ['80 psf', '80 lbf/ft^2', 'Pa'],
    ['150 pcf', '150 lbm/ft^3', 'kg/m^3'],
    ['900 lb', '900 lbf', 'N'],
    ['3 kN', '3 kN', 'N'],
    ['45 ft-lb', '45 ft lbf', 'N m'],
    ['1097.9 sq ft', '1097.9 ft^2', 'm^2'],
    ['45 min', '45 min', 'minute'],
  ])('%s', (text, same, base) => {
    const theirs = unit(same).toNumber(base);
    expect(Math.abs(bySiUnits(text) / theirs - 1)).toBeLessThan(1e-9);
  });

  it.each([`36'-4 3/8"`, `0'-0 1/16"`, `100'-0"`, '1067 mm', '106.7 cm', '3.5 m'])('%s', (text) => {
    const read = parseLength(text);
    if (read.kind !== 'length') throw new Error(`not read: ${text}`);
    const feet = /^(\d+)'-(\d+)(?: (\d+)\/(\d+))?"$/.exec(text);
    const [, ft = '0', inch = '0', over = '0', under = '1'] = feet ?? [];
    const theirs = feet
      ? unit(Number(ft), 'ft').toNumber('nm') + unit(Number(inch) + Number(over) / Number(under), 'in').toNumber('nm')
      : unit(text).toNumber('nm');
    expect(Math.abs(read.length - theirs)).toBeLessThan(0.5);
  });
});
