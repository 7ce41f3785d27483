import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { OverturningPanel } from '../../../language/domain/engineering/capacity/overturning.ts';
import { holdDownArm, overturning } from '../../../language/domain/engineering/capacity/overturning.ts';
import type { Panel, SheathingEdition } from '../../../language/domain/engineering/capacity/shear-wall.ts';
import {
  allowableUnitShear,
  aspectRatio,
  framingFactor,
  neededPanelLength,
  nominalUnitShear,
  panelCapacity,
  panelRows,
  perforatedEndForce,
  perforatedFactor,
  perforatedFactorByShares,
  perforatedSillShear,
  slendernessFactor,
  strengthUnitShear,
} from '../../../language/domain/engineering/capacity/shear-wall.ts';
import { kilonewtons, newtonsPerMetre, pounds, poundsPerFoot } from '../../../language/domain/units/force.ts';
import { feet, inches, millimetres } from '../../../language/domain/units/length.ts';
import { done } from './support.ts';

const sheathing: Panel = { grade: 'sheathing', thickness: '15/32', nail: '8d common', edgeSpacing: 4 };

describe('nailed panels (SDPWS Table 4.3A)', () => {
  it('15/32 in with 8d at 4 in carry 380 plf in every printing: the figure that a regional plan set counts on', () => {
    for (const edition of ['2008', '2015', '2021'] as const) {
      const allowable = allowableUnitShear(done(nominalUnitShear(sheathing, edition, 'seismic')), edition, 'seismic');
      expect(Math.abs(allowable.number - 380), edition).toBeLessThan(0.5);
    }
  });

  it('carry more with closer nails, in every row and for both loads', () => {
    for (const row of panelRows) {
      for (const load of ['seismic', 'wind'] as const) {
        const shears = ([6, 4, 3, 2] as const).map((spacing) => row[load][spacing]);
        expect(shears).toEqual(shears.toSorted((a, b) => a - b));
      }
      for (const spacing of [6, 4, 3, 2] as const)
        expect(Math.abs(row.wind[spacing] - 1.4 * row.seismic[spacing])).toBeLessThanOrEqual(7.5);
    }
  });

  it('are not guessed: a row that is not printed is refused', () => {
    const outcome = nominalUnitShear({ ...sheathing, thickness: '7/16', nail: '10d common' }, '2015', 'seismic');
    expect(outcome.kind === 'refused' && outcome.reason).toBe(
      'the table has no row for 7/16 in sheathing, 10d common nails at 4 in',
    );
  });

  it('the editions differ in strength design: 608 against 532.5 plf of the same panel', () => {
    const strength = (edition: SheathingEdition) =>
      strengthUnitShear(done(nominalUnitShear(sheathing, edition, 'seismic')), edition, 'seismic').number;
    expect(strength('2015')).toBeCloseTo(608, 9);
    expect(strength('2021')).toBeCloseTo(532.5, 9);
  });

  it('lighter framing holds less, heavier no more', () => {
    expect([0.42, 0.43, 0.5, 0.55].map((gravity) => framingFactor(gravity).number)).toEqual([
      expect.closeTo(0.92),
      expect.closeTo(0.93),
      1,
      1,
    ]);
  });

  it('slender panels count less, and past 3.5 to 1 for nothing', () => {
    expect(done(slendernessFactor(feet(8), feet(4), 'strength')).number).toBe(1);
    expect(done(slendernessFactor(feet(8), feet(2.5), 'strength')).number).toBeCloseTo(0.85, 9);
    expect(done(slendernessFactor(feet(8), feet(3), 'sharing')).number).toBeCloseTo(0.75, 9);
    expect(done(aspectRatio(feet(7), feet(2))).number).toBe(3.5);
    expect(aspectRatio(feet(8), feet(2.25)).kind).toBe('refused');
    expect(aspectRatio(feet(8), feet(0)).kind).toBe('refused');
  });

  it('a longer panel never carries less, a taller one never more', () => {
    const capacity = (height: number, length: number): number => {
      const outcome = panelCapacity({
        panel: sheathing,
        edition: '2015',
        load: 'seismic',
        height: feet(height),
        length: feet(length),
        gravity: 0.5,
      });
      return outcome.kind === 'refused' ? 0 : outcome.number;
    };
    const size = fc.double({ min: 1, max: 12, noNaN: true });
    fc.assert(
      fc.property(size, size, fc.double({ min: 0, max: 4, noNaN: true }), (height, length, more) => {
        expect(capacity(height, length + more)).toBeGreaterThanOrEqual(capacity(height, length) - 1e-6);
        expect(capacity(height + more, length)).toBeLessThanOrEqual(capacity(height, length) + 1e-6);
      }),
    );
  });

  it('23.1 ft of 380 plf panel for 8,783 lb', () => {
    expect(done(neededPanelLength(pounds(8783), poundsPerFoot(380))).number).toBeCloseTo(23.11, 2);
    expect(neededPanelLength(pounds(8783), poundsPerFoot(0)).kind).toBe('refused');
  });
});

