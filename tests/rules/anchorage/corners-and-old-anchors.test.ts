import { describe, expect, it } from 'vitest';
import { findingsOf, graveIn, inMetric, lackingOf, mended, soundRow, wallText } from '../support.ts';

const cornerText = (say: { last: string; first: string; thick?: string; turn?: string; rules?: string }) =>
  [
    'layout "Corner"',
    `  rules ${say.rules ?? 'existing-building'}`,
    '',
    'ruleset bare "No ends"',
    '  source "test" common-practice',
    `    limit anchor-spacing at-most 6'-0"`,
    `    limit end-distance at-least 3" at-most 24"`,
    '',
    'house',
    '  storeys 2',
    '  dwellings 1',
    '',
    `wall A length 20'-0"`,
    `  foundation sound thick ${say.thick ?? '8"'} showing 18" top 0"`,
    `  sill A1 size 2x6 set-back 0" headroom 25-1/8"`,
    '',
    `wall B${say.turn ? ` turn ${say.turn}` : ''} length 20'-0"`,
    `  foundation sound thick ${say.thick ?? '8"'} showing 18" top 0"`,
    `  sill B1 size 2x6 set-back 0" headroom 25-1/8"`,
    '',
    'work on A',
    ...[...soundRow.slice(0, -1), say.last].map((station, index) => `  anchor A-${index + 1} bolt-half at ${station}`),
    '',
    'work on B',
    ...[say.first, ...soundRow.slice(1)].map((station, index) => `  anchor B-${index + 1} bolt-half at ${station}`),
    '',
  ].join('\n');

describe('anchorage/corner-holes-clash', () => {
  const rule = 'anchorage/corner-holes-clash';

  // A 2x6 flush with the inside of an 8 in stem: its middle is 8 - 2-3/4 = 5-1/4 in from the outer face. Bolts a and b from the
  // corner of the outer faces are hypot(a - 5-1/4, b - 5-1/4) apart. 6 in: common practice, no source.
  it.each([
    [`19'-3"`, `0'-9"`, Math.hypot(3.75, 3.75), 1],
    [`19'-2"`, `0'-10"`, Math.hypot(4.75, 4.75), 0],
    [`19'-3"`, `0'-10"`, Math.hypot(3.75, 4.75), 0],
    [`19'-3"`, `0'-9 13/16"`, Math.hypot(3.75, 4.5625), 1],
  ])('bolts at %s and round the corner at %s are %f in apart: %i', (last, first, inches, count) => {
    expect(inches >= 6 - 1 / 16).toBe(count === 0);
    const found = findingsOf(cornerText({ last, first }), rule);
    expect(found).toHaveLength(count);
    expect(findingsOf(inMetric(cornerText({ last, first })), rule)).toHaveLength(count);
    for (const each of found)
      expect(each).toMatchObject({ wall: 'A', piece: 'A1', severity: 'warning', thing: 'A/anchor:A-6' });
  });

  it('is mended by sliding one within its window', () => {
    expect(graveIn(mended(cornerText({ last: `19'-3"`, first: `0'-9"` }), rule, /^Slide A-6/))).toEqual([]);
  });

  it('measures across the outside of a corner that turns the other way', () => {
    expect(findingsOf(cornerText({ last: `19'-3"`, first: `0'-9"`, turn: 'left' }), rule)).toEqual([]);
  });

  it('lacks the thickness of the stem where nobody measured it', () => {
    const text = cornerText({ last: `19'-3"`, first: `0'-9"`, thick: 'unknown' });
    expect(findingsOf(text, rule)).toEqual([]);
    expect(lackingOf(text, rule).join()).toContain('thickness of the foundation');
  });
});

describe('anchorage/corner-anchor-shared', () => {
  const rule = 'anchorage/corner-anchor-shared';

  // Both stand 5-1/4 in from the two outer faces: one bolt. 2 in: common practice, no source.
  it.each([
    [`19'-6 3/4"`, `0'-5 1/4"`, 1],
    [`19'-6 3/4"`, `0'-7 1/4"`, 1],
    [`19'-6 3/4"`, `0'-7 5/16"`, 0],
  ])('a bolt at %s of one wall and at %s of the next: %i', (last, first, count) => {
    expect(findingsOf(cornerText({ last, first, rules: 'bare' }), rule)).toHaveLength(count);
  });

  it('goes before the clash of their holes', () => {
    const text = cornerText({ last: `19'-6 3/4"`, first: `0'-5 1/4"`, rules: 'bare' });
    expect(graveIn(text)).toEqual([rule]);
    expect(graveIn(cornerText({ last: `19'-6 3/4"`, first: `0'-8"`, rules: 'bare' }))).toEqual([
      'anchorage/corner-holes-clash',
    ]);
  });
});

