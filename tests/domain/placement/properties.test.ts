import { describe, expect, it } from 'vitest';
import { checkPlacement } from '../../../language/domain/placement/check.ts';
import type { PlacementProblem } from '../../../language/domain/placement/problem.ts';
import { type Placed, solvePlacement } from '../../../language/domain/placement/solve.ts';
import { problemOfInstance } from '../../../language/domain/placement/verify-instances.ts';
import { generator, randomWall, type WallCase } from '../../oracles/random-walls.ts';

const shape = { leastFeet: 8, greatestFeet: 40, grain: 4, mostTypes: 3 };
const walls = Array.from({ length: 50 }, (_, index) => randomWall(7000 + index, shape));

describe('what must hold between answers to related walls', () => {
  it('a wall read from its other end costs the same and keeps the same slack', () => {
    for (const wall of walls) {
      const { length } = wall;
      const flip = <T extends { readonly from: number; readonly to: number }>(part: T): T => ({
        ...part,
        from: length - part.to,
        to: length - part.from,
      });
      const mirrored: WallCase = {
        ...wall,
        breaks: wall.breaks.map((at) => length - at).reverse(),
        demand: [...wall.demand].reverse(),
        obstructions: wall.obstructions.map(flip),
        types: wall.types.map((type) => ({
          ...type,
          available: type.available?.map(([from, to]) => [length - to, length - from] as const) ?? null,
        })),
      };
      expect(figures(mirrored)).toEqual(figures(wall));
    }
  });

  it('a finer unit changes no cost, and slack by less than one old unit', () => {
    for (const wall of walls.slice(0, 30)) {
      const factor = 7;
      const coarse = figures(wall);
      const fine = figures(scaled(wall, factor));
      expect(fine?.cost).toBe(coarse?.cost);
      if (coarse === undefined || fine === undefined) continue;
      expect(fine.slack).toBeGreaterThanOrEqual(coarse.slack * factor);
      expect(fine.slack).toBeLessThan((coarse.slack + 1) * factor);
    }
  });

  it('one more obstruction, a higher demand, a shorter greatest gap or a longer least gap never costs less', () => {
    const random = generator(99);
    let dearer = 0;
    for (const wall of walls) {
      const cost = costOf(wall);
      const from = 4 * Math.floor((random() * wall.length) / 4);
      const harder: WallCase[] = [
        { ...wall, obstructions: [...wall.obstructions, { from, to: Math.min(wall.length, from + 200), clear: 16 }] },
        { ...wall, demand: wall.demand.map((wanted) => wanted + 700) },
        { ...wall, maxGap: wall.maxGap - 100 },
        { ...wall, minGap: wall.minGap + 60 },
      ];
      for (const other of harder) {
        expect(costOf(other)).toBeGreaterThanOrEqual(cost);
        if (costOf(other) > cost) dearer += 1;
      }
    }
    expect(dearer).toBeGreaterThan(40);
  });

  it('one more kind of anchor never costs more', () => {
    let cheaper = 0;
    for (const wall of walls) {
      const richer: WallCase = {
        ...wall,
        types: [...wall.types, { id: 'extra', cost: 12, capacity: 1100, half: 0, available: null }],
      };
      expect(costOf(richer)).toBeLessThanOrEqual(costOf(wall));
      if (costOf(richer) < costOf(wall)) cheaper += 1;
    }
    expect(cheaper).toBeGreaterThan(5);
  });

  it('pieces that cannot see each other cost what they cost alone', () => {
    let several = 0;
    for (const wall of walls) {
      const apart = {
        ...wall,
        maxGap: Math.max(wall.maxGap, 2 * wall.emax),
        minGap: Math.min(wall.minGap, 2 * wall.emin),
      };
      const problem = problemOf(apart);
      const parts = problem.pieces.map((piece) => solvePlacement({ ...problem, pieces: [piece] }));
      const whole = solvePlacement(problem);
      if (whole.status !== 'optimal') continue;
      const alone = parts.map((part) => (part.status === 'optimal' ? part : undefined));
      expect(alone.reduce((sum, part) => sum + (part?.cost ?? Number.NaN), 0)).toBe(whole.cost);
      expect(Math.min(...alone.map((part) => part?.slack ?? 0))).toBe(whole.slack);
      if (parts.length > 1) several += 1;
    }
    expect(several).toBeGreaterThan(10);
  });

  it('every answer passes the check, and some anchor moved by one more than the slack fails it', () => {
    let solved = 0;
    for (const wall of walls) {
      const problem = problemOf(wall);
      const answer = solvePlacement(problem);
      if (answer.status !== 'optimal') continue;
      solved += 1;
      const check = checkPlacement(problem, answer.anchors);
      expect(check.violations).toEqual([]);
      expect(check.cost).toBe(answer.cost);
      const step = (answer.slack ?? 0) + 1;
      const fails = (by: number, index: number) =>
        checkPlacement(
          problem,
          answer.anchors.map((anchor, at) => (at === index ? { ...anchor, station: anchor.station + by } : anchor)),
        ).violations.length > 0;
      expect(answer.anchors.some((_, index) => fails(step, index) || fails(-step, index))).toBe(true);
      // And by the slack itself, none does.
      expect(answer.anchors.every((_, index) => !fails(step - 1, index) && !fails(1 - step, index))).toBe(true);
    }
    expect(solved).toBeGreaterThan(20);
  });

  it('a cheaper placement is not hidden between the tape marks when all data lie on them', () => {
    // Bounds and differences of whole numbers have whole solutions: a finer tape finds no lower cost.
    for (const wall of walls.slice(0, 30)) {
      const nanometres = problemOf(scaled(wall, 1_587_500));
      const onTape = solvePlacement({ ...nanometres, step: 1_587_500 });
      const finer = solvePlacement({ ...nanometres, step: 1_587_500 / 25 });
      expect('cost' in onTape && 'cost' in finer && onTape.cost === finer.cost).toBe(true);
    }
  });
});

function problemOf(wall: WallCase): PlacementProblem {
  const problem = problemOfInstance(wall);
  if (typeof problem === 'string') throw new Error(problem);
  return problem;
}

function figures(wall: WallCase): { cost: number; slack: number } | undefined {
  const answer = solvePlacement(problemOf(wall));
  expect(['optimal', 'infeasible']).toContain(answer.status);
  if (answer.status !== 'optimal') return undefined;
  const { cost, slack }: Placed = answer;
  return { cost, slack: slack ?? 0 };
}

/** An impossible wall counts as dearer than any. */
function costOf(wall: WallCase): number {
  return figures(wall)?.cost ?? Number.POSITIVE_INFINITY;
}

function scaled(wall: WallCase, factor: number): WallCase {
  return {
    ...wall,
    length: wall.length * factor,
    breaks: wall.breaks.map((at) => at * factor),
    emin: wall.emin * factor,
    emax: wall.emax * factor,
    maxGap: wall.maxGap * factor,
    minGap: wall.minGap * factor,
    obstructions: wall.obstructions.map(({ from, to, clear }) => ({
      from: from * factor,
      to: to * factor,
      clear: clear * factor,
    })),
    types: wall.types.map((type) => ({
      ...type,
      half: type.half * factor,
      available: type.available?.map(([from, to]) => [from * factor, to * factor] as const) ?? null,
    })),
  };
}
