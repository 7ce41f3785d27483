import type { Length } from '../units/length.ts';
import { nanometres } from '../units/length.ts';
import type { Quantity } from '../units/quantity.ts';
import { compareLength, compareNumber, compareQuantity } from './compare.ts';
import type { Limit, LimitCondition, RulesInForce } from './rule-set.ts';

/** What is known of the case at hand, keys in lower case; one that is absent does not hold, `unknown` cannot be told. */
export type LimitQuery = Readonly<Record<string, ConditionFact | undefined>>;
export type ConditionFact =
  | { readonly kind: 'length'; readonly length: Length }
  | { readonly kind: 'number'; readonly number: number }
  | { readonly kind: 'quantity'; readonly quantity: Quantity }
  | { readonly kind: 'word'; readonly word: string }
  | { readonly kind: 'holds' }
  | { readonly kind: 'unknown'; readonly wants: string };

export type LimitAnswer =
  | { readonly kind: 'limit'; readonly limit: Limit }
  /** No limit applies: say so once, never guess. */
  | { readonly kind: 'none' }
  /** Limits with equally many conditions disagree. */
  | { readonly kind: 'conflict'; readonly limits: readonly Limit[] }
  /** The answer depends on something that nobody measured. */
  | { readonly kind: 'depends'; readonly wants: string };

/**
 * Of several limits that apply, the one with most conditions wins; of equal counts, that of the later rule set.
 * Where a fact is unknown, the answer is given if every value that the fact could have leads to the same one.
 */
export function limitFor(rules: RulesInForce, subject: string, query: LimitQuery): LimitAnswer {
  const candidates = limitsBySubject(rules).get(subject.toLowerCase());
  if (!candidates) return { kind: 'none' };
  const open = unknownsThatMatter(candidates, query);
  if (open.length === 0) return decide(candidates, query);

  const worlds = worldsOf(candidates, open);
  const wants = [...new Set(open.map((each) => each.wants))].join(', ');
  if (!worlds) return { kind: 'depends', wants };
  let common: LimitAnswer | undefined;
  for (const world of worlds) {
    const answer = decide(candidates, { ...query, ...world });
    if (common && !sameAnswer(common, answer)) return { kind: 'depends', wants };
    common = answer;
  }
  return common ?? { kind: 'none' };
}

/** A limit made ready for comparing: keys and words in lower case. */
interface Candidate {
  readonly limit: Limit;
  readonly conditions: readonly LimitCondition[];
  /** The place of its rule set in the order of the title block: later wins. */
  readonly order: number;
  readonly answer: LimitAnswer;
}

const indexes = new WeakMap<RulesInForce, ReadonlyMap<string, readonly Candidate[]>>();

/** Weightiest first. What an earlier set says under the very same conditions is left out: the later set has overridden it. */
function limitsBySubject(rules: RulesInForce): ReadonlyMap<string, readonly Candidate[]> {
  const known = indexes.get(rules);
  if (known) return known;
  const orderOf = new Map(rules.chosen.map((ruleSet, order) => [ruleSet.name.toLowerCase(), order]));
  const latest = new Map<string, number>();
  const all = rules.limits.map((limit) => ({
    limit,
    conditions: limit.conditions.map((each) => ({
      key: each.key.toLowerCase(),
      word: each.word?.toLowerCase(),
      bounds: each.bounds,
    })),
    order: orderOf.get(limit.ruleSet.toLowerCase()) ?? -1,
    answer: { kind: 'limit', limit } as const,
    case: caseOfLimit(limit),
  }));
  for (const each of all) latest.set(each.case, Math.max(each.order, latest.get(each.case) ?? -1));
  const index = new Map<string, Candidate[]>();
  for (const each of all) {
    if (each.order < (latest.get(each.case) ?? -1)) continue;
    const key = each.limit.subject.toLowerCase();
    const list = index.get(key);
    if (list) list.push(each);
    else index.set(key, [each]);
  }
  for (const list of index.values()) list.sort((a, b) => rank(b, a));
  indexes.set(rules, index);
  return index;
}

function decide(candidates: readonly Candidate[], query: LimitQuery): LimitAnswer {
  let best: Candidate | undefined;
  let disagreeing: Limit[] | undefined;
  for (const candidate of candidates) {
    // What follows has fewer conditions, or stands in an earlier set.
    if (best && rank(best, candidate) > 0) break;
    if (!allHold(candidate.conditions, query)) continue;
    if (!best) best = candidate;
    else if (!sayTheSame(candidate.limit, best.limit))
      disagreeing = [...(disagreeing ?? [best.limit]), candidate.limit];
  }
  if (disagreeing) return { kind: 'conflict', limits: disagreeing };
  return best?.answer ?? { kind: 'none' };
}

function allHold(conditions: readonly LimitCondition[], query: LimitQuery): boolean {
  for (const condition of conditions) if (!conditionHolds(condition, query)) return false;
  return true;
}

function rank(a: Candidate, b: Candidate): number {
  return a.conditions.length - b.conditions.length || a.order - b.order;
}

