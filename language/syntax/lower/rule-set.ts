import type { SourceSpan } from '../../domain/model/source.ts';
import type { Bound, Citation, Limit, LimitCondition, LimitValue } from '../../domain/rulesets/rule-set.ts';
import { parseLength } from '../../domain/units/parse-length.ts';
import { parseQuantity } from '../../domain/units/parse-quantity.ts';
import type * as ast from '../../generated/ast.ts';
import type { BlockDraft } from '../drafts.ts';
import type { LowerContext } from './context.ts';

export function lowerRuleSet(
  tree: ast.RuleSet,
  context: LowerContext,
): Extract<BlockDraft, { kind: 'ruleset' }> | undefined {
  if (tree.name === undefined) return undefined;
  const { name } = tree;
  const limits: Limit[] = [];
  const notes: string[] = [];
  let heading: Citation | undefined;
  for (const item of tree.items) {
    switch (item.$type) {
      case 'LimitSource':
        // A source whose trust nobody stated counts as the least certain.
        heading = item.text === undefined ? undefined : { text: item.text, trust: item.trust ?? 'recalled' };
        break;
      case 'Limit': {
        const limit = lowerLimit(item, name, heading, context);
        if (limit) limits.push(limit);
        break;
      }
      case 'NoteLine':
        if (item.note !== undefined) notes.push(item.note);
        break;
      case 'PhotoLine':
      case 'AskLine':
        break;
    }
  }
  const nameSource = context.spanOf(tree, 'name');
  return { kind: 'ruleset', nameSource, ruleSet: { name, title: tree.title, notes, limits, source: nameSource } };
}

function lowerLimit(
  item: ast.Limit,
  ruleSet: string,
  heading: Citation | undefined,
  context: LowerContext,
): Limit | undefined {
  if (item.subject === undefined) return undefined;
  const bounds = item.bounds.flatMap((bound) => lowerBound(bound, context) ?? []);
  if (bounds.length < item.bounds.length || (bounds.length === 0 && item.verdict === undefined)) return undefined;
  const citation =
    item.source === undefined ? heading : { text: item.source, trust: item.trust ?? heading?.trust ?? 'recalled' };
  if (!citation) {
    context.say(
      'limit-without-source',
      `The limit on ${item.subject} does not say where it comes from; put \`source "…"\` behind it or above it.`,
      context.span(item),
      { severity: 'warning' },
    );
  }
  const tags = context.tags(item.tags);
  sayRangeTrouble(bounds, `Nothing keeps this limit on ${item.subject}`, context);
  const conditions = item.conditions.flatMap((condition) => lowerCondition(condition, context) ?? []);
  sayRepeatedConditions(conditions, context);
  // Under fewer conditions than were typed it would speak of cases that nobody meant.
  if (conditions.length < item.conditions.length) return undefined;
  return {
    subject: item.subject.toLowerCase(),
    bounds,
    verdict: item.verdict,
    conditions,
    otherwise: item.otherwise,
    citation,
    notes: tags.notes,
    ruleSet,
    source: context.span(item),
    subjectSource: context.spanOf(item, 'subject'),
  };
}

function lowerBound(bound: ast.Bound, context: LowerContext): Bound | undefined {
  if (bound.value === undefined) return undefined;
  const source = context.spanOf(bound, 'value');
  const value = limitValue(bound.value);
  if (value) return { comparison: bound.comparison, value, source };
  sayNoValue(bound.value, source, context);
  return undefined;
}

function sayNoValue(typed: string, source: SourceSpan, context: LowerContext): void {
  const length = parseLength(typed);
  if (length.kind === 'bare') {
    context.say('no-unit', `${typed} what? Write ${length.suggestions.join(' or ')}.`, source, {
      replacements: length.suggestions.map((text) => ({ title: `Write ${text}`, text, span: source })),
    });
    return;
  }
  context.say('wrong-kind', `${typed} is no length, quantity or number that a limit can be compared with.`, source);
}

