import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fitAt } from '../../language/domain/fit/clear-intervals.ts';
import { anchorsOf } from '../../language/domain/fit/piece-anchors.ts';
import type { Remedy } from '../../language/domain/model/design.ts';
import type { Girder, Wall } from '../../language/domain/model/layout.ts';
import type { Reading } from '../../language/domain/model/reading.ts';
import type { SourceSpan } from '../../language/domain/model/source.ts';
import type { Length } from '../../language/domain/units/length.ts';
import { parseLength } from '../../language/domain/units/parse-length.ts';
import type { Project } from '../../language/syntax/project.ts';
import { createProjectReader } from '../../language/syntax/project.ts';
import { MAIN } from '../support/memory-host.ts';
import { exampleHost, readLayout } from '../support/read-layout.ts';

// What `work on` says, form by form: it stands in the model, or a finding at its place says why not.

const survey = `layout "Design forms"
wall F length 24'-0"
  foundation concrete thick 6" showing 20" top 0"
  sill F1 to 10'-0" set-back 0" headroom 11" size 1-1/2" x 5-1/2" butt
  sill F2 to end set-back 0" headroom 11" size 1-1/2" x 5-1/2" corner
  cripple height 16" stud-height 11" studs 2x4 spaced 16"
  joists into 2x8 spaced 16" first 0" span 12'
  joist at 5'-1" doubled
  rot 0'-8" to 1'-6"
  cold-joint CJ at 12'-0"
  crack at 3'-0" width 1/8"
  vent V1 7'-0" to 8'-4"
  gas-pipe GP at 15'-0" dia 1"
  stack S1 18'-0" to 18'-6"
  anchor X4 1/2" at 2'-0" J-bolt heavy-rust
  anchor X5 5/8" at 6'-0" cast-in sound washer cut nut tight credit full
girder GD size 4x6 from (0, 0) to (0, 20'-0") spans 6'-0", unknown, 6 ft
  post P1 4x4 at 6'-0" height 4'-0"
  post P2 4x4 at 12'-0" height 4'-0" footing none
`;

function read(work: string, more = ''): Project {
  return readLayout(`${survey}${more}${work}`);
}
function wallOf(project: Project): Wall {
  const wall = project.layout.walls[0];
  if (!wall) throw new Error('no wall');
  return wall;
}
function girderOf(project: Project): Girder {
  const girder = project.layout.girders[0];
  if (!girder) throw new Error('no girder');
  return girder;
}
/** Each problem as its code and the text that it points at. */
const told = (project: Project): readonly string[] =>
  project.problems.map((problem) => {
    const place = project.locate(problem.span);
    return `${problem.code} at ${place ? project.main.text.slice(place.start, place.end) : 'nowhere'}`;
  });
const messages = (project: Project): readonly string[] => project.problems.map((problem) => problem.message);

function length(text: string): Length {
  const parsed = parseLength(text);
  if (parsed.kind !== 'length') throw new Error(text);
  return parsed.length;
}
const known = <T>(reading: Reading<T> | undefined): T | undefined =>
  reading?.kind === 'known' ? reading.value : undefined;
const remedyOf = (remedies: readonly Remedy[] | undefined, verb: Remedy['verb']): Remedy => {
  const found = remedies?.find((each) => each.verb === verb);
  if (!found) throw new Error(`no remedy ${verb}`);
  return found;
};

describe('the survey that these tests build on', () => {
  it('is read without a problem, spans and all', () => {
    expect(messages(read(''))).toEqual([]);
    expect(girderOf(read('')).spans?.map(known)).toEqual([length(`6'-0"`), undefined, length(`6'-0"`)]);
    expect(read('').layout.unknowns.map((each) => each.what)).toContain('span of girder GD');
  });
});

