import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  clip,
  contains,
  difference,
  type IntervalSet,
  intersection,
  intervalSet,
  reachedFromTheLeft,
  union,
} from '../../../language/domain/placement/interval-set.ts';

const anySet = fc
  .array(fc.tuple(fc.integer({ min: -20, max: 20 }), fc.integer({ min: 0, max: 6 })), { maxLength: 6 })
  .map((parts) => intervalSet(parts.map(([from, span]) => [from, from + span])));

const members = (set: IntervalSet) => new Set(range(-60, 60).filter((place) => contains(set, place)));
const range = (from: number, to: number) => Array.from({ length: to - from + 1 }, (_, index) => from + index);

describe('a set of whole numbers kept as intervals', () => {
  it('is the same set, written the same way, however its intervals were given', () => {
    expect(
      intervalSet([
        [5, 7],
        [1, 2],
        [3, 4],
        [9, 8],
      ]),
    ).toEqual([1, 7]);
    expect(
      intervalSet([
        [1, 2],
        [4, 4],
      ]),
    ).toEqual([1, 2, 4, 4]);
  });

  it('joins, meets and subtracts like a set of numbers', () => {
    fc.assert(
      fc.property(anySet, anySet, (a, b) => {
        const inA = members(a);
        const inB = members(b);
        expect(members(union(a, b))).toEqual(new Set([...inA, ...inB].sort((x, y) => x - y)));
        expect([...members(intersection(a, b))]).toEqual([...inA].filter((place) => inB.has(place)));
        expect([...members(difference(a, b))]).toEqual([...inA].filter((place) => !inB.has(place)));
        expect(union(a, b)).toEqual(intervalSet(pairs([...a, ...b])));
      }),
      { seed: 1, numRuns: 300 },
    );
  });

  it('reaches to the left exactly the places from which a member lies in range', () => {
    fc.assert(
      fc.property(anySet, fc.integer({ min: 0, max: 5 }), fc.integer({ min: 0, max: 8 }), (set, least, span) => {
        const inSet = members(set);
        const reached = range(-60, 60).filter((place) =>
          range(place + least, place + least + span).some((other) => inSet.has(other)),
        );
        expect([...members(reachedFromTheLeft(set, least, least + span))]).toEqual(reached);
      }),
      { seed: 2, numRuns: 200 },
    );
    expect(reachedFromTheLeft([0, 9], 5, 4)).toEqual([]);
  });

  it('is clipped at both ends inclusively', () => {
    expect(clip([0, 4, 7, 9], 4, 7)).toEqual([4, 4, 7, 7]);
    expect(clip([0, 4], 5, 9)).toEqual([]);
  });
});

function pairs(flat: readonly number[]): [number, number][] {
  const list: [number, number][] = [];
  for (let at = 0; at < flat.length; at += 2) list.push([flat[at] ?? 0, flat[at + 1] ?? 0]);
  return list;
}
