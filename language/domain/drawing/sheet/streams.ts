import type { Box } from '../scene.ts';
import type { Block } from '../sheet-lists.ts';
import { stacked } from '../sheet-lists.ts';
import type { Poured } from './columns.ts';

/** Lists of one kind, in order. */
export interface Stream {
  readonly blocks: readonly Block[];
  /** The column in which it stands if it fits there whole; else wherever there is room. */
  readonly prefer?: number | 'last';
  /** What is worth more finds its room first. */
  readonly worth: number;
}

/**
 * Streams into columns, the worthiest first: each whole in its own column where it can, else down one column and the next from the
 * first with room for its start. A heading stands again over what is torn from it. What found no room comes back in the order of
 * the streams.
 */
export function pourByWorth(streams: readonly Stream[], columns: readonly Box[]): Poured {
  const used = columns.map(() => 0);
  const placed: Poured['placed'][number][] = [];
  const rests = new Map<Stream, readonly Block[]>();
  const roomIn = (index: number): number => (columns[index]?.height ?? 0) - (used[index] ?? 0) + 1e-6;
  const put = (block: Block, index: number): void => {
    const column = columns[index];
    if (!column) return;
    placed.push({ block, x: column.x, y: column.y + (used[index] ?? 0) });
    used[index] = (used[index] ?? 0) + block.height;
  };
  for (const stream of [...streams].sort((a, b) => b.worth - a.worth)) {
    const { blocks, prefer } = stream;
    const own = prefer === 'last' ? columns.length - 1 : prefer;
    const total = blocks.reduce((sum, { height }) => sum + height, 0);
    if (own !== undefined && roomIn(own) >= total) {
      for (const block of blocks) put(block, own);
      continue;
    }
    let at = 0;
    let fresh = true;
    for (const [number, block] of blocks.entries()) {
      // Room between lists is wanted only where something stands above it.
      if (block.blank && (fresh || roomIn(at) < block.height)) continue;
      let whole = block;
      for (; at < columns.length; at++, fresh = true) {
        whole = fresh && block.again ? stacked(block.again, block) : block;
        if (roomIn(at) >= whole.height) break;
      }
      if (at >= columns.length) {
        rests.set(stream, blocks.slice(number));
        break;
      }
      put(whole, at);
      fresh = false;
    }
  }
  return { placed, rest: streams.flatMap((stream) => rests.get(stream) ?? []) };
}
