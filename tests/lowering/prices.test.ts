import { describe, expect, it } from 'vitest';
import type { PriceList } from '../../language/domain/hardware/prices.ts';
import { inches } from '../../language/domain/units/length.ts';
import { analyse, placedFindings } from '../support/analyse.ts';
import { readLayout } from '../support/read-layout.ts';

const listOf = (lines: string): PriceList => {
  const [list] = readLayout(`prices demo dated 2026-04-01\n${lines}`).layout.prices;
  if (!list) throw new Error('no price list');
  return list;
};
const told = (lines: string): readonly string[] =>
  placedFindings(analyse(`prices demo dated 2026-04-01\n${lines}`))
    .filter(({ rule }) => rule.startsWith('language/'))
    .map(({ rule, line, message }) => `${rule} ${line}: ${message}`);
const dollars = (cents: number) => ({ currency: '$', cents });

describe('a price list', () => {
  it('has every kind of line, from a low to a high figure', () => {
    const list = listOf(`  demo
  price bolt-half $18 to $24.50 each
  price plywood $42 to $58 sheet note "15/32"
  price nails-8d $12 box of 500
  price angle-8 $3.05
  labour panel 20 to 35 min
  labour anchor 1 hour to 90 min
  rate carpenter $55 to $85 per hour
  rate rotary-hammer $60 per day
  factor low 1.3 for clear-height at-least 24" under 36"
  factor wet 1.1
  allowance permit $300 to $900
  allowance contingency 10 % to 15 %
  note "spring prices"
`);
    expect(list).toMatchObject({ name: 'demo', dated: '2026-04-01', demo: true, notes: ['spring prices'] });
    expect(list.prices).toMatchObject([
      { of: { name: 'bolt-half' }, range: { low: dollars(1800), high: dollars(2450) }, unit: 'each', count: undefined },
      {
        of: { name: 'plywood' },
        range: { low: dollars(4200), high: dollars(5800) },
        unit: 'sheet',
        tags: { notes: ['15/32'] },
      },
      { of: { name: 'nails-8d' }, range: { low: dollars(1200), high: dollars(1200) }, unit: 'box', count: 500 },
      { of: { name: 'angle-8' }, range: { low: dollars(305), high: dollars(305) }, unit: 'each' },
    ]);
    // Base unit of time: minutes. `20 to 35 min`: the unit behind the second figure speaks of both.
    expect(list.labour).toMatchObject([
      { of: { name: 'panel' }, range: { low: { dimension: 'time', amount: 20 }, high: { amount: 35, unit: 'min' } } },
      { of: { name: 'anchor' }, range: { low: { amount: 60 }, high: { amount: 90 } } },
    ]);
    expect(list.rates).toMatchObject([
      { of: { name: 'carpenter' }, per: 'hour', range: { low: dollars(5500), high: dollars(8500) } },
      { of: { name: 'rotary-hammer' }, per: 'day', range: { low: dollars(6000), high: dollars(6000) } },
    ]);
    expect(list.factors).toMatchObject([
      {
        of: { name: 'low' },
        factor: 1.3,
        condition: {
          key: 'clear-height',
          bounds: [
            { comparison: 'at-least', value: { kind: 'length', length: inches(24) } },
            { comparison: 'under', value: { kind: 'length', length: inches(36) } },
          ],
        },
      },
      { of: { name: 'wet' }, factor: 1.1, condition: undefined },
    ]);
    expect(list.allowances).toMatchObject([
      { of: { name: 'permit' }, range: { low: dollars(30000), high: dollars(90000) } },
      { of: { name: 'contingency' }, range: { low: { dimension: 'share', amount: 0.1 }, high: { amount: 0.15 } } },
    ]);
  });

  it('may price goods that are no connector, and one thing by the piece and by the box', () => {
    const lines =
      '  price plywood $42 to $58 sheet\n  price nails $1 to $2 each\n  price nails $30 to $40 box of 100\n  price nails $50 to $60 box of 500\n';
    expect(told(lines)).toEqual([]);
    expect(listOf(lines).prices).toHaveLength(4);
  });

  it('runs from low to high; the other way round is told and read as meant', () => {
    const lines = '  price x $24 to $18 each\n  labour y 35 to 20 min\n  allowance z 15 % to 10 %\n';
    expect(told(lines)).toEqual([
      'language/wrong-kind 1: $24 to $18 runs from high to low; it is read the other way round. Write the low figure first.',
      'language/wrong-kind 2: 35 to 20 min runs from high to low; it is read the other way round. Write the low figure first.',
      'language/wrong-kind 3: 15 % to 10 % runs from high to low; it is read the other way round. Write the low figure first.',
    ]);
    expect(listOf(lines).prices[0]?.range).toEqual({ low: dollars(1800), high: dollars(2400) });
  });

  it('has one currency, that of its first figure', () => {
    const lines = '  price x $18 to $24 each\n  price y £18 to £24 each\n  rate z €40 per hour\n';
    expect(told(lines)).toEqual([
      'language/wrong-kind 2: This list is in $, so £18 cannot be added to it; put it into a list of its own.',
      'language/wrong-kind 3: This list is in $, so €40 cannot be added to it; put it into a list of its own.',
    ]);
    expect(listOf(lines).prices.map((price) => price.of.name)).toEqual(['x']);
    expect(listOf(lines).rates).toEqual([]);
  });

  it('has one figure for a thing: the first is used', () => {
    const lines =
      '  price x $18 each\n  price X $19 each\n  rate y $50 per hour\n  rate y $55 per hour\n  rate y $400 per day\n  labour z 1 to 2 min\n  labour z 1 to 3 min\n';
    expect(told(lines)).toEqual([
      'language/duplicate-name 2: X stands in this list already; the first one is used. Delete one.',
      'language/duplicate-name 4: y stands in this list already; the first one is used. Delete one.',
      'language/duplicate-name 7: z stands in this list already; the first one is used. Delete one.',
    ]);
    expect(listOf(lines).prices.map((price) => price.range.low.cents)).toEqual([1800]);
    expect(listOf(lines).rates.map((rate) => rate.per)).toEqual(['hour', 'day']);
  });

  it('takes times for labour, money or shares for allowances, and counts for boxes', () => {
    const lines =
      '  labour a 20 to 35 lb\n  allowance b 10 % to $20\n  allowance c 10 psf\n  price d $1 box of 0\n  factor e 0\n';
    expect(told(lines)).toEqual([
      'language/wrong-kind 1: Labour takes a time from low to high, such as `20 to 35 min`; 20 to 35 lb is none.',
      'language/wrong-kind 2: An allowance is money or a share, low and high alike: `$300 to $900` or `10 % to 15 %`.',
      'language/wrong-kind 3: An allowance is money or a share, low and high alike: `$300 to $900` or `10 % to 15 %`.',
      'language/wrong-kind 4: Say how many of d a box holds: `box of 100`.',
      'language/wrong-kind 5: A factor multiplies labour, so it is over 0.',
    ]);
    const list = listOf(lines);
    expect([list.labour, list.allowances, list.prices, list.factors]).toEqual([[], [], [], []]);
  });
});

describe('two price lists', () => {
  it('of one name in one file are a slip', () => {
    const text = 'prices a\n  price x $1\nprices b\n  price x $2\nprices A\n  price x $3\n';
    const messages = placedFindings(analyse(text)).filter(({ rule }) => rule === 'language/duplicate-name');
    expect(messages.map(({ line, message }) => [line, message])).toEqual([
      [4, 'There are two price lists called A; the last one counts. Give one of them another name.'],
    ]);
    expect(readLayout(text).layout.prices.map((list) => [list.name, list.prices[0]?.range.low.cents])).toEqual([
      ['A', 300],
      ['b', 200],
    ]);
  });

  it('of one name in two files are the user`s own choice', () => {
    const files = { 'main.sill': 'use "shop.sill"\nprices a\n  price x $2\n', 'shop.sill': 'prices a\n  price x $1\n' };
    const project = readLayout(files);
    expect(project.problems).toEqual([]);
    expect(project.layout.prices.map((list) => list.prices[0]?.range.low.cents)).toEqual([200]);
  });

  it('keep a question for the survey list', () => {
    const { layout } = readLayout('prices a\n  ask "does the yard deliver"\n');
    expect(layout.questions.map((question) => question.text)).toEqual(['does the yard deliver']);
  });
});
