import { terminals } from '../generated/rules.ts';
import { countUpTo, type LongText, sharedEnds } from './text-in-pieces.ts';
import { type BlockWord, isBlockWord, lineWords } from './words.ts';

/**
 * A piece of a sheet that is read by itself, so that a mistake in it cannot reach another and an edit means reading
 * one block again.
 */
export interface CutBlock {
  /**
   * `block`: a heading and the lines under it. `unread`: starts at the left edge with a word that is neither a block
   * word nor a line word, most likely a misspelt heading; its lines are held back. `preamble`: before the first heading.
   */
  readonly kind: 'block' | 'unread' | 'preamble';
  /** In lower case; only where `kind` is `block`. */
  readonly word: BlockWord | undefined;
  /** UTF-16 offset in the sheet. */
  readonly start: number;
  readonly text: string;
}

/**
 * Cuts a sheet at its headings in one pass. The texts of the blocks joined are the sheet.
 *
 * A block starts at every line whose first word is a block word, whatever its indentation. Comment lines directly
 * above a heading belong to it.
 */
export function cutBlocks(text: string): readonly CutBlock[] {
  return [...eachBlock(text)];
}

/** What an edit leaves of a sheet that was cut, and the rest of it cut anew. */
export interface CutAgain {
  /** So many blocks at its beginning, and so many at its end, are as they were. */
  readonly before: number;
  readonly after: number;
  /** Those between them. */
  readonly between: readonly CutBlock[];
}

/**
 * Cuts only where the text differs from the joined texts of the blocks that it had before: the same blocks as `cutBlocks` gives.
 * A block beside the edit is cut again with it, since its first line, its end and the comments after it may now be others.
 */
export function cutAgain(
  text: LongText,
  old: {
    readonly text: LongText;
    readonly blocks: readonly { readonly text: string }[];
    /** Where each of them begins, and the last ends. */
    readonly starts: readonly number[];
  },
): CutAgain {
  const { blocks, starts } = old;
  const lengthOf = (index: number): number => blocks[index]?.text.length ?? 0;
  const same = sharedEnds(old.text, text);
  let before = lastUpTo(starts, same.start);
  let start = starts[before] ?? 0;
  const stepBack = (): void => {
    if (before === 0) return;
    before -= 1;
    start -= lengthOf(before);
  };
  stepBack();
  // The last line of a file may go on: its heading is whole only where a line break follows.
  if (!/[\r\n]$/.test(blocks[before]?.text ?? '')) stepBack();

  const sameAfter = Math.min(same.end, text.length - start);
  // Behind the edit every block has moved by as much as the text has grown.
  const grown = text.length - old.text.length;
  let after = blocks.length - Math.max(before, firstFrom(starts, old.text.length - sameAfter));
  let end = (starts[blocks.length - after] ?? 0) + grown;
  const takeIn = (): void => {
    end += lengthOf(blocks.length - after);
    after -= 1;
  };
  if (after > 0) takeIn();
  for (;;) {
    const blocks = eachBlock(text.slice(start, end));
    const between: CutBlock[] = [];
    let next = blocks.next();
    for (; next.done !== true; next = blocks.next()) between.push({ ...next.value, start: next.value.start + start });
    if (!next.value.endsInComment || after === 0) return { before, after, between };
    takeIn();
  }
}

/** Of rising places, the last that is not past a place. */
const lastUpTo = (places: readonly number[], most: number): number => Math.max(0, countUpTo(places, most) - 1);

/** The first that is not before it. */
function firstFrom(places: readonly number[], least: number): number {
  return lastUpTo(places, least - 1) + (least > 0 ? 1 : 0);
}

/** The same one by one, each cut when it is asked for: a long file takes some ten milliseconds. */
export function* eachBlock(text: string): Generator<CutBlock, { readonly endsInComment: boolean }, void> {
  let current: Omit<CutBlock, 'text'> = { kind: 'preamble', word: undefined, start: 0 };
  let commentsStart: number | undefined;

  for (const { start, end } of linesOf(text)) {
    const line = lineStart(text, start, end);
    const heading = headingAt(line);
    if (heading) {
      const blockStart = commentsStart ?? start;
      if (blockStart > current.start) yield { ...current, text: text.slice(current.start, blockStart) };
      current = { ...heading, start: blockStart };
    }
    commentsStart = line.comment ? (commentsStart ?? start) : undefined;
    if (end === text.length) break;
  }
  if (text.length > current.start) yield { ...current, text: text.slice(current.start) };
  return { endsInComment: commentsStart !== undefined };
}

function headingAt(line: LineStart): Pick<CutBlock, 'kind' | 'word'> | undefined {
  const word = line.word?.toLowerCase();
  if (word === undefined) return undefined;
  if (isBlockWord(word)) return { kind: 'block', word };
  if (line.atLeftEdge && !lineWords.has(word)) return { kind: 'unread', word: undefined };
  return undefined;
}

interface LineStart {
  readonly word: string | undefined;
  readonly atLeftEdge: boolean;
  readonly comment: boolean;
}

function lineStart(text: string, start: number, end: number): LineStart {
  const { blanks, comment, word } = firstWord.exec(text.slice(start, Math.min(end, start + longestLine)))?.groups ?? {};
  return {
    word,
    // A byte-order mark is no indentation.
    atLeftEdge: blanks === undefined || blanks === '\uFEFF',
    comment: comment !== undefined,
  };
}

const { BLANK, ID } = terminals;
const firstWord = new RegExp(`^(?<blanks>${BLANK.source})?(?:(?<comment>//)|(?<word>${ID.source}))?`);

/** A longer line is not read: nobody types it, and reading it could take minutes. */
export const longestLine = 4096;

/** Each line with its line break: LF, CR LF or CR alone. */
export function* linesOf(text: string): Generator<{ readonly start: number; readonly end: number }> {
  let start = 0;
  while (start < text.length) {
    lineBreak.lastIndex = start;
    const match = lineBreak.exec(text);
    const end = match ? match.index + match[0].length : text.length;
    yield { start, end };
    start = end;
  }
}

/** How many lines end in a text. */
export function countLineBreaks(text: string): number {
  let count = 0;
  lineBreak.lastIndex = 0;
  while (lineBreak.test(text)) count += 1;
  return count;
}

const lineBreak = /\r\n|\n|\r/g;
