import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  assemblyWeight,
  layerWeight,
  layerWeights,
} from '../../../language/domain/engineering/demand/assembly-weights.ts';
import type { CapConditions } from '../../../language/domain/engineering/demand/base-shear.ts';
import {
  approximatePeriod,
  baseShear,
  capApplies,
  cappedAcceleration,
  existingBuildingShear,
  responseCoefficient,
} from '../../../language/domain/engineering/demand/base-shear.ts';
import {
  allowableCombinations,
  allowableForce,
} from '../../../language/domain/engineering/demand/load-combinations.ts';
import {
  seismicWeights,
  totalWeight,
  wholeHouseWeight,
} from '../../../language/domain/engineering/demand/seismic-weight.ts';
import type { SiteClass } from '../../../language/domain/engineering/demand/site-coefficients.ts';
import {
  designAccelerations,
  designCategory,
  oneSecondCoefficient,
  shortPeriodCoefficient,
  siteTables,
} from '../../../language/domain/engineering/demand/site-coefficients.ts';
import {
  distributionExponent,
  verticalDistribution,
} from '../../../language/domain/engineering/demand/vertical-distribution.ts';
import { squareFeet } from '../../../language/domain/units/area.ts';
import { inPounds, pounds } from '../../../language/domain/units/force.ts';
import { feet } from '../../../language/domain/units/length.ts';
import { inKilopascals, poundsPerSquareFoot as psf } from '../../../language/domain/units/stress.ts';
import { done } from './support.ts';

describe('weights', () => {
  it('the two unit columns of the printed dead loads agree within print rounding, but for the 3 in decking', () => {
    const off = layerWeights.filter(
      (layer) =>
        layer.kilonewtonsPerSquareMetre !== undefined &&
        Math.abs(inKilopascals(psf(layer.psf)) - layer.kilonewtonsPerSquareMetre) > 0.0051,
    );
    expect(off.map((layer) => layer.name)).toEqual(['decking 3 in douglas fir']);
  });

  it('an assembly is the sum of its layers, listed or one’s own', () => {
    const shingles = layerWeight('asphalt shingles');
    if (!shingles) throw new Error('listed layer');
    const roof = assemblyWeight('the roof', [
      { name: 'shingles', weight: shingles },
      { name: 'boards and rafters', weight: psf(5.5) },
    ]);
    expect(roof.number).toBeCloseTo(7.5, 9);
    expect(assemblyWeight('nothing', []).number).toBe(0);
    expect(layerWeight('moon dust')).toBeUndefined();
  });

  it('each level gathers its floor, its partitions and half the walls below and above', () => {
    const storey = {
      area: squareFeet(1000),
      floorWeight: psf(10),
      partitionWeight: psf(10),
      wallPerimeter: feet(130),
      wallHeight: feet(8),
      wallWeight: psf(15),
    };
    const levels = seismicWeights({
      storeys: [
        { name: 'first floor', ...storey },
        { name: 'second floor', ...storey },
      ],
      roof: { area: squareFeet(1100), weight: psf(10), ceilingWeight: psf(7) },
      cripple: { perimeter: feet(130), height: feet(2), weight: psf(10) },
    });
    const wall = (130 * 8 * 15) / 2;
    expect(levels.map((level) => [level.name, Math.round(level.weight.number)])).toEqual([
      ['first floor', 1000 * 20 + (130 * 2 * 10) / 2 + wall],
      ['second floor', 1000 * 20 + 2 * wall],
      ['roof', 1100 * 17 + wall],
    ]);
    expect(totalWeight(levels).number).toBeCloseTo(20_000 * 2 + 18_700 + 1300 + 4 * wall, 6);
  });

  it('loses only the lower half of the cripple wall: that stands on the ground', () => {
    const area = fc.double({ min: 200, max: 3000, noNaN: true });
    fc.assert(
      fc.property(area, fc.integer({ min: 1, max: 3 }), (size, count) => {
        const storey = {
          area: squareFeet(size),
          floorWeight: psf(12),
          partitionWeight: psf(8),
          wallPerimeter: feet(120),
          wallHeight: feet(9),
          wallWeight: psf(14),
        };
        const levels = seismicWeights({
          storeys: Array.from({ length: count }, (_, index) => ({ name: `floor ${index + 1}`, ...storey })),
          roof: { area: squareFeet(size), weight: psf(10), ceilingWeight: psf(5) },
          cripple: { perimeter: feet(120), height: feet(2), weight: psf(10) },
        });
        const everything = count * (size * 20 + 120 * 9 * 14) + size * 15;
        expect(totalWeight(levels).number).toBeCloseTo(everything + (120 * 2 * 10) / 2, 4);
      }),
    );
  });
});

