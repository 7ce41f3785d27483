import type { Leaning } from '../domain/model/layout.ts';
import type { Block, FileId } from '../domain/model/source.ts';
import { cutBlocks } from './cut.ts';
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
}

/** One file, cut into blocks. */
export interface Sheet {
  readonly file: FileId;
  readonly text: string;
  readonly blocks: readonly SheetBlock[];
  /** UTF-16 offset of each block in the text. */
  readonly places: ReadonlyMap<Block, number>;
}

/** Reads a file; blocks whose text stands in `previous` are taken from there. */
export function readSheet(file: FileId, text: string, previous?: Sheet): Sheet {
  const known = new Map(previous?.file === file ? previous.blocks.map((block) => [block.key, block]) : []);
  const copies = new Map<string, number>();
  const blocks: SheetBlock[] = [];
  const places = new Map<Block, number>();
  for (const cut of cutBlocks(text)) {
    const copy = (copies.get(cut.text) ?? 0) + 1;
    copies.set(cut.text, copy);
    const key = copy === 1 ? cut.text : `${copy}\u0000${cut.text}`;
    const block = known.get(key) ?? readBlock({ file, key }, cut);
    blocks.push(block);
    places.set(block, cut.start);
  }
  return { file, text, blocks, places };
}

function readBlock(place: Block, cut: ReturnType<typeof cutBlocks>[number]): SheetBlock {
  // The object that spans point to must be the very block that the sheet keeps.
  const block: { -readonly [Key in keyof SheetBlock]: SheetBlock[Key] } = {
    ...place,
    text: cut.text,
    word: cut.word,
    draft: { kind: 'nothing' },
    leanings: [],
    problems: [],
  };
  const lowered = lowerBlock(block, parseBlock(cut));
  block.draft = lowered.draft;
  block.leanings = lowered.leanings;
  block.problems = lowered.problems;
  return block;
}
