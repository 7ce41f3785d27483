import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
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
};
