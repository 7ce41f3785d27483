import { findingsToJson, findingsToText } from '../../../../language/domain/documents/findings-report.ts';
import { type ExitCode, exitCodes, graver } from '../exit-codes.ts';
import { exitCodeOf, openLayout, toCheckedLayout } from '../open-layout.ts';
import { complain, type Terminal } from '../terminal.ts';

/** `check FILE…`: what was found in each, as a report or as one JSON document. */
export function check(
  files: readonly string[],
  { format }: { readonly format: 'text' | 'json' },
  terminal: Terminal,
): ExitCode {
  let code: ExitCode = exitCodes.clean;
  const reports = [];
  for (const file of files) {
    const opened = openLayout(file);
    if (opened.kind === 'refused') {
      complain(terminal, opened.reason);
      code = graver(code, exitCodes.couldNotRun);
      continue;
    }
    const { analysis } = opened.layout;
    reports.push(toCheckedLayout(analysis));
    code = graver(code, exitCodeOf(analysis));
  }
  // Half a document would read as a whole one; what could be checked is still said.
  if (reports.length > 0) {
    terminal.out(format === 'json' ? findingsToJson(reports) : reports.map(findingsToText).join('\n'));
  }
  return code;
}