describe('a panel', () => {
  it('says everything of itself that its line has room for', () => {
    const project = read(`work on F
  panel F-P1 0" to 4'-0" OSB 15/32" nails 8d common edge 4" field 12" nailers 2x4 nails 4 16d box clear vent-holes 2-1/2" one flat-block 2x6 height 2'-6" proposed note "from the hatch" photo 7
`);
    expect(messages(project)).toEqual([]);
    const [panel] = wallOf(project).panels;
    expect(panel).toMatchObject({
      id: 'F/panel:F-P1',
      name: 'F-P1',
      stretch: { from: 0, to: length(`4'-0"`) },
      board: { kind: 'OSB' },
      nails: { penny: 8, kind: 'common' },
      nailers: { size: { nominal: '2x4' }, nails: { count: 4, penny: 16, kind: 'box' }, clear: true },
      ventHoles: { pattern: 'one' },
      flatBlock: { nominal: '2x6' },
      flatBlocked: true,
      proposed: true,
      state: 'planned',
      tags: { notes: ['from the hatch'], photos: [7] },
    });
    expect(known(panel?.board?.thick)).toBe(length('15/32"'));
    expect(known(panel?.nails?.edge)).toBe(length('4"'));
    expect(known(panel?.nails?.field)).toBe(length('12"'));
    expect(known(panel?.height)).toBe(length(`2'-6"`));
  });

  it('may be metric', () => {
    const [panel] = wallOf(
      read('work on F\n  panel P 0 mm to 1219 mm plywood 12 mm nails 8d edge 100 mm field 300 mm\n'),
    ).panels;
    expect(panel?.stretch).toEqual({ from: 0, to: 1_219_000_000 });
    expect(known(panel?.board?.thick)).toBe(12_000_000);
    expect(known(panel?.nails?.edge)).toBe(100_000_000);
  });

  it('takes from `typical panel` what it does not say, part by part', () => {
    const project = read(
      `work on F
  panel A 0" to 4'-0"
  panel B to 8'-0" nails 10d edge 3" nailers none vent-holes none
  panel C to end OSB 7/16" nailers 2x6 note "cut to pass the hatch"
`,
      'typical\n  panel plywood 15/32" nails 8d common edge 4" field 12" nailers 2x4 nails 4 16d vent-holes 2-1/2" top-and-bottom flat-block note "grade stamp up"\n',
    );
    expect(messages(project)).toEqual([]);
    const [a, b, c] = wallOf(project).panels;
    expect(a).toMatchObject({
      board: { kind: 'plywood' },
      nails: { penny: 8, kind: 'common' },
      nailers: { size: { nominal: '2x4' }, nails: { count: 4, penny: 16 }, clear: false },
      ventHoles: { pattern: 'top-and-bottom' },
      flatBlock: undefined,
      flatBlocked: true,
      tags: { notes: ['grade stamp up'] },
    });
    // Another nail is named anew, kind and all; the spacing that it does not give is the typical one.
    expect(b).toMatchObject({ nails: { penny: 10, kind: undefined }, nailers: 'none', ventHoles: 'none' });
    expect(known(b?.nails?.edge)).toBe(length('3"'));
    expect(known(b?.nails?.field)).toBe(length('12"'));
    expect(b?.stretch).toEqual({ from: length(`4'-0"`), to: length(`8'-0"`) });
    expect(c).toMatchObject({
      board: { kind: 'OSB' },
      nailers: { size: { nominal: '2x6' }, nails: { count: 4, penny: 16 } },
      stretch: { from: length(`8'-0"`), to: length(`24'-0"`) },
      tags: { notes: ['grade stamp up', 'cut to pass the hatch'] },
    });
  });

  it('of whose values some are unknown puts them on the survey list and keeps the rest', () => {
    const project = read(
      'work on F\n  panel P 0" to unknown plywood unknown nails 8d edge unknown height assume 2\'\n',
    );
    const [panel] = wallOf(project).panels;
    expect(messages(project)).toEqual([]);
    expect(panel?.stretch).toBeUndefined();
    expect(panel?.board).toMatchObject({ kind: 'plywood', thick: { kind: 'unknown' } });
    expect(panel?.nails?.edge).toMatchObject({ kind: 'unknown' });
    expect(panel?.height).toMatchObject({ kind: 'known', quality: 'assumed' });
    expect(project.layout.unknowns.map((each) => each.what)).toEqual(
      expect.arrayContaining(['station of panel P', 'thickness of panel P', 'edge nailing of panel P']),
    );
    expect(project.layout.assumptions.map((each) => each.what)).toContain('height of panel P');
  });

  it('behind one whose end is unknown begins nobody knows where', () => {
    const [, second] = wallOf(read(`work on F\n  panel P 0" to unknown\n  panel Q to 8'-0"\n`)).panels;
    expect(second).toMatchObject({ name: 'Q', stretch: undefined });
  });

  it('stands in order of station, one without a place last', () => {
    const { panels } = wallOf(
      read(`work on F\n  panel C 0" to unknown\n  panel B 9'-0" to 12'-0"\nwork on F\n  panel A 0" to 4'-0"\n`),
    );
    expect(panels.map((each) => each.name)).toEqual(['A', 'B', 'C']);
  });

  it('half typed is kept and told, and its neighbours are read', () => {
    const project = read(`work on F\n  panel P\n  panel Q 4'-0" to 12'-\n  panel R 12'-0" to 16'-0"\n`);
    expect(project.problems.length).toBeGreaterThan(0);
    expect(wallOf(project).panels.find((each) => each.name === 'R')?.stretch).toEqual({
      from: length(`12'-0"`),
      to: length(`16'-0"`),
    });
    expect(wallOf(project).panels.find((each) => each.name === 'Q')).toMatchObject({ stretch: undefined });
  });

  it.each([
    [`panel P 0" to 4'-0" OSB 7/16" plywood 15/32"`, 'repeated-word at plywood 15/32"'],
    [`panel P 4'-0" to 4'-0"`, `wrong-kind at 4'-0" to 4'-0"`],
    [`panel P 8'-0" to 4'-0"`, `backward-stretch at 8'-0" to 4'-0"`],
    [`panel P 20'-0" to 25'-0"`, `geometry/station-outside-wall at 25'-0"`],
    [`panel P 0" to 4`, 'no-unit at 4'],
    [`panel P 0" to 4'-0" nailers nails 4 16d spaced 6"`, 'wrong-kind at nails 4 16d spaced 6"'],
  ])('%s is a finding at its place', (line, finding) => {
    expect(told(read(`work on F\n  ${line}\n`))).toEqual([finding]);
  });

  it('is never proposed by `typical`', () => {
    expect(told(read('', 'typical\n  panel plywood 15/32" proposed\n'))).toEqual(['wrong-kind at proposed']);
  });
});

