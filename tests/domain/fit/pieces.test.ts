import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { clearIntervals } from '../../../language/domain/fit/clear-intervals.ts';
import { endWindow, spotPastObstruction } from '../../../language/domain/fit/end-window.ts';
import { intervalIndex } from '../../../language/domain/fit/interval-index.ts';
import { anchorsOf, pieceAt } from '../../../language/domain/fit/piece-anchors.ts';
import { endDistanceAsked, takesOneAnchor } from '../../../language/domain/fit/piece-requirements.ts';
import { storeysOver } from '../../../language/domain/fit/storeys.ts';
import type { SillPiece, Wall } from '../../../language/domain/model/layout.ts';
import { noTags } from '../../../language/domain/model/layout.ts';
import type { Limit } from '../../../language/domain/rulesets/rule-set.ts';
import { inches, nanometres, zero } from '../../../language/domain/units/length.ts';
import * as make from '../../support/build-layout.ts';

const at = make.length;

describe('the anchors that count for a board', () => {
  const left = make.piece(zero, at(`16'-0"`), { name: 'A1', joint: 'half-lap' });
  const right = make.piece(at(`15'-8"`), at(`28'-0"`), { name: 'A2' });
  const lapped = (say: Partial<Omit<Wall, 'length' | 'pieces'>>): Wall =>
    make.wall({ length: at(`28'-0"`), pieces: [left, right], ...say });
  const namesOn = (wall: Wall, piece: SillPiece) => anchorsOf(wall, piece).map((each) => each.words);

  it('are the new ones but for those omitted or failed, and found ones with full credit', () => {
    const wall = lapped({
      anchors: [
        make.newAnchor('A-1', at(`1'-0"`), make.bolt()),
        make.newAnchor('A-2', at(`3'-0"`), make.bolt(), { state: 'omitted' }),
        make.newAnchor('A-3', at(`5'-0"`), make.bolt(), { state: 'failed' }),
        make.newAnchor('A-4', at(`7'-0"`), make.bolt(), { state: 'installed' }),
        make.newAnchor('A-5', at(`8'-0"`), { ...make.bolt(), kind: 'hold-down' }),
        make.newAnchor('A-6', at(`8'-6"`), make.bolt(), { station: undefined }),
      ],
      foundAnchors: [
        make.foundAnchor(at(`9'-0"`), { name: 'X1', credit: 'full' }),
        make.foundAnchor(at(`10'-0"`), { name: 'X2', credit: 'half' }),
        make.foundAnchor(at(`11'-0"`), { name: 'X3', credit: 'none' }),
      ],
    });
    expect(namesOn(wall, left)).toEqual(['A-1', 'A-4', 'X1']);
  });

  it('count in a lap for the board whose end is further away, and for that one only', () => {
    const wall = lapped({
      anchors: [make.newAnchor('A-1', at(`15'-9"`), make.bolt()), make.newAnchor('A-2', at(`15'-11"`), make.bolt())],
    });
    expect(namesOn(wall, left)).toEqual(['A-1']);
    expect(namesOn(wall, right)).toEqual(['A-2']);
  });

  it('count on a butt joint for the left board, and beyond all boards for none', () => {
    const one = make.piece(zero, at(`8'-0"`), { name: 'F1' });
    const two = make.piece(at(`8'-0"`), at(`14'-0"`), { name: 'F2' });
    const wall = make.wall({
      length: at(`16'-0"`),
      pieces: [one, two],
      anchors: [make.newAnchor('F-1', at(`8'-0"`), make.bolt()), make.newAnchor('F-2', at(`15'-0"`), make.bolt())],
    });
    expect(namesOn(wall, one)).toEqual(['F-1']);
    expect(namesOn(wall, two)).toEqual([]);
    expect(pieceAt(wall, at(`8'-0"`))).toBe(one);
    expect(pieceAt(wall, at(`15'-0"`))).toBeUndefined();
  });

  it('agree with the board found for a single station, wherever boards lap or leave holes', () => {
    const boards = fc.array(fc.tuple(fc.integer({ min: 0, max: 200 }), fc.integer({ min: 1, max: 80 })), {
      minLength: 1,
      maxLength: 6,
    });
    fc.assert(
      fc.property(boards, fc.array(fc.integer({ min: 0, max: 290 }), { maxLength: 12 }), (places, stations) => {
        const pieces = places.map(([from, long], index) =>
          make.piece(inches(from), inches(from + long), { name: `F${index}` }),
        );
        const wall = make.wall({
          length: inches(300),
          pieces,
          anchors: stations.map((station, index) => make.newAnchor(`F-${index}`, inches(station), make.bolt())),
        });
        for (const anchor of wall.anchors) {
          const owner = anchor.station === undefined ? undefined : pieceAt(wall, anchor.station);
          for (const piece of pieces) expect(namesOn(wall, piece).includes(anchor.name)).toBe(piece === owner);
        }
      }),
    );
  });
});

