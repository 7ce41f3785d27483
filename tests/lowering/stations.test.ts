import { describe, expect, it } from 'vitest';
import { feet, inches } from '../../language/domain/units/length.ts';
import { readLayout } from '../support/read-layout.ts';

const wallOf = (body: string, heading = `wall F length 20'`) => {
  const project = readLayout(`${heading}\n${body}`);
  const wall = project.layout.walls[0];
  if (!wall) throw new Error('no wall');
  return { wall, problems: project.problems };
};

describe('stations', () => {
  it('count from the left end, from the right end, and from the edges of a thing', () => {
    const { wall, problems } = wallOf(`  vent V1 4' to 5'
  pipe P1 at 7" right of V1 wide 2"
  pipe P2 at 7" left of V1
  pipe P3 at 3' from right
  window W start to 2'
  door D 18' to end`);
    expect(problems).toEqual([]);
    const stretch = (name: string) => wall.obstructions.find((each) => each.name === name)?.stretch;
    expect(stretch('P1')).toEqual({ from: feet(5) + inches(6), to: feet(5) + inches(8) });
    expect(stretch('P2')).toEqual({ from: feet(4) - inches(7), to: feet(4) - inches(7) });
    expect(stretch('P3')).toEqual({ from: feet(17), to: feet(17) });
    expect(stretch('W')).toEqual({ from: 0, to: feet(2) });
    expect(stretch('D')).toEqual({ from: feet(18), to: feet(20) });
  });

  it('measured from each other in a circle are told, and nothing hangs', () => {
    const { wall, problems } = wallOf(`  pipe P1 at 7" right of P2
  pipe P2 at 7" right of P1`);
    expect(problems.map((problem) => problem.code)).toContain('unresolved-name');
    expect(wall.obstructions.map((each) => each.stretch)).toEqual([undefined, undefined]);
  });

  it('from a thing that is not there are told at its name', () => {
    const { problems } = wallOf(`  pipe P1 at 7" right of V9`);
    expect(problems.map((problem) => [problem.code, problem.message])).toEqual([
      ['unresolved-name', 'Nothing called `V9` with a place on wall F.'],
    ]);
  });

  it('at the end of a wall without a length are told once', () => {
    const { wall, problems } = wallOf(`  vent V1 4' to end\n  vent V2 at 2' from right`, 'wall F');
    expect(problems.map((problem) => problem.code)).toEqual(['missing-part']);
    expect(wall.obstructions).toHaveLength(2);
  });

  it('a bare number is questioned with what to write instead, and the thing stays in the list', () => {
    const { wall, problems } = wallOf(`  vent V1 at 12 wide 16"`);
    expect(problems.map((problem) => problem.message)).toEqual([`12 what? Write 12", 12' or 12 mm.`]);
    expect(problems[0]?.replacements.map((each) => each.text)).toEqual([`12"`, `12'`, '12 mm']);
    expect(wall.obstructions).toHaveLength(1);
  });

  it('inches without their mark are questioned whole, not cut at the fraction', () => {
    const { problems } = wallOf('  vent V1 at 3-1/2 wide 16"');
    expect(problems.map((problem) => problem.code)).toEqual(['no-unit']);
    expect(problems[0]?.replacements[0]?.text).toBe('3-1/2"');
  });

  it('a stretch that ends before it begins is told and read the other way round', () => {
    const { wall, problems } = wallOf(`  vent V1 5' to 4'`);
    expect(problems.map((problem) => problem.code)).toEqual(['backward-stretch']);
    expect(wall.obstructions[0]?.stretch).toEqual({ from: feet(4), to: feet(5) });
  });
});

