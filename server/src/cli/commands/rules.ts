import { rulePage } from '../../../../language/domain/documents/rule-page.ts';
import { textTable } from '../../../../language/domain/documents/text-table.ts';
import { rules as registry } from '../../../../language/domain/rules/registry.ts';
import { nearestWord } from '../../../../language/syntax/nearest-word.ts';
import { problemPages } from '../../../../language/syntax/problem.ts';
import { shippedRuleSets } from '../../../../language/syntax/shipped-rule-sets.ts';
import { type ExitCode, exitCodes } from '../exit-codes.ts';
import { complain, type Terminal } from '../terminal.ts';

interface Entry {
  readonly id: string;
  readonly severity: string;
  readonly summary: string;
}

/** `rules [ID]`: all rules, one line each, or the page of one. */
export function rules(id: string | undefined, terminal: Terminal): ExitCode {
  const rule = registry.find((each) => each.id === id);
  if (rule) {
    terminal.out(rulePage(rule, shippedRuleSets()));
    return exitCodes.clean;
  }
  const entries = allEntries();
  if (id === undefined) {
    terminal.out(`${listOf(entries).join('\n')}\n`);
    return exitCodes.clean;
  }
  const aboutText = entries.find((entry) => entry.id === id);
  if (aboutText) {
    terminal.out(`# ${aboutText.id}\n\nAbout the text itself. ${aboutText.summary}\n`);
    return exitCodes.clean;
  }
  const near = nearestWord(
    id,
    entries.map((entry) => entry.id),
  );
  const advice = near === undefined ? '.' : `; did you mean ${near}?`;
  complain(terminal, `there is no rule ${id}${advice} \`rules\` lists them all.`);
  return exitCodes.couldNotRun;
}

function allEntries(): readonly Entry[] {
  return [
    ...registry.map(({ id, severity, summary }) => ({ id: id as string, severity: severity as string, summary })),
    ...problemPages().map(({ id, summary }) => ({ id: id as string, severity: 'text', summary })),
  ].sort((a, b) => (a.id < b.id ? -1 : 1));
}

function listOf(entries: readonly Entry[]): readonly string[] {
  return textTable(
    [
      { heading: 'Rule', text: (entry) => entry.id },
      { heading: 'Severity', text: (entry) => entry.severity },
      { heading: 'When', text: (entry) => entry.summary },
    ],
    entries,
    132,
  );
}
