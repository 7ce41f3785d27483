import { compareLength, compareNumber } from '../../rulesets/compare.ts';
import type { Bound, Limit, LimitCondition, RuleSet } from '../../rulesets/rule-set.ts';
import { defineRule } from '../define.ts';
import { demo, sound } from '../example-texts.ts';
import { wholeLimitWords } from '../limit-words.ts';

export const limitOutranked = defineRule({
  id: 'load-path/limit-outranked',
  severity: 'info',
  on: 'house',
  summary: 'A stricter limit of a rule set named later gives way to a more particular one of a set named before it.',
  why: 'Of the limits that apply, the one with most conditions holds, whichever set it stands in. A town that asks more without saying when would be overruled by the table that it means to tighten, and nobody would notice.',
  remedy:
    'Give the later limit the conditions of the earlier one, a line for each. If the table may go before it, accept this with the reason.',
  subjects: {},
  examples: [
    {
      failing: `${demo({ anchors: sound, rules: 'existing-building, our-town' })}${ourTown([`anchor-spacing at-most 3'-0"`])}`,
      passing: `${demo({ anchors: sound, rules: 'existing-building, our-town' })}${ourTown([`anchor-spacing at-most 8'-0"`])}`,
    },
  ],
  check({ layout }, context) {
    const { chosen } = layout.rules;
    const earlier = new Map<string, Limit[]>();
    for (const ruleSet of chosen) {
      for (const limit of ruleSet.limits) {
        const before = earlier.get(limit.subject) ?? [];
        const over = before.filter((other) => outranks(other, limit) && isStricter(limit, other));
        const [first] = over;
        const span = first && placeOf(ruleSet, limit);
        if (!span) continue;
        const more = over.length === 1 ? '' : `, and ${over.length - 1} more`;
        context.report({
          message:
            `\`${limit.subject}\` ${wholeLimitWords(limit, context)} of ${ruleSet.name} gives way to ${wholeLimitWords(first, context)} of ${first.ruleSet}, ` +
            `which is more particular${more}. Give it the same conditions.`,
          thing: undefined,
          layer: 'rules',
          span,
          about: `${ruleSet.name} ${limit.subject} ${wholeLimitWords(limit, context)}`,
          related: over.map((other) => ({ span: other.source, message: wholeLimitWords(other, context) })),
          citation: limit.citation,
        });
      }
      // Within one set the author sees both.
      for (const limit of ruleSet.limits) {
        const list = earlier.get(limit.subject);
        if (list) list.push(limit);
        else earlier.set(limit.subject, [limit]);
      }
    }

    /** A shipped set has no text of the user's: its name in the title block stands for it. */
    function placeOf(ruleSet: RuleSet, limit: Limit) {
      const own = limit.subjectSource ?? limit.source;
      if (layout.sourceMap.locate(own)) return own;
      return layout.title.ruleSets.find(({ name }) => name.toLowerCase() === ruleSet.name.toLowerCase())?.source;
    }
  },
});

/** Both can apply to one case, and there the other one speaks. */
function outranks(other: Limit, limit: Limit): boolean {
  return (
    other.conditions.length > limit.conditions.length &&
    limit.conditions.every((condition) => {
      const same = other.conditions.find(({ key }) => key.toLowerCase() === condition.key.toLowerCase());
      return !same || canBothHold(condition, same);
    })
  );
}

function canBothHold(a: LimitCondition, b: LimitCondition): boolean {
  if (a.word !== undefined || b.word !== undefined) return a.word?.toLowerCase() === b.word?.toLowerCase();
  return !endsBefore(a, b) && !endsBefore(b, a);
}

/** The values of the one end before those of the other begin. */
function endsBefore(first: LimitCondition, second: LimitCondition): boolean {
  const mosts = first.bounds.filter((bound) => sideOf(bound) !== 'low').map((bound) => oneSided(bound, 'at-most'));
  const leasts = second.bounds.filter((bound) => sideOf(bound) !== 'high').map((bound) => oneSided(bound, 'at-least'));
  return mosts.some((most) => leasts.some((least) => !keepsBound(most, least) || !keepsBound(least, most)));
}

const oneSided = (bound: Bound, side: 'at-least' | 'at-most'): Bound =>
  bound.comparison === 'is' ? { ...bound, comparison: side } : bound;

function keepsBound(bound: Bound, { value }: Bound): boolean {
  if (value.kind === 'length') return compareLength(bound, value.length);
  if (value.kind === 'number') return compareNumber(bound, value.number);
  return true;
}

/** A case exists that keeps the other limit and breaks this one. */
function isStricter(limit: Limit, other: Limit): boolean {
  if (limit.verdict !== undefined || other.verdict !== undefined) {
    const strict = ['required', 'not-allowed'];
    return strict.includes(limit.verdict ?? '') && !strict.includes(other.verdict ?? '');
  }
  return limit.bounds.some((bound) => {
    const side = sideOf(bound);
    const theirs = other.bounds.filter((each) => sideOf(each) === side || sideOf(each) === 'both');
    if (theirs.length === 0) return true;
    return theirs.some((each) => amountOf(each) !== undefined && isTighter(bound, each));
  });
}

function isTighter(bound: Bound, other: Bound): boolean {
  const [own, theirs] = [amountOf(bound), amountOf(other)];
  if (own === undefined || theirs === undefined) return false;
  const side = sideOf(bound);
  if (side === 'low') return own > theirs;
  if (side === 'high') return own < theirs;
  return own !== theirs;
}

function sideOf({ comparison }: Bound): 'low' | 'high' | 'both' {
  if (comparison === 'is') return 'both';
  return comparison === 'at-least' || comparison === 'over' ? 'low' : 'high';
}

function amountOf({ value }: Bound): number | undefined {
  if (value.kind === 'length') return value.length;
  return value.kind === 'number' ? value.number : value.quantity.amount;
}

function ourTown(limits: readonly string[]): string {
  return [
    '',
    'ruleset our-town "Our town"',
    '  source "Town sheet 4" published',
    ...limits.map((limit) => `    limit ${limit}`),
    '',
  ].join('\n');
}
