import { describe, expect, it } from 'vitest';
import { findingsOf, idsOf, lackingOf, mended, titlesOf, wallText } from './wall-text.ts';

// Distances of wood from hot pipes, and hammer room: common practice, no source (the numbers of shop-limits).

const studs =
  'cripple height 30" stud-height 25-1/8" studs size 1-5/8" x 3-5/8" spaced 16" first 0" ledge 2" double plate';
const panel = (place: string, more = ''): string => `panel F-P1 ${place} plywood 15/32"${more}`;
const withPanel = (say: {
  readonly place: string;
  readonly found?: readonly string[];
  readonly more?: string;
  readonly work?: readonly string[];
  readonly units?: 'metric';
  readonly after?: readonly string[];
}): string =>
  wallText({
    found: [studs, ...(say.found ?? [])],
    work: [panel(say.place, say.more), ...(say.work ?? [])],
    ...(say.units ? { units: say.units } : {}),
    ...(say.after ? { after: say.after } : {}),
  });

describe('clearance/panel-hits-thing', () => {
  const rule = 'clearance/panel-hits-thing';
  const vent = `vent V1 6'-0" to 7'-4"`;

  it('lets a panel end at the jamb, and the tape be off by 1/16 in', () => {
    expect(idsOf(withPanel({ place: `1'-0" to 6'-0"`, found: [vent] }))).toEqual([]);
    expect(idsOf(withPanel({ place: `1'-0" to 6'-0 1/16"`, found: [vent] }))).toEqual([]);
    expect(idsOf(withPanel({ place: `1'-0" to 6'-0 1/8"`, found: [vent] }))).toEqual([rule]);
  });

  it('says by how much, and that the total stays (A304.4.2, from memory)', () => {
    const text = withPanel({ place: `1'-0" to 6'-4"`, found: [vent] });
    expect(findingsOf(text, rule).map((each) => each.message)).toEqual([
      `Panel F-P1 1'-0" to 6'-4" runs 4" across vent V1 6'-0" to 7'-4". End it there, split or move it: as much panel in all as without it (A304.4.2).`,
    ]);
    const metric = withPanel({ place: `1'-0" to 6'-4"`, found: [vent], units: 'metric' });
    expect(findingsOf(metric, rule)[0]?.message).toMatch(
      /^Panel F-P1 305 mm to 1930 mm runs 102 mm across vent V1 1829 mm to 2235 mm\./,
    );
  });

  it('leaves alone what it does not reach: a vent in the concrete, a pipe that stands off by hammer room', () => {
    const low = `vent V1 6'-0" to 7'-4" zone 2" to 10" below top`;
    expect(idsOf(withPanel({ place: `1'-0" to 8'-0"`, found: [low] }))).toEqual([]);
    const stack = (off: string): string => `stack S1 at 6'-0" wide 8" off ${off} cast-iron fixed`;
    expect(idsOf(withPanel({ place: `1'-0" to 8'-0"`, found: [stack('6"')] }))).toEqual([]);
    const close = withPanel({ place: `1'-0" to 8'-0"`, found: [stack('5-15/16"')] });
    expect(findingsOf(close, rule).map((each) => each.message)).toEqual([
      `Panel F-P1 1'-0" to 8'-0" has 5-15/16" in front of it at stack S1 5'-8" to 6'-4", too little to nail it: 6" (common practice, no source). End it there, split or move it: as much panel in all as without it (A304.4.2).`,
    ]);
  });

  it('asks how far off a thing stands, and how high the wall is where that decides', () => {
    expect(
      lackingOf(withPanel({ place: `1'-0" to 8'-0"`, found: [`stack S1 at 6'-0" wide 8" off unknown`] }), rule),
    ).toEqual([`how far stack S1 5'-8" to 6'-4" stands off the wall`]);
    const unknown = withPanel({
      place: `1'-0" to 8'-0"`,
      found: [`duct D1 at 6'-0" wide 8" zone 28" to 36" above top`],
    });
    expect(lackingOf(unknown.replace('height 30"', 'height unknown'), rule)).toEqual([
      'height of the cripple wall on wall F',
    ]);
    expect(idsOf(unknown.replace('height 30"', 'height unknown'))).toEqual([]);
    expect(idsOf(unknown)).toEqual([rule]);
    expect(lackingOf(withPanel({ place: `1'-0" to 8'-0"`, found: ['vent V1 at unknown'] }), rule)).toEqual([
      'place of vent V1 on wall F',
    ]);
  });

  it('cuts the panel back, splits it or moves it, and keeps its board and nails', () => {
    const nails = ' nails 8d edge 4" field 12"  // cut from sheet 2';
    const text = withPanel({ place: `0" to 12'-0"`, found: [`pipe P1 at 5'-0" wide 4"`], more: nails });
    const split = mended(text, rule, /^Split F-P1/);
    expect(split).toMatch(
      /panel F-P1 0'-0" to 4'-10" +plywood 15\/32" nails 8d edge 4" field 12" +\/\/ cut from sheet 2\n/,
    );
    expect(split).toMatch(/panel F-P2 5'-2" to 12'-0" +plywood 15\/32" nails 8d edge 4" field 12"\n/);
    expect(idsOf(split)).toEqual([]);
    expect(mended(text, rule, /^Cut F-P1 back/)).toMatch(/panel F-P1 5'-2" to 12'-0"/);
    const short = withPanel({ place: `2'-0" to 8'-0"`, found: [`pipe P1 at 7'-0" wide 4"`] });
    expect(mended(short, rule, /^Move F-P1/)).toMatch(/panel F-P1 (0'-10" to 6'-10"|7'-2" to 13'-2")/);
  });

  it('proposes no part that is shorter than a panel may be (48 in, A304.4.2, from memory)', () => {
    const text = withPanel({ place: `0" to 8'-0"`, found: [`pipe P1 at 4'-1" wide 4"`] });
    expect(titlesOf(text, rule).filter((each) => /^(Split|Cut)/.test(each))).toEqual([]);
  });

  it('moves nothing that is built', () => {
    const text = withPanel({
      place: `0" to 12'-0"`,
      found: [`pipe P1 at 5'-0" wide 4"`],
      after: ['', 'record 2026-06-10', '  installed F-P1 as planned'],
    });
    expect(idsOf(text, rule)).toEqual([rule]);
    expect(titlesOf(text, rule)).toEqual([]);
  });
});

describe('clearance/panel-hides-service', () => {
  const rule = 'clearance/panel-hides-service';

  it.each([
    ['a crawl door', `hatch H1 6'-0" to 8'-0"`],
    ['a clean-out', `pipe CO "clean-out" 6'-0" to 6'-4" off 1"`],
    ['a shut-off', `pipe SV "water shutoff" 6'-0" to 6'-4" off 1"`],
    ['a meter', `meter M1 6'-0" to 7'-0"`],
  ])('tells of %s, once, as a warning', (_what, thing) => {
    const over = findingsOf(withPanel({ place: `1'-0" to 10'-0"`, found: [thing] }));
    expect(over.map((each) => [each.rule, each.severity])).toEqual([[rule, 'warning']]);
    expect(idsOf(withPanel({ place: `1'-0" to 6'-0"`, found: [thing] }))).toEqual([]);
    expect(idsOf(withPanel({ place: `1'-0" to 6'-0 1/8"`, found: [thing] }))).toEqual([rule]);
  });

  it('carries the caution in its fixes at a meter', () => {
    const titles = titlesOf(withPanel({ place: `0" to 12'-0"`, found: [`meter M1 5'-0" to 6'-0"`] }), rule);
    expect(titles.length).toBeGreaterThan(0);
    for (const title of titles) expect(title).toMatch(/locate and expose both sides first$/);
  });

  it('ends the panel beside it', () => {
    const text = withPanel({ place: `0" to 12'-0"`, found: [`hatch H1 5'-0" to 7'-0"`] });
    expect(idsOf(mended(text, rule, /^Split F-P1/))).toEqual([]);
  });
});

describe('clearance/flue-too-close', () => {
  const rule = 'clearance/flue-too-close';
  const flue = (kind: string, more = ''): string => `flue FL 7'-0" to 7'-4" ${more}${kind}`;
  const to = (end: string, kind: string): string => withPanel({ place: `1'-0" to ${end}`, found: [flue(kind)] });

  it.each([
    ['single-wall', `6'-6"`, `6'-6 1/16"`],
    ['double-wall', `6'-11"`, `6'-11 1/16"`],
    // Where nobody wrote down which it is, the wider distance holds.
    ['', `6'-6"`, `6'-6 1/16"`],
  ])('keeps a panel away from a %s flue, with no tolerance', (kind, at, inside) => {
    expect(idsOf(to(at, kind))).toEqual([]);
    expect(idsOf(to(inside, kind))).toEqual([rule]);
  });

  it('keeps new wood 2 in from a chimney', () => {
    const beside = (end: string): string =>
      withPanel({ place: `1'-0" to ${end}`, found: [`chimney K1 7'-0" to 9'-0"`] });
    expect(idsOf(beside(`6'-10"`))).toEqual([]);
    expect(idsOf(beside(`6'-10 1/16"`))).toEqual([rule]);
    // Across it is another mistake.
    expect(idsOf(beside(`7'-4"`))).toEqual(['clearance/panel-hits-thing']);
  });

  it('measures straight through the air: along the wall, up, and out from it', () => {
    const high = (near: string): string =>
      withPanel({ place: `1'-0" to 8'-0"`, found: [flue('single-wall', `off 12" zone ${near} to 48" above top `)] });
    expect(idsOf(high('30"'))).toEqual([]);
    const out = (off: string): string =>
      withPanel({ place: `1'-0" to 8'-0"`, found: [flue('single-wall', `off ${off} `)] });
    // From the face of a panel 15/32 in thick.
    expect(idsOf(out('6-1/2"'))).toEqual([]);
    expect(idsOf(out('6-7/16"'))).toEqual([rule]);
    // 4 in up and 4 in along are 5.66 in.
    const aslant = (up: string): string =>
      withPanel({ place: `1'-0" to 6'-8"`, found: [flue('single-wall', `zone ${up} to 60" above top `)] });
    expect(idsOf(aslant('34"'))).toEqual([rule]);
    expect(idsOf(aslant('35"'))).toEqual([]);
  });

  it('says how near, the limit and where it comes from', () => {
    expect(findingsOf(to(`6'-9"`, 'single-wall'), rule).map((each) => each.message)).toEqual([
      `Panel F-P1 comes within 3" of single-wall flue FL 7'-0" to 7'-4": at least 6" (common practice, no source). Cut it back, or have the flue shielded or changed by its trade.`,
    ]);
  });

  it('looks at new blocks, new studs and new boards as well, and at no old wood', () => {
    const with_ = (line: string, ...found: readonly string[]): readonly string[] =>
      idsOf(wallText({ found: [studs, flue('single-wall'), ...found], work: [line] }));
    expect(with_(`stud at 6'-8" size 1-5/8" x 3-5/8"`)).toEqual([rule]);
    expect(with_(`stud at 6'-4" size 1-5/8" x 3-5/8"`)).toEqual([]);
    const joists = 'joists into size 1-5/8" x 9-1/2" spaced 16" first 0"';
    // Bay 6 lies between 80 and 96 in, where the flue goes up.
    expect(with_('blocking bays 6', joists)).toEqual([rule]);
    expect(with_('blocking bays 1', joists)).toEqual([]);
    expect(with_(`sister sill F1 4'-0" to 6'-6" size 1-1/2" x 5-1/2"`)).toEqual([]);
    expect(with_(`sister sill F1 4'-0" to 6'-7" size 1-1/2" x 5-1/2"`)).toEqual([rule]);
  });

  it('asks where nobody knows how far off the flue stands', () => {
    const text = withPanel({ place: `1'-0" to 8'-0"`, found: [flue('single-wall', 'off unknown ')] });
    expect(lackingOf(text, rule)).toEqual([`how far flue FL 7'-0" to 7'-4" stands off the wall`]);
    expect(idsOf(text, rule)).toEqual([]);
  });

  it('cuts the panel back by what is wanted', () => {
    expect(mended(to(`6'-9"`, 'single-wall'), rule, /^Cut F-P1 back/)).toMatch(/panel F-P1 1'-0" to 6'-6"/);
  });
});

describe('clearance/nut-hits-panel', () => {
  const rule = 'clearance/nut-hits-panel';
  // Ledge 2 in and half of a 3 in washer: 3-1/2 in from the inner edge of the sill.
  const bolted = (offset: string, place = `1'-0" to 8'-0"`): string =>
    withPanel({ place, work: [`anchor F-1 bolt-half at 5'-0"${offset}`] });

  it('keeps half a washer behind the face of the studs, exactly', () => {
    expect(idsOf(bolted(' offset 3-1/2"'), rule)).toEqual([]);
    expect(idsOf(bolted(' offset 3-9/16"'), rule)).toEqual([]);
    expect(idsOf(bolted(' offset 3-7/16"'), rule)).toEqual([rule]);
  });

  it('takes a bolt without an offset in the middle of its board', () => {
    expect(findingsOf(bolted(''), rule).map((each) => each.message)).toEqual([
      `The washer of F-1 at 5'-0" runs into the back of panel F-P1: the bolt stands in the middle, 2-13/16" from the inner edge of the sill; ledge 2" and half a washer are 3-1/2". Move it back.`,
    ]);
  });

  it('says nothing of a bolt beside the panel', () => {
    expect(idsOf(bolted('', `5'-1 1/2" to 12'-0"`), rule)).toEqual([]);
    expect(idsOf(bolted('', `5'-1 7/16" to 12'-0"`), rule)).toEqual([rule]);
  });

  it('says nothing of a washer that lies on the ledge before the panel', () => {
    expect(idsOf(bolted(' offset 2"').replace('ledge 2"', 'ledge 4"'), rule)).toEqual([]);
  });

  it('moves the bolt back, alone or with the others behind the panel', () => {
    expect(mended(bolted(' offset 3"'), rule, /^Set F-1 at/)).toContain(`at 5'-0" offset 3-1/2"`);
    const two = withPanel({
      place: `1'-0" to 12'-0"`,
      work: [`anchor F-1 bolt-half at 5'-0"`, `anchor F-2 bolt-half at 9'-0"  // near the hatch`],
    });
    const all = mended(two, rule, /^Set back both bolts/);
    expect(all).toMatch(/F-1 +bolt-half +at 5'-0" +offset 3-1\/2"\n/);
    expect(all).toMatch(/F-2 +bolt-half +at 9'-0" +offset 3-1\/2" +\/\/ near the hatch/);
    expect(idsOf(all, rule)).toEqual([]);
  });

  it('asks for a ledge or an offset that nobody knows', () => {
    expect(lackingOf(bolted('').replace(' ledge 2"', ''), rule)).toEqual([
      'ledge of the sill at the cripple wall of wall F',
    ]);
    expect(lackingOf(bolted(' offset unknown'), rule)).toEqual(['offset of F-1 on the sill']);
  });
});

describe('the ways under the house', () => {
  const space = (words: string): string => `space under-house crawl from (0", 0") to (20'-0", -30'-0") ${words}`;
  const small = 'clearance/access-too-small';
  const sheet = 'clearance/panel-wont-go-in';

  // 18 x 24 in: the International Residential Code, R408.4 (from memory), for a hatch in the floor.
  it.each([
    ['18" x 24"', []],
    ['24" x 18"', []],
    ['17-15/16" x 24"', [small]],
    ['18" x 23-15/16"', [small]],
    ['32" x 80"', []],
  ])('through %s: clearance/access-too-small', (access, expected) => {
    expect(idsOf(wallText({ work: [], after: ['', space(`clear-height 30" access ${access}`)] }), small)).toEqual(
      expected,
    );
  });

  it('want 18 in of height in a crawl space', () => {
    const high = (height: string): readonly string[] =>
      idsOf(wallText({ work: [], after: ['', space(`clear-height ${height} access 24" x 24"`)] }), small);
    expect(high('18"')).toEqual([]);
    expect(high('17-15/16"')).toEqual([small]);
  });

  it('are asked for where nobody measured them', () => {
    const text = wallText({ work: [], after: ['', space('clear-height unknown')] });
    expect(lackingOf(text, small)).toEqual(['size of the way into under-house', 'clear height of under-house']);
  });

  const through = (access: string, more = ''): string =>
    withPanel({ place: `1'-0" to 9'-0"`, more, after: ['', space(`clear-height 30" access ${access}`)] });

  it('take a sheet edge on: its smaller side along the larger side of the opening', () => {
    // 30 in from concrete to joists, less a sill of 1-5/8 in.
    expect(idsOf(through('18" x 28-3/8"'), sheet)).toEqual([]);
    expect(idsOf(through('18" x 28-5/16"'), sheet)).toEqual([sheet]);
    expect(findingsOf(through('18" x 24"'), sheet).map((each) => [each.severity, each.message])).toEqual([
      [
        'warning',
        `A sheet of panel F-P1 is 2'-4 3/8" x 8'-0"; the way into under-house is 1'-6" x 2'-0", so it does not go in whole. Joint it on a flat block, or enlarge the way in.`,
      ],
    ]);
  });

  it('take it in two pieces with a joint on a flat block', () => {
    expect(idsOf(through('18" x 24"', ' flat-block 2x4'), sheet)).toEqual([]);
    expect(idsOf(mended(through('18" x 24"'), sheet, /^Joint F-P1/), sheet)).toEqual([]);
  });

  it('are asked for along a panel that has no measured one', () => {
    const text = withPanel({ place: `1'-0" to 9'-0"`, after: ['', space('clear-height 30"')] });
    expect(lackingOf(text, sheet)).toEqual(['size of the way into under-house']);
  });
});
