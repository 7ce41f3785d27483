import { moved } from '../moved.ts';
import type { SceneNode } from '../scene.ts';
import { type Block, underHeading } from '../sheet-lists.ts';

/** A drawing of its own size, from its upper left corner. */
export interface SmallDrawing {
  readonly width: number;
  readonly height: number;
  readonly nodes: readonly SceneNode[];
}

/** Small drawings among the lists, at their own scale, side by side where two fit: a row is a block. */
export function drawingBlocks(title: string, drawings: readonly SmallDrawing[], width: number): readonly Block[] {
  const rows: SmallDrawing[][] = [];
  let used = 0;
  for (const drawing of drawings) {
    const row = rows[rows.length - 1];
    if (row && used + BETWEEN + drawing.width <= width) {
      row.push(drawing);
      used += BETWEEN + drawing.width;
    } else {
      rows.push([drawing]);
      used = drawing.width;
    }
  }
  return underHeading(
    title,
    width,
    rows.map(
      (row): Block => ({
        role: 'list',
        height: Math.max(...row.map(({ height }) => height)) + BETWEEN,
        draw: ([x, y]) => {
          let left = x;
          return row.flatMap((drawing) => {
            const nodes = moved(drawing.nodes, [left, y]);
            left += drawing.width + BETWEEN;
            return nodes;
          });
        },
      }),
    ),
  );
}

const BETWEEN = 4;
