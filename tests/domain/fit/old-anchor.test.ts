import { describe, expect, it } from 'vitest';
import { clearIntervals } from '../../../language/domain/fit/clear-intervals.ts';
import type { Connector } from '../../../language/domain/hardware/connector.ts';
import type { DeadHole, FoundAnchor, SillPiece } from '../../../language/domain/model/layout.ts';
import type { Length } from '../../../language/domain/units/length.ts';
import { inches, larger, zero } from '../../../language/domain/units/length.ts';
import * as make from '../../support/build-layout.ts';

const at = make.length;

interface Site {
  readonly old?: Partial<FoundAnchor>;
  readonly piece?: Partial<SillPiece>;
  readonly deadHoles?: readonly DeadHole[];
  readonly bothSides?: true;
  /** `false`: no rule set speaks of distances from old bolts. */
  readonly limits?: boolean;
}

/** What NDS 2018, Table 12.5.1B and ACI 318-19, 17.9.2 ask, from memory; the last is common practice, no source. */
const distances = make.ruleSet('distances', [
  make.limit('old-bolt-apart-per-diameter', 'at-least 4'),
  make.limit('old-bolt-in-concrete-per-diameter', 'at-least 6'),
  make.limit('old-hole-clear-per-diameter', 'at-least 1'),
]);

/** Where no centre may stand for an old anchor at 10'-0" of a board of 20 ft, joined. */
function blocked(
  connector: Connector,
  { old, piece, deadHoles, bothSides, limits = true }: Site = {},
): readonly (readonly [Length, Length])[] {
  const wall = make.wall({
    length: at(`20'-0"`),
    pieces: [make.piece(zero, at(`20'-0"`), piece)],
    foundAnchors: old ? [make.foundAnchor(at(`10'-0"`), { name: 'X1', ...old })] : [],
    ...(deadHoles ? { deadHoles } : {}),
  });
  const layout = make.house({ walls: [wall], connectors: [connector], ruleSets: limits ? [distances] : [] });
  const found = clearIntervals({ layout, wall, piece: wall.pieces[0], connector, bothSides }).blocked.filter(
    ({ reason }) => reason === 'old-anchor' || reason === 'old-hole',
  );
  const joined: [Length, Length][] = [];
  for (const { from, to } of found.toSorted((a, b) => a.from - b.from)) {
    const last = joined.at(-1);
    if (last && from <= last[1]) last[1] = larger(last[1], to);
    else joined.push([from, to]);
  }
  return joined;
}

const around = (inch: number): readonly (readonly [Length, Length])[] => [
  [(at(`10'-0"`) - inches(inch)) as Length, (at(`10'-0"`) + inches(inch)) as Length],
];
const half: Partial<FoundAnchor> = { size: make.known(inches(0.5)) };

describe('a new bolt', () => {
  it('keeps its washer off the washer of an old one: half of 3 in, and half of the 1-3/8 in of a 1/2 in cut washer', () => {
    // ASME B18.21.1, type A wide: 1.375 in for 1/2 in, from memory.
    expect(blocked(make.bolt(), { old: half, limits: false })).toEqual(around(1.5 + 1.375 / 2));
    expect(blocked(make.bolt(), { old: { ...half, washer: 'none' }, limits: false })).toEqual(around(1.5 + 0.5));
  });

  it('keeps off the plate washer that an old one is to get', () => {
    const newWasher = { ...make.bolt('washer-3'), kind: 'plate-washer' as const };
    expect(blocked(make.bolt(), { old: { ...half, newWasher }, limits: false })).toEqual(around(3));
  });

  it('keeps six diameters of the thicker one in the concrete', () => {
    expect(blocked(make.bolt(), { old: half })).toEqual(around(3));
    expect(blocked(make.bolt(), { old: { size: make.known(inches(0.75)) } })).toEqual(around(4.5));
  });

  it('takes an old one that nobody measured for 5/8 in', () => {
    expect(blocked(make.bolt(), { old: { size: undefined } })).toEqual(around(3.75));
  });

  it('keeps off the hole that an old one leaves when it comes out, in the concrete too where the board is new', () => {
    const old = { ...half, states: ['to-be-removed'] };
    expect(blocked(make.bolt(), { old })).toEqual(around(3));
    expect(blocked(make.bolt(), { old, piece: { layer: 'design' } })).toEqual(around(3));
    expect(blocked(make.bolt(), { old, limits: false })).toEqual([]);
  });
});

