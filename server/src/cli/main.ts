import * as module from 'node:module';
import { join } from 'node:path';
import process from 'node:process';
import { exitCodes } from './exit-codes.ts';
import type { Terminal } from './terminal.ts';

// Beside the program, so that nothing is left elsewhere; older Node versions have no such cache.
module.enableCompileCache?.(join(import.meta.dirname ?? '.', '.compile-cache'));

let outputFailed = false;
for (const stream of [process.stdout, process.stderr]) {
  stream.on('error', (error: NodeJS.ErrnoException) => {
    // The reader has had enough (`| head`): not a fault, and there is nobody left to tell.
    if (error.code === 'EPIPE') return;
    outputFailed = true;
    process.exitCode = exitCodes.couldNotRun;
    if (stream === process.stdout) process.stderr.write(`sillwright: the output cannot be written: ${error.message}\n`);
  });
}

const terminal: Terminal = {
  out: (text) => void process.stdout.write(text),
  err: (text) => void process.stderr.write(text),
};

// Loaded after the cache is on, so that it comes out of the cache.
const { runCommandLine } = await import('./run.ts');
const code = await runCommandLine(process.argv.slice(2), terminal, process.env);
process.exitCode = outputFailed ? exitCodes.couldNotRun : code;
