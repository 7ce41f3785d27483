import type { Layout } from '../../model/layout.ts';
import { perimeterOf } from '../../model/taped-outline.ts';
import type { RuleContext } from '../define.ts';
import { defineRule } from '../define.ts';
import { shell } from '../example-texts.ts';
import { severityOf, sourceWords } from '../limit-words.ts';
import { houseSpan, houseWords, limitInForce, whatFollows } from './eligibility.ts';

const POLES: ReadonlySet<string> = new Set(['pole', 'poles', 'poles-in-ground']);
const NO_PERIMETER: ReadonlySet<string> = new Set([
  ...POLES,
  'none',
  'post',
  'posts',
  'pier',
  'piers',
  'pads',
  'post-and-pier',
  'post-and-pad',
  'timber',
  'timbers',
  'wood-posts',
]);
const PARTIAL: ReadonlySet<string> = new Set(['partial', 'interrupted', 'not-continuous']);

export const foundationNotContinuous = defineRule({
  id: 'screening/foundation-not-continuous',
  severity: 'stop',
  on: 'house',
  summary: 'The house stands on posts, pads or poles, or its foundation does not run all the way round.',
  why: 'Anchors and panels hand their force to a continuous foundation. Without one there is nothing to tie the house to.',
  remedy:
    'Have a foundation designed. Where only one wall lacks its foundation, write `no foundation` on that wall: then only that wall is in question.',
  subjects: { 'perimeter-concrete': 'verdict', 'partial-foundation': 'verdict', 'pole-building': 'verdict' },
  examples: [
    {
      failing: shell({ house: ['storeys 2', 'foundation post-and-pier'] }),
      passing: shell({ house: ['storeys 2', 'foundation continuous'] }),
    },
  ],
  check({ layout }, context) {
    const span = houseSpan(layout);
    if (!span) return;
    const words = houseWords(layout, 'foundation') ?? [];
    if (words.includes('unknown')) context.lacks({ wants: 'whether the foundation is continuous', at: span });
    const found = words.find((word) => NO_PERIMETER.has(word) || PARTIAL.has(word)) ?? bareAllRound(layout);
    if (found === undefined) return;
    const limit = limitFor(found, context);
    if (!limit) return;
    context.report({
      message: `Foundation: ${found}. A continuous one of concrete is asked for (${sourceWords(limit)}). ${whatFollows(limit)}`,
      severity: severityOf(limit, 'stop'),
      thing: undefined,
      span,
      citation: limit.citation,
    });
  },
});

/** No wall of the perimeter has a foundation. */
function bareAllRound(layout: Layout): string | undefined {
  const perimeter = perimeterOf(layout);
  return perimeter.length > 0 && perimeter.every((wall) => wall.absent.has('foundation')) ? 'none found' : undefined;
}

function limitFor(found: string, context: RuleContext) {
  const span = houseSpan(context.layout);
  if (!span) return undefined;
  const [subject, verdict] = POLES.has(found)
    ? (['pole-building', 'not-allowed'] as const)
    : PARTIAL.has(found)
      ? (['partial-foundation', 'not-allowed'] as const)
      : (['perimeter-concrete', 'required'] as const);
  const limit = limitInForce(context, subject, {}, span);
  if (limit?.verdict === verdict) return limit;
  const general = subject === 'perimeter-concrete' ? undefined : limitInForce(context, 'perimeter-concrete', {}, span);
  return general?.verdict === 'required' ? general : undefined;
}
