import type { Rule } from '../rules/define.ts';
import { citationWords } from '../rulesets/citation-words.ts';
import type { Bound, Limit, LimitCondition, RuleSet } from '../rulesets/rule-set.ts';

/** The page of one rule as Markdown: when it fires, why, what to do, the limits that it reads, one text of each kind. */
export function rulePage(rule: Rule, ruleSets: readonly RuleSet[]): string {
  const subjects = Object.keys(rule.subjects).sort();
  return [
    `# ${rule.id}`,
    '',
    `${severityInWords[rule.severity]} Looks at ${scopeInWords[rule.on]}.`,
    '',
    '## When',
    '',
    rule.summary,
    '',
    '## Why it matters',
    '',
    rule.why,
    '',
    '## What to do',
    '',
    rule.remedy,
    '',
    '## Limits',
    '',
    ...(subjects.length === 0
      ? ['It reads no limit: what it says follows from the layout alone.', '']
      : subjects.flatMap((subject) => subjectSection(subject, rule.subjects[subject] ?? '', ruleSets))),
    ...rule.examples.flatMap((example, index) => {
      const number = rule.examples.length > 1 ? ` ${index + 1}` : '';
      return [
        `## Example${number}`,
        '',
        'Gives the finding:',
        '',
        ...fenced(example.failing),
        '',
        'Does not:',
        '',
        ...fenced(example.passing),
        '',
      ];
    }),
  ].join('\n');
}

const severityInWords: Readonly<Record<Rule['severity'], string>> = {
  stop: 'A stop: beyond the prescriptive path, an engineer is needed, and it cannot be accepted.',
  error: 'An error, unless the rule set in force grades it otherwise.',
  warning: 'A warning, unless the rule set in force grades it otherwise.',
  info: 'For information, unless the rule set in force grades it otherwise.',
};

const scopeInWords: Readonly<Record<Rule['on'], string>> = {
  anchor: 'each new anchor',
  piece: 'each sill board',
  foundation: 'each stretch of the foundation',
  wall: 'each wall',
  house: 'the house as a whole',
};

function subjectSection(subject: string, dimension: string, ruleSets: readonly RuleSet[]): readonly string[] {
  const rows = ruleSets.flatMap((ruleSet) =>
    ruleSet.limits.filter((limit) => limit.subject === subject).map((limit) => limitRow(ruleSet, limit)),
  );
  const heading = `\`${subject}\` (${dimension}):`;
  if (rows.length === 0) return [heading, 'no shipped rule set limits it; a rule set of your own may.', ''];
  return [heading, '', '| rule set | limit | for | otherwise | source |', '|---|---|---|---|---|', ...rows, ''];
}

function limitRow(ruleSet: RuleSet, limit: Limit): string {
  const cells = [
    ruleSet.name,
    [...limit.bounds.map(boundInWords), ...(limit.verdict === undefined ? [] : [limit.verdict.replace('-', ' ')])].join(
      ', ',
    ),
    limit.conditions.map(conditionInWords).join(', '),
    limit.otherwise ?? '',
    limit.citation ? citationWords(limit.citation) : 'none given',
  ];
  return `| ${cells.map((cell) => cell.replaceAll('|', '\\|')).join(' | ')} |`;
}

function boundInWords({ comparison, value }: Bound): string {
  return `${comparison.replace('-', ' ')} ${value.typed}`;
}

function conditionInWords({ key, word, bounds }: LimitCondition): string {
  const values = bounds.map((bound) => (bound.comparison === 'is' ? bound.value.typed : boundInWords(bound)));
  return [key, ...(word === undefined ? [] : [word]), ...values].join(' ');
}

/** The fence is longer than any run of backticks in the text. */
function fenced(text: string): readonly string[] {
  const longest = (text.match(/`+/g) ?? []).reduce((most, run) => Math.max(most, run.length), 2);
  const fence = '`'.repeat(longest + 1);
  return [`${fence}sill`, text.replace(/^\n+|\s+$/g, ''), fence];
}