describe('ties', () => {
  it('land with their connector, member and dimensions, in order of station', () => {
    const project = read(`work on F
  strap F-S1 tie-rod at 9'-0" on post both-sides
  hold-down F-H1 tie-rod at 1'-0" on double-stud embed 8" offset 3" shim 1/4" right-angle-drill proposed with washer-3 note "asked for"
`);
    expect(messages(project)).toEqual([]);
    const [holdDown, strap] = wallOf(project).ties;
    expect(holdDown).toMatchObject({
      id: 'F/hold-down:F-H1',
      kind: 'hold-down',
      name: 'F-H1',
      connectorName: 'tie-rod',
      connector: { kind: 'hold-down' },
      station: length(`1'-0"`),
      member: 'double-stud',
      rightAngleDrill: true,
      proposed: true,
      state: 'planned',
      withHardware: [{ name: 'washer-3', connector: { kind: 'plate-washer' } }],
      tags: { notes: ['asked for'] },
    });
    expect([holdDown?.embed, holdDown?.offset, holdDown?.shim].map(known)).toEqual(['8"', '3"', '1/4"'].map(length));
    expect(strap).toMatchObject({ kind: 'strap', member: 'post', bothSides: true, proposed: false });
  });

  it('whose connector nobody knows are told with the nearest name, and kept', () => {
    const project = read(`work on F\n  hold-down H tie-rodd at 1'-0"\n`);
    expect(told(project)).toEqual(['unresolved-name at tie-rodd']);
    expect(project.problems[0]?.replacements.map((each) => each.text)).toEqual(['tie-rod']);
    expect(wallOf(project).ties).toMatchObject([{ name: 'H', connectorName: 'tie-rodd', connector: undefined }]);
  });

  it('without a legible station are kept', () => {
    const project = read('work on F\n  hold-down H tie-rod at unknown\n  strap S tie-rod at 12\n');
    expect(told(project)).toEqual(['no-unit at 12']);
    expect(wallOf(project).ties.map((each) => [each.name, each.station])).toEqual([
      ['H', undefined],
      ['S', undefined],
    ]);
  });

  it('say once on what they stand', () => {
    expect(told(read(`work on F\n  hold-down H tie-rod at 1' on post on single-stud\n`))).toEqual([
      'repeated-word at on single-stud',
    ]);
  });
});

describe('what comes with an anchor', () => {
  it('is a piece from the hardware file, or a kind of fastener', () => {
    const project = read(`work on F
  anchor F-1 flat-plate with wedge-anchor at 4'-0"
  anchor F-2 bolt-half at 9'-0" with washer-3 right-angle-drill both-sides
  anchor F-3 bolt-half at 11'-0"
  angles F-A angle-8 every bay with wedge-anchor shim 1/8" proposed
`);
    expect(messages(project)).toEqual([]);
    const [first, second, third] = wallOf(project).anchors;
    expect(first?.withHardware).toMatchObject([
      { name: 'wedge-anchor', connector: undefined, fastenerKind: 'wedge-anchor' },
    ]);
    expect(second).toMatchObject({
      bothSides: true,
      rightAngleDrill: true,
      withHardware: [{ name: 'washer-3', connector: { kind: 'plate-washer' }, fastenerKind: undefined }],
    });
    expect(third && 'withHardware' in third).toBe(false);
    expect(wallOf(project).angles[0]).toMatchObject({ proposed: true, withHardware: [{ name: 'wedge-anchor' }] });
  });

  it('is told where nothing in sight has that name', () => {
    const project = read(`work on F\n  anchor F-1 flat-plate with wedge-ancor at 4'-0"\n`);
    expect(told(project)).toEqual(['unresolved-name at wedge-ancor']);
    expect(project.problems[0]?.replacements.map((each) => each.text)).toEqual(['wedge-anchor']);
    expect(wallOf(project).anchors[0]?.withHardware).toMatchObject([
      { name: 'wedge-ancor', connector: undefined, fastenerKind: undefined },
    ]);
  });
});

describe('new blocks and studs', () => {
  it('keep their size, nails and whether the tool put them there', () => {
    const project = read(`work on F
  blocking bays 2, 3 2x10 nails 3 8d common note "tight"
  blocking odd bays size 1-1/2" x 7-1/2" proposed
  stud at 3'-0", 4'-0" 2x4 proposed
`);
    expect(messages(project)).toEqual([]);
    expect(wallOf(project).blocking).toMatchObject([
      {
        layer: 'design',
        bays: { kind: 'numbers', numbers: [2, 3] },
        size: { nominal: '2x10' },
        nails: { count: 3, penny: 8, kind: 'common' },
        tags: { notes: ['tight'] },
      },
      { layer: 'design', bays: { kind: 'odd' }, proposed: true },
    ]);
    expect(wallOf(project).studs.map((each) => [each.station, each.size?.nominal, each.layer, each.proposed])).toEqual([
      [length(`3'-0"`), '2x4', 'design', true],
      [length(`4'-0"`), '2x4', 'design', true],
    ]);
  });
});

describe('words that mean nothing on a line', () => {
  it.each([
    [`angles F-A angle-8 every bay embed 4"`, 'embed 4"'],
    ['angles F-A angle-8 every bay right-angle-drill', 'right-angle-drill'],
    ['blocking every bay shim 1/8"', 'shim 1/8"'],
    ['stud at 3\' offset 1"', 'offset 1"'],
    ['remove X4 proposed', 'proposed'],
    ['remove X4 washer-3', 'washer-3'],
    [`replace joist at 4'-0" set-back 1"`, 'set-back 1"'],
    [`sister sill F1 0" to 3'-0" headroom 9"`, 'headroom 9"'],
  ])('are told: %s', (line, at) => {
    const project = read(`work on F\n  ${line}\n`);
    expect(told(project)).toEqual([`wrong-kind at ${at}`]);
    expect(project.problems[0]?.severity).toBe('warning');
  });

  it('are told once where the stretch of a row of angles is half typed, and the row does not run along the whole wall', () => {
    const project = read(`work on F\n  angles F-A angle-8 0" to every bay\n`);
    expect(project.problems).toHaveLength(1);
    expect(wallOf(project).angles.flatMap((each) => each.stations)).toEqual([]);
  });

  it('are told where a spacing makes no row of angles', () => {
    expect(told(read('work on F\n  angles F-A angle-8 spaced 0"\n'))).toEqual(['wrong-kind at 0"']);
  });
});

