import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { setFlagsFromString } from 'node:v8';
import { createAnalyser } from '../../language/analysis.ts';
import type { ServerParts } from './start.ts';

/** What the server needs of a machine: files that are not open are read from its disk. */
export const nodeParts: ServerParts = {
  createAnalyser,
  readFromDisk(uri) {
    if (!uri.startsWith('file:')) return { missing: 'files of this kind of folder are read only while they are open' };
    try {
      return { text: readFileSync(fileURLToPath(uri), 'utf8').replace(/^\uFEFF/, '') };
    } catch {
      return { missing: 'there is no such file' };
    }
  },
};

/**
 * Lets go of compiled code that was not run for two collections of garbage: a first reading runs nearly all of it, an edit little. V8 would
 * wait for six, and keep its first, unoptimised machine code for good; that is 3 MB, and keys are as fast. A V8 that does not know
 * these flags says so and goes on.
 */
export function letGoOfIdleCode(): void {
  setFlagsFromString('--flush-baseline-code');
  setFlagsFromString('--bytecode-old-age=2');
}
