import type { Leaning, Question } from '../domain/model/layout.ts';
import type { Block, FileId } from '../domain/model/source.ts';
import type { Steps } from '../domain/steps.ts';
import { finish } from '../domain/steps.ts';
import type { CutBlock } from './cut.ts';
import { cutAgain, cutBlocks } from './cut.ts';
import type { BlockDraft } from './drafts.ts';
import { lowerBlock } from './lower/block.ts';
import { parseBlock } from './parse.ts';
import type { Problem } from './problem.ts';

/** A block with everything that its own text says. It has no absolute place, so it is the same object while its text stays. */
export interface SheetBlock extends Block {
  readonly text: string;
  readonly word: string | undefined;
  readonly draft: BlockDraft;
  readonly leanings: readonly Leaning[];
  readonly problems: readonly Problem[];
  readonly questions: readonly Question[];
}

/** One file, cut into blocks. */
export interface Sheet {
  readonly file: FileId;
  readonly text: string;
  readonly blocks: readonly SheetBlock[];
  /** UTF-16 offset of each block in the text. */
  readonly places: ReadonlyMap<Block, number>;
  /** How often each text of a block stands in it. */
  readonly copies: ReadonlyMap<string, number>;
}

/** Reads a file; blocks whose text stands in `previous` are taken from there. */
export function readSheet(file: FileId, text: string, previous?: Sheet): Sheet {
  return finish(readSheetInSteps(file, text, previous, new Map()));
}

/** Blocks by their key that were read for a text which another took the place of before all of it was read. */
export type BegunBlocks = Map<string, SheetBlock>;

/** The same, leaving off after each block that it had to read. */
export function* readSheetInSteps(
  file: FileId,
  text: string,
  previous: Sheet | undefined,
  begun: BegunBlocks,
): Steps<Sheet> {
  const before = previous?.file === file && previous.blocks.length > 0 ? previous : undefined;
  const around = before && (yield* readAround(before, text, begun));
  return around ?? (yield* readWhole(file, text, before?.blocks ?? [], begun));
}

function* readWhole(file: FileId, text: string, before: readonly SheetBlock[], begun: BegunBlocks): Steps<Sheet> {
  const known = new Map(before.map((block) => [block.key, block]));
  const copies = new Map<string, number>();
  const blocks: SheetBlock[] = [];
  for (const cut of cutBlocks(text)) {
    const copy = (copies.get(cut.text) ?? 0) + 1;
    copies.set(cut.text, copy);
    const key = copy === 1 ? cut.text : `${copy}\u0000${cut.text}`;
    blocks.push(known.get(key) ?? begun.get(key) ?? (yield* readNext({ file, key }, cut, begun)));
  }
  return sheetOf(file, text, blocks, copies);
}

function* readNext(place: Block, cut: CutBlock, begun: BegunBlocks): Steps<SheetBlock> {
  const block = readBlock(place, cut);
  begun.set(place.key, block);
  yield;
  return block;
}

/** Reads only what an edit touched; `undefined` where that has a twin in the file, since each counts those above it. */
function* readAround(previous: Sheet, text: string, begun: BegunBlocks): Steps<Sheet | undefined> {
  const { file, blocks: old } = previous;
  const { before, after, between } = cutAgain(text, previous);
  const touched = old.slice(before, old.length - after);
  const copies = new Map(previous.copies);
  for (const block of touched) {
    if (copies.get(block.text) !== 1) return undefined;
    copies.delete(block.text);
  }
  const known = new Map(touched.map((block) => [block.text, block]));
  const blocks = old.slice(0, before);
  for (const cut of between) {
    if (copies.has(cut.text)) return undefined;
    // A part of a text keeps the whole text in memory: one that stays from each edit would keep them all.
    const own = known.get(cut.text)?.text ?? ownText(cut.text);
    copies.set(own, 1);
    const block = known.get(own) ?? begun.get(own);
    blocks.push(block ?? (yield* readNext({ file, key: own }, { ...cut, text: own }, begun)));
  }
  for (const block of old.slice(old.length - after)) blocks.push(block);
  return sheetOf(file, text, blocks, copies);
}

const ownText = (part: string): string => ` ${part}`.slice(1);

function sheetOf(
  file: FileId,
  text: string,
  blocks: readonly SheetBlock[],
  copies: ReadonlyMap<string, number>,
): Sheet {
  const places = new Map<Block, number>();
  let start = 0;
  for (const block of blocks) {
    places.set(block, start);
    start += block.text.length;
  }
  return { file, text, blocks, places, copies };
}

function readBlock(place: Block, cut: CutBlock): SheetBlock {
  // The object that spans point to must be the very block that the sheet keeps.
  const block: { -readonly [Key in keyof SheetBlock]: SheetBlock[Key] } = {
    ...place,
    text: cut.text,
    word: cut.word,
    draft: { kind: 'nothing' },
    leanings: [],
    problems: [],
    questions: [],
  };
  const lowered = lowerBlock(block, parseBlock(cut));
  block.draft = lowered.draft;
  block.leanings = lowered.leanings;
  block.problems = lowered.problems;
  block.questions = lowered.questions;
  return block;
}
