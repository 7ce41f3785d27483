import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { goodPlaces, snapped, standingAt, stepped } from '../../extension/webview/move-steps.ts';
import {
  cautionWords,
  fitWords,
  gapWords,
  standingWords,
  stationWords,
  windowsWords,
} from '../../extension/webview/move-words.ts';
import { type ConnectorMoves, type MoveBoard, readEditAnswer, readMovesAnswer } from '../../language/protocol/moves.ts';

const INCH = 25_400_000;
const SIXTEENTH = INCH / 16;
const inches = (count: number): number => count * INCH;

const board = (part: Partial<MoveBoard> = {}): MoveBoard => ({
  ...{ name: 'A1', from: 0, to: inches(192), counts: [{ from: 0, to: inches(192) }] },
  ...{
    clear: [],
    unmeasured: [],
    kept: [],
    best: [],
    inTheWay: [],
    lacking: [],
    blocked: [],
    services: [],
    others: [],
  },
  ...{ left: { least: inches(4), most: inches(12) }, right: { least: inches(4), most: inches(12) } },
  ...part,
});
const movesOf = (boards: readonly MoveBoard[], part: Partial<ConnectorMoves> = {}): ConnectorMoves => ({
  ...{ thing: 'A/anchor:A-2', mark: 'A-2', station: inches(64), step: SIXTEENTH },
  ...{ units: 'feet-inches', stationUnits: 'feet-inches', boards },
  ...part,
});

/** A vent in the middle, a neighbour on either side. */
const moves = movesOf([
  board({
    clear: [
      { from: inches(10), to: inches(67) },
      { from: inches(93), to: inches(182) },
    ],
    kept: [{ from: inches(56), to: inches(67) }],
    best: [inches(61.5)],
    inTheWay: [{ from: inches(67), to: inches(93), words: 'vent V1 6\'-0" to 7\'-4"' }],
    blocked: [{ from: inches(67), to: inches(93), words: ['vent V1 6\'-0" to 7\'-4"'] }],
    others: [
      { name: 'A-1', station: inches(11), least: inches(12), most: inches(72) },
      { name: 'A-3', station: inches(128), least: inches(12), most: inches(72) },
    ],
  }),
]);

