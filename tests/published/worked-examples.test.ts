import { describe, expect, it } from 'vitest';
import { shearBreakout, tensionBreakout } from '../../language/domain/engineering/capacity/concrete-anchor.ts';
import { groupAction } from '../../language/domain/engineering/capacity/connection-adjustment.ts';
import { dowelConnection } from '../../language/domain/engineering/capacity/dowel-connection.ts';
import { bolt } from '../../language/domain/engineering/capacity/fasteners.ts';
import { sillBoltReference } from '../../language/domain/engineering/capacity/sill-bolt.ts';
import {
  baseShear,
  cappedAcceleration,
  responseCoefficient,
} from '../../language/domain/engineering/demand/base-shear.ts';
import { designCategory } from '../../language/domain/engineering/demand/site-coefficients.ts';
import { verticalDistribution } from '../../language/domain/engineering/demand/vertical-distribution.ts';
import type { Refused } from '../../language/domain/engineering/trace.ts';
import { isRefused } from '../../language/domain/engineering/trace.ts';
import { squareInches } from '../../language/domain/units/area.ts';
import { inKips, kips } from '../../language/domain/units/force.ts';
import { feet, inches } from '../../language/domain/units/length.ts';
import { poundsPerSquareInch as psi } from '../../language/domain/units/stress.ts';

function done<T extends object>(outcome: T | Refused): T {
  if (isRefused(outcome)) throw new Error(outcome.reason);
  return outcome;
}

describe('base shear of a wood building of two levels (source: permit calculation, Santa Ana, California, ASCE 7-16, public record)', () => {
  const SDS = cappedAcceleration(1.064, {
    regular: true,
    storeys: 2,
    period: 0.17,
    redundancy: 1,
    siteClass: 'D',
    riskCategory: 'II',
  });
  const { Cs } = responseCoefficient({ SDS, SD1: 0.458, period: 0.17, longPeriod: 8, R: 6.5, importance: 1 });
  const V = baseShear(Cs, kips(62.3));
  const levels = [
    { name: 'level 2', weight: kips(20.9), height: feet(17) },
    { name: 'level 1', weight: kips(41.4), height: feet(8) },
  ];

  it('caps S_DS at 1.0, so that C_s is 0.1538 and the base shear 9.58 kip', () => {
    expect(Cs.number).toBeCloseTo(0.1538, 4);
    expect(inKips(V.value)).toBeCloseTo(9.58, 2);
  });

  it('gives the levels 4.96 and 4.62 kip, and a moment of 121.3 ft-kip at the base', () => {
    const forces = verticalDistribution(V, levels, 1);
    expect(forces.map((level) => inKips(level.force.value))).toEqual([
      expect.closeTo(4.96, 2),
      expect.closeTo(4.62, 2),
    ]);
    const moment = forces.reduce((sum, { force }, index) => sum + inKips(force.value) * (index === 0 ? 17 : 8), 0);
    expect(moment).toBeCloseTo(121.3, 1);
  });
});

it('S_DS 0.985 and S_D1 0.540 are design category D (source: US Geological Survey design-map report, public record)', () => {
  expect(designCategory(0.985, 0.54, 0.5, 'I')).toBe('D');
});

