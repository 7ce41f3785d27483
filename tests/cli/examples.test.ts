import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { openLayout } from '../../server/src/cli/open-layout.ts';
import { runCommandLine } from '../../server/src/cli/run.ts';
import { examples, root } from './folders.ts';

const goldenFindings = join(root, 'tests/golden/findings');

describe('the examples', () => {
  it('first-wall.sill assumes the strength of its concrete, and shows nothing else', () => {
    const opened = openLayout(join(examples, 'first-wall.sill'));
    if (opened.kind === 'refused') throw new Error(opened.reason);
    const { findings } = opened.layout.analysis;
    expect(findings.map(({ severity, rule }) => `${severity} ${rule}`)).toEqual(['info geometry/assumption-live']);
  });

  it('are all of them held to what was worked out by hand', () => {
    const listed = readdirSync(goldenFindings).filter((name) => name.endsWith('.txt'));
    const held = ['first-wall.sill', ...listed.map((name) => name.replace(/\.txt$/, '.sill'))];
    expect(readdirSync(examples).filter((name) => name.endsWith('.sill'))).toEqual(held.sort());
  });
});

describe('what is printed of the examples', () => {
  const designed = join(examples, 'maple-designed.sill');
  it.each([
    ['check'],
    ['check', '--format', 'json'],
    ['schedule'],
    ['schedule', '--format', 'csv'],
    ['schedule', '--format', 'json'],
    ['draw', '--plan'],
    ['draw', '--wall', 'F'],
    ['draw', '--strips', '--wall', 'F'],
    ['draw', '--sections', '--wall', 'F'],
  ])('%s %s %s carries its basis, and says nothing that nobody may say of a house', async (command, ...options) => {
    let out = '';
    const terminal = {
      out: (text: string): void => {
        out += text;
      },
      err: () => undefined,
    };
    expect(await runCommandLine([command ?? '', designed, ...options], terminal, {})).toBeLessThan(2);
    const text = out.replace(/<[^>]*>/g, ' ').replace(/\s+/g, ' ');
    expect(text).toContain('prescriptive - not engineered');
    const errors = readFileSync(join(goldenFindings, 'maple-designed.txt'), 'utf8').match(/^error \|/gm)?.length;
    expect(text).toContain(`${errors} errors under Existing-building code appendix, chapter A3, 2021`);
    expect(text).toMatch(/DEMO VALUES|"demo": true/);
    expect(text.replaceAll('it does not show that the house is safe', '')).not.toMatch(
      /\b(safe(ly|r|st)?|compliant|compliance|passes|no problems|certified|guaranteed)\b/i,
    );
  });
});
