import { copyFileSync, existsSync, readdirSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { join, relative } from 'node:path';
import process from 'node:process';
import { afterAll, describe, expect, it } from 'vitest';
import { nodesOnPath, runBuilt } from './built-command.ts';
import { examples, freshFolder, root } from './folders.ts';
import { run } from './in-process.ts';

const folder = freshFolder('commands');
afterAll(() => rmSync(folder, { recursive: true }));

/** Named from the root, as a user would. */
const at = (name: string): string => relative(root, join(folder, name)).replaceAll('\\', '/');
function file(name: string, text: string | Uint8Array): string {
  writeFileSync(join(folder, name), text);
  return at(name);
}
for (const name of ['maple-surveyed.sill', 'maple-designed.sill', 'first-wall.sill'])
  copyFileSync(join(examples, name), join(folder, name));
const surveyed = at('maple-surveyed.sill');
const designed = at('maple-designed.sill');
const clean = at('first-wall.sill');

/** One anchor stands too far from the end of its board. */
const oneError = readFileSync(join(examples, 'first-wall.sill'), 'utf8').replace(
  `A-1 flat-plate  at 0'-11"`,
  `A-1 flat-plate  at 1'-3"`,
);

describe.each(nodesOnPath())('with Node $version', ({ node }) => {
  const runOn = (...words: string[]) => runBuilt(words, { node });

  it('a clean layout ends in 0 and says what it was checked against, and no more than that', () => {
    const { code, out, err } = runOn('check', clean);
    expect(err).toBe('');
    expect(code).toBe(0);
    expect(out.replaceAll('\n', ' ')).toContain(
      '0 errors under Existing-building code appendix, chapter A3, 2021; 0 not checked for want of measurements; 1 assumed.',
    );
    expect(out).toContain('An aid to drafting and checking, not engineering; it does not show that the house is safe.');
  });

  it('a layout with an error ends in 1', () => {
    const { code, out } = runOn('check', file('one-error.sill', oneError));
    expect(code).toBe(1);
    expect(out).toMatch(/error {5}.*A-1/);
    expect(out).toContain('anchorage/end-too-far (A304.3.2)');
  });

  it('draws, schedules, formats and mends', () => {
    expect(runOn('draw', designed, '--plan')).toMatchObject({ code: 0, out: expect.stringMatching(/^<svg /) });
    expect(runOn('draw', designed, '--wall', 'f')).toMatchObject({ code: 0, out: expect.stringContaining('F-13') });
    expect(runOn('draw', designed, '--girder', 'gd')).toMatchObject({ code: 0, out: expect.stringContaining('GD-C1') });
    expect(runOn('draw', designed, '--wall', 'F', '--windows', 'f-10')).toMatchObject({
      code: 0,
      out: expect.stringContaining('F-10 may stand'),
    });
    expect(runOn('schedule', designed)).toMatchObject({ code: 0, out: expect.stringContaining('F-13') });
    expect(runOn('format', clean)).toMatchObject({
      code: 0,
      out: readFileSync(join(folder, 'first-wall.sill'), 'utf8'),
    });
    expect(runOn('fix', file('fix.sill', oneError), '--rule', 'anchorage/end-too-far')).toMatchObject({ code: 0 });
  });
});

describe('what the exit code says', () => {
  it('0 for help and version', () => {
    expect(runBuilt(['--help'])).toMatchObject({ code: 0, err: '' });
    expect(runBuilt(['help', 'check']).out).toContain('check layouts');
    expect(runBuilt(['--version'])).toMatchObject({ code: 0, out: expect.stringMatching(/^\d+\.\d+\.\d+\n$/) });
  });

  it.each([
    ['no command', []],
    ['a command that does not exist', ['chekc', clean]],
    ['no file', ['check']],
    ['an option that does not exist', ['check', '--nonsense', clean]],
    ['a format that does not exist', ['check', '--format', 'yaml', clean]],
    ['a file that is not there', ['check', 'no such file.sill']],
    ['a folder', ['check', 'examples']],
    ['two views', ['draw', clean, '--plan', '--wall', 'A']],
    ['no view', ['draw', clean]],
    ['a wall that does not exist', ['draw', clean, '--wall', 'Z']],
    ['a girder that does not exist', ['draw', clean, '--girder', 'Z']],
    ['the windows of an anchor that does not exist', ['draw', clean, '--wall', 'A', '--windows', 'Z-1']],
    ['a girder and a wall', ['draw', clean, '--girder', 'GD', '--wall', 'A']],
    ['strips and sections', ['draw', clean, '--strips', '--sections']],
    ['strips of a wall that does not exist', ['draw', clean, '--strips', '--wall', 'Z']],
    ['strips of a house without work', ['draw', surveyed, '--strips']],
    ['a paper that does not exist', ['draw', clean, '--sheet', 'A4']],
    ['several sheets and no file', ['draw', clean, '--sheet', 'A2']],
    ['a rule that does not exist', ['rules', 'anchorage/nothing']],
    ['a rule to mend that does not exist', ['fix', clean, '--rule', 'nothing']],
    ['two ways to format', ['format', clean, '--write', '--check']],
    ['a schedule that does not exist', ['schedule', clean, '--of', 'doors']],
    ['no schedule at all', ['schedule', clean, '--of', ',']],
    ['an output in a folder that is not there', ['schedule', clean, '-o', 'no/such/folder/x.csv']],
    ['an output that is a folder', ['schedule', clean, '-o', 'examples']],
  ])('2 for %s, with a word about it', (_name, words) => {
    const { code, out, err } = runBuilt(words);
    expect(code).toBe(2);
    expect(out).toBe('');
    expect(err).not.toBe('');
    expect(err).not.toMatch(/\bat .*:\d+:\d+\)?$/m);
  });

  it('2 where one of several files cannot be read, after checking the others', () => {
    const { code, out, err } = runBuilt(['check', clean, 'missing.sill', surveyed]);
    expect(code).toBe(2);
    expect(err).toBe('sillwright: missing.sill cannot be read: there is no such file or folder.\n');
    expect(out).toContain('First house');
    expect(out).toContain('Maple Demo House');
  });
});

