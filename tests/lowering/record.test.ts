import { describe, expect, it } from 'vitest';
import type { Layout, NewAnchor } from '../../language/domain/model/layout.ts';
import type { DayRecord, RecordEvent } from '../../language/domain/model/record.ts';
import { inches } from '../../language/domain/units/length.ts';
import { createProjectReader } from '../../language/syntax/project.ts';
import { analyse, placedFindings } from '../support/analyse.ts';
import { MAIN, memoryHost } from '../support/memory-host.ts';
import { exampleHost, readLayout } from '../support/read-layout.ts';

const survey = `house
  storeys 1
wall A length 16'-0"
  sill A1 set-back 0" headroom 25" corner
  vent V4 4'-0" to 5'-4"
  anchor X1 1/2" at 2'-0"
  anchor X2 1/2" at 14'-0"
wall B turn right length 10'-0"
  sill B1 set-back 0" headroom 25" corner
  anchor X3 1/2" at 1'-0"
girder GD 4x8 from (5'-0", 0") to (5'-0", 10'-0")
  post P1 4x4 at 3'-0"
work on A
  anchor A-1 bolt-half at 1'-0"
  anchor A-2 bolt-half at 8'-0"
  anchor A-3 bolt-half at 15'-0"
  angles A-A1 angle-8 0" to 16'-0" spaced 48"
work on B
  anchor B-1 bolt-half at 5'-0"
`;
const layoutOf = (record: string): Layout => readLayout(`${survey}${record}`).layout;
const told = (record: string): readonly string[] =>
  placedFindings(analyse(`${survey}${record}`))
    .filter(({ rule }) => rule.startsWith('language/') || rule === 'geometry/station-outside-wall')
    .map(({ rule, line, message }) => `${rule} ${line - survey.split('\n').length + 1}: ${message}`);

function anchor(layout: Layout, mark: string): NewAnchor {
  const found = layout.walls.flatMap((wall) => wall.anchors).find((each) => each.name === mark);
  if (!found) throw new Error(`no anchor ${mark}`);
  return found;
}
const event = (days: readonly DayRecord[], index: number): RecordEvent => {
  const found = days.flatMap((day) => day.events)[index];
  if (!found) throw new Error(`no event ${index}`);
  return found;
};
const stateOf = (layout: Layout, mark: string): string => anchor(layout, mark).state;

describe('the record of the demo house', () => {
  const { layout, problems } = createProjectReader(exampleHost).read('maple-designed.sill');

  it('is read without a word to say against it', () => {
    expect(problems.filter((problem) => problem.layer === 'record')).toEqual([]);
  });

  it('has A-1 and F-5 where they were really drilled, one and two inches from their marks', () => {
    expect(anchor(layout, 'A-1')).toMatchObject({
      station: inches(10),
      state: 'installed',
      asBuilt: {
        station: inches(11),
        asPlanned: false,
        date: '2026-06-10',
        embed: { kind: 'known', value: inches(4.5) },
        using: { name: 'bolt-half' },
      },
    });
    expect(anchor(layout, 'F-5')).toMatchObject({
      station: inches(125),
      state: 'installed',
      asBuilt: { station: inches(127), asPlanned: false, date: '2026-06-11', embed: undefined },
    });
  });

  it('has what was put in as planned at the station of the design', () => {
    for (const [mark, station] of [
      ['A-2', 56],
      ['A-3', 102],
      ['A-6', 199],
    ] as const) {
      expect(anchor(layout, mark).asBuilt).toMatchObject({ station: inches(station), asPlanned: true });
    }
  });

  it('has nothing as built of what was left out or is still to come', () => {
    expect(anchor(layout, 'F-4')).toMatchObject({ state: 'omitted' });
    expect(anchor(layout, 'F-4').asBuilt).toBeUndefined();
    expect(anchor(layout, 'A-4')).toMatchObject({ state: 'planned' });
    expect(anchor(layout, 'A-4').asBuilt).toBeUndefined();
  });

  it('marks the old anchor whose pull test failed', () => {
    const old = layout.walls.flatMap((wall) => wall.foundAnchors).find((each) => each.name === 'X3');
    expect(old?.states).toEqual(['light-rust', 'failed']);
  });

  it('keeps every event of both days in order, with its particulars', () => {
    expect(layout.record.map(({ date, by, events }) => [date, by, events.map((each) => each.kind)])).toEqual([
      ['2026-06-10', 'crew lead', ['installed', 'installed', 'omitted', 'discovered']],
      ['2026-06-11', 'crew lead', ['tested', 'tested', 'inspected', 'installed']],
    ]);
    expect(event(layout.record, 0)).toMatchObject({
      marks: [{ name: 'A-1' }],
      place: { kind: 'at', station: inches(11) },
      torque: { value: { dimension: 'moment', unit: 'ft-lb' } },
      lot: 'L-2206',
      expires: '2027-01-31',
      tags: { photos: [31] },
    });
    // 10 in right of vent V4, whose right edge stands at 5'-4".
    expect(event(layout.record, 3)).toMatchObject({
      kind: 'discovered',
      on: { name: 'F' },
      stretch: { from: inches(74), to: inches(74) },
      tags: { photos: [34] },
    });
    expect(event(layout.record, 5)).toMatchObject({
      how: 'pull',
      result: 'failed',
      failure: 'slipped',
      value: { value: { dimension: 'force', unit: 'lb' } },
    });
    expect(event(layout.record, 6)).toMatchObject({
      what: 'anchors',
      result: 'passed',
      tags: { notes: ['before panels'] },
    });
    expect(event(layout.record, 7)).toMatchObject({ reason: 'missed a bar', tags: { photos: [40, 41] } });
  });

  it('has its two issues, with what the second one changed', () => {
    expect(layout.issues).toMatchObject([
      { number: 1, date: '2026-05-02', purpose: 'review', by: 'designer', fingerprint: '7c1f09ab', changed: [] },
      {
        number: 2,
        fingerprint: '51d0c2e4',
        changed: [
          { marks: [{ name: 'A-2' }, { name: 'A-3' }], reason: 'moved off the stack after a second look at the hub' },
        ],
      },
    ]);
  });
});

