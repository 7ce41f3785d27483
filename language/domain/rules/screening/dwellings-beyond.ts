import { compareNumber } from '../../rulesets/compare.ts';
import { defineRule } from '../define.ts';
import { shell } from '../example-texts.ts';
import { limitWords, severityOf } from '../limit-words.ts';
import { houseSpan, limitInForce, whatFollows } from './eligibility.ts';

export const dwellingsBeyond = defineRule({
  id: 'screening/dwellings-beyond',
  severity: 'stop',
  on: 'house',
  summary: 'The house has more dwellings than the rule set covers.',
  why: 'The cook-book path is for small houses. More dwellings mean more people, other loads and often another chapter of the code.',
  remedy: 'Take a rule set that covers the house, or have it engineered.',
  subjects: { dwellings: 'number' },
  examples: [
    {
      failing: shell({ house: ['storeys 2', 'dwellings 5'] }),
      passing: shell({ house: ['storeys 2', 'dwellings 4'] }),
    },
  ],
  check({ layout }, context) {
    const span = houseSpan(layout);
    if (!span) return;
    const limit = limitInForce(context, 'dwellings', {}, span);
    if (!limit) return;
    const { dwellings } = layout.house;
    if (dwellings?.kind !== 'known') {
      context.lacks({ wants: 'number of dwellings', at: dwellings?.source ?? span });
      return;
    }
    const { value, source } = dwellings;
    if (limit.bounds.every((bound) => compareNumber(bound, value))) return;
    context.report({
      message: `${value} dwellings: ${limitWords({ limit, query: {} }, 'most', context)}. ${whatFollows(limit)}`,
      severity: severityOf(limit, 'stop'),
      thing: undefined,
      span: source,
      citation: limit.citation,
    });
  },
});
