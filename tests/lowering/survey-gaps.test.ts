import { describe, expect, it } from 'vitest';
import { fitAt } from '../../language/domain/fit/clear-intervals.ts';
import type { Layout, Wall } from '../../language/domain/model/layout.ts';
import { profileAt } from '../../language/domain/model/reading.ts';
import { inches, millimetres } from '../../language/domain/units/length.ts';
import { analyse, placedFindings } from '../support/analyse.ts';
import { readLayout } from '../support/read-layout.ts';

const wallOf = (text: string): Wall => {
  const [wall] = readLayout(text).layout.walls;
  if (!wall) throw new Error('no wall');
  return wall;
};
const unknowns = (layout: Layout): readonly string[] => layout.unknowns.map((each) => `${each.what}: ${each.typed}`);
const told = (text: string): readonly string[] =>
  placedFindings(analyse(text)).flatMap(({ rule, line, message }) =>
    rule.startsWith('language/') || rule === 'geometry/station-outside-wall' ? [`${line} ${message}`] : [],
  );

describe('nails as found', () => {
  it('keep their kind and their count, on rims and on blocking', () => {
    const wall = wallOf(`wall A length 16'-0"
  joists into 2x8 spaced 16" first 0"
  rim 2x8 nails 4 8d box spaced 6" verified
  blocking bays 2, 4 2x8 nails 3 10d sinker
  blocking bay 6 nails 8d
`);
    expect(wall.rims[0]?.nails).toMatchObject({
      penny: 8,
      kind: 'box',
      count: 4,
      spaced: { value: inches(6) },
      verified: true,
    });
    expect(wall.blocking.map((each) => each.nails)).toMatchObject([
      { penny: 10, kind: 'sinker', count: 3, spaced: undefined, verified: false },
      { penny: 8 },
    ]);
    expect(wall.blocking[1]?.nails).not.toHaveProperty('count');
  });

  it('that nobody saw are on the survey list', () => {
    const { layout } = readLayout(`wall A length 16'-0"
  rim unseen nails unknown
wall B length 9'-0"
  rim nails unseen
  blocking every bay nails unknown
`);
    expect(unknowns(layout)).toEqual([
      'rim of wall A: unseen',
      'nails of rim of wall A: unknown',
      'nails of rim of wall B: unseen',
      'nails of blocks of wall B: unknown',
    ]);
  });
});

describe('`typical` blocking', () => {
  const typical = 'typical\n  joists into 2x8 spaced 16" first 0"\n  blocking odd bays 2x8 nails 3 8d\n';
  it('holds on walls with joists that say nothing of blocking', () => {
    expect(wallOf(`${typical}wall A length 16'-0"\n`).blocking).toMatchObject([
      { bays: { kind: 'odd' }, nails: { penny: 8, count: 3 }, layer: 'survey' },
    ]);
  });
  it('gives way to what a wall says itself', () => {
    expect(wallOf(`${typical}wall A length 16'-0"\n  blocking none\n`).blocking.map((each) => each.bays)).toEqual([
      { kind: 'none' },
    ]);
    expect(wallOf(`${typical}wall A length 16'-0"\n  no blocking\n`).blocking).toEqual([]);
  });
});

describe('a space', () => {
  it('has its way in and a height that may change', () => {
    const { layout } =
      readLayout(`space low crawl from (0", 0") to (6'-0", 9'-0") clear-height assume 20" to 30" access 32" x 2'-0"
space shed slab
`);
    expect(layout.spaces[0]).toMatchObject({
      clearHeight: { value: inches(20), quality: 'assumed' },
      clearHeightTo: { value: inches(30) },
      access: { wide: { value: inches(32) }, tall: { value: inches(24) } },
    });
    expect(layout.spaces[1]).not.toHaveProperty('access');
    expect(layout.assumptions.map((each) => each.what)).toEqual(['clear height of low']);
  });
});

