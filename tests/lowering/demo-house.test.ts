import { describe, expect, it } from 'vitest';
import type { Profile, Reading } from '../../language/domain/model/reading.ts';
import { profileAt } from '../../language/domain/model/reading.ts';
import { formatStation } from '../../language/domain/units/format-length.ts';
import type { Length } from '../../language/domain/units/length.ts';
import { parseLength } from '../../language/domain/units/parse-length.ts';
import { createProjectReader } from '../../language/syntax/project.ts';
import { exampleHost } from '../support/read-layout.ts';

// The invented demo house, table by table as it was surveyed: what the file says is what the model holds.
const project = createProjectReader(exampleHost).read('maple-surveyed.sill');
const { layout } = project;

function length(text: string): Length {
  const parsed = parseLength(text);
  if (parsed.kind !== 'length') throw new Error(text);
  return parsed.length;
}
const wall = (name: string) => {
  const found = layout.walls.find((each) => each.name === name);
  if (!found) throw new Error(`no wall ${name}`);
  return found;
};
const known = <T>(reading: Reading<T> | undefined): T | undefined =>
  reading?.kind === 'known' ? reading.value : undefined;
const at = (profile: Profile | undefined, station: Length): Length | undefined =>
  profile && known(profileAt(profile, station));

describe('the surveyed demo house', () => {
  it('has no problem in its text', () => {
    expect(project.problems.map((problem) => problem.message)).toEqual([]);
  });

  it('runs clockwise from the north-west corner and closes on its adjusted lengths', () => {
    const corners = layout.walls
      .filter((each) => each.role === 'perimeter')
      .map((each) => [
        each.name,
        each.plan && formatStation(each.plan.from.x, 'feet-inches'),
        each.plan && formatStation(each.plan.from.y, 'feet-inches'),
      ]);
    expect(corners).toEqual([
      ['A', `0'-0"`, `36'-4"`],
      ['B', `34'-3"`, `36'-4"`],
      ['C', `34'-3"`, `24'-1"`],
      ['D', `28'-2"`, `24'-1"`],
      ['E', `28'-2"`, `0'-0"`],
      ['F', `0'-0"`, `0'-0"`],
    ]);
    expect(wall('F').plan?.to).toEqual(wall('A').plan?.from);
  });

  it('ties stations to the taped length and keeps the adjusted one beside it', () => {
    expect(wall('A').length).toBe(length(`34'-3 1/4"`));
    expect(known(wall('A').adjusted)).toBe(length(`34'-3"`));
    expect(wall('F').length).toBe(length(`36'-4 3/8"`));
  });

  it.each([
    ['A', 'A1', `0"`, `16'-0"`, 'half-lap', `3/4"`, `25-1/8"`],
    ['A', 'A2', `15'-8"`, `28'-2"`, 'step', `1-1/2"`, `25-1/8"`],
    ['A', 'A3', `28'-2"`, `34'-3 1/4"`, 'corner', `0"`, `9-1/2"`],
    ['B', 'B1', `0"`, `12'-3"`, 'corner', `0"`, `9-1/2"`],
    ['C', 'C1', `0"`, `6'-0 3/4"`, 'corner', `1/4"`, `9-1/2"`],
    ['D', 'D1', `0"`, `3'-6"`, 'none', `1-1/4"`, `9-1/2"`],
    ['D', 'D2', `8'-0"`, `24'-1"`, 'corner', `2-1/4"`, `9-1/2"`],
    ['E', 'E1', `0"`, `13'-11"`, 'butt', `2"`, `9-1/2"`],
    ['E', 'E2', `13'-11"`, `28'-2 1/8"`, 'corner', `1-3/4"`, `9-1/2"`],
    ['F', 'F1', `0"`, `9'-7"`, 'butt', `1/2"`, `11-1/8"`],
    ['F', 'F2', `9'-7"`, `20'-4"`, 'step', `3/4"`, `11-1/8"`],
    ['F', 'F3', `20'-4"`, `36'-4 3/8"`, 'corner', `0"`, `25-1/8"`],
  ])(
    'wall %s has sill board %s from %s to %s, %s, set back %s, head-room %s',
    (name, board, from, to, joint, setBack, headroom) => {
      const piece = wall(name).pieces.find((each) => each.name === board);
      expect(piece).toMatchObject({ from: length(from), to: length(to), joint, layer: 'survey', treated: false });
      expect(at(piece?.setBack, length(from))).toBe(length(setBack));
      expect(at(piece?.headroom, length(to))).toBe(length(headroom));
      expect(known(piece?.size?.thick)).toBe(length(`1-5/8"`));
      expect(known(piece?.size?.wide)).toBe(length(`5-5/8"`));
    },
  );

  it.each([
    ['A', `8'`, `6-1/2"`, `12"`, `-2'-4 3/8"`, `5"`],
    ['A', `20'`, `7-1/4"`, `12"`, `-2'-4 3/8"`, `5"`],
    ['A', `30'`, `6"`, `24"`, `0"`, `9"`],
    ['D', `4'`, `7"`, `7'-0"`, `0"`, `8"`],
    ['D', `10'`, `8"`, `7'-0"`, `0"`, `8"`],
    ['E', `25'`, `8"`, `18"`, `0"`, `10"`],
    ['F', `5'`, `6-1/4"`, `18"`, `-1'-2 3/8"`, `10"`],
    ['F', `15'`, `6-1/2"`, `18"`, `-1'-2 3/8"`, `10"`],
    ['F', `30'`, `6"`, `14"`, `-2'-4 3/8"`, `8"`],
  ])(
    'wall %s at %s stands on a stem %s thick, showing %s, top at %s, soil %s below',
    (name, station, thick, showing, top, grade) => {
      const where = length(station);
      const stretch = wall(name).foundation.find((each) => each.from <= where && where < each.to);
      expect(stretch?.material).toBe('concrete');
      expect(stretch?.steel).toBe('unreinforced');
      expect(at(stretch?.thick, where)).toBe(length(thick));
      expect(at(stretch?.showing, where)).toBe(length(showing));
      expect(at(stretch?.top, where)).toBe(length(top));
      expect(at(stretch?.grade, where)).toBe(length(grade));
      expect(stretch?.strength).toMatchObject({ kind: 'known', quality: 'assumed' });
    },
  );

  it.each([
    ['A', 'V1', `5'-0"`, `6'-4"`],
    ['A', 'S1', `9'-10"`, `10'-6"`],
    ['A', 'V2', `21'-0"`, `22'-4"`],
    ['B', 'V3', `8'-0"`, `9'-4"`],
    ['D', 'K1', `3'-6"`, `8'-0"`],
    ['D', 'WH', `10'-0"`, `11'-8"`],
    ['D', 'GP', `12'-6"`, `22'-0"`],
    ['D', 'W1', `18'-4"`, `21'-0"`],
    ['E', 'W2', `4'-6"`, `7'-2"`],
    ['E', 'EP', `18'-0"`, `19'-3"`],
    ['F', 'V4', `4'-0"`, `5'-4"`],
    ['F', 'H1', `30'-0"`, `32'-0"`],
  ])('wall %s has %s from %s to %s', (name, thing, from, to) => {
    const obstruction = wall(name).obstructions.find((each) => each.name === thing);
    expect(obstruction?.stretch).toEqual({ from: length(from), to: length(to) });
  });

  it('lists every found anchor by itself, also where one line names several', () => {
    expect(wall('A').foundAnchors.map((each) => [each.id, each.station])).toEqual([
      ['A/found-anchor:#1', length(`29'-0"`)],
      ['A/found-anchor:#2', length(`33'-4"`)],
    ]);
    expect(wall('F').foundAnchors[0]).toMatchObject({
      name: 'X4',
      kind: 'J-bolt',
      states: ['heavy-rust'],
      nut: 'none',
      credit: 'none',
    });
    expect(wall('D').foundAnchors[0]?.loss).toMatchObject({ over: true });
  });

  it('knows the cripple walls, and that `typical` alone makes none', () => {
    expect(wall('F').cripples.map((each) => [each.from, each.to, at(each.studHeight, each.from)])).toEqual([
      [0, length(`20'-4"`), length(`11-1/8"`)],
      [length(`20'-4"`), length(`36'-4 3/8"`), length(`25-1/8"`)],
    ]);
    expect(wall('F').cripples[0]).toMatchObject({
      plates: 'double',
      trimmers: 'every-opening',
      sheathing: 'boards-horizontal',
    });
    expect(wall('B').cripples).toEqual([]);
    expect(wall('D').cripples).toEqual([]);
  });

  it('has the girder with five posts', () => {
    const girder = layout.girders[0];
    expect(girder?.posts.map((post) => [post.name, post.station, known(post.height)])).toEqual([
      ['P1', length(`6'-0"`), length(`6'-2 1/8"`)],
      ['P2', length(`12'-2"`), length(`6'-2 1/8"`)],
      ['P3', length(`18'-1"`), length(`6'-2 1/8"`)],
      ['P4', length(`24'-3"`), length(`14-1/8"`)],
      ['P5', length(`30'-2"`), length(`2'-6 1/4"`)],
    ]);
    expect(girder?.ends.get('start')).toBe('pocket');
  });

  it('counts what was assumed and what is unknown', () => {
    expect(layout.assumptions.map((each) => each.what)).toContain('concrete strength of foundation, typical');
    expect(layout.unknowns.map((each) => each.what)).toContain('first joist of joists of wall B');
    expect(layout.house.storeys).toMatchObject({ kind: 'known', value: 2 });
  });
});

