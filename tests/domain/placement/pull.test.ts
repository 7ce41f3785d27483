import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { contains, intervalSet } from '../../../language/domain/placement/interval-set.ts';
import {
  belowOf,
  distanceToNearest,
  firstPlace,
  leastOf,
  leastToTheRight,
  lowerOf,
  type Pull,
  pullAt,
  pullOn,
  sumOn,
} from '../../../language/domain/placement/pull.ts';

const places = Array.from({ length: 91 }, (_, index) => index - 40);
const values = (pull: Pull) => places.map((place) => pullAt(pull, place));

const anySet = fc
  .array(fc.tuple(fc.integer({ min: -20, max: 20 }), fc.integer({ min: 0, max: 9 })), { maxLength: 4 })
  .map((parts) => intervalSet(parts.map(([from, span]) => [from, from + span])));
const anyPull = fc
  .tuple(
    anySet,
    fc.array(fc.integer({ min: -20, max: 30 }), { maxLength: 4 }),
    fc.integer({ min: 1, max: 3 }),
    fc.integer({ min: 0, max: 5 }),
  )
  .map(([set, targets, step, raise]): Pull => {
    const distance = distanceToNearest(
      [...targets].sort((a, b) => a - b),
      step,
      -30,
      40,
    );
    return sumOn(set, distance, [-30, 40, raise, 0]);
  });

describe('the pull to the preferred stations', () => {
  it('is the distance to the nearest of them, at every tape mark', () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: -60, max: 90 }), { minLength: 1, maxLength: 5 }),
        fc.integer({ min: 1, max: 4 }),
        (targets, step) => {
          const pull = distanceToNearest(
            [...new Set(targets)].sort((a, b) => a - b),
            step,
            -15,
            25,
          );
          const marks = Array.from({ length: 41 }, (_, index) => index - 15);
          expect(marks.map((mark) => pullAt(pull, mark))).toEqual(
            marks.map((mark) => Math.min(...targets.map((target) => Math.abs(target - mark * step)))),
          );
        },
      ),
      { seed: 3, numRuns: 200 },
    );
    expect(distanceToNearest([], 1, 0, 9)).toEqual([0, 9, 0, 0]);
  });

  it('adds up, is lowered and is cut place by place', () => {
    fc.assert(
      fc.property(anyPull, anyPull, anySet, (a, b, set) => {
        const at = (place: number) => ({ inA: pullAt(a, place), inB: pullAt(b, place), in: contains(set, place) });
        const expected = (value: (known: ReturnType<typeof at>) => number | undefined) =>
          places.map((place) => value(at(place)));
        expect(values(sumOn(set, a, b))).toEqual(
          expected((known) =>
            known.in && known.inA !== undefined && known.inB !== undefined ? known.inA + known.inB : undefined,
          ),
        );
        expect(values(lowerOf(a, b))).toEqual(
          expected(({ inA, inB }) => (inA === undefined || inB === undefined ? (inA ?? inB) : Math.min(inA, inB))),
        );
        expect(values(belowOf(a, b))).toEqual(
          expected(({ inA, inB }) => (inB === undefined || (inA ?? inB) < inB ? inA : undefined)),
        );
        expect(values(pullOn(set, a))).toEqual(expected((known) => (known.in ? known.inA : undefined)));
      }),
      { seed: 4, numRuns: 300 },
    );
  });

  it('finds at every place the least value in a range to the right', () => {
    fc.assert(
      fc.property(anyPull, fc.integer({ min: 0, max: 6 }), fc.integer({ min: 0, max: 12 }), (pull, least, span) => {
        const expected = places.map((place) => {
          const found = Array.from(
            { length: span + 1 },
            (_, index) => pullAt(pull, place + least + index) ?? Number.POSITIVE_INFINITY,
          );
          return Math.min(...found) === Number.POSITIVE_INFINITY ? undefined : Math.min(...found);
        });
        expect(values(leastToTheRight(pull, least, least + span))).toEqual(expected);
      }),
      { seed: 5, numRuns: 200 },
    );
  });

  it('names its least value and the first place that is low enough', () => {
    fc.assert(
      fc.property(
        anyPull,
        fc.integer({ min: -30, max: 30 }),
        fc.integer({ min: 0, max: 30 }),
        fc.integer({ min: 0, max: 12 }),
        (pull, from, span, atMost) => {
          const known = places.filter((place) => pullAt(pull, place) !== undefined);
          expect(leastOf(pull)).toBe(
            Math.min(Number.POSITIVE_INFINITY, ...known.map((place) => pullAt(pull, place) ?? 0)),
          );
          const first = known.find(
            (place) => place >= from && place <= from + span && (pullAt(pull, place) ?? 0) <= atMost,
          );
          expect(firstPlace(pull, from, from + span, atMost)).toBe(first);
        },
      ),
      { seed: 6, numRuns: 300 },
    );
  });
});
