import { describe, expect, it } from 'vitest';
import { checkLayout } from '../../../language/domain/rules/check-layout.ts';
import { formatExact } from '../../../language/domain/units/format-length.ts';
import type { Length } from '../../../language/domain/units/length.ts';
import { inches, minus, nanometres, plus, sixteenth, zero } from '../../../language/domain/units/length.ts';
import { length } from '../../support/build-layout.ts';
import { readLayout } from '../../support/read-layout.ts';

/**
 * The anchorage tables for existing houses, International Existing Building Code, appendix chapter A3, 2018/2021 numbering.
 * Table A304.3.1 (spacing) and A304.3.2 (end distance): from memory, sure. Table A304.3.2 (short boards): from memory, less sure.
 */

type Tape = (length: Length) => string;
const tapes: readonly (readonly [string, Tape])[] = [
  ['in feet and inches', (each) => formatExact(each, 'feet-inches')],
  ['in millimetres', (each) => formatExact(each, 'metric')],
];

/** A bolted board of its own; whatever else could be found fault with is left out. */
function rulesThatFire(say: {
  readonly storeys: number;
  readonly bolt: Length;
  readonly long: Length;
  readonly stations: readonly Length[];
  readonly tape: Tape;
}): readonly string[] {
  const { tape } = say;
  const text = [
    'layout "Table"',
    '  rules existing-building',
    'house',
    `  storeys ${say.storeys}`,
    '  dwellings 1',
    'connector the-bolt through-bolt',
    '  report "none: invented values"',
    '  demo',
    `  body ${tape(inches(3))} wide ${tape(inches(3))} tall ${tape(inches(0.25))} thick`,
    `  into concrete 1 adhesive-rod size ${tape(say.bolt)} x ${tape(inches(8))} hole-depth ${tape(inches(4))} edge ${tape(inches(1.75))}`,
    `wall F length ${tape(say.long)}`,
    `  foundation thick ${tape(inches(8))} showing ${tape(inches(18))} top 0" sound`,
    `  sill F1 size 2x6 set-back 0" headroom ${tape(inches(30))}`,
    'work on F',
    ...say.stations.map((station, index) => `  anchor F-${index + 1} the-bolt at ${tape(station)}`),
    '',
  ].join('\n');
  const { layout, problems } = readLayout(text);
  expect(problems.map((each) => each.message)).toEqual([]);
  const { findings, notChecked } = checkLayout(layout);
  expect(notChecked).toEqual([]);
  return findings.map((each) => each.rule);
}

const half = length('1/2"');
const fiveEighths = length('5/8"');
const tick = nanometres(1);

/** Anchors from 10 in on, the first gap as given, the rest 30 in; 10 in left at the right end. */
function withGap(gap: Length): { readonly stations: readonly Length[]; readonly long: Length } {
  const stations = [inches(10), plus(inches(10), gap)];
  for (let count = 0; count < 3; count += 1) stations.push(plus(stations[stations.length - 1] ?? zero, inches(30)));
  return { stations, long: plus(stations[stations.length - 1] ?? zero, inches(10)) };
}

describe.each(tapes)('Table A304.3.1 %s', (_name, tape) => {
  it.each([
    ['1 storey', '1/2"', 1, half, length(`6'-0"`)],
    ['2 storeys', '1/2"', 2, half, length(`4'-0"`)],
    ['2 storeys', '5/8"', 2, fiveEighths, length(`6'-0"`)],
    ['3 storeys', '5/8"', 3, fiveEighths, length(`4'-0"`)],
  ])('under %s lets %s anchors stand so far apart and no further', (_storeys, _bolt, storeys, bolt, most) => {
    const fires = (gap: Length) => rulesThatFire({ storeys, bolt, tape, ...withGap(gap) });
    expect(fires(minus(most, sixteenth))).toEqual([]);
    expect(fires(most)).toEqual([]);
    // A tape may be off by a sixteenth, not by more.
    expect(fires(plus(most, sixteenth))).toEqual([]);
    expect(fires(plus(plus(most, sixteenth), tick))).toEqual(['anchorage/gap-too-wide']);
    expect(fires(plus(most, nanometres(2 * sixteenth)))).toEqual(['anchorage/gap-too-wide']);
  });

  it('gives no spacing for 1/2 in anchors under 3 storeys: said once, nothing guessed', () => {
    const say = { storeys: 3, bolt: half, tape, ...withGap(length(`9'-0"`)) };
    expect(rulesThatFire(say)).toEqual(['load-path/no-limit']);
  });
});

