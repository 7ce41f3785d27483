import { compareRuleSets, type Edition } from '../../../../language/domain/documents/compare-rule-sets.ts';
import {
  type Comparison,
  comparisonsToJson,
  comparisonToText,
} from '../../../../language/domain/documents/write-rule-set-comparison.ts';
import { type ExitCode, exitCodes, graver } from '../exit-codes.ts';
import { exitCodeOf, openLayout, toCheckedLayout } from '../open-layout.ts';
import { namesNotInSight } from '../rule-set-choice.ts';
import { complain, type Terminal } from '../terminal.ts';

/** `check FILE… --rules A --rules B`: each layout under each choice of rule sets, side by side. */
export function compare(
  files: readonly string[],
  { format, choices }: { readonly format: 'text' | 'json'; readonly choices: readonly (readonly string[])[] },
  terminal: Terminal,
): ExitCode {
  let code: ExitCode = exitCodes.clean;
  const comparisons: Comparison[] = [];
  for (const file of files) {
    const opened = openLayout(file);
    const refused = opened.kind === 'refused' ? opened.reason : namesNotInSight(choices.flat(), opened.layout.analysis);
    if (opened.kind === 'refused' || refused !== undefined) {
      complain(terminal, refused ?? '');
      code = graver(code, exitCodes.couldNotRun);
      continue;
    }
    const { analyser, host } = opened.layout;
    const editions = choices.map((ruleSets): Edition => {
      const analysis = analyser.analyse(host.main, { rules: ruleSets });
      code = graver(code, exitCodeOf(analysis));
      return { ruleSets, report: toCheckedLayout(analysis) };
    });
    comparisons.push({ editions, places: compareRuleSets(editions) });
  }
  // Half a document would read as a whole one; what could be compared is still said.
  if (comparisons.length > 0) {
    terminal.out(format === 'json' ? comparisonsToJson(comparisons) : comparisons.map(comparisonToText).join('\n'));
  }
  return code;
}
