import { once } from 'node:events';
import process from 'node:process';
import { nodeParts } from './node-parts.ts';
import { startServer } from './start.ts';
import { stdioConnection } from './stdio-connection.ts';

/** Serves the editor at the other end of standard input and output, until it closes its end. */
export async function serveOverStdio(): Promise<void> {
  startServer(stdioConnection(), nodeParts);
  await once(process.stdin, 'close');
}
