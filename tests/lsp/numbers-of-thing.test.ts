import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { numbersOfThing } from '../../server/src/numbers-of-thing.ts';
import { thingsOf } from '../../server/src/things.ts';
import { analyse } from '../support/analyse.ts';
import { examplesFolder } from '../support/read-layout.ts';

const text = (name: string): string => readFileSync(join(examplesFolder, name), 'utf8');
const { layout } = analyse({
  'main.sill': text('maple-designed.sill'),
  'maple-surveyed.sill': text('maple-surveyed.sill'),
});
/** Where an anchor may go is tested with the placement: `place.test.ts`. */
const forTheCrew: ReadonlySet<string> = new Set(['may slide alone', 'if its hole fails']);
const numbersOf = (name: string, of = layout): readonly string[] => {
  const placed = [...thingsOf(of)].find(({ thing }) => thing.name === name);
  if (!placed) throw new Error(`no ${name}`);
  return numbersOfThing(of, placed)
    .filter(({ name: fact }) => !forTheCrew.has(fact))
    .map((fact) => `${fact.name}: ${fact.text}`);
};

describe('the numbers in a hover', () => {
  it('of an anchor are what it is counted on to carry, where that comes from, and what its line is asked', () => {
    expect(numbersOf('F-1')).toEqual([
      'capacity counted: 950 lb along the wall (DEMO VALUE: invented)',
      'line west: demand 4,896 lb, without drag struts; with them 4,564 lb. The larger counts.',
      'its anchors: demand is 42 % of the capacity counted',
    ]);
    expect(numbersOf('F-4')[0]).toBe('capacity counted: none: the record says that it was omitted');
  });

  it('of a wall are those of its line', () => {
    expect(numbersOf('F')).toEqual(numbersOf('F-1').slice(1));
    expect(numbersOf('D')[1]).toBe('its anchors: no comparison: no capacity is counted');
  });

  it('of anything else are none, and none of demand where the file gives neither weight nor hazard', () => {
    expect(numbersOf('F1')).toEqual([]);
    const bare = analyse(text('first-wall.sill')).layout;
    expect(numbersOf('A-1', bare)).toEqual(['capacity counted: 1,000 lb along the wall (DEMO VALUE: invented)']);
    expect(numbersOf('A', bare)).toEqual([]);
  });
});
