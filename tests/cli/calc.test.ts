import { copyFileSync, existsSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join, relative } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { examples, freshFolder, root } from './folders.ts';
import { run } from './in-process.ts';

const folder = freshFolder('calc');
afterAll(() => rmSync(folder, { recursive: true }));
for (const name of ['maple-surveyed.sill', 'maple-designed.sill'])
  copyFileSync(join(examples, name), join(folder, name));

/** Named from the root, as a user would. */
const at = (name: string): string => relative(root, join(folder, name)).replaceAll('\\', '/');
function file(name: string, content: unknown): string {
  writeFileSync(join(folder, name), typeof content === 'string' ? content : JSON.stringify(content));
  return at(name);
}
const linesOf = (out: string) =>
  out
    .trim()
    .split('\n')
    .map((line) => JSON.parse(line));

describe('calc', () => {
  const designed = at('maple-designed.sill');

  it('writes the sheet as text, and reminds of the errors of the layout', async () => {
    const { code, out, err } = await run('calc', designed);
    expect(code).toBe(0);
    expect(out).toContain('Calculation sheet: Maple Demo House');
    expect(out).toContain('demand is 42 % of the capacity counted');
    expect(err).toContain('9 errors');
  });

  it('writes one line only, by its name in any case', async () => {
    const { code, out } = await run('calc', designed, '--line', 'WEST', '--format', 'json');
    expect(code).toBe(0);
    expect(JSON.parse(out).lines.map(({ name }: { name: string }) => name)).toEqual(['west']);
  });

  it('writes a page to a file, and nothing to the terminal', async () => {
    const { code, out } = await run('calc', designed, '--format', 'html', '-o', at('sheet.html'));
    expect({ code, out }).toEqual({ code: 0, out: '' });
    expect(readFileSync(join(folder, 'sheet.html'), 'utf8')).toMatch(/^<!doctype html>[\s\S]*<math[\s\S]*<\/html>\n$/);
  });

  it('never writes over the layout', async () => {
    const before = readFileSync(join(folder, 'maple-designed.sill'), 'utf8');
    expect((await run('calc', designed, '-o', designed)).code).toBe(2);
    expect(readFileSync(join(folder, 'maple-designed.sill'), 'utf8')).toBe(before);
  });

  it('takes 75 percent of the base shear only where that is stated', async () => {
    const shear = async (...words: string[]): Promise<number> =>
      JSON.parse((await run('calc', designed, '--format', 'json', ...words)).out).baseShear.lb;
    expect((await shear('--existing-building-share')) / (await shear())).toBeCloseTo(0.75, 6);
  });

  it.each([
    ['a line that does not exist', ['calc', designed, '--line', 'attic'], 'its lines are north, bump-out-east'],
    ['a file that is not there', ['calc', at('nothing.sill')], 'cannot be read'],
    ['a format that does not exist', ['calc', designed, '--format', 'pdf'], 'text, json, html'],
    ['a house without walls', ['calc', file('empty.sill', 'layout "Empty"\n')], 'no line of resistance'],
  ])('cannot run with %s', async (_, words, message) => {
    const { code, out, err } = await run(...words);
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(err).toContain(message);
  });
});

