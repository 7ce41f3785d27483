import { describe, expect, it } from 'vitest';
import { expectDrawnFindings } from '../../support/fixture.ts';
import { findingsOf, idsOf as idsIn, lackingOf, mended, titlesOf, wallText } from '../clearance/wall-text.ts';

// All limits here are common practice without a source, from shop-limits: 12 in from rot, 6 in from a split, splits of over 6 in,
// wood of 1-1/2 in, 1.5 diameters beside a bolt, 8 in above the soil (new houses: IRC R317.1, from memory).

const idsOf = (text: string, rule = 'foundation/'): readonly string[] => idsIn(text, rule);
const plate = (at = `5'-0"`, more = ''): string => `anchor F-1 stepped-plate-s at ${at}${more}`;
const bolt = (at = `5'-0"`, more = ''): string => `anchor F-1 bolt-half at ${at}${more}`;
const sound = `thick 8" showing 18" top 0" sound`;

describe('foundation/wood-edge-thin', () => {
  const rule = 'foundation/wood-edge-thin';
  const offset = (from: string): string =>
    wallText({ work: [bolt(`5'-0"`, ` offset ${from}`)], sill: `size 1-1/2" x 5-1/2" set-back 1-1/2" headroom 25"` });

  it('wants one and a half diameters to either edge: 3/4 in beside a 1/2 in bolt', () => {
    expect(idsOf(offset('13/16"'), rule)).toEqual([]);
    expect(idsOf(offset('3/4"'), rule)).toEqual([]);
    expect(idsOf(offset('11/16"'), rule)).toEqual([rule]);
    expect(idsOf(offset('4-3/4"'), rule)).toEqual([]);
    expect(idsOf(offset('4-13/16"'), rule)).toEqual([rule]);
  });

  it('wants what the report of a plate asks beside its screws', () => {
    // In the middle of a board of 1-1/2 in: the 3/4 in of the demo plate.
    const thin = (thick: string): string =>
      wallText({ work: [plate()], sill: `size ${thick} x 5-1/2" set-back 3/4" headroom 25"` });
    expect(idsOf(thin('1-1/2"'), rule)).toEqual([]);
    expect(idsOf(thin('1-7/16"'), rule)).toEqual([rule]);
    expect(lackingOf(thin('unknown'), rule)).toEqual(['thickness of sill F1']);
  });

  it('reads the height of the screws where the hardware gives it: the flat demo plate has them in the middle of the board', () => {
    const flush = (size: string): string =>
      wallText({ work: [`anchor F-1 flat-plate at 5'-0"`], sill: `size ${size} set-back 0" headroom 25"` });
    expect(idsOf(flush('2x6'))).toEqual([]);
    expect(idsOf(flush('1-5/8" x 5-5/8"'))).toEqual([]);
    expect(idsOf(flush('1-7/16" x 5-1/2"'))).toEqual(['foundation/sill-thin', rule]);
  });

  it('shifts the bolt back to the middle', () => {
    expect(mended(offset('1/2"'), rule, /from the inner edge/)).toContain('offset 2-3/4"');
  });
});

describe('foundation/shim-missing and foundation/set-back-out-of-range', () => {
  const flat = (setBack: string, more = '', reaches = '1/2"'): string =>
    wallText({
      work: [`anchor F-1 own at 5'-0"${more}`],
      sill: `size 1-1/2" x 5-1/2" set-back ${setBack} headroom 25"`,
      after: [
        'connector own side-plate',
        '  demo',
        '  report "none: invented values"',
        `  fits set-back 0" to ${reaches}`,
        '  fits showing at-least 9"',
        '  body 8" wide 9" tall 5/16" thick',
        '  into concrete 2 concrete-screw-anchor size 1/2" x 4-1/2" hole-depth 4-3/4" apart 4" edge 3"',
      ],
    });

  it('want a shim from over 1/8 in on, where the plate itself may reach further', () => {
    const rule = 'foundation/shim-missing';
    expect(idsOf(flat('1/16"'), rule)).toEqual([]);
    expect(idsOf(flat('1/8"'), rule)).toEqual([]);
    expect(idsOf(flat('3/16"'), rule)).toEqual([rule]);
    expect(idsOf(flat('3/8"', ' shim 1/4"'), rule)).toEqual([]);
    expect(mended(flat('3/8"'), rule, /shim/)).toContain(`at 5'-0" shim 3/8"`);
  });

  it('are one finding: beyond the range of the plate it is out of range, and the shim is offered there', () => {
    expect(idsOf(flat('3/8"', '', '1/8"'))).toEqual(['foundation/set-back-out-of-range']);
    expect(mended(flat('3/8"', '', '1/8"'), 'foundation/set-back-out-of-range', /shim/)).toContain('shim 3/8"');
    // 5/8 in is more than a shim may fill (common practice).
    expect(titlesOf(flat('5/8"', '', '1/8"'), 'foundation/set-back-out-of-range')).not.toContainEqual(
      expect.stringContaining('shim'),
    );
  });

  it('ask for a set-back that nobody measured', () => {
    expect(lackingOf(flat('unknown'), 'foundation/shim-missing')).toEqual(['set-back of sill F1']);
  });
});

