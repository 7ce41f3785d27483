import { defineRule } from '../define.ts';
import { shell } from '../example-texts.ts';
import { severityOf, sourceWords } from '../limit-words.ts';
import { houseSpan, houseWords, limitInForce, whatFollows } from './eligibility.ts';

const HAZARDS: ReadonlySet<string> = new Set([
  'liquefaction',
  'liquefiable',
  'landslide',
  'slide',
  'fault',
  'fault-zone',
  'fill',
  'peat',
  'bay-mud',
]);

export const hazardZone = defineRule({
  id: 'screening/hazard-zone',
  severity: 'warning',
  on: 'house',
  summary: 'The site lies in a liquefaction, landslide or fault zone, or on very soft soil.',
  why: 'Where the ground itself gives way, a house that is well tied to its foundation moves with the foundation.',
  remedy: 'Look the site up on the official map and ask the building official what it asks for.',
  subjects: { 'hazard-zone': 'verdict' },
  examples: [
    {
      failing: shell({ house: ['storeys 2', 'soil liquefaction'] }),
      passing: shell({ house: ['storeys 2', 'soil clay'] }),
    },
  ],
  check({ layout }, context) {
    const span = houseSpan(layout);
    if (!span) return;
    const limit = limitInForce(context, 'hazard-zone', {}, span);
    if (limit?.verdict !== 'not-allowed') return;
    const words = houseWords(layout, 'soil') ?? [];
    const softest = layout.house.seismicWords.get('site-class')?.toLowerCase() === 'f' ? 'site class F' : undefined;
    const found = words.find((word) => HAZARDS.has(word)) ?? softest;
    if (found === undefined) {
      if (words.includes('unknown')) context.lacks({ wants: 'soil, and whether a map shows a hazard zone', at: span });
      return;
    }
    context.report({
      message: `The ground: ${found}. Sites in a zone of the hazard maps are not covered without more (${sourceWords(limit)}). ${whatFollows(limit)}`,
      severity: severityOf(limit, 'warning'),
      thing: undefined,
      span,
      citation: limit.citation,
    });
  },
});