describe('check --format json', () => {
  interface Document {
    readonly schemaVersion: number;
    readonly ruleSet: string;
    readonly edition: string;
    readonly notChecked: readonly object[];
    readonly assumed: readonly { readonly quality: string }[];
    readonly findings: readonly Finding[];
    readonly basis: readonly {
      readonly file: string;
      readonly counts: Record<string, number>;
      readonly label: string;
    }[];
  }
  interface Finding {
    readonly file: string;
    readonly rule: string;
    readonly severity: string;
    readonly message: string;
    readonly range: { readonly start: Position; readonly end: Position };
    readonly station: { readonly nm: number; readonly text: string } | null;
    readonly accepted?: boolean;
    readonly reason?: string;
  }
  interface Position {
    readonly line: number;
    readonly character: number;
  }
  const json = async (...files: string[]): Promise<Document> =>
    JSON.parse((await run('check', ...files, '--format', 'json')).out);

  it('has the fields that docs/json.md names, and no others', async () => {
    const document = await json(designed);
    expect(Object.keys(document)).toEqual([
      'schemaVersion',
      'ruleSet',
      'edition',
      'notChecked',
      'assumed',
      'findings',
      'basis',
    ]);
    expect(document).toMatchObject({
      schemaVersion: 1,
      ruleSet: 'existing-building',
      edition: 'Existing-building code appendix, chapter A3, 2021',
    });
    const pages = readFileSync(join(root, 'docs', 'json.md'), 'utf8');
    for (const finding of document.findings) {
      expect(Object.keys(finding)).toEqual([
        ...[
          'file',
          'rule',
          'severity',
          'message',
          'source',
          'layer',
          'wall',
          'piece',
          'station',
          'stationTo',
          'range',
          'fixes',
        ],
        ...(finding.accepted ? ['accepted', 'reason'] : []),
      ]);
      expect(['stop', 'error', 'warning', 'info']).toContain(finding.severity);
      for (const key of Object.keys(finding)) expect(pages).toContain(`\`${key}\``);
    }
    expect(document.findings.length).toBeGreaterThan(0);
  });

  it('counts what its basis counts', async () => {
    const { findings, notChecked, assumed, basis } = await json(designed);
    const live = findings.filter((finding) => !finding.accepted);
    expect(basis[0]?.counts).toMatchObject({
      stops: live.filter(({ severity }) => severity === 'stop').length,
      errors: live.filter(({ severity }) => severity === 'error').length,
      warnings: live.filter(({ severity }) => severity === 'warning').length,
      infos: live.filter(({ severity }) => severity === 'info').length,
      accepted: findings.length - live.length,
      notChecked: notChecked.length,
      assumed: assumed.length,
    });
  });

  it('counts lines and UTF-16 characters from 0, without the byte order mark', async () => {
    const name = file(
      'places.sill',
      `\uFEFF${oneError.replace(`anchor  A-1 flat-plate  at 1'-3"`, `/* 😀 */anchor A-1 flat-plate at 1'-3"`).replace('/* 😀 */', '')}`,
    );
    const { findings } = await json(name);
    const finding = findings.find(({ rule }) => rule === 'anchorage/end-too-far');
    const lines = oneError.split('\n');
    const line = lines.findIndex((each) => each.includes(`at 1'-3"`));
    expect(finding?.range.start.line).toBe(line);
    expect(finding?.station).toEqual({ nm: 381_000_000, text: `1'-3"` });
    const unread = (await json(file('astral.sill', `layout "😀" nonsense\n`))).findings[0];
    expect(unread?.range.start).toEqual({ line: 0, character: 'layout "😀" '.length });
  });

  it('names used files from where the user stands', async () => {
    const files = new Set((await json(designed)).findings.map((finding) => finding.file));
    expect([...files].every((name) => existsSync(join(root, name)))).toBe(true);
    expect(files).toContain(surveyed);
  });

  it('says what was accepted and why', async () => {
    const text = oneError.replace(
      'work on A',
      'work on A\n  accept anchorage/end-too-far because "the official saw it"',
    );
    const { findings, basis } = await json(file('accepted.sill', text));
    expect(findings.filter(({ rule }) => rule === 'anchorage/end-too-far')).toEqual([
      expect.objectContaining({ severity: 'error', accepted: true, reason: 'the official saw it' }),
    ]);
    expect(basis[0]?.counts.errors).toBe(0);
    expect(await run('check', at('accepted.sill'))).toMatchObject({ code: 0 });
  });

  it('makes one document of several layouts', async () => {
    const { findings, basis } = await json(clean, surveyed);
    expect(basis.map((each) => each.file)).toEqual([clean, surveyed]);
    const wrong = findings.filter(({ severity }) => severity !== 'info');
    expect(new Set(wrong.map((finding) => finding.file))).toEqual(new Set([surveyed]));
  });

  it('is the same bytes for the same text', async () => {
    expect((await run('check', designed, '--format', 'json')).out).toBe(
      (await run('check', designed, '--format', 'json')).out,
    );
  });
});