describe('stretches and defaults', () => {
  it('`to X` begins where the stretch of its kind above ended', () => {
    const { wall } = wallOf(
      `  sill S1 to 8' butt\n  sill S2 to end\n  foundation to 5' thick 6"\n  foundation to end thick 8"`,
    );
    expect(wall.pieces.map((piece) => [piece.from, piece.to])).toEqual([
      [0, feet(8)],
      [feet(8), feet(20)],
    ]);
    expect(wall.foundation.map((each) => [each.from, each.to])).toEqual([
      [0, feet(5)],
      [feet(5), feet(20)],
    ]);
  });

  it('a line with a stretch wins over a line for the whole wall, and that over `typical`', () => {
    const { layout } = readLayout(`typical
  foundation concrete thick 6" strength assume 2000 psi
wall F length 20'
  foundation showing 18"
  foundation 5' to 10' thick 8"`);
    const stretches = layout.walls[0]?.foundation ?? [];
    expect(
      stretches.map((each) => [each.from, each.to, each.thick?.points[0]?.value, each.showing !== undefined]),
    ).toMatchObject([
      [0, feet(5), { value: inches(6) }, true],
      [feet(5), feet(10), { value: inches(8) }, true],
      [feet(10), feet(20), { value: inches(6) }, true],
    ]);
  });

  it('`break at` cuts the board in two; a lap is centred on it', () => {
    const { wall } = wallOf(`  sill S set-back 0"\n  break at 8' half-lap 4"\n  break at 14'`);
    expect(wall.pieces.map((piece) => [piece.name, piece.from, piece.to, piece.joint])).toEqual([
      ['S', 0, feet(8) + inches(2), 'half-lap'],
      ['S(2)', feet(8) - inches(2), feet(14), 'butt'],
      ['S(3)', feet(14), feet(20), 'none'],
    ]);
  });

  it('extra readings bend the profile of the board that they stand on', () => {
    const { wall } = wallOf(`  sill S set-back 2" to 1"\n  set-back 3" at 10'\n  headroom 7" from 4' to 6'`);
    expect(wall.pieces[0]?.setBack?.points.map((point) => point.station)).toEqual([0, feet(10), feet(20)]);
  });

  it('boards that overlap without a lap are read as they are written: a check of the house tells of them', () => {
    const { wall, problems } = wallOf(`  sill S1 to 8' set-back 0"\n  sill S2 7' to end set-back 0"`);
    expect(problems).toEqual([]);
    expect(wall.pieces.map((piece) => [piece.from, piece.to])).toEqual([
      [0, feet(8)],
      [feet(7), feet(20)],
    ]);
  });

  it('`no sill` is a finding of the survey, not silence', () => {
    const { layout } = readLayout(
      `typical\n  sill size 2x6 set-back 0"\nwall F length 20'\n  no sill\nwall G length 9'`,
    );
    expect(layout.walls[0]?.pieces).toEqual([]);
    expect(layout.walls[0]?.absent.has('sill')).toBe(true);
    expect(layout.walls[1]?.pieces).toHaveLength(1);
  });
});

describe('names', () => {
  it('compare without regard to case; twice the same kind on one wall is told at the second', () => {
    const { problems } = wallOf(`  vent V1 at 4'\n  vent v1 at 6'`);
    expect(problems.map((problem) => problem.code)).toEqual(['duplicate-name']);
  });

  it('two walls with one name: the first one counts', () => {
    const project = readLayout(`wall F length 20'\nwall f length 9'`);
    expect(project.layout.walls).toHaveLength(1);
    expect(project.problems.map((problem) => problem.code)).toEqual(['duplicate-name']);
  });

  it('a connector, a rule set, a wall to work on that is not in sight is told with the nearest name', () => {
    const project = readLayout(
      `layout "X"\n  rules existing-bulding\nwall F length 20'\nwork on G\nwork on F\n  anchor F-1 bolt-hlf at 3'`,
    );
    expect(project.problems.map((problem) => [problem.code, problem.replacements[0]?.text])).toEqual([
      ['unresolved-name', 'existing-building'],
      ['unresolved-name', 'bolt-half'],
      ['unresolved-name', undefined],
    ]);
    expect(project.layout.walls[0]?.anchors[0]).toMatchObject({ name: 'F-1', connector: undefined, station: feet(3) });
  });
});

describe('use', () => {
  it('brings in what other files say, through files that use files', () => {
    const project = readLayout({
      'main.sill': `use "b.sill"\nwork on F\n  anchor F-1 mine at 3'`,
      'b.sill': `use "c.sill"\nwall F length 20'`,
      'c.sill': `connector mine through-bolt\n  demo\n  body 3" wide 3" tall`,
    });
    expect(project.problems).toEqual([]);
    expect(project.layout.walls[0]?.anchors[0]?.connector?.name).toBe('mine');
  });

  it('in a circle, of a missing file and out of the folder is told at the `use`', () => {
    const project = readLayout({
      'main.sill': `use "b.sill"\nuse "missing.sill"\nuse "../x.sill"`,
      'b.sill': `use "main.sill"\nwall F length 20'`,
    });
    expect(project.problems.map((problem) => problem.code).sort()).toEqual([
      'circular-use',
      'missing-file',
      'refused-path',
    ]);
    expect(project.layout.walls).toHaveLength(1);
  });

  it('the nearest name wins: own connector over the used file over the shipped one', () => {
    const project = readLayout({
      'main.sill': `use "b.sill"\nconnector bolt-half through-bolt\n  demo\n  body 3" wide 3" tall\n  note "own"`,
      'b.sill': `connector bolt-half through-bolt\n  demo\n  body 3" wide 3" tall\n  note "used"`,
    });
    expect(project.layout.connectors.get('bolt-half')?.notes).toEqual(['own']);
    expect(project.problems).toEqual([]);
  });
});