describe('a girder', () => {
  it('has its label, the spans as read and what posts lean by', () => {
    const [girder] = readLayout(`girder GD "under the hall" 6x8 from (0", 0") to (20'-0", 0")
  spans 6'-0", 6'-2", unknown note "post to post"
  post P1 4x4 at 6'-0" leans 1/4" per 1'
  post P2 4x4 at 12'-2" out-of-plumb 1/2"
  rests at end unknown
`).layout.girders;
    expect(girder?.label).toBe('under the hall');
    expect(girder?.spans).toMatchObject([{ value: inches(72) }, { value: inches(74) }, { kind: 'unknown' }]);
    expect(girder?.posts[0]).toMatchObject({ leans: { value: inches(0.25) }, leansPer: { value: inches(12) } });
    expect(girder?.posts[1]).toMatchObject({ leans: { value: inches(0.5) } });
    expect(girder?.posts[1]).not.toHaveProperty('leansPer');
    expect(girder?.tags.notes).toEqual(['spans: post to post']);
  });

  it('tells of posts and splices past its ends, and of an end that nobody can find', () => {
    expect(
      told(`girder GD 6x8 from (0", 0") to (20'-0", 0")\n  post P1 4x4 at 21'-0"\n  splice at 2'-0" right of V1\n`),
    ).toEqual([
      '1 This station lies past an end of girder GD; stations count from its first point. Mend it.',
      '2 Nothing called `V1` with a place on girder GD; measure from its first point.',
    ]);
    expect(told('girder GD 6x8\n  post P1 4x4 at end\n')).toEqual([
      '1 Girder GD has no ends in plan, so this cannot be found; write `from` and `to` in its heading.',
    ]);
  });
});

describe('a sill board', () => {
  it('may be flush or run through the corner', () => {
    const { pieces } = wallOf(`wall A length 16'-0"\n  sill A1 to 8'-0" flush\n  sill A2 to end runs-through corner\n`);
    expect(pieces.map((each) => [each.name, each.flush, each.runsThrough])).toEqual([
      ['A1', true, undefined],
      ['A2', undefined, true],
    ]);
  });
});

describe('a reading at a place', () => {
  it('of the outside grade lands in the foundation', () => {
    const [stretch] = wallOf(
      `wall A length 16'-0"\n  foundation thick 6" grade 8"\n  grade scaled 3" at 4'-0"\n`,
    ).foundation;
    const grade = stretch?.grade;
    if (!grade) throw new Error('no grade');
    expect(profileAt(grade, inches(48))).toMatchObject({ value: inches(3), quality: 'scaled' });
    expect(profileAt(grade, inches(0))).toMatchObject({ value: inches(8) });
    expect(profileAt(grade, inches(192))).toMatchObject({ value: inches(8) });
  });

  const house = (reading: string): Layout =>
    readLayout(`wall A length 20'-0"
  foundation concrete sound thick 6" showing 20" top 0"
  sill A1 set-back 0" headroom 24" corner
${reading}connector plate side-plate
  demo
  body 8" wide 9" tall
  fits side-room at-least 20"
  fits set-back 0" to 1/8"
  into concrete 2 rod size 1/2" embed 3"
work on A
  anchor A-1 plate at 3'-0"
`).layout;
  const fits = (layout: Layout, station: number): string => {
    const [wall] = layout.walls;
    const connector = layout.connectors.get('plate');
    if (!wall || !connector) throw new Error('no wall or plate');
    const { blocked, lacking } = fitAt({ layout, wall, piece: wall.pieces[0], connector }, inches(station));
    expect(blocked.filter((each) => each.reason !== 'side-room' && each.reason !== 'joint')).toEqual([]);
    if (blocked.some((each) => each.reason === 'side-room')) return 'blocked';
    return lacking.some((each) => each.reason === 'side-room') ? 'not known' : 'fits';
  };

  it('of the room in front holds there and nowhere else', () => {
    const tight = house(`  side-room 12" at 3'-0"\n`);
    expect(tight.walls[0]?.sideRoom).toMatchObject([
      { stretch: { from: inches(36), to: inches(36) }, room: { value: inches(12) } },
    ]);
    // The plate is 8 in wide: its middle stays more than 4 in away.
    expect([31, 32, 36, 40, 41].map((station) => fits(tight, station))).toEqual([
      'fits',
      'blocked',
      'blocked',
      'blocked',
      'fits',
    ]);
    expect(fits(tight, 120)).toBe('fits');
  });

  it('holds along a stretch, and two readings say nothing of what lies between', () => {
    const stretch = house(`  side-room 12" from 3'-0" to 5'-0"\n`);
    expect([30, 34, 50, 62, 70].map((station) => fits(stretch, station))).toEqual([
      'fits',
      'blocked',
      'blocked',
      'blocked',
      'fits',
    ]);
    const two = house(`  side-room 12" at 3'-0"\n  side-room 12" at 9'-0"\n`);
    expect([36, 72, 108].map((station) => fits(two, station))).toEqual(['blocked', 'fits', 'blocked']);
  });

  it('of room that nobody measured is no room that fits', () => {
    const layout = house(`  side-room unknown at 3'-0"\n`);
    expect(fits(layout, 36)).toBe('not known');
    expect(fits(layout, 72)).toBe('fits');
    expect(unknowns(layout)).toEqual(['side-room reading on wall A: unknown']);
  });
});

