import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { sillBoltCapacity } from '../../../language/domain/engineering/capacity/sill-bolt.ts';
import { ruleOfThumb } from '../../../language/domain/engineering/demand/rule-of-thumb.ts';
import type { UncertainValue, Utilisation } from '../../../language/domain/engineering/intervals.ts';
import { rankUnknowns } from '../../../language/domain/engineering/intervals.ts';
import { isRefused } from '../../../language/domain/engineering/trace.ts';
import { squareFeet } from '../../../language/domain/units/area.ts';
import { inches } from '../../../language/domain/units/length.ts';
import { poundsPerSquareFoot, poundsPerSquareInch } from '../../../language/domain/units/stress.ts';

const unknown = (name: string, low: number, likely: number, high: number): UncertainValue => ({
  name,
  low,
  likely,
  high,
});

/** Ten bolts of a line against half of the house, by demand and capacity themselves. */
const sillLine: Utilisation = (values) => {
  const value = (name: string): number => values.get(name) ?? Number.NaN;
  const demand = ruleOfThumb(value('coefficient'), poundsPerSquareFoot(value('weight')), squareFeet(1098)).eachLine;
  const bolt = sillBoltCapacity({
    diameter: inches(0.5),
    sillThick: inches(value('sill thickness')),
    gravity: value('specific gravity'),
    embedment: inches(value('embedment')),
    concrete: poundsPerSquareInch(value('concrete')),
  });
  return isRefused(bolt) ? undefined : demand.number / (9 * bolt.number);
};
const unknowns: readonly UncertainValue[] = [
  unknown('coefficient', 0.18, 0.2, 0.22),
  unknown('weight', 50, 80, 95),
  unknown('sill thickness', 1.5, 1.625, 2),
  unknown('specific gravity', 0.37, 0.43, 0.5),
  unknown('embedment', 5, 6, 7),
  unknown('concrete', 2500, 2500, 4000),
];

/** Every corner, one after the other: shares no code with what it checks. */
function bruteForce(f: Utilisation, box: readonly UncertainValue[], fixed: ReadonlyMap<string, number> = new Map()) {
  let [least, greatest] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (let corner = 0; corner < 2 ** box.length; corner++) {
    const values = new Map(
      box.map((each, bit) => [each.name, fixed.get(each.name) ?? ((corner >> bit) & 1 ? each.high : each.low)]),
    );
    const outcome = f(values) ?? Number.POSITIVE_INFINITY;
    least = Math.min(least, outcome);
    greatest = Math.max(greatest, outcome);
  }
  return { least, greatest };
}

