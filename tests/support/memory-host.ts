import type { FileHost } from '../../language/syntax/project.ts';

export const MAIN = 'main.sill';

/** Files in memory, all in one folder. */
export function memoryHost(files: ReadonlyMap<string, string> | Readonly<Record<string, string>>): FileHost {
  const texts = files instanceof Map ? files : new Map(Object.entries(files));
  return {
    read: (file) => {
      const text = texts.get(file);
      return text === undefined ? { missing: `there is no file ${file}` } : { text };
    },
    resolve: (_from, path) => (path.includes('..') ? { refused: 'it leads out of the folder' } : { file: path }),
  };
}
