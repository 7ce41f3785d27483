import { defineRule } from '../define.ts';
import { shell } from '../example-texts.ts';
import { limitWords, severityOf } from '../limit-words.ts';
import { houseSpan, houseWords, limitInForce, whatFollows } from './eligibility.ts';

const TALL: ReadonlySet<string> = new Set(['high', 'tall', 'full-height', 'two-storey']);
const LOW: ReadonlySet<string> = new Set(['low', 'wainscot']);

export const veneerHigh = defineRule({
  id: 'screening/veneer-high',
  severity: 'stop',
  on: 'house',
  summary: 'Brick or stone veneer reaches higher above the foundation than the rule set covers.',
  why: 'Veneer is heavy, shakes with the wall behind it, and falls. The amounts of bracing in the tables do not carry it.',
  remedy: 'Say how high it goes: `veneer brick low` or `veneer brick high`. A high one goes to an engineer.',
  subjects: { 'veneer-height': 'length' },
  examples: [
    {
      failing: shell({ rules: 'bay-area', house: ['storeys 2', 'veneer brick high'] }),
      passing: shell({ rules: 'bay-area', house: ['storeys 2', 'veneer brick low'] }),
    },
  ],
  check({ layout }, context) {
    const span = houseSpan(layout);
    if (!span) return;
    const limit = limitInForce(context, 'veneer-height', {}, span);
    if (!limit) return;
    const words = houseWords(layout, 'veneer');
    if (!words || words.includes('unknown')) {
      context.lacks({ wants: 'veneer, and how high above the foundation it goes', at: span });
      return;
    }
    if (words.includes('none') || words.some((word) => LOW.has(word))) return;
    if (!words.some((word) => TALL.has(word))) {
      context.lacks({ wants: `height of the ${words.join(' ')} veneer above the foundation`, at: span });
      return;
    }
    context.report({
      message: `Veneer: ${words.join(' ')}; above the foundation it may be ${limitWords({ limit, query: {} }, 'most', context)}. ${whatFollows(limit)}`,
      severity: severityOf(limit, 'stop'),
      thing: undefined,
      span,
      citation: limit.citation,
    });
  },
});
