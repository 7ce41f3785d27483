import { findingsToJson, findingsToText } from '../../../../language/domain/documents/findings-report.ts';
import { type ExitCode, exitCodes, graver } from '../exit-codes.ts';
import { exitCodeOf, openLayout, toCheckedLayout } from '../open-layout.ts';
import { namesNotInSight } from '../rule-set-choice.ts';
import { complain, type Terminal } from '../terminal.ts';

/**
 * `check FILE…`: what was found in each, as a report or as one JSON document.
 * @param rules take the place of the rule sets that the layouts name themselves
 */
export function check(
  files: readonly string[],
  { format, rules }: { readonly format: 'text' | 'json'; readonly rules?: readonly string[] | undefined },
  terminal: Terminal,
): ExitCode {
  let code: ExitCode = exitCodes.clean;
  const reports = [];
  for (const file of files) {
    const opened = openLayout(file);
    const refused = opened.kind === 'refused' ? opened.reason : rules && namesNotInSight(rules, opened.layout.analysis);
    if (opened.kind === 'refused' || refused !== undefined) {
      complain(terminal, refused ?? '');
      code = graver(code, exitCodes.couldNotRun);
      continue;
    }
    const { analyser, host } = opened.layout;
    const analysis = rules ? analyser.analyse(host.main, { rules }) : opened.layout.analysis;
    reports.push(toCheckedLayout(analysis));
    code = graver(code, exitCodeOf(analysis));
  }
  // Half a document would read as a whole one; what could be checked is still said.
  if (reports.length > 0) {
    terminal.out(format === 'json' ? findingsToJson(reports) : reports.map(findingsToText).join('\n'));
  }
  return code;
}