describe('site coefficients (ASCE 7 Tables 11.4-1, 11.4-2)', () => {
  const site = (siteClass: SiteClass, SS: number, S1 = SS, byDefault = false) => ({
    edition: 'ASCE 7-16' as const,
    siteClass,
    byDefault,
    SS,
    S1,
  });

  it('are the table at its columns and straight lines between, level beyond both ends', () => {
    expect(done(shortPeriodCoefficient(site('D', 0.75))).number).toBe(1.2);
    expect(done(shortPeriodCoefficient(site('D', 0.875))).number).toBeCloseTo(1.15, 9);
    expect(done(shortPeriodCoefficient(site('D', 0.1))).number).toBe(1.6);
    expect(done(shortPeriodCoefficient(site('D', 3))).number).toBe(1);
    expect(done(oneSecondCoefficient(site('D', 1, 0.458))).number).toBeCloseTo(1.842, 9);
  });

  it('a default class D takes 1.2 at least, a found one what the table says (11.4.4)', () => {
    expect(done(shortPeriodCoefficient(site('D', 1.5, 0.5, true))).number).toBe(1.2);
    expect(done(shortPeriodCoefficient(site('D', 1.5))).number).toBe(1);
  });

  it('where the table asks for a ground-motion study there is no number', () => {
    expect(shortPeriodCoefficient(site('F', 1))).toMatchObject({ kind: 'refused' });
    expect(shortPeriodCoefficient(site('E', 1))).toMatchObject({ kind: 'refused' });
    expect(shortPeriodCoefficient(site('E', 0.9))).toMatchObject({ kind: 'refused' });
    expect(done(shortPeriodCoefficient(site('E', 0.6))).number).toBeCloseTo(1.7 - 0.4 * 0.4, 9);
    expect(designAccelerations(site('F', 1))).toMatchObject({ kind: 'refused' });
    expect(done(oneSecondCoefficient(site('D', 1, 0.6))).notes.join()).toContain('11.4.8');
  });

  it('every row has a cell for every column', () => {
    for (const { Fa, Fv } of Object.values(siteTables)) {
      for (const table of [Fa, Fv])
        for (const row of Object.values(table.rows)) expect(row.length).toBe(table.columns.length);
    }
  });

  it('the design category is the worse of the two tables, E near a great fault, one step up for essential buildings', () => {
    expect(designCategory(0.16, 0.06, 0.1, 'II')).toBe('A');
    expect(designCategory(0.3, 0.06, 0.1, 'II')).toBe('B');
    expect(designCategory(0.3, 0.15, 0.1, 'II')).toBe('C');
    expect(designCategory(0.5, 0.06, 0.1, 'II')).toBe('D');
    expect(designCategory(0.3, 0.06, 0.1, 'IV')).toBe('C');
    expect(designCategory(1.2, 0.6, 0.75, 'II')).toBe('E');
    expect(designCategory(1.2, 0.6, 0.75, 'IV')).toBe('F');
  });
});