function conditionHolds(condition: LimitCondition, query: LimitQuery): boolean {
  const fact = query[condition.key];
  if (!fact || fact.kind === 'unknown') return false;
  if (condition.word !== undefined) return fact.kind === 'word' && fact.word.toLowerCase() === condition.word;
  if (condition.bounds.length === 0) return fact.kind === 'holds';
  // A condition decides which limit speaks: no tolerance here.
  return condition.bounds.every((bound) => {
    if (fact.kind === 'length') return compareLength(bound, fact.length);
    if (fact.kind === 'number') return compareNumber(bound, fact.number);
    if (fact.kind === 'quantity') return compareQuantity(bound, fact.quantity);
    return false;
  });
}

interface OpenFact {
  readonly key: string;
  readonly wants: string;
}

function unknownsThatMatter(candidates: readonly Candidate[], query: LimitQuery): readonly OpenFact[] {
  const open: OpenFact[] = [];
  for (const key in query) {
    const fact = query[key];
    if (fact?.kind !== 'unknown') continue;
    const matters = candidates.some((each) => each.conditions.some((condition) => condition.key === key));
    if (matters) open.push({ key, wants: fact.wants });
  }
  return open;
}

/** More combinations than this are not tried: the answer then counts as depending on what is unknown. */
const MOST_WORLDS = 4096;

/** One value of each open fact on either side of, and at, each value that a condition compares it with. */
function worldsOf(candidates: readonly Candidate[], open: readonly OpenFact[]): readonly LimitQuery[] | undefined {
  let worlds: LimitQuery[] = [{}];
  for (const { key } of open) {
    const facts = representativesOf(candidates, key);
    if (worlds.length * facts.length > MOST_WORLDS) return undefined;
    worlds = worlds.flatMap((world) => facts.map((fact) => ({ ...world, [key]: fact })));
  }
  return worlds;
}

function representativesOf(candidates: readonly Candidate[], key: string): readonly (ConditionFact | undefined)[] {
  const lengths = new Set<number>();
  const numbers = new Set<number>();
  const quantities: Quantity[] = [];
  const words = new Set<string>();
  let canHold = false;
  for (const { conditions } of candidates) {
    for (const condition of conditions) {
      if (condition.key !== key) continue;
      if (condition.word !== undefined) words.add(condition.word);
      else if (condition.bounds.length === 0) canHold = true;
      for (const { value } of condition.bounds) {
        // Counts of storeys and of dwellings start at one; a length is more than nothing.
        if (value.kind === 'length') for (const step of [-1, 0, 1]) lengths.add(Math.max(1, value.length + step));
        if (value.kind === 'number') for (const step of [-1, 0, 1]) numbers.add(Math.max(1, value.number + step));
        if (value.kind === 'quantity')
          for (const share of [0.999, 1, 1.001]) quantities.push(times(value.quantity, share));
      }
    }
  }
  const none = words.size > 0 || canHold ? [undefined] : [];
  return [
    ...[...lengths].map((length): ConditionFact => ({ kind: 'length', length: nanometres(length) })),
    ...[...numbers].map((number): ConditionFact => ({ kind: 'number', number })),
    ...quantities.map((quantity): ConditionFact => ({ kind: 'quantity', quantity })),
    ...[...words].map((word): ConditionFact => ({ kind: 'word', word })),
    ...(canHold ? [{ kind: 'holds' } as const] : []),
    ...none,
  ];
}

const times = (quantity: Quantity, share: number): Quantity => ({ ...quantity, amount: quantity.amount * share });

function sameAnswer(a: LimitAnswer, b: LimitAnswer): boolean {
  if (a.kind === 'limit' && b.kind === 'limit') return sayTheSame(a.limit, b.limit);
  if (a.kind === 'conflict' && b.kind === 'conflict') return true;
  return a.kind === b.kind;
}

/** What a limit speaks of, by meaning: of two limits with the same, one overrides the other. */
export function caseOfLimit({ subject, conditions }: Limit): string {
  return `${subject.toLowerCase()} for ${wordsOfConditions(conditions)}`;
}

/** Whether two limits ask the same and grade it alike; 4'-0" and 48" are one value. */
export function sayTheSame(a: Limit, b: Limit): boolean {
  return a === b || wordsOfLimit(a) === wordsOfLimit(b);
}

function wordsOfLimit(limit: Limit): string {
  return `${wordsOfBounds(limit.bounds)} ${limit.verdict ?? ''} ${limit.otherwise ?? ''}`;
}

function wordsOfConditions(conditions: readonly LimitCondition[]): string {
  return conditions
    .map((each) => `${each.key.toLowerCase()} ${each.word?.toLowerCase() ?? ''} ${wordsOfBounds(each.bounds)}`)
    .sort()
    .join(', ');
}

/** By what the values are, not by how they were typed: 4'-0" and 48" are one value. */
function wordsOfBounds(bounds: Limit['bounds']): string {
  return bounds
    .map(({ comparison, value }) => {
      const amount =
        value.kind === 'length'
          ? `${value.length} nm`
          : value.kind === 'number'
            ? `${value.number}`
            : `${value.quantity.amount} ${value.quantity.dimension}`;
      return `${comparison} ${amount}`;
    })
    .sort()
    .join(' ');
}
