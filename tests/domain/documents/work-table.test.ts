import { describe, expect, it } from 'vitest';
import { schedulesOf } from '../../../language/domain/documents/schedules/all-schedules.ts';
import type { ScheduleTable } from '../../../language/domain/documents/schedules/table.ts';
import { analyse } from '../../support/analyse.ts';

const prices = `prices shop dated 2026-04-01
  demo
  price bolt-half $4 to $6 each
  labour through-bolt 20 to 30 min
  rate labour $60 to $90 per hour
  rate rotary-hammer $60 per day
  factor crawl-low 1.5 for clear-height at-least 24" under 36"
  factor crawl-belly 2 for clear-height under 24"
`;

/** Four bolts along the north wall of a house whose space is as high as said. */
function house(clear: string | undefined, list = prices): ScheduleTable {
  const text = `layout "X"
  rules existing-building
house
  storeys 1
${clear === undefined ? '' : `space belly crawl from (0", 0") to (20'-0", -20'-0") clear-height ${clear}\n`}
wall F faces north from (0", 0") length 20'-0"
  foundation thick 8" showing 18" top 0"
  sill F1 size 2x6 set-back 3/4" headroom 30"
work on F
  anchor F-1 bolt-half at 1'-0"
  anchor F-2 bolt-half at 7'-0"
  anchor F-3 bolt-half at 13'-0"
  anchor F-4 bolt-half at 19'-0"
  panel F-P1 0" to 4'-0" plywood 15/32"
${list}`;
  const { layout, checked } = analyse(text);
  const [table] = schedulesOf(layout, checked, () => undefined, { only: ['work'] }).tables;
  if (!table) throw new Error('no table');
  return table;
}

const rowsOf = ({ columns, rows }: ScheduleTable) =>
  rows.map(({ cells }) => Object.fromEntries(columns.map(({ key }, index) => [key, cells[index]?.json])));
const bolts = (clear: string | undefined, list?: string) =>
  rowsOf(house(clear, list)).find(({ what }) => what === 'through-bolt');

describe('the schedule of work and price', () => {
  it('reckons each kind of work on one line: number, time, factor, rate', () => {
    // 4 bolts of 20 to 30 min, at half as much again: 2 to 3 hours.
    expect(bolts('30"')).toMatchObject({
      where: `belly, 2'-6" high`,
      count: 4,
      factorLow: 1.5,
      factorHigh: 1.5,
      hoursLow: 2,
      hoursHigh: 3,
      low: { currency: '$', cents: 12000 },
      high: { currency: '$', cents: 27000 },
      reckoning: '4 x 20 to 30 min x 1.5 (crawl-low) = 2.0 to 3.0 h, x $60.00 to $90.00 an hour',
    });
  });

  it.each([
    ['36"', 1, 1],
    ['35-15/16"', 1.5, 1.5],
    ['24"', 1.5, 1.5],
    ['23-15/16"', 2, 2],
    ['7\'-0"', 1, 1],
    // One end of a space on a slope, and the other.
    ['30" to 20"', 1.5, 2],
    ['48" to 20"', 1, 2],
    ['unknown', 1, 2],
    [undefined, 1, 2],
  ])('takes the factors of a clear height of %s: %d to %d', (clear, low, high) => {
    expect(bolts(clear)).toMatchObject({ factorLow: low, factorHigh: high });
  });

  it('says so where low and high take different factors', () => {
    expect(house('unknown').notes.join(' ')).toMatch(/not known, low takes the least of its factors/);
    expect(house('30"').notes.join(' ')).not.toMatch(/low takes the least/);
  });

  it('multiplies factors that hold together, and takes one without a condition everywhere', () => {
    const wet = `${prices}  factor wet 1.1\n`;
    expect(bolts('30"', wet)?.reckoning).toMatch(/^4 x 20 to 30 min x 1\.65 \(crawl-low, wet\)/);
    expect(bolts(`7'-0"`, wet)?.reckoning).toMatch(/^4 x 20 to 30 min x 1\.1 \(wet\)/);
  });

  it('leaves out a factor of something that it knows nothing of, and says so', () => {
    const muddy = `${prices}  factor mud 3 for mud-depth over 2"\n`;
    expect(bolts('30"', muddy)).toMatchObject({ factorHigh: 1.5 });
    expect(house('30"', muddy).notes).toContain('Factor mud is left out: of `mud-depth` nothing is known here.');
  });

  it('adds connectors and allowances, shares of them last, and what comes to what', () => {
    const rows = rowsOf(
      house('48"', `${prices}  allowance permit $100 to $200\n  allowance contingency 10 % to 20 %\n`),
    );
    expect(rows.map(({ what, low, high }) => [what, low, high])).toEqual([
      // 4 bolts of 20 to 30 min at $60 to $90 an hour.
      ['through-bolt', { currency: '$', cents: 8000 }, { currency: '$', cents: 18000 }],
      ['connectors', { currency: '$', cents: 1600 }, { currency: '$', cents: 2400 }],
      ['permit', { currency: '$', cents: 10000 }, { currency: '$', cents: 20000 }],
      ['contingency', { currency: '$', cents: 1960 }, { currency: '$', cents: 8080 }],
      ['Sum', { currency: '$', cents: 21560 }, { currency: '$', cents: 48480 }],
    ]);
    expect(rows.find(({ what }) => what === 'contingency')?.reckoning).toBe('10 % to 20 % of $196.00 to $404.00');
  });

  it('names what has no time, what has no price and rates by the day', () => {
    const { notes } = house('30"', prices.replace(/ {2}price .*\n/, ''));
    expect(notes).toContain('No time is given for 1 panel.');
    expect(notes).toContain('1 kind of connector without a price is not in it.');
    expect(notes).toContain('Rates by the day are left out, for nobody says how many: rotary-hammer.');
  });

  it('is empty where no price list in sight knows the time of anything', () => {
    const { rows, notes } = house('30"', '');
    expect(rows).toEqual([]);
    expect(notes).toEqual(['No price list in sight says how long any of this work takes.']);
  });
});