describe('storeys above', () => {
  const numbers = (wall: Wall, from: string, to: string, storeys: number | undefined = 2, line?: number) => {
    const layout = make.house({
      walls: [wall],
      storeys,
      more:
        line === undefined
          ? {}
          : {
              lines: [
                {
                  id: 'line:west',
                  name: 'west',
                  source: make.somewhere(),
                  tags: noTags,
                  walls: [{ name: 'f', source: make.somewhere() }],
                  storeys: make.known(line),
                  exempt: undefined,
                },
              ],
            },
    });
    return storeysOver(layout, wall, { from: at(from), to: at(to) }).map((each) =>
      each?.kind === 'known' ? each.value : each?.kind,
    );
  };
  const wall = (stretches: readonly (readonly [string, string, number])[]) =>
    make.wall({
      length: at(`34'-0"`),
      pieces: [],
      storeys: stretches.map(([from, to, value]) => ({
        stretch: { from: at(from), to: at(to) },
        value: make.known(value),
      })),
    });

  it('come from the stretch of the wall, then its line, then the house', () => {
    expect(numbers(wall([]), `0'-0"`, `10'-0"`)).toEqual([2]);
    expect(numbers(wall([]), `0'-0"`, `10'-0"`, 2, 3)).toEqual([3]);
    expect(numbers(wall([[`28'-0"`, `34'-0"`, 1]]), `29'-0"`, `34'-0"`, 2, 3)).toEqual([1]);
    expect(numbers(wall([[`28'-0"`, `34'-0"`, 1]]), `0'-0"`, `28'-0"`, 2, 3)).toEqual([3]);
  });

  it('are all those over a stretch where they change', () => {
    expect(numbers(wall([[`28'-0"`, `34'-0"`, 1]]), `20'-0"`, `30'-0"`)).toEqual([2, 1]);
    expect(numbers(wall([[`10'-0"`, `20'-0"`, 3]]), `0'-0"`, `34'-0"`)).toEqual([2, 3]);
  });

  it('are nobody knows where nobody says', () => {
    const bare = make.wall({ length: at(`10'-0"`), pieces: [] });
    const layout = make.house({ walls: [bare], storeys: undefined });
    expect(storeysOver(layout, bare, { from: zero, to: at(`10'-0"`) })).toEqual([undefined]);
  });
});

