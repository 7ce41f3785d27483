import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { FileHost, Project } from '../../language/syntax/project.ts';
import { createProjectReader } from '../../language/syntax/project.ts';
import { MAIN, memoryHost } from './memory-host.ts';

/** Reads texts into a layout without checking it. */
export function readLayout(text: string | Readonly<Record<string, string>>): Project {
  return createProjectReader(memoryHost(typeof text === 'string' ? { [MAIN]: text } : text)).read(MAIN);
}

export const examplesFolder = join(import.meta.dirname, '../../examples');

/** The examples as a folder on disk. */
export const exampleHost: FileHost = {
  read: (file) => {
    try {
      return { text: readFileSync(join(examplesFolder, file), 'utf8') };
    } catch {
      return { missing: `there is no file ${file}` };
    }
  },
  resolve: (_from, path) => ({ file: path }),
};
