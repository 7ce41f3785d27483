import { reservedWords } from '../reserved-words.ts';

/** A name as it can stand in a file: bare where the language allows, else in quotes. */
export function printName(name: string): string {
  return bareName.test(name) && !reserved.has(name.toLowerCase())
    ? name
    : `"${name.replace(/["\\]/g, '\\$&').replace(/[\r\n]+/g, ' ')}"`;
}

const reserved: ReadonlySet<string> = new Set(reservedWords);
const letter = 'A-Za-z_\\u00C0-\\u024F\\u0370-\\u04FF\\u4E00-\\u9FFF';
const bareName = new RegExp(`^[${letter}][${letter}\\d]*(?:-[${letter}\\d]+)*$`);
