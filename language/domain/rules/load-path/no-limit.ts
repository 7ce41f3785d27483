import type { ConditionFact } from '../../rulesets/limit-for.ts';
import type { Length } from '../../units/length.ts';
import type { OpenQuestion } from '../define.ts';
import { defineRule } from '../define.ts';
import { demo, sound } from '../example-texts.ts';

export const noLimit = defineRule({
  id: 'load-path/no-limit',
  severity: 'warning',
  on: 'house',
  summary: 'The rule sets in force say nothing of a case that the house has.',
  why: 'Where there is no limit nothing is checked, and no value is guessed in its place.',
  remedy:
    'Ask the building official which number holds, and write it into a rule set of your own; or build something that the rule set covers.',
  subjects: {},
  examples: [
    {
      failing: demo({ anchors: sound }).replace('storeys 2', 'storeys 3'),
      passing: demo({ anchors: sound }),
    },
  ],
  check({ layout }, context) {
    // Without a rule set nothing has a limit, and that is said by a rule of its own.
    const named = new Set(layout.title.ruleSets.map((each) => each.name.toLowerCase()));
    const chosen = layout.rules.chosen.filter((each) => named.has(each.name.toLowerCase()));
    const first = layout.title.ruleSets[0];
    if (chosen.length === 0 || !first) return;
    const byCase = new Map<string, OpenQuestion[]>();
    for (const open of context.seen.openQuestions) {
      if (open.question.kind !== 'none') continue;
      const words = caseOf(open.question, context.show);
      byCase.set(words, [...(byCase.get(words) ?? []), open]);
    }
    for (const [words, places] of byCase) {
      const checks = [...new Set(places.map((each) => each.rule))].join(', ');
      context.report({
        message: `No limit for ${words} in ${chosen.map((each) => each.name).join(', ')}, so nothing is said of it (${checks}). Ask the official, or choose a rule set that covers it.`,
        thing: undefined,
        layer: 'rules',
        span: first.source,
        about: words,
        related: places.slice(0, 5).map((each) => ({ span: each.at, message: 'not checked here' })),
      });
    }
  },
});

function caseOf(
  question: Extract<OpenQuestion['question'], { kind: 'none' }>,
  show: (length: Length) => string,
): string {
  const { subject, query, extreme } = question;
  const bolt = wordOf(query.bolt, show);
  const storeys = wordOf(query.storeys, show);
  const parts = [
    ...(bolt === undefined ? [] : [`${bolt} anchors`]),
    ...(storeys === undefined ? [] : [`${storeys} ${storeys === '1' ? 'storey' : 'storeys'}`]),
  ];
  const wanted = extreme === undefined ? '' : ` (at ${extreme})`;
  return `${subject}${wanted}${parts.length === 0 ? '' : ` with ${parts.join(', ')}`}`;
}

function wordOf(fact: ConditionFact | undefined, show: (length: Length) => string): string | undefined {
  switch (fact?.kind) {
    case 'length':
      return show(fact.length);
    case 'number':
      return String(fact.number);
    case 'word':
      return fact.word;
    default:
      return undefined;
  }
}
