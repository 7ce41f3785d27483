import { describe, expect, it } from 'vitest';
import { analyse, placedFindings } from '../support/analyse.ts';

/** One wall of 16 ft with one board, four side plates that keep every limit, and what a test puts in their place. */
function house({
  heading = `wall A length 16'-0"`,
  wall = '  sill A1 set-back 0" headroom 7-1/2" corner',
  anchors = [`0'-11"`, `5'-4"`, `10'-8"`, `15'-1"`],
  more = '',
}: {
  heading?: string;
  wall?: string;
  anchors?: readonly string[];
  more?: string;
} = {}): string {
  return `layout "Lost places"
  rules existing-building
house
  storeys 1
  dwellings 1
typical
  foundation concrete sound thick 6" showing 20" top 0"
  sill size 1-1/2" x 5-1/2"
${heading}
${wall}
work on A
${anchors.map((station, index) => `  anchor A-${index + 1} flat-plate at ${station}`).join('\n')}
${more}
`;
}

const told = (text: string) => placedFindings(analyse(text)).map(({ rule, message }) => `${rule}: ${message}`);
const rulesOf = (text: string) => placedFindings(analyse(text)).map(({ rule }) => rule);
const wants = (text: string) => [...new Set(analyse(text).checked.notChecked.map((each) => each.wants))];

describe('a board that cannot be placed', () => {
  it('is no clean board: without the length of its wall each check on boards says that it lacks it', () => {
    const { checked } = analyse(house({ heading: 'wall A length unknown' }));
    expect(checked.findings).toEqual([]);
    expect(new Set(checked.notChecked.map((each) => each.wants))).toEqual(new Set(['length of wall A']));
    expect(checked.notChecked.map((each) => each.rule)).toEqual(
      expect.arrayContaining(['anchorage/gap-too-wide', 'anchorage/end-too-far', 'anchorage/piece-without-anchor']),
    );
  });

  it('makes a wall whose length nobody wrote a finding, once', () => {
    expect(rulesOf(house({ heading: 'wall A' }))).toEqual(['language/missing-part']);
    expect(wants(house({ heading: 'wall A' }))).toEqual(['length of wall A']);
  });

  it.each([`length 0"`, `length -16'`])('makes a wall of %s a finding', (length) => {
    expect(rulesOf(house({ heading: `wall A ${length}` }))).toContain('language/wrong-kind');
    expect(wants(house({ heading: `wall A ${length}` }))).toEqual(['length of wall A']);
  });

  it('ends at an unknown place: neither it nor the one behind it is guessed', () => {
    const wall = `  sill A1 to unknown set-back 0" headroom 8"\n  sill A2 to end set-back 0" headroom 8" corner`;
    expect(wants(house({ wall }))).toEqual(['place of sill A1 on wall A', 'place of sill A2 on wall A']);
    expect(rulesOf(house({ wall }))).toEqual([]);
  });

  it('is cut at an unknown place: its true ends are not known', () => {
    const wall = '  sill A1 set-back 0" headroom 8" corner\n  break at unknown';
    expect(wants(house({ wall }))).toEqual(['place of the break in the sill of wall A']);
  });

  it('says so of a break where no board lies, and once where it lies past the wall', () => {
    const sill = '  sill A1 set-back 0" headroom 8" corner';
    expect(rulesOf(house({ wall: `${sill}\n  break at 0"` }))).toEqual(['geometry/station-outside-wall']);
    expect(rulesOf(house({ wall: `${sill}\n  break at 20'-0"` }))).toEqual(['geometry/station-outside-wall']);
  });
});

