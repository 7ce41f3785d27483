import { once } from 'node:events';
import process from 'node:process';
import { createConnection, ProposedFeatures } from 'vscode-languageserver/node';
import { nodeParts } from './node-parts.ts';
import { startServer } from './start.ts';

/** Serves the editor at the other end of standard input and output, until it closes its end. */
export async function serveOverStdio(): Promise<void> {
  startServer(createConnection(ProposedFeatures.all, process.stdin, process.stdout), nodeParts);
  await once(process.stdin, 'close');
}