describe('concrete breakout (source: public design guide on ACI 318-19 breakout in shear, October 2025, worked pages)', () => {
  const cone = (c1: number, more: Partial<Parameters<typeof shearBreakout>[0]> = {}) =>
    done(
      shearBreakout({
        diameter: inches(0.5),
        embedment: inches(3.25),
        concrete: psi(3000),
        edge: inches(c1),
        condition: 'cracked-no-bar',
        ...more,
      }),
    );

  it('a 1/2 in anchor 5 in from the edge: 4407 lb by diameter governs, 5511 lb by edge', () => {
    const { basicByDiameter, basicByEdge, basic } = cone(5);
    expect(Math.round(basicByDiameter.number)).toBe(4407);
    expect(Math.round(basicByEdge.number)).toBe(5511);
    expect(basic.governing.symbol).toBe('V_b1');
  });

  it('thin concrete raises the value by 1.10, 1.18 and 1.5', () => {
    expect(cone(8, { depth: inches(10) }).depthFactor.number).toBeCloseTo(1.1, 2);
    expect(cone(14, { depth: inches(15) }).depthFactor.number).toBeCloseTo(1.18, 2);
    expect(cone(18, { depth: inches(12) }).depthFactor.number).toBeCloseTo(1.5, 2);
  });

  it('an end 12 in off reduces an edge of 18 in by 0.833; along the edge the cone counts twice and without it', () => {
    const near = cone(18, { alongLeft: inches(12) });
    expect(near.edgeFactor.number).toBeCloseTo(0.833, 3);
    expect(near.parallel.number * near.edgeFactor.number).toBeCloseTo(2 * near.perpendicular.number, 6);
  });

  it('in tension an edge of 8 in with 5.75 in of embedment reduces by 0.978, and the full area is 297.56 in²', () => {
    const { strength, fullArea } = done(
      tensionBreakout({
        embedment: inches(5.75),
        concrete: psi(4000),
        edges: { front: inches(8) },
        installation: 'cast-in',
        cracked: true,
      }),
    );
    expect(fullArea.number).toBeCloseTo(297.56, 2);
    expect(strength.inputs.find((input) => input.symbol === 'psi_ed')?.number).toBeCloseTo(0.978, 3);
  });
});

it('a 1/2 in bolt from 1-1/2 in hem-fir into 3-1/2 in carries 550 lb along the grain (source: wood council, errata to the NDS, example E.7)', () => {
  const hemFir = (thick: number) =>
    ({ material: 'wood', gravity: 0.43, length: inches(thick), angleToGrain: 0 }) as const;
  const joint = done(
    dowelConnection({ fastener: bolt(inches(0.5)), shear: 'single', main: hemFir(3.5), side: hemFir(1.5) }),
  );
  expect(Math.round(joint.number / 10) * 10).toBe(550);
});

it('a 1/2 in bolt through a southern pine sill carries 410 lb across the grain today (NDS Table 12E, from memory)', () => {
  const across = done(
    sillBoltReference({
      diameter: inches(0.5),
      sillThick: inches(1.5),
      gravity: 0.55,
      embedment: inches(6),
      concrete: psi(2500),
      angleToGrain: 90,
    }),
  );
  expect(Math.round(across.number / 10) * 10).toBe(410);
});

it('group action of 1 in bolts at 4 in in equal members of 5 in²: 1.00 0.97 0.91 0.85 0.78 for 2 to 6 in a row (NDS Table 11.3.6A, from memory)', () => {
  const factors = [2, 3, 4, 5, 6].map(
    (inRow) =>
      groupAction({
        diameter: inches(1),
        inRow,
        spacing: inches(4),
        sideMaterial: 'wood',
        mainElasticity: psi(1_400_000),
        sideElasticity: psi(1_400_000),
        mainArea: squareInches(5),
        sideArea: squareInches(5),
      }).number,
  );
  expect(factors.map((each) => each.toFixed(2))).toEqual(['1.00', '0.97', '0.91', '0.85', '0.78']);
});

it('group action of 1 in bolts in a 5 in² member between steel plates of a twelfth: 0.97 0.89 0.80 0.70 0.62 for 2 to 6 (NDS Table 11.3.6C, from memory)', () => {
  const factors = [2, 3, 4, 5, 6].map(
    (inRow) =>
      groupAction({
        diameter: inches(1),
        inRow,
        spacing: inches(4),
        sideMaterial: 'metal',
        mainElasticity: psi(1_400_000),
        sideElasticity: psi(30_000_000),
        mainArea: squareInches(5),
        sideArea: squareInches(5 / 12),
      }).number,
  );
  expect(factors.map((each) => each.toFixed(2))).toEqual(['0.97', '0.89', '0.80', '0.70', '0.62']);
});