describe('where a thing was really put', () => {
  it.each([
    [`at 1'-2 1/2"`, 14.5],
    [`at 14'-0" from right`, 24],
    [`at 10" right of V4`, 74],
    [`at 6" left of X2`, 162],
    ['at start', 0],
    ['at end', 192],
    ['at 300 mm', 300 / 25.4],
  ])('installed A-1 %s is resolved on the wall of the mark', (place, station) => {
    const layout = layoutOf(`record 2026-06-10\n  installed A-1 ${place}\n`);
    expect(anchor(layout, 'A-1').asBuilt?.station).toBe(inches(station));
    expect(anchor(layout, 'A-1').station).toBe(inches(12));
  });

  it('is not known where nobody wrote it down, or wrote `unknown`', () => {
    for (const line of ['installed A-1', 'installed A-1 at unknown']) {
      const layout = layoutOf(`record 2026-06-10\n  ${line}\n`);
      expect(anchor(layout, 'A-1').asBuilt).toMatchObject({ station: undefined, asPlanned: false });
      expect(event(layout.record, 0)).toMatchObject({ place: { kind: 'unknown' } });
    }
  });

  it('is taken from the newest day, in whatever order the days are written', () => {
    const days = [
      `record 2026-06-12\n  installed A-1 at 1'-3"\n`,
      `record 2026-06-10\n  installed A-1 at 1'-1"\n`,
      `record 2026-06-11\n  installed A-1 at 1'-2"\n`,
    ];
    expect(anchor(layoutOf(days.join('')), 'A-1').asBuilt).toMatchObject({ station: inches(15), date: '2026-06-12' });
    expect(layoutOf(days.join('')).record.map((day) => day.date)).toEqual(['2026-06-10', '2026-06-11', '2026-06-12']);
  });

  it('of one day is taken from the line that stands last', () => {
    const layout = layoutOf(`record 2026-06-10\n  installed A-1 at 1'-1"\n  installed A-1 at 1'-2"\n`);
    expect(anchor(layout, 'A-1').asBuilt?.station).toBe(inches(14));
  });

  it('past an end of the wall is told, in the record', () => {
    const record = `record 2026-06-10\n  installed A-1 at 16'-2"\n`;
    expect(told(record)).toEqual([
      `geometry/station-outside-wall 1: 16'-2" is 2" past the right end of wall A, which is 16'-0" long. Mend the station; it counts from the left end, facing the wall from inside.`,
    ]);
    const [problem] = readLayout(`${survey}${record}`).problems.filter(
      (each) => each.code === 'geometry/station-outside-wall',
    );
    expect(problem).toMatchObject({ layer: 'record', wall: 'A' });
  });

  it('cannot be one station for several marks', () => {
    const record = `record 2026-06-10\n  installed A-1, A-2 at 1'-2"\n`;
    expect(told(record)).toEqual([
      'language/wrong-kind 1: A-1, A-2 cannot all stand at one station; write an `installed` line for each.',
    ]);
    expect(anchor(layoutOf(record), 'A-2').asBuilt?.station).toBeUndefined();
  });
});