describe('outputs', () => {
  it('go to a file, whole or not at all', async () => {
    expect(await run('schedule', designed, '--format', 'csv', '-o', at('schedule.csv'))).toMatchObject({
      code: 0,
      out: '',
    });
    const rows = readFileSync(join(folder, 'schedule.csv'), 'utf8').split('\r\n');
    expect(rows[0]).toMatch(/^mark,wall,piece,station,/);
    expect(rows.filter((row) => row.startsWith('F-'))).toHaveLength(13);
    expect(readdirSync(folder).filter((name) => name.endsWith('.tmp'))).toEqual([]);
  });

  it('hold the schedules that were asked for', async () => {
    const panels = await run('schedule', designed, '--of', 'panels', '--format', 'csv');
    expect(panels.out).toMatch(/^mark,wall,from,from_mm,to,to_mm,length,height,board,/);
    expect(panels.out).not.toContain('F-13');
    const some = await run('schedule', designed, '--of', 'ties,Posts');
    expect(some.out).toContain('Hold-down and strap schedule');
    expect(some.out).toContain('Post schedule');
    expect(some.out).not.toContain('Panel schedule');
    const all = await run('schedule', designed, '--of', 'all', '--format', 'csv');
    expect(all.out).toMatch(/^Connector schedule,[\s\S]*^Connectors to buy,/m);
  });

  it('are never written over what was read, however it is spelt', async () => {
    const before = readFileSync(join(folder, 'maple-surveyed.sill'), 'utf8');
    const spellings = [
      surveyed,
      `./${surveyed}`,
      join(folder, 'maple-surveyed.sill'),
      at('../commands/../').concat('/', surveyed.split('/').slice(-2).join('/')),
    ];
    if (process.platform !== 'win32') {
      symlinkSync('maple-surveyed.sill', join(folder, 'link.sill'));
      symlinkSync('.', join(folder, 'self'));
      spellings.push(at('link.sill'), at('self/maple-surveyed.sill'));
    }
    for (const output of spellings) {
      // The surveyed file is only used by the one that is read.
      expect(await run('draw', designed, '--plan', '-o', output)).toMatchObject({ code: 2 });
      expect(await run('schedule', surveyed, '-o', output)).toMatchObject({ code: 2 });
    }
    expect(readFileSync(join(folder, 'maple-surveyed.sill'), 'utf8')).toBe(before);
  });

  it('are crew strips, two to a sheet and each sheet in a file with its number, and sections', async () => {
    expect(await run('draw', designed, '--strips', '--wall', 'a')).toMatchObject({
      code: 0,
      out: expect.stringContaining('width="431.8mm" height="279.4mm"'),
    });
    expect(await run('draw', designed, '--strips')).toMatchObject({
      code: 2,
      out: '',
      err: expect.stringMatching(/takes \d+ sheets: say where to with -o NAME.svg/),
    });
    expect(await run('draw', designed, '--strips', '-o', at('strips.svg'))).toMatchObject({ code: 0, out: '' });
    // Walls A, E and F have work; F takes two strips: four strips on two sheets.
    const names = readdirSync(folder).filter((name) => name.startsWith('strips-'));
    expect(names.sort()).toEqual(['strips-1.svg', 'strips-2.svg']);
    const strips = readFileSync(join(folder, 'strips-2.svg'), 'utf8');
    expect(strips).toContain('F-13');
    // With its lettering in it: it looks the same on the next desk.
    for (const face of ['Routed Gothic', 'Routed Gothic Narrow']) {
      expect(strips).toContain(`@font-face{font-family:'${face}';src:url(data:font/ttf;base64,AAEAAAA`);
    }
    expect(await run('draw', designed, '--sections', '--wall', 'f')).toMatchObject({
      code: 0,
      out: expect.stringContaining('SECTION F/1'),
    });
    expect(await run('draw', designed, '--strips', '--wall', 'B')).toMatchObject({
      code: 2,
      err: expect.stringContaining('has no work on wall B: no strip to draw.'),
    });
  });

  it('are the printed sheets, one by itself or each in a file with its number and name', async () => {
    const one = await run('draw', clean, '--sheet', 'a3', '--wall', 'a', '-o', at('one.svg'));
    expect(one).toMatchObject({ code: 0, out: '' });
    const [wall] = readdirSync(folder).filter((name) => name.startsWith('one'));
    expect(readFileSync(join(folder, wall ?? ''), 'utf8')).toContain('width="420mm" height="297mm"');
    expect(await run('draw', clean, '--sheet', '24x18', '-o', at('set.svg'))).toMatchObject({
      code: 0,
      out: '',
      err: '',
    });
    const names = readdirSync(folder)
      .filter((name) => name.startsWith('set-'))
      .sort();
    expect(names).toEqual(
      ['cover', 'plan', 'wall-A', 'wall-B', 'wall-C', 'wall-D'].map((name, index) => `set-${index + 1}-${name}.svg`),
    );
    const sheet = readFileSync(join(folder, 'set-3-wall-A.svg'), 'utf8');
    expect(sheet).toContain('>3 of 6<');
    expect(sheet.match(/@font-face/g)).toHaveLength(2);
    expect(await run('draw', clean, '--sheet', 'A2', '--plan')).toMatchObject({
      code: 0,
      out: expect.stringContaining('Foundation plan'),
    });
    expect(await run('draw', clean, '--sheet', 'A2', '--girder', 'GD')).toMatchObject({
      code: 2,
      err: expect.stringContaining('has no girder'),
    });
    expect(await run('draw', clean, '--sheet', 'A2', '--wall', 'Z')).toMatchObject({
      code: 2,
      err: expect.stringContaining('has no wall Z'),
    });
  });

  it.skipIf(!existsSync('/dev/full'))('that the system does not take end in 2', async () => {
    const { code, err } = await run('schedule', designed, '-o', '/dev/full');
    expect(code).toBe(2);
    expect(err).toContain('/dev/full cannot be written: it is not a plain file.');
  });
});