describe('marks', () => {
  it.each([
    [`  panel M 0" to 4'-0"\n  panel M 4'-0" to 8'-0"`, 'M'],
    [`  hold-down M tie-rod at 1'\n  hold-down M tie-rod at 9'`, 'M'],
    [`  anchor M bolt-half at 1'\n  panel M 4'-0" to 8'-0"`, 'M'],
    [`  strap M tie-rod at 1'\n  angles M angle-8 every bay`, 'M'],
    [`  panel M 0" to 4'-0"\nwork on GD\n  cap M cap-plates on P1`, 'M'],
    ['work on GD\n  base m base-angle on P1\n  cap M cap-plates on P1', 'M'],
  ])('stand once in a house: %s', (lines, mark) => {
    const project = read(lines.startsWith('work') ? `${lines}\n` : `work on F\n${lines}\n`);
    expect(told(project).map((each) => each.toLowerCase())).toEqual([
      `geometry/duplicate-mark at ${mark.toLowerCase()}`,
    ]);
    expect(project.problems[0]?.related).toHaveLength(1);
  });

  it('of panels, ties and post hardware get their state from the record', () => {
    const project = read(`work on F
  panel F-P1 0" to 4'-0"
  hold-down F-H1 tie-rod at 1'-0"
work on GD
  cap C1 cap-plates on P1
  base B1 base-angle on P1
record 2026-06-10
  installed F-P1, C1 as planned
  omitted F-H1 because "post is rotten"
`);
    expect(messages(project)).toEqual([]);
    expect(wallOf(project).panels[0]?.state).toBe('installed');
    expect(wallOf(project).ties[0]?.state).toBe('omitted');
    expect(girderOf(project).posts[0]?.hardware.map((each) => [each.name, each.state])).toEqual([
      ['C1', 'installed'],
      ['B1', 'planned'],
    ]);
  });
});

