import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Stretch, Wall } from '../../language/domain/model/layout.ts';
import { formatExact } from '../../language/domain/units/format-length.ts';
import type { Length } from '../../language/domain/units/length.ts';
import { minus, nanometres, plus } from '../../language/domain/units/length.ts';
import { readLayout } from '../support/read-layout.ts';

const SIXTY_FOURTH = 396_875;
/** Lengths on an inch tape or in whole millimetres, as both stand in one file. */
const tape = (most: number): fc.Arbitrary<Length> =>
  fc.oneof(
    fc.integer({ min: 0, max: Math.floor(most / SIXTY_FOURTH) }).map((count) => nanometres(count * SIXTY_FOURTH)),
    fc.integer({ min: 0, max: Math.floor(most / 1_000_000) }).map((count) => nanometres(count * 1_000_000)),
  );
const units = fc.constantFrom('feet-inches' as const, 'metric' as const);

function wallOf(lines: readonly string[], length: Length): Wall {
  const text = `wall A length ${formatExact(length, 'feet-inches')}\n${lines.map((line) => `  ${line}\n`).join('')}`;
  const { layout, problems } = readLayout(text);
  expect(problems.map(({ message }) => message)).toEqual([]);
  const [wall] = layout.walls;
  if (!wall) throw new Error('the wall was lost');
  return wall;
}
const places = (wall: Wall): readonly (Stretch | undefined)[] => wall.obstructions.map(({ stretch }) => stretch);

describe('a station', () => {
  const length = nanometres(12_192_000_000);

  it('read from the right end is the same place as one read from the left', () => {
    fc.assert(
      fc.property(tape(length), tape(length), units, units, (one, other, some, others) => {
        const from = nanometres(Math.min(one, other));
        const to = nanometres(Math.max(one, other));
        const right = (station: Length): string => `${formatExact(minus(length, station), others)} from right`;
        const wall = wallOf(
          [
            `vent V1 ${formatExact(from, some)} to ${formatExact(to, some)}`,
            `vent V2 ${right(from)} to ${right(to)}`,
            `vent V3 ${formatExact(from, some)} to ${right(to)}`,
          ],
          length,
        );
        expect(places(wall)).toEqual([
          { from, to },
          { from, to },
          { from, to },
        ]);
      }),
    );
  });

  it('read off a thing is the same place as one read from the end, through any row of things and in any order of lines', () => {
    const chain = fc.record({
      first: fc.record({ from: tape(600_000_000), wide: tape(300_000_000) }),
      steps: fc.array(fc.record({ away: tape(300_000_000), wide: tape(300_000_000), unit: units }), {
        minLength: 1,
        maxLength: 12,
      }),
      backwards: fc.boolean(),
      fromRight: fc.boolean(),
    });
    fc.assert(
      fc.property(chain, ({ first, steps, backwards, fromRight }) => {
        const stretches: Stretch[] = [{ from: first.from, to: plus(first.from, first.wide) }];
        for (const { away, wide } of steps) {
          const from = plus(stretches.at(-1)?.to ?? first.from, away);
          stretches.push({ from, to: plus(from, wide) });
        }
        const last = stretches.at(-1)?.to ?? first.from;
        const size = nanometres(Math.max(last, length));
        const mirrored = ({ from, to }: Stretch): Stretch => ({ from: minus(size, to), to: minus(size, from) });
        const start = stretches[0] ?? { from: first.from, to: first.from };
        const write = (value: Length, unit: 'feet-inches' | 'metric' = 'feet-inches'): string =>
          formatExact(value, unit);
        const head = fromRight
          ? `vent V0 ${write(start.to)} from right to ${write(start.from)} from right`
          : `vent V0 ${write(start.from)} to ${write(start.to)}`;
        const lines = steps.map(({ away, wide, unit }, index) => {
          const near = `${write(away, unit)} ${fromRight ? 'left' : 'right'} of V${index}`;
          const far = `${write(plus(away, wide), unit)} ${fromRight ? 'left' : 'right'} of V${index}`;
          return `pipe V${index + 1} ${fromRight ? `${far} to ${near}` : `${near} to ${far}`}`;
        });
        const all = [head, ...lines];
        const wall = wallOf(backwards ? all.toReversed() : all, size);
        const wanted = fromRight ? stretches.map(mirrored) : stretches;
        expect(places(wall)).toEqual(backwards ? wanted.toReversed() : wanted);
      }),
    );
  });

  it('of new work, old anchors, joints and readings is found in the same way', () => {
    fc.assert(
      fc.property(tape(length), tape(2_000_000_000), units, (station, off, unit) => {
        const vent = { from: nanometres(Math.min(station, length - off)), to: length };
        const beside = `${formatExact(minus(vent.from, nanometres(0)), unit)}`;
        const right = `${formatExact(minus(length, vent.from), unit)} from right`;
        const text = (place: string): string =>
          [
            `wall A length ${formatExact(length, unit)}`,
            `  vent V ${beside} to end`,
            `  anchor X 1/2" at ${place}`,
            `  joist at ${place}`,
            `  stud at ${place} 2x4`,
            `work on A`,
            `  anchor A-1 bolt-half at ${place}`,
            '',
          ].join('\n');
        const found = [beside, right, '0" left of V'].map((place) => {
          const [wall] = readLayout(text(place)).layout.walls;
          return [
            wall?.foundAnchors[0]?.station,
            wall?.irregularJoists[0]?.station,
            wall?.studs[0]?.station,
            wall?.anchors[0]?.station,
          ];
        });
        for (const stations of found) expect(stations).toEqual([vent.from, vent.from, vent.from, vent.from]);
      }),
    );
  });
});
