import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { clearIntervals, fitAt } from '../../../language/domain/fit/clear-intervals.ts';
import type { FitCase } from '../../../language/domain/fit/fit-case.ts';
import { contains } from '../../../language/domain/fit/intervals.ts';
import type { Length } from '../../../language/domain/units/length.ts';
import { inches, NANOMETRES_PER_INCH, nanometres } from '../../../language/domain/units/length.ts';
import * as make from '../../support/build-layout.ts';

/**
 * The same question asked in another way: every sixteenth of a board is tried by itself, straight from the drawing of the
 * connector, in whole sixteenths and without intervals.
 */

const SIXTEENTH = NANOMETRES_PER_INCH / 16;
const marks = (count: number): Length => nanometres(count * SIXTEENTH);
const IN = 16;

interface Scene {
  readonly length: number;
  readonly piece: readonly [from: number, to: number];
  readonly openings: readonly {
    readonly from: number;
    readonly to: number;
    readonly zone: readonly [number, number] | undefined;
  }[];
  readonly things: readonly {
    readonly from: number;
    readonly to: number;
    readonly off: number;
    readonly zone: readonly [number, number] | undefined;
  }[];
  readonly setBacks: readonly [left: number, middle: number, right: number];
  readonly headrooms: readonly [left: number, right: number];
  readonly step: {
    readonly at: number;
    readonly showingLeft: number;
    readonly showingRight: number;
    readonly drop: number;
  };
  readonly studs: { readonly first: number; readonly spaced: number; readonly trimmers: boolean };
}

/** Often at the limit of 9 in itself. */
const showing = fc.oneof(fc.constant(9 * IN), fc.integer({ min: 6 * IN, max: 20 * IN }));

const scene: fc.Arbitrary<Scene> = fc.integer({ min: 60 * IN, max: 150 * IN }).chain((length) => {
  const station = fc.integer({ min: 0, max: length });
  const stretch = fc
    .tuple(station, fc.integer({ min: 1, max: 24 * IN }))
    .map(([from, wide]) => ({ from, to: from + wide }));
  const zone = fc.option(
    fc
      .tuple(fc.integer({ min: 0, max: 20 * IN }), fc.integer({ min: 1, max: 20 * IN }))
      .map(([near, tall]) => [near, near + tall] as const),
    { nil: undefined },
  );
  return fc.record({
    length: fc.constant(length),
    piece: fc
      .tuple(fc.integer({ min: 0, max: 12 * IN }), fc.integer({ min: 0, max: 12 * IN }))
      .map(([from, cut]) => [from, length - cut] as const),
    openings: fc.array(
      fc.record({ stretch, zone }).map((each) => ({ ...each.stretch, zone: each.zone })),
      { maxLength: 3 },
    ),
    things: fc.array(
      fc
        .record({ stretch, zone, off: fc.integer({ min: 0, max: 30 * IN }) })
        .map((each) => ({ ...each.stretch, zone: each.zone, off: each.off })),
      { maxLength: 3 },
    ),
    setBacks: fc.tuple(
      fc.integer({ min: 0, max: 40 }),
      fc.integer({ min: 0, max: 40 }),
      fc.integer({ min: 0, max: 40 }),
    ),
    headrooms: fc.tuple(fc.integer({ min: 10 * IN, max: 40 * IN }), fc.integer({ min: 10 * IN, max: 40 * IN })),
    step: fc.record({
      at: station,
      showingLeft: showing,
      showingRight: showing,
      drop: fc.constantFrom(0, -14 * IN, 14 * IN),
    }),
    studs: fc.record({
      first: fc.integer({ min: 0, max: 16 * IN }),
      spaced: fc.constantFrom(12 * IN, 16 * IN, 24 * IN),
      trimmers: fc.boolean(),
    }),
  });
});

function built(from: Scene, kind: 'plate' | 'bolt'): FitCase {
  const { step } = from;
  const zoneOf = (zone: readonly [number, number] | undefined) =>
    zone && make.zone(marks(zone[0]), marks(zone[1]), 'below', 'top');
  const [left, right] = from.piece;
  const piece = make.piece(marks(left), marks(right), {
    setBack: make.through(
      [marks(left), marks(from.setBacks[0])],
      [marks(Math.round((left + right) / 2)), marks(from.setBacks[1])],
      [marks(right), marks(from.setBacks[2])],
    ),
    headroom: make.through([marks(left), marks(from.headrooms[0])], [marks(right), marks(from.headrooms[1])]),
  });
  const connector = kind === 'plate' ? make.plate() : make.bolt();
  const wall = make.wall({
    length: marks(from.length),
    pieces: [piece],
    foundation: [
      make.foundation(marks(0), marks(step.at), { showing: make.level(marks(step.showingLeft)) }),
      make.foundation(marks(step.at), marks(from.length), {
        showing: make.level(marks(step.showingRight)),
        top: make.level(marks(step.drop)),
      }),
    ],
    cripples: [
      make.cripple(marks(0), marks(from.length), {
        first: make.known(marks(from.studs.first)),
        spaced: make.known(marks(from.studs.spaced)),
        trimmers: from.studs.trimmers ? 'every-opening' : 'none',
      }),
    ],
    obstructions: [
      ...from.openings.map((each) =>
        make.obstruction('vent', marks(each.from), marks(each.to), { zone: zoneOf(each.zone) }),
      ),
      ...from.things.map((each) =>
        make.obstruction('pipe', marks(each.from), marks(each.to), {
          zone: zoneOf(each.zone),
          off: make.known(marks(each.off)),
        }),
      ),
    ],
  });
  const ruleSet = make.ruleSet('shop', [make.limit('side-room', 'at-least 20"')]);
  return {
    layout: make.house({ walls: [wall], connectors: [connector], ruleSets: [ruleSet] }),
    wall,
    piece,
    connector,
  };
}

