import { defineRule } from '../define.ts';
import { shell } from '../example-texts.ts';
import { severityOf, sourceWords } from '../limit-words.ts';
import { limitInForce, whatFollows } from './eligibility.ts';

export const slabPart = defineRule({
  id: 'screening/slab-part',
  severity: 'stop',
  on: 'house',
  summary: 'A part of the house stands on a slab on the ground.',
  why: 'A slab has no raised sill and often no footing at its edge; anchors for a raised house do not suit it, and it may hold cables.',
  remedy: 'Leave the walls of that part to an engineer, or to a rule set that covers slabs.',
  subjects: { 'slab-on-grade': 'verdict' },
  examples: [
    {
      failing: shell({ after: ['space den slab'] }),
      passing: shell({ after: ['space den crawl'] }),
    },
  ],
  check({ layout }, context) {
    for (const space of layout.spaces) {
      if (space.kind !== 'slab') continue;
      const limit = limitInForce(context, 'slab-on-grade', {}, space.source);
      if (limit?.verdict !== 'not-allowed') continue;
      context.report({
        message: `${space.name} stands on a slab on the ground, which is not covered (${sourceWords(limit)}). ${whatFollows(limit)}`,
        severity: severityOf(limit, 'stop'),
        thing: space.id,
        span: space.source,
        citation: limit.citation,
      });
    }
  },
});
