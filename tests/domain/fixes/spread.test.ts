import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { SpreadProblem } from '../../../language/domain/fixes/spread.ts';
import { spread } from '../../../language/domain/fixes/spread.ts';
import { nanometres } from '../../../language/domain/units/length.ts';

/** On a tape of whole units every placement can be tried. */
const problem = fc
  .record({
    long: fc.integer({ min: 6, max: 22 }),
    leftEnd: fc.boolean(),
    rightEnd: fc.boolean(),
    most: fc.option(fc.integer({ min: 2, max: 12 }), { nil: undefined }),
    apart: fc.integer({ min: 1, max: 4 }),
    clear: fc.array(fc.tuple(fc.integer({ min: 0, max: 22 }), fc.integer({ min: 0, max: 8 })), {
      minLength: 1,
      maxLength: 4,
    }),
  })
  .map(({ long, leftEnd, rightEnd, most, apart, clear }): SpreadProblem => {
    const stretches = clear.map(([from, wide]) => ({ from, to: from + wide })).sort((a, b) => a.from - b.from);
    const apartFromEachOther = stretches.filter(
      (each, index) => index === 0 || each.from > Math.max(...stretches.slice(0, index).map((other) => other.to)) + 1,
    );
    return {
      left: leftEnd
        ? { kind: 'end', window: { from: nanometres(1), to: nanometres(4) } }
        : { kind: 'anchor', station: nanometres(0) },
      right: rightEnd
        ? { kind: 'end', window: { from: nanometres(long - 4), to: nanometres(long - 1) } }
        : { kind: 'anchor', station: nanometres(long) },
      clear: apartFromEachOther.map((each) => ({ from: nanometres(each.from), to: nanometres(each.to) })),
      most: most === undefined ? undefined : nanometres(most),
      apart: nanometres(apart),
      step: nanometres(1),
    };
  });

/** The least room of a placement to any limit or blocked place; negative where it breaks one. */
function roomOf({ left, right, clear, most, apart }: SpreadProblem, stations: readonly number[]): number {
  const rooms: number[] = [];
  const first = stations[0] ?? 0;
  const last = stations[stations.length - 1] ?? 0;
  for (const station of stations) {
    const inside = clear.map((each) => Math.min(station - each.from, each.to - station));
    rooms.push(Math.max(...inside));
  }
  const gap = (wide: number): void => {
    rooms.push(wide - apart);
    if (most !== undefined) rooms.push(most - wide);
  };
  if (left.kind === 'end') rooms.push(first - left.window.from, left.window.to - first);
  else gap(first - left.station);
  if (right.kind === 'end') rooms.push(last - right.window.from, right.window.to - last);
  else gap(right.station - last);
  for (const [index, station] of stations.slice(1).entries()) gap(station - (stations[index] ?? 0));
  return Math.min(...rooms);
}

function everyPlacement(count: number, upTo: number): readonly (readonly number[])[] {
  let all: (readonly number[])[] = [[]];
  for (let index = 0; index < count; index += 1) {
    all = all.flatMap((before) =>
      Array.from({ length: upTo + 1 }, (_, station) => [...before, station]).filter(
        (each) => index === 0 || (each[index] ?? 0) > (each[index - 1] ?? 0),
      ),
    );
  }
  return all;
}

describe('spreading anchors', () => {
  it('finds a placement with the most room whenever there is one, and none otherwise', () => {
    fc.assert(
      fc.property(problem, fc.integer({ min: 1, max: 3 }), (asked, count) => {
        const best = Math.max(...everyPlacement(count, 22).map((stations) => roomOf(asked, stations)));
        const found = spread(asked, count);
        if (best < 0) expect(found).toBeUndefined();
        else expect(found && roomOf(asked, found)).toBe(best);
      }),
      { numRuns: 300 },
    );
  });

  it('puts one anchor into the middle of a gap', () => {
    const stations = spread(
      {
        left: { kind: 'anchor', station: nanometres(100) },
        right: { kind: 'anchor', station: nanometres(160) },
        clear: [{ from: nanometres(0), to: nanometres(1000) }],
        most: nanometres(40),
        apart: nanometres(5),
        step: nanometres(2),
      },
      1,
    );
    expect(stations).toEqual([130]);
  });

  it('spaces evenly what the room leaves open', () => {
    const stations = spread(
      {
        left: { kind: 'end', window: { from: nanometres(90), to: nanometres(120) } },
        right: { kind: 'end', window: { from: nanometres(1680), to: nanometres(1710) } },
        clear: [{ from: nanometres(0), to: nanometres(1800) }],
        most: nanometres(720),
        apart: nanometres(120),
        step: nanometres(1),
      },
      4,
    );
    expect(stations).toEqual([105, 635, 1165, 1695]);
  });
});