/** Straight between readings, to the nearest nanometre. */
function between(x0: number, y0: number, x1: number, y1: number, x: number): number {
  return x0 === x1 ? y0 * SIXTEENTH : Math.round(y0 * SIXTEENTH + ((y1 - y0) * SIXTEENTH * (x - x0)) / (x1 - x0));
}
function setBackAt({ piece: [left, right], setBacks: [a, b, c] }: Scene, at: number): number {
  const middle = Math.round((left + right) / 2);
  return at <= middle ? between(left, a, middle, b, at) : between(middle, b, right, c, at);
}
const apart = (aLow: number, aHigh: number, bLow: number, bHigh: number): boolean => aHigh <= bLow || bHigh <= aLow;

/** Plate 8 in wide, 9 in tall from the top of a 1-5/8 in sill, 5/16 in thick; holes 2 in either side, 3 in to an edge. */
function plateFits(from: Scene, at: number): boolean {
  const [left, right] = from.piece;
  const low = at - 4 * IN;
  const high = at + 4 * IN;
  if (low < left || high > right) return false;
  const setBack = setBackAt(from, at);
  if (setBack < 0.5 * NANOMETRES_PER_INCH || setBack > 1.5 * NANOMETRES_PER_INCH) return false;
  const foot = (IN * 13) / 8 - 9 * IN;
  for (const { from: a, to: b, zone } of from.openings) {
    const top = zone ? -zone[0] : Number.POSITIVE_INFINITY;
    const bottom = zone ? -zone[1] : Number.NEGATIVE_INFINITY;
    // The holes may be anywhere on the part of the plate that lies on concrete.
    const gripless = !apart(foot - 3 * IN, 3 * IN, bottom, top);
    if (gripless && !(at + 2 * IN + 3 * IN <= a || at - 2 * IN - 3 * IN >= b)) return false;
    if (!apart(foot, (IN * 13) / 8, bottom, top) && !apart(low, high, a, b)) return false;
  }
  for (const { from: a, to: b, zone, off } of from.things) {
    const top = zone ? -zone[0] : Number.POSITIVE_INFINITY;
    const bottom = zone ? -zone[1] : Number.NEGATIVE_INFINITY;
    const inHeight = !apart(foot, (IN * 13) / 8, bottom, top);
    if (inHeight && off < 20 * IN && !apart(low, high, a, b)) return false;
  }
  const { step } = from;
  if (step.showingLeft < 9 * IN && step.at > 0 && !apart(low, high, 0, step.at)) return false;
  if (step.showingRight < 9 * IN && step.at < from.length && !apart(low, high, step.at, from.length)) return false;
  if (step.drop !== 0 && step.at > 0 && step.at < from.length) {
    // On the high side the far hole keeps 3 in of concrete; on the low side the plate clears the rise.
    const [leftReach, rightReach] = step.drop < 0 ? [5 * IN, 4 * IN] : [4 * IN, 5 * IN];
    if (at > step.at - leftReach && at < step.at + rightReach) return false;
  }
  return true;
}

/** Bolt with a 3 in washer between full-size studs 1-5/8 in wide; 4 in deep, 1-3/4 in to an edge; 24 in to drill. */
function boltFits(from: Scene, at: number): boolean {
  const [left, right] = from.piece;
  const half = 1.5 * IN;
  if (at - half < left || at + half > right) return false;
  if (between(left, from.headrooms[0], right, from.headrooms[1], at) < 24 * NANOMETRES_PER_INCH) return false;
  const studHalf = (IN * 13) / 16;
  const openings = from.openings.filter((each) => each.zone === undefined);
  for (let centre = from.studs.first; centre <= from.length; centre += from.studs.spaced) {
    const cut = openings.some((each) => each.from < centre && centre < each.to);
    if (!cut && Math.abs(at - centre) < studHalf + half) return false;
  }
  for (const { from: a, to: b, zone } of from.openings) {
    if (zone === undefined && from.studs.trimmers) {
      for (const jamb of [a - studHalf, b + studHalf]) {
        if (jamb >= 0 && jamb <= from.length && Math.abs(at - jamb) < studHalf + half) return false;
      }
    }
    const top = zone ? -zone[0] : Number.POSITIVE_INFINITY;
    const bottom = zone ? -zone[1] : Number.NEGATIVE_INFINITY;
    if (!apart(-4 * IN - 1.75 * IN, 1.75 * IN, bottom, top) && at > a - 1.75 * IN && at < b + 1.75 * IN) return false;
  }
  for (const { from: a, to: b, zone, off } of from.things) {
    // Zones here lie below the top of the concrete; only what has none stands beside the board.
    if (zone === undefined && off < half && at > a - half && at < b + half) return false;
  }
  const { step } = from;
  if (step.drop !== 0 && step.at > 0 && step.at < from.length) {
    const [leftReach, rightReach] = step.drop < 0 ? [1.75 * IN, half] : [half, 1.75 * IN];
    if (at > step.at - leftReach && at < step.at + rightReach) return false;
  }
  return true;
}