describe('remedies on a wall', () => {
  it('take out, give up, move, mend and washer what was found, and rules see it', () => {
    const project = read(`work on F
  remove F.X4 note "burn off flush"
  grout X4
  relocate GP
  remove S1
  repair CJ
  repair crack
  washer X5 washer-3
  shore F1
`);
    expect(messages(project)).toEqual([]);
    const wall = wallOf(project);
    expect(wall.remedies.map((each) => [each.id, each.target])).toEqual([
      ['F/remove:X4', 'F/found-anchor:X4'],
      ['F/grout:X4', 'F/found-anchor:X4'],
      ['F/relocate:GP', 'F/gas-pipe:GP'],
      ['F/remove:S1', 'F/stack:S1'],
      ['F/repair:CJ', 'F/cold-joint:CJ'],
      ['F/repair:crack', 'F/crack:#1'],
      ['F/washer:X5', 'F/found-anchor:X5'],
      ['F/shore:F1', 'F/sill:F1'],
    ]);
    expect(remedyOf(wall.remedies, 'remove').tags.notes).toEqual(['burn off flush']);
    expect(remedyOf(wall.remedies, 'relocate')).toMatchObject({ byLicensedTrade: true });
    expect(remedyOf(wall.remedies, 'washer')).toMatchObject({
      connectorName: 'washer-3',
      connector: { kind: 'plate-washer' },
    });
    expect(wall.foundAnchors.map((each) => [each.name, each.states, each.newWasher?.name])).toEqual([
      ['X4', ['heavy-rust', 'to-be-removed', 'abandoned'], undefined],
      ['X5', ['sound'], 'washer-3'],
    ]);
    expect(wall.obstructions.map((each) => [each.name, each.remedied])).toEqual([
      ['V1', undefined],
      ['GP', 'relocated'],
      ['S1', 'removed'],
    ]);
    expect(wall.defects.map((each) => [each.kind, each.remedied])).toEqual([
      ['rot', false],
      ['cold-joint', true],
      ['crack', true],
    ]);
  });

  it.each([
    ['remove X9', 'unresolved-name at X9'],
    ['remove V1', 'wrong-kind at V1'],
    ['relocate X4', 'wrong-kind at X4'],
    ['grout CJ', 'wrong-kind at CJ'],
    ['washer CJ washer-3', 'wrong-kind at CJ'],
    ['washer X5 bolt-half', 'wrong-kind at bolt-half'],
    ['washer X5 washer-4', 'unresolved-name at washer-4'],
    ['washer X5', 'missing-part at washer X5'],
    ['pad F1', 'wrong-kind at F1'],
    ['remove F1', 'wrong-kind at F1'],
    ['remove X4\n  remove x4', 'repeated-word at x4'],
    ['remove GP\n  relocate GP', 'repeated-word at GP'],
    ['replace post P1 6x6', 'wrong-kind at replace post P1 6x6'],
    ['replace joist J3', 'missing-part at J3'],
    ['replace stud', 'missing-part at replace stud'],
    ['cap C1 cap-plates on P1', 'wrong-kind at cap C1 cap-plates on P1'],
    ['replace sill F9 0" to 3\'', 'unresolved-name at F9'],
    [`replace sill F1 at 3'-0"`, `missing-part at replace sill F1 at 3'-0"`],
    [`replace sill F1 12'-0" to 14'-0"`, `wrong-kind at replace sill F1 12'-0" to 14'-0"`],
    [`replace sill F1 8'-0" to 14'-0"`, `overlapping-stretches at 8'-0" to 14'-0"`],
  ])('that cannot be done are told: %s', (line, finding) => {
    expect(told(read(`work on F\n  ${line}\n`))).toEqual([finding]);
  });

  it('name the nearest thing that the verb can be done to', () => {
    const project = read('work on F\n  relocate GPP\n');
    expect(project.problems.flatMap((each) => each.replacements.map((one) => one.text))).toEqual(['GP']);
    expect(wallOf(project).remedies).toMatchObject([{ verb: 'relocate', on: { name: 'GPP' }, target: undefined }]);
  });

  it('leave what was found as it was where they cannot be done', () => {
    const wall = wallOf(read('work on F\n  remove V1\n  washer X5 bolt-half\n  grout CJ\n'));
    expect(wall.obstructions.every((each) => each.remedied === undefined)).toBe(true);
    expect(wall.foundAnchors.every((each) => each.newWasher === undefined)).toBe(true);
    expect(wall.defects.every((each) => !each.remedied)).toBe(true);
    expect(wall.remedies).toHaveLength(3);
  });

  it('ask which of two defects without a name is meant', () => {
    const project = read('work on F\n  repair crack\n', '').layout;
    expect(project.walls[0]?.defects.filter((each) => each.remedied)).toHaveLength(1);
    const two = readLayout(
      survey.replace(`crack at 3'-0" width 1/8"`, `crack at 3'-0", 5'-0"`).concat('work on F\n  repair crack\n'),
    );
    expect(told(two)).toEqual(['unresolved-name at crack']);
    expect(wallOf(two).defects.every((each) => !each.remedied)).toBe(true);
  });

  it('make room: what comes out or moves away, and a mended crack, bar no new anchor', () => {
    const blockedAt = (work: string, station: string) => {
      const { layout } = read(work);
      const wall = layout.walls[0];
      const piece = wall?.pieces.find((each) => each.from <= length(station) && length(station) <= each.to);
      const connector = layout.connectors.get('flat-plate');
      if (!wall || !connector) throw new Error('no wall or connector');
      return fitAt({ layout, wall, piece, connector }, length(station)).blocked.map((each) => each.thing);
    };
    expect(blockedAt('', `15'-0"`)).toContain('F/gas-pipe:GP');
    expect(blockedAt('work on F\n  relocate GP\n', `15'-0"`)).not.toContain('F/gas-pipe:GP');
    expect(blockedAt('', `18'-3"`)).toContain('F/stack:S1');
    expect(blockedAt('work on F\n  remove S1\n', `18'-3"`)).not.toContain('F/stack:S1');
    expect(blockedAt('', `12'-0"`)).toContain('F/cold-joint:CJ');
    expect(blockedAt('work on F\n  repair CJ\n', `12'-0"`)).not.toContain('F/cold-joint:CJ');
    // An opening stays one, whatever is written.
    expect(blockedAt('work on F\n  remove V1\n', `7'-6"`)).toContain('F/vent:V1');
  });

  it('take the credit from an old anchor that comes out or is given up, and leave it to one that gets a washer', () => {
    const counted = (work: string) => {
      const wall = wallOf(read(work));
      return wall.pieces.flatMap((piece) => anchorsOf(wall, piece).map((each) => each.words));
    };
    expect(counted('')).toEqual(['X5']);
    expect(counted('work on F\n  remove X5\n')).toEqual([]);
    expect(counted('work on F\n  grout X5\n')).toEqual([]);
    expect(counted('work on F\n  washer X5 washer-3\n')).toEqual(['X5']);
  });

  it('replace a board: both parts of the old one get true ends, and the rot under the new one bars nothing', () => {
    const project = read(
      `work on F\n  replace sill F1 0" to 4'-0" size 2x6 treated species hem-fir note "cut clean"\n`,
    );
    expect(messages(project)).toEqual([]);
    const wall = wallOf(project);
    expect(wall.pieces.map((each) => [each.name, each.from, each.to, each.layer])).toEqual([
      ['F1-new', 0, length(`4'-0"`), 'design'],
      ['F1', length(`4'-0"`), length(`10'-0"`), 'survey'],
      ['F2', length(`10'-0"`), length(`24'-0"`), 'survey'],
    ]);
    expect(wall.defects.find((each) => each.kind === 'rot')?.remedied).toBe(true);
    expect(wall.remedies).toMatchObject([
      {
        verb: 'replace',
        what: 'sill',
        target: 'F/sill:F1',
        stretch: { from: 0, to: length(`4'-0"`) },
        size: { nominal: '2x6' },
        treated: true,
        species: 'hem-fir',
        tags: { notes: ['cut clean'] },
      },
    ]);
  });

  it('replace all the sill of a wall where no board and no stretch is named', () => {
    const wall = wallOf(read('work on F\n  replace sill size 2x6 treated\n'));
    expect(wall.pieces.map((each) => [each.from, each.to, each.layer])).toEqual([[0, length(`24'-0"`), 'design']]);
  });

  it('say nothing of new wood that its line does not say, but for its size and place', () => {
    const [board] =
      readLayout(
        `wall A length 8'-0"\n  sill set-back 1" headroom 9" size 2x6 untreated species redwood rotten\nwork on A\n  replace sill 0" to end\n`,
      ).layout.walls[0]?.pieces ?? [];
    expect(board).toMatchObject({
      layer: 'design',
      size: { nominal: '2x6' },
      treated: undefined,
      species: undefined,
      conditions: [],
    });
  });

  it('carry on the slope of the old board where the new one lies, and its joint only at its own end', () => {
    const wall = (line: string) =>
      readLayout(
        `wall A length 16'-0"\n  sill A1 to 8'-0" size 2x6 set-back 0" to 2" headroom 9" half-lap 4"\n  sill A2 7'-8" to end size 2x6 set-back 2" headroom 9"\nwork on A\n  ${line}\n`,
      ).layout.walls[0];
    const [fresh, rest] = wall(`replace sill A1 0" to 4'-0"`)?.pieces ?? [];
    expect(fresh).toMatchObject({ layer: 'design', joint: 'butt', jointLength: undefined });
    expect(fresh?.setBack?.points.map((point) => known(point.value))).toEqual(['0"', '1"'].map(length));
    expect(rest).toMatchObject({ name: 'A1', joint: 'half-lap', from: length(`4'-0"`) });
    const [left, right] = wall(`replace sill 4'-0" to 6'-0"`)?.pieces ?? [];
    expect(left).toMatchObject({ name: 'A1', to: length(`4'-0"`), joint: 'butt', jointLength: undefined });
    expect(right).toMatchObject({ layer: 'design', size: { nominal: '2x6' } });
    expect(right?.setBack?.points.map((point) => known(point.value))).toEqual(['1"', '1-1/2"'].map(length));
  });

  it.each([`replace sill F1 0" to`, 'replace sill F1 0"', 'replace sill F1 at', 'replace sill', 'sister sill F1 to'])(
    'half typed do nothing to the board yet: %s',
    (line) => {
      const project = read(`work on F\n  ${line}\n`);
      expect(project.problems).toHaveLength(1);
      const { pieces } = wallOf(project);
      expect(pieces.map((each) => [each.name, each.layer, each.sistered])).toEqual([
        ['F1', 'survey', undefined],
        ['F2', 'survey', undefined],
      ]);
    },
  );

  it('give a wall that has no sill a new one', () => {
    const project = readLayout(`wall A length 8'-0"\n  no sill\nwork on A\n  replace sill size 2x6 treated\n`);
    expect(wallOf(project).pieces).toMatchObject([{ layer: 'design', from: 0, to: length(`8'-0"`) }]);
  });

  it('count a defect as gone only where new wood lies over all of it', () => {
    const rotOf = (lines: string) => wallOf(read(`work on F\n${lines}`)).defects.find((each) => each.kind === 'rot');
    expect(rotOf(`  replace sill F1 0" to 1'-0"\n`)?.remedied).toBe(false);
    expect(rotOf(`  replace sill F1 0" to 1'-0"\n  replace sill F1 1'-0" to 2'-0"\n`)?.remedied).toBe(true);
    expect(rotOf(`  replace sill F1 0" to unknown\n`)?.remedied).toBe(false);
  });

  it('sister a board: the old one stays whole with its ends, and the rot beside the new wood bars nothing', () => {
    const project = read(
      `work on F\n  sister sill F1 0" to 3'-0" size 2x6 treated\n  sister sill 9'-0" to 12'-0" 2x4\n`,
    );
    expect(messages(project)).toEqual([]);
    const wall = wallOf(project);
    expect(
      wall.pieces.map((each) => [each.name, each.layer, each.sistered?.map(({ from, to }) => [from, to])]),
    ).toEqual([
      [
        'F1',
        'survey',
        [
          [0, length(`3'-0"`)],
          [length(`9'-0"`), length(`10'-0"`)],
        ],
      ],
      ['F2', 'survey', [[length(`10'-0"`), length(`12'-0"`)]]],
    ]);
    expect(wall.pieces[0]?.sistered?.[0]).toMatchObject({ size: { nominal: '2x6' }, treated: true });
    expect(wall.defects.find((each) => each.kind === 'rot')?.remedied).toBe(true);
    expect(wall.remedies.map((each) => [each.verb, each.target])).toEqual([
      ['sister', 'F/sill:F1'],
      ['sister', undefined],
    ]);
  });

  it('replace and sister joists and studs by their place, each place a remedy of its own', () => {
    const project = read(`work on F
  replace joist at 5'-1", 8'-0" 2x8
  sister joist at 12 mm 2x8 treated
  replace stud 3'-0" to 4'-0" 2x4
`);
    expect(messages(project)).toEqual([]);
    expect(wallOf(project).remedies).toMatchObject([
      {
        verb: 'replace',
        what: 'joist',
        target: 'F/joist:#1',
        stretch: { from: length(`5'-1"`) },
        size: { nominal: '2x8' },
      },
      { verb: 'replace', what: 'joist', target: undefined, stretch: { from: length(`8'-0"`) } },
      { verb: 'sister', what: 'joist', stretch: { from: 12_000_000 }, treated: true },
      { verb: 'replace', what: 'stud', stretch: { from: length(`3'-0"`), to: length(`4'-0"`) } },
    ]);
  });
});

