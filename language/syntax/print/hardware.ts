import type { Connector, Fastener, Fits } from '../../domain/hardware/connector.ts';
import type { PriceList, Range } from '../../domain/hardware/prices.ts';
import type { LengthUnits, Tags } from '../../domain/model/layout.ts';
import type { Bound, Citation, Limit, LimitCondition, RuleSet } from '../../domain/rulesets/rule-set.ts';
import type { Length } from '../../domain/units/length.ts';
import type { Money } from '../../domain/units/money.ts';
import type { Quantity } from '../../domain/units/quantity.ts';
import { printName } from './name.ts';
import { printLength, printMoney, printPoint, printQuantity, printQuantityReading } from './values.ts';
import { lineOf, printText, tagWords } from './words.ts';

export function printConnector(connector: Connector, units: LengthUnits): readonly string[] {
  const { body, drop } = connector;
  const print = (length: Length): string => printLength(length, units);
  return [
    lineOf('connector', printName(connector.name), connector.kind),
    ...(connector.demo ? ['demo'] : []),
    ...(connector.report === undefined ? [] : [`report ${printText(connector.report)}`]),
    ...connector.fits.map((each) => fitsLine(each, units)),
    ...(body
      ? [
          lineOf(
            'body',
            `${print(body.wide)} wide ${print(body.tall)} tall`,
            body.thick && `${print(body.thick)} thick`,
          ),
        ]
      : []),
    ...(drop === undefined ? [] : [`drop ${print(drop)}`]),
    ...connector.fasteners.map((each) => fastenerLine(each, units)),
    ...connector.holes.map(
      ({ member, points }) => `holes in ${member} ${points.map((point) => printPoint(point, units)).join(', ')}`,
    ),
    ...connector.capacities.map((each) =>
      lineOf(
        ['capacity', each.direction, printQuantityReading(each.value)],
        each.basis === 'allowable' ? undefined : each.basis,
        each.species === undefined ? undefined : `species ${printName(each.species)}`,
        each.citation === undefined ? undefined : `source ${printText(each.citation)}`,
      ),
    ),
    ...(connector.metal === undefined ? [] : [`metal ${printName(connector.metal)}`]),
    ...connector.tools.map((tool) => `tool ${printText(tool)}`),
    ...connector.notes.map((note) => `note ${printText(note)}`),
  ];
}

function fitsLine({ subject, least, most }: Fits, units: LengthUnits): string {
  if (least !== undefined && most !== undefined)
    return `fits ${subject} ${printLength(least, units)} to ${printLength(most, units)}`;
  return lineOf(
    ['fits', subject],
    least === undefined ? undefined : `at-least ${printLength(least, units)}`,
    most === undefined ? undefined : `at-most ${printLength(most, units)}`,
  );
}

function fastenerLine(each: Fastener, units: LengthUnits): string {
  const dimension = (key: string, length: Length | undefined): string | undefined =>
    length === undefined ? undefined : `${key} ${printLength(length, units)}`;
  const size = each.penny === undefined ? each.diameter && printLength(each.diameter, units) : `${each.penny}d`;
  return lineOf(
    ['into', each.member, String(each.count), printName(each.kind), 'size', size],
    each.long && `x ${printLength(each.long, units)}`,
    [dimension('hole', each.hole), dimension('hole-depth', each.holeDepth), dimension('embed', each.embed)],
    [dimension('apart', each.apart), dimension('edge', each.edge), each.filled ? 'filled' : undefined],
    each.metal === undefined ? undefined : `metal ${printName(each.metal)}`,
  );
}

// ---- prices

export function printPrices(list: PriceList): readonly string[] {
  const tags = (each: { readonly tags?: Tags }): string => (each.tags ? tagWords(each.tags) : '');
  return [
    lineOf('prices', printName(list.name), list.dated === undefined ? undefined : `dated ${list.dated}`),
    ...(list.demo ? ['demo'] : []),
    ...list.prices.map((price) =>
      lineOf(
        ['price', printName(price.of.name), range(price.range)],
        [price.unit, price.unit === 'box' && price.count !== undefined ? `of ${price.count}` : undefined],
        tags(price),
      ),
    ),
    ...list.labour.map((each) => lineOf('labour', printName(each.of.name), range(each.range), tags(each))),
    ...list.rates.map((each) =>
      lineOf('rate', printName(each.of.name), range(each.range), `per ${each.per}`, tags(each)),
    ),
    ...list.factors.map((each) =>
      lineOf(
        ['factor', printName(each.of.name), String(each.factor)],
        each.condition && `for ${conditionWords(each.condition)}`,
        tags(each),
      ),
    ),
    ...list.allowances.map((each) => lineOf('allowance', printName(each.of.name), range(each.range), tags(each))),
    ...(list.notes ?? []).map((note) => `note ${printText(note)}`),
  ];
}

function range({ low, high }: Range<Money> | Range<Quantity>): string {
  return `${amount(low)} to ${amount(high)}`;
}

const amount = (each: Money | Quantity): string => ('cents' in each ? printMoney(each) : printQuantity(each));

// ---- rule sets

export function printRuleSet(ruleSet: RuleSet): readonly string[] {
  const lines = [
    lineOf('ruleset', printName(ruleSet.name), ruleSet.title === undefined ? '' : printText(ruleSet.title)),
  ];
  for (const note of ruleSet.notes) lines.push(`note ${printText(note)}`);
  let heading: Citation | undefined;
  for (const limit of ruleSet.limits) {
    const { citation } = limit;
    if (citation && (citation.text !== heading?.text || citation.trust !== heading.trust)) {
      lines.push(`source ${printText(citation.text)} ${citation.trust}`);
      heading = citation;
    }
    lines.push(limitLine(limit));
  }
  return lines;
}

function limitLine(limit: Limit): string {
  return lineOf(
    ['limit', printName(limit.subject), ...limit.bounds.map(boundWords), limit.verdict],
    limit.conditions.length === 0 ? undefined : `for ${limit.conditions.map(conditionWords).join(', ')}`,
    limit.otherwise && `otherwise ${limit.otherwise}`,
    limit.notes.map((note) => `note ${printText(note)}`),
  );
}

const boundWords = ({ comparison, value }: Bound): string => `${comparison} ${value.typed}`;

/** `bolt 1/2"` says the very value, as does `nail 8d`, which has no other spelling. */
function conditionWords({ key, word, bounds }: LimitCondition): string {
  const [only, ...more] = bounds;
  if (only?.comparison === 'is' && more.length === 0) return `${printName(key)} ${only.value.typed}`;
  return lineOf(printName(key), word, bounds.map(boundWords));
}
