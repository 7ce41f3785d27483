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
  // There only where node was started with it.
  freeYoung: globalThis.gc && (() => void globalThis.gc?.({ type: 'minor' })),
  keepLittleCode,
};

/**
 * A first reading runs nearly all of the server's code, an edit little, and V8 keeps the machine code that its quickest compiler made of
 * it for good: 2.7 MB. Without that one, code goes from the interpreter straight to the compilers that make it fast, and what was not
 * run for two collections of garbage, not six, is let go, which is 1.4 MB. A V8 that does not know these flags says so and goes on.
 * Until the code is warm, keys are some hundredths slower.
 */
function keepLittleCode(): void {
  setFlagsFromString('--no-sparkplug');
  setFlagsFromString('--bytecode-old-age=2');
}