describe('work on a girder', () => {
  it('puts hardware on posts and does to them what it says', () => {
    const project = read(`work on GD
  cap C1 cap-plates on P1 both-sides shim 15/16" with washer-3 note "old cap stays"
  base B1 base-angle on p1 proposed
  shore P2 note "before the pier is touched"
  replace post P2 6x6 treated
  pad P2
`);
    expect(messages(project)).toEqual([]);
    const girder = girderOf(project);
    const [p1, p2] = girder.posts;
    expect(p1?.hardware).toMatchObject([
      {
        id: 'GD/cap:C1',
        role: 'cap',
        connectorName: 'cap-plates',
        connector: { kind: 'post-cap' },
        bothSides: true,
        withHardware: [{ name: 'washer-3' }],
        state: 'planned',
        tags: { notes: ['old cap stays'] },
      },
      { role: 'base', name: 'B1', connector: { kind: 'post-base' }, bothSides: false, proposed: true },
    ]);
    expect(known(p1?.hardware[0]?.shim)).toBe(length('15/16"'));
    expect(p2).toMatchObject({
      size: { nominal: '4x4' },
      remedied: { how: 'replaced', size: { nominal: '6x6' } },
      shored: true,
      newPad: true,
    });
    expect(girder.remedies?.map((each) => [each.verb, each.target])).toEqual([
      ['shore', 'GD/post:P2'],
      ['replace', 'GD/post:P2'],
      ['pad', 'GD/post:P2'],
    ]);
    expect(p1 && ('remedied' in p1 || 'shored' in p1)).toBe(false);
  });

  it('finds a post by its place', () => {
    const girder = girderOf(read(`work on GD\n  replace post at 12'-0" 6x6\n  remove P1\n`));
    expect(girder.posts.map((each) => each.remedied?.how)).toEqual(['removed', 'replaced']);
  });

  it.each([
    ['shore P9', 'unresolved-name at P9'],
    ['replace post P9 6x6', 'unresolved-name at P9'],
    [`replace post at 9'-0" 6x6`, `unresolved-name at replace post at 9'-0" 6x6`],
    ['replace post 6x6', 'missing-part at replace post 6x6'],
    ['washer P1 washer-3', 'wrong-kind at P1'],
    ['remove P1\n  replace post P1 6x6', 'repeated-word at P1'],
    ['cap C1 cap-plates on P9', 'unresolved-name at P9'],
    ['cap C1 cap-plate on P1', 'unresolved-name at cap-plate'],
    ['cap C1 cap-plates on P1 embed 4"', 'wrong-kind at embed 4"'],
    [`anchor A bolt-half at 3'-0"`, `wrong-kind at anchor A bolt-half at 3'-0"`],
    [`panel P 0" to 4'-0"`, `wrong-kind at panel P 0" to 4'-0"`],
    [`stud at 3'-0", 4'-0"`, `wrong-kind at stud at 3'-0", 4'-0"`],
    [`replace joist at 3'-0"`, `wrong-kind at replace joist at 3'-0"`],
  ])('tells what cannot be done there: %s', (line, finding) => {
    expect(told(read(`work on GD\n  ${line}\n`))).toEqual([finding]);
  });

  it('keeps why nothing is done, what is accepted, and its notes', () => {
    const girder = girderOf(
      read(`work on GD
  note "ask the owner first"
  no work because "posts replaced in 2019" by "designer"
  accept posts/cap-missing at 6'-0", 12'-0" because "owner's engineer"
`),
    );
    expect(girder.noWork).toMatchObject({ reason: 'posts replaced in 2019', tags: { by: 'designer' } });
    expect(girder.accepted?.map((each) => [each.rule, each.station])).toEqual([
      ['posts/cap-missing', length(`6'-0"`)],
      ['posts/cap-missing', length(`12'-0"`)],
    ]);
    expect(girder.workBlocks).toMatchObject([{ tags: { notes: ['ask the owner first'] } }]);
  });
});

