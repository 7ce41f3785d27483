import type { AstNode, Grammar, Mutable } from 'langium';

/**
 * The grammar out of the text that the generator wrote. The library's own reader first builds all that a language can have,
 * workspace and linker included; reading needs none of it.
 */
export function grammarFromJson(text: string): Grammar {
  const root = JSON.parse(text) as Grammar;
  link(root, root);
  return root;
}

/** Tells each node where it hangs, and puts the node itself in place of a path to it. */
function link(node: Mutable<AstNode>, root: Grammar): void {
  for (const [property, value] of Object.entries(node)) {
    const items: readonly unknown[] = Array.isArray(value) ? value : [value];
    for (const [index, item] of items.entries()) {
      if (isReference(item)) {
        item.ref = nodeAt(root, item.$ref);
        item.$refText = 'name' in item.ref ? String(item.ref.name) : '';
      } else if (isNode(item)) {
        link(item, root);
        item.$container = node;
        item.$containerProperty = property;
        if (Array.isArray(value)) item.$containerIndex = index;
      }
    }
  }
}

/** `#/rules@3/definition`. */
function nodeAt(root: Grammar, path: string): AstNode {
  let node: unknown = root;
  for (const step of path.replace(/^#\//, '').split('/')) {
    const [property = '', index] = step.split('@');
    const held: unknown = isNode(node) ? (node as unknown as Readonly<Record<string, unknown>>)[property] : undefined;
    node = index === undefined ? held : Array.isArray(held) ? held[Number(index)] : undefined;
  }
  if (!isNode(node)) throw new Error(`the generated grammar has nothing at ${path}`);
  return node;
}

function isReference(value: unknown): value is { $ref: string; $refText: string; ref: AstNode } {
  return typeof value === 'object' && value !== null && '$ref' in value && typeof value.$ref === 'string';
}

function isNode(value: unknown): value is Mutable<AstNode> {
  return typeof value === 'object' && value !== null && '$type' in value;
}
