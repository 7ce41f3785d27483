import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { findingsOf, idsOf, lackingOf, mended, titlesOf, wallText } from './wall-text.ts';

// Room for tools and distances to services: common practice, no source. The numbers are those of shop-limits.

const plate = (at: string, more = ''): string => `anchor F-1 stepped-plate-s at ${at}${more}`;
const bolt = (at: string, more = ''): string => `anchor F-1 bolt-half at ${at}${more}`;

describe('clearance/head-room-short', () => {
  const rule = 'clearance/head-room-short';
  const under = (headroom: string, work = bolt(`5'-0"`)): string =>
    wallText({ work: [work], sill: `size 2x6 set-back 3/4" headroom ${headroom}` });

  it('wants 24 in for a straight drill, and no tolerance of the tape helps', () => {
    expect(idsOf(under('24-1/16"'), rule)).toEqual([]);
    expect(idsOf(under('24"'), rule)).toEqual([]);
    expect(idsOf(under('23-15/16"'), rule)).toEqual([rule]);
  });

  it('wants 12 in for a right-angle drill', () => {
    const right = bolt(`5'-0"`, ' right-angle-drill');
    expect(idsOf(under('12"', right), rule)).toEqual([]);
    expect(idsOf(under('11-15/16"', right), rule)).toEqual([rule]);
  });

  it('says what there is, what is wanted, what says so and what to do', () => {
    const [finding] = findingsOf(under('13"'), rule);
    expect(finding?.message).toBe(
      `F-1 (bolt-half) at 5'-0" has 1'-1" of free height above sill F1; a straight drill wants 2'-0" (common practice, no source). Use a right-angle drill, or a plate from the side.`,
    );
    expect(finding?.citation?.trust).toBe('common-practice');
  });

  it('offers the right-angle drill where that is enough, as a word on the line, and a plate', () => {
    expect(mended(under('13"'), rule, /right-angle drill/)).toContain(
      `anchor F-1 bolt-half at 5'-0" right-angle-drill\n`,
    );
    expect(mended(under('11-1/8"'), rule, /^Use stepped-plate-s/)).toContain(`anchor F-1 stepped-plate-s at 5'-0"`);
    expect(titlesOf(under('11-1/8"'), rule)).not.toContainEqual(expect.stringMatching(/right-angle drill/));
  });

  it('does not look at what is drilled already, and offers nothing for it', () => {
    const built = `${under('11-1/8"')}\nrecord 2026-06-10\n  installed F-1 as planned\n`;
    expect(idsOf(built, rule)).toEqual([]);
  });

  it('asks for a headroom that nobody measured', () => {
    expect(lackingOf(under('unknown'), rule)).toEqual(['headroom of sill F1']);
    expect(idsOf(under('unknown'), rule)).toEqual([]);
  });
});

describe('clearance/side-room-short', () => {
  const rule = 'clearance/side-room-short';
  const standing = (off: string, work = plate(`5'-0"`)): string =>
    wallText({ work: [work], found: [`water-heater WH at 5'-0" wide 20" off ${off} deep 20" movable`] });

  it('wants 20 in in front of a plate', () => {
    expect(idsOf(standing('20"'))).toEqual([]);
    expect(idsOf(standing('19-15/16"'))).toEqual([rule]);
  });

  it('begins where the plate leaves the stretch of the thing', () => {
    expect(idsOf(standing('6"', plate(`3'-10"`)))).toEqual([]);
    expect(idsOf(standing('6"', plate(`3'-10 1/16"`)))).toEqual([rule]);
  });

  it('reads the room in front where somebody wrote it down', () => {
    const room = (words: string): string =>
      wallText({ work: [plate(`5'-0"`)], found: [`side-room ${words} from 4'-0" to 6'-0"`] });
    expect(idsOf(room('20"'))).toEqual([]);
    expect(findingsOf(room('19-15/16"'), rule)[0]?.message).toMatch(
      /1'-7 15\/16" of room in front 4'-0" to 6'-0", 1'-8" wanted \(common practice, no source\)/,
    );
    expect(lackingOf(room('unknown'), rule)).toEqual([`room in front of wall F 4'-0" to 6'-0"`]);
  });

  it('is not said of a bolt, nor beside a graver mistake at the same place', () => {
    expect(idsOf(standing('12"', bolt(`5'-0"`)))).toEqual([]);
    expect(idsOf(standing('0"'))).toEqual(['clearance/plate-hits-thing']);
  });

  it('slides past the thing, bolts from above, or has it moved', () => {
    const text = standing('6"');
    expect(findingsOf(text, rule)[0]?.message).toMatch(
      /6" off the wall \(1'-8" wanted to drill\) \(common practice, no source\)/,
    );
    expect(mended(text, rule, /relocate WH/)).toMatch(/\n {2}relocate +WH\n/);
    expect(mended(text, rule, /^Use bolt-half/)).toContain('anchor F-1 bolt-half at');
  });

  it('has nothing moved that stands fast', () => {
    expect(titlesOf(standing('6"').replace('movable', 'fixed'), rule)).not.toContainEqual(
      expect.stringMatching(/relocate/),
    );
  });
});

