import { type Analysis, createAnalyser } from '../../language/analysis.ts';
import { compareRuleSets } from '../../language/domain/documents/compare-rule-sets.ts';
import type { CheckedLayout } from '../../language/domain/documents/findings-report.ts';
import { comparisonToText } from '../../language/domain/documents/write-rule-set-comparison.ts';
import type { CompareRuleSetsAnswer, CompareRuleSetsParams } from '../../language/protocol/requests.ts';
import type { ServerContext } from './context.ts';

/** The findings of the text as it is now under each choice of rule sets; `undefined` where the text could not be checked. */
export function ruleSetComparison(
  context: ServerContext,
  { uri, choices }: CompareRuleSetsParams,
): CompareRuleSetsAnswer | undefined {
  const now = context.analyses.of(uri);
  if (!now) return undefined;
  if (choices.length < 2) return { kind: 'refused', reason: 'Choose two or more: one alone has nothing beside it.' };
  if (now.layout.walls.length === 0) return { kind: 'refused', reason: 'There is no wall in this file to check.' };
  const missing = choices.flat().find((name) => !now.rulesNamed([name]));
  if (missing !== undefined) return { kind: 'refused', reason: `No rule set ${missing} is in sight of this file.` };
  // One of its own, with nothing kept for the next edit.
  const analyser = createAnalyser(context.files);
  const editions = choices.map((ruleSets) => ({
    ruleSets,
    report: checkedLayout(context, analyser.analyse(uri, { rules: ruleSets })),
  }));
  return { kind: 'comparison', text: comparisonToText({ editions, places: compareRuleSets(editions) }) };
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