describe('a side plate', () => {
  const lag: Connector['fasteners'][number] = {
    ...make.intoConcrete(2, inches(0.25), {}),
    member: 'sill',
    kind: 'lag-screw',
    long: inches(3),
  };
  const withScrews = (...xs: readonly number[]): Connector => {
    const plate = make.plate();
    const points = xs.map((x) => ({ x: inches(x), y: inches(3) }));
    return { ...plate, fasteners: [...plate.fasteners, lag], holes: [{ member: 'sill', points }] };
  };

  it('keeps its holes in the concrete, 2 in either side of its middle, off an old rod that they would cross', () => {
    // 1/4 in of rod, 1/4 in of drill and 1/2 in between them.
    const each = 0.25 + 0.25 + 0.5;
    expect(blocked(make.plate(), { old: half })).toEqual([
      [at(`9'-10"`) - inches(each), at(`9'-10"`) + inches(each)],
      [at(`10'-2"`) - inches(each), at(`10'-2"`) + inches(each)],
    ]);
  });

  it('passes over a rod that is known to end above its holes, or to stand behind them', () => {
    const given: Connector = {
      ...make.plate(),
      holes: [{ member: 'concrete', points: [{ x: zero, y: inches(-3) }] }],
    };
    expect(blocked(given, { old: half })).toEqual(around(1));
    expect(blocked(given, { old: { ...half, embed: make.known(inches(2)) } })).toEqual([]);
    // 3/4 in of set-back and 5-1/4 in on the board, less half a rod: 5-3/4 in, and the hole is 4-3/4 in deep with 1/2 in to keep.
    expect(blocked(given, { old: { ...half, offset: make.known(inches(5.25)) } })).toEqual([]);
  });

  it('keeps its screws off an old bolt, so far as they reach it', () => {
    const plate = withScrews(0);
    // 9/32 in of hole, 1/8 in of screw and 1/4 in between them.
    expect(blocked(plate, { old: half })).toContainEqual([
      at(`10'-0"`) - inches(0.65625),
      at(`10'-0"`) + inches(0.65625),
    ]);
    const behind = { ...half, offset: make.known(inches(4.5)) };
    // A plate outside is the nearer one to a bolt that stands far out.
    expect(blocked(plate, { old: behind, bothSides: true })).toContainEqual([
      at(`10'-0"`) - inches(0.65625),
      at(`10'-0"`) + inches(0.65625),
    ]);
    expect(blocked(plate, { old: behind })).not.toContainEqual([
      at(`10'-0"`) - inches(0.65625),
      at(`10'-0"`) + inches(0.65625),
    ]);
  });

  it('has screws all over where the hardware does not say where', () => {
    const plate = make.plate();
    expect(blocked({ ...plate, fasteners: [...plate.fasteners, lag] }, { old: half })).toEqual(around(4 + 0.65625));
  });

  it('goes where the bolt was, in new wood, but for what is left in the concrete', () => {
    const old = { ...half, states: ['to-be-removed'] };
    const plate = withScrews(0);
    expect(blocked(plate, { old })).toHaveLength(3);
    expect(blocked(plate, { old, piece: { layer: 'design' } })).toHaveLength(2);
  });

  it('meets an old plate with its body; a bolt passes it', () => {
    const old = { ...half, kind: 'plate' };
    expect(blocked(make.plate(), { old })).toEqual(around(4 + 2));
    expect(blocked(make.bolt(), { old })).toEqual([]);
  });
});

it('a hole that was given up bars new ones like an anchor of their own size', () => {
  const hole: DeadHole = { station: at(`10'-0"`), state: 'open', date: '2026-05-01', source: make.somewhere() };
  expect(blocked(make.bolt(), { deadHoles: [hole] })).toEqual(around(3));
  expect(blocked(make.plate(), { deadHoles: [hole] })).toEqual(around(2 + 3));
});
