import { describe, expect, it } from 'vitest';
import { withEdits } from '../../../language/domain/fixes/apply-in-memory.ts';
import { nextMarks } from '../../../language/domain/fixes/next-mark.ts';
import type { Wall } from '../../../language/domain/model/layout.ts';
import { checkLayout } from '../../../language/domain/rules/check-layout.ts';
import { inches, zero } from '../../../language/domain/units/length.ts';
import * as make from '../../support/build-layout.ts';
import { readLayout } from '../../support/read-layout.ts';

const titles = (text: readonly string[], rule: string): readonly string[] => {
  const { layout, problems } = readLayout(`${text.join('\n')}\n`);
  expect(problems.map((each) => each.message)).toEqual([]);
  return checkLayout(layout)
    .findings.filter((each) => each.rule === rule)
    .flatMap((each) => each.fixes.map((fix) => fix.title));
};
const board = (
  work: readonly string[],
  wall: readonly string[] = [],
  sill = `size 2x6 set-back 3/4" headroom 11-1/8"`,
): readonly string[] => [
  'layout "House"',
  '  rules existing-building',
  'house',
  '  storeys 2',
  `wall F length 14'-0"`,
  '  foundation thick 8" showing 18" top 0"',
  `  sill F1 ${sill}`,
  ...wall.map((line) => `  ${line}`),
  'work on F',
  ...work.map((line) => `  ${line}`),
];
const plates = (...stations: readonly string[]) =>
  stations.map((at, index) => `anchor F-${index + 1} stepped-plate-s at ${at}`);

describe('the next mark', () => {
  const wall = (name: string, marks: readonly string[], found: readonly string[] = []): Wall =>
    make.wall({
      name,
      length: inches(200),
      pieces: [make.piece(zero, inches(200))],
      anchors: marks.map((mark, index) => make.newAnchor(mark, inches(10 + index), make.bolt())),
      foundAnchors: found.map((mark, index) => make.foundAnchor(inches(50 + index), { name: mark })),
    });
  const next = (own: Wall, count: number, others: readonly Wall[] = []) =>
    nextMarks(make.house({ walls: [own, ...others] }), own, count);

  it('is one above the highest, so that a number once sprayed is not used again', () => {
    expect(next(wall('F', ['F-1', 'F-13', 'F-4']), 2)).toEqual(['F-14', 'F-15']);
  });
  it('starts at 1 on a bare wall, after the wall’s name', () => {
    expect(next(wall('F', []), 1)).toEqual(['F-1']);
    expect(next(wall('north porch', []), 1)).toEqual(['north-porch-1']);
    expect(next(wall('2', []), 1)).toEqual(['W2-1']);
  });
  it('keeps the prefix that the wall uses', () => {
    expect(next(wall('F', ['W-1', 'W-2']), 1)).toEqual(['W-3']);
  });
  it('is unique in the house, whatever the case', () => {
    expect(next(wall('F', ['F-1']), 1, [wall('G', ['f-2'], ['F-3'])])).toEqual(['F-4']);
  });
});

describe('edits in memory', () => {
  it('put in, move and change anchors, keep them in order and leave other walls alone', () => {
    const first = make.boardWith(inches(200), [inches(10), inches(50)], make.plate());
    const second = make.wall({ name: 'G', length: inches(200), pieces: [make.piece(zero, inches(200))] });
    const layout = make.house({ walls: [first, second] });
    const edited = withEdits(layout, [
      {
        kind: 'insert-anchor',
        wall: 'wall:F',
        mark: 'F-9',
        connector: 'BOLT-half',
        station: inches(30),
        after: undefined,
      },
      { kind: 'set-station', anchor: 'F/anchor:F-1', station: inches(60) },
      { kind: 'set-connector', anchor: 'F/anchor:F-2', connector: 'bolt-half' },
      { kind: 'set-station', anchor: 'F/anchor:nobody', station: inches(60) },
    ]);
    expect(edited.walls[0]?.anchors.map((each) => [each.name, each.station, each.connector?.kind])).toEqual([
      ['F-9', inches(30), 'through-bolt'],
      ['F-2', inches(50), 'through-bolt'],
      ['F-1', inches(60), 'stepped-side-plate'],
    ]);
    expect(edited.walls[1]).toBe(second);
    expect(layout.walls[0]).toBe(first);
  });
});