describe('clearance/bolt-under-stud', () => {
  const rule = 'clearance/bolt-under-stud';
  // Full-size studs: 13/16 in and half a 3 in washer are 2-5/16 in.
  const studs = 'cripple height 30" stud-height 25-1/8" studs size 1-5/8" x 3-5/8" spaced 16" first 0" ledge 2"';
  const beside = (at: string, found = studs, units?: 'metric'): string =>
    wallText({ work: [bolt(at)], found: [found], ...(units ? { units } : {}) });

  it('keeps half the stud and half the washer from the middle of a stud, within the tolerance of the tape', () => {
    expect(idsOf(beside(`4'-2 5/16"`), rule)).toEqual([]);
    expect(idsOf(beside(`4'-2 1/4"`), rule)).toEqual([]);
    expect(idsOf(beside(`4'-2 3/16"`), rule)).toEqual([rule]);
    expect(idsOf(beside(`3'-9 13/16"`), rule)).toEqual([rule]);
  });

  it('says the same of a metric file, in millimetres', () => {
    expect(findingsOf(beside(`4'-1"`), rule)[0]?.message).toMatch(
      /is 1" from the middle of the stud at 4'-0"; half the stud and half its washer are 2-5\/16"/,
    );
    expect(findingsOf(beside(`4'-1"`, studs, 'metric'), rule)[0]?.message).toMatch(
      /is 25 mm from the middle of the stud at 1219 mm; half the stud and half its washer are 59 mm/,
    );
  });

  it('slides into the bay', () => {
    expect(idsOf(mended(beside(`4'-0"`), rule, /^Slide F-1/), rule)).toEqual([]);
  });

  it('asks how the studs stand where nobody wrote it down', () => {
    const bare = 'cripple height 30" stud-height 25-1/8" ledge 2"';
    expect(lackingOf(beside(`4'-0"`, bare), rule).length).toBeGreaterThan(0);
    expect(idsOf(beside(`4'-0"`, bare), rule)).toEqual([]);
  });
});

