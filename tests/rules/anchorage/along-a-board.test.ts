import { describe, expect, it } from 'vitest';
import { expectDrawnFindings } from '../../support/fixture.ts';
import { findingsOf, graveIn, inMetric, lackingOf, mended, soundRow, wallText } from '../support.ts';

describe('anchorage/gap-too-tight', () => {
  const rule = 'anchorage/gap-too-tight';
  const withOneMoreAt = (station: string) => wallText({ anchors: [...soundRow, station] });

  // 12 in: A304.3.2 of the existing-building appendix, exception, recalled. The tape may be off by 1/16 in.
  it.each([
    [`5'-7"`, 0],
    [`5'-6 15/16"`, 0],
    [`5'-6 7/8"`, 1],
    [`5'-0"`, 1],
  ])('a second anchor at %s, one stands at 4\'-7": %i', (station, count) => {
    expect(findingsOf(withOneMoreAt(station), rule)).toHaveLength(count);
    expect(findingsOf(inMetric(withOneMoreAt(station)), rule)).toHaveLength(count);
  });

  it('says how near, which limit, and stands at the left one as far as the right one', () => {
    const [finding] = findingsOf(withOneMoreAt(`5'-0"`), rule);
    expect(finding).toMatchObject({ severity: 'warning', piece: 'F1', thing: 'F/anchor:F-2' });
    expect(finding?.message).toContain('Only 5" between F-2');
    expect(finding?.message).toContain('recalled; confirm');
    expect(finding?.citation?.trust).toBe('recalled');
  });

  it('is mended by sliding, or by leaving one out, but never one that is in the wall', () => {
    expect(graveIn(mended(withOneMoreAt(`5'-0"`), rule, /^Leave out F-7$/))).not.toContain(rule);
    mended(withOneMoreAt(`5'-0"`), rule, /^Slide F-7/);
    const drilled = `${withOneMoreAt(`5'-0"`)}record 2026-05-04 by "crew lead"\n  installed F-7 as planned\n`;
    const titles = findingsOf(drilled, rule).flatMap((each) => each.fixes.map((fix) => fix.title));
    expect(titles.filter((title) => title.includes('F-7'))).toEqual([]);
    expect(titles.length).toBeGreaterThan(0);
  });

  it('counts an anchor in a lap for the other board too, which it goes through', () => {
    const lapped = (second: string) =>
      wallText({
        sills: [`F1 to 10'-6" half-lap 12"`, `F2 9'-6" to end`],
        anchors: [`1'-0"`, `4'-0"`, `7'-0"`, `9'-8"`, second, `13'-4"`, `16'-6"`, `19'-0"`],
      });
    expect(findingsOf(lapped(`10'-8"`), rule)).toEqual([]);
    expect(findingsOf(lapped(`10'-4"`), rule).map((each) => [each.thing, each.piece])).toEqual([
      ['F/anchor:F-4', 'F1'],
    ]);
  });
});

describe('anchorage/line-count-short', () => {
  const rule = 'anchorage/line-count-short';
  const past = (...anchors: readonly string[]) =>
    wallText({ length: `14'-2"`, found: [`window W1 0'-6" to 2'-8" reaches-sill`], anchors });

  it('fires where sliding past a window saved an anchor that a clear board would have', () => {
    const text = past(`3'-1"`, `6'-8"`, `10'-0"`, `13'-4"`);
    const [finding] = findingsOf(text, rule);
    expect(finding?.message).toContain('has 4 anchors');
    expect(finding?.message).toContain('takes 5');
    // A304.3.2 of the existing-building appendix (from memory): the count stays.
    expect(finding?.citation?.text).toBe('A304.3.2');
    expect(findingsOf(mended(text, rule, /^Add F-5/), rule)).toEqual([]);
  });

  it('is silent with the full number, and on a board without anything in the way', () => {
    expect(findingsOf(past(`3'-1"`, `5'-8"`, `8'-3"`, `10'-10"`, `13'-4"`), rule)).toEqual([]);
    expect(graveIn(wallText({ anchors: soundRow }))).toEqual([]);
  });

  it('gives way to a gap, a bare board or a short count, which say more', () => {
    expect(graveIn(past(`3'-1"`, `6'-8"`, `13'-4"`))).toEqual(['anchorage/gap-too-wide']);
  });

  it('gives way to a bare end, where nothing is in the way at all', () => {
    const dropped = wallText({ anchors: soundRow.slice(0, -1) });
    expect(graveIn(dropped)).toEqual(['anchorage/end-too-far']);
    expect(graveIn(past(`3'-1"`, `6'-8"`, `10'-0"`, `12'-4"`))).toEqual(['anchorage/end-too-far']);
  });

  it('adds up the boards of all walls of a line', () => {
    const long = (anchors: readonly string[]) =>
      [
        wallText({
          length: `14'-2"`,
          found: [`window W1 0'-6" to 2'-8" reaches-sill`],
          anchors: [`3'-1"`, `6'-8"`, `10'-0"`, `13'-4"`],
        }),
        'line west walls F, G',
        '',
        `wall G length 14'-2"`,
        '  foundation sound thick 8" showing 18" top 0"',
        '  sill G1 size 2x6 set-back 3/4" headroom 25-1/8"',
        '',
        'work on G',
        ...anchors.map((station, index) => `  anchor G-${index + 1} stepped-plate-s at ${station}`),
        '',
      ].join('\n');
    const five = [`1'-0"`, `4'-0"`, `7'-1"`, `10'-2"`, `13'-2"`];
    expect(findingsOf(long(five), rule).map((each) => each.wall)).toEqual(['F']);
    expect(findingsOf(long([...five, `5'-6"`]), rule)).toEqual([]);
  });
});