describe('a station past an end of its wall', () => {
  it.each([
    [`17'-0"`, `17'-0" is 1'-0" past the right end of wall A, which is 16'-0" long.`],
    ['-3"', `-0'-3" is 3" past the left end of wall A.`],
    [`17'-0" from right`, `-1'-0" is 1'-0" past the left end of wall A.`],
  ])('%s is a finding that says by how much', (station, words) => {
    const [finding, ...others] = told(house({ anchors: [`0'-11"`, `5'-4"`, `10'-8"`, `15'-1"`, station] }));
    expect(finding).toContain(`geometry/station-outside-wall: ${words}`);
    expect(others).toEqual([]);
  });

  it('is said once of a vent, however many boards and things lean on it', () => {
    const wall = `  sill A1 to 8'-0" set-back 0" headroom 8"\n  sill A2 to end set-back 0" headroom 8" corner
  vent V1 17'-4" to 17'-8"\n  pipe P1 at 7" left of V1 wide 1"\n  headroom 9" at 16'-5"`;
    expect(rulesOf(house({ wall })).filter((rule) => rule === 'geometry/station-outside-wall')).toEqual(
      Array(4).fill('geometry/station-outside-wall'),
    );
  });

  it('may be a reading of the end itself, as sure as a tape is', () => {
    expect(rulesOf(house({ wall: '  sill A1 to 4877 mm set-back 0" headroom 8" corner' }))).toEqual([]);
  });
});

describe('an anchor that no board lies under', () => {
  const wall = `  sill A1 to 5'-0" set-back 0" headroom 8"\n  sill A2 8'-0" to end set-back 0" headroom 8" corner`;
  const anchors = [`0'-11"`, `4'-2"`, `8'-11"`, `12'-0"`, `15'-1"`];

  it('is told with the boards on either side', () => {
    // That nothing explains the hole is told too, by a check of its own.
    const onAnchors = (text: string) => told(text).filter((each) => !each.startsWith('geometry/sill-gap-or-overlap'));
    expect(onAnchors(house({ wall, anchors }))).toEqual([]);
    expect(onAnchors(house({ wall, anchors: [...anchors, `6'-6"`] }))).toEqual([
      `geometry/item-on-missing-sill: A-6 at 6'-6" stands on no sill board, so it ties nothing and counts for none. ` +
        `A1 ends at 5'-0"; A2 begins at 8'-0": move it onto a board.`,
    ]);
  });

  it('is told once where a chimney explains the hole, and of each where the wall has no sill', () => {
    const chimney = `${wall}\n  chimney K1 5'-0" to 8'-0"`;
    expect(rulesOf(house({ wall: chimney, anchors: [...anchors, `6'-6"`] }))).toEqual(['clearance/no-concrete-here']);
    expect(rulesOf(house({ wall: '  no sill' }))).toEqual(Array(4).fill('geometry/item-on-missing-sill'));
  });

  it('is not checked at an unknown place', () => {
    expect(wants(house({ anchors: [`0'-11"`, `5'-4"`, `10'-8"`, `15'-1"`, 'unknown'] }))).toEqual(['place of A-5']);
  });
});

describe('a found anchor with full credit', () => {
  const withFound = (found: string, more = '') =>
    house({
      wall: `  sill A1 set-back 0" headroom 8" corner\n  anchor X1 1/2" at 5'-4" ${found} credit full`,
      anchors: [`0'-11"`, `10'-8"`, `15'-1"`],
      more,
    });

  it('counts while it can bear it, and wants proof', () => {
    expect(rulesOf(withFound('cast-in sound'))).toEqual(['anchorage/old-anchor-unproven']);
    expect(rulesOf(withFound('cast-in light-rust loss 25 %'))).toEqual(['anchorage/old-anchor-unproven']);
  });

  it.each(['heavy-rust', 'loose', 'broken', 'split-out', 'nut none', 'loss over 25 %', 'loss 30 %'])(
    'counts for nothing where the survey says %s',
    (state) => {
      expect(rulesOf(withFound(state)).toSorted()).toEqual([
        'anchorage/gap-too-wide',
        'anchorage/old-anchor-overcounted',
      ]);
    },
  );

  it('counts for nothing once the design takes it out, or a test failed it', () => {
    expect(rulesOf(withFound('sound', 'work on A\n  remove X1'))).toEqual(['anchorage/gap-too-wide']);
    const failed = 'record 2026-06-11 by "crew"\n  tested X1 pull 1200 lb failed slipped';
    expect(rulesOf(withFound('sound', failed)).toSorted()).toEqual([
      'anchorage/gap-too-wide',
      'anchorage/old-anchor-overcounted',
    ]);
  });
});