describe('clearance/gas-near-drill', () => {
  const rule = 'clearance/gas-near-drill';
  const riser = `gas-pipe GR "riser" at 6'-0" wide 2" riser live`;
  const near = (at: string, found = riser, more = ''): string => wallText({ work: [plate(at)], found: [found] }) + more;

  it('keeps every hole 6 in from the pipe, exactly', () => {
    // Holes 2 in to either side of the middle; the pipe from 5'-11" on.
    expect(idsOf(near(`5'-3"`))).toEqual([]);
    expect(idsOf(near(`5'-3 1/16"`))).toEqual([rule]);
    expect(idsOf(near(`5'-2 15/16"`))).toEqual([]);
    expect(idsOf(near(`6'-9"`))).toEqual([]);
    expect(idsOf(near(`6'-8 15/16"`))).toEqual([rule]);
  });

  it('agrees with a ruler, wherever the pipe and the plate stand', () => {
    const sixteenths = (count: number): string => `${count / 16}"`;
    fc.assert(
      fc.property(
        fc.integer({ min: 40 * 16, max: 80 * 16 }),
        fc.integer({ min: 8, max: 64 }),
        fc.integer({ min: 30 * 16, max: 90 * 16 }),
        (left, wide, middle) => {
          const found = `gas-pipe GR ${sixteenths(left)} to ${sixteenths(left + wide)} live`;
          const gap = (hole: number): number => Math.max(0, left - hole, hole - left - wide);
          const nearest = Math.min(gap(middle - 32), gap(middle + 32));
          // Between its two holes the plate spans the pipe.
          const spans = middle - 32 < left && left + wide < middle + 32;
          const fires = idsOf(near(sixteenths(middle), found)).includes(rule);
          expect(fires).toBe(nearest < 96 || spans);
        },
      ),
      { numRuns: 60 },
    );
  });

  it('says how near, and what comes before any drill', () => {
    const [finding] = findingsOf(near(`5'-5"`), rule);
    expect(finding?.message).toMatch(
      /too near gas pipe GR \(riser\) .*\(holes keep 6" away\), 4" along the wall \(common practice, no source\)/,
    );
    expect(finding?.message).toMatch(/Locate and expose both sides first\.$/);
    expect(finding?.severity).toBe('error');
  });

  it('is said once where the body meets the pipe as well', () => {
    expect(idsOf(near(`6'-0"`))).toEqual([rule]);
  });

  it('carries the caution in the title of every fix', () => {
    const titles = titlesOf(near(`5'-8"`), rule);
    expect(titles.length).toBeGreaterThan(0);
    for (const title of titles) expect(title).toMatch(/locate and expose both sides first/);
    const movable = titlesOf(near(`5'-8"`, `${riser} movable`), rule).filter((each) => each.includes('relocate'));
    expect(movable).toEqual([
      'Have gas pipe GR moved by the licensed trade: relocate GR: locate and expose both sides first',
    ]);
  });

  it('counts height too: a pipe far below the holes is out of the way', () => {
    expect(idsOf(near(`6'-0"`, `gas-pipe GP 5'-0" to 7'-0" dia 3/4" off 30" zone 30" below top live`))).toEqual([]);
    // Holes anywhere between the top of the concrete and the foot of the plate, 7-3/8 in below it; the pipe 3/8 in round its middle.
    const low = (middle: string): string => `gas-pipe GP 5'-0" to 7'-0" dia 3/4" off 30" zone ${middle} below top live`;
    expect(idsOf(near(`6'-0"`, low('13-3/4"')))).toEqual([]);
    expect(idsOf(near(`6'-0"`, low('13-11/16"')))).toEqual([rule]);
  });

  it('is never clear where nobody knows the place', () => {
    const lost = near(`6'-0"`, 'gas-pipe GR "riser" at unknown live');
    expect(lackingOf(lost, rule)).toEqual([
      'place of gas pipe GR (riser) on wall F (not cleared: locate and expose both sides first)',
    ]);
    // A height that is not known is in the way like one that nobody recorded.
    expect(idsOf(near(`6'-0"`, `gas-pipe GP 5'-0" to 7'-0" zone unknown below top live`))).toEqual([rule]);
  });

  it('still tells of a hole that is in, and offers to move nothing', () => {
    const built = near(`5'-8"`, riser, '\nrecord 2026-06-10\n  installed F-1 as planned\n');
    expect(findingsOf(built, rule)[0]?.message).toMatch(/It is in already: have the licensed trade look at it\.$/);
    expect(titlesOf(built, rule)).toEqual([]);
  });

  it('offers no way that writes the hazard away', () => {
    for (const title of titlesOf(near(`6'-0"`), rule)) expect(title).not.toMatch(/ignore|accept|none|remove/i);
  });
});

describe('clearance/power-near-drill', () => {
  const rule = 'clearance/power-near-drill';
  const near = (at: string, ...found: readonly string[]): string => wallText({ work: [bolt(at)], found });

  it('keeps every hole 12 in from a conduit', () => {
    const conduit = `conduit C1 "riser" at 6'-0" wide 2" riser live`;
    expect(idsOf(near(`4'-11"`, conduit))).toEqual([]);
    expect(idsOf(near(`4'-11 1/16"`, conduit))).toEqual([rule]);
  });

  // 30 in wide and 36 in deep: the electrical code's working space for house voltages, from memory.
  const panel = `electrical-panel EP 5'-6" to 6'-6" zone 50" to 70" below top`;

  it('leaves the working space in front of a panel free whatever the height, 30 in or as wide as the panel', () => {
    expect(idsOf(near(`4'-9"`, panel))).toEqual([]);
    expect(idsOf(near(`4'-9 1/16"`, panel))).toEqual([rule]);
    expect(findingsOf(near(`5'-0"`, panel))[0]?.message).toMatch(
      /the working space in front of electrical panel EP 5'-6" to 6'-6" \(common practice, no source\)/,
    );
    const wide = `electrical-panel EP 4'-0" to 8'-0" zone 50" to 70" below top`;
    expect(idsOf(near(`4'-0 1/16"`, wide))).toEqual([rule]);
  });

  it('leaves it free round an inside corner, 36 in from the face of the next wall', () => {
    const corner = (at: string): string =>
      [
        wallText({ work: [bolt(at)] }).replace(/\nwork on F[\s\S]*$/, ''),
        `wall G turn right length 20'-0"`,
        '  foundation thick 8" showing 18" top 0"',
        '  no sill',
        `  electrical-panel EP 1'-0" to 2'-0" zone 50" to 70" below top`,
        '',
        `wall H turn right length 20'-0"`,
        '  foundation thick 8" showing 18" top 0"',
        '  no sill',
        '',
        `wall I turn right length 20'-0"`,
        '  foundation thick 8" showing 18" top 0"',
        '  no sill',
        '',
        'work on F',
        `  ${bolt(at)}`,
        '',
      ].join('\n');
    // 20 ft less 8 in of concrete and 36 in.
    expect(idsOf(corner(`16'-4"`), rule)).toEqual([]);
    expect(idsOf(corner(`16'-4 1/16"`), rule)).toEqual([rule]);
  });

  it('asks where a panel is that nobody placed', () => {
    expect(lackingOf(near(`5'-0"`, 'electrical-panel EP at unknown'), rule)).toEqual([
      'place of electrical panel EP on wall F (not cleared: locate and expose both sides first)',
    ]);
  });

  it('carries the caution in the title of every fix', () => {
    const titles = titlesOf(near(`5'-0"`, panel), rule);
    expect(titles.length).toBeGreaterThan(0);
    for (const title of titles) expect(title).toMatch(/locate and expose both sides first/);
  });
});

describe('clearance/wrench-no-swing', () => {
  const rule = 'clearance/wrench-no-swing';
  const standing = (off: string): string =>
    wallText({ work: [bolt(`5'-0"`)], found: [`furnace H1 at 5'-0" wide 20" off ${off}`] });

  it('wants 10 in in front of a nut for the handle', () => {
    expect(idsOf(standing('10"'))).toEqual([]);
    expect(idsOf(standing('9-15/16"'))).toEqual([rule]);
    expect(findingsOf(standing('6"'), rule)[0]?.severity).toBe('warning');
  });

  it('wants 2 in round a nut, up to the face of a stud', () => {
    const studs = 'cripple height 30" stud-height 25-1/8" studs size 1-5/8" x 3-5/8" spaced 16" first 0" ledge 2"';
    const beside = (at: string): string => wallText({ work: [bolt(at)], found: [studs] });
    expect(idsOf(beside(`4'-2 13/16"`))).toEqual([]);
    expect(idsOf(beside(`4'-2 3/4"`))).toEqual([rule]);
    // Nearer, the washer itself has no seat, and that is said instead.
    expect(idsOf(beside(`4'-2"`))).toEqual(['clearance/bolt-under-stud']);
  });

  it('wants 2 in round the bolts of a plate, and asks where its holes are', () => {
    const beside = (top: string, connector: string): string =>
      wallText({
        sill: 'size 1-5/8" x 5-5/8" set-back 0" headroom 11"',
        work: [`anchor F-1 ${connector} at 5'-0"`],
        found: [`pipe P1 4'-0" to 6'-0" zone ${top} to 14" below top`],
      });
    // A plate 10 in tall, level with a sill of 1-5/8 in: its bolts 3-1/2 in below its middle, 6-7/8 in below the concrete's top.
    expect(idsOf(beside('8-7/8"', 'flat-plate'))).toEqual([]);
    expect(findingsOf(beside('8-13/16"', 'flat-plate')).map((each) => each.message)).toEqual([
      `F-1 (flat-plate) at 5'-0" is hard to tighten: the nut is 1-15/16" from pipe P1 4'-0" to 6'-0", and a wrench wants 2" round it (common practice, no source). Slide it, or note a deep socket.`,
    ]);
    const anyHoles = beside('8-13/16"', 'stepped-plate-s').replace('set-back 0"', 'set-back 3/4"');
    expect(lackingOf(anyHoles, rule)).toEqual(['holes of connector stepped-plate-s']);
  });

  it('slides to where the nut can be turned', () => {
    expect(idsOf(mended(standing('6"'), rule, /^Slide F-1/))).toEqual([]);
  });

  it('asks how far off a thing stands', () => {
    expect(lackingOf(standing('unknown'), rule)).toEqual([`how far furnace H1 4'-2" to 5'-10" stands off the wall`]);
  });
});

describe('clearance/plate-hits-thing and clearance/no-concrete-here', () => {
  it('say how near a bolt is to a pipe, and who asks for more', () => {
    const text = wallText({ work: [bolt(`5'-0"`)], found: [`pipe P1 "drain" at 5'-3" wide 4"`] });
    expect(findingsOf(text).map((each) => each.message)).toEqual([
      `F-1 (bolt-half, 3" wide, at 5'-0") is 1" from pipe P1 (drain) 5'-1" to 5'-5"; 2" wanted (common practice, no source). Nearest clear: 4'-11" or 5'-7".`,
    ]);
    expect(idsOf(text.replace(`at 5'-0"`, `at 4'-11"`))).toEqual([]);
    expect(idsOf(text.replace(`at 5'-0"`, `at 4'-11 1/16"`))).toEqual(['clearance/plate-hits-thing']);
  });

  it('are silent about what the design has moved', () => {
    const text = wallText({ work: [plate(`5'-0"`)], found: [`pipe P1 "drain" at 5'-0" wide 4" movable`] });
    const after = mended(text, 'clearance/plate-hits-thing', /relocate P1/);
    expect(idsOf(after)).toEqual([]);
  });

  it('come in the order of their weight where one place has them all', () => {
    const vent = `vent V1 4'-6" to 5'-6"`;
    const heater = `water-heater WH at 5'-0" wide 20" off 6" movable`;
    expect(idsOf(wallText({ work: [plate(`5'-0"`)], found: [vent, heater] }))).toEqual(['clearance/no-concrete-here']);
  });
});
