import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  placeBetweenPosts,
  placeInLane,
  placeInTurns,
  roomInTurns,
  spreadAlong,
} from '../../../language/domain/drawing/label-lane.ts';

const cost = (centres: readonly number[], wanted: readonly number[]): number =>
  centres.reduce((sum, centre, index) => sum + (centre - (wanted[index] ?? 0)) ** 2, 0);

/**
 * The same problem by brute force, sharing no code: at the optimum the labels fall into runs that stand shoulder to shoulder,
 * each at the mean of its wishes or against a bound. Tries every way to cut the row into runs.
 */
function bruteForce(
  wanted: readonly number[],
  apart: readonly number[],
  from: number,
  to: number,
): readonly number[] | undefined {
  const offsets = wanted.map((_, index) => apart.slice(0, index).reduce((sum, distance) => sum + distance, 0));
  let best: readonly number[] | undefined;
  for (let cuts = 0; cuts < 2 ** Math.max(0, wanted.length - 1); cuts++) {
    const runs: number[][] = [];
    wanted.forEach((_, index) => {
      if (index === 0 || (cuts >> (index - 1)) & 1) runs.push([]);
      runs[runs.length - 1]?.push(index);
    });
    const choices = runs.map((run) => {
      const first = offsets[run[0] ?? 0] ?? 0;
      const last = offsets[run[run.length - 1] ?? 0] ?? 0;
      const mean = run.reduce((sum, index) => sum + (wanted[index] ?? 0) - (offsets[index] ?? 0), 0) / run.length;
      return [mean, from - first, to - last];
    });
    for (const pick of combinations(choices)) {
      const centres = runs.flatMap((run, index) => run.map((member) => (pick[index] ?? 0) + (offsets[member] ?? 0)));
      const legal = centres.every(
        (centre, index) =>
          centre >= from - 1e-9 &&
          centre <= to + 1e-9 &&
          (index === 0 || centre - (centres[index - 1] ?? 0) >= (apart[index - 1] ?? 0) - 1e-9),
      );
      if (legal && (!best || cost(centres, wanted) < cost(best, wanted))) best = centres;
    }
  }
  return best;
}

function* combinations(choices: readonly (readonly number[])[]): Generator<readonly number[]> {
  const [first, ...rest] = choices;
  if (!first) {
    yield [];
    return;
  }
  for (const value of first) for (const tail of combinations(rest)) yield [value, ...tail];
}

const lane = fc.record({
  wanted: fc.array(fc.double({ min: -20, max: 120, noNaN: true }), { minLength: 0, maxLength: 6 }),
  widths: fc.array(fc.double({ min: 0.5, max: 30, noNaN: true }), { minLength: 6, maxLength: 6 }),
  gap: fc.double({ min: 0, max: 4, noNaN: true }),
});

describe('spreading labels along a lane', () => {
  it('finds the least sum of squared shifts, as brute force does', () => {
    fc.assert(
      fc.property(lane, ({ wanted, widths }) => {
        const apart = widths.slice(0, Math.max(0, wanted.length - 1));
        const sorted = [...wanted].sort((a, b) => a - b);
        const ours = spreadAlong(sorted, apart, { from: 0, to: 100 });
        const theirs = bruteForce(sorted, apart, 0, 100);
        if (!theirs) {
          expect(apart.reduce((sum, distance) => sum + distance, 0)).toBeGreaterThan(100 - 1e-6);
          return;
        }
        expect(ours).toBeDefined();
        expect(cost(ours ?? [], sorted)).toBeCloseTo(cost(theirs, sorted), 5);
      }),
      { numRuns: 300 },
    );
  });

  it('leaves labels where they are when they have room', () => {
    expect(
      placeInLane(
        [
          { wanted: 10, width: 8 },
          { wanted: 30, width: 8 },
        ],
        { from: 0, to: 100, gap: 1 },
      ),
    ).toEqual([10, 30]);
  });

  it('keeps order, clear space and bounds', () => {
    fc.assert(
      fc.property(lane, ({ wanted, widths, gap }) => {
        const items = [...wanted]
          .sort((a, b) => a - b)
          .map((wish, index) => ({ wanted: wish, width: widths[index] ?? 1 }));
        const centres = placeInLane(items, { from: 0, to: 100, gap });
        if (!centres) return;
        items.forEach((item, index) => {
          const centre = centres[index] ?? 0;
          expect(centre - item.width / 2).toBeGreaterThanOrEqual(-1e-6);
          expect(centre + item.width / 2).toBeLessThanOrEqual(100 + 1e-6);
          const before = items[index - 1];
          if (before)
            expect(centre - (centres[index - 1] ?? 0)).toBeGreaterThanOrEqual(
              (item.width + before.width) / 2 + gap - 1e-6,
            );
        });
      }),
    );
  });

  it('says so when a lane is too short', () => {
    expect(
      placeInLane(
        [
          { wanted: 1, width: 60 },
          { wanted: 2, width: 60 },
        ],
        { from: 0, to: 100, gap: 1 },
      ),
    ).toBeUndefined();
  });

  it('is linear enough for ten thousand labels', () => {
    const items = Array.from({ length: 10_000 }, (_, index) => ({ wanted: (index * 7919) % 5000, width: 3 })).sort(
      (a, b) => a.wanted - b.wanted,
    );
    expect(placeInLane(items, { from: 0, to: 40_000, gap: 0.5 })).toHaveLength(10_000);
  });
});

