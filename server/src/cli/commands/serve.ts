import { once } from 'node:events';
import process from 'node:process';
import { createConnection, ProposedFeatures } from 'vscode-languageserver/node';
import { nodeParts } from '../../node-parts.ts';
import { startServer } from '../../start.ts';
import { type ExitCode, exitCodes } from '../exit-codes.ts';

/** `serve --stdio`: the language server for any editor that speaks the protocol, until the editor closes its end. */
export async function serve(): Promise<ExitCode> {
  startServer(createConnection(ProposedFeatures.all, process.stdin, process.stdout), nodeParts);
  await once(process.stdin, 'close');
  return exitCodes.clean;
}
