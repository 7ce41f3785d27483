import { describe, expect, it } from 'vitest';
import { checkPlacement } from '../../../language/domain/placement/check.ts';
import { slides } from '../../../language/domain/placement/slide.ts';
import { solvePlacement } from '../../../language/domain/placement/solve.ts';
import { problemOfInstance } from '../../../language/domain/placement/verify-instances.ts';
import { inches } from '../../../language/domain/units/length.ts';
import { randomWall } from '../../oracles/random-walls.ts';
import { board, half, limitsOf, standing, thing, wallOf } from './boards.ts';

describe('how far each anchor may slide alone', () => {
  it('is every mark that the check accepts on the way, and not one further', () => {
    let tried = 0;
    for (let seed = 2000; seed < 2040; seed += 1) {
      const problem = problemOfInstance(randomWall(seed, { leastFeet: 6, greatestFeet: 30, grain: 2, mostTypes: 2 }));
      if (typeof problem === 'string') throw new Error(problem);
      const answer = solvePlacement(problem);
      if (answer.status !== 'optimal') continue;
      for (const [index, { left, right }] of slides(problem, answer.anchors).entries()) {
        const holds = (by: number) =>
          checkPlacement(
            problem,
            answer.anchors.map((anchor, at) => (at === index ? { ...anchor, station: anchor.station + by } : anchor)),
          ).violations.length === 0;
        for (let by = -left; by <= right; by += 1) expect(holds(by)).toBe(true);
        expect([holds(-left - 1), holds(right + 1)]).toEqual([false, false]);
        tried += 1;
      }
    }
    expect(tried).toBeGreaterThan(60);
  });

  it('is a whole number of tape marks, toward neighbours, ends and obstructions', () => {
    const problem = wallOf([
      board({
        to: 100,
        obstructions: [thing('vent', 20, 40.1)],
        fixed: [standing('X1', 90.3, limitsOf({ spacing: 48 }))],
      }),
    ]);
    const anchors = [12, 45].map((station) => ({ piece: 'P1', station: inches(station), kind: half.id }));
    // The second may go to the vent, and to within 48 in of the fixed one and of the first: 42.3 to 60 in.
    expect(slides(problem, anchors).map(({ left, right }) => [left / inches(1), right / inches(1)])).toEqual([
      [3, 0],
      [2.6875, 15],
    ]);
  });

  it('is nothing for an end anchor on the one spot that an obstruction leaves', () => {
    const problem = wallOf([
      board({ to: 100, obstructions: [thing('chimney', -5, 14.5)], endWindowPastObstruction: true }),
    ]);
    const answer = solvePlacement(problem);
    if (answer.status !== 'optimal') throw new Error(answer.status);
    expect(slides(problem, answer.anchors)[0]).toMatchObject({ left: 0, right: 0 });
  });
});
