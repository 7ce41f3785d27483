import { planAxis, spaceAt, spaceInside, trueXY } from '../../drawing/plan-axis.ts';
import type { Connector } from '../../hardware/connector.ts';
import type { Factor, PriceList, Range } from '../../hardware/prices.ts';
import type { Girder, Layout, LengthUnits, Space, Wall } from '../../model/layout.ts';
import { distanceBetween } from '../../model/outline.ts';
import { knownValue } from '../../model/reading.ts';
import { compareLength, lengthOf } from '../../rulesets/compare.ts';
import { formatLength } from '../../units/format-length.ts';
import type { Length } from '../../units/length.ts';
import { feet, midpoint, nanometres, zero } from '../../units/length.ts';
import { formatMoney, type Money } from '../../units/money.ts';
import { percent } from '../calculation-words.ts';
import { kindInWords, type Schedule } from '../schedule.ts';
import { countOf } from '../text-layout.ts';
import { costOfConnectors, sumOfCosts } from './stock-table.ts';
import { countColumn, moneyColumn, type ScheduleColumn, type ScheduleTable, tableOf } from './table.ts';

interface WorkRow {
  readonly wall: '';
  /** `side-plate`, `permit`, `Sum`. */
  readonly what: string;
  readonly where: string;
  readonly count: number | undefined;
  /** Minutes for one, before any factor. */
  readonly minutes: Range<number> | undefined;
  readonly factor: Range<number> | undefined;
  readonly hours: Range<number> | undefined;
  readonly cost: Range<Money> | undefined;
  /** The same as one line that a person can follow. */
  readonly reckoning: string;
}

/**
 * What the whole design takes in work and comes to in money, as far as the price lists in sight say; every figure from low to high.
 * A factor multiplies the time of what is done in a space whose clear height keeps its condition. Where a space has several heights,
 * or nobody measured it, the low figure takes the least and the high one the greatest product of factors that can hold there.
 */
export function workTable(layout: Layout, schedule: Schedule): ScheduleTable {
  const { units } = layout.title;
  const { jobs, untimed } = jobsOf(layout);
  const work = jobs.map((job) => rowOf(job, units));
  const connectors = costOfConnectors(layout, schedule);
  const material = connectors.cost
    ? [plainRow('connectors', connectors.cost, 'as the list of connectors to buy has them')]
    : [];
  const allowances = listsFor(layout, isDemo(layout)).flatMap((list) => list.allowances);
  const fixed = allowances.flatMap(({ of, range }) =>
    isMoney(range) ? [plainRow(of.name, range, 'allowance of the price list')] : [],
  );
  const rows = [...work, ...material, ...fixed];
  const sum = work.length === 0 ? undefined : sumOfCosts(costsOf(rows));
  const shares = allowances.flatMap(({ of, range }): readonly WorkRow[] => {
    if (isMoney(range) || !sum) return [];
    const share = { low: range.low.amount, high: range.high.amount };
    return [plainRow(of.name, times(sum, share), `${between(share, percent)} of ${between(sum, formatMoney)}`)];
  });
  const total = sumOfCosts(costsOf([...rows, ...shares]));
  const all = work.length === 0 ? [] : [...rows, ...shares, ...(total ? [plainRow('Sum', total, '')] : [])];
  return tableOf(
    {
      of: 'work',
      title: 'Work and price',
      caption: 'Work and price',
      notes:
        work.length === 0
          ? ['No price list in sight says how long any of this work takes.']
          : notesOf(layout, rows, untimed, connectors.unpriced),
    },
    columnsOf(),
    all,
  );
}

const costsOf = (rows: readonly WorkRow[]): readonly Range<Money>[] => rows.flatMap(({ cost }) => cost ?? []);

// ---- what is done where

interface Job {
  readonly what: string;
  readonly space: Space | undefined;
  readonly list: PriceList;
  readonly minutes: Range<number>;
  readonly count: number;
}

function jobsOf(layout: Layout): { readonly jobs: readonly Job[]; readonly untimed: ReadonlyMap<string, number> } {
  const jobs = new Map<string, Job>();
  const untimed = new Map<string, number>();
  const take = (what: string, names: readonly string[], demo: boolean, space: Space | undefined): void => {
    for (const list of listsFor(layout, demo)) {
      const labour = names.flatMap((name) => list.labour.filter(({ of }) => isSame(of.name, name)))[0];
      if (!labour) continue;
      const { range, of } = labour;
      const key = `${of.name.toLowerCase()} ${space?.id ?? ''}`;
      const before = jobs.get(key);
      const minutes = { low: range.low.amount, high: range.high.amount };
      jobs.set(key, { what: of.name, space, list, minutes, count: (before?.count ?? 0) + 1 });
      return;
    }
    untimed.set(what, (untimed.get(what) ?? 0) + 1);
  };
  const takeConnector = (connector: Connector | undefined, space: Space | undefined): void => {
    if (!connector) return;
    take(kindInWords[connector.kind], [connector.name, connector.kind], connector.demo, space);
  };
  for (const wall of layout.walls) {
    const at = spaceOf(layout, wall);
    for (const mark of [...wall.anchors, ...wall.ties]) {
      if (mark.state !== 'omitted') takeConnector(mark.connector, at(mark.asBuilt?.station ?? mark.station));
    }
    for (const run of wall.angles) for (const station of run.stations) takeConnector(run.connector, at(station));
    for (const { stretch, state } of wall.panels) {
      if (state !== 'omitted')
        take('panel', ['panel'], isDemo(layout), at(stretch && midpoint(stretch.from, stretch.to)));
    }
  }
  for (const girder of layout.girders) {
    for (const post of girder.posts) {
      const space = spaceOfPost(layout, girder, post.station);
      for (const piece of post.hardware) if (piece.state !== 'omitted') takeConnector(piece.connector, space);
    }
  }
  return { jobs: [...jobs.values()].sort(byName), untimed };
}