export function lowerCondition(condition: ast.LimitCondition, context: LowerContext): LimitCondition | undefined {
  if (condition.key === undefined) return undefined;
  const key = condition.key.toLowerCase();
  const source = context.span(condition);
  const bounds = condition.bounds.flatMap((bound) => lowerBound(bound, context) ?? []);
  if (bounds.length < condition.bounds.length) return undefined;
  sayRangeTrouble(bounds, `\`${key}\` is never so, and this limit never applies`, context);
  if (condition.value === undefined) return { key, word: undefined, bounds, source };
  const valueSource = context.spanOf(condition, 'value');
  const value = limitValue(condition.value);
  if (value) return { key, word: undefined, bounds: [{ comparison: 'is', value, source: valueSource }], source };
  if (startsWithDigit.test(condition.value)) {
    sayNoValue(condition.value, valueSource, context);
    return undefined;
  }
  return { key, word: condition.value.toLowerCase(), bounds, source };
}

const startsWithDigit = /^[-−+]?\d/;

/** At most one bound on either side, and something between them. */
function sayRangeTrouble(bounds: readonly Bound[], what: string, context: LowerContext): void {
  const trouble = rangeTrouble(bounds);
  if (!trouble) return;
  const { first, second, kind } = trouble;
  const span = second.source;
  if (!span) return;
  const words = ({ comparison, value }: Bound): string => `\`${comparison} ${value.typed}\``;
  const message =
    kind === 'empty'
      ? `${what}: it would be ${words(first)} and ${words(second)} at once. Change one of them.`
      : `${words(first)} and ${words(second)} bound the same side, and only the first counts. Take one out.`;
  context.say('empty-range', message, span, {
    related: first.source ? [{ span: first.source, message: 'the other bound' }] : [],
  });
}

interface RangeTrouble {
  readonly kind: 'empty' | 'same-side';
  readonly first: Bound;
  readonly second: Bound;
}

function rangeTrouble([first, ...others]: readonly Bound[]): RangeTrouble | undefined {
  if (!first) return undefined;
  for (const other of others) {
    const trouble = troubleOfTwo(first, other);
    if (trouble) return trouble;
  }
  return rangeTrouble(others);
}

function troubleOfTwo(first: Bound, second: Bound): RangeTrouble | undefined {
  const sides = [first, second].map(({ comparison }) => sideOf[comparison]);
  if (sides[0] === sides[1] || sides.includes('both')) return { kind: 'same-side', first, second };
  const [low, high] = sides[0] === 'low' ? [first, second] : [second, first];
  const from = amountOf(low);
  const to = amountOf(high);
  // Of two kinds: said where the subject is known.
  if (from.dimension !== to.dimension) return undefined;
  const strict = low.comparison === 'over' || high.comparison === 'under';
  return from.amount > to.amount || (strict && from.amount === to.amount)
    ? { kind: 'empty', first, second }
    : undefined;
}

const sideOf: Readonly<Record<Bound['comparison'], 'low' | 'high' | 'both'>> = {
  'at-least': 'low',
  over: 'low',
  'at-most': 'high',
  under: 'high',
  is: 'both',
};

function amountOf({ value }: Bound): { readonly dimension: string; readonly amount: number } {
  if (value.kind === 'length') return { dimension: 'length', amount: value.length };
  if (value.kind === 'number') return { dimension: 'number', amount: value.number };
  return { dimension: value.quantity.dimension, amount: value.quantity.amount };
}

function sayRepeatedConditions(conditions: readonly LimitCondition[], context: LowerContext): void {
  const seen = new Set<string>();
  for (const { key, source } of conditions) {
    if (seen.has(key) && source) {
      context.say(
        'repeated-word',
        `\`${key}\` is asked for twice, and both must hold at once. Put it into one: \`${key} at-least … under …\`, or take one out.`,
        source,
        { severity: 'warning' },
      );
    }
    seen.add(key);
  }
}

function limitValue(typed: string): LimitValue | undefined {
  const penny = /^(\d+)d$/i.exec(typed)?.[1];
  if (penny !== undefined) return { kind: 'number', number: Number(penny), typed };
  const quantity = parseQuantity(typed);
  // A bare number is a count here; `0` is one too.
  if (quantity?.dimension === 'number') return { kind: 'number', number: quantity.amount, typed };
  if (quantity) return { kind: 'quantity', quantity, typed };
  const length = parseLength(typed);
  return length.kind === 'length' ? { kind: 'length', length: length.length, typed } : undefined;
}
