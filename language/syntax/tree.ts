import type { PropertyPart, WordPart } from './grammar-parts.ts';

/** A node of the tree that reading gives; `generated/ast.ts` says what each type of node has. */
export interface TreeNode {
  $type: string;
  /** UTF-16 offsets from the start of the block; `$end` is exclusive. */
  $start: number;
  $end: number;
  /** What stands in it, in the order of the text. */
  $parts: TreePart[];
}

export interface TreePart {
  readonly start: number;
  readonly end: number;
  /** Where it was put; `undefined` for a word that only has its place. */
  readonly property: PropertyPart | undefined;
  /** The keyword that it is, as the grammar spells it. */
  readonly word: WordPart | undefined;
  /** `undefined` for a word, a text or a number. */
  readonly node: TreeNode | undefined;
}

/** Where a property was written: all its places together need an index, which counts from 0. */
export function placeOf(node: TreeNode, property: string, index = 0): TreePart | undefined {
  let seen = 0;
  let last: TreePart | undefined;
  for (const part of node.$parts) {
    if (part.property?.property !== property) continue;
    last = part;
    if (seen === index) return part;
    seen += 1;
  }
  return last;
}

/** A node and all that are in it, in the order of the text. */
export function* nodesOf(node: TreeNode): Generator<TreeNode> {
  yield node;
  for (const part of node.$parts) if (part.node) yield* nodesOf(part.node);
}

/** Every word, text and number in a node, in the order of the text. */
export function* leavesOf(node: TreeNode): Generator<TreePart> {
  for (const part of node.$parts) {
    if (part.node) yield* leavesOf(part.node);
    else yield part;
  }
}