describe('a thing whose width nobody wrote down', () => {
  const beside = `4'-8"`;
  const at = (words: string) =>
    house({
      wall: `  sill A1 set-back 0" headroom 8" corner\n  pipe P1 at 5'-4" ${words}`,
      anchors: [`0'-11"`, beside, `10'-8"`, `15'-1"`],
    });

  it('is not cleared beside its middle, and is where its width is known', () => {
    expect(rulesOf(at('dia 2"'))).toEqual([]);
    expect(wants(at('dia 2"'))).toEqual([]);
    expect(rulesOf(at(''))).toEqual([]);
    expect(wants(at(''))).toEqual([`width of pipe P1 at 5'-4" on wall A`]);
    expect(wants(at('dia unknown'))).toEqual([`width of pipe P1 at 5'-4" on wall A`]);
    expect(wants(at('wide unknown'))).toEqual([`width of pipe P1 at 5'-4" on wall A`]);
  });
});

describe('a defect whose place nobody knows', () => {
  it('bars what the tool would propose of its own accord, and nothing that is set by hand', () => {
    const bare = (wall: string) => analyse(house({ wall, anchors: [`0'-11"`, `10'-8"`, `15'-1"`] })).checked.findings;
    const sill = '  sill A1 set-back 0" headroom 8" corner';
    expect(bare(sill).map((finding) => finding.fixes.length)).toEqual([1]);
    expect(bare(`${sill}\n  rot at unknown`).map((finding) => [finding.rule, finding.fixes.length])).toEqual([
      ['anchorage/gap-too-wide', 0],
    ]);
  });
});

describe('names that must be one', () => {
  it('a mark stands once in a house, so that the record can speak of it', () => {
    const other = `wall B length 6'-0"\n  sill B1 set-back 0" headroom 8"\nwork on B
  anchor a-1 flat-plate at 0'-11"\n  anchor B-2 flat-plate at 3'\n  anchor B-3 flat-plate at 5'-1"`;
    expect(told(house({ more: other }))).toEqual([
      'geometry/duplicate-mark: a-1 is a mark on A already; a mark stands once in a house. Give this one another.',
    ]);
  });

  it('two rule sets of one file', () => {
    const set = `ruleset town "Town"\n  source "T" published\n    limit anchor-spacing at-most 4'`;
    expect(rulesOf(house({ more: `${set}\n${set}` }))).toEqual(['language/duplicate-name']);
  });
});

describe('a condition that no check asks for', () => {
  const town = (condition: string) =>
    house({
      more: `ruleset town "Town"\n  source "T" published\n    limit anchor-spacing at-most 4' for ${condition}`,
    });

  it('is questioned where it is a slip, since its limit would never apply', () => {
    expect(told(town('storys 1'))).toEqual([
      'language/unknown-subject: No check asks for `storys`, so this limit on `anchor-spacing` never applies; did you mean `storeys`?',
    ]);
    expect(told(town('Storeys 1'))).toEqual([]);
  });
});

describe('a fact given twice in its block', () => {
  it.each([
    ['house\n  storeys 1', 'storeys'],
    ['seismic\n  SDS 1\n  SDS 1.2', 'SDS'],
    ['weights roof 10 psf roof 12 psf', 'roof'],
  ])('%j is questioned, for only the last counts', (more, word) => {
    const text = more.startsWith('house') ? house().replace('storeys 1', 'storeys 1\n  storeys 1') : house({ more });
    expect(told(text)).toEqual([
      `language/repeated-word: \`${word}\` is given twice in this block; the last one counts. Delete one.`,
    ]);
  });

  it('also the length of a wall and the units of the house', () => {
    expect(rulesOf(house({ heading: `wall A length 16'-0"\n  length 16'-0"` }))).toEqual(['language/repeated-word']);
    const units = house().replace('  rules', '  units metric\n  units feet-inches\n  rules');
    expect(rulesOf(units)).toEqual(['language/repeated-word']);
  });
});

describe('units', () => {
  it('are read in any case', () => {
    const text = house({
      wall: '  foundation thick 6 IN showing 20 In strength 2500 PSI\n  sill A1 set-back 0 MM headroom 8" corner',
      anchors: ['11 IN', '5 Ft 4 In', '10 FEET 8 INCHES', `15'-1"`],
    });
    expect(told(text)).toEqual([]);
    expect(wants(text)).toEqual([]);
  });
});
