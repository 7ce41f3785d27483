import { defineRule } from '../define.ts';
import { shell } from '../example-texts.ts';
import { isUnsound } from '../foundation/concrete-soft.ts';
import { sayHouseWord } from './foundation-words.ts';

const WEAK: ReadonlySet<string> = new Set(['soft', 'weak', 'poor', 'crumbling', 'deteriorated', 'rotten']);

export const screeningConcreteSoft = defineRule({
  id: 'screening/concrete-soft',
  severity: 'stop',
  on: 'house',
  summary: 'The house block says that the concrete is weak, and no wall says where.',
  why: 'No anchor holds in weak concrete. Where a wall says so of its own foundation, `foundation/concrete-soft` tells it there and this one is silent.',
  remedy: 'Write the condition or the tested strength on each wall; an engineer evaluates and tests it.',
  subjects: { 'concrete-strength': 'pressure' },
  examples: [
    {
      failing: shell({ house: ['storeys 2', 'foundation continuous weak'] }),
      passing: shell({ house: ['storeys 2', 'foundation continuous'] }),
    },
  ],
  check(_house, context) {
    sayHouseWord(context, {
      words: WEAK,
      subject: 'concrete-strength',
      toldOf: isUnsound,
      sentence: (word, source) => `The concrete of the foundation is ${word}; sound concrete is asked for (${source}).`,
    });
  },
});
