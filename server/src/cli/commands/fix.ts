import { createTwoFilesPatch } from 'diff';
import { placeInWords } from '../../../../language/domain/documents/findings-report.ts';
import { countOf, printable } from '../../../../language/domain/documents/text-layout.ts';
import { type ExitCode, exitCodes } from '../exit-codes.ts';
import { type Mend, mendLayout } from '../mend-layout.ts';
import { exitCodeOf, notReadInFull, openLayout } from '../open-layout.ts';
import { allRuleIds } from '../rule-ids.ts';
import { complain, type Terminal } from '../terminal.ts';
import { writeTextFile } from '../write-text-file.ts';

/**
 * `fix FILE`: shows what mending would change, so that a person sees it before `--write` writes it. Mends that do more than
 * keep the meaning say so. Ends in 1 where errors are left.
 */
export function fix(
  file: string,
  { rules, write }: { readonly rules: readonly string[]; readonly write: boolean },
  terminal: Terminal,
): ExitCode {
  const known = new Set(allRuleIds());
  const unknown = rules.find((rule) => !known.has(rule));
  if (unknown !== undefined) {
    complain(terminal, `there is no rule ${unknown}; \`rules\` lists them all.`);
    return exitCodes.couldNotRun;
  }
  const opened = openLayout(file);
  if (opened.kind === 'refused') {
    complain(terminal, opened.reason);
    return exitCodes.couldNotRun;
  }
  const { layout } = opened;
  const unread = notReadInFull(layout.analysis);
  if (unread !== undefined) {
    complain(terminal, `${file} is not mended, since it could not be read in full.\n${unread}`);
    return exitCodes.couldNotRun;
  }

  const before = layout.analysis.text;
  const { analysis, mends } = mendLayout(layout, rules);
  for (const mend of mends) terminal.err(`${mendInWords(mend)}\n`);
  if (mends.length === 0) terminal.err(`Nothing to mend in ${file}.\n`);
  else if (!write)
    terminal.out(createTwoFilesPatch(file, file, before, analysis.text, 'as it is', 'mended', { context: 3 }));
  else {
    const text = (layout.byteOrderMark ? '\uFEFF' : '') + analysis.text;
    const written = writeTextFile(file, text, {
      keep: layout.analysis.files.filter((used) => used !== layout.host.main),
    });
    if (written.kind === 'refused') {
      complain(terminal, `${file} cannot be written: ${written.reason}.`);
      return exitCodes.couldNotRun;
    }
    terminal.err(`${countOf(mends.length, 'mend')} written to ${file}.\n`);
  }
  return exitCodeOf(analysis);
}

function mendInWords({ place, rule, title, review }: Mend): string {
  return `${place ? `${placeInWords(place)}: ` : ''}${rule}: ${printable(title)}${review ? ' (look it over)' : ''}`;
}