const byName = (a: Job, b: Job): number =>
  a.what === b.what ? ((a.space?.name ?? '') < (b.space?.name ?? '') ? -1 : 1) : a.what < b.what ? -1 : 1;

const isSame = (a: string, b: string): boolean => a.toLowerCase() === b.toLowerCase();

function spaceOf(layout: Layout, wall: Wall): (station: Length | undefined) => Space | undefined {
  const axis = planAxis(wall);
  return (station) => (axis && station !== undefined ? spaceInside(axis, station, layout.spaces) : undefined);
}

function spaceOfPost({ spaces }: Layout, { from, to }: Girder, station: Length | undefined): Space | undefined {
  const long = from && to && distanceBetween(from, to);
  if (!from || !to || !long || station === undefined) return undefined;
  const share = station / long;
  const [x1, y1] = trueXY(from);
  const [x2, y2] = trueXY(to);
  return spaceAt([x1 + (x2 - x1) * share, y1 + (y2 - y1) * share], spaces);
}

/** Invented prices go with invented connectors alone. */
const listsFor = ({ prices }: Layout, demo: boolean): readonly PriceList[] =>
  prices.filter((list) => !list.demo || demo);
const isDemo = ({ walls }: Layout): boolean =>
  walls.some(({ anchors }) => anchors.some(({ connector }) => connector?.demo));

// ---- factors

const CLEAR_HEIGHT = 'clear-height';

/** No crawl space is as high. */
const HIGHEST = feet(100);

/** The heights that a space has at its ends; from nothing to anything where one of them is not known. */
function heightsOf(space: Space | undefined): {
  readonly least: Length;
  readonly most: Length;
  readonly known: boolean;
} {
  const near = knownValue(space?.clearHeight);
  const far = space?.clearHeightTo ? knownValue(space.clearHeightTo) : near;
  if (near === undefined || far === undefined) return { least: zero, most: HIGHEST, known: false };
  return { least: nanometres(Math.min(near, far)), most: nanometres(Math.max(near, far)), known: true };
}

function factorIn(
  space: Space | undefined,
  factors: readonly Factor[],
): { readonly range: Range<number>; readonly names: readonly string[] } {
  const { least, most } = heightsOf(space);
  const turns = factors.flatMap(({ condition }) => condition?.bounds.flatMap((bound) => lengthOf(bound) ?? []) ?? []);
  const heights = [least, most, ...turns.flatMap((turn) => [turn - 1, turn, turn + 1])].filter(
    (height) => height >= least && height <= most,
  );
  const names = new Set<string>();
  const products = heights.map((height) =>
    factors.reduce((product, factor) => {
      if (!holdsAt(factor, nanometres(height))) return product;
      names.add(factor.of.name);
      // To what a price list writes: 1.5 times 1.1 is 1.65.
      return Math.round(product * factor.factor * 1e6) / 1e6;
    }, 1),
  );
  return { range: { low: Math.min(...products), high: Math.max(...products) }, names: [...names] };
}

function holdsAt({ condition }: Factor, height: Length): boolean {
  if (!condition) return true;
  return isHeight(condition) && condition.bounds.every((bound) => compareLength(bound, height));
}

const isHeight = ({ key }: NonNullable<Factor['condition']>): boolean => isSame(key, CLEAR_HEIGHT);

// ---- rows

function rowOf({ what, space, list, minutes, count }: Job, units: LengthUnits): WorkRow {
  const { range: factor, names } = factorIn(space, list.factors);
  const hours = { low: (count * minutes.low * factor.low) / 60, high: (count * minutes.high * factor.high) / 60 };
  const rate = list.rates.find(({ of, per }) => per === 'hour' && isSame(of.name, 'labour'))?.range;
  const cost = rate && {
    low: { ...rate.low, cents: Math.round(hours.low * rate.low.cents) },
    high: { ...rate.high, cents: Math.round(hours.high * rate.high.cents) },
  };
  const multiplied = names.length === 0 ? '' : ` x ${between(factor, String)} (${names.join(', ')})`;
  const priced = rate ? `, x ${between(rate, formatMoney)} an hour` : ', no hourly rate';
  const time = `${count} x ${between(minutes, String)} min${multiplied} = ${between(hours, oneDecimal)} h`;
  return {
    wall: '',
    what,
    where: whereOf(space, units),
    count,
    minutes,
    factor,
    hours,
    cost,
    reckoning: `${time}${priced}`,
  };
}

