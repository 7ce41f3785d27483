import { TextDocument } from 'vscode-languageserver-textdocument';
import { formatSheet, type SkippedBlock } from '../../../../language/syntax/format.ts';
import { type ExitCode, exitCodes } from '../exit-codes.ts';
import { readTextFile } from '../read-text-file.ts';
import { complain, type Terminal } from '../terminal.ts';
import { writeTextFile } from '../write-text-file.ts';

/** `format FILE`: prints the canonical text, writes it back, or only says whether it differs. */
export function format(
  file: string,
  { write, check }: { readonly write: boolean; readonly check: boolean },
  terminal: Terminal,
): ExitCode {
  const read = readTextFile(file);
  if (read.kind === 'refused') {
    complain(terminal, `${file} cannot be read: ${read.reason}.`);
    return exitCodes.couldNotRun;
  }
  const { text, skipped } = formatSheet(read.text);
  const [unread] = skipped;
  if (unread) {
    complain(
      terminal,
      `${file} is not formatted, since it could not be read in full.\n${inWords(file, read.text, unread)}`,
    );
    return exitCodes.couldNotRun;
  }
  const changed = text !== read.text;
  if (check) {
    if (!changed) return exitCodes.clean;
    complain(terminal, `${file} is not in canonical format; \`format --write\` puts it right.`);
    return exitCodes.found;
  }
  if (!write) {
    terminal.out(text);
    return exitCodes.clean;
  }
  if (!changed) return exitCodes.clean;
  const written = writeTextFile(file, (read.byteOrderMark ? '\uFEFF' : '') + text, { keep: [] });
  if (written.kind === 'refused') {
    complain(terminal, `${file} cannot be written: ${written.reason}.`);
    return exitCodes.couldNotRun;
  }
  return exitCodes.clean;
}

function inWords(file: string, text: string, { start, problem }: SkippedBlock): string {
  const { line, character } = TextDocument.create(file, 'sillwright', 0, text).positionAt(start + problem.start);
  return `${file}:${line + 1}:${character + 1}: ${problem.message}`;
}