describe('an end window', () => {
  const piece = make.piece(at(`8'-0"`), at(`24'-1"`), { name: 'D2' });

  it('is measured from the true end of the wood', () => {
    expect(endWindow(piece, 'left', inches(9), inches(12))).toEqual({ from: at(`8'-9"`), to: at(`9'-0"`) });
    expect(endWindow(piece, 'right', inches(9), inches(12))).toEqual({ from: at(`23'-1"`), to: at(`23'-4"`) });
  });

  const spot = (
    obstructions: Wall['obstructions'],
    say: Partial<Omit<Wall, 'length' | 'pieces'>> = {},
    ruleSets = [make.existingBuilding],
  ) => {
    const wall = make.wall({ length: at(`24'-1"`), pieces: [piece], obstructions, ...say });
    const layout = make.house({ walls: [wall], ruleSets });
    const fits = clearIntervals({ layout, wall, piece, connector: make.plate() });
    return spotPastObstruction(layout, piece, 'left', { from: at(`8'-9"`), to: at(`9'-0"`) }, fits);
  };

  it('that physical things fill gives way to the nearest clear spot beyond', () => {
    const found = spot([make.obstruction('chimney', at(`8'-4"`), at(`8'-11"`), { name: 'K1' })]);
    expect(found?.nearest).toBe(at(`9'-4"`));
    expect(found?.things.map((each) => each.words)).toEqual([`chimney K1 8'-4" to 8'-11"`]);
  });

  it('does not give way to a thing that leaves one spot in it', () => {
    expect(spot([make.obstruction('chimney', at(`7'-4"`), at(`8'-7"`))])).toBeUndefined();
    expect(spot([make.obstruction('chimney', at(`7'-4"`), nanometres(at(`8'-7"`) + 1))])).not.toBeUndefined();
  });

  it('does not give way to rot, nor where the rules do not allow it', () => {
    expect(spot([], { defects: [make.defect('rot', at(`8'-4"`), at(`9'-2"`))] })).toBeUndefined();
    const strict = make.ruleSet(
      'test',
      make.existingBuilding.limits.filter((each) => each.subject !== 'end-window-past-obstruction'),
    );
    expect(spot([make.obstruction('chimney', at(`8'-4"`), at(`8'-11"`))], {}, [strict])).toBeUndefined();
  });
});

describe('end distances', () => {
  it('may differ between the corner of a house and a break in the wall', () => {
    const habits = make.ruleSet('habits', [
      make.limit('corner-distance', 'at-least 9" at-most 12"'),
      make.limit('break-distance', 'at-least 3" at-most 10"'),
    ]);
    const first = make.piece(zero, at(`10'-0"`), { name: 'F1' });
    const second = make.piece(at(`10'-0"`), at(`20'-0"`), { name: 'F2' });
    const wall = make.wall({ length: at(`20'-0"`), pieces: [first, second] });
    const layout = make.house({ walls: [wall], ruleSets: [habits] });
    const value = (board: SillPiece, side: 'left' | 'right', extreme: 'least' | 'most') => {
      const asked = endDistanceAsked(layout, wall, board, side, extreme, []);
      return asked.kind === 'asked' ? asked.value : asked.kind;
    };
    expect([value(first, 'left', 'least'), value(first, 'right', 'least')]).toEqual([inches(9), inches(3)]);
    expect([value(second, 'left', 'most'), value(second, 'right', 'most')]).toEqual([inches(10), inches(12)]);
  });
});

describe('a board that takes one anchor', () => {
  const taken = (long: number, limits: readonly Limit[]) => {
    const board = make.piece(zero, inches(long));
    const wall = make.wall({ length: inches(long), pieces: [board] });
    return takesOneAnchor(make.house({ walls: [wall], ruleSets: [make.ruleSet('own', limits)] }), wall, board, []);
  };
  it('is one for which the table of short boards asks one, not every board where at least one is asked', () => {
    expect(taken(29, [make.limit('piece-count', 'at-least 1', ['piece under 30"'])])).toBe(true);
    expect(taken(30, [make.limit('piece-count', 'at-least 1', ['piece under 30"'])])).toBe(false);
    expect(taken(120, [make.limit('piece-count', 'at-least 1')])).toBe(false);
  });
  it('is one too short for the least distances from both ends', () => {
    const ends = [make.limit('end-distance', 'at-least 9" at-most 12"')];
    expect(taken(17.9375, ends)).toBe(true);
    expect(taken(18, ends)).toBe(false);
  });
});

describe('the index of intervals', () => {
  it('finds what a look at every one finds', () => {
    const stretch = fc
      .tuple(fc.integer({ min: 0, max: 60 }), fc.integer({ min: 0, max: 30 }))
      .map(([from, long]) => ({ from: nanometres(from), to: nanometres(from + long) }));
    fc.assert(
      fc.property(
        fc.array(stretch, { maxLength: 15 }),
        fc.integer({ min: -5, max: 95 }),
        fc.integer({ min: 0, max: 20 }),
        (items, from, long) => {
          const found = intervalIndex(items).overlapping(from, from + long);
          const looked = items.filter((each) => each.from < from + long && each.to > from);
          expect(new Set(found)).toEqual(new Set(looked));
          expect(found.length).toBe(looked.length);
        },
      ),
    );
  });
});