describe('the designed demo house', () => {
  const designed = createProjectReader(exampleHost).read('maple-designed.sill');
  const designedWall = (name: string) => designed.layout.walls.find((each) => each.name === name);

  it('has no problem in its text', () => {
    expect(designed.problems.map((problem) => problem.message)).toEqual([]);
  });

  it('brings the design beside the survey, with the state of each mark from the record', () => {
    const anchors = designedWall('F')?.anchors ?? [];
    expect(anchors).toHaveLength(13);
    expect(anchors.find((each) => each.name === 'F-4')?.state).toBe('omitted');
    expect(anchors.find((each) => each.name === 'F-5')?.state).toBe('installed');
    expect(anchors.find((each) => each.name === 'F-9')).toMatchObject({
      station: length(`21'-1"`),
      proposed: false,
      state: 'planned',
    });
    expect(
      designedWall('A')
        ?.anchors.filter((each) => each.proposed)
        .map((each) => each.name),
    ).toEqual(['A-4', 'A-5']);
  });

  it('cuts the soft sill on E where the design replaces it, and leaves the survey of the rest', () => {
    expect(designedWall('E')?.pieces.map((piece) => [piece.name, piece.from, piece.to, piece.layer])).toEqual([
      ['E1-new', 0, length(`8'-4"`), 'design'],
      ['E1', length(`8'-4"`), length(`13'-11"`), 'survey'],
      ['E2', length(`13'-11"`), length(`28'-2 1/8"`), 'survey'],
    ]);
    // The rot is drawn as it was found, and bars nothing any more.
    expect(designedWall('E')?.defects).toMatchObject([{ kind: 'rot', remedied: true }]);
    expect(wall('E').defects).toMatchObject([{ kind: 'rot', remedied: false }]);
  });
});
