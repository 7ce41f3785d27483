import { copyFileSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join, relative } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { examples, freshFolder, root } from './folders.ts';
import { run } from './in-process.ts';

const folder = freshFolder('survey-and-close');
afterAll(() => rmSync(folder, { recursive: true }));
for (const name of ['maple-surveyed.sill', 'maple-designed.sill'])
  copyFileSync(join(examples, name), join(folder, name));
const at = (name: string): string => relative(root, join(folder, name)).replaceAll('\\', '/');
const textOf = (name: string): string => readFileSync(join(folder, name), 'utf8');
function file(name: string, content: string): string {
  writeFileSync(join(folder, name), content);
  return at(name);
}
const box = (a: string, more = ''): string => `layout "Box"
  rules existing-building
house
  storeys 1
wall A faces north from (0", 0") length ${a}
wall B turn right length 16'-0"
wall C turn right length 20'-0"
wall D turn right length 16'-0"
${more}`;

describe('survey-list', () => {
  it('prints the list, wall by wall, and reminds of errors', async () => {
    const { code, out, err } = await run('survey-list', at('maple-designed.sill'));
    expect(code).toBe(0);
    expect(out).toContain('Survey list: Maple Demo House\n');
    expect(out).toMatch(/Wall E \(south, street side\)\n[\s\S]*embed of old anchor X3 +at 27'-3" +unknown/);
    expect(out).toContain('maple-surveyed.sill:');
    expect(out).toContain('Retrofit lowers risk; it does not prevent damage.');
    expect(err).toMatch(/has \d+ stops and \d+ errors/);
  });

  it('writes JSON to the terminal and CSV to a file', async () => {
    const json = JSON.parse((await run('survey-list', at('maple-designed.sill'), '--format', 'json')).out);
    expect(json.house).toBe('Maple Demo House');
    const { code, out } = await run('survey-list', at('maple-designed.sill'), '--format', 'csv', '-o', at('list.csv'));
    expect({ code, out }).toEqual({ code: 0, out: '' });
    expect(textOf('list.csv')).toMatch(/^where,do,what,place,written_now,checks,file,line,found\r\n/);
  });

  it('does not write over the layout, nor read what is not there', async () => {
    const before = textOf('maple-surveyed.sill');
    expect((await run('survey-list', at('maple-surveyed.sill'), '-o', at('maple-surveyed.sill'))).code).toBe(2);
    expect(textOf('maple-surveyed.sill')).toBe(before);
    expect((await run('survey-list', at('nothing.sill'))).code).toBe(2);
  });
});

describe('close', () => {
  it('says how the demo house closes', async () => {
    const { code, out } = await run('close', at('maple-surveyed.sill'));
    expect(code).toBe(0);
    expect(out).toContain('0.38 in east, 0.38 in north, 0.53 in in all, 1 : 3195');
    expect(out).toContain('As adjusted:   closes');
  });

  it('shows what it would write, writes it, and then has nothing to do', async () => {
    const path = file('box.sill', box(`20'-0 1/8"`));
    const shown = await run('close', path);
    expect(shown.code).toBe(0);
    expect(shown.out).toContain(`+wall A faces north from (0", 0") length 20'-0 1/8" adjusted 20'-0 1/16"`);
    expect(textOf('box.sill')).toBe(box(`20'-0 1/8"`));
    const written = await run('close', path, '--write');
    expect(written.code).toBe(0);
    expect(written.err).toContain('Adjusted lengths written');
    expect(textOf('box.sill')).toBe(
      box(`20'-0 1/8" adjusted 20'-0 1/16"`).replace(`length 20'-0"`, `length 20'-0" adjusted 20'-0 1/16"`),
    );
    const again = await run('close', path, '--write');
    expect(again).toMatchObject({ code: 0, err: '' });
    expect(again.out).toContain('there is nothing to spread');
  });

  it('spreads anew from the tape where it is told to', async () => {
    const path = file('anew.sill', box(`20'-0 1/8" adjusted 20'-0"`));
    expect((await run('close', path)).out).toContain('there is nothing to spread');
    expect((await run('close', path, '--anew')).out).toContain(
      `+wall A faces north from (0", 0") length 20'-0 1/8" adjusted 20'-0 1/16"`,
    );
  });

  it('ends in 1 where a wall was misread, and changes nothing', async () => {
    const path = file('misread.sill', box(`21'-0"`));
    const { code, out } = await run('close', path, '--write');
    expect(code).toBe(1);
    expect(out).toContain('12.00 in east');
    expect(out).toContain('a wall was misread');
    expect(textOf('misread.sill')).toBe(box(`21'-0"`));
  });

  it('changes no file but the one that it is given', async () => {
    file('survey.sill', box(`20'-0 1/8"`));
    const path = file('design.sill', 'use "survey.sill"\nwork on A\n  anchor A-1 bolt-half at 2\'-0"\n');
    const { code, err, out } = await run('close', path, '--write');
    expect(code).toBe(2);
    expect(err).toContain('survey.sill');
    expect(err).toContain('nothing was written');
    expect(textOf('survey.sill')).toBe(box(`20'-0 1/8"`));
    expect(out).toContain('As proposed:');
    expect((await run('close', path)).out).toContain(`+wall C turn right length 20'-0" adjusted 20'-0 1/16"`);
  });

  it('needs a file that can be read in full, with an outline', async () => {
    const unread = await run('close', file('unread.sill', box(`20'-0 1/8"`, '  vent at at\n')), '--write');
    expect(unread.code).toBe(2);
    expect(unread.err).toContain('could not be read in full');
    const bare = await run('close', file('bare.sill', 'house\n  storeys 1\n'));
    expect(bare.code).toBe(2);
    expect(bare.err).toContain('no perimeter wall');
  });
});
