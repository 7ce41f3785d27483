import {
  accessSync,
  closeSync,
  constants,
  fchmodSync,
  fsyncSync,
  lstatSync,
  openSync,
  realpathSync,
  renameSync,
  statSync,
  unlinkSync,
  writeSync,
} from 'node:fs';
import { basename, dirname, join } from 'node:path';
import process from 'node:process';
import { faultInWords } from './faults.ts';

export type Written = { readonly kind: 'written' } | { readonly kind: 'refused'; readonly reason: string };

export interface WriteOptions {
  /** Files that were read; none of them may be written over, under whatever name. */
  readonly keep: readonly string[];
}

/**
 * Writes beside the target and renames, so that a reader sees the old text or the new one and a failure leaves the old.
 * A link is refused: it would be either followed to a file that nobody named or replaced by one.
 */
export function writeTextFile(path: string, text: string, { keep }: WriteOptions): Written {
  const refused = (reason: string): Written => ({ kind: 'refused', reason });
  if (path.includes('\0')) return refused('its name holds a zero byte');
  try {
    const stats = lstatSync(path, { throwIfNoEntry: false });
    if (stats?.isSymbolicLink()) return refused('it is a link; name the file itself');
    if (stats?.isDirectory()) return refused('it is a folder; name a file in it');
    if (stats && !stats.isFile()) return refused('it is not a plain file');
    // A rename would not mind that the old file is read-only; the one who made it so would.
    if (stats) accessSync(path, constants.W_OK);
    const input = keep.find((kept) => isSameFile(kept, path));
    if (input !== undefined) return refused(`it is the file that was read (${input})`);
    writeAtomically(path, text, stats?.mode);
    return { kind: 'written' };
  } catch (error) {
    return refused(faultInWords(error));
  }
}

/** Also through links, other spellings and hard links. */
export function isSameFile(a: string, b: string): boolean {
  const [one, other] = [statSync(a, { throwIfNoEntry: false }), statSync(b, { throwIfNoEntry: false })];
  if (!one || !other) return false;
  if (one.ino !== 0) return one.ino === other.ino && one.dev === other.dev;
  return realpathSync.native(a) === realpathSync.native(b);
}

function writeAtomically(path: string, text: string, mode: number | undefined): void {
  const folder = dirname(path);
  const draft = join(folder, `.${basename(path).slice(0, 64)}.${process.pid}.tmp`);
  // `wx`: a draft that somebody else left, or a link planted in its place, is never written through.
  const handle = openSync(draft, 'wx');
  try {
    try {
      const bytes = Buffer.from(text, 'utf8');
      let written = 0;
      while (written < bytes.length) written += writeSync(handle, bytes, written);
      if (mode !== undefined) fchmodSync(handle, mode);
      fsyncSync(handle);
    } finally {
      closeSync(handle);
    }
    renameSync(draft, path);
  } catch (error) {
    unlinkSync(draft);
    throw error;
  }
}
