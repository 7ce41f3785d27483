import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { Analysis } from '../../../language/analysis.ts';
import type { Finding } from '../../../language/domain/rules/finding.ts';
import { analyse } from '../../support/analyse.ts';
import { INCH } from '../../support/houses/facts.ts';
import type { House } from '../../support/houses/house.ts';
import { houseOf } from '../../support/houses/house.ts';
import { randomFrom } from '../../support/houses/random.ts';
import { MAIN } from '../../support/memory-host.ts';
import { onAnchors, result, rewrite } from './anchor-edits.ts';
import { stationIn } from './defect.ts';
import { withPlace } from './house-text.ts';
import { isLong, isOpen, onTape } from './spots.ts';

const root = join(import.meta.dirname, '../../..');
const read = (file: string): string => readFileSync(join(root, file), 'utf8');
const shipped = read('language/library/rulesets/existing-building.sill');
/** The table of spacing with 48 in turned into 47 in; nothing else. */
const moved = shipped
  .replace(/^ruleset existing-building\b/m, 'ruleset one-inch-less')
  .replace(/^( {4}limit {3}anchor-spacing {2}at-most )4'-0"/gm, (_all, start: string) => `${start}3'-11"`);

const gapTooWide = 'anchorage/gap-too-wide';
const TOLERANCE = INCH / 16;

describe(`a copy of the rule set with 3'-11" for 4'-0" between anchors`, () => {
  it('differs in that alone', () => {
    const [before, after] = [shipped.split('\n'), moved.split('\n')];
    const differing = after.filter((line, index) => line !== before[index]);
    expect(differing.filter((line) => line.includes(`3'-11"`))).toHaveLength(2);
    expect(differing).toHaveLength(3);
  });

  it('moves findings and messages of the designed demo house', () => {
    const files = { 'maple-surveyed.sill': read('examples/maple-surveyed.sill') };
    const design = read('examples/maple-designed.sill');
    // The title block is in the survey.
    const under = (rules: string, more: string): Analysis =>
      analyse({ [MAIN]: design + more, 'maple-surveyed.sill': withRules(files['maple-surveyed.sill'], rules) });
    expectMoved(under('existing-building', ''), under('one-inch-less', `\n${moved}`));
  });

  it('moves findings and messages of houses of two storeys', () => {
    let houses = 0;
    for (let seed = 0; seed < 60; seed += 1) {
      const text = withGapBetween(houseOf(seed, { design: true }));
      if (text === undefined) continue;
      houses += 1;
      expect(expectMoved(analyse(text), analyse(`${withRules(text, 'one-inch-less')}\n${moved}`))).toBe(1);
    }
    expect(houses).toBeGreaterThan(10);
  });

  it('speaks of 47 in where it spoke of 48 in', () => {
    const text = wallWithGap(`8'-8 1/4"`);
    const [before] = gaps(analyse(text));
    const [after] = gaps(analyse(`${withRules(text, 'one-inch-less')}\n${moved}`));
    expect(before?.message).toContain(`at most 4'-0"`);
    expect(after?.message).toBe(before?.message.replaceAll(`at most 4'-0"`, `at most 3'-11"`));
  });

  it.each([
    [`8'-7"`, 0, 0],
    [`8'-7 1/8"`, 0, 1],
    [`8'-8"`, 0, 1],
    [`8'-8 1/8"`, 1, 1],
  ])('after an anchor at 4 ft 8 in, one at %s: %i finding before and %i after', (station, before, after) => {
    const text = wallWithGap(station);
    expect(gaps(analyse(text))).toHaveLength(before);
    expect(gaps(analyse(`${withRules(text, 'one-inch-less')}\n${moved}`))).toHaveLength(after);
  });
});

const gaps = ({ findings }: Analysis): readonly Finding[] => findings.filter(({ rule }) => rule === gapTooWide);

const withRules = (text: string, rules: string): string =>
  text.replace(/^( {2}rules +)existing-building\b/m, `$1${rules}`);

/** Each gap between 47 and 48 in of a long board under two storeys gets a finding, and no other verdict moves. */
function expectMoved(before: Analysis, after: Analysis): number {
  const key = ({ rule, wall, station, stationTo }: Finding): string => `${rule} ${wall} ${station} ${stationTo}`;
  const known = new Set(before.findings.map(key));
  const fresh = after.findings.filter((finding) => !known.has(key(finding)));
  const still = new Set(after.findings.map(key));
  expect(before.findings.filter((finding) => !still.has(key(finding)))).toEqual([]);
  for (const { rule, message, station, stationTo } of fresh) {
    expect(rule).toBe(gapTooWide);
    expect(message).toMatch(/at most (?:3'-11"|1194 mm)/);
    const gap = (stationTo ?? 0) - (station ?? 0);
    expect(gap).toBeGreaterThan(47 * INCH + TOLERANCE);
    expect(gap).toBeLessThanOrEqual(48 * INCH + TOLERANCE);
  }
  expect(gaps(after).every(({ message }) => !message.includes(`at most 4'-0"`))).toBe(true);
  return fresh.length;
}

/** One anchor of a long board is slid to 47-1/2 in from the one before. */
function withGapBetween({ text, facts }: House): string | undefined {
  const house = { text, facts, random: randomFrom(facts.seed) };
  if (facts.storeys !== 2) return undefined;
  return onAnchors(house, ({ wall, piece, anchor, before, after }) => {
    if (!isLong(piece) || !before || !after) return undefined;
    const station = onTape(facts, before.station + 47.5 * INCH);
    const rest = after.station - station;
    if (!isOpen(facts, wall, anchor.connector, station) || rest < 13 * INCH || rest > 46 * INCH) return undefined;
    return result(house, [], rewrite(wall, anchor, withPlace(stationIn(house, station))));
  })?.text;
}

function wallWithGap(third: string): string {
  return [
    'layout "Gap"',
    '  rules existing-building',
    'house',
    '  storeys 2',
    '  dwellings 1',
    `wall F length 14'-6"`,
    '  foundation thick 8" showing 18" top 0" sound',
    '  sill F1 size 2x6 set-back 3/4" headroom 11-1/8"',
    'work on F',
    ...[`0'-10"`, `4'-8"`, third, `11'-6"`, `13'-7"`].map(
      (station, index) => `  anchor F-${index + 1} stepped-plate-s at ${station}`,
    ),
    '',
  ].join('\n');
}
