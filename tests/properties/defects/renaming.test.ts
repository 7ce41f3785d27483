import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { Analysis } from '../../../language/analysis.ts';
import { analyse } from '../../support/analyse.ts';
import { houseOf } from '../../support/houses/house.ts';
import { MAIN } from '../../support/memory-host.ts';
import type { Names } from './renamed.ts';
import { newName, newNames, renamed } from './renamed.ts';

const root = join(import.meta.dirname, '../../..');
const read = (file: string): string => readFileSync(join(root, file), 'utf8');
/** Of the shipped hardware and of one shipped rule set, copies that can be renamed. */
const hardware = read('language/library/hardware/demo-hardware.sill').replace(/^prices [\s\S]*/m, '');
const ruleSet = read('language/library/rulesets/existing-building.sill');
const connectors = [...hardware.matchAll(/^connector (\S+)/gm)].flatMap(([, name]) => name ?? []);

const long = Boolean(process.env.SILLWRIGHT_LONG);

describe('renaming every wall, board, thing, mark, connector and rule set', () => {
  it('has connectors and the rule set to rename', () => {
    expect(connectors).toContain('stepped-plate-s');
    expect(ruleSet).toMatch(/^ruleset existing-building /m);
  });

  it('changes no verdict on the surveyed demo house', () => {
    expectSameVerdicts({ [MAIN]: read('examples/maple-surveyed.sill') });
  });

  it('changes no verdict on the designed demo house', () => {
    expectSameVerdicts({
      [MAIN]: read('examples/maple-designed.sill'),
      'maple-surveyed.sill': read('examples/maple-surveyed.sill'),
    });
  });

  it('changes no verdict on any other example', () => {
    const files = readdirSync(join(root, 'examples')).filter(
      (file) => file.endsWith('.sill') && !file.startsWith('maple'),
    );
    expect(files.length).toBeGreaterThan(0);
    for (const file of files) {
      const text = read(join('examples', file));
      if (!/^use /m.test(text)) expectSameVerdicts({ [MAIN]: text });
    }
  });

  it('changes no verdict on random houses', { timeout: long ? 3_600_000 : 120_000 }, () => {
    for (let seed = 0; seed < (long ? 1_000 : 25); seed += 1) {
      expectSameVerdicts({ [MAIN]: houseOf(seed, { design: seed % 3 !== 0 }).text });
    }
  });
});

function expectSameVerdicts(files: Readonly<Record<string, string>>): void {
  const before = analyse(files);
  const names = newNames(before.layout, Object.values(files), [...connectors, 'existing-building']);
  const own = Object.fromEntries(Object.entries(files).map(([file, text]) => [file, renamed(text, names)]));
  expect(own).not.toEqual(files);
  const [main] = Object.keys(files);
  const library = `\n${renamed(hardware, names)}\n${renamed(ruleSet, names)}`;
  const after = analyse({ ...own, [main ?? MAIN]: `${own[main ?? MAIN] ?? ''}${library}` });
  const named = verdictsOf(before, (name) => asRenamed(name, names));
  expect(verdictsOf(after, (name) => name)).toEqual(named);
}

/** What the checks say, where, and what they could not look at; not in which words. */
function verdictsOf(
  { checked }: Analysis,
  nameNow: (name: string | undefined) => string | undefined,
): readonly string[] {
  const found = checked.findings.map(({ severity, rule, wall, piece, station, stationTo, accepted }) =>
    JSON.stringify([severity, rule, nameNow(wall), nameNow(piece), station, stationTo, accepted]),
  );
  const lacking = checked.notChecked.map(({ rule, wall, piece }) =>
    JSON.stringify(['not checked', rule, nameNow(wall), nameNow(piece)]),
  );
  return [...found, ...lacking].sort();
}

/** `A(2)` is the second board without a name on wall A, `E1-new` what takes the place of board E1. */
function asRenamed(name: string | undefined, names: Names): string | undefined {
  if (name === undefined) return undefined;
  const [, wall, number] = /^(.*?)(\(\d+\)|-new)$/.exec(name) ?? [];
  if (wall !== undefined && number !== undefined) return `${newName(wall, names) ?? wall}${number}`;
  return newName(name, names) ?? name;
}
