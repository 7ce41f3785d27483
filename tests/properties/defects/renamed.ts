import type { Layout } from '../../../language/domain/model/layout.ts';
import { lexBlock } from '../../../language/syntax/lex-block.ts';

/** New names for old ones; names compare without regard to case. */
export type Names = ReadonlyMap<string, string>;

/**
 * A new name for every wall, board, thing, mark, girder, post and old anchor of a layout, and for what is given besides. They sort
 * otherwise than the old ones, so that nothing can hang on the order of names.
 */
export function newNames(layout: Layout, texts: readonly string[], besides: readonly string[]): Names {
  const names = new Set<string>(besides);
  // Boards without a name, and those that replace others, get theirs from the tool.
  const written = new Set(texts.flatMap((text) => lexBlock(text).tokens.map(({ image }) => image.toLowerCase())));
  const add = (name: string | undefined): void => {
    if (name !== undefined && written.has(name.toLowerCase())) names.add(name);
  };
  for (const wall of layout.walls) {
    add(wall.name);
    const lists = [
      wall.pieces,
      wall.obstructions,
      wall.foundAnchors,
      wall.anchors,
      wall.panels,
      wall.angles,
      wall.ties,
    ];
    for (const { name } of lists.flat()) add(name);
  }
  for (const girder of layout.girders) {
    add(girder.name);
    for (const post of girder.posts) {
      add(post.name);
      for (const { name } of post.hardware) add(name);
    }
  }
  const sorted = [...names].sort();
  return new Map(sorted.map((name, index) => [name.toLowerCase(), `n${sorted.length - index}q${(index * 37) % 100}`]));
}

/** The text with every name changed where it stands as a name: not in quotes, not in comments, not the `D` of a site class. */
export function renamed(text: string, names: Names): string {
  return text
    .split(/(?=^(?:seismic|weights|house|typical)\b)|(?<=\n)(?=\S)/m)
    .map((block) =>
      /^(?:seismic|weights|house|typical|use|prices)\b/.test(block) ? block : renamedBlock(block, names),
    )
    .join('');
}

function renamedBlock(block: string, names: Names): string {
  let written = '';
  let done = 0;
  for (const { image, start } of lexBlock(block).tokens) {
    const now = newName(image, names);
    if (now === undefined) continue;
    written += block.slice(done, start) + now;
    done = start + image.length;
  }
  return written + block.slice(done);
}

/** `F.X4`: the wall and the thing on it. */
export function newName(image: string, names: Names): string | undefined {
  const whole = names.get(image.toLowerCase());
  if (whole !== undefined || !image.includes('.')) return whole;
  const parts = image.split('.').map((part) => names.get(part.toLowerCase()));
  return parts.every((part) => part !== undefined) ? parts.join('.') : undefined;
}
