import { citationWords } from '../rulesets/citation-words.ts';
import { leastLength, mostLength } from '../rulesets/compare.ts';
import type { ConditionFact, LimitQuery } from '../rulesets/limit-for.ts';
import type { Comparison, Grade, Limit } from '../rulesets/rule-set.ts';
import type { Length } from '../units/length.ts';
import type { RuleContext } from './define.ts';
import type { Severity } from './finding.ts';

type Show = Pick<RuleContext, 'show'>;

/** A limit that the rules in force ask, with the case that it was asked for. */
export interface AskedLimit {
  readonly limit: Limit;
  readonly query: LimitQuery;
}

/** `at most 4'-0" for 1/2" anchors under 2 storeys (Table A304.3.1)`: a limit with the case at hand and its source. */
export function limitWords({ limit, query }: AskedLimit, side: 'least' | 'most', { show }: Show): string {
  const ofLength = side === 'least' ? leastLength(limit)?.bound : mostLength(limit)?.bound;
  const bound = ofLength ?? limit.bounds.find(({ comparison }) => SIDES[side].has(comparison));
  const value = bound?.value.kind === 'length' ? show(bound.value.length) : (bound?.value.typed ?? '');
  const comparison = bound?.comparison === 'is' ? 'exactly' : (bound?.comparison.replace('-', ' ') ?? '');
  return `${comparison} ${value}${caseWords({ limit, query }, show)} (${sourceWords(limit)})`;
}

const SIDES: Readonly<Record<'least' | 'most', ReadonlySet<Comparison>>> = {
  least: new Set<Comparison>(['at-least', 'over', 'is']),
  most: new Set<Comparison>(['at-most', 'under', 'is']),
};

/** `at least 9", at most 12" (A304.3.2)`: a limit with both its sides or its verdict, and its source. */
export function wholeLimitWords(limit: Limit, { show }: Show): string {
  const bounds = limit.bounds.map(
    ({ comparison, value }) =>
      `${comparison === 'is' ? 'exactly' : comparison.replace('-', ' ')} ${value.kind === 'length' ? show(value.length) : value.typed}`,
  );
  const verdict = limit.verdict ? [limit.verdict.replace('-', ' ')] : [];
  return `${[...bounds, ...verdict].join(', ')} (${sourceWords(limit)})`;
}

/** Where a limit comes from, and how far that can be trusted. */
export function sourceWords(limit: Limit): string {
  return limit.citation ? citationWords(limit.citation) : `${limit.ruleSet}, no source given`;
}

/** ` for 1/2" anchors under 2 storeys`: as far as the limit turns on them. The length of the board goes without saying. */
export function caseWords({ limit, query }: AskedLimit, show: (length: Length) => string): string {
  const fact = (key: string): ConditionFact | undefined =>
    limit.conditions.some((each) => each.key.toLowerCase() === key) ? query[key] : undefined;
  const bolt = fact('bolt');
  const storeys = fact('storeys');
  return (
    (bolt?.kind === 'length' ? ` for ${show(bolt.length)} anchors` : '') +
    (storeys?.kind === 'number' ? ` under ${storeys.number} ${storeys.number === 1 ? 'storey' : 'storeys'}` : '')
  );
}

/** What breaking a limit comes to; the rule's own severity where the limit does not say. */
export function severityOf(limit: Limit, own: Severity): Severity {
  const bySeverity: Readonly<Record<Grade, Severity>> = {
    stop: 'stop',
    // That part of the house is beyond the cook-book path, as with a stop.
    engineer: 'stop',
    ask: 'warning',
    error: 'error',
    warning: 'warning',
    note: 'info',
  };
  return limit.otherwise ? bySeverity[limit.otherwise] : own;
}
