import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  areaOf,
  inSquareFeet,
  inSquareInches,
  inSquareMetres,
  inSquareMillimetres,
  rectangle,
  squareFeet,
  squareInches,
  squareMillimetres,
} from '../../../language/domain/units/area.ts';
import {
  forceAlong,
  forceOf,
  inKilonewtons,
  inKips,
  inNewtons,
  inNewtonsPerMetre,
  inPounds,
  inPoundsPerFoot,
  kilonewtons,
  kips,
  pounds,
  poundsPerFoot,
  spreadAlong,
  sumOfForces,
} from '../../../language/domain/units/force.ts';
import { feet, inches } from '../../../language/domain/units/length.ts';
import { inPoundsOfMass, massOf, poundsOfMass, weightOf } from '../../../language/domain/units/mass.ts';
import {
  footPounds,
  inchPounds,
  inFootPounds,
  inInchPounds,
  inNewtonMetres,
  momentOf,
} from '../../../language/domain/units/moment.ts';
import {
  forceOver,
  inKilopascals,
  inMegapascals,
  inPoundsPerSquareFoot,
  inPoundsPerSquareInch,
  megapascals,
  poundsPerSquareFoot,
  poundsPerSquareInch,
  stressOf,
} from '../../../language/domain/units/stress.ts';

describe('units of force, stress, area, moment and mass (factors: NIST SP 811 appendix B.8)', () => {
  it('hold the published factors', () => {
    expect(inNewtons(pounds(1))).toBe(4.4482216152605);
    expect(inNewtonsPerMetre(poundsPerFoot(1))).toBeCloseTo(14.5939, 4);
    expect(inMegapascals(poundsPerSquareInch(1000))).toBeCloseTo(6.894757, 6);
    expect(inKilopascals(poundsPerSquareFoot(1))).toBeCloseTo(0.04788026, 8);
    expect(inSquareMetres(squareFeet(1))).toBe(0.09290304);
    expect(inSquareMillimetres(squareInches(1))).toBeCloseTo(645.16, 9);
    expect(inNewtonMetres(footPounds(1))).toBeCloseTo(1.355818, 6);
    expect(inPounds(weightOf(poundsOfMass(1)))).toBeCloseTo(1, 12);
  });

  it('come back as they went in', () => {
    fc.assert(
      fc.property(fc.double({ min: -1e6, max: 1e6, noNaN: true }), (count) => {
        const same = (value: number) =>
          expect(Math.abs(value - count)).toBeLessThanOrEqual(1e-9 * Math.abs(count) + 1e-12);
        same(inPounds(pounds(count)));
        same(inKips(kips(count)));
        same(inKilonewtons(kilonewtons(count)));
        same(inPoundsPerFoot(poundsPerFoot(count)));
        same(inPoundsPerSquareInch(poundsPerSquareInch(count)));
        same(inPoundsPerSquareFoot(poundsPerSquareFoot(count)));
        same(inMegapascals(megapascals(count)));
        same(inSquareFeet(squareFeet(count)));
        same(inSquareMillimetres(squareMillimetres(count)));
        same(inFootPounds(footPounds(count)));
        same(inPoundsOfMass(poundsOfMass(count)));
        same(inPoundsOfMass(massOf(weightOf(poundsOfMass(count)))));
      }),
    );
  });

  it('combine: pressure over an area, a line load along a length, a force at an arm', () => {
    expect(inPounds(forceOver(poundsPerSquareFoot(80), squareFeet(1000)))).toBeCloseTo(80_000, 6);
    expect(inPounds(forceAlong(poundsPerFoot(120), feet(8)))).toBeCloseTo(960, 9);
    expect(inPoundsPerFoot(spreadAlong(pounds(3000), feet(8)))).toBeCloseTo(375, 9);
    expect(inFootPounds(momentOf(pounds(3000), feet(8)))).toBeCloseTo(24_000, 6);
    expect(inInchPounds(momentOf(pounds(2), inches(3)))).toBeCloseTo(6, 9);
    expect(inInchPounds(inchPounds(24))).toBeCloseTo(24, 9);
    expect(inSquareInches(rectangle(inches(3), inches(5.5)))).toBeCloseTo(16.5, 9);
    expect(inPounds(sumOfForces([pounds(1), pounds(2), pounds(3)]))).toBeCloseTo(6, 12);
  });

  it('are read from a quantity of the right dimension only', () => {
    expect(forceOf({ dimension: 'force', amount: 4448.2216152605, unit: 'kip' })).toBe(4448.2216152605);
    expect(forceOf({ dimension: 'mass', amount: 1, unit: 'kg' })).toBeUndefined();
    expect(stressOf({ dimension: 'force', amount: 1, unit: 'N' })).toBeUndefined();
    expect(areaOf({ dimension: 'area', amount: 2, unit: 'm2' })).toBe(2);
  });
});
