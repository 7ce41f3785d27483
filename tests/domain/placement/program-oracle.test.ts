import { describe, expect, it } from 'vitest';
import { verifyPlacement } from '../../../language/domain/placement/verify-instances.ts';
import { programSolver } from '../../oracles/mixed-integer-program.ts';
import { randomWall } from '../../oracles/random-walls.ts';

/** With SILLWRIGHT_LONG set, 200 walls of up to 40 ft in place of 20 of up to 12 ft: many minutes. */
const long = Boolean(process.env.SILLWRIGHT_LONG);
const count = long ? 200 : 20;
const shape = { leastFeet: 6, greatestFeet: long ? 40 : 12, grain: 16, mostTypes: long ? 3 : 2 };
/** A program not done by then says nothing; only the long proof has such. */
const secondsAtMost = long ? 15 : 3600;

describe(`${count} random walls as mixed-integer programs`, () => {
  it('a general solver (HiGHS) finds the same cost, and that the slack can be kept but not one sixteenth more', async () => {
    const solve = await programSolver();
    let proven = 0;
    let slackProven = 0;
    for (let seed = 90_000; proven < count; seed += 1) {
      const wall = randomWall(seed, shape);
      if (wall.emax - wall.emin > wall.maxGap) continue;
      const [answer] = verifyPlacement([wall]);
      const found = solve(wall, { secondsAtMost });
      if (found.status === 'gave-up') continue;
      proven += 1;
      expect({ seed, status: answer?.status, cost: answer?.cost }).toEqual({ seed, cost: undefined, ...found });
      // The slack lies on a finer grid than the wall: on short walls the program is still small enough.
      const provable = long ? wall.length <= 16 * 192 : slackProven < 4 && (answer?.slack ?? 0) % 16 === 0;
      if (found.status !== 'optimal' || answer?.slack === undefined || !provable) continue;
      const kept = solve(wall, { slack: answer.slack, budget: found.cost, secondsAtMost });
      const more = solve(wall, { slack: answer.slack + 1, budget: found.cost, secondsAtMost });
      if (kept.status === 'gave-up' || more.status === 'gave-up') continue;
      slackProven += 1;
      expect(kept).toEqual({ status: 'optimal', cost: found.cost });
      expect(more.status).toBe('infeasible');
    }
    expect(slackProven).toBeGreaterThan(2);
  });
});
