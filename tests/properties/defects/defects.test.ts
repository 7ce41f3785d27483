import { describe, expect, it } from 'vitest';
import { houseOf } from '../../support/houses/house.ts';
import { randomFrom } from '../../support/houses/random.ts';
import type { Defect } from './defect.ts';
import { defects } from './defects.ts';
import type { Trial } from './trial.ts';
import { analyserOfTexts, graveIn, tryDefect } from './trial.ts';

const long = Boolean(process.env.SILLWRIGHT_LONG);
const houses = long ? 10_000 : 500;

describe('a mistake in a legal house', () => {
  it('is named in words of its own, and there are at least forty', () => {
    expect(new Set(defects.map(({ id }) => id)).size).toBe(defects.length);
    expect(defects.length).toBeGreaterThanOrEqual(40);
  });

  it('is found by the rule that is meant, at its place, and no other error comes with it', {
    timeout: long ? 3_600_000 : 180_000,
  }, () => {
    const trials = tryAll(houses);
    console.log(tableOf(trials));
    const wrong = trials.filter(({ missed, extra }) => missed.length > 0 || extra.length > 0);
    expect(wrong.map(inWords)).toEqual([]);
    const tried = new Set(trials.map(({ defect }) => defect));
    expect(defects.filter((defect) => !tried.has(defect)).map(({ id }) => id)).toEqual([]);
  });
});

/** One mistake in each house: of those that it has a place for, the one that was tried least. */
function tryAll(count: number): readonly Trial[] {
  const findings = analyserOfTexts();
  const tried = new Map<Defect, number>(defects.map((defect) => [defect, 0]));
  const trials: Trial[] = [];
  for (let seed = 0; seed < count; seed += 1) {
    const house = { ...houseOf(seed, { design: true }), random: randomFrom(seed + 1_000_000) };
    const before = findings(house.text);
    expect({ seed, grave: graveIn(before).map(({ rule, message }) => `${rule}: ${message}`) }).toEqual({
      seed,
      grave: [],
    });
    const inTurn = defects.toSorted((a, b) => (tried.get(a) ?? 0) - (tried.get(b) ?? 0));
    for (const defect of inTurn) {
      const injected = defect.inject(house);
      const trial = injected && tryDefect(defect, house, before, injected, findings);
      if (!trial) continue;
      tried.set(defect, (tried.get(defect) ?? 0) + 1);
      trials.push(trial);
      break;
    }
  }
  return trials;
}

function inWords({ defect, seed, missed, extra }: Trial): string {
  const silent = missed.map((place) => `${defect.rule} is silent at ${JSON.stringify(place)}`);
  const loud = extra.map(({ rule, message }) => `${rule} says: ${message}`);
  return `house ${seed}, ${defect.id}: ${[...silent, ...loud].join('; ')}`;
}

function tableOf(trials: readonly Trial[]): string {
  const rows = defects
    .toSorted((a, b) => (a.rule === b.rule ? 0 : a.rule < b.rule ? -1 : 1))
    .map((defect) => {
      const own = trials.filter((trial) => trial.defect === defect);
      const found = own.filter(({ missed }) => missed.length === 0).length;
      const extra = own.filter((trial) => trial.extra.length > 0).length;
      return [defect.rule, defect.id, own.length, found, own.length - found, extra];
    });
  const head = ['rule', 'mistake', 'tried', 'found', 'missed', 'extra'];
  const widths = head.map((word, column) => Math.max(word.length, ...rows.map((row) => String(row[column]).length)));
  const line = (row: readonly (string | number)[]): string =>
    row
      .map((cell, column) =>
        typeof cell === 'number' ? String(cell).padStart(widths[column] ?? 0) : cell.padEnd(widths[column] ?? 0),
      )
      .join('  ')
      .trimEnd();
  const sum = [
    'in all',
    '',
    trials.length,
    ...[2, 3, 4].map((column) => rows.reduce((all, row) => all + Number(row[column + 1]), 0)),
  ];
  return [head, ...rows, sum].map(line).join('\n');
}
