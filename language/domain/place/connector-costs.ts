import type { PriceList, Range } from '../hardware/prices.ts';
import type { Layout } from '../model/layout.ts';
import type { AnchorKind } from '../placement/problem.ts';
import type { Currency, Money } from '../units/money.ts';
import type { Quantity } from '../units/quantity.ts';
import { type ConnectorUse, preferenceOf } from './connector-uses.ts';

/** What connectors cost against each other, in whole units of the solver. */
export type Costs =
  | {
      readonly unit: 'money';
      readonly currency: Currency;
      /** In cents, for one connector in place; the mean of low and high is what is compared. */
      readonly ranges: ReadonlyMap<string, Range<number>>;
      /** Time is in it. */
      readonly withLabour: boolean;
    }
  /** Every connector counts the same, and of equal numbers the kind that is thought of first goes first. */
  | { readonly unit: 'count'; readonly because: string };

/** More than the preferences of all connectors of a house can add up to. */
const ONE = 1_000_000;

/**
 * Prices where the layout has one in one currency for every connector that is thought of; else equal costs.
 * Labour is added where both its time and an hourly rate are given. A shim, and the slower drill, have no price of their own.
 */
export function costsOf(layout: Layout, uses: readonly ConnectorUse[]): Costs {
  if (layout.prices.length === 0) return { unit: 'count', because: 'no price list is in sight' };
  const ranges = new Map<string, Range<number>>();
  const currencies = new Set<Currency>();
  let withLabour = false;
  for (const use of uses) {
    const lists = layout.prices.filter((list) => !list.demo || use.connector.demo);
    const price = priceOf(lists, use.connector.name);
    if (price === undefined) return { unit: 'count', because: `${use.connector.name} has no price` };
    const labour = labourOf(lists, use, price.low.currency);
    withLabour ||= labour !== undefined;
    currencies.add(price.low.currency);
    ranges.set(use.id, {
      low: Math.max(1, price.low.cents + (labour?.low ?? 0)),
      high: Math.max(1, price.high.cents + (labour?.high ?? 0)),
    });
  }
  const [currency, other] = currencies;
  if (currency === undefined) return { unit: 'count', because: 'no connector fits' };
  if (other !== undefined) return { unit: 'count', because: `prices are in ${currency} and in ${other}` };
  return { unit: 'money', currency, ranges, withLabour };
}

/** The kinds of a problem, at the mean of their prices, or at any other point of the ranges. */
export function kindsOf(
  uses: readonly ConnectorUse[],
  costs: Costs,
  at: (use: ConnectorUse, range: Range<number>) => number = (_use, { low, high }) => Math.round((low + high) / 2),
): AnchorKind[] {
  return uses.map((use): AnchorKind => {
    const range = costs.unit === 'money' ? costs.ranges.get(use.id) : undefined;
    const cost = range === undefined ? ONE + preferenceOf(use) : Math.max(1, at(use, range));
    return { id: use.id, cost, capacity: 0 };
  });
}

/** A cost of the solver as people count: cents, or a number of connectors. */
export function plainCost(cost: number, { unit }: Costs): number {
  return unit === 'money' ? cost : Math.floor(cost / ONE);
}

function priceOf(lists: readonly PriceList[], connector: string): Range<Money> | undefined {
  for (const { prices } of lists) {
    const price = prices.find(({ of, unit }) => unit === 'each' && isSame(of.name, connector));
    if (price) return price.range;
  }
  return undefined;
}

/** In cents. */
function labourOf(lists: readonly PriceList[], use: ConnectorUse, currency: Currency): Range<number> | undefined {
  const { name, kind } = use.connector;
  for (const { labour, rates } of lists) {
    const time = labour.find(({ of }) => isSame(of.name, name)) ?? labour.find(({ of }) => isSame(of.name, kind));
    const rate = rates.find(({ of, per }) => per === 'hour' && isSame(of.name, 'labour'));
    if (!time || !rate || rate.range.low.currency !== currency) continue;
    const cents = (minutes: Quantity, { cents: anHour }: Money) => Math.round((minutes.amount * anHour) / 60);
    return { low: cents(time.range.low, rate.range.low), high: cents(time.range.high, rate.range.high) };
  }
  return undefined;
}

const isSame = (a: string, b: string): boolean => a.toLowerCase() === b.toLowerCase();