describe('a wall with openings (SDPWS 2008 and 2015 Eq. 4.3-5)', () => {
  it('the area equation and the table of height shares agree where all openings are equally high', () => {
    const share = fc.double({ min: 0.34, max: 1, noNaN: true });
    fc.assert(
      fc.property(
        share,
        fc.double({ min: 0.1, max: 1, noNaN: true }),
        fc.double({ min: 10, max: 60, noNaN: true }),
        (A, B, length) => {
          const byArea = done(
            perforatedFactor({
              edition: '2015',
              height: feet(8),
              totalLength: feet(length),
              fullHeightLength: feet(B * length),
              openingAreaSqFt: A * 8 * (1 - B) * length,
            }),
          );
          expect(byArea.number).toBeCloseTo(done(perforatedFactorByShares('2015', A, B)).number, 6);
        },
      ),
    );
  });

  it('carries the less the higher its openings', () => {
    const at = (A: number) => done(perforatedFactorByShares('2008', A, 0.5)).number;
    expect([1, 5 / 6, 2 / 3, 1 / 2, 1 / 3].map(at)).toEqual(
      [1, 5 / 6, 2 / 3, 1 / 2, 1 / 3].map(at).toSorted((a, b) => a - b),
    );
  });

  it('with low openings counts whole and never more', () => {
    expect(done(perforatedFactorByShares('2015', 0.2, 0.5)).number).toBe(1);
    const low = {
      edition: '2015',
      height: feet(8),
      totalLength: feet(20),
      fullHeightLength: feet(10),
      openingAreaSqFt: 16,
    } as const;
    expect(done(perforatedFactor(low)).number).toBe(1);
  });

  it('has end forces and sill shear from the same sum', () => {
    const T = perforatedEndForce(pounds(4000), feet(8), 0.83, feet(12));
    const t = perforatedSillShear(pounds(4000), 0.83, feet(12));
    expect(T.number).toBeCloseTo(t.number * 8, 6);
  });

  it('is refused for 2021, whose equation is another', () => {
    expect(perforatedFactorByShares('2021', 0.5, 0.6)).toMatchObject({ kind: 'refused' });
    expect(
      perforatedFactor({
        edition: '2021',
        height: feet(8),
        totalLength: feet(20),
        fullHeightLength: feet(10),
        openingAreaSqFt: 20,
      }),
    ).toMatchObject({ kind: 'refused' });
  });
});

describe('overturning', () => {
  const panel = fc.record({
    shear: fc.double({ min: 0, max: 10_000, noNaN: true }),
    height: fc.double({ min: 1, max: 12, noNaN: true }),
    length: fc.double({ min: 2, max: 20, noNaN: true }),
    inset: fc.double({ min: 0.1, max: 0.9, noNaN: true }),
    dead: fc.double({ min: 0, max: 600, noNaN: true }),
    deadFactor: fc.double({ min: 0.3, max: 0.6, noNaN: true }),
    point: fc.double({ min: 0, max: 3000, noNaN: true }),
  });
  type PanelCase = typeof panel extends fc.Arbitrary<infer T> ? T : never;
  const ends = (p: PanelCase, over: Partial<OverturningPanel> = {}) =>
    done(
      overturning({
        shear: pounds(p.shear),
        height: feet(p.height),
        length: feet(p.length),
        arm: feet(p.length - p.inset),
        deadLoad: poundsPerFoot(p.dead),
        deadFactor: p.deadFactor,
        pointLoads: [{ load: pounds(p.point), arm: feet(p.length / 2) }],
        ...over,
      }),
    );

  it('closes: moments about the compression post and vertical forces add up to nothing', () => {
    fc.assert(
      fc.property(panel, (p) => {
        const { tension, compression, overturning: moment, resisting } = ends(p);
        const weight = p.deadFactor * (p.dead * p.length + p.point);
        expect(tension.number * (p.length - p.inset) + resisting.number).toBeCloseTo(moment.number, 3);
        expect(compression.number - tension.number - weight).toBeCloseTo(0, 3);
      }),
    );
  });

  it('pulls less with more dead load and more with more shear or height; without dead load T is C', () => {
    fc.assert(
      fc.property(panel, fc.double({ min: 1.01, max: 2, noNaN: true }), (p, times) => {
        const T = ends(p).tension.number;
        expect(ends({ ...p, dead: p.dead * times }).tension.number).toBeLessThanOrEqual(T + 1e-6);
        expect(ends({ ...p, shear: p.shear * times }).tension.number).toBeGreaterThanOrEqual(T - 1e-6);
        expect(ends({ ...p, height: p.height * times }).tension.number).toBeGreaterThanOrEqual(T - 1e-6);
        const light = ends({ ...p, dead: 0, point: 0 });
        expect(light.tension.number).toBeCloseTo(light.compression.number, 6);
      }),
    );
  });

  it('says uplift exactly when the hold-down pulls', () => {
    fc.assert(fc.property(panel, (p) => ends(p).uplift === ends(p).tension.number > 0));
  });

  it('is the same in SI', () => {
    const metric = done(
      overturning({
        shear: kilonewtons(13),
        height: millimetres(2400),
        length: millimetres(2400),
        arm: millimetres(2250),
        deadLoad: newtonsPerMetre(1750),
        deadFactor: 0.6,
      }),
    );
    // 13 kN × 2.4 m = 31.2; 0.6 × 1.75 × 2.4² / 2 = 3.024; (31.2 - 3.024) / 2.25 = 12.523 kN.
    expect(metric.tension.value / 1000).toBeCloseTo(12.523, 3);
    expect(metric.compression.value / 1000).toBeCloseTo(12.523 + 0.6 * 1.75 * 2.4, 3);
  });

  it('takes its arm from the panel: length less the hold-down and half the post', () => {
    expect(holdDownArm(feet(8), inches(3), inches(3)).number).toBeCloseTo(8 - 0.25 - 0.125, 9);
    expect(
      overturning({
        shear: pounds(1),
        height: feet(8),
        length: feet(2),
        arm: feet(0),
        deadLoad: poundsPerFoot(0),
        deadFactor: 0.6,
      }),
    ).toMatchObject({ kind: 'refused' });
  });
});
