import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { openLayout } from '../../server/src/cli/open-layout.ts';
import { runCommandLine } from '../../server/src/cli/run.ts';
import { examples } from './folders.ts';

/** Rule, wall and piece of each finding. */
function findingsIn(name: string): readonly string[] {
  const opened = openLayout(join(examples, name));
  if (opened.kind === 'refused') throw new Error(opened.reason);
  return opened.layout.analysis.findings.map(
    ({ severity, rule, wall, piece }) => `${severity} ${rule} ${wall} ${piece}`,
  );
}

// Worked out by hand from the survey: no old anchor has credit, so a board without new anchors has none that count.
const expected: Readonly<Record<string, readonly string[]>> = {
  'first-wall.sill': [],
  'maple-surveyed.sill': [
    'A A1',
    'A A2',
    'A A3',
    'B B1',
    'C C1',
    'D D1',
    'D D2',
    'E E1',
    'E E2',
    'F F1',
    'F F2',
    'F F3',
  ].map((place) => `error anchorage/piece-without-anchor ${place}`),
  'maple-designed.sill': [
    'error anchorage/piece-without-anchor A A3',
    'error anchorage/piece-without-anchor B B1',
    // Wall C is left alone with a reason. The new end of E1 is a board of its own, and so is what is left of the old one.
    'error anchorage/piece-without-anchor D D1',
    'error anchorage/piece-without-anchor D D2',
    'error anchorage/piece-without-anchor E E1-new',
    'error anchorage/piece-without-anchor E E1',
    'error anchorage/piece-without-anchor E E2',
    // F-4 was omitted: three of four.
    'error anchorage/short-piece-count F F1',
  ],
};

describe('the examples', () => {
  it.each(Object.keys(expected))('%s shows the findings that it says it shows', (name) => {
    expect(findingsIn(name)).toEqual(expected[name]);
  });

  it('are all of them held to this', () => {
    expect(
      readdirSync(examples)
        .filter((name) => name.endsWith('.sill'))
        .sort(),
    ).toEqual(Object.keys(expected).sort());
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
    expect(text).toMatch(/8 errors under Existing-building code appendix, chapter A3, 2021/);
    expect(text).toMatch(/DEMO VALUES|"demo": true/);
    expect(text.replaceAll('it does not show that the house is safe', '')).not.toMatch(
      /\b(safe(ly|r|st)?|compliant|compliance|passes|no problems|certified|guaranteed)\b/i,
    );
  });
});