describe('labels in turns', () => {
  it('takes two rows only where one would carry a label too far', () => {
    const wide = [10, 60, 110].map((wanted) => ({ wanted, width: 20 }));
    expect(placeInTurns(wide, { from: 0, to: 200, gap: 2 }, 12)?.rowCount).toBe(1);
    const crowded = [100, 102, 104, 106].map((wanted) => ({ wanted, width: 30 }));
    expect(placeInTurns(crowded, { from: 0, to: 200, gap: 2 }, 12)?.rowCount).toBe(2);
  });

  it('takes two rows in a lane narrower than its things lie apart, where no two labels crowd each other', () => {
    const spread = [0, 30, 60].map((wanted) => ({ wanted, width: 10 }));
    const placed = placeInTurns(spread, { from: 20, to: 20 + roomInTurns(spread, 2), gap: 2 }, 12);
    expect(placed?.rows).toEqual([0, 1, 0]);
  });

  it('keeps labels of one row apart and lets the leader of an upper one pass between the lower ones', () => {
    fc.assert(
      fc.property(
        fc.array(
          fc.record({
            wanted: fc.double({ min: 0, max: 200, noNaN: true }),
            width: fc.double({ min: 4, max: 40, noNaN: true }),
          }),
          { minLength: 1, maxLength: 14 },
        ),
        (raw) => {
          const items = [...raw].sort((a, b) => a.wanted - b.wanted);
          const placed = placeInTurns(items, { from: -40, to: 260, gap: 3 }, 12);
          if (!placed) return;
          for (const row of [0, 1]) {
            const members = items
              .map((item, index) => ({ item, centre: placed.centres[index] ?? 0, row: placed.rows[index] }))
              .filter((each) => each.row === row);
            members.slice(1).forEach((member, index) => {
              const before = members[index];
              if (before)
                expect(member.centre - before.centre).toBeGreaterThanOrEqual(
                  (member.item.width + before.item.width) / 2 + 3 - 1e-6,
                );
            });
          }
          items.forEach((_, index) => {
            if (placed.rows[index] !== 1) return;
            for (const neighbour of [index - 1, index + 1]) {
              const other = items[neighbour];
              if (other && placed.rows[neighbour] === 0) {
                expect(
                  Math.abs((placed.centres[index] ?? 0) - (placed.centres[neighbour] ?? 0)),
                ).toBeGreaterThanOrEqual(other.width / 2 + 0.9 - 1e-6);
              }
            }
          });
          const order = placed.centres.every(
            (centre, index) => index === 0 || centre > (placed.centres[index - 1] ?? 0),
          );
          expect(order).toBe(true);
        },
      ),
    );
  });
});

describe('markers between posts', () => {
  it('stands on no post and on no other marker', () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: 0, max: 100, noNaN: true }), { maxLength: 12 }),
        fc.array(fc.double({ min: 0, max: 100, noNaN: true }), { maxLength: 8 }),
        (wishes, rawPosts) => {
          const items = [...wishes].sort((a, b) => a - b).map((wanted) => ({ wanted, width: 5.8 }));
          const posts = [...rawPosts].sort((a, b) => a - b);
          const centres = placeBetweenPosts(items, posts, { from: 0, to: 100, gap: 0.7, clearOfPost: 0.8 });
          const placed = centres.filter((centre) => centre !== undefined).sort((a, b) => a - b);
          for (const centre of placed)
            for (const post of posts) expect(Math.abs(centre - post)).toBeGreaterThanOrEqual(5.8 / 2 + 0.8 - 1e-6);
          placed.slice(1).forEach((centre, index) => {
            expect(centre - (placed[index] ?? 0)).toBeGreaterThanOrEqual(5.8 + 0.7 - 1e-6);
          });
        },
      ),
      {
        examples: [
          [[0], [0]],
          [[96.300001], [100]],
        ],
      },
    );
  });
});