describe('the state of a mark', () => {
  it('fails with a test and holds until something is installed anew', () => {
    const day = (date: string, line: string): string => `record ${date}\n  ${line}\n`;
    const failed =
      day('2026-06-10', 'installed A-1 as planned') + day('2026-06-11', 'tested A-1 pull 1200 lb failed slipped');
    expect(stateOf(layoutOf(failed), 'A-1')).toBe('failed');
    expect(anchor(layoutOf(failed), 'A-1').asBuilt?.station).toBe(inches(12));
    const passedLater = failed + day('2026-06-12', 'tested A-1 pull 1200 lb passed');
    expect(stateOf(layoutOf(passedLater), 'A-1')).toBe('failed');
    const anew = passedLater + day('2026-06-13', `installed A-1 at 1'-6"`);
    expect(stateOf(layoutOf(anew), 'A-1')).toBe('installed');
    expect(anchor(layoutOf(anew), 'A-1').asBuilt?.station).toBe(inches(18));
    const omitted = anew + day('2026-06-14', 'omitted A-1 because "hit a bar"');
    expect(stateOf(layoutOf(omitted), 'A-1')).toBe('omitted');
    expect(anchor(layoutOf(omitted), 'A-1').asBuilt).toBeUndefined();
  });

  it('is that of panels, ties and post hardware too', () => {
    const { layout } = readLayout(`${survey}work on A
  panel A-P1 0" to 4'-0"
  hold-down A-H1 tie-rod at 4'-0" on double-stud
work on GD
  cap GD-C1 cap-plates on P1
record 2026-06-10
  installed A-P1, A-H1, GD-C1
  omitted A-2 because "x"
record 2026-06-11
  tested A-H1 pull 1200 lb failed
`);
    const [wall] = layout.walls;
    expect(wall?.panels.map((panel) => [panel.name, panel.state])).toEqual([['A-P1', 'installed']]);
    expect(wall?.ties.map((tie) => [tie.name, tie.state])).toEqual([['A-H1', 'failed']]);
    expect(layout.girders[0]?.posts[0]?.hardware.map((each) => [each.name, each.state])).toEqual([
      ['GD-C1', 'installed'],
    ]);
  });

  it('of an old anchor may be told by its wall and name', () => {
    const layout = layoutOf('record 2026-06-10\n  tested B.X3 pull 1200 lb failed\n');
    const states = layout.walls.flatMap((wall) => wall.foundAnchors.map((each) => [each.name, each.states]));
    expect(states).toEqual([
      ['X1', []],
      ['X2', []],
      ['X3', ['failed']],
    ]);
  });
});

describe('what the record cannot mean', () => {
  it('is a mark that nothing has, with the nearest one', () => {
    expect(told('record 2026-06-10\n  installed A-11 as planned\n  omitted Q-77 because "none"\n')).toEqual([
      'language/unresolved-name 1: Nothing in the design or the survey has the mark `A-11`; did you mean `A-1`?',
      'language/unresolved-name 2: Nothing in the design or the survey has the mark `Q-77`.',
    ]);
  });

  it('is not a mark of angles, of a post, of a vent or of an old anchor', () => {
    expect(
      told(
        'record 2026-06-10\n  installed A-A1, A-A1.2 as planned\n  installed P1 as planned\n  omitted V4 because "x"\n  tested X1 pull 100 lb passed\n',
      ),
    ).toEqual([]);
  });

  it('is a connector, a wall or a mark of an issue that nothing in sight has', () => {
    const record = `record 2026-06-10
  installed A-1 as planned using bolt-haf
  discovered "a pipe" on Z
  dead-hole Y at 1'-0" open
issue 1 2026-05-01 for review
  changed A-9 because "x"
`;
    expect(told(record)).toEqual([
      'language/unresolved-name 1: No connector `bolt-haf` in this file or the files it uses; did you mean `bolt-half`?',
      'language/unresolved-name 2: No wall or girder `Z` in this file or the files it uses.',
      'language/unresolved-name 3: No wall or girder `Y` in this file or the files it uses.',
      'language/unresolved-name 5: Nothing in the design or the survey has the mark `A-9`; did you mean `A-1`?',
    ]);
  });

  it.each([
    ['2026-02-31', 'February 2026 has 28 days'],
    ['2025-02-29', 'February 2025 has 28 days'],
    ['2100-02-29', 'February 2100 has 28 days'],
    ['2026-04-31', 'April 2026 has 30 days'],
    ['2026-13-01', 'there is no month 13'],
    ['2026-06-00', 'June 2026 has 30 days'],
  ])('is the day %s', (date, why) => {
    expect(told(`record ${date}\n  installed A-1 as planned\n`)).toEqual([
      `language/wrong-kind 0: ${date} is no day of the calendar: ${why}.`,
    ]);
    expect(layoutOf(`record ${date}\n  installed A-1 as planned\n`).record[0]?.date).toBe(date);
  });

  it.each(['2024-02-29', '2000-02-29', '1923-12-31'])('is not the day %s, be it before the survey', (date) => {
    expect(told(`record ${date}\n  installed A-1 as planned\n`)).toEqual([]);
  });

  it('is another day that no calendar has, wherever one is written', () => {
    const record = `record 2026-06-10
  installed A-1 as planned lot L1 expires 2026-11-31
issue 1 2026-06-31
  changed A-1 because "x" dated 2026-02-30
prices p dated 2026-09-31
`;
    expect(told(record).map((each) => each.slice(0, 46))).toEqual([
      'language/wrong-kind 1: 2026-11-31 is no day of',
      'language/wrong-kind 2: 2026-06-31 is no day of',
      'language/wrong-kind 4: 2026-09-31 is no day of',
    ]);
  });

  it('is an issue of a number that left the office before, and a fingerprint that is none', () => {
    const issues =
      'issue 1 2026-05-01 fingerprint "7c1f-09ab"\nissue 1 2026-05-02 fingerprint "hello"\nissue 1.5 2026-05-03\n';
    expect(told(issues)).toEqual([
      'language/wrong-kind 1: "hello" is no fingerprint: it has eight digits 0 to 9 and a to f, and the tool writes it.',
      'language/wrong-kind 2: Issues are numbered 1, 2, 3 …; 1.5 is none.',
      'language/duplicate-name 1: Issue 1 left the office already; give this one the next number.',
    ]);
  });
});

