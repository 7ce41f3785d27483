import { isUtf8 } from 'node:buffer';
import { readFileSync, type Stats, statSync } from 'node:fs';
import { faultInWords } from './faults.ts';

export type ReadText =
  | { readonly kind: 'text'; readonly text: string; readonly byteOrderMark: boolean }
  /** The reason is a sentence part: `there is no such file`. */
  | { readonly kind: 'refused'; readonly reason: string };

/** A real layout has some hundred kilobytes; this keeps a wrong file from filling the memory. */
const largestFile = 32 * 1024 * 1024;

/** Reads a file that must be UTF-8 text, with or without a byte order mark. Never throws for what the user can mend. */
export function readTextFile(path: string): ReadText {
  const refused = (reason: string): ReadText => ({ kind: 'refused', reason });
  // A byte of zero in a path is refused by the system with words that help nobody.
  if (path.includes('\0')) return refused('its name holds a zero byte');
  let bytes: Buffer;
  try {
    const stats = statSync(path);
    const unreadable = notAReadableFile(stats);
    if (unreadable) return refused(unreadable);
    bytes = readFileSync(path);
  } catch (error) {
    return refused(faultInWords(error));
  }
  const foreign = foreignEncoding(bytes);
  if (foreign) return refused(foreign);
  const byteOrderMark = bytes[0] === 0xef && bytes[1] === 0xbb && bytes[2] === 0xbf;
  return { kind: 'text', text: bytes.toString('utf8', byteOrderMark ? 3 : 0), byteOrderMark };
}

function notAReadableFile(stats: Stats): string | undefined {
  if (stats.isDirectory()) return 'it is a folder; name a .sill file in it';
  if (!stats.isFile()) return 'it is not a plain file';
  if (stats.size > largestFile) {
    return `it has ${Math.ceil(stats.size / 1024 / 1024)} MB; a layout of more than ${largestFile / 1024 / 1024} MB is not read`;
  }
  return undefined;
}

function foreignEncoding(bytes: Buffer): string | undefined {
  const [first, second] = bytes;
  const marked = (first === 0xff && second === 0xfe) || (first === 0xfe && second === 0xff);
  if (marked || looksLikeUtf16(bytes)) return 'it is UTF-16 text; save it as UTF-8';
  const zero = bytes.indexOf(0);
  if (zero >= 0) return `it is not text: byte ${zero} is zero`;
  if (isUtf8(bytes)) return undefined;
  const at = firstBadByte(bytes);
  const value = (bytes[at] ?? 0).toString(16).toUpperCase().padStart(2, '0');
  const line = bytes.subarray(0, at).toString('latin1').split('\n').length;
  return `it is not UTF-8 text: byte ${at} (0x${value}, on line ${line}) starts no character; save it as UTF-8`;
}

/** Plain letters in UTF-16 have a zero in every other byte. */
function looksLikeUtf16(bytes: Buffer): boolean {
  const sample = bytes.subarray(0, 512);
  if (sample.length < 4) return false;
  const pairs = Math.floor(sample.length / 2);
  const zeros = [0, 0];
  for (let index = 0; index < pairs * 2; index += 1)
    if (sample[index] === 0) zeros[index % 2] = (zeros[index % 2] ?? 0) + 1;
  const [even = 0, odd = 0] = zeros;
  return Math.max(even, odd) > pairs * 0.7 && Math.min(even, odd) < pairs * 0.1;
}

/** Where the first byte stands that no well-formed character starts with (Unicode Standard, table 3-7). */
function firstBadByte(bytes: Buffer): number {
  let at = 0;
  while (at < bytes.length) {
    const lead = bytes[at] ?? 0;
    const length =
      lead < 0x80
        ? 1
        : lead >= 0xc2 && lead <= 0xdf
          ? 2
          : lead >= 0xe0 && lead <= 0xef
            ? 3
            : lead >= 0xf0 && lead <= 0xf4
              ? 4
              : 0;
    const least = lead === 0xe0 ? 0xa0 : lead === 0xf0 ? 0x90 : 0x80;
    const most = lead === 0xed ? 0x9f : lead === 0xf4 ? 0x8f : 0xbf;
    if (length === 0) return at;
    for (let index = 1; index < length; index += 1) {
      const byte = bytes[at + index] ?? 0;
      if (byte < (index === 1 ? least : 0x80) || byte > (index === 1 ? most : 0xbf)) return at;
    }
    at += length;
  }
  return at;
}
