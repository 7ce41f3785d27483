import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { formatSheet } from '../../language/syntax/format.ts';
import { printLayout } from '../../language/syntax/print/layout.ts';
import type { Project } from '../../language/syntax/project.ts';
import { createProjectReader } from '../../language/syntax/project.ts';
import { manyHouses, patience } from '../support/houses/many-houses.ts';
import type { Random } from '../support/houses/random.ts';
import { randomFrom } from '../support/houses/random.ts';
import { meaningOf } from '../support/meaning.ts';
import { exampleHost, readLayout } from '../support/read-layout.ts';

const samples = join(import.meta.dirname, '../syntax/samples');

/** What is wrong with printing this layout; nothing where all is well. */
function faultsOfPrinting(project: Project): readonly string[] {
  const printed = printLayout(project.layout);
  const again = readLayout(printed);
  const faults: string[] = [];
  const said = JSON.stringify(meaningOf(again.layout), undefined, 1).split('\n');
  const meant = JSON.stringify(meaningOf(project.layout), undefined, 1).split('\n');
  const differs = meant.findIndex((line, index) => line !== said[index]);
  if (differs >= 0 || said.length !== meant.length) {
    const near = (lines: readonly string[]): string => lines.slice(Math.max(0, differs - 8), differs + 4).join('\n');
    faults.push(`means something else:\n${near(meant)}\n--- printed:\n${near(said)}`);
  }
  if (formatSheet(printed).text !== printed) faults.push('is not in canonical format');
  if (project.problems.length === 0) faults.push(...again.problems.map((problem) => problem.message));
  return faults;
}

/** Keys struck by mistake, and some that were not. */
function withSlips(text: string, random: Random): string {
  let hurt = text;
  for (let slips = random.integer(1, 3); slips > 0; slips -= 1) {
    const at = random.integer(0, hurt.length);
    const put = random.pick([
      '"',
      "'",
      '\n',
      '//',
      ' ',
      '+',
      '(',
      'wall ',
      'to ',
      '1/',
      "3'",
      '-',
      ',',
      'unknown',
      'x',
      '',
    ]);
    hurt = hurt.slice(0, at) + put + hurt.slice(at + random.integer(0, 10));
  }
  return hurt;
}

describe('printing a layout and reading it again', () => {
  it(
    'gives the same layout, in canonical format and without new problems, for any house, and prints it again as before',
    () => {
      for (const { text, facts } of manyHouses(90, 10_000)) {
        const project = readLayout(text);
        expect({ seed: facts.seed, faults: faultsOfPrinting(project) }).toEqual({ seed: facts.seed, faults: [] });
        const printed = printLayout(project.layout);
        expect({ seed: facts.seed, again: printLayout(readLayout(printed).layout) }).toEqual({
          seed: facts.seed,
          again: printed,
        });
      }
    },
    patience,
  );

  it(
    'gives text that formatting leaves alone, whatever slips of the pen stand in a house',
    () => {
      for (const { text, facts } of manyHouses(120, 4_000, { design: true, untidy: true })) {
        const printed = printLayout(readLayout(withSlips(text, randomFrom(facts.seed))).layout);
        expect({ seed: facts.seed, formatted: formatSheet(printed).text }).toEqual({
          seed: facts.seed,
          formatted: printed,
        });
      }
    },
    patience,
  );

  it.each(['first-wall.sill', 'maple-surveyed.sill', 'maple-designed.sill'])('gives the same layout for %s', (file) => {
    expect(faultsOfPrinting(createProjectReader(exampleHost).read(file))).toEqual([]);
  });

  it('gives the same layout for every form of the language, as far as a line can be read', () => {
    expect(faultsOfPrinting(readLayout(readFileSync(join(samples, 'every-form.sill'), 'utf8')))).toEqual([]);
  });

  it.each<readonly [string, string]>([
    ['who inspects', 'layout "x"\n  special-inspection required by "An agency"\n'],
    [
      'readings along boards that lap',
      `wall A length 20'\n  sill A1 to 10' set-back 1" headroom 9" half-lap 4"\n  sill A2 9'-8" to end set-back 1" to 2" headroom 9"\n  headroom 7" from 8' to 12'\n  headroom 6" from 11' to 13'\n  set-back 1-1/2" at 9'-10"\n  set-back 0" at 3'\n`,
    ],
    [
      'a board that is replaced as a whole',
      `wall A length 20'\n  sill A1 to 10' 2x6 rotten\n  sill A2 to end 2x6\nwork on A\n  replace sill A1 treated\n`,
    ],
    [
      'a part put into a board, and one beside another',
      `wall A length 20'\n  sill A1 2x6 set-back 1" to 2"\nwork on A\n  replace sill A1 4' to 10' treated set-back 0" butt\n  sister sill "A1(2)" 12' to 14' 2x6\n  sister sill A1 15' to 16'\n`,
    ],
    ['boards without a name', `wall A length 20'\n  sill to 9' 2x6\n  sill to end 2x6\n  break at 4'\n`],
    ['a wall whose length nobody taped', `wall A length unknown\n  sill A1 to 9' 2x6\n  sill A2 to end 2x6\n`],
    [
      'things of one name, things over an end of the wall',
      `wall A length 20'\n  vent V at 3', 8' wide 16"\n  anchor X 1/2" at 1', 2'\n  stair at start wide 4'\n  duct 3' to 3'\n`,
    ],
    [
      'names that need quotes',
      `wall "under, north" length 20'\n  sill "to" 2x6\nwork on "under, north"\n  anchor "at" bolt-half at 10"\n`,
    ],
    [
      'angles whose bays nobody counted',
      `wall A length 20'\n  joists into spaced unknown first 0"\nwork on A\n  angles A-A1 angle-8 every bay\n  angles A-A2 angle-8 spaced unknown\n  angles A-A3 angle-8 at 3', 5'\n`,
    ],
    [
      'an outline that begins at an odd angle',
      `wall A length 20'-3 1/16" faces 352.5° from (3', -2')\nwall B turn 45.25° length 3 m\nwall C turn left length 12' inside\n`,
    ],
    ['a text with quotes and backslashes', `layout "the \\"old\\" mill, C:\\\\2"\n  note "12\\" or 13\\""\n`],
    [
      'hardware and rules of its own',
      `layout "x"\n  rules mine\nconnector plate side-plate\n  demo\n  body 200mm wide 9" tall\n  into sill 2 lag-screw size 8d x 3" hole 3/4" filled\n  capacity up 3 kN strength\nruleset mine "Mine"\n  source "a" published\n    limit end-distance at-least 9" at-most 12" for nail 8d, drill straight, piece over 3' under 2 m otherwise stop\n  source "b" common-practice\n    limit bay-centre required\n`,
    ],
    [
      'a girder with all that was found on it',
      `girder GD "hall" 6x8 from (0, 0) to (0, 20') underside -6"\n  spans 5', unknown\n  post P1 6x6 at 5' height told 6' cap toenails shims base none leans 1/4" per 1' gap 1/2"\n  rests at end sill\nwork on GD\n  cap C1 cap-plates on P1 both-sides shim 1/8"\n  shore P1 note "first"\n  replace post P1 4x4\n`,
    ],
  ])('keeps %s', (_what, text) => {
    expect(faultsOfPrinting(readLayout(text))).toEqual([]);
  });

  it('says nothing of what a layout does not say', () => {
    expect(printLayout(readLayout('').layout)).toBe('');
  });
});