describe('anchorage/straddles-break', () => {
  const rule = 'anchorage/straddles-break';
  const boards = [`F1 to 10'-0"`, `F2 to end`];
  const row = [`1'-0"`, `4'-0"`, `7'-0"`, `9'-0"`, `11'-0"`, `13'-8"`, `16'-4"`, `19'-0"`];
  const withPlateAt = (station: string) =>
    wallText({ sills: boards, anchors: [...row.slice(0, 3), station, ...row.slice(4)] });

  // The demo plate is 8 in wide: it lies on one board from 4 in of its end.
  it.each([
    [`9'-8"`, []],
    [`9'-8 1/16"`, [rule]],
    [`9'-11"`, [rule]],
  ])('a plate at %s, the joint at 10 ft', (station, expected) => {
    expect(graveIn(withPlateAt(station)).filter((each) => each === rule)).toEqual(expected);
    expect(findingsOf(inMetric(withPlateAt(station)), rule)).toHaveLength(expected.length);
  });

  it('is one mistake: the end distance says nothing of a plate over the joint', () => {
    expect(graveIn(withPlateAt(`9'-10"`))).toEqual([rule]);
    expect(graveIn(withPlateAt(`9'-6"`))).toEqual(['anchorage/end-too-near']);
  });

  it('at a corner of the house the end distance speaks', () => {
    const atCorner = wallText({ anchors: [`0'-2"`, ...soundRow.slice(1)] });
    expect(findingsOf(atCorner, rule)).toEqual([]);
    expect(graveIn(atCorner)).toContain('anchorage/end-too-near');
  });

  it('is mended by moving all of it onto one board', () => {
    expect(graveIn(mended(withPlateAt(`9'-10"`), rule, /^Slide F-4/))).toEqual([]);
  });
});

describe('anchorage/lap-end-misread', () => {
  const rule = 'anchorage/lap-end-misread';
  // F1 ends at 10'-2", the middle of the lap is at 10'-0", F2 begins at 9'-10".
  const lapped = (last: string) =>
    wallText({
      sills: [`F1 to 10'-2" half-lap 4"`, `F2 9'-10" to end`],
      anchors: [`1'-0"`, `4'-0"`, `6'-9"`, last, `10'-9"`, `13'-6"`, `16'-3"`, `19'-0"`],
    });

  it('speaks where the middle of the lap was taken for the end', () => {
    expect(graveIn(lapped(`9'-1"`))).toEqual([rule]);
    const [finding] = findingsOf(lapped(`9'-1"`), rule);
    expect(finding?.message).toContain('11" from the middle of the lap, but 1\'-1" from the true right end of sill F1');
    expect(findingsOf(inMetric(lapped(`9'-1"`)), rule)).toHaveLength(1);
  });

  it.each([
    // 12 in from the true end, and a sixteenth more, which the tape may be off by.
    [`9'-2"`, []],
    [`9'-1 15/16"`, []],
    [`9'-1 7/8"`, [rule]],
    // From the middle of the lap it would be too far as well: then it is just too far.
    [`8'-11"`, ['anchorage/end-too-far']],
  ])('the last anchor of F1 at %s', (station, expected) => {
    expect(graveIn(lapped(station))).toEqual(expected);
  });

  it('is mended from the true end', () => {
    expect(graveIn(mended(lapped(`9'-1"`), rule, /^Slide F-4/))).toEqual([]);
  });
});