describe('verify values', () => {
  /** NDS 2018 Table 12E, 1/2 in bolt, 1-1/2 in Douglas fir (from memory): 650 lb. */
  const bolt = {
    id: 'bolt',
    topic: '3-nds-bolt-concrete',
    kind: 'table',
    origin: 'memory',
    inputs: {
      D_in: 0.5,
      Fyb_psi: 45_000,
      ls_in: 1.5,
      G: 0.5,
      Fem_psi: 7500,
      lm_in: 6,
      CD: 1,
      side: 'wood sill',
      main: 'concrete',
    },
    expected: { Z_par_lb: 650 },
    tolerance: 'nearest 10 lb',
  };
  const { expected: _, ...withoutExpected } = bolt;

  it('works the shipped set without a file, and all of it agrees', async () => {
    const { code, out, err } = await run('verify', 'values');
    expect({ code, err }).toEqual({ code: 0, err: '' });
    expect(out).toContain('found: 46 agree of 46');
    expect(out).toContain('from memory: 49 agree of 49');
    expect(out).toContain('arithmetic: 43 agree of 43');
    expect(Math.max(...out.split('\n').map((line) => line.length))).toBeLessThanOrEqual(132);
  });

  it('as JSON gives one line an entry, under the keys that are expected', async () => {
    const { code, out } = await run('verify', 'values', '--format', 'json', file('bolt.json', [bolt]));
    expect(code).toBe(0);
    const [line, ...others] = linesOf(out);
    expect(others).toEqual([]);
    expect(Object.keys(line)).toEqual(['id', 'computed', 'verdict']);
    expect(Object.keys(line.computed)).toEqual(['Z_par_lb']);
    expect(Math.abs(line.computed.Z_par_lb - 650)).toBeLessThan(5);
    expect(line).toMatchObject({ id: 'bolt', verdict: 'agrees' });
  });

  it('without an expected value computes only', async () => {
    const { code, out } = await run('verify', 'values', '--format', 'json', file('plain.json', [withoutExpected]));
    expect(code).toBe(0);
    const [line] = linesOf(out);
    expect(line.verdict).toBe('computed only');
    expect(Math.abs(line.computed.Z_par_lb - 650)).toBeLessThan(5);
  });

  it('ends in 1 where a figure differs, and says by what', async () => {
    const wrong = file('wrong.json', { entries: [bolt, { ...bolt, id: 'off', expected: { Z_par_lb: 700 } }] });
    const json = await run('verify', 'values', '--format', 'json', wrong);
    expect(json.code).toBe(1);
    expect(linesOf(json.out).map(({ verdict }) => verdict)).toEqual(['agrees', 'differs']);
    const { code, out } = await run('verify', 'values', wrong);
    expect(code).toBe(1);
    expect(out).toMatch(/off: Z_par_lb: computed 648\.\d+, expected 700/);
    expect(out).toContain('from memory: 1 agree, 1 differ of 2');
  });

  it('ends in 1 where an entry cannot be computed, and goes on to the next', async () => {
    const { code, out } = await run(
      'verify',
      'values',
      '--format',
      'json',
      file('odd.json', [7, { ...bolt, id: 'nothing', inputs: {} }, bolt]),
    );
    expect(code).toBe(1);
    expect(linesOf(out).map(({ verdict }) => verdict)).toEqual(['cannot be computed', 'cannot be computed', 'agrees']);
  });

  it('writes a fact in words where a text is expected', async () => {
    const { out } = await run('verify', 'values', '--format', 'json');
    const computed = linesOf(out).flatMap((line) => Object.values(line.computed));
    expect(computed.length).toBeGreaterThan(138);
    expect(JSON.stringify(computed)).not.toContain('"mentions"');
  });

  it.each([
    ['a file that is not there', at('none.json'), 'cannot be read'],
    ['a file that is no JSON', file('no.json', '{'), 'is not JSON'],
    ['a file without a list', file('number.json', '7'), 'holds no list of entries'],
    ['an empty list, which would agree with anything', file('nothing.json', []), 'nothing was verified'],
  ])('cannot run with %s', async (_what, path, message) => {
    const { code, out, err } = await run('verify', 'values', path);
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(err).toContain(message);
  });
});

describe('verify placement', () => {
  const wall = {
    id: 'one board',
    length: 1920,
    breaks: [],
    emin: 64,
    emax: 192,
    minGap: 96,
    maxGap: 1152,
    minCount: 2,
    demand: [0],
    obstructions: [],
    types: [{ id: 'A', cost: 10, capacity: 1, half: 0, available: null }],
  };

  it('solves every published wall as it is expected, one line each', async () => {
    const cases = 'tests/published/placement-cases.json';
    const { code, out } = await run('verify', 'placement', cases);
    expect(code).toBe(0);
    const file = JSON.parse(readFileSync(join(root, cases), 'utf8'));
    expect(linesOf(out).map(({ id, status, cost }) => ({ id, status, cost }))).toEqual(
      file.cases.map((each: { id: string; expected: { status: string; cost?: number } }) => ({
        id: each.id,
        status: each.expected.status,
        cost: each.expected.cost,
      })),
    );
  });

  it('needs no expected result: 120 in with gaps up to 72 in wants three of them', async () => {
    const { code, out } = await run('verify', 'placement', file('wall.json', [wall]));
    expect(code).toBe(0);
    const [line] = linesOf(out);
    expect(Object.keys(line)).toEqual(['id', 'status', 'cost', 'slack', 'placement']);
    // The outer two stand at most 12 in from the ends, so 96 in apart at the least: more than the 72 in of one gap.
    expect(line).toMatchObject({ id: 'one board', status: 'optimal', cost: 30 });
    expect(line.placement).toHaveLength(3);
  });

  it('ends in 1 where a wall comes out otherwise or cannot be read, and goes on', async () => {
    const { code, out } = await run(
      'verify',
      'placement',
      file('walls.json', { cases: [{ ...wall, expected: { cost: 20 } }, 7, wall] }),
    );
    expect(code).toBe(1);
    expect(linesOf(out).map(({ id, status }) => [id, status])).toEqual([
      ['one board', 'optimal'],
      ['case 2', 'malformed'],
      ['one board', 'optimal'],
    ]);
  });

  it('cannot run without a readable file', async () => {
    expect((await run('verify', 'placement', at('none.json'))).code).toBe(2);
    expect((await run('verify', 'placement')).code).toBe(2);
    expect(existsSync(join(folder, 'none.json'))).toBe(false);
  });
});
