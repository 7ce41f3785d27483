import { describe, expect, it } from 'vitest';
import { clipped } from '../../../language/domain/drawing/clipped.ts';
import { lettered } from '../../../language/domain/drawing/lettering.ts';
import { moved } from '../../../language/domain/drawing/moved.ts';
import { circle, group, line, polygon, rect, strokes } from '../../../language/domain/drawing/scene.ts';
import { boundsOf } from '../../../language/domain/drawing/scene-bounds.ts';

const strip = { from: 10, to: 20 };
const pen = { colour: 'ink', pen: 'P3' } as const;

describe('a drawing that is cut to a strip', () => {
  it('keeps what lies inside as it is, and nothing of what lies outside', () => {
    const inside = line([11, 0], [19, 5], pen);
    expect(clipped([inside, line([0, 0], [9, 9], pen), circle([30, 0], 2, { stroke: pen })], strip)).toEqual([inside]);
  });

  it('cuts lines and strokes where they cross its edges', () => {
    expect(clipped([line([0, 0], [20, 20], pen)], strip)).toEqual([line([10, 10], [20, 20], pen)]);
    const hatch = strokes(
      [
        [
          [5, 0],
          [15, 10],
        ],
        [
          [25, 0],
          [15, 0],
        ],
      ],
      pen,
    );
    expect(clipped([hatch], strip)).toEqual([
      strokes(
        [
          [
            [10, 5],
            [15, 10],
          ],
          [
            [20, 0],
            [15, 0],
          ],
        ],
        pen,
      ),
    ]);
  });

  it('fills an area up to the edge and draws no outline there: the thing goes on', () => {
    const [fill, ...outline] = clipped(
      [rect({ x: 5, y: 0, width: 10, height: 4 }, { fill: 'wood', stroke: pen })],
      strip,
    );
    expect(boundsOf(fill ? [fill] : [])).toEqual({ x: 10, y: 0, width: 5, height: 4 });
    expect(fill).not.toHaveProperty('stroke');
    const points = outline.flatMap((node) => (node.kind === 'polyline' ? [node] : []));
    expect(points.map(({ closed, points: each }) => [closed, each])).toEqual([
      [
        false,
        [
          [10, 0],
          [15, 0],
          [15, 4],
          [10, 4],
        ],
      ],
    ]);
  });

  it('leaves the slanting edge of an area where it was', () => {
    const triangle = polygon(
      [
        [10, 0],
        [30, 0],
        [30, 20],
      ],
      { fill: 'conc' },
    );
    const [cut] = clipped([triangle], strip);
    const corners = cut?.kind === 'polyline' && cut.closed ? cut.points : [];
    expect(corners.length).toBe(3);
    expect(corners).toEqual(
      expect.arrayContaining([
        [10, 0],
        [20, 0],
        [20, 10],
      ]),
    );
  });

  it('never cuts a word: it stays whole or goes; groups keep what they say of their thing', () => {
    const word = lettered('G', [12, 0], { size: 'label' });
    const across = lettered('across the edge', [15, 0], { size: 'label' });
    const kept = clipped([group([word, across], { thing: 'F/vent:V1', name: 'vent' }), group([across])], strip);
    expect(kept).toEqual([group([word], { thing: 'F/vent:V1', name: 'vent' })]);
  });

  it('goes on without end where it is not cut', () => {
    const far = line([0, 0], [9e6, 0], pen);
    expect(clipped([far], { from: Number.NEGATIVE_INFINITY, to: Number.POSITIVE_INFINITY })).toEqual([far]);
    expect(clipped([far], { from: 5, to: Number.POSITIVE_INFINITY })).toEqual([line([5, 0], [9e6, 0], pen)]);
  });

  it('is the same drawing when it is moved', () => {
    const nodes = [
      group([rect({ x: 1, y: 2, width: 3, height: 4 }, { fill: 'wood' }), lettered('x', [1, 1], { size: 'label' })]),
    ];
    expect(boundsOf(moved(nodes, [10, -2]))).toEqual(expect.objectContaining({ x: 11, width: boundsOf(nodes)?.width }));
    expect(moved(moved(nodes, [3, 4]), [-3, -4])).toEqual(nodes);
  });
});