describe('a fix', () => {
  it('puts the anchor into the middle of the gap, on the next mark', () => {
    expect(titles(board(plates(`0'-10"`, `4'-8"`, `9'-2"`, `13'-2"`)), 'anchorage/gap-too-wide')).toEqual([
      'Add F-5 (stepped-plate-s) at 6\'-11"',
    ]);
  });

  it('keeps to the part of the gap that is clear', () => {
    // Spacing leaves 5'-2" to 8'-8", the least distance cuts that to 8'-2", and the vent leaves 7'-9" on.
    const found = titles(
      board(plates(`0'-10"`, `4'-8"`, `9'-2"`, `13'-2"`), [`vent V1 5'-2" to 7'-4"`]),
      'anchorage/gap-too-wide',
    );
    expect(found).toEqual(['Add F-5 (stepped-plate-s) at 7\'-11 1/2"']);
  });

  it('moves nothing that is installed, but may add beside it', () => {
    const work = plates(`1'-3"`, `5'-2"`, `9'-2"`, `13'-2"`);
    expect(titles(board(work), 'anchorage/end-too-far')).toEqual([
      `Slide F-1 from 1'-3" to 0'-10 1/2" and add F-5 (stepped-plate-s) at 3'-0 1/4"`,
    ]);
    expect(titles([...board(work), 'record 2026-06-10', '  installed F-1'], 'anchorage/end-too-far')).toEqual([]);
  });

  it('offers another connector where only that helps', () => {
    const sill = 'size 2x6 set-back 2" headroom 11-1/8"';
    const work = plates(`0'-10"`, `4'-8"`, `8'-8"`, `11'-2"`, `13'-2"`).map((line, index) =>
      index === 2 ? line : line.replace('-s ', '-l '),
    );
    expect(titles(board(work, [], sill), 'foundation/set-back-out-of-range')).toEqual(['Use stepped-plate-l for F-3']);
  });

  it('near gas or power says what comes before the drill', () => {
    const work = plates(`0'-10"`, `4'-8"`, `9'-2"`, `13'-2"`);
    const found = titles(board(work, [`gas-pipe G1 at 6'-2" wide 3/4" riser live`]), 'anchorage/gap-too-wide');
    expect(found).toHaveLength(1);
    expect(found[0]).toMatch(/^Add F-5 .*: locate and expose both sides first$/);
    const conduit = titles(
      board(plates(`0'-10"`, `4'-8"`, `8'-8"`, `11'-2"`, `13'-2"`), [`conduit C1 at 8'-8" wide 1"`]),
      'clearance/power-near-drill',
    );
    expect(conduit.length).toBeGreaterThan(0);
    for (const title of conduit) expect(title).toMatch(/: locate and expose both sides first$/);
  });

  it('is not offered where it would only hide the matter behind a missing limit', () => {
    // Under three storeys there is no spacing for 1/2 in anchors: a board of bolts of 5/8 in cannot be mended with them.
    const text = [
      ...board(
        [
          `anchor F-1 bolt-big at 0'-10"`,
          `anchor F-2 bolt-big at 6'-10"`,
          `anchor F-3 bolt-big at 10'-6"`,
          `anchor F-4 bolt-big at 13'-2"`,
        ],
        [],
        'size 2x6 set-back 3/4" headroom 30"',
      ).map((line) => line.replace('storeys 2', 'storeys 3')),
      'connector bolt-big through-bolt',
      '  demo',
      '  body 3" wide 3" tall',
      '  into concrete 1 adhesive-rod size 5/8" x 8" edge 1-3/4"',
    ];
    expect(titles(text, 'anchorage/gap-too-wide')).toEqual(['Add F-5 (bolt-big) at 3\'-10"']);
  });

  it('is not offered where no spot is legal', () => {
    expect(
      titles(
        board(plates(`0'-10"`, `4'-8"`, `9'-2"`, `13'-2"`), [`window W1 5'-0" to 9'-0"`]),
        'anchorage/gap-too-wide',
      ),
    ).toEqual([]);
  });
});
