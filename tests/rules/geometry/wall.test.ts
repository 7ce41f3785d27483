import { describe, expect, it } from 'vitest';
import { expectDrawnFindings } from '../../support/fixture.ts';
import { findingsOf, graveIn, inMetric, lackingOf, mended, soundRow, wallText } from '../support.ts';

describe('geometry/sill-gap-or-overlap', () => {
  const rule = 'geometry/sill-gap-or-overlap';
  const boards = (first: string, second: string, found: readonly string[] = []) =>
    wallText({ sills: [`F1 ${first}`, `F2 ${second}`], found, work: ['no work because "survey only"'] });

  // 1/2 in: common practice, no source; the tape may be off by 1/16 in.
  it.each([
    [`10'-0 1/2"`, 0],
    [`10'-0 9/16"`, 0],
    [`10'-0 5/8"`, 1],
    [`11'-0"`, 1],
  ])('a board to 10 ft and the next from %s: %i', (from, count) => {
    const text = boards(`to 10'-0"`, `${from} to end`);
    expect(findingsOf(text, rule)).toHaveLength(count);
    expect(findingsOf(inMetric(text), rule)).toHaveLength(count);
  });

  it.each([[`chimney K1 10'-0" to 11'-0"`], [`door D1 9'-11" to 11'-1"`]])('%s explains a gap', (thing) => {
    expect(findingsOf(boards(`to 10'-0"`, `11'-0" to end`, [thing]), rule)).toEqual([]);
  });

  it('a gap that the joint says itself counts too', () => {
    const butt = (gap: string) => boards(`to 10'-0"`, 'to end').replace(/(sill F1 to 10'-0" .*)/, `$1 butt gap ${gap}`);
    expect(findingsOf(butt('1/2"'), rule)).toEqual([]);
    expect(findingsOf(butt('3/4"'), rule)).toHaveLength(1);
  });

  it('an overlap wants its lap written', () => {
    const over = boards(`to 10'-0"`, `9'-8" to end`);
    expect(graveIn(over)).toEqual([rule]);
    expect(graveIn(mended(over, rule, /^Write the lap: half-lap 4"/))).toEqual([]);
    expect(graveIn(mended(over, rule, /^End F1 where F2 begins/))).toEqual([]);
    for (const fix of findingsOf(over, rule).flatMap((each) => each.fixes)) expect(fix.trust).toBe('by-hand');
  });
});

describe('geometry/step-without-break', () => {
  const rule = 'geometry/step-without-break';
  const stepped = (drop: string, sills: readonly string[] = ['F1']) =>
    wallText({
      foundation: [`to 10'-0" thick 8" showing 24" top 0"`, `to end thick 8" showing 18" top ${drop}`],
      sills,
      work: ['no work because "survey only"'],
    });

  // 1/2 in: common practice, no source. A height, so no tolerance.
  it.each([
    ['-1/2"', 0],
    ['-9/16"', 1],
    ['8"', 1],
    ['-0"', 0],
  ])('a jump of %s under one board: %i', (drop, count) => {
    expect(findingsOf(stepped(drop), rule)).toHaveLength(count);
    expect(findingsOf(inMetric(stepped(drop)), rule)).toHaveLength(count);
  });

  it('is silent where the board ends at the step, and asks for an unknown level', () => {
    expect(findingsOf(stepped('-8"', [`F1 to 10'-0"`, 'F2 to end']), rule)).toEqual([]);
    expect(lackingOf(stepped('unknown'), rule)).toEqual(['top of the concrete of wall F']);
  });

  it('is mended by a break at the step', () => {
    expect(mended(stepped('-8"'), rule, /^End sill F1 at 10'-0"/)).toContain(`break at 10'-0" step`);
  });
});

describe('geometry/level-chain-broken', () => {
  const rule = 'geometry/level-chain-broken';
  const levels = (say: { height?: string; studs?: string; top?: string; floor?: string; sill?: string }) =>
    wallText({
      house: [`floor-underside ${say.floor ?? '2"'}`],
      foundation: [`thick 8" showing 18" top ${say.top ?? `-2'-4"`}`],
      found: [
        ...(say.height || say.studs
          ? [
              `cripple ${say.height ? `height ${say.height}` : ''}${say.studs ? ` stud-height ${say.studs}` : ''} studs size 1-1/2" x 3-1/2" spaced 16" double plate trimmers none`.replace(
                'cripple  ',
                'cripple ',
              ),
            ]
          : []),
      ],
      work: ['no work because "survey only"'],
    });

  // 1/2 in: common practice, no source. From -28 in up to +2 in it is 30 in.
  it.each([
    [`2'-6"`, 0],
    [`2'-6 1/2"`, 0],
    [`2'-5 1/2"`, 0],
    [`2'-6 9/16"`, 1],
    [`1'-10"`, 1],
  ])('an overall height of %s: %i', (height, count) => {
    expect(findingsOf(levels({ height }), rule)).toHaveLength(count);
    expect(findingsOf(inMetric(levels({ height })), rule)).toHaveLength(count);
  });

  it('adds sill, studs and plates where only the studs were measured', () => {
    // 1-1/2 sill + 25-1/2 studs + 2 x 1-1/2 plates = 30 in.
    expect(findingsOf(levels({ studs: '25-1/2"' }), rule)).toEqual([]);
    expect(findingsOf(levels({ studs: '24-1/2"' }), rule)).toHaveLength(1);
  });

  it('looks at the boards on both sides of a door, though no wood lies in the middle', () => {
    const withDoor = (top: string) =>
      wallText({
        house: ['floor-underside 1-1/2"'],
        foundation: [`thick 8" showing 18" top ${top}`],
        sills: [`F1 to 8'-0"`, `F2 12'-0" to end`],
        found: [`door D1 8'-0" to 12'-0"`],
        work: ['no work because "survey only"'],
      });
    expect(findingsOf(withDoor('0"'), rule)).toEqual([]);
    expect(findingsOf(withDoor('6"'), rule)).toHaveLength(1);
  });

  it('without a cripple wall the joists lie on the sill', () => {
    expect(findingsOf(levels({ top: '1/2"' }), rule)).toEqual([]);
    expect(findingsOf(levels({ top: '-3"' }), rule)).toHaveLength(1);
  });

  it('puts the heights on the list of what to measure again, and offers a value only as an assumption', () => {
    const text = levels({ height: `1'-10"` });
    expect(lackingOf(text, rule)).toEqual(['the heights of wall F at 0\'-0", measured again']);
    expect(mended(text, rule, /^Take height as 2'-6"/)).toContain(`height assume 2'-6"`);
    for (const fix of findingsOf(text, rule).flatMap((each) => each.fixes)) expect(fix.trust).toBe('by-hand');
  });

  it('has nothing to compare where no floor level was read, and asks for one that is unknown', () => {
    const silent = levels({ height: `1'-10"` }).replace(/ {2}floor-underside.*\n/, '');
    expect(findingsOf(silent, rule)).toEqual([]);
    expect(lackingOf(levels({ height: `2'-6"`, floor: 'unknown' }), rule)).toEqual(['floor-underside of the house']);
    expect(lackingOf(levels({ height: 'unknown' }), rule)).toEqual(['height of the cripple wall on wall F']);
  });
});

describe('geometry/joist-count-odd', () => {
  const rule = 'geometry/joist-count-odd';
  const joists = (words: string, more: readonly string[] = []) =>
    wallText({
      found: [`joists into size 2x10 spaced 16" ${words}`, `rim nails 8d spaced 6" verified`, ...more],
      work: ['no work because "survey only"'],
    });

  // A bay of 16 in; the wall is 20 ft long.
  it.each([
    [`first 0" last 18'-8"`, 0],
    [`first 0" last 17'-4"`, 1],
    [`first 16" last 18'-8"`, 0],
    [`first 17" last 19'-1"`, 1],
    [`first 0"`, 0],
  ])('joists %s: %i', (words, count) => {
    expect(findingsOf(joists(words), rule)).toHaveLength(count);
    expect(findingsOf(inMetric(joists(words)), rule)).toHaveLength(count);
  });

  it('counts joists that stand off the row', () => {
    expect(findingsOf(joists(`first 0" last 17'-4"`, [`joist at 19'-11" end-joist`]), rule)).toEqual([]);
  });

  it('asks for the first joist where nobody measured it, and is mended by going on', () => {
    expect(findingsOf(joists('first unknown last 8\'-0"'), rule)).toEqual([]);
    expect(lackingOf(joists('first unknown last 8\'-0"'), rule)).toEqual(['first joist of wall F']);
    expect(lackingOf(joists('last 8\'-0"'), rule)).toEqual([]);
    expect(mended(joists(`first 0" last 8'-0"`), rule, /go on to/)).toMatch(/last (20'|20'-0")/);
  });
});

describe('geometry/spans-do-not-add', () => {
  const rule = 'geometry/spans-do-not-add';
  const girder = (spans: string) =>
    wallText({
      anchors: soundRow,
      after: [
        `girder GD size 6x8 from (0", 0") to (18'-0", 0")`,
        `  spans ${spans}`,
        `  post P1 6x6 at 6'-0" cap side-plate`,
        `  post P2 6x6 at 12'-0" cap side-plate`,
      ],
    });

  // 1 in: common practice, no source; stations, so the tape may be off by 1/16 in.
  it.each([
    [`6'-0", 6'-0", 6'-0"`, []],
    [`6'-1", 5'-11", 6'-0"`, []],
    [`6'-1 1/16", 5'-11", 6'-0"`, []],
    [`6'-1 1/8", 5'-11", 6'-0"`, ['P1']],
    [`6'-0", 6'-0", 7'-0"`, [undefined]],
  ])('spans of %s', (spans, pieces) => {
    expect(findingsOf(girder(spans), rule).map((each) => each.piece)).toEqual(pieces);
    expect(findingsOf(inMetric(girder(spans)), rule)).toHaveLength(pieces.length);
  });

  it('is a finding on the girder, mended from the stations; an unknown span is asked for', () => {
    const text = girder(`6'-0", 5'-0", 6'-0"`);
    expect(findingsOf(text, rule)[0]).toMatchObject({ wall: 'GD', severity: 'warning' });
    expect(mended(text, rule, /^Take the spans/)).toContain(`spans 6'-0", 6'-0", 6'-0"`);
    expect(lackingOf(girder(`6'-0", unknown, 6'-0"`), rule)).toEqual(['a span of girder GD']);
  });
});

describe('geometry/must-have-missing', () => {
  const rule = 'geometry/must-have-missing';
  const board = (sill: string, foundation = 'thick 8" showing 18" top 0"', anchors = soundRow) =>
    wallText({ anchors, foundation: [foundation] }).replace(/sill F1 .*/, `sill F1 ${sill}`);

  it.each([
    ['size 2x6 set-back 3/4" headroom 25"', []],
    ['size 2x6 set-back unknown headroom unknown', []],
    ['size 2x6 set-back 3/4"', ['headroom']],
    ['size 2x6', ['set-back', 'headroom']],
    ['set-back 3/4" headroom 25"', ['size']],
  ])('a board with new work that says %s', (sill, missing) => {
    const found = findingsOf(board(sill), rule);
    expect(found).toHaveLength(missing.length === 0 ? 0 : 1);
    for (const word of missing) expect(found[0]?.message).toContain(word);
  });

  it('the concrete below belongs to it', () => {
    const text = board('size 2x6 set-back 3/4" headroom 25"', 'thick 8" top 0"');
    expect(findingsOf(text, rule)[0]?.message).toContain('concrete showing');
    expect(mended(text, rule, /as unknown/)).toContain('showing unknown');
  });

  it('asks nothing of a board without new work', () => {
    expect(findingsOf(board('size 2x6', undefined, []), rule)).toEqual([]);
  });

  it('is mended by an honest unknown, which goes on the survey list', () => {
    const after = mended(board('size 2x6'), rule, /as unknown/);
    expect(after).toContain('sill F1 size 2x6 set-back unknown headroom unknown');
  });
});

describe('geometry/stations-from-wrong-end', () => {
  const rule = 'geometry/stations-from-wrong-end';
  const windows = [`window W1 1'-0" to 4'-0" reaches-sill`, `window W2 5'-0" to 8'-0" reaches-sill`];
  const old = (stations: string) =>
    wallText({
      found: [...windows, `anchor 1/2" at ${stations} cast-in sound`],
      work: ['no work because "survey only"'],
    });

  // Three: common practice, no source.
  it.each([
    [`2'-0", 3'-0", 6'-0", 7'-0"`, 1],
    [`2'-0", 3'-0", 6'-0"`, 1],
    [`2'-0", 3'-0", 12'-0"`, 0],
    [`12'-0", 13'-0", 15'-0"`, 0],
    // Either way three of six do not fit: nobody can tell.
    [`2'-0", 3'-0", 6'-0", 14'-0", 17'-0", 18'-0"`, 0],
  ])('old anchors at %s: %i', (stations, count) => {
    expect(findingsOf(old(stations), rule)).toHaveLength(count);
    expect(findingsOf(inMetric(old(stations)), rule)).toHaveLength(count);
  });

  it('is mended by reading the list from the other end, by hand', () => {
    const text = old(`2'-0", 3'-0", 6'-0"`);
    expect(mended(text, rule, /^Read the old anchors of wall F/)).toContain(`at 18'-0", 17'-0", 14'-0"`);
    expect(findingsOf(text, rule)[0]?.fixes[0]?.trust).toBe('by-hand');
  });

  it('does the same for new anchors, as long as none is in the wall', () => {
    const mirrored = wallText({ found: windows, anchors: [`1'-6"`, `2'-6"`, `3'-6"`, `5'-6"`, `6'-6"`] });
    expect(findingsOf(mirrored, rule).map((each) => each.layer)).toEqual(['design']);
    const drilled = `${mirrored}record 2026-05-04 by "crew lead"\n  installed F-1 as planned\n`;
    expect(findingsOf(drilled, rule).flatMap((each) => each.fixes)).toEqual([]);
  });

  it('one thing given twice is told; a pair of vents is a habit of builders', () => {
    const twice = (a: string, b: string) => wallText({ found: [a, b], work: ['no work because "survey only"'] });
    expect(
      findingsOf(twice(`electrical-panel E1 4'-0" to 5'-0"`, `electrical-panel E2 15'-0" to 16'-0"`), rule),
    ).toHaveLength(1);
    expect(
      findingsOf(twice(`electrical-panel E1 4'-0" to 5'-0"`, `electrical-panel E2 13'-0" to 14'-0"`), rule),
    ).toEqual([]);
    expect(findingsOf(twice(`vent V1 4'-0" to 5'-4"`, `vent V2 14'-8" to 16'-0"`), rule)).toEqual([]);
  });
});

describe('boards as drawn', () => {
  it('the finding stands where the second board says where it begins', () => {
    expectDrawnFindings(`
layout "Drawn"
  rules existing-building

house
  storeys 1
  dwellings 1

wall F length 20'-0"
  foundation thick 8" showing 18" top 0" sound
  sill F1 to 10'-0" size 2x6 set-back 3/4" headroom 25-1/8"
  sill F2 10'-3" to end size 2x6 set-back 3/4" headroom 25-1/8"
//        ^^^^^^^^^^^^^ error geometry/sill-gap-or-overlap

work on F
  no work because "survey only"
`);
  });
});