describe('what slopes along a cripple wall', () => {
  it.each([
    [`height 30" to 36" stud-height 25-1/8" to 31-1/8" ledge 2" to 1"`, inches(28.125), inches(1.5)],
    ['height 760 mm to 920 mm stud-height 640 mm to 800 mm ledge 50 mm to 30 mm', millimetres(720), millimetres(40)],
  ])('is straight from end to end: %s', (words, studs, ledge) => {
    const [cripple] = wallOf(`wall A length 20'-0"\n  cripple ${words} studs 2x4 spaced 16" first 8"\n`).cripples;
    const middle = inches(120);
    if (!cripple?.studHeight || !cripple.ledge) throw new Error('no cripple');
    expect(profileAt(cripple.studHeight, middle)).toMatchObject({ value: studs });
    expect(profileAt(cripple.ledge, middle)).toMatchObject({ value: ledge });
    expect(cripple.first).toMatchObject({ value: inches(8) });
    expect(cripple.spaced).toMatchObject({ value: inches(16) });
  });

  it('is on the survey list where sheathing or trimmers are not known', () => {
    const { layout } = readLayout(
      `wall A length 9'-0"\n  cripple height 16" sheathing unknown trimmers unknown\n  anchor X1 at 1'-0" washer unknown nut unknown\n`,
    );
    expect(unknowns(layout)).toEqual([
      'sheathing of cripple wall of wall A: unknown',
      'trimmers of cripple wall of wall A: unknown',
      'washer of old anchor X1: unknown',
      'nut of old anchor X1: unknown',
    ]);
  });
});

describe('facts of the house', () => {
  it('that two blocks give differently are told at the second', () => {
    const text = `house
  storeys 2
  year 1924
  roof composition
  floor-underside 1-5/8"
seismic SDS 1.00 site-class D
weights whole-house 80 psf
house
  storeys 1
  year 1924
  roof tile
  floor-underside 2"
seismic SDS 1.2 site-class C
weights whole-house 60 psf
`;
    const { layout } = readLayout(text);
    expect(told(text)).toEqual([
      '8 `storeys` is 1 here and 2 in another block; the last one counts. Delete one.',
      '10 `roof` is tile here and composition in another block; the last one counts. Delete one.',
      expect.stringMatching(/^11 `floor-underside` is .* here and .* in another block/),
      '12 `SDS` is 1.2 here and 1.00 in another block; the last one counts. Delete one.',
      '12 `site-class` is c here and d in another block; the last one counts. Delete one.',
      '13 `weight of whole-house` is 60 psf here and 80 psf in another block; the last one counts. Delete one.',
    ]);
    expect(layout.house.storeys).toMatchObject({ value: 1 });
  });

  it('that cannot be read are one finding, whatever another block says', () => {
    expect(told('house\n  storeys 2\nhouse\n  storeys 2 psi\n')).toEqual([
      '3 2 psi is not a plain number, which number of storeys takes.',
    ]);
  });

  it('may be filled in later, and said twice alike', () => {
    expect(told('house\n  storeys unknown\n  soil unknown\nhouse\n  storeys 2\n  soil clay\n')).toEqual([]);
    expect(told('house\n  storeys 2\n  floor-underside 24"\nhouse\n  storeys 2\n  floor-underside 2\'-0"\n')).toEqual(
      [],
    );
  });

  it('keep what lines say beside them', () => {
    const { layout } = readLayout(`layout "x"
  special-inspection required by "An agency"
  sheets engineered note "beyond the tables"
  photo 3 "the street side"
house
  slope assume 5 % note "yard looks flat"
  year told 1924 by "owner" dated 2026-04-18
  note "bump-out added 1948"
typical
  note "all of one pour"
line north "front" walls A
wall A length 9'-0"
  no anchor note "looked with a lamp"
`);
    expect(layout.title.specialInspectionBy).toBe('An agency');
    expect(layout.title.tags).toMatchObject({
      notes: ['sheets: beyond the tables', 'photo 3: the street side'],
      photos: [3],
    });
    expect(layout.house.tags?.notes).toEqual([
      'slope: yard looks flat',
      'year: by owner, 2026-04-18',
      'bump-out added 1948',
      'all of one pour',
    ]);
    expect(layout.lines[0]?.label).toBe('front');
    expect(layout.walls[0]?.tags.notes).toEqual(['no anchor: looked with a lamp']);
  });
});

