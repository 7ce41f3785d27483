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
  return {
    subject: item.subject.toLowerCase(),
    bounds,
    verdict: item.verdict,
    conditions: item.conditions.flatMap((condition) => lowerCondition(condition, context) ?? []),
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
  const value = limitValue(bound.value);
  if (value) return { comparison: bound.comparison, value };
  context.say(
    'wrong-kind',
    `${bound.value} is no length, quantity or number that a limit can be compared with.`,
    context.spanOf(bound, 'value'),
  );
  return undefined;
}

function lowerCondition(condition: ast.LimitCondition, context: LowerContext): LimitCondition | undefined {
  if (condition.key === undefined) return undefined;
  const key = condition.key.toLowerCase();
  const bounds = condition.bounds.flatMap((bound) => lowerBound(bound, context) ?? []);
  if (condition.value === undefined) return { key, word: undefined, bounds };
  const value = limitValue(condition.value);
  if (!value) return { key, word: condition.value.toLowerCase(), bounds };
  return { key, word: undefined, bounds: [{ comparison: 'is', value }, ...bounds] };
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
