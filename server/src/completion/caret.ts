import type { Analysis } from '../../../language/analysis.ts';
import type { Girder, Wall } from '../../../language/domain/model/layout.ts';
import { type CutBlock, cutBlocks } from '../../../language/syntax/cut.ts';
import { namesInBlock } from '../../../language/syntax/names.ts';
import { type TypedSoFar, typedBefore } from '../../../language/syntax/what-may-follow.ts';

/** Where something is being typed. */
export interface Caret {
  readonly typed: TypedSoFar;
  /** The wall or girder that the block is about. */
  readonly wall: Wall | undefined;
  readonly girder: Girder | undefined;
  /** From the start of the caret's line to the caret. */
  readonly lineBefore: string;
}

/** `undefined` inside a comment or a text: there nothing is proposed. */
export function caretAt(analysis: Analysis, text: string, offset: number): Caret | undefined {
  const block = blockAt(text, offset);
  const typed = typedBefore(block ? text.slice(block.start, offset) : '', block?.word);
  if (!typed) return undefined;
  const owner = block && ownerOf(block);
  const isOwner = ({ name }: { readonly name: string }): boolean => name.toLowerCase() === owner?.toLowerCase();
  return {
    typed,
    wall: analysis.layout.walls.find(isOwner),
    girder: analysis.layout.girders.find(isOwner),
    lineBefore: text.slice(text.lastIndexOf('\n', offset - 1) + 1, offset),
  };
}

/** The last block that starts before the caret. */
function blockAt(text: string, offset: number): CutBlock | undefined {
  return cutBlocks(text).findLast((block) => block.kind === 'block' && block.start <= offset);
}

function ownerOf(block: CutBlock): string | undefined {
  const heading = namesInBlock({
    ...block,
    text: block.text.split(/\r\n|\n|\r/).find((line) => /^\s*(wall|girder|work)\b/i.test(line)) ?? '',
  });
  return heading.find(({ kinds }) => kinds.includes('wall') || kinds.includes('girder'))?.name;
}