describe('format', () => {
  const untidy = `LAYOUT "x"\n    rules   existing-building // kept\n`;
  const tidy = `layout "x"\n  rules existing-building   // kept\n`;

  it('prints, checks and writes', async () => {
    const name = file('untidy.sill', untidy);
    expect(await run('format', name)).toMatchObject({ code: 0, out: tidy });
    expect(await run('format', name, '--check')).toMatchObject({ code: 1, out: '' });
    expect(await run('format', name, '--write')).toMatchObject({ code: 0, out: '' });
    expect(readFileSync(join(folder, 'untidy.sill'), 'utf8')).toBe(tidy);
    expect(await run('format', name, '--check')).toMatchObject({ code: 0 });
  });

  it('keeps line ends and the byte order mark', async () => {
    const name = file('windows.sill', `\uFEFF${untidy.replaceAll('\n', '\r\n')}`);
    expect(await run('format', name, '--write')).toMatchObject({ code: 0 });
    expect(readFileSync(join(folder, 'windows.sill'), 'utf8')).toBe(`\uFEFF${tidy.replaceAll('\n', '\r\n')}`);
  });

  it('finds the examples in canonical format', async () => {
    for (const name of [clean, surveyed, designed])
      expect(await run('format', name, '--check')).toMatchObject({ code: 0, err: '' });
  });
});