describe.each(tapes)('A304.3.2, end distance %s', (_name, tape) => {
  const atLeft = (distance: Length) => {
    const { stations, long } = withGap(inches(40));
    return rulesThatFire({ storeys: 2, bolt: half, tape, long, stations: [distance, ...stations.slice(1)] });
  };
  const atRight = (distance: Length) => {
    const { stations } = withGap(inches(40));
    return rulesThatFire({
      storeys: 2,
      bolt: half,
      tape,
      stations,
      long: plus(stations[stations.length - 1] ?? zero, distance),
    });
  };

  it.each([
    ['left', atLeft],
    ['right', atRight],
  ] as const)('holds from 9 to 12 in at the %s end', (_side, fires) => {
    for (const inside of [inches(9), plus(inches(9), sixteenth), minus(inches(12), sixteenth), inches(12)]) {
      expect(fires(inside)).toEqual([]);
    }
    expect(fires(minus(inches(9), sixteenth))).toEqual([]);
    expect(fires(plus(inches(12), sixteenth))).toEqual([]);
    expect(fires(minus(minus(inches(9), sixteenth), tick))).toEqual(['anchorage/end-too-near']);
    expect(fires(plus(plus(inches(12), sixteenth), tick))).toEqual(['anchorage/end-too-far']);
  });
});

describe.each(tapes)('Table A304.3.2, short boards %s', (_name, tape) => {
  /** Evenly between 9 in from either end: on 30 in, two then stand 12 in apart. */
  const evenly = (long: Length, count: number): readonly Length[] =>
    count === 1
      ? [nanometres(Math.floor(long / 2))]
      : Array.from({ length: count }, (_, index) =>
          nanometres(Math.round(inches(9) + ((long - inches(18)) * index) / (count - 1))),
        );
  const fires = (storeys: number, bolt: Length, long: Length, count: number) =>
    rulesThatFire({ storeys, bolt, tape, long, stations: evenly(long, count) });

  it.each([
    [1, '1/2"', half, 3],
    [2, '1/2"', half, 4],
    [2, '5/8"', fiveEighths, 3],
    [3, '1/2"', half, 4],
    [3, '5/8"', fiveEighths, 4],
  ])('under %i storeys with %s anchors counts from 6 ft to just under 12 ft', (storeys, _words, bolt, count) => {
    for (const long of [
      length(`6'-0"`),
      plus(length(`6'-0"`), sixteenth),
      length(`9'-0"`),
      minus(length(`12'-0"`), sixteenth),
      minus(length(`12'-0"`), tick),
    ]) {
      expect(fires(storeys, bolt, long, count)).toEqual([]);
      expect(fires(storeys, bolt, long, count - 1)).toEqual(['anchorage/short-piece-count']);
    }
  });

  it.each([1, 2, 3])('under %i storeys wants two from 30 in to just under 6 ft, one below', (storeys) => {
    for (const long of [
      inches(30),
      plus(inches(30), sixteenth),
      length(`4'-0"`),
      minus(length(`6'-0"`), sixteenth),
      minus(length(`6'-0"`), tick),
    ]) {
      expect(fires(storeys, half, long, 2)).toEqual([]);
      // The one anchor stands in the middle: the missing one explains one bare end, not both.
      expect(fires(storeys, half, long, 1)).toEqual(['anchorage/short-piece-count', 'anchorage/end-too-far']);
    }
    for (const long of [minus(inches(30), tick), minus(inches(30), sixteenth), inches(20), inches(12)]) {
      expect(fires(storeys, half, long, 1)).toEqual([]);
    }
  });

  it('goes by spacing from 12 ft on', () => {
    expect(fires(2, half, length(`12'-0"`), 4)).toEqual([]);
    expect(fires(2, half, length(`12'-0"`), 3)).toEqual(['anchorage/gap-too-wide', 'anchorage/gap-too-wide']);
  });
});
