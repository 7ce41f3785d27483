import { compareQuantity } from '../../rulesets/compare.ts';
import { formatQuantity } from '../../units/format-quantity.ts';
import { defineRule } from '../define.ts';
import { shell } from '../example-texts.ts';
import { limitWords, severityOf } from '../limit-words.ts';
import { houseSpan, limitInForce, whatFollows } from './eligibility.ts';

const onHill = 'los-angeles';

export const slopeBeyond = defineRule({
  id: 'screening/slope-beyond',
  severity: 'stop',
  on: 'house',
  summary: 'The ground is steeper than the rule set covers.',
  why: 'On a slope the foundation steps, cripple walls differ in height, and the short stiff ones take what the tall ones should share. Hillside houses have methods of their own.',
  remedy: 'Have it engineered, or take a rule set made for hillside houses.',
  subjects: { slope: 'share' },
  examples: [
    {
      failing: shell({ rules: onHill, house: ['storeys 2', 'slope 40 %', 'floors one-level'] }),
      passing: shell({ rules: onHill, house: ['storeys 2', 'slope 5 %', 'floors one-level'] }),
    },
  ],
  check({ layout }, context) {
    const span = houseSpan(layout);
    if (!span) return;
    const limit = limitInForce(context, 'slope', {}, span);
    if (!limit) return;
    const { slope } = layout.house;
    if (slope?.kind !== 'known') {
      context.lacks({ wants: 'slope of the ground', at: slope?.source ?? span });
      return;
    }
    if (limit.bounds.every((bound) => compareQuantity(bound, slope.value))) return;
    context.report({
      message: `The ground slopes ${formatQuantity(slope.value)}: ${limitWords({ limit, query: {} }, 'most', context)}. ${whatFollows(limit)}`,
      severity: severityOf(limit, 'stop'),
      thing: undefined,
      span: slope.source,
      citation: limit.citation,
    });
  },
});