describe('holes and finds', () => {
  it('have their place on the wall or girder that they name', () => {
    const layout = layoutOf(`record 2026-06-10
  dead-hole A 3'-0" from right open
  dead-hole GD at 4'-0" grouted
  discovered "wiring" on A at 2'-0", 4'-0" wide 6"
  discovered "no more"
`);
    expect(layout.record[0]?.events).toMatchObject([
      { kind: 'dead-hole', on: { name: 'A' }, station: inches(156), state: 'open' },
      { kind: 'dead-hole', on: { name: 'GD' }, station: inches(48), state: 'grouted' },
      { kind: 'discovered', stretch: { from: inches(21), to: inches(27) } },
      { kind: 'discovered', stretch: { from: inches(45), to: inches(51) } },
      { kind: 'discovered', text: 'no more', on: undefined, stretch: undefined },
    ]);
  });

  it('are told where they lie past an end', () => {
    expect(told(`record 2026-06-10\n  dead-hole A 17'-0" open\n  dead-hole GD 11'-0" open\n`)).toEqual([
      expect.stringMatching(/^geometry\/station-outside-wall 1: 17'-0" is 1'-0" past the right end of wall A/),
      expect.stringMatching(/^geometry\/station-outside-wall 2: This station lies past an end of girder GD/),
    ]);
  });

  it('keep notes, photos and questions of the day', () => {
    const layout = layoutOf('record 2026-06-10\n  note "rain"\n  photo 7 "the vent"\n  ask "who owns the cable"\n');
    expect(layout.record[0]?.tags).toMatchObject({ notes: ['rain', 'photo 7: the vent'], photos: [7] });
    expect(layout.questions.map((question) => question.text)).toEqual(['who owns the cable']);
  });
});

describe('an edit of the record', () => {
  it('leaves every wall as it was that it does not speak of', () => {
    const texts = new Map([
      [MAIN, `use "a.sill"\nrecord 2026-06-11\n  installed B-1 as planned\n`],
      ['a.sill', `${survey}record 2026-06-10\n  installed A-1 as planned\n`],
    ]);
    const reader = createProjectReader(memoryHost(texts));
    const before = reader.read(MAIN).layout;
    texts.set(MAIN, `use "a.sill"\nrecord 2026-06-11\n  installed B-1 at 5'-1"\n  inspected anchors passed\n`);
    const after = reader.read(MAIN).layout;
    expect(after.walls[0]).toBe(before.walls[0]);
    expect(after.walls[1]).not.toBe(before.walls[1]);
    expect(anchor(after, 'B-1').asBuilt?.station).toBe(inches(61));
    texts.set(
      MAIN,
      `use "a.sill"\nrecord 2026-06-11\n  installed B-1 at 5'-1"\n  inspected anchors passed\nrecord 2026-06-12\n  inspected anchors passed\n`,
    );
    const later = reader.read(MAIN).layout;
    expect(later.walls).toHaveLength(2);
    for (const [index, wall] of later.walls.entries()) expect(wall).toBe(after.walls[index]);
    expect(later.record.map((day) => day.date)).toEqual(['2026-06-10', '2026-06-11', '2026-06-12']);
  });
});