describe('base shear (ASCE 7-16 12.8)', () => {
  const response = (over: Partial<Parameters<typeof responseCoefficient>[0]>) =>
    responseCoefficient({ SDS: 1, SD1: 0.6, period: 0.2, longPeriod: 8, R: 6.5, importance: 1, ...over });

  it('stays between its limits for any site and period', () => {
    const value = (min: number, max: number) => fc.double({ min, max, noNaN: true });
    fc.assert(
      fc.property(value(0.1, 2), value(0.05, 1.5), value(0.05, 12), value(0.05, 1), (SDS, SD1, period, S1) => {
        const { Cs, fromSDS, lower, upperShort, upperLong } = response({ SDS, SD1, period, S1 });
        const upper = period <= 8 ? upperShort : upperLong;
        expect(Cs.number).toBeGreaterThanOrEqual(lower.number);
        expect(Cs.number).toBeLessThanOrEqual(Math.max(fromSDS.number, lower.number) + 1e-12);
        expect(Cs.number).toBeLessThanOrEqual(Math.max(upper.number, lower.number) + 1e-12);
      }),
    );
  });

  it('each limit governs somewhere: S_DS, long periods, the floor, a near fault', () => {
    expect(response({}).Cs.governing.symbol).toBe('C_smax');
    expect(response({}).Cs.number).toBeCloseTo(1 / 6.5, 9);
    expect(response({ period: 2 }).Cs.number).toBeCloseTo(0.6 / (2 * 6.5), 9);
    expect(response({ period: 10 }).Cs.number).toBeCloseTo(0.044, 9);
    expect(response({ period: 10, S1: 0.7 }).Cs.number).toBeCloseTo(0.35 / 6.5, 9);
    expect(response({ SDS: 0.1, SD1: 0.01, period: 9 }).Cs.number).toBeCloseTo(0.01, 9);
  });

  it('the cap of 12.8.1.3 wants every condition known and met', () => {
    const met: CapConditions = {
      regular: true,
      storeys: 2,
      period: 0.2,
      redundancy: 1,
      siteClass: 'D',
      riskCategory: 'II',
    };
    expect(cappedAcceleration(1.2, met).number).toBe(1);
    expect(cappedAcceleration(1.6, met).number).toBeCloseTo(1.12, 9);
    expect(cappedAcceleration(0.9, met).number).toBe(0.9);
    const broken: readonly Partial<CapConditions>[] = [
      { regular: false },
      { regular: undefined },
      { storeys: 6 },
      { storeys: undefined },
      { period: 0.6 },
      { period: undefined },
      { redundancy: 1.3 },
      { siteClass: 'E' },
      { siteClass: undefined },
      { riskCategory: 'III' },
      { riskCategory: undefined },
    ];
    for (const change of broken) {
      expect(capApplies({ ...met, ...change }), JSON.stringify(change)).toBe(false);
      expect(cappedAcceleration(1.2, { ...met, ...change }).number).toBe(1.2);
    }
  });

  it('75 percent for an existing house is a stated choice, and the trace says so', () => {
    const full = baseShear(0.2, pounds(10_000));
    const reduced = existingBuildingShear(full);
    expect(reduced.number).toBeCloseTo(1500, 9);
    expect(reduced.notes).toEqual(['a stated choice of the designer']);
    expect(allowableForce(reduced, 1).number).toBeCloseTo(1050, 9);
    expect(allowableForce(reduced, 1.3).number).toBeCloseTo(1365, 9);
  });

  it('a wood house 19 ft high has a period of 0.182 s; combinations follow S_DS and rho', () => {
    expect(approximatePeriod(feet(19)).number).toBeCloseTo(0.182, 3);
    const { deadAdding, deadResisting, earthquake } = allowableCombinations(1.2, 1.3);
    expect([deadAdding.number, deadResisting.number, earthquake.number]).toEqual([
      expect.closeTo(1.168),
      expect.closeTo(0.432),
      expect.closeTo(0.91),
    ]);
  });
});

describe('vertical distribution (ASCE 7-16 12.8.3)', () => {
  it('the levels add up to the base shear, for any weights, heights and period', () => {
    const level = fc.record({
      weight: fc.double({ min: 100, max: 1e5, noNaN: true }),
      height: fc.double({ min: 0.5, max: 40, noNaN: true }),
    });
    fc.assert(
      fc.property(
        fc.array(level, { minLength: 1, maxLength: 6 }),
        fc.double({ min: 0, max: 4, noNaN: true }),
        (levels, period) => {
          const forces = verticalDistribution(
            pounds(20_000),
            levels.map((each, index) => ({
              name: `level ${index}`,
              weight: pounds(each.weight),
              height: feet(each.height),
            })),
            distributionExponent(period),
          );
          expect(forces.reduce((sum, each) => sum + inPounds(each.force.value), 0)).toBeCloseTo(20_000, 4);
        },
      ),
    );
  });

  it('the exponent is 1 up to half a second, 2 from two and a half, and between on a line', () => {
    expect([0, 0.5, 1.5, 2.5, 4].map((period) => distributionExponent(period).number)).toEqual([1, 1, 1.5, 2, 2]);
  });
});

it('one number per square foot of ground floor gives the whole house: 80 psf of 1,000 sq ft', () => {
  expect(wholeHouseWeight(squareFeet(1000), psf(80)).number).toBeCloseTo(80_000, 6);
  expect(wholeHouseWeight(squareFeet(1000), psf(80)).section?.trust).toBe('common-practice');
});
