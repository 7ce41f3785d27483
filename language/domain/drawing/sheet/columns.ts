import { type Box, type Group, type GroupRole, group, type SceneNode } from '../scene.ts';
import type { Block } from '../sheet-lists.ts';

/** Columns of lists on a sheet: all as wide as each other, so that a block that is torn goes on in any of them. */

/** Narrower ones tear too many lines. */
const LEAST_COLUMN = 121;
export const COLUMN_GAP = 8;

export interface ColumnGrid {
  readonly width: number;
  /** Left edges. */
  readonly lefts: readonly number[];
}

export function columnGrid({ x, width }: Pick<Box, 'x' | 'width'>): ColumnGrid {
  const count = Math.max(1, Math.floor((width + COLUMN_GAP) / (LEAST_COLUMN + COLUMN_GAP)));
  const each = (width - (count - 1) * COLUMN_GAP) / count;
  return { width: each, lefts: Array.from({ length: count }, (_, index) => x + index * (each + COLUMN_GAP)) };
}

/** From the top of a column to the first thing below it. */
export function columnAt(left: number, width: number, top: number, bottom: number, obstacle: Box): Box {
  const meets = left < obstacle.x + obstacle.width && left + width > obstacle.x - 1;
  const end = meets ? Math.min(bottom, obstacle.y - 4) : bottom;
  return { x: left, y: top, width, height: Math.max(0, end - top) };
}

export interface Poured {
  readonly placed: readonly { readonly block: Block; readonly x: number; readonly y: number }[];
  /** What found no room, in order. */
  readonly rest: readonly Block[];
}

/** One group for each role, in the order in which the roles come up. */
export function pouredNodes({ placed }: Poured): readonly Group[] {
  const drawn = new Map<GroupRole, SceneNode[]>();
  for (const { block, x, y } of placed) {
    const nodes = drawn.get(block.role) ?? [];
    nodes.push(...block.draw([x, y]));
    drawn.set(block.role, nodes);
  }
  return [...drawn].map(([role, members]) => group(members, { role, ...(role === 'list' ? { name: 'lists' } : {}) }));
}
