import { sameAtEnds } from '../domain/list-in-runs.ts';
import { ownText } from '../domain/spare-room.ts';

/** A text as far as reading asks: a string is one. */
export interface LongText {
  readonly length: number;
  slice(start: number, end: number): string;
  toString(): string;
}

/**
 * A long text that is being edited, in pieces of about a thousand characters. An edit makes the pieces anew that it touches; the others are
 * the same objects, so that nobody copies or compares a whole file at every key: of ten thousand lines that takes two milliseconds.
 */
export interface TextInPieces extends LongText {
  /** At least one. */
  readonly pieces: readonly Piece[];
  /** UTF-16 offset of each of them, and the end of the text as the last. */
  readonly starts: readonly number[];
  /** The line that begins with each of them, counted from 0, and the last line of the text as the last. */
  readonly firstLines: readonly number[];
}

/** Whole lines; only the last piece may end without a line break. */
interface Piece {
  /** In memory of its own: as parts of the file as it was opened, all of that would stay, at two bytes a character for a single ″. */
  readonly text: string;
  /** Where lines begin in it: behind each of its line breaks. */
  readonly lineStarts: readonly number[];
}

export function textInPieces(text: string): TextInPieces {
  return joinedText(cutInPieces(text), text);
}

/** The text with another in place of a part. */
export function withPart(old: TextInPieces, start: number, end: number, inserted: string): TextInPieces {
  const { pieces, starts } = old;
  let first = pieceAt(old, start);
  // A line feed that comes to stand there belongs to the carriage return before it.
  if (first > 0 && start === starts[first]) first -= 1;
  let behind = pieceAt(old, end) + 1;
  let between = old.slice(starts[first] ?? 0, start) + inserted + old.slice(end, starts[behind] ?? end);
  for (let next = pieces[behind]; next && !endsInLineBreak(between, next.text); next = pieces[behind]) {
    between += next.text;
    behind += 1;
  }
  return joinedText(pieces.slice(0, first).concat(cutInPieces(between), pieces.slice(behind)));
}

/** A part that is kept: it shares the memory of its piece, or has its own. */
export function keptPart(text: LongText, start: number, end: number): string {
  const part = text.slice(start, end);
  return isInPieces(text) ? part : ownText(part);
}

/** How many characters two texts share at the start, and how many at the end; of texts in pieces, at least so many. */
export function sharedEnds(a: LongText, b: LongText): { readonly start: number; readonly end: number } {
  if (!isInPieces(a) || !isInPieces(b)) return endsOfStrings(a.toString(), b.toString());
  const { start, end } = sameAtEnds(a.pieces, b.pieces);
  const between = (text: TextInPieces): string =>
    text.slice(text.starts[start] ?? 0, text.starts[text.pieces.length - end] ?? text.length);
  const near = endsOfStrings(between(a), between(b));
  const same = a.length - (a.starts[a.pieces.length - end] ?? a.length);
  return { start: (a.starts[start] ?? 0) + near.start, end: same + near.end };
}

export function isSameText(a: LongText, b: LongText): boolean {
  return a === b || (a.length === b.length && sharedEnds(a, b).start === a.length);
}

/** The line that a place is on, counted from 0, and where it begins. */
export function lineAt(text: TextInPieces, offset: number): { readonly line: number; readonly start: number } {
  const place = pieceAt(text, offset);
  const pieceStart = text.starts[place] ?? 0;
  const lineStarts = text.pieces[place]?.lineStarts ?? [];
  const inPiece = countUpTo(lineStarts, offset - pieceStart);
  return { line: (text.firstLines[place] ?? 0) + inPiece, start: pieceStart + (lineStarts[inPiece - 1] ?? 0) };
}

/** Where a line begins; `undefined` behind the last one. */
export function startOfLine(text: TextInPieces, line: number): number | undefined {
  const place = Math.min(countUpTo(text.firstLines, line), text.pieces.length) - 1;
  const inPiece = line - (text.firstLines[place] ?? 0);
  const start = inPiece === 0 ? 0 : text.pieces[place]?.lineStarts[inPiece - 1];
  return start === undefined ? undefined : (text.starts[place] ?? 0) + start;
}