function whereOf(space: Space | undefined, units: LengthUnits): string {
  if (!space) return 'in no drawn space';
  const { least, most, known } = heightsOf(space);
  if (!known) return `${space.name}, height unknown`;
  return `${space.name}, ${between({ low: least, high: most }, (height) => formatLength(height, units))} high`;
}

const plainRow = (what: string, cost: Range<Money>, reckoning: string): WorkRow => ({
  wall: '',
  what,
  where: '',
  count: undefined,
  minutes: undefined,
  factor: undefined,
  hours: undefined,
  cost,
  reckoning,
});

const isMoney = (range: Range<Money> | Range<unknown>): range is Range<Money> =>
  typeof range.low === 'object' && range.low !== null && 'cents' in range.low;

const times = ({ low, high }: Range<Money>, share: Range<number>): Range<Money> => ({
  low: { ...low, cents: Math.round(low.cents * share.low) },
  high: { ...high, cents: Math.round(high.cents * share.high) },
});

/** `20 to 35`, or `20` where both are one. */
function between<Value>({ low, high }: Range<Value>, inWords: (value: Value) => string): string {
  const [least, most] = [inWords(low), inWords(high)];
  return least === most ? least : `${least} to ${most}`;
}

const oneDecimal = (hours: number): string => hours.toFixed(1);

/** Hours with no more digits than a minute wants. */
const toTheMinute = (hours: number): number => Math.round(hours * 100) / 100;

function notesOf(
  layout: Layout,
  rows: readonly WorkRow[],
  untimed: ReadonlyMap<string, number>,
  unpriced: number,
): readonly string[] {
  const lists = listsFor(layout, isDemo(layout));
  const unread = lists.flatMap(({ factors }) => factors.filter(({ condition }) => condition && !isHeight(condition)));
  const daily = lists.flatMap(({ rates }) => rates.filter(({ per }) => per === 'day').map(({ of }) => of.name));
  const left = [...untimed].map(([what, count]) => countOf(count, what));
  const dated = lists.map(({ name, dated }) => (dated === undefined ? name : `${name} of ${dated}`));
  const currencies = new Set(rows.flatMap(({ cost }) => cost?.low.currency ?? []));
  return [
    'All of the design but what was left out, built or not. A factor multiplies the time of what is done under its clear height.',
    ...(rows.some(({ where, factor }) => factor && factor.low !== factor.high && where !== '')
      ? ['Where a height is not one, or not known, low takes the least of its factors and high the greatest.']
      : []),
    ...(left.length > 0 ? [`No time is given for ${left.join(', ')}.`] : []),
    ...(unpriced > 0
      ? [`${countOf(unpriced, 'kind')} of connector without a price ${unpriced === 1 ? 'is' : 'are'} not in it.`]
      : []),
    ...unread.map(
      ({ of, condition }) => `Factor ${of.name} is left out: of \`${condition?.key}\` nothing is known here.`,
    ),
    ...(daily.length > 0 ? [`Rates by the day are left out, for nobody says how many: ${daily.join(', ')}.`] : []),
    ...(currencies.size > 1 ? ['Prices in more than one currency are not added up.'] : []),
    `Blocks, wood, fasteners, remedies and tax are not in it. Prices: ${dated.join(', ')}.`,
  ];
}

function columnsOf(): readonly ScheduleColumn<WorkRow>[] {
  const number = (
    key: string,
    heading: string | undefined,
    of: (row: WorkRow) => number | undefined,
  ): ScheduleColumn<WorkRow> => ({
    key,
    ...(heading === undefined ? {} : { heading }),
    numeric: true,
    text: (row) => {
      const value = of(row);
      return value === undefined ? '' : String(value);
    },
    json: (row) => of(row) ?? null,
  });
  return [
    { key: 'what', heading: 'What', text: ({ what }) => what },
    { key: 'where', heading: 'Where', text: ({ where }) => where },
    countColumn('count', 'Count', ({ count }) => count),
    number('minutesLow', undefined, ({ minutes }) => minutes?.low),
    number('minutesHigh', undefined, ({ minutes }) => minutes?.high),
    number('factorLow', undefined, ({ factor }) => factor?.low),
    number('factorHigh', undefined, ({ factor }) => factor?.high),
    number('hoursLow', undefined, ({ hours }) => hours && toTheMinute(hours.low)),
    number('hoursHigh', undefined, ({ hours }) => hours && toTheMinute(hours.high)),
    { key: 'reckoning', heading: 'Reckoning', text: ({ reckoning }) => reckoning },
    moneyColumn('low', 'Low', ({ cost }) => cost?.low),
    moneyColumn('high', 'High', ({ cost }) => cost?.high),
  ];
}