describe('anchorage/step-side-bare', () => {
  const rule = 'anchorage/step-side-bare';
  const stepped = (say: { rules: string; drop: string; right: readonly string[] }) =>
    wallText({
      rules: say.rules,
      storeys: '1',
      foundation: [`to 10'-0" thick 8" showing 6'-0" top 0"`, `to end thick 8" showing 18" top ${say.drop}`],
      sills: [`F1 to 10'-0"`, 'F2 to end'],
      anchors: [`1'-0"`, `5'-0"`, `7'-0"`, `9'-0"`, ...say.right, `15'-0"`, `19'-0"`],
    });

  // R602.11.2 of the residential code, published: 1 ft and 3 ft from a step where the heights differ by more than 4 ft.
  it.each([
    ['-4\'-0 1/16"', [`11'-0"`], 1],
    ['-4\'-0"', [`11'-0"`], 0],
    ['-4\'-6"', [`11'-0"`, `13'-0"`], 0],
    ['-4\'-6"', [`11'-0"`, `13'-0 1/16"`], 0],
    ['-4\'-6"', [`11'-0"`, `13'-0 1/8"`], 1],
  ])('new houses: a drop of %s with anchors at %s on the lower side: %i', (drop, right, count) => {
    const found = findingsOf(stepped({ rules: 'new-house', drop, right }), rule);
    expect(found).toHaveLength(count);
    for (const each of found)
      expect(each).toMatchObject({ piece: 'F2', citation: { text: 'R602.11.2', trust: 'published' } });
  });

  it('the existing-building set takes a step for two ends of boards, and no more', () => {
    expect(findingsOf(stepped({ rules: 'existing-building', drop: `-4'-6"`, right: [`11'-0"`] }), rule)).toEqual([]);
  });

  it('is mended at the distance that is asked; an unknown level is asked for', () => {
    const text = stepped({ rules: 'new-house', drop: `-4'-6"`, right: [`11'-0"`] });
    expect(findingsOf(mended(text, rule, /^Add F-8 .* at 13'-0"$/), rule)).toEqual([]);
    const unknown = stepped({ rules: 'new-house', drop: 'unknown', right: [`11'-0"`] });
    expect(lackingOf(unknown, rule)).toEqual(['top of the concrete of wall F']);
  });
});

describe('old anchors with credit', () => {
  const overcounted = 'anchorage/old-anchor-overcounted';
  const unproven = 'anchorage/old-anchor-unproven';
  const old = (words: string, after: readonly string[] = []) =>
    wallText({ anchors: soundRow, found: [`anchor X1 ${words}`], after });
  const passed = ['record 2026-05-04 by "crew lead"', '  tested X1 pull 1200 lb passed'];

  it.each([
    [`1/2" at 6'-5" heavy-rust nut tight washer round credit full`],
    [`1/2" at 6'-5" sound nut none washer round credit half`],
    [`1/2" at 6'-5" loose nut tight washer round credit full`],
    // More than a quarter of the section lost: common practice, no source.
    [`1/2" at 6'-5" light-rust loss over 25 % nut tight washer round credit full`],
  ])('%s is counted for more than it holds, and not told twice', (words) => {
    expect(graveIn(old(words, passed))).toEqual([overcounted]);
    expect(graveIn(mended(old(words, passed), overcounted, /^Give X1 no credit$/))).toEqual([]);
  });

  it('a quarter lost is not more than a quarter', () => {
    expect(
      findingsOf(old(`1/2" at 6'-5" light-rust loss 25 % nut tight washer round credit full`, passed), overcounted),
    ).toEqual([]);
  });

  it.each([
    [`1/2" at 6'-5" sound nut tight washer square credit full`, passed, undefined],
    [`1/2" at 6'-5" sound nut tight washer square credit full`, [], 'passed test'],
    [`unknown at 6'-5" sound nut tight washer square credit full`, passed, 'size'],
    [`1/2" at 6'-5" nut tight washer square credit half`, passed, 'state of rust'],
    [`1/2" at 6'-5" sound nut unknown washer square credit half`, passed, 'nut'],
    [`1/2" at 6'-5" sound nut tight credit half`, passed, 'washer'],
    [`1/2" at 6'-5" sound credit none`, [], undefined],
  ])('%s lacks proof: %s, %s', (words, after, missing) => {
    const found = findingsOf(old(words, after), unproven);
    expect(found).toHaveLength(missing === undefined ? 0 : 1);
    expect(found[0]?.severity ?? 'warning').toBe('warning');
    expect(found[0]?.message ?? '').toContain(missing ?? '');
  });

  it('a wall that is left alone because its old anchors hold wants proof of them too', () => {
    const left = wallText({
      found: [`anchor X1 1/2" at 6'-5" sound nut tight washer square credit full`],
      work: ['no work because "the old bolts hold it"'],
    });
    expect(graveIn(left)).toEqual([unproven]);
  });

  it('a test that failed later is no proof', () => {
    const failed = [...passed, '', 'record 2026-05-05 by "crew lead"', '  tested X1 pull 1200 lb failed slipped'];
    expect(graveIn(old(`1/2" at 6'-5" sound nut tight washer square credit full`, failed))).toContain(overcounted);
  });
});
