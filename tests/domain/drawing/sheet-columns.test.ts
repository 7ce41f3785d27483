import { describe, expect, it } from 'vitest';
import type { Box } from '../../../language/domain/drawing/scene.ts';
import { columnAt, columnGrid } from '../../../language/domain/drawing/sheet/columns.ts';
import { pourByWorth } from '../../../language/domain/drawing/sheet/streams.ts';
import { type Block, spacer } from '../../../language/domain/drawing/sheet-lists.ts';

const block = (height: number, again?: Block): Block => ({
  role: 'list',
  height,
  draw: () => [],
  ...(again ? { again } : {}),
});
const column = (x: number, height: number): Box => ({ x, y: 5, width: 100, height });
const list = (count: number, height: number): readonly Block[] =>
  Array.from({ length: count }, (_, index) => (index === 0 ? block(height) : block(height, block(3))));

describe('lists poured into columns', () => {
  it('go on in the next column under their heading, and what finds no room comes back in order', () => {
    const stream = { blocks: list(9, 10), worth: 1 };
    const { placed, rest } = pourByWorth([stream], [column(0, 35), column(200, 35)]);
    expect(placed.map(({ x, y, block: { height } }) => [x, y, height])).toEqual([
      [0, 5, 10],
      [0, 15, 10],
      [0, 25, 10],
      [200, 5, 13],
      [200, 18, 10],
      [200, 28, 10],
    ]);
    expect(rest).toEqual(stream.blocks.slice(6));
  });

  it('stand whole in the column that they prefer, and else wherever there is room; what is worth more comes first', () => {
    const [drill, legend, rows] = [list(1, 30), list(2, 10), list(3, 10)];
    const { placed, rest } = pourByWorth(
      [
        { blocks: rows, prefer: 0, worth: 1 },
        { blocks: legend, prefer: 0, worth: 2 },
        { blocks: drill, prefer: 'last', worth: 3 },
      ],
      [column(0, 30), column(200, 40)],
    );
    const whereIs = (blocks: readonly Block[]): readonly number[] =>
      placed.flatMap(({ block: each, x }) =>
        blocks.some((one) => each === one || each.height === one.height + 3) ? [x] : [],
      );
    expect(whereIs(drill)).toContain(200);
    expect(placed.filter(({ x }) => x === 0).length).toBe(3);
    expect(rest.length).toBe(2);
  });

  it('leave no blank room at the top of a column, and bring no heading for it', () => {
    const blank: Block = { ...spacer('list'), again: block(3) };
    const { placed, rest } = pourByWorth(
      [
        { blocks: [block(30), blank], worth: 2 },
        { blocks: list(1, 10), worth: 1 },
      ],
      [column(0, 32), column(200, 32)],
    );
    expect(placed.map(({ x, block: { height } }) => [x, height])).toEqual([
      [0, 30],
      [200, 10],
    ]);
    expect(rest).toEqual([]);
  });

  it('end above what stands in the corner of the sheet', () => {
    const corner = { x: 300, y: 80, width: 131.6, height: 104 };
    expect(columnAt(310, 120, 10, 180, corner)).toEqual({ x: 310, y: 10, width: 120, height: 66 });
    expect(columnAt(10, 120, 10, 180, corner)).toEqual({ x: 10, y: 10, width: 120, height: 170 });
    const { width, lefts } = columnGrid({ x: 25, width: 569.6 });
    expect(lefts.length).toBe(4);
    expect((lefts[3] ?? 0) + width).toBeCloseTo(25 + 569.6, 9);
  });
});