describe('fix', () => {
  it('shows what would change and changes nothing', async () => {
    const name = file('shown.sill', oneError);
    const { code, out, err } = await run('fix', name, '--rule', 'anchorage/end-too-far');
    expect(code).toBe(0);
    expect(out).toContain(`-  anchor  A-1 flat-plate  at 1'-3"`);
    expect(out).toMatch(/^\+ {2}anchor {2}A-1 flat-plate {2}at 0'-/m);
    expect(err).toContain('anchorage/end-too-far: ');
    expect(readFileSync(join(folder, 'shown.sill'), 'utf8')).toBe(oneError);
  });

  it('writes with --write, and the finding is gone', async () => {
    const name = file('written.sill', `\uFEFF${oneError}`);
    expect(await run('fix', name, '--rule', 'anchorage/end-too-far', '--write')).toMatchObject({ code: 0, out: '' });
    expect(readFileSync(join(folder, 'written.sill'), 'utf8')).toMatch(/^\uFEFF\/\/ A first layout/);
    expect(await run('check', name)).toMatchObject({ code: 0 });
    expect(await run('format', name, '--check')).toMatchObject({ code: 0 });
  });

  it('says of each mend where it is, which rule asks for it, and whether to look it over', async () => {
    const { err } = await run('fix', file('said.sill', oneError));
    expect(err).toMatch(/^out\/tests\/[^:]+said\.sill:\d+:\d+: anchorage\/end-too-far: .* \(look it over\)$/m);
  });

  it('adds anchors where a board has none, until no more helps', async () => {
    const { code, out } = await run('fix', designed, '--rule', 'load-path/wall-line-forgotten');
    expect(code).toBe(1);
    expect(out).toContain('+work on B');
  });

  it('does not touch the files that the layout uses', async () => {
    const before = readFileSync(join(folder, 'maple-surveyed.sill'), 'utf8');
    await run('fix', designed, '--rule', 'anchorage/piece-without-anchor', '--write');
    expect(readFileSync(join(folder, 'maple-surveyed.sill'), 'utf8')).toBe(before);
    expect((await run('check', designed)).code).toBe(1);
  });
});

describe('rules', () => {
  it('lists every rule, and prints the page of one as it stands in docs/rules', async () => {
    const list = await run('rules');
    expect(list.code).toBe(0);
    for (const line of list.out.split('\n')) expect(line.length).toBeLessThanOrEqual(132);
    expect((await run('rules', 'anchorage/gap-too-wide')).out).toBe(
      readFileSync(join(root, 'docs', 'rules', 'anchorage', 'gap-too-wide.md'), 'utf8'),
    );
    expect(await run('rules', 'language/open-string')).toMatchObject({ code: 0 });
  });

  it('guesses what was meant', async () => {
    expect((await run('rules', 'anchorage/gap-to-wide')).err).toContain('did you mean anchorage/gap-too-wide?');
  });
});
