import { copyFileSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join, relative } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { examples, freshFolder, root } from './folders.ts';
import { run } from './in-process.ts';

const folder = freshFolder('place');
afterAll(() => rmSync(folder, { recursive: true }));
const at = (name: string): string => relative(root, join(folder, name)).replaceAll('\\', '/');
for (const name of ['maple-surveyed.sill', 'maple-designed.sill', 'first-wall.sill'])
  copyFileSync(join(examples, name), join(folder, name));
const firstWall = readFileSync(join(examples, 'first-wall.sill'), 'utf8');
/** The first layout without its design. */
const bare = firstWall.slice(0, firstWall.indexOf('// The design'));
function file(name: string, text: string): string {
  writeFileSync(join(folder, name), text);
  return at(name);
}

describe('place', () => {
  it('lists boards and connectors, with what each may slide, and says what it rests on', async () => {
    const { code, out, err } = await run('place', file('bare.sill', bare));
    expect([code, err]).toEqual([0, '']);
    expect(out).toMatch(/^Placement: First house\nDEMO VALUES/);
    expect(out).toMatch(/A {5}A1 .* 4 .*proven fewest/);
    expect(out).toMatch(/A-1 +A1 +0'-11" +279 +flat-plate +1" +1" +next 1'-8 1\/2"/);
    expect(out).toContain('no price list is in sight');
    expect(out).toContain('it does not show that the house is safe');
    expect(out).not.toMatch(/\d{2}:\d{2}/);
    for (const line of out.split('\n')) expect(line.length).toBeLessThanOrEqual(132);
  });

  it('shows as a difference what --write writes, and then has nothing to write', async () => {
    const path = file('write.sill', bare);
    const shown = await run('place', path, '--diff');
    expect(shown.out).toMatch(/^\+ {2}anchor +A-1 +flat-plate +at 0'-11" +proposed$/m);
    expect(readFileSync(join(folder, 'write.sill'), 'utf8')).toBe(bare);
    const written = await run('place', path, '--write');
    expect(written.err).toMatch(/^\d+ proposals written to .*write\.sill\.\n$/);
    const text = readFileSync(join(folder, 'write.sill'), 'utf8');
    expect(text.startsWith(bare.trimEnd())).toBe(true);
    const again = await run('place', path, '--write');
    expect(again.err).toMatch(/^Nothing to write/);
    expect(readFileSync(join(folder, 'write.sill'), 'utf8')).toBe(text);
    const check = await run('check', path);
    expect(check.out).not.toMatch(/error +.*anchorage/);
    expect(check.code).toBe(0);
  });

  it('writes JSON with exact stations, cost, blockers and basis', async () => {
    const { code, out } = await run('place', at('maple-surveyed.sill'), '--wall', 'e', '--format', 'json');
    expect(code).toBe(1);
    const json = JSON.parse(out);
    expect(json.schemaVersion).toBe(1);
    expect(json.pieces.map(({ piece, feasible }: { piece: string; feasible: boolean }) => [piece, feasible])).toEqual([
      ['E1', false],
      ['E2', true],
    ]);
    const [e1, e2] = json.pieces;
    expect(e1.blockers.join()).toContain('rot');
    expect(e1.waysOut[0].words).toMatch(/^write `replace sill E1 0'-0" to /);
    expect(e2.cost).toEqual({ value: 5, text: '5 connectors' });
    expect(e2.leastCost).toEqual(e2.cost);
    expect(e2.anchors[0]).toMatchObject({ mark: 'E-1', kind: 'stepped-side-plate', connector: 'stepped-plate-l' });
    expect(e2.anchors[0].station.nm % (25_400_000 / 16)).toBe(0);
    expect(Object.keys(json.basis)).toEqual(['rules', 'label', 'because', 'stopped', 'demo', 'counts', 'lines']);
  });

  it('promises slip, and ends in 1 where a board cannot keep it', async () => {
    const path = file('slip.sill', bare);
    const half = await run('place', path, '--slip', '1/2in');
    expect(half.code).toBe(0);
    expect(half.out).toContain('Every new hole may drift up to 1/2" either way, all at once');
    const two = await run('place', path, '--slip', '2in');
    expect(two.code).toBe(1);
    expect(two.out).toContain('promise less slip: 1"');
  });

  it('keeps several rule sets at once, and says what each of them costs', async () => {
    const strict = `\nruleset close "Close spacing"\n\n  source "common practice" common-practice
    limit anchor-spacing at-most 3'-0"
    limit end-distance at-least 6" at-most 12"\n    limit piece-count at-least 2 for piece at-least 30" under 6'-0"\n`;
    const path = file('rules.sill', bare + strict);
    const { code, out } = await run(
      'place',
      path,
      '--rules',
      'existing-building',
      '--rules',
      'close',
      '--format',
      'json',
    );
    expect(code).toBe(0);
    const { rules, cost, pieces } = JSON.parse(out);
    expect(rules.map(({ name }: { name: string }) => name)).toEqual(['existing-building', 'close']);
    expect(rules[0].together).toEqual(rules[0].alone);
    expect(rules[1].together).toEqual(cost);
    expect(rules[1].together.value).toBeGreaterThanOrEqual(Math.max(rules[0].alone.value, rules[1].alone.value));
    const [a1] = pieces;
    const stations = a1.anchors.map(({ station }: { station: { nm: number } }) => station.nm / 25_400_000);
    // Under both: within a foot of the ends but nine inches off, and three feet apart at most.
    expect(stations[0]).toBeGreaterThanOrEqual(9);
    for (const [index, to] of stations.entries()) {
      if (index > 0) expect(to - stations[index - 1]).toBeLessThanOrEqual(36);
    }
    for (const { errors } of rules) expect(errors).toBe(0);
  });

  it('chooses from the connectors that are named', async () => {
    const path = file('connector.sill', bare);
    const { code, out } = await run('place', path, '--connector', 'bolt-half');
    expect(code).toBe(1);
    expect(out).toContain('no connector in sight surely fits');
    expect(out).toContain('use flat-plate too');
  });

  it.each([
    [['place', 'no-such.sill'], /cannot be read/],
    [['place', at('maple-surveyed.sill'), '--wall', 'Q'], /has no wall Q; its walls are A, B/],
    [['place', at('maple-surveyed.sill'), '--slip', 'much'], /is not a length/],
    [['place', at('maple-surveyed.sill'), '--slip', '5'], /is not a length|unit/],
    [['place', at('maple-surveyed.sill'), '--rules', 'nowhere'], /no rule set nowhere/],
    [['place', at('maple-surveyed.sill'), '--connector', 'angle-8'], /no sill anchor/],
    [['place', at('maple-surveyed.sill'), '--connector', 'glue'], /no connector glue/],
  ] as const)('says in words why it cannot run: %j', async (words, said) => {
    const { code, err } = await run(...words);
    expect(code).toBe(2);
    expect(err).toMatch(said);
  });

  it('does not lay out a file that it could not read in full', async () => {
    const path = file('unread.sill', bare.replace('wall A', 'wal A'));
    const { code, err } = await run('place', path, '--write');
    expect(code).toBe(2);
    expect(err).toContain('could not be read in full');
  });
});
