import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { type CutBlock, cutBlocks } from '../../language/syntax/cut.ts';
import { type ParsedBlock, parseBlock } from '../../language/syntax/parse.ts';

const root = join(import.meta.dirname, '../..');

export interface Sample {
  readonly path: string;
  readonly text: string;
}

/** Every sheet in the repository that is meant to be read without a problem. */
export const samples: readonly Sample[] = ['tests/syntax/samples', 'examples', 'language/library'].flatMap((folder) =>
  readdirSync(join(root, folder), { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith('.sill'))
    .sort()
    .map((name) => ({ path: join(folder, name), text: readFileSync(join(root, folder, name), 'utf8') })),
);

export interface ReadBlock extends ParsedBlock {
  readonly cut: CutBlock;
}

export function readSheet(text: string): readonly ReadBlock[] {
  return cutBlocks(text).map((cut) => ({ cut, ...parseBlock(cut) }));
}

/** `code "text at fault" message` of every problem, in the order of the text. */
export function problemsOf(text: string): readonly string[] {
  return readSheet(text).flatMap(({ cut, problems }) =>
    problems.map(({ code, start, end, message }) => `${code} ${JSON.stringify(cut.text.slice(start, end))} ${message}`),
  );
}

/** A tree as plain data, without places in the text. */
export function plain(node: unknown): unknown {
  if (Array.isArray(node)) return node.map(plain);
  if (typeof node !== 'object' || node === null) return node;
  return Object.fromEntries(
    Object.entries(node)
      .filter(([key]) => key === '$type' || !key.startsWith('$'))
      .map(([key, value]) => [key, plain(value)] as const)
      .sort(([a], [b]) => (a < b ? -1 : 1)),
  );
}

/** A small pseudo-random generator (mulberry32), so that every run of a trial is the same. */
export function randomFrom(seed: number): { below(limit: number): number; pick<T>(items: readonly T[]): T } {
  let state = seed >>> 0;
  const next = (): number => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
  const below = (limit: number): number => Math.floor(next() * limit);
  return {
    below,
    pick(items) {
      const item = items[below(items.length)];
      if (item === undefined) throw new Error('nothing to pick from');
      return item;
    },
  };
}