describe.each([
  ['plate', plateFits],
  ['bolt', boltFits],
] as const)('clear intervals of a %s', (kind, fits) => {
  it('hold exactly the sixteenths at which it fits when each is tried by itself', () => {
    fc.assert(
      fc.property(scene, (from) => {
        const fitCase = built(from, kind);
        const { clear } = clearIntervals(fitCase);
        for (let at = from.piece[0]; at <= from.piece[1]; at += 1) {
          const expected = fits(from, at);
          if (contains(clear, marks(at)) !== expected)
            expect({ at, clear: !expected }).toEqual({ at, clear: expected });
          if ((fitAt(fitCase, marks(at)).blocked.length === 0) !== expected) {
            expect({ at, fitAt: !expected }).toEqual({ at, fitAt: expected });
          }
        }
      }),
      { numRuns: 150 },
    );
  });

  it('end where the next nanometre is blocked, and say by what', () => {
    fc.assert(
      fc.property(scene, (from) => {
        const fitCase = built(from, kind);
        const [left, right] = from.piece;
        for (const stretch of clearIntervals(fitCase).clear) {
          for (const [end, beyond] of [
            [stretch.from, nanometres(stretch.from - 1)],
            [stretch.to, nanometres(stretch.to + 1)],
          ] as const) {
            expect(fitAt(fitCase, end).blocked).toEqual([]);
            if (beyond < marks(left) || beyond > marks(right)) continue;
            const { blocked } = fitAt(fitCase, beyond);
            expect(blocked.length).toBeGreaterThan(0);
            expect(blocked.every((each) => each.words.length > 0)).toBe(true);
          }
        }
      }),
      { numRuns: 150 },
    );
  });
});

describe('clear intervals', () => {
  it('are those of the mirrored wall, mirrored', () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.integer({ min: 0, max: 2000 }), fc.integer({ min: 1, max: 300 })), { maxLength: 6 }),
        (openings) => {
          const long = 2304;
          const clearOf = (places: readonly (readonly [number, number])[]) => {
            const piece = make.piece(marks(0), marks(long));
            const connector = make.plate();
            const wall = make.wall({
              length: marks(long),
              pieces: [piece],
              obstructions: places.map(([a, b]) => make.obstruction('vent', marks(a), marks(b))),
            });
            return clearIntervals({ layout: make.house({ walls: [wall], ruleSets: [] }), wall, piece, connector })
              .clear;
          };
          const there = clearOf(openings.map(([a, wide]) => [a, a + wide] as const));
          const mirrored = clearOf(openings.map(([a, wide]) => [long - a - wide, long - a] as const));
          const back = mirrored
            .map((each) => ({ from: marks(long) - each.to, to: marks(long) - each.from }))
            .toReversed();
          expect(back).toEqual(there);
        },
      ),
    );
  });

  it('shrink, and never grow, when something more stands in the way', () => {
    fc.assert(
      fc.property(scene, fc.integer({ min: 0, max: 150 * IN }), fc.integer({ min: 1, max: 300 }), (from, at, wide) => {
        const before = clearIntervals(built(from, 'plate')).clear;
        const more = { ...from, openings: [...from.openings, { from: at, to: at + wide, zone: undefined }] };
        const after = clearIntervals(built(more, 'plate')).clear;
        for (const stretch of after) {
          expect(before.some((each) => each.from <= stretch.from && stretch.to <= each.to)).toBe(true);
        }
      }),
      { numRuns: 100 },
    );
  });

  it('leave a single station between two things that just let the plate in', () => {
    const piece = make.piece(inches(0), inches(120));
    const connector = make.plate();
    const wall = make.wall({
      length: inches(120),
      pieces: [piece],
      obstructions: [
        make.obstruction('pipe', inches(20), inches(30)),
        make.obstruction('pipe', inches(38), inches(100)),
      ],
    });
    const { clear } = clearIntervals({ layout: make.house({ walls: [wall], ruleSets: [] }), wall, piece, connector });
    expect(clear).toContainEqual({ from: inches(34), to: inches(34) });
  });
});
