import { caseOfLimit } from '../../rulesets/limit-for.ts';
import { defineRule } from '../define.ts';
import { demo, sound } from '../example-texts.ts';
import { wholeLimitWords } from '../limit-words.ts';

export const limitsDisagree = defineRule({
  id: 'load-path/limits-disagree',
  severity: 'error',
  on: 'house',
  summary: 'Two limits of one rule set speak of the same case with equally many conditions and disagree.',
  why: 'No rule tells which one holds, so the case is not checked.',
  remedy:
    'Give one of them a condition more, or take one out. A limit of a set named later replaces an earlier one with the same conditions.',
  subjects: {},
  examples: [
    {
      failing: `${demo({ anchors: sound, rules: 'existing-building, our-town' })}${ourTown(['end-distance at-least 8" at-most 12" for storeys 2', 'end-distance at-least 9" at-most 11" for bolt 1/2"'])}`,
      passing: `${demo({ anchors: sound, rules: 'existing-building, our-town' })}${ourTown(['end-distance at-least 8" at-most 12" for storeys 2'])}`,
    },
  ],
  check({ layout }, context) {
    const span = layout.title.ruleSets[0]?.source ?? layout.title.source;
    if (!span) return;
    const said = new Set<string>();
    for (const { question } of context.seen.openQuestions) {
      if (question.kind !== 'conflict' || said.has(question.subject)) continue;
      said.add(question.subject);
      // Of one case in one set the text of the set itself tells, at the limit.
      if (new Set(question.limits.map(caseOfLimit)).size === 1) continue;
      const words = question.limits.map((limit) => wholeLimitWords(limit, context));
      context.report({
        message: `The limits on ${question.subject} disagree: ${words.join(' and ')} apply alike. What they speak of is not checked; make one of them more particular.`,
        thing: undefined,
        layer: 'rules',
        span,
        about: question.subject,
        related: question.limits.map((limit) => ({ span: limit.source, message: wholeLimitWords(limit, context) })),
        citation: question.limits[0]?.citation,
      });
    }
  },
});

function ourTown(limits: readonly string[]): string {
  return [
    '',
    'ruleset our-town "Our town"',
    '  source "Town sheet 4" published',
    ...limits.map((limit) => `    limit ${limit}`),
    '',
  ].join('\n');
}
