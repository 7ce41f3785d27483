import { createTwoFilesPatch } from 'diff';
import { writeEdits } from '../../../../language/analysis.ts';
import { closingToText } from '../../../../language/domain/documents/closing-report.ts';
import { closingOf } from '../../../../language/domain/fixes/closing.ts';
import { applyChanges } from '../../../../language/syntax/write-edit.ts';
import { type ExitCode, exitCodes } from '../exit-codes.ts';
import { notReadInFull, openLayout } from '../open-layout.ts';
import { complain, type Terminal } from '../terminal.ts';
import { writeTextFile } from '../write-text-file.ts';

/**
 * `close FILE`: how the outline closes, and what spreading its error over the walls would write; `--write` writes it. Ends in
 * 1 where the outline stays open.
 */
export function close(
  file: string,
  { write, anew }: { readonly write: boolean; readonly anew: boolean },
  terminal: Terminal,
): ExitCode {
  const opened = openLayout(file);
  if (opened.kind === 'refused') {
    complain(terminal, opened.reason);
    return exitCodes.couldNotRun;
  }
  const { layout } = opened;
  const { analysis, host, byteOrderMark } = layout;
  const unread = notReadInFull(analysis);
  if (unread !== undefined) {
    complain(terminal, `${file} is not closed, since it could not be read in full.\n${unread}`);
    return exitCodes.couldNotRun;
  }
  if (!analysis.layout.walls.some((wall) => wall.role === 'perimeter')) {
    complain(terminal, `${file} has no outline: no perimeter wall stands in it.`);
    return exitCodes.couldNotRun;
  }
  const closing = closingOf(analysis.layout, { anew });
  terminal.out(closingToText(closing, analysis.layout.title.units));
  const { proposal } = closing;
  if (proposal.kind !== 'spread') return proposal.kind === 'closed' ? exitCodes.clean : exitCodes.found;

  const written = writeEdits(analysis, proposal.edits);
  if (written.kind === 'refused') {
    complain(terminal, `nothing was changed: ${written.reason}.`);
    return exitCodes.couldNotRun;
  }
  const files = [...new Set(written.changes.map((change) => change.file))];
  const elsewhere = files.find((each) => each !== analysis.file);
  if (write && elsewhere !== undefined) {
    complain(terminal, `the walls stand in ${elsewhere}, and only the file itself is changed; nothing was written.`);
    return exitCodes.couldNotRun;
  }
  for (const each of files) {
    const before = analysis.textOf(each) ?? '';
    const after = applyChanges(
      before,
      written.changes.filter((change) => change.file === each),
    );
    if (!write) {
      terminal.out(createTwoFilesPatch(each, each, before, after, 'as it is', 'closed', { context: 3 }));
      continue;
    }
    const result = writeTextFile(file, (byteOrderMark ? '\uFEFF' : '') + after, {
      keep: analysis.files.filter((used) => used !== host.main),
    });
    if (result.kind === 'refused') {
      complain(terminal, `${file} cannot be written: ${result.reason}.`);
      return exitCodes.couldNotRun;
    }
    terminal.err(`Adjusted lengths written to ${file}.\n`);
  }
  return exitCodes.clean;
}
