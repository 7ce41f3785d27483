import { readFileSync, writeFileSync } from 'node:fs';
import { join, relative } from 'node:path';
import { describe, expect, it } from 'vitest';
import { freshFolder, root } from './folders.ts';
import { run } from './in-process.ts';

const folder = freshFolder('compare');
const at = (name: string): string => relative(process.cwd(), join(folder, name));
function file(name: string, text: string): string {
  writeFileSync(join(folder, name), text);
  return at(name);
}

const wide = file(
  'wide.sill',
  `layout "Wide gaps"
  rules existing-building, our-town

house
  storeys 2
  dwellings 1

wall F length 14'-0"
  foundation thick 8" showing 18" top 0" sound
  sill F1 size 2x6 set-back 3/4" headroom 11-1/8"

work on F
  anchor F-1 stepped-plate-s at 0'-10"
  anchor F-2 stepped-plate-s at 4'-2"
  anchor F-3 stepped-plate-s at 9'-2"
  anchor F-4 stepped-plate-s at 13'-2"

ruleset our-town "Our town"
  source "Town sheet 4" published
    limit anchor-spacing at-most 3'-0" for storeys 2, bolt at-least 1/2"
`,
);

describe('check --rules', () => {
  it('once checks under those rule sets in place of the ones that the layout names', async () => {
    expect((await run('check', wide)).code).toBe(1);
    const { code, out, err } = await run('check', wide, '--rules', 'new-house');
    expect({ code, err }).toEqual({ code: 0, err: '' });
    expect(out).toContain('0 errors under Residential code for new houses, 2015 and later;');
    expect(out).not.toContain('gap-too-wide');
  });

  it('takes a set of the file itself, several with commas, and any case', async () => {
    const { code, out } = await run('check', wide, '--rules', 'New-House, Our-Town');
    expect(code).toBe(1);
    expect(out).toContain('Residential code for new houses, 2015 and later; with Our town');
    expect(out).toContain('(Town sheet 4)');
  });

  it('does not change what stands in the file', async () => {
    const before = readFileSync(join(folder, 'wide.sill'), 'utf8');
    await run('check', wide, '--rules', 'new-house', '--rules', 'bay-area');
    expect(readFileSync(join(folder, 'wide.sill'), 'utf8')).toBe(before);
  });

  it('twice sets the two side by side, and ends as the worse of them does', async () => {
    const { code, out, err } = await run('check', wide, '--rules', 'new-house', '--rules', 'existing-building');
    expect({ code, err }).toEqual({ code: 1, err: '' });
    expect(out).toContain('A = new-house: Residential code for new houses, 2015 and later');
    const row = out.split('\n').find((line) => line.startsWith('anchorage/gap-too-wide'));
    expect(row).toMatch(/F +F1 4'-2" to 9'-2" +no finding: at most 6'-0" \(R403\.1\.6\) +error: at most 4'-0"/);
    expect((await run('check', wide, '--rules', 'new-house', '--rules', 'new-building')).code).toBe(0);
  });

  it('writes one JSON document of several layouts, with the fields that docs/json.md names', async () => {
    const { out } = await run(
      ...['check', wide, 'examples/first-wall.sill', '--format', 'json'],
      ...['--rules', 'existing-building', '--rules', 'portland'],
    );
    const document = JSON.parse(out);
    expect(document.comparisons.map((each: { file: string }) => each.file)).toEqual([wide, 'examples/first-wall.sill']);
    const page = readFileSync(join(root, 'docs', 'json.md'), 'utf8').split('## check --rules')[1] ?? '';
    const [comparison] = document.comparisons;
    const names = [
      ...Object.keys(document),
      ...Object.keys(comparison),
      ...Object.keys(comparison.places[0]),
      ...Object.keys(comparison.places[0].under[0]),
      'ruleSets',
    ];
    for (const name of names) expect(page).toContain(`${name}`);
    expect(document.comparisons[0].places[0].range.start.line).toBeTypeOf('number');
  });

  it.each([
    ['a set that does not exist', ['--rules', 'existing-bulding'], 'existing-building'],
    ['one of two that does not', ['--rules', 'new-house', '--rules', 'portlad'], 'portland'],
  ])('ends in 2 for %s, with the nearest name', async (_name, words, nearest) => {
    const { code, out, err } = await run('check', wide, ...words);
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(err).toContain(`(did you mean ${nearest}?)`);
    expect(err).toContain('our-town');
  });

  it('ends in 2 for a name that is none', async () => {
    expect((await run('check', wide, '--rules', '')).code).toBe(2);
    expect((await run('check', wide, '--rules', 'new-house,,portland')).code).toBe(2);
  });
});