describe('which unknown matters', () => {
  it('finds the range and the ranking that brute force over all corners finds, on demand and capacity themselves', () => {
    const ranked = rankUnknowns(sillLine, unknowns);
    const { least, greatest } = bruteForce(sillLine, unknowns);
    expect(ranked.least).toBeCloseTo(least, 12);
    expect(ranked.greatest).toBeCloseTo(greatest, 12);
    const removed = unknowns.map((each) => {
      const left = [each.low, each.high].map((level) => bruteForce(sillLine, unknowns, new Map([[each.name, level]])));
      return [each.name, greatest - least - Math.max(...left.map((rest) => rest.greatest - rest.least))] as const;
    });
    for (const [name, spread] of removed)
      expect(ranked.ranking.find((each) => each.name === name)?.spreadRemoved).toBeCloseTo(spread, 12);
    const byWorth = removed.toSorted(([, a], [, b]) => b - a).filter(([, spread]) => spread > 1e-9);
    expect(ranked.ranking.slice(0, byWorth.length).map((each) => each.name)).toEqual(byWorth.map(([name]) => name));
  });

  it('for the demo line: the weight of the house first, the embedment and the concrete last', () => {
    const { ranking, verdict } = rankUnknowns(sillLine, unknowns);
    expect(ranking[0]?.name).toBe('weight');
    expect(
      ranking
        .slice(-2)
        .map((each) => each.name)
        .toSorted(),
    ).toEqual(['concrete', 'embedment']);
    expect(ranking.slice(-2).every((each) => each.swing === 0 && each.trend === 'level')).toBe(true);
    expect(verdict).toBe('depends');
  });

  it('tells which one can settle the matter by itself', () => {
    const sum: Utilisation = (values) => (values.get('big') ?? 0) + (values.get('small') ?? 0);
    const { ranking } = rankUnknowns(sum, [unknown('big', 0, 0.5, 2), unknown('small', 0.1, 0.2, 0.3)]);
    expect(ranking.map((each) => [each.name, each.canSettle])).toEqual([
      ['big', true],
      ['small', false],
    ]);
  });

  it('what cannot be computed counts as the worst', () => {
    const weak: Utilisation = (values) => ((values.get('concrete') ?? 0) < 2500 ? undefined : 0.5);
    const ranked = rankUnknowns(weak, [unknown('concrete', 2000, 2500, 3000), unknown('other', 0, 1, 2)]);
    expect(ranked.greatest).toBe(Number.POSITIVE_INFINITY);
    expect(ranked.verdict).toBe('depends');
    expect(ranked.ranking[0]).toMatchObject({ name: 'concrete', canSettle: true });
    expect(ranked.ranking[1]?.spreadRemoved).toBe(0);
  });

  it('says within or over when no unknown can change it', () => {
    const flat: Utilisation = (values) => values.get('x');
    expect(rankUnknowns(flat, [unknown('x', 0.2, 0.5, 1)]).verdict).toBe('within');
    expect(rankUnknowns(flat, [unknown('x', 1.01, 1.2, 2)]).verdict).toBe('over');
    expect(rankUnknowns(() => 0.7, [])).toMatchObject({
      likely: 0.7,
      least: 0.7,
      greatest: 0.7,
      verdict: 'within',
      ranking: [],
    });
  });

  it('sees a hump between the bounds that corners alone would miss', () => {
    const hump: Utilisation = (values) => 1 - ((values.get('x') ?? 0) - 0.5) ** 2;
    const ranked = rankUnknowns(hump, [unknown('x', 0, 0.5, 1)]);
    expect(ranked.ranking[0]?.trend).toBe('turning');
    expect(ranked.greatest).toBe(1);
    expect(bruteForce(hump, [unknown('x', 0, 0.5, 1)]).greatest).toBe(0.75);
  });

  it('agrees with brute force for any products and quotients of unknowns', () => {
    const shape = fc.array(
      fc.record({
        low: fc.double({ min: 0.5, max: 2, noNaN: true }),
        width: fc.double({ min: 0, max: 2, noNaN: true }),
        power: fc.constantFrom(-2, -1, 0, 0.5, 1, 2),
      }),
      { minLength: 1, maxLength: 6 },
    );
    fc.assert(
      fc.property(shape, (factors) => {
        const box = factors.map((each, index) =>
          unknown(`x${index}`, each.low, each.low + each.width / 2, each.low + each.width),
        );
        const f: Utilisation = (values) =>
          factors.reduce((product, each, index) => product * (values.get(`x${index}`) ?? 1) ** each.power, 1);
        const ranked = rankUnknowns(f, box);
        const { least, greatest } = bruteForce(f, box);
        expect(ranked.least).toBeCloseTo(least, 9);
        expect(ranked.greatest).toBeCloseTo(greatest, 9);
        expect(ranked.ranking.map((each) => each.spreadRemoved)).toEqual(
          ranked.ranking.map((each) => each.spreadRemoved).toSorted((a, b) => b - a),
        );
      }),
    );
  });

  it('with many unknowns follows the trends: few evaluations, the same range', () => {
    const box = Array.from({ length: 20 }, (_, index) => unknown(`x${index}`, 1, 1.5, 2));
    const f: Utilisation = (values) =>
      [...values.values()].reduce((product, value, index) => product * value ** (index % 2 === 0 ? 0.1 : -0.1), 1);
    const ranked = rankUnknowns(f, box);
    expect(ranked.greatest).toBeCloseTo(2, 9);
    expect(ranked.least).toBeCloseTo(0.5, 9);
    expect(ranked.evaluations).toBeLessThan(1000);
  });
});
