import { heavyFact } from '../../fit/weight-class.ts';
import { knownValue } from '../../model/reading.ts';
import type { LimitQuery } from '../../rulesets/limit-for.ts';
import { defineRule } from '../define.ts';
import { shell } from '../example-texts.ts';
import { sourceWords } from '../limit-words.ts';
import { houseSpan, limitInForce } from './eligibility.ts';

export const weightClassHeavy = defineRule({
  id: 'screening/weight-class-heavy',
  severity: 'info',
  on: 'house',
  summary: 'The house is of the heavy class: cement plaster outside and a tile roof.',
  why: 'A heavy house is pushed harder. Rule sets ask for more bracing on each line, some cover light roofs only.',
  remedy: 'Nothing by itself: the larger share of bracing is reckoned with. Say on the sheet that it is.',
  subjects: { 'bracing-share': 'share' },
  examples: [
    {
      failing: shell({ house: ['storeys 2', 'roof clay-tile', 'siding stucco'] }),
      passing: shell({ house: ['storeys 2', 'roof composition', 'siding stucco'] }),
    },
  ],
  check({ layout }, context) {
    const span = houseSpan(layout);
    const heavy = heavyFact(layout);
    const storeys = knownValue(layout.house.storeys);
    if (!span || !heavy || storeys === undefined) return;
    const usual: LimitQuery = { storeys: { kind: 'number', number: storeys } };
    const light = limitInForce(context, 'bracing-share', usual, span);
    const limit = limitInForce(context, 'bracing-share', { ...usual, heavy: { kind: 'holds' } }, span);
    const share = limit?.bounds[0]?.value.typed;
    if (!limit || share === undefined || share === light?.bounds[0]?.value.typed) return;
    if (heavy.kind === 'unknown') {
      // Which share of bracing holds turns on it, but only where the house could be heavy at all.
      if (layout.house.words.has('siding') || layout.house.words.has('roof'))
        context.lacks({ wants: heavy.wants, at: span });
      return;
    }
    context.report({
      message:
        `Cement plaster and a tile roof: the heavy class. Each line then wants ${share} of its length braced in place of ` +
        `${light?.bounds[0]?.value.typed ?? 'less'} (${sourceWords(limit)}).`,
      thing: undefined,
      span,
      citation: limit.citation,
    });
  },
});
