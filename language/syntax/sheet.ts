import type { Leaning, Question } from '../domain/model/layout.ts';
import type { Block, FileId } from '../domain/model/source.ts';
import { ownText, withoutSpareRoom } from '../domain/spare-room.ts';
import type { Steps } from '../domain/steps.ts';
import { finish } from '../domain/steps.ts';
import type { CutBlock } from './cut.ts';
import { countLineBreaks, cutAgain, eachBlock } from './cut.ts';
import type { DraftInBrief } from './in-brief.ts';
import { inBrief } from './in-brief.ts';
import { lowerBlock } from './lower/block.ts';
import { parseBlock } from './parse.ts';
import type { Problem } from './problem.ts';
import { keptPart, type LongText } from './text-in-pieces.ts';
import type { BlockWord } from './words.ts';

/** A block with everything that its own text says. It has no absolute place, so it is the same object while its text stays. */
export interface SheetBlock extends Block {
  readonly text: string;
  readonly word: BlockWord | undefined;
  readonly draft: DraftInBrief;
  readonly leanings: readonly Leaning[];
  readonly problems: readonly Problem[];
  readonly questions: readonly Question[];
}

/** One file, cut into blocks. */
export interface Sheet {
  readonly file: FileId;
  readonly text: LongText;
  readonly blocks: readonly SheetBlock[];
  /** UTF-16 offset of each of them in the text, and its end as the last. */
  readonly starts: readonly number[];
  /** The line that each of them begins on, counted from 0, at its left edge; and the last line. */
  readonly lines: readonly number[];
  readonly copies: Copies;
}

/** How often each text of a block stands in a file: at some earlier moment, and where edits have changed that since. */
interface Copies {
  readonly all: ReadonlyMap<string, number>;
  readonly since: ReadonlyMap<string, number>;
}

/** Reads a file; blocks whose text stands in `previous` are taken from there. */
export function readSheet(file: FileId, text: LongText, previous?: Sheet): Sheet {
  return finish(readSheetInSteps(file, text, previous, new Map()));
}

/** Blocks by their key that were read for a text which another took the place of before all of it was read. */
export type BegunBlocks = Map<string, SheetBlock>;

/** The same, leaving off after each block that it had to read. */
export function* readSheetInSteps(
  file: FileId,
  text: LongText,
  previous: Sheet | undefined,
  begun: BegunBlocks,
): Steps<Sheet> {
  const before = previous?.file === file && previous.blocks.length > 0 ? previous : undefined;
  const around = before && (yield* readAround(before, text, begun));
  return around ?? (yield* readWhole(file, text, before?.blocks ?? [], begun));
}

function* readWhole(file: FileId, text: LongText, old: readonly SheetBlock[], begun: BegunBlocks): Steps<Sheet> {
  const before = new Map(old.map((block) => [block.key, block]));
  const copies = new Map<string, number>();
  const blocks: SheetBlock[] = [];
  for (const cut of eachBlock(text.toString())) {
    const copy = (copies.get(cut.text) ?? 0) + 1;
    const keyOf = (text: string): string => (copy === 1 ? text : `${copy}\u0000${text}`);
    const known = before.get(keyOf(cut.text)) ?? begun.get(keyOf(cut.text));
    const own = known?.text ?? keptPart(text, cut.start, cut.start + cut.text.length);
    copies.set(own, copy);
    blocks.push(known ?? (yield* readNext({ file, key: keyOf(own) }, { ...cut, text: own }, begun)));
  }
  return { file, text, blocks, ...placesOf(blocks), copies: { all: copies, since: new Map() } };
}

function* readNext(place: Block, cut: CutBlock, begun: BegunBlocks): Steps<SheetBlock> {
  const block = yield* readBlock(place, cut);
  begun.set(place.key, block);
  yield;
  return block;
}

/** Reads only what an edit touched; `undefined` where that has a twin in the file, since each counts those above it. */
function* readAround(previous: Sheet, text: LongText, begun: BegunBlocks): Steps<Sheet | undefined> {
  const { file, blocks: old } = previous;
  const { before, after, between } = cutAgain(text, previous);
  const touched = old.slice(before, old.length - after);
  const changes = new Map<string, number>();
  for (const block of touched) {
    if (copiesOf(previous, block.text) !== 1) return undefined;
    changes.set(block.text, 0);
  }
  const known = new Map(touched.map((block) => [block.text, block]));
  const made: SheetBlock[] = [];
  for (const cut of between) {
    if ((changes.get(cut.text) ?? copiesOf(previous, cut.text)) > 0) return undefined;
    // Not of its piece: of that, each block that is edited would keep another.
    const own = known.get(cut.text)?.text ?? ownText(cut.text);
    changes.set(own, 1);
    const block = known.get(own) ?? begun.get(own);
    made.push(block ?? (yield* readNext({ file, key: own }, { ...cut, text: own }, begun)));
  }
  const behind = old.length - after;
  const blocks = old.slice(0, before).concat(made, old.slice(behind));
  return { file, text, blocks, ...placesAround(previous, before, made, behind), copies: changed(previous, changes) };
}

const copiesOf = ({ copies }: Sheet, text: string): number => copies.since.get(text) ?? copies.all.get(text) ?? 0;

/** After a while what changed is put in with the rest: a file has many blocks, and an edit changes one. */
function changed({ copies }: Sheet, changes: ReadonlyMap<string, number>): Copies {
  const since = new Map([...copies.since, ...changes]);
  if (since.size <= mostSince) return { all: copies.all, since };
  return { all: new Map([...copies.all, ...since].filter(([, count]) => count > 0)), since: new Map() };
}
const mostSince = 32;

type Places = Pick<Sheet, 'starts' | 'lines'>;

function placesOf(blocks: readonly SheetBlock[], start = 0, line = 0): Places {
  const starts = [start];
  const lines = [line];
  for (const [index, { text }] of blocks.entries()) {
    starts.push((starts[index] ?? 0) + text.length);
    lines.push((lines[index] ?? 0) + countLineBreaks(text));
  }
  return { starts, lines };
}

/** Blocks before an edit stay where they are, and all behind it move by the same: none of them has to be looked at. */
function placesAround(old: Sheet, before: number, between: readonly SheetBlock[], behind: number): Places {
  const inBetween = placesOf(between, old.starts[before], old.lines[before]);
  const around = (was: readonly number[], now: readonly number[]): readonly number[] => {
    const moved = (now[now.length - 1] ?? 0) - (was[behind] ?? 0);
    const after = was.slice(behind + 1);
    return was.slice(0, before).concat(now, moved === 0 ? after : after.map((place) => place + moved));
  };
  return { starts: around(old.starts, inBetween.starts), lines: around(old.lines, inBetween.lines) };
}

/** Leaves off between the tree and what it says. */
function* readBlock(place: Block, cut: CutBlock): Steps<SheetBlock> {
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
  const tree = parseBlock(cut);
  yield;
  const lowered = lowerBlock(block, tree);
  block.draft = inBrief(block, lowered.draft);
  block.leanings = lowered.leanings;
  block.problems = lowered.problems;
  block.questions = lowered.questions;
  return withoutSpareRoom(block);
}
