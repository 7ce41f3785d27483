import { realpathSync } from 'node:fs';
import { basename, dirname, isAbsolute, join, relative, resolve, sep } from 'node:path';
import type { FileHost } from '../../../language/analysis.ts';
import type { FileId } from '../../../language/domain/model/source.ts';
import { readTextFile } from './read-text-file.ts';

/** The files that one layout may use: those in its own folder and below. They are named from where the user stands. */
export interface FolderHost extends FileHost {
  readonly main: FileId;
  /** The text to read from now on, as if it had been written. */
  replaceText(file: FileId, text: string): void;
}

/** Each file is read once, so that everything said in one run is about one state of it. */
export function createFolderHost(path: string, text: string): FolderHost {
  const main = slashed(path);
  const folder = dirname(resolve(path));
  const realFolder = realPathOf(folder);
  const texts = new Map<FileId, ReturnType<FileHost['read']>>([[main, { text }]]);
  // Two spellings or links of one file are one file: circles are found, nothing is read twice.
  const byRealPath = new Map<string, FileId>([[realPathOf(resolve(path)), main]]);

  return {
    main,
    read(file) {
      const known = texts.get(file);
      if (known) return known;
      const read = readTextFile(file);
      const answer = read.kind === 'text' ? { text: read.text } : { missing: read.reason };
      texts.set(file, answer);
      return answer;
    },
    resolve(from, used) {
      const refusal = refuseSpelling(used);
      if (refusal) return { refused: refusal };
      const absolute = join(dirname(resolve(from)), used);
      const real = realPathOf(absolute);
      if (!isInside(absolute, folder) || !isInside(real, realFolder)) {
        return { refused: `it lies outside the folder of ${basename(path)}; copy it in` };
      }
      const file = byRealPath.get(real) ?? slashed(join(dirname(path), relative(folder, absolute)));
      byRealPath.set(real, file);
      return { file };
    },
    replaceText(file, newText) {
      texts.set(file, { text: newText });
    },
  };
}

function refuseSpelling(used: string): string | undefined {
  if (used === '') return 'it names no file';
  if (used.includes('\0')) return 'its name holds a zero byte';
  if (used.includes('\\')) return 'write / between folders';
  if (isAbsolute(used) || /^[a-z][a-z0-9+.-]*:/i.test(used))
    return 'write the path from this file, as in "hardware.sill"';
  return undefined;
}

/** Without links; as it stands where there is no such file (its reading will say so). */
function realPathOf(path: string): string {
  try {
    return realpathSync.native(path);
  } catch {
    return path;
  }
}

function isInside(path: string, folder: string): boolean {
  const way = relative(folder, path);
  return way !== '' && way !== '..' && !way.startsWith(`..${sep}`) && !isAbsolute(way);
}

function slashed(path: string): string {
  return sep === '\\' ? path.replaceAll('\\', '/') : path;
}
