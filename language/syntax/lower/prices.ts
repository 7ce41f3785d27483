import type { Allowance, Factor, Labour, Price, PriceList, Range, Rate } from '../../domain/hardware/prices.ts';
import type { NameReference } from '../../domain/model/layout.ts';
import { noTags } from '../../domain/model/layout.ts';
import type { SourceSpan } from '../../domain/model/source.ts';
import type { Currency, Money } from '../../domain/units/money.ts';
import { parseMoney } from '../../domain/units/money.ts';
import { parseQuantity } from '../../domain/units/parse-quantity.ts';
import type { Quantity } from '../../domain/units/quantity.ts';
import { quantityOf } from '../../domain/units/quantity.ts';
import type * as ast from '../../generated/ast.ts';
import type { PricesDraft } from '../drafts.ts';
import type { LowerContext } from './context.ts';
import { lowerCondition } from './rule-set.ts';

type PriceLine = ast.Price | ast.Labour | ast.Rate | ast.Factor | ast.Allowance;

/** One price list: sums over it must come out, so a figure that cannot be added to the others is told and left out. */
export function lowerPrices(tree: ast.Prices, context: LowerContext): PricesDraft | undefined {
  if (tree.name === undefined) return undefined;
  const { name } = tree;
  const reader = createRangeReader(context);
  const prices: Price[] = [];
  const labour: Labour[] = [];
  const rates: Rate[] = [];
  const factors: Factor[] = [];
  const allowances: Allowance[] = [];
  const notes: string[] = [];
  const seen = new Map<string, SourceSpan>();
  /** One figure for one thing: the first is used, a second is told. */
  const isFirst = (item: PriceLine, of: NameReference, unit: string): boolean => {
    const key = `${item.$type} ${of.name.toLowerCase()} ${unit}`;
    const earlier = seen.get(key);
    if (!earlier) {
      seen.set(key, of.source);
      return true;
    }
    context.say(
      'duplicate-name',
      `${of.name} stands in this list already; the first one is used. Delete one.`,
      of.source,
      {
        related: [{ span: earlier, message: 'the first one' }],
      },
    );
    return false;
  };
  for (const item of tree.items) {
    switch (item.$type) {
      case 'DemoLine':
        break;
      case 'NoteLine':
        if (item.note !== undefined) notes.push(item.note);
        break;
      case 'PhotoLine':
      case 'AskLine':
        break;
      default: {
        const of = context.name(item, 'of');
        if (!of) break;
        const tags = context.tags(item.tags);
        const common = { of, ...(tags === noTags ? {} : { tags }) };
        switch (item.$type) {
          case 'Price': {
            const range = reader.money(item);
            const unit = item.unit ?? 'each';
            if (unit === 'box' && !isCount(item.count)) {
              context.say('wrong-kind', `Say how many of ${of.name} a box holds: \`box of 100\`.`, context.span(item));
              break;
            }
            const count = unit === 'box' ? item.count : undefined;
            if (range && isFirst(item, of, `${unit} ${count ?? ''}`)) prices.push({ ...common, range, unit, count });
            break;
          }
          case 'Labour': {
            const range = reader.time(item);
            if (range && isFirst(item, of, '')) labour.push({ ...common, range });
            break;
          }
          case 'Rate': {
            const range = reader.money(item);
            const per = item.per ?? 'hour';
            if (range && isFirst(item, of, per)) rates.push({ ...common, range, per });
            break;
          }
          case 'Factor': {
            const factor = Number(item.factor);
            if (item.factor === undefined || !Number.isFinite(factor)) break;
            if (factor <= 0) {
              context.say('wrong-kind', `A factor multiplies labour, so it is over 0.`, context.spanOf(item, 'factor'));
              break;
            }
            const condition = item.condition && lowerCondition(item.condition, context);
            const when = item.condition ? context.textOf(item.condition) : '';
            if (isFirst(item, of, when)) factors.push({ ...common, factor, condition });
            break;
          }
          case 'Allowance': {
            const range = reader.moneyOrShare(item);
            if (range && isFirst(item, of, '')) allowances.push({ ...common, range });
            break;
          }
        }
      }
    }
  }
  const list: PriceList = {
    name,
    dated: context.date(tree, 'dated'),
    demo: tree.items.some((item) => item.$type === 'DemoLine'),
    prices,
    labour,
    rates,
    factors,
    allowances,
    source: context.spanOf(tree, 'name'),
    ...(notes.length === 0 ? {} : { notes }),
  };
  return { kind: 'prices', prices: list };
}

