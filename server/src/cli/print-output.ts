import { countOf } from '../../../language/domain/documents/text-layout.ts';
import { type ExitCode, exitCodes } from './exit-codes.ts';
import type { OpenLayout } from './open-layout.ts';
import { complain, type Terminal } from './terminal.ts';
import { writeTextFile } from './write-text-file.ts';

/** To the file that was asked for, else to the terminal. Nothing that was read is written over. */
export function printOutput(
  text: string,
  { output, layout }: { readonly output: string | undefined; readonly layout: OpenLayout },
  terminal: Terminal,
): ExitCode {
  if (output === undefined) {
    terminal.out(text);
    return exitCodes.clean;
  }
  const written = writeTextFile(output, text, { keep: [layout.path, ...layout.analysis.files] });
  if (written.kind === 'refused') {
    complain(terminal, `${output} cannot be written: ${written.reason}.`);
    return exitCodes.couldNotRun;
  }
  return exitCodes.clean;
}

/** A drawing or list of a layout with errors is still wanted; it says so itself, and so does this. */
export function remindOfErrors({ path, analysis }: OpenLayout, terminal: Terminal): void {
  const { stops, errors } = analysis.basis.counts;
  if (stops + errors === 0) return;
  complain(terminal, `${path} has ${countOf(stops, 'stop')} and ${countOf(errors, 'error')}; \`check\` lists them.`);
}