describe('foundation/set-back-varies', () => {
  const rule = 'foundation/set-back-varies';
  const board = (setBack: string, work = plate()): string =>
    wallText({ work: [work], sill: `size 1-1/2" x 5-1/2" set-back ${setBack} headroom 25"` });

  it('lets a board differ by 3/8 in, and minds no bolt', () => {
    expect(idsOf(board('3/4" to 1-1/16"'), rule)).toEqual([]);
    expect(idsOf(board('3/4" to 1-1/8"'), rule)).toEqual([]);
    expect(idsOf(board('3/4" to 1-3/16"'), rule)).toEqual([rule]);
    expect(idsOf(board('3/4" to 1-3/16"', bolt()), rule)).toEqual([]);
    expect(lackingOf(board('unknown'), rule)).toEqual(['set-back of sill F1']);
  });

  it('says from where to where', () => {
    expect(findingsOf(board('3/4" to 2"'), rule)[0]?.message).toBe(
      'The set-back of sill F1 goes from 3/4" to 2", 1-1/4" apart: at most 3/8" (common practice, no source) for plates of one kind. Pick the plate at each station.',
    );
  });
});

describe('foundation/sill-rotten', () => {
  const rule = 'foundation/sill-rotten';
  const rotten = (place: string, work = plate()): string => wallText({ work: [work], found: [`rot ${place}`] });
  const severities = (text: string): readonly string[] => findingsOf(text, rule).map((each) => each.severity);

  it('begins 12 in from the body, which reaches 4 in off the centre, with 1/16 in for the tape', () => {
    expect(severities(rotten(`6'-4" to 6'-6"`))).toEqual(['warning']);
    expect(severities(rotten(`6'-3 15/16" to 6'-6"`))).toEqual(['warning']);
    expect(severities(rotten(`6'-3 7/8" to 6'-6"`))).toEqual(['error']);
  });

  it('is an error where the anchor of an end can stand nowhere else', () => {
    // The window is 9 to 12 in from the end: rot up to 12 in away from it covers it all.
    expect(findingsOf(rotten(`0'-8" to 1'-6"`, plate(`10'-0"`)), rule)[0]?.message).toBe(
      `Sill F1 is rotten from 0'-8" to 1'-6", too near for the anchor of its left end: at least 1'-0" (common practice, no source) of sound wood. Replace the board there; soft wood holds nothing.`,
    );
  });

  it('goes before a plate that hits a thing at the same place', () => {
    const both = wallText({ work: [plate()], found: [`rot 4'-10" to 5'-2"`, `pipe P1 "drain" at 5'-0" wide 3"`] });
    expect([...idsOf(both), ...idsIn(both, 'clearance/')]).toEqual([rule]);
  });

  it('reads a board that is rotten as a whole, and insects', () => {
    const whole = wallText({ work: [bolt()], sill: `size 2x6 set-back 3/4" headroom 25" rotten` });
    expect(severities(whole)).toEqual(['error']);
    expect(idsOf(wallText({ work: [plate()], found: [`insects 4'-10" to 5'-2"`] }), rule)).toEqual([rule]);
  });

  it('replaces the wood between cuts whose end windows are clear', () => {
    const text = rotten(`0'-2" to 0'-6"`, plate(`0'-10"`));
    const after = mended(text, rule, /^Replace sill F1/);
    expect(after).toMatch(/^ {2}replace sill F1 0'-0" to \d+'-\d+" treated$/m);
  });

  it('is silent where the design replaces the board', () => {
    const text = wallText({
      work: [plate(), `replace sill F1 3'-0" to 8'-0" treated`],
      found: [`rot 4'-10" to 5'-2"`],
    });
    expect(idsOf(text, rule)).toEqual([]);
  });

  it('stands in the text where the rot is, with its stations', () => {
    const analysis = expectDrawnFindings(`
layout "X"
  rules existing-building
house
  storeys 2
  dwellings 1
wall F faces north from (0", 0") length 14'-0"
  foundation thick 8" showing 18" top 0" sound
  sill F1 size 2x6 set-back 3/4" headroom 11-1/8"
  rot 6'-5" to 6'-6"
//^^^^^^^^^^^^^^^^^^ warning foundation/sill-rotten
work on F
  anchor F-1 stepped-plate-s at 0'-10"
  anchor F-2 stepped-plate-s at 4'-8"
  anchor F-3 stepped-plate-s at 8'-8"
  anchor F-4 stepped-plate-s at 11'-2"
  anchor F-5 stepped-plate-s at 13'-2"
`);
    const [finding] = analysis.findings;
    expect([finding?.piece, finding?.wall]).toEqual(['F1', 'F']);
    expect(finding?.message).toContain('New work keeps at least 1\'-0" (common practice, no source) away');
  });
});

describe('foundation/sill-split', () => {
  const rule = 'foundation/sill-split';
  const split = (place: string): string => wallText({ work: [plate()], found: [`split ${place}`] });

  it('minds splits of over 6 in anywhere, and shorter ones 6 in from a plate', () => {
    expect(idsOf(split(`10'-0" to 10'-6"`), rule)).toEqual([]);
    expect(idsOf(split(`10'-0" to 10'-6 1/16"`), rule)).toEqual([rule]);
    expect(idsOf(split(`5'-10" to 6'-0"`), rule)).toEqual([]);
    expect(idsOf(split(`5'-9 7/8" to 6'-0"`), rule)).toEqual([rule]);
  });

  it('slides the anchor away from a short one', () => {
    expect(mended(split(`5'-6" to 5'-9"`), rule, /^Slide F-1/)).not.toContain(`at 5'-0"`);
  });
});

describe('foundation/sill-thin', () => {
  const rule = 'foundation/sill-thin';
  const thick = (size: string, found: readonly string[] = []): string =>
    wallText({ work: [bolt()], sill: `size ${size} x 5-1/2" set-back 3/4" headroom 25"`, found });

  it('wants 1-1/2 in, of the board and of what a notch leaves', () => {
    expect(idsOf(thick('1-9/16"'), rule)).toEqual([]);
    expect(idsOf(thick('1-1/2"'), rule)).toEqual([]);
    expect(idsOf(thick('1-7/16"'), rule)).toEqual([rule]);
    expect(idsOf(thick('2"', [`notch 10'-0" to 10'-4" depth 1/2"`]), rule)).toEqual([]);
    expect(idsOf(thick('2"', [`notch 10'-0" to 10'-4" depth 9/16"`]), rule)).toEqual([rule]);
  });

  it('minds an anchor in a notch of any depth', () => {
    expect(idsOf(thick('2"', [`notch 4'-10" to 5'-2" depth 1/4"`]), rule)).toEqual([rule]);
  });

  it('asks for what nobody measured', () => {
    expect(lackingOf(thick('unknown'), rule)).toEqual(['thickness of sill F1']);
    expect(lackingOf(thick('2"', [`notch 10'-0" to 10'-4"`]), rule)).toEqual([
      `depth of the notch in sill F1 at 10'-0"`,
    ]);
  });
});

describe('foundation/sill-stack-loose', () => {
  const rule = 'foundation/sill-stack-loose';
  const doubled = (work: string, more = ' double'): string =>
    wallText({ work: [work], sill: `size 2x6 set-back 3/4" headroom 25"${more}` });

  it('minds plates on a double sill, not bolts, nor single sills', () => {
    expect(idsOf(doubled(plate()), rule)).toEqual([rule]);
    expect(idsOf(doubled(bolt()), rule)).toEqual([]);
    expect(idsOf(doubled(plate(), ''), rule)).toEqual([]);
  });

  it('offers the bolt that holds both boards', () => {
    expect(mended(doubled(plate()), rule, /^Use bolt-half/)).toContain('F-1 bolt-half at');
  });
});

describe('foundation/sill-near-grade', () => {
  const rule = 'foundation/sill-near-grade';
  const soil = (grade: string, treated = 'untreated', found: readonly string[] = []): string =>
    wallText({
      work: [bolt()],
      foundation: `${sound} grade ${grade}`,
      sill: `size 2x6 set-back 3/4" headroom 25" ${treated}`,
      found,
    });

  it('wants 8 in, and no tolerance of the tape helps', () => {
    expect(idsOf(soil('8-1/16"'), rule)).toEqual([]);
    expect(idsOf(soil('8"'), rule)).toEqual([]);
    expect(idsOf(soil('7-15/16"'), rule)).toEqual([rule]);
    expect(idsOf(soil('5"', 'treated'), rule)).toEqual([]);
  });

  it('says where the soil begins to lie too high, and how high at most', () => {
    const [finding] = findingsOf(soil('12" to 4"'), rule);
    // 8 in is reached at half of 20 ft.
    expect(finding?.message).toContain(`4" above the soil outside, 10'-0" to 20'-0" of wall F`);
  });

  it('asks for what nobody knows', () => {
    expect(lackingOf(soil('unknown'), rule)).toEqual(['soil outside wall F']);
    expect(lackingOf(soil('5"', ''), rule)).toEqual(['whether sill F1 is treated']);
    expect(idsOf(soil('5"', ''), rule)).toEqual([]);
  });
});
