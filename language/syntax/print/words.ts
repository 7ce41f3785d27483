import type { NameReference, Tags } from '../../domain/model/layout.ts';
import { printName } from './name.ts';

/** A line of words with one blank between; what is not there is left out. */
export function lineOf(...words: readonly (string | undefined | readonly (string | undefined)[])[]): string {
  return words
    .flat()
    .filter((word) => word !== undefined && word !== '')
    .join(' ');
}

/** A text in straight quotes, on one line. */
export function printText(text: string): string {
  return `"${text.replace(/["\\]/g, '\\$&').replace(/[\r\n]+/g, ' ')}"`;
}

/** A name or `unknown`, which was written as that word. */
export function printNameOrUnknown(name: string): string {
  return name === 'unknown' ? name : printName(name);
}

/** `F.X4` names a thing on another wall and needs no quotes. */
export function printReference(name: string): string {
  return name
    .split('.')
    .map((part) => printName(part))
    .some((part) => part.startsWith('"'))
    ? printName(name)
    : name;
}

export function printMarks(marks: readonly NameReference[]): string {
  return marks.map((mark) => printReference(mark.name)).join(', ');
}

export function tagWords(tags: Tags): string {
  return lineOf(
    tags.notes.map((note) => lineOf('note', printText(note))),
    photoWords(tags.photos),
    dayWords(tags),
  );
}

/** On a block a note is a line of its own, and who and when are another. */
export function tagLines(tags: Tags): readonly string[] {
  const notes = tags.notes.map((note) => lineOf('note', printText(note)));
  return [...notes, photoWords(tags.photos) ?? '', dayWords(tags)].filter((line) => line !== '');
}

function photoWords(photos: readonly number[]): string | undefined {
  return photos.length === 0 ? undefined : `photo ${photos.join(', ')}`;
}

function dayWords({ by, dated }: Tags): string {
  return lineOf(
    by === undefined ? undefined : ['by', printName(by)],
    dated === undefined ? undefined : ['dated', dated],
  );
}
