import { serveOverStdio } from '../../main-stdio.ts';
import { type ExitCode, exitCodes } from '../exit-codes.ts';

/** `serve --stdio`: the language server for any editor that speaks the protocol. */
export async function serve(): Promise<ExitCode> {
  await serveOverStdio();
  return exitCodes.clean;
}
