import { describe, expect, it } from 'vitest';
import { verifyPlacement } from '../../../language/domain/placement/verify-instances.ts';
import { gridLeastCost } from '../../oracles/grid-dynamic-program.ts';
import { randomWall, type WallShape } from '../../oracles/random-walls.ts';

/** With SILLWRIGHT_LONG set, ten times as many. */
const times = process.env.SILLWRIGHT_LONG ? 10 : 1;

/** Whole inches and single sixteenths, one to four kinds, short walls and a few of up to 200 ft. */
const shapes: readonly (readonly [number, WallShape])[] = [
  [300, { leastFeet: 5, greatestFeet: 12, grain: 16, mostTypes: 2 }],
  [150, { leastFeet: 5, greatestFeet: 14, grain: 1, mostTypes: 3 }],
  [46, { leastFeet: 14, greatestFeet: 36, grain: 1, mostTypes: 2 }],
  [4, { leastFeet: 100, greatestFeet: 200, grain: 4, mostTypes: 1 }],
];

describe(`${500 * times} random walls, sixteenth by sixteenth`, () => {
  it('the dynamic program over sixteenths finds the same cost, and that the slack can be kept but not one sixteenth more', () => {
    let seed = 50_000;
    let solved = 0;
    for (const [count, shape] of shapes) {
      for (let index = 0; index < count * times; index += 1) {
        seed += 1;
        const wall = randomWall(seed, shape);
        const [answer] = verifyPlacement([wall]);
        const cost = gridLeastCost(wall, 0);
        expect({ seed, status: answer?.status, cost: answer?.cost }).toEqual({
          seed,
          status: cost === undefined ? 'infeasible' : 'optimal',
          cost,
        });
        if (cost === undefined || answer?.slack === undefined) continue;
        solved += 1;
        expect(gridLeastCost(wall, answer.slack)).toBe(cost);
        expect(gridLeastCost(wall, answer.slack + 1) ?? Number.POSITIVE_INFINITY).toBeGreaterThan(cost);
      }
    }
    expect(solved).toBeGreaterThan(250);
  });
});