/** @param whole the same text, where somebody has it */
function joinedText(given: readonly Piece[], whole?: string): TextInPieces {
  const pieces = given.length > 0 ? given : [emptyPiece];
  const starts = [0];
  const firstLines = [0];
  for (const [place, { text, lineStarts }] of pieces.entries()) {
    starts.push((starts[place] ?? 0) + text.length);
    firstLines.push((firstLines[place] ?? 0) + lineStarts.length);
  }
  let joined = whole;
  const text: TextInPieces = {
    ...{ pieces, starts, firstLines, length: starts.at(-1) ?? 0 },
    slice(start, end) {
      let part = '';
      for (let place = pieceAt(text, start); place < pieces.length; place += 1) {
        const from = starts[place] ?? 0;
        if (from >= end) break;
        part += pieces[place]?.text.slice(Math.max(0, start - from), end - from) ?? '';
      }
      return part;
    },
    toString() {
      joined ??= pieces.map((piece) => piece.text).join('');
      return joined;
    },
  };
  return text;
}
const emptyPiece: Piece = { text: '', lineStarts: [] };

/**
 * Before a line at the left edge, where that comes soon: there blocks begin, whose texts are then each part of one piece. The last
 * may be half as long as the others and half as long again, so that typing does not crumble them.
 */
function cutInPieces(text: string): readonly Piece[] {
  const pieces: Piece[] = [];
  let start = 0;
  let lineStarts: number[] = [];
  for (const { 0: lineBreak, index } of text.matchAll(/\r\n|\n|\r/g)) {
    const end = index + lineBreak.length;
    lineStarts.push(end - start);
    const length = end - start;
    if (length < usualLength || text.length - end < usualLength / 2) continue;
    if (length < mostLength && /\s/.test(text.charAt(end))) continue;
    pieces.push({ text: ownText(text.slice(start, end)), lineStarts: lineStarts.slice() });
    start = end;
    lineStarts = [];
  }
  if (start < text.length) pieces.push({ text: ownText(text.slice(start)), lineStarts: lineStarts.slice() });
  return pieces;
}
const usualLength = 1024;
const mostLength = 4096;

/** A carriage return before a line feed is half a line break. */
function endsInLineBreak(text: string, next: string): boolean {
  return text === '' || text.endsWith('\n') || (text.endsWith('\r') && !next.startsWith('\n'));
}

function isInPieces(text: LongText): text is TextInPieces {
  return typeof text !== 'string' && 'pieces' in text;
}

function pieceAt({ pieces, starts }: TextInPieces, offset: number): number {
  return Math.max(0, Math.min(countUpTo(starts, offset), pieces.length) - 1);
}

/** How many of some rising places are not past a place. */
export function countUpTo(places: readonly number[], most: number): number {
  let low = 0;
  let high = places.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((places[middle] ?? 0) <= most) low = middle + 1;
    else high = middle;
  }
  return low;
}

function endsOfStrings(a: string, b: string): { readonly start: number; readonly end: number } {
  return { start: sameAtStart(a, b), end: sameAtEnd(a, b) };
}

/** A part of a text is no copy, and parts are compared very fast. */
function sameAtStart(a: string, b: string): number {
  const most = Math.min(a.length, b.length);
  let same = 0;
  for (let step = longestStep; step >= 1; step /= 2) {
    while (same + step <= most && a.slice(same, same + step) === b.slice(same, same + step)) same += step;
  }
  return same;
}

function sameAtEnd(a: string, b: string): number {
  const most = Math.min(a.length, b.length);
  const part = (text: string, same: number, step: number): string =>
    text.slice(text.length - same - step, text.length - same);
  let same = 0;
  for (let step = longestStep; step >= 1; step /= 2) {
    while (same + step <= most && part(a, same, step) === part(b, same, step)) same += step;
  }
  return same;
}

/** A power of two, so that it can be halved down to one character. */
const longestStep = 8192;
