import { fitSubjects } from '../fit/footprint.ts';
import type { Connector } from '../hardware/connector.ts';
import { concreteAnchorKinds } from '../hardware/fastener-kinds.ts';
import { dimensionWords, knownConditions, knownSubjects } from '../rules/known-subjects.ts';
import { rules } from '../rules/registry.ts';
import type { Limit, RuleSet } from '../rulesets/rule-set.ts';

/** Everything that a rule set can limit and a hardware file can name, as one page of Markdown. */
export function subjectsPage(ruleSets: readonly RuleSet[], connectors: readonly Connector[]): string {
  const limits = ruleSets.flatMap((ruleSet) => ruleSet.limits);
  const subjects = [...knownSubjects(ruleSets)].sort(byName);
  const conditions = [...knownConditions(ruleSets)].sort(byName);
  const fasteners = connectors.flatMap((connector) => connector.fasteners);
  const kinds = new Set<string>([...subjects, ...conditions].map(([, kind]) => kind));
  return [
    '# Subjects, conditions and kinds',
    '',
    'What a `limit` of a rule set can speak of. A misspelt subject is told with the nearest one; a subject that no check reads',
    'is kept as data and changes nothing.',
    '',
    '| subject | takes | read by | given by |',
    '|---|---|---|---|',
    ...subjects.map(([subject, dimension]) =>
      row([`\`${subject}\``, dimension, readersOf(subject), setsWith(subject, limits)]),
    ),
    '',
    '| kind of value | that is |',
    '|---|---|',
    ...Object.entries(dimensionWords)
      .filter(([kind]) => kinds.has(kind))
      .map(([kind, words]) => row([kind, words])),
    '',
    '## Conditions',
    '',
    'What may follow `for`. All conditions of a limit must hold; of several limits that apply, the one with most conditions goes',
    'first, and of equally many that of the rule set named later.',
    '',
    '| condition | takes | stands with |',
    '|---|---|---|',
    ...conditions.map(([key, kind]) => row([`\`${key}\``, kind, subjectsUnder(key, limits)])),
    '',
    '## Fasteners and metals',
    '',
    'Kinds of anchors that are set in concrete; a `with` on a line of new work takes them too:',
    '',
    list(concreteAnchorKinds),
    '',
    'Kinds of fasteners in the hardware that ships:',
    '',
    list(fasteners.map((fastener) => fastener.kind)),
    '',
    'Metals in the hardware that ships:',
    '',
    list([...connectors, ...fasteners].flatMap(({ metal }) => metal ?? [])),
    '',
  ].join('\n');
}

type Entry = readonly [name: string, ...rest: unknown[]];
const byName = ([a]: Entry, [b]: Entry): number => (a < b ? -1 : a > b ? 1 : 0);

function readersOf(subject: string): string {
  const ids = rules.filter((rule) => subject in rule.subjects).map((rule) => `[${rule.id}](rules/${rule.id}.md)`);
  const readers = [...(subject in fitSubjects ? ['where a connector fits'] : []), ...ids.sort()];
  return readers.length === 0 ? 'no check yet' : readers.join(', ');
}

const setsWith = (subject: string, limits: readonly Limit[]): string =>
  unique(limits.filter((limit) => limit.subject === subject).map((limit) => limit.ruleSet)).join(', ');

const subjectsUnder = (key: string, limits: readonly Limit[]): string =>
  unique(
    limits
      .filter(({ conditions }) => conditions.some((condition) => condition.key.toLowerCase() === key))
      .map((limit) => `\`${limit.subject}\``),
  ).join(', ');

const list = (names: Iterable<string>): string =>
  unique([...names])
    .map((name) => `\`${name}\``)
    .join(', ');

const unique = (names: readonly string[]): readonly string[] => [...new Set(names)].sort();

const row = (cells: readonly string[]): string => `| ${cells.map((cell) => cell.replaceAll('|', '\\|')).join(' | ')} |`;