describe('one mistake', () => {
  it.each([
    [`wall A length 16'-0"\n  storeys two\n  sill 2x6 set-back 0" headroom 30"\n`],
    [`wall A length 16'-0"\n  storeys 2 psi\n  sill 2x6 set-back 0" headroom 30"\n`],
    [`house\n  storeys two\nwall A length 16'-0"\n  sill 2x6 set-back 0" headroom 30"\n`],
    [`line n walls A storeys x\nwall A length 16'-0"\n  sill 2x6 set-back 0" headroom 30"\n`],
  ])('in `storeys` is one finding: %j', (text) => {
    const found = placedFindings(analyse(`layout "x" rules existing-building\n${text}`));
    expect(found.filter(({ message }) => message.includes('storeys'))).toHaveLength(1);
    expect(found.map(({ rule }) => rule)).not.toContain('load-path/rules-unset');
  });

  it('is a number of storeys below none', () => {
    expect(told('line n walls A storeys -1\nwall A length 9\'-0"\n')).toEqual([
      '0 -1 is no number of storeys; write 1, 2 or 3.',
    ]);
  });
});

describe('an accepted finding', () => {
  it('is accepted at each of its stations', () => {
    const wall = wallOf(`wall A length 16'-0"\n  accept anchorage/end-too-far at 3'-0", 5'-0" because "agreed"\n`);
    expect(wall.accepted.map((each) => each.station)).toEqual([inches(36), inches(60)]);
  });

  it('needs its wall for a station: the title block would accept it everywhere', () => {
    const text = `layout "x"\n  accept anchorage/end-too-far at 3'-0" because "agreed"\n`;
    expect(told(text)).toEqual([
      '1 A station says nothing without its wall: move this line to the wall, or take the station out.',
    ]);
    expect(readLayout(text).layout.title.accepted).toEqual([]);
  });
});

describe('the heading of a wall', () => {
  const square = (second: string): string =>
    `wall A faces north from (0", 0") length 10'\nwall B ${second}\nwall C turn right length 10'\nwall D turn right length 8'\n`;
  it('may repeat what the turns say', () => {
    expect(told(square(`faces east turn right length 8'`))).toEqual([]);
  });
  it('is told where it turns against the turns, or starts a second outline', () => {
    expect(told(square(`faces west turn right length 8'`))).toEqual([
      '1 By its turns from wall A on, wall B faces east, not as its heading says; mend `turn` or `faces`.',
    ]);
    expect(told(square(`from (10', 0") turn right length 8'`))).toEqual([
      '1 The outline starts at wall A, so `from` on wall B is not used; delete it, or write `interior`.',
    ]);
  });
});

describe('what a line cannot mean', () => {
  it.each([
    [
      '  anchor X1 1/2" at 3\'-0" wide 4"\n',
      '1 An anchor stands at a station and has its own size; write that before or behind, and no width along the wall.',
    ],
    [
      '  stud at 3\'-0" wide 4"\n',
      '1 A stud stands at a station and has its own size; write that before or behind, and no width along the wall.',
    ],
    [
      '  foundation thick 6" strength 2000 psi to 2500 psi\n',
      '1 Concrete has one strength along a stretch; the first is used. Write a line for each stretch.',
    ],
  ])('is told: %j', (line, message) => {
    expect(told(`wall A length 9'-0"\n${line}`)).toEqual([message]);
  });

  it('is the end in plan of a perimeter wall, which its length gives', () => {
    expect(told(`wall A from (0", 0") to (9'-0", 0") length 9'-0"\n`)).toEqual([
      '0 Wall A ends where its length leads, so `to` is not used; delete it, or write `interior`.',
    ]);
  });
});

describe('hardware', () => {
  it('keeps filled holes and the notes of its lines', () => {
    const connector = readLayout(`connector c hold-down
  demo
  into sill 1 rod size 1/2" hole 3/4" filled note "epoxy"
  capacity up 1000 lb note "dry"
`).layout.connectors.get('c');
    expect(connector?.fasteners[0]).toMatchObject({ filled: true, hole: inches(0.75) });
    expect(connector?.notes).toEqual(['fastener: epoxy', 'capacity: dry']);
  });
});

describe('a question', () => {
  it('is on the list wherever somebody asked it', () => {
    const { layout } = readLayout(`line n walls A
  ask "line" by "designer"
typical
  ask "typical"
space s crawl
  ask "space"
wall A length 9'-0"
  ask "wall"
work on A
  ask "work"
connector c strap
  demo
  ask "connector"
ruleset r
  ask "rules"
`);
    expect(layout.questions.map((question) => question.text).toSorted()).toEqual([
      'connector',
      'line',
      'rules',
      'space',
      'typical',
      'wall',
      'work',
    ]);
    expect(layout.questions.find((question) => question.text === 'line')?.tags?.by).toBe('designer');
  });
});