describe('anchorage/bay-centre-off', () => {
  const rule = 'anchorage/bay-centre-off';
  const cripple = `cripple height 30" stud-height 25-1/8" studs size 2x4 spaced 24" first 0" double plate trimmers none`;
  const bolts = (second: string, found = [cripple]) =>
    wallText({
      found,
      anchors: [`1'-0"`, second, `9'-0"`, `13'-0"`, `17'-0"`, `19'-0"`].map((each) => `bolt-half ${each}`),
    });

  // 3 in: common practice, no source. The bay runs from 4 ft to 6 ft.
  it.each([
    [`5'-0"`, 0],
    [`5'-3"`, 0],
    [`5'-3 1/16"`, 0],
    [`5'-3 1/8"`, 1],
    [`4'-8 7/8"`, 1],
  ])('a bolt at %s in a bay with its middle at 5 ft: %i', (station, count) => {
    expect(findingsOf(bolts(station), rule)).toHaveLength(count);
  });

  it('is for information, and slides to the middle', () => {
    const [finding] = findingsOf(bolts(`4'-6"`), rule);
    expect(finding?.severity).toBe('info');
    expect(finding?.fixes.map((fix) => fix.title)).toEqual([`Slide F-2 from 4'-6" to 5'-0"`]);
  });

  it('says nothing where there are no studs, of side plates, and of an end window that has no bay centre in it', () => {
    expect(findingsOf(bolts(`4'-6"`, []), rule)).toEqual([]);
    expect(findingsOf(wallText({ found: [cripple], anchors: soundRow }), rule)).toEqual([]);
    // The end window is hard: the middle of this bay, 18 in from the end, is out of its reach.
    const late = cripple.replace('first 0"', 'first 6"');
    const text = wallText({
      found: [late],
      anchors: [`0'-10"`, `4'-6"`, `8'-6"`, `12'-6"`, `16'-6"`, `19'-0"`].map((each) => `bolt-half ${each}`),
    });
    expect(findingsOf(text, rule).map((each) => each.thing)).not.toContain('F/anchor:F-1');
  });
});

describe('anchorage/few-anchors-in-panel', () => {
  const rule = 'anchorage/few-anchors-in-panel';
  const found = [
    `cripple height 30" stud-height 25-1/8" studs size 2x4 spaced 16" first 0" double plate trimmers none`,
  ];
  const panel = (stretch: string) =>
    wallText({
      found,
      anchors: soundRow,
      work: [`panel F-P1 ${stretch} plywood 15/32" nails 8d edge 4" field 12" nailers none vent-holes none`],
    });

  // Two: common practice, no source. Anchors stand at 4'-7", 8'-2", 11'-9".
  it.each([
    [`4'-7" to 8'-2"`, 0],
    [`4'-7 1/16" to 8'-1 15/16"`, 0],
    [`4'-7 1/8" to 8'-2"`, 1],
    [`4'-8" to 8'-0"`, 1],
  ])('a panel %s: %i', (stretch, count) => {
    expect(findingsOf(panel(stretch), rule)).toHaveLength(count);
    expect(findingsOf(inMetric(panel(stretch)), rule)).toHaveLength(count);
  });

  it('is mended below the panel', () => {
    expect(findingsOf(mended(panel(`4'-8" to 8'-8"`), rule, /^Add F-7 at/), rule)).toEqual([]);
  });
});

describe('anchorage/kinds-mixed-in-line', () => {
  it('is for information, once for a line, and says whether boards keep to one kind', () => {
    const rule = 'anchorage/kinds-mixed-in-line';
    const boards = [`F1 to 10'-0"`, 'F2 to end'];
    const plates = [`1'-0"`, `4'-0"`, `7'-0"`, `9'-2"`];
    const bolts = [`11'-0"`, `15'-0"`, `19'-0"`].map((each) => `bolt-half ${each}`);
    const [finding] = findingsOf(wallText({ sills: boards, anchors: [...plates, ...bolts] }), rule);
    expect(finding?.severity).toBe('info');
    expect(finding?.message).toContain('3 bolts and 4 side plates, one kind on each board');
    expect(findingsOf(wallText({ anchors: soundRow }), rule)).toEqual([]);
  });
});

describe('a row of plates as drawn', () => {
  it('shows where the two that stand too close are', () => {
    expectDrawnFindings(`
layout "Drawn"
  rules existing-building

house
  storeys 2
  dwellings 1

wall F length 20'-0"
  foundation thick 8" showing 18" top 0" sound
  sill F1 size 2x6 set-back 3/4" headroom 25-1/8"

work on F
  anchor F-1 stepped-plate-s at 1'-0"
  anchor F-2 stepped-plate-s at 4'-7"
  anchor F-3 stepped-plate-s at 5'-4"
//                              ^^^^^ warning anchorage/gap-too-tight
  anchor F-4 stepped-plate-s at 8'-2"
  anchor F-5 stepped-plate-s at 11'-9"
  anchor F-6 stepped-plate-s at 15'-4"
  anchor F-7 stepped-plate-s at 19'-0"
`);
  });

  it('asks for what it lacks', () => {
    const text = wallText({
      storeys: 'unknown',
      anchors: [`3'-1"`, `6'-8"`, `10'-0"`],
      found: [`window W1 0'-6" to 2'-8" reaches-sill`],
    });
    expect(lackingOf(text, 'anchorage/gap-too-wide').length).toBeGreaterThan(0);
    expect(findingsOf(text, 'anchorage/line-count-short')).toEqual([]);
  });
});