const isCount = (count: number | undefined): boolean => count !== undefined && Number.isInteger(count) && count > 0;

interface RangeReader {
  money(item: ast.Price | ast.Rate): Range<Money> | undefined;
  time(item: ast.Labour): Range<Quantity> | undefined;
  moneyOrShare(item: ast.Allowance): Allowance['range'] | undefined;
}

/** Reads low and high figures; the first currency that it meets is the one of the list. */
function createRangeReader(context: LowerContext): RangeReader {
  let currency: Currency | undefined;

  const amount = (item: PriceLine, property: 'low' | 'high', typed: string | undefined): Money | undefined => {
    if (typed === undefined) return undefined;
    const money = parseMoney(typed);
    const at = context.spanOf(item, property as keyof PriceLine & string);
    if (!money) {
      context.say('wrong-kind', `${typed} is no price; write it as \`$18\` or \`$18.50\`.`, at);
      return undefined;
    }
    currency ??= money.currency;
    if (money.currency === currency) return money;
    context.say(
      'wrong-kind',
      `This list is in ${currency}, so ${typed} cannot be added to it; put it into a list of its own.`,
      at,
    );
    return undefined;
  };

  const ordered = <Value>(item: PriceLine, low: Value, high: Value, size: (value: Value) => number): Range<Value> => {
    if (size(low) <= size(high)) return { low, high };
    const { low: first, high: last } = item as { readonly low?: string; readonly high?: string };
    context.say(
      'wrong-kind',
      `${first} to ${last} runs from high to low; it is read the other way round. Write the low figure first.`,
      context.spanOf(item, 'high' as keyof PriceLine & string),
    );
    return { low: high, high: low };
  };

  const money: RangeReader['money'] = (item) => moneyOf(item, item.low, item.high);
  const moneyOf = (
    item: ast.Price | ast.Rate | ast.Allowance,
    lowText: string | undefined,
    highText: string | undefined,
  ): Range<Money> | undefined => {
    const low = amount(item, 'low', lowText);
    // What is wrong with one figure is said once.
    if (!low) return undefined;
    const high = highText === undefined ? low : amount(item, 'high', highText);
    return high && ordered(item, low, high, (each) => each.cents);
  };

  return {
    money,
    time: (item) => {
      if (item.low === undefined || item.high === undefined) return undefined;
      const high = parseQuantity(item.high);
      const plain = parseQuantity(item.low);
      // `20 to 35 min`: the unit behind the second figure speaks of both.
      const low = plain?.dimension === 'number' && high ? quantityOf(plain.amount, high.unit) : plain;
      if (low?.dimension === 'time' && high?.dimension === 'time')
        return ordered(item, low, high, (each) => each.amount);
      context.say(
        'wrong-kind',
        `Labour takes a time from low to high, such as \`20 to 35 min\`; ${item.low} to ${item.high} is none.`,
        context.span(item),
      );
      return undefined;
    },
    moneyOrShare: (item) => {
      if (item.low === undefined) return undefined;
      const highText = item.high ?? item.low;
      const [low, high] = [parseQuantity(item.low), parseQuantity(highText)];
      if (low?.dimension === 'share' && high?.dimension === 'share')
        return ordered(item, low, high, (each) => each.amount);
      if (parseMoney(item.low) && parseMoney(highText)) return moneyOf(item, item.low, item.high);
      context.say(
        'wrong-kind',
        `An allowance is money or a share, low and high alike: \`$300 to $900\` or \`10 % to 15 %\`.`,
        context.span(item),
      );
      return undefined;
    },
  };
}
