import { defineRule } from '../define.ts';
import { shell } from '../example-texts.ts';
import { severityOf, sourceWords } from '../limit-words.ts';
import { houseSpan, houseWords, limitInForce, whatFollows } from './eligibility.ts';

const ONE_LEVEL: ReadonlySet<string> = new Set(['one-level', 'level', 'single-level']);

export const floorsSplit = defineRule({
  id: 'screening/floors-split',
  severity: 'stop',
  on: 'house',
  summary: 'The floors of one storey do not lie at one level.',
  why: 'Where a floor is split, neither half can hand its force to the other, and the wall between them is pushed from both sides.',
  remedy: 'Have the joint between the levels engineered, or take a rule set that covers split levels.',
  subjects: { 'one-level-floors': 'verdict' },
  examples: [
    {
      failing: shell({ rules: 'los-angeles', house: ['storeys 2', 'floors split-level'] }),
      passing: shell({ rules: 'los-angeles', house: ['storeys 2', 'floors one-level'] }),
    },
  ],
  check({ layout }, context) {
    const span = houseSpan(layout);
    if (!span) return;
    const limit = limitInForce(context, 'one-level-floors', {}, span);
    if (limit?.verdict !== 'required') return;
    const words = houseWords(layout, 'floors');
    if (!words || words.includes('unknown')) {
      context.lacks({ wants: 'whether the floors lie at one level', at: span });
      return;
    }
    if (words.some((word) => ONE_LEVEL.has(word))) return;
    context.report({
      message: `Floors: ${words.join(' ')}. All floors of a storey at one level are asked for (${sourceWords(limit)}). ${whatFollows(limit)}`,
      severity: severityOf(limit, 'stop'),
      thing: undefined,
      span,
      citation: limit.citation,
    });
  },
});
