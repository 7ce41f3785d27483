import type { Connector } from '../../hardware/connector.ts';
import type { Price, Range } from '../../hardware/prices.ts';
import type { AddedHardware } from '../../model/design.ts';
import type { Layout, LengthUnits } from '../../model/layout.ts';
import type { MarkState } from '../../model/record.ts';
import { formatInches } from '../../units/format-length.ts';
import { formatMoney, type Money } from '../../units/money.ts';
import { kindInWords, type Schedule, valuesFrom } from '../schedule.ts';
import { countOf } from '../text-layout.ts';
import { recordOfMarks } from './mark-record.ts';
import { countColumn, moneyColumn, type ScheduleColumn, type ScheduleTable, tableOf } from './table.ts';
import { fastenerOf, fastenerSize, washerInWords } from './words.ts';

interface StockRow {
  readonly wall: '';
  readonly name: string;
  readonly connector: Connector | undefined;
  /** Of the design; what was left out is not in it. */
  readonly count: number;
  readonly installed: number;
  readonly price: Price | undefined;
}

/** What the whole design takes of each connector, what is built of it, and what the rest costs where a price list says. */
export function stockTable(layout: Layout, schedule: Schedule): ScheduleTable {
  const rows = stockOf(layout, schedule);
  const kinds = new Map<string, number>();
  for (const { connector, count } of rows) {
    const kind = connector ? kindInWords[connector.kind] : 'not found';
    kinds.set(kind, (kinds.get(kind) ?? 0) + count);
  }
  const totals = [...kinds].sort(([a], [b]) => (a < b ? -1 : 1)).map(([kind, count]) => `${kind} ${count}`);
  const priced = rows.filter(({ price }) => price);
  const lists = layout.prices.map(({ name, dated }) => (dated === undefined ? name : `${name} of ${dated}`));
  return tableOf(
    {
      of: 'stock',
      title: 'Connectors to buy',
      caption: 'Connectors to buy',
      notes: [
        ...(totals.length > 0 ? [`By kind: ${totals.join(', ')}.`] : []),
        ...(priced.length > 0 ? priceNotes(rows, lists) : []),
        'Marks that were left out are not counted, and the fasteners of a connector not apart from it.',
        ...(hasBothSides(layout)
          ? ['One on both sides of a post or wall counts once: see whether the product is a piece or a pair.']
          : []),
      ],
    },
    columnsOf(layout.title.units),
    rows,
  );
}

const hasBothSides = ({ walls, girders }: Layout): boolean =>
  walls.some((wall) =>
    [...wall.anchors, ...wall.ties].some(({ bothSides, state }) => bothSides && state !== 'omitted'),
  ) || girders.some(({ posts }) => posts.some(({ hardware }) => hardware.some(({ bothSides }) => bothSides)));

/** What the connectors of the whole design come to, and how many kinds of them have no price. */
export function costOfConnectors(
  layout: Layout,
  schedule: Schedule,
): { readonly cost: Range<Money> | undefined; readonly unpriced: number } {
  const rows = stockOf(layout, schedule);
  return { cost: sumOfCosts(rows.flatMap((row) => costOf(row) ?? [])), unpriced: unpricedIn(rows) };
}

const unpricedIn = (rows: readonly StockRow[]): number => rows.filter(({ price, count }) => !price && count > 0).length;

/** `undefined` for no costs, and for those in several currencies. */
export function sumOfCosts(costs: readonly Range<Money>[]): Range<Money> | undefined {
  const [first] = costs;
  if (!first || costs.some(({ low }) => low.currency !== first.low.currency)) return undefined;
  const sum = (end: 'low' | 'high'): number => costs.reduce((cents, each) => cents + each[end].cents, 0);
  return { low: { ...first.low, cents: sum('low') }, high: { ...first.high, cents: sum('high') } };
}

function priceNotes(rows: readonly StockRow[], lists: readonly string[]): readonly string[] {
  const unpriced = unpricedIn(rows);
  const sum = sumOfCosts(rows.flatMap((row) => costOf(row) ?? []));
  const total = sum
    ? `${formatMoney(sum.low)} to ${formatMoney(sum.high)} for these connectors`
    : 'Prices in more than one currency are not added up';
  const left =
    unpriced > 0 ? `; ${countOf(unpriced, 'kind')} without a price ${unpriced === 1 ? 'is' : 'are'} not in it` : '';
  return [`${total}${left}. Prices: ${lists.join(', ')}; no work, no tax.`];
}

