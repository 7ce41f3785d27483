import {
  type Analysis,
  createAnalyser,
  type FileHost,
  type RuleSetsOfFile,
  ruleSetsIn,
} from '../../language/analysis.ts';
import { compareRuleSets } from '../../language/domain/documents/compare-rule-sets.ts';
import type { CheckedLayout } from '../../language/domain/documents/findings-report.ts';
import { comparisonToText } from '../../language/domain/documents/write-rule-set-comparison.ts';
import type {
  CompareRuleSetsAnswer,
  CompareRuleSetsParams,
  OtherFile,
  RuleSetsAnswer,
} from '../../language/protocol/requests.ts';
import type { ServerContext } from './context.ts';

type RuleSetInSight = Extract<RuleSetsAnswer, { readonly kind: 'rule-sets' }>['inSight'][number];

/** The rule sets of files that the layout does not use; of one name, that of the first file. */
export function ruleSetsElsewhere(others: readonly OtherFile[]): readonly RuleSetInSight[] {
  const found = new Map<string, RuleSetInSight>();
  for (const { uri, text } of others) {
    for (const { name, title } of ruleSetsIn(uri, text).ruleSets) {
      const key = name.toLowerCase();
      if (!found.has(key)) found.set(key, { name, title, from: uri });
    }
  }
  return [...found.values()];
}

/** The findings of the text as it is now under each choice of rule sets; `undefined` where the text could not be checked. */
export function ruleSetComparison(
  context: ServerContext,
  { uri, choices, others = [] }: CompareRuleSetsParams,
): CompareRuleSetsAnswer | undefined {
  const now = context.analyses.of(uri);
  if (!now) return undefined;
  if (choices.length < 2) return { kind: 'refused', reason: 'Choose two or more: one alone has nothing beside it.' };
  if (now.layout.walls.length === 0) return { kind: 'refused', reason: 'There is no wall in this file to check.' };
  const elsewhere = others.map((file) => ({ uri: file.uri, ...ruleSetsIn(file.uri, file.text) }));
  const fileOf = (name: string): FileOfRuleSets | undefined =>
    now.rulesNamed([name])
      ? undefined
      : elsewhere.find(({ ruleSets }) => ruleSets.some((each) => isSame(each.name, name)));
  const missing = choices.flat().find((name) => !now.rulesNamed([name]) && !fileOf(name));
  if (missing !== undefined) return { kind: 'refused', reason: `No rule set ${missing} is in sight of this file.` };
  const editions = choices.map((ruleSets) => {
    const used = new Set(ruleSets.flatMap((name) => fileOf(name) ?? []));
    // One of its own, with nothing kept for the next edit.
    const analyser = createAnalyser(used.size === 0 ? context.files : using([...used], now, context.files));
    return { ruleSets, report: checkedLayout(context, analyser.analyse(uri, { rules: ruleSets })) };
  });
  return { kind: 'comparison', text: comparisonToText({ editions, places: compareRuleSets(editions) }) };
}

interface FileOfRuleSets extends RuleSetsOfFile {
  readonly uri: string;
}

const isSame = (a: string, b: string): boolean => a.toLowerCase() === b.toLowerCase();

/** The same files, and the layout as if it used these for their rule sets. */
function using(used: readonly FileOfRuleSets[], { file, text }: Analysis, files: FileHost): FileHost {
  const pathOf = (index: number): string => `rule-sets:${index}`;
  const lines = used.map((_each, index) => `use "${pathOf(index)}"`);
  const whole = `${text}\n${lines.join('\n')}\n`;
  return {
    read(asked) {
      if (asked === file) return { text: whole };
      return used.find(({ uri }) => uri === asked) ?? files.read(asked);
    },
    resolve(from, path) {
      const other = from === file ? used.find((_each, index) => pathOf(index) === path) : undefined;
      return other ? { file: other.uri } : files.resolve(from, path);
    },
  };
}

/** Under its name alone: whoever gets the comparison has no use for our folders. */
function checkedLayout(context: ServerContext, analysis: Analysis): CheckedLayout {
  return {
    file: decodeURIComponent(analysis.file.split('/').pop() ?? ''),
    layout: analysis.layout,
    checked: analysis.checked,
    basis: analysis.basis,
    placeOf: (span) => {
      const location = context.locationOf(analysis, span);
      return location && { file: location.uri, range: location.range };
    },
  };
}