describe('notes, photos and questions in work', () => {
  it('reach the survey list and the block that they stand in', () => {
    const project = read(`work on F
  note "start at the hatch" photo 3
  photo 12 "old panel"
  ask "is the vent needed?"
work on GD
  ask "who shores?"
work on Z
  ask "which wall is Z?"
`);
    expect(project.layout.questions.map((each) => [each.text, each.about])).toEqual(
      expect.arrayContaining([
        ['is the vent needed?', 'wall:F'],
        ['who shores?', 'girder:GD'],
        ['which wall is Z?', undefined],
      ]),
    );
    expect(project.layout.questions).toHaveLength(3);
    const [block] = wallOf(project).workBlocks;
    expect(block?.tags?.notes).toEqual(expect.arrayContaining(['start at the hatch']));
    expect(block?.tags?.photos).toEqual(expect.arrayContaining([3, 12]));
    expect(told(project)).toEqual(['unresolved-name at Z']);
  });

  it('stay out of blocks that have none', () => {
    const [block] = wallOf(read('work on F\n  no work because "agreed"\n')).workBlocks;
    expect(block && 'tags' in block).toBe(false);
  });
});

describe('a line of work', () => {
  const forms = readFileSync(join(import.meta.dirname, '../syntax/samples/every-form.sill'), 'utf8');
  const lines = (/^work on GD\n((?: {2}.*\n)+)/m.exec(forms)?.[1] ?? '').trimEnd().split('\n');

  /** Where something in the model, or a problem, has its text. */
  function starts(project: Project): ReadonlySet<number> {
    const places = new Set<number>();
    const seen = new Set<unknown>();
    const visit = (value: unknown): void => {
      if (typeof value !== 'object' || value === null || seen.has(value)) return;
      seen.add(value);
      if ('block' in value && 'start' in value && 'end' in value) {
        const place = project.locate(value as SourceSpan);
        if (place?.file === MAIN) places.add(place.start);
        return;
      }
      for (const each of value instanceof Map ? value.values() : Object.values(value)) visit(each);
    };
    visit({ walls: project.layout.walls, girders: project.layout.girders, problems: project.problems });
    return places;
  }

  it('is one of many forms', () => {
    expect(lines.length).toBeGreaterThan(25);
  });

  it.each(['F', 'GD'])('lands in the model or is told, whatever its form: on %s', (owner) => {
    const project = read(`work on ${owner}\n${lines.join('\n')}\n`);
    const places = starts(project);
    const text = project.main.text.toString();
    const silent = lines.filter((line) => {
      const start = text.indexOf(line, text.indexOf('work on'));
      return ![...places].some((place) => start <= place && place <= start + line.length);
    });
    expect(silent).toEqual([]);
  });

  it('cut short anywhere costs no other line', () => {
    fc.assert(
      fc.property(fc.constantFrom(...lines), fc.nat({ max: 120 }), (line, at) => {
        const cut = line.slice(0, 2 + (at % Math.max(1, line.length - 1)));
        const wall = wallOf(
          read(`work on F\n  panel First 0" to 4'-0"\n${cut}\n  hold-down Last tie-rod at 23'-0" on post\n`),
        );
        expect(wall.panels.find((each) => each.name === 'First')?.stretch).toEqual({ from: 0, to: length(`4'-0"`) });
        expect(wall.ties.find((each) => each.name === 'Last')).toMatchObject({
          station: length(`23'-0"`),
          member: 'post',
        });
      }),
      { numRuns: 300, seed: 20_260_612 },
    );
  });
});