function stockOf(layout: Layout, schedule: Schedule): readonly StockRow[] {
  const stock = new Map<string, { name: string; connector: Connector | undefined; count: number; installed: number }>();
  const take = (name: string, connector: Connector | undefined, state: MarkState): void => {
    if (state === 'omitted') return;
    const key = (connector?.name ?? name).toLowerCase();
    const own = stock.get(key) ?? { name: connector?.name ?? name, connector, count: 0, installed: 0 };
    // A failed one is in the wall and used up; what replaces it is a line of its own in the design.
    const installed = own.installed + (state === 'planned' ? 0 : 1);
    stock.set(key, { ...own, count: own.count + 1, installed });
  };
  const takeAdded = (added: readonly AddedHardware[] | undefined, state: MarkState): void => {
    for (const { name, connector } of added ?? []) if (connector) take(name, connector, state);
  };
  const anchors = new Map(layout.walls.flatMap((wall) => wall.anchors.map((anchor) => [anchor.id, anchor])));
  for (const row of schedule.rows) {
    const anchor = anchors.get(row.thing);
    const state = anchor?.state ?? row.record.state;
    take(row.connector, layout.connectors.get(row.connector.toLowerCase()), state);
    takeAdded(anchor?.withHardware, state);
  }
  const recordOf = recordOfMarks(layout);
  for (const wall of layout.walls) {
    for (const tie of wall.ties) {
      const using = tie.asBuilt?.using?.name;
      const connector = using === undefined ? tie.connector : layout.connectors.get(using.toLowerCase());
      take(using ?? tie.connectorName ?? 'none named', connector, tie.state);
      takeAdded(tie.withHardware, tie.state);
    }
    for (const run of wall.angles) {
      const ofRun = recordOf(wall.name, run.name).state;
      run.stations.forEach((_station, index) => {
        const own = recordOf(wall.name, `${run.name}.${index + 1}`).state;
        const state = own === 'planned' ? ofRun : own;
        take(run.connectorName, run.connector, state);
        takeAdded(run.withHardware, state);
      });
    }
    for (const remedy of wall.remedies)
      if ('on' in remedy && remedy.connectorName !== undefined) take(remedy.connectorName, remedy.connector, 'planned');
  }
  for (const girder of layout.girders)
    for (const post of girder.posts)
      for (const piece of post.hardware) takeAdded(piece.withHardware, piece.state ?? 'planned');
  return [...stock.values()]
    .map((own): StockRow => ({ wall: '', ...own, price: priceOf(layout, own.connector) }))
    .sort((a, b) => (a.name < b.name ? -1 : 1));
}

/** Invented prices go with invented connectors alone. */
function priceOf(layout: Layout, connector: Connector | undefined): Price | undefined {
  if (!connector) return undefined;
  for (const list of layout.prices) {
    if (list.demo && !connector.demo) continue;
    const price = list.prices.find(
      ({ of, unit }) => unit === 'each' && of.name.toLowerCase() === connector.name.toLowerCase(),
    );
    if (price) return price;
  }
  return undefined;
}

/** Of all of them, built or not. */
function costOf({ price, count }: StockRow): Range<Money> | undefined {
  if (!price) return undefined;
  const times = (money: Money): Money => ({ ...money, cents: money.cents * count });
  return { low: times(price.range.low), high: times(price.range.high) };
}

function columnsOf(units: LengthUnits): readonly ScheduleColumn<StockRow>[] {
  return [
    { key: 'connector', heading: 'Connector', text: ({ name }) => name },
    { key: 'kind', heading: 'Kind', text: ({ connector }) => (connector ? kindInWords[connector.kind] : 'not found') },
    countColumn('count', 'Count', ({ count }) => count),
    countColumn('installed', 'Built', ({ installed }) => installed),
    countColumn('left', 'To build', ({ count, installed }) => count - installed),
    {
      key: 'size',
      heading: 'Size',
      text: ({ connector }) => {
        const fastener = fastenerOf(connector);
        return fastener ? fastenerSize(fastener, units) : '';
      },
    },
    {
      key: 'hole',
      heading: 'Hole',
      text: ({ connector }) => {
        const fastener = fastenerOf(connector);
        return [fastener?.hole, fastener?.holeDepth]
          .flatMap((length) => (length ? [formatInches(length, units)] : []))
          .join(' x ');
      },
    },
    { key: 'washer', heading: 'Washer', text: ({ connector }) => washerInWords(connector, undefined, units) },
    { key: 'valuesFrom', heading: 'Values from', text: ({ connector }) => valuesFrom(connector) },
    moneyColumn('eachLow', 'Each, low', ({ price }) => price?.range.low),
    moneyColumn('eachHigh', 'high', ({ price }) => price?.range.high),
    moneyColumn('allLow', 'All, low', (row) => costOf(row)?.low),
    moneyColumn('allHigh', 'high', (row) => costOf(row)?.high),
  ];
}
