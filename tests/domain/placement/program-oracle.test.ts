import { describe, expect, it } from 'vitest';
import { verifyPlacement } from '../../../language/domain/placement/verify-instances.ts';
import { programSolver } from '../../oracles/mixed-integer-program.ts';
import { randomWall } from '../../oracles/random-walls.ts';

/** With SILLWRIGHT_LONG set, 200 walls of up to 60 ft, which takes many minutes. */
const long = Boolean(process.env.SILLWRIGHT_LONG);
const count = long ? 200 : 20;
const shape = { leastFeet: 6, greatestFeet: long ? 60 : 12, grain: 16, mostTypes: long ? 4 : 2 };

describe(`${count} random walls as mixed-integer programs`, () => {
  it(
    'a general solver (HiGHS) finds the same cost, and that the slack can be kept but not one sixteenth more',
    async () => {
      const solve = await programSolver();
      let proven = 0;
      let slackProven = 0;
      for (let seed = 90_000; proven < count; seed += 1) {
        const wall = randomWall(seed, shape);
        if (wall.emax - wall.emin > wall.maxGap) continue;
        const [answer] = verifyPlacement([wall]);
        const found = solve(wall, { secondsAtMost: long ? 120 : 10 });
        if (found.status === 'gave-up') continue;
        proven += 1;
        const expected =
          found.status === 'optimal'
            ? { status: 'optimal', cost: found.cost }
            : { status: 'infeasible', cost: undefined };
        expect({ seed, status: answer?.status, cost: answer?.cost }).toEqual({ seed, ...expected });
        // The slack lies on a finer grid than the wall, so only some of it can be proven in a short time.
        if (
          found.status !== 'optimal' ||
          answer?.slack === undefined ||
          (!long && (slackProven >= 4 || answer.slack % 16 !== 0))
        )
          continue;
        const kept = solve(wall, { slack: answer.slack, budget: found.cost, secondsAtMost: 120 });
        const more = solve(wall, { slack: answer.slack + 1, budget: found.cost, secondsAtMost: long ? 120 : 10 });
        if (kept.status === 'gave-up' || more.status === 'gave-up') continue;
        slackProven += 1;
        expect(kept).toEqual({ status: 'optimal', cost: found.cost });
        expect(more.status).toBe('infeasible');
      }
      expect(slackProven).toBeGreaterThan(2);
    },
    long ? 3_600_000 : 60_000,
  );
});