describe('an edit in a work block', () => {
  it('makes anew only the wall that it is on, panels, ties and remedies included', () => {
    const more = `wall G length 12'-0"\n  sill set-back 0" headroom 11"\n  rot 1'-0" to 2'-0"\nwork on G\n  panel G-P1 0" to 4'-0"\n  sister sill 0" to 3'-0"\n`;
    let text = `${survey}${more}work on F\n  panel F-P1 0" to 4'-0"\n  remove X4\n`;
    const reader = createProjectReader({
      read: () => ({ text }),
      resolve: (_from, path) => ({ file: path }),
    });
    const before = reader.read(MAIN).layout.walls;
    text = text.replace('remove X4', 'grout X4');
    const after = reader.read(MAIN).layout.walls;
    expect(after.map((each, index) => [each.name, each === before[index]])).toEqual([
      ['F', false],
      ['G', true],
    ]);
    expect(after[0]?.foundAnchors[0]?.states).toEqual(['heavy-rust', 'abandoned']);
    expect(after[1]?.defects[0]?.remedied).toBe(true);
  });
});

describe('the designed demo house', () => {
  const project = createProjectReader(exampleHost).read('maple-designed.sill');
  const wall = (name: string): Wall => {
    const found = project.layout.walls.find((each) => each.name === name);
    if (!found) throw new Error(`no wall ${name}`);
    return found;
  };

  it('has every panel, with the typical nailing', () => {
    expect(project.layout.walls.flatMap((each) => each.panels.map((panel) => panel.name))).toEqual([
      'A-P1',
      'A-P2',
      'A-P3',
      'F-P1',
      'F-P2',
      'F-P3',
      'F-P4',
    ]);
    for (const panel of [...wall('A').panels, ...wall('F').panels]) {
      expect(panel).toMatchObject({
        board: { kind: 'plywood' },
        nails: { penny: 8 },
        nailers: { size: { nominal: '2x4' }, nails: { count: 4, penny: 16 } },
        ventHoles: { pattern: 'top-and-bottom' },
      });
      expect(known(panel.nails?.edge)).toBe(length('4"'));
    }
    expect(wall('A').panels[0]?.flatBlock?.nominal).toBe('2x4');
    expect(wall('F').panels[3]?.stretch).toEqual({ from: length(`32'-0"`), to: length(`36'-4 3/8"`) });
  });

  it('has its hold-down, its post hardware and every remedy', () => {
    expect(wall('A').ties).toMatchObject([
      { kind: 'hold-down', name: 'A-H1', connector: { kind: 'hold-down' }, member: 'double-stud' },
    ]);
    expect(
      project.layout.girders.flatMap((each) =>
        each.posts.flatMap((post) => post.hardware.map((one) => [post.name, one.name])),
      ),
    ).toEqual([
      ['P1', 'GD-C1'],
      ['P2', 'GD-C2'],
      ['P5', 'GD-B5'],
    ]);
    expect(project.layout.walls.flatMap((each) => each.remedies.map((one) => [one.id, one.target]))).toEqual([
      ['E/replace-sill:E1', 'E/sill:E1'],
      ['F/remove:X4', 'F/found-anchor:X4'],
      ['F/washer:X5', 'F/found-anchor:X5'],
    ]);
    expect(
      wall('F').foundAnchors.map((each) => [each.name, each.states.includes('to-be-removed'), each.newWasher?.name]),
    ).toEqual(
      expect.arrayContaining([
        ['X4', true, undefined],
        ['X5', false, 'washer-3'],
      ]),
    );
    const [girder] = project.layout.girders;
    expect(girder?.remedies?.map((each) => each.verb)).toEqual(['shore', 'replace']);
    expect(girder?.posts.find((post) => post.name === 'P5')).toMatchObject({
      shored: true,
      remedied: { how: 'replaced', size: { thick: { kind: 'known' } } },
    });
    expect(wall('C').noWork?.reason).toContain('1948 bolts');
  });
});