describe('a connector that follows the pointer', () => {
  it('goes by the marks of the tape, and is drawn to good places only within reach', () => {
    expect(snapped(moves, inches(64) + 400_000, 0)).toBe(inches(64));
    expect(snapped(moves, inches(66.8), inches(0.5))).toBe(inches(67));
    expect(snapped(moves, inches(66.8), inches(0.1))).toBe(inches(66.8125));
    // The best place goes before an end that is nearer.
    const both = movesOf([board({ clear: [{ from: inches(60), to: inches(62) }], best: [inches(61.5)] })]);
    expect(snapped(both, inches(61.9), inches(1))).toBe(inches(61.5));
  });

  it('stays on the boards', () => {
    expect(snapped(moves, inches(-30), 0)).toBe(0);
    expect(snapped(moves, inches(400), 0)).toBe(inches(192));
    expect(stepped(moves, inches(192), 1, 'mark')).toBe(inches(192));
    expect(stepped(moves, 0, -1, 'mark')).toBe(0);
  });

  it('is told what is in the way, and never that it fits there', () => {
    const standing = standingAt(moves, inches(80));
    expect(standing.fit).toBe('blocked');
    expect(fitWords(standing)).toBe('does not fit: vent V1 6\'-0" to 7\'-4"');
    // Touching is allowed.
    expect(standingAt(moves, inches(67)).fit).toBe('clear');
    expect(standingAt(moves, inches(67) + 1).fit).toBe('blocked');
    expect(standingAt(moves, inches(300)).fit).toBe('blocked');
  });

  it('is not known to fit where nobody measured', () => {
    const lacking = [{ from: 0, to: inches(192), words: 'set-back of sill A1' }];
    const unsure = movesOf([board({ unmeasured: [{ from: 0, to: inches(192) }], lacking })]);
    expect(standingAt(unsure, inches(50)).fit).toBe('unmeasured');
    expect(fitWords(standingAt(unsure, inches(50)))).toBe('not measured: set-back of sill A1');
    const unlimited = movesOf([
      board({
        clear: [{ from: 0, to: inches(192) }],
        left: { least: null, most: null },
        right: { least: null, most: null },
      }),
    ]);
    expect(fitWords(standingAt(unlimited, inches(50)))).toBe('fits; what distances are asked here is not known');
  });

  it('is told of gas and power near it, whether it fits or not', () => {
    const near = movesOf([
      board({ clear: [{ from: 0, to: inches(40) }], services: [{ from: inches(30), to: inches(60) }] }),
    ]);
    const first = 'gas or power near: locate and expose both sides first';
    expect(cautionWords(standingAt(near, inches(35)))).toBe(first);
    expect(standingWords(near, standingAt(near, inches(35)))).toContain(`; ${first}; left`);
    expect(standingAt(near, inches(50)).fit).toBe('blocked');
    expect(cautionWords(standingAt(near, inches(50)))).toBe(first);
    expect(cautionWords(standingAt(near, inches(30)))).toBe('');
  });

  it('says its distances to both neighbours, and the limit that one breaks', () => {
    const kept = standingAt(moves, inches(64));
    expect(standingWords(moves, kept)).toBe(
      'A-2 at 5\'-4"; fits, distances kept; left 4\'-5" to A-1; right 5\'-4" to A-3',
    );
    const far = standingAt(moves, inches(93));
    expect(far.left).toMatchObject({ name: 'A-1', length: inches(82), breaks: 'too-far', limit: inches(72) });
    expect(standingWords(moves, far)).toBe(
      'A-2 at 7\'-9"; fits, but a distance is not kept; left 6\'-10" to A-1, at most 6\'-0"; right 2\'-11" to A-3',
    );
    const near = standingAt(moves, inches(120));
    expect(near.right && gapWords(moves, near.right, 'A1')).toBe('8" to A-3, at least 1\'-0"');
    const last = standingAt(moves, inches(182));
    expect(last.right && gapWords(moves, last.right, 'A1')).toBe('10" to the end of A1');
    expect(windowsWords(moves)).toBe('A-2 may stand 0\'-10" to 5\'-7", 7\'-9" to 15\'-2"');
  });

  it('has its station in the unit of its line, whatever the unit of the layout', () => {
    const metric = movesOf(moves.boards, { stationUnits: 'metric', step: 1_000_000 });
    expect(stationWords(metric, 1_626_000_000)).toBe('1626 mm');
    expect(snapped(metric, 1_626_400_000, 0)).toBe(1_626_000_000);
    expect(standingWords(metric, standingAt(metric, 1_626_000_000))).toMatch(/^A-2 at 1626 mm; .* left 4'-5" to A-1/);
  });
});

describe('a connector that is led by keys', () => {
  it('goes mark by mark, and from good place to good place', () => {
    expect(stepped(moves, inches(64), 1, 'mark')).toBe(inches(64) + SIXTEENTH);
    expect(stepped(moves, inches(64) + 1, -1, 'mark')).toBe(inches(64));
    expect(stepped(moves, inches(64) + 1, 1, 'mark')).toBe(inches(64) + SIXTEENTH);
    const right = [64, 67, 93, 182, 182];
    for (const [index, from] of right.slice(0, -1).entries()) {
      expect(stepped(moves, inches(from), 1, 'place')).toBe(inches(right[index + 1] ?? 0));
    }
    expect(stepped(moves, inches(64), -1, 'place')).toBe(inches(61.5));
    expect(stepped(moves, inches(10), -1, 'place')).toBe(inches(10));
  });

  const runs = { numRuns: process.env.SILLWRIGHT_LONG ? 5000 : 150 };
  /** From 0: stretches in turn clear and not. */
  const anyCuts = fc.array(fc.integer({ min: 1, max: 4_000_000_000 }), { minLength: 2, maxLength: 8 });
  const anyMoves = fc
    .tuple(fc.array(anyCuts, { minLength: 1, maxLength: 3 }), fc.constantFrom(SIXTEENTH, 1_000_000))
    .map(([each, step]) => {
      let from = 0;
      const boards = each.map((cuts) => {
        const stops = cuts.toSorted((a, b) => a - b).map((stop) => stop + from);
        const clear = stops.flatMap((to, at) => (at % 2 === 1 ? [{ from: stops[at - 1] ?? 0, to }] : []));
        const whole = { from, to: stops.at(-1) ?? from };
        // Where boards meet, a connector counts for the left one.
        from = whole.to + 1;
        return board({ ...whole, counts: [whole], clear, kept: clear.slice(0, 1) });
      });
      return movesOf(boards, { step });
    });
  const anywhere = fc.integer({ min: -1_000_000_000, max: 6_000_000_000 });

  it('always stands on a mark, and a step to a place ends where it surely fits', () => {
    fc.assert(
      fc.property(
        anyMoves,
        anywhere,
        fc.nat(200_000_000),
        fc.constantFrom(1 as const, -1 as const),
        (given, at, reach, direction) => {
          const place = snapped(given, at, reach);
          expect(Math.abs(place % given.step)).toBe(0);
          const inside = at >= given.step && at <= Math.max(...given.boards.map(({ to }) => to)) - given.step;
          if (inside) expect(Math.abs(place - at)).toBeLessThanOrEqual(Math.max(reach, given.step));
          const next = stepped(given, place, direction, 'mark');
          expect(next === place || Math.abs(next - place) <= given.step).toBe(true);
          const good = stepped(given, place, direction, 'place');
          expect((good - place) * direction).toBeGreaterThanOrEqual(0);
          if (good !== place) expect(standingAt(given, good).fit).toBe('clear');
          const { best, ends } = goodPlaces(given);
          expect(
            [...best, ...ends].filter((each) => (each - place) * direction > 0 && (good - each) * direction > 0),
          ).toEqual([]);
        },
      ),
      runs,
    );
  });

  it('reads back what the server says of it, and nothing that misses a field', () => {
    fc.assert(
      fc.property(anyMoves, fc.nat(), (given, revision) => {
        const answer = JSON.parse(JSON.stringify({ kind: 'moves', revision, moves: given }));
        expect(readMovesAnswer(answer)).toEqual(answer);
        for (const path of pathsIn(answer)) {
          const forged = structuredClone(answer);
          spoil(forged, path);
          expect(readMovesAnswer(forged), path.join('.')).toBeUndefined();
        }
      }),
      { numRuns: process.env.SILLWRIGHT_LONG ? 100 : 5 },
    );
    expect(readMovesAnswer({ kind: 'fixed', revision: 1, reason: 'it is in the wall', moves: null, more: 1 })).toEqual({
      ...{ kind: 'fixed', revision: 1, reason: 'it is in the wall', moves: null },
    });
    expect(readMovesAnswer({ kind: 'fixed', revision: 1, reason: 'x'.repeat(2001), moves: null })).toBeUndefined();
    expect(readEditAnswer({ kind: 'done', words: 'moved' })).toEqual({ kind: 'done', words: 'moved' });
    for (const forged of [{ kind: 'done' }, { kind: 'refused', reason: 1 }, { kind: 'maybe', words: '' }, []]) {
      expect(readEditAnswer(forged)).toBeUndefined();
    }
  });
});

/** To every value inside. */
function pathsIn(value: unknown, path: readonly (string | number)[] = []): readonly (readonly (string | number)[])[] {
  if (typeof value !== 'object' || value === null) return path.length === 0 ? [] : [path];
  return [
    ...(path.length === 0 ? [] : [path]),
    ...Object.entries(value).flatMap(([key, each]) =>
      pathsIn(each, [...path, Array.isArray(value) ? Number(key) : key]),
    ),
  ];
}

function spoil(value: unknown, path: readonly (string | number)[]): void {
  const [last] = path.slice(-1);
  const holder = path
    .slice(0, -1)
    .reduce<unknown>((inside, key) => (inside as Record<string | number, unknown>)[key], value);
  (holder as Record<string | number, unknown>)[last ?? ''] = { forged: true };
}
