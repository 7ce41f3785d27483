import { describe, expect, it } from 'vitest';
import { isSameGroup, isSameShape } from '../../../language/domain/drawing/same-shape.ts';
import type { Group, PathStep, Shape, Stroke } from '../../../language/domain/drawing/scene.ts';

type ShapeOf<Kind extends Shape['kind']> = Extract<Shape, { readonly kind: Kind }>;
/** Two values of each field that there is, so that a new one can't be forgotten. */
type Pairs<Value> = { readonly [Field in Exclude<keyof Value, 'kind'>]-?: readonly [Value[Field], Value[Field]] };

const thin: Required<Stroke> = { colour: 'ink', pen: 'P1', line: 'hidden', ends: 'round' };
const strokes: Pairs<Stroke> = {
  colour: ['ink', 'wood'],
  pen: ['P1', 'P2'],
  line: ['hidden', undefined],
  ends: ['round', undefined],
};
const stroke = [thin, { ...thin, pen: 'P3' }] as const;
const point = [
  [1, 2],
  [1, 3],
] as const;
const fill = ['conc', undefined] as const;
const arc: PathStep = { to: 'arc', at: [1, 2], radius: 3, clockwise: true };

const shapes: { readonly [Kind in Shape['kind']]: Pairs<ShapeOf<Kind>> } = {
  line: { from: point, to: point, stroke },
  polyline: { points: [[point[0]], [point[1]]], closed: [true, false], stroke, fill },
  rect: { x: [1, 2], y: [1, 2], width: [1, 2], height: [1, 2], rounded: [1, undefined], stroke, fill },
  circle: { centre: point, radius: [1, 2], stroke, fill },
  path: { steps: [[arc], [{ to: 'close' }]], stroke, fill },
  text: {
    ...{ text: ['a', 'b'], at: point, anchor: ['start', 'end'], size: ['label', 'detail'], capHeight: [1, undefined] },
    ...{ face: ['regular', 'narrow'], colour: ['ink', 'wood'], heavy: [true, false], halo: [true, undefined] },
    ...{ struck: [true, undefined], turned: [90, undefined], width: [1, 2] },
  },
};
const groups: Pairs<Omit<Group, 'nodes'>> = {
  thing: ['wall:A', 'wall:B'],
  role: ['wall', 'thing'],
  name: ['a', 'b'],
  hidden: [true, undefined],
  symbol: ['joint', 'split'],
};

function firsts(pairs: Readonly<Record<string, readonly [unknown, unknown]>>): Record<string, unknown> {
  return Object.fromEntries(Object.entries(pairs).map(([name, [one]]) => [name, one]));
}

describe('two shapes look the same', () => {
  it.each(Object.entries(shapes))('only where every field of a %s is the same', (kind, pairs) => {
    const one = { kind, ...firsts(pairs) } as unknown as Shape;
    expect(isSameShape(one, structuredClone(one))).toBe(true);
    for (const [name, [, other]] of Object.entries(pairs)) {
      expect(isSameShape(one, { ...one, [name]: other }), name).toBe(false);
      expect(isSameShape({ ...one, [name]: other } as Shape, one), name).toBe(false);
    }
  });

  it('only where both are drawn with the same stroke', () => {
    const drawnWith = (with_: Stroke): Shape => ({ kind: 'line', from: [0, 0], to: [1, 1], stroke: with_ });
    expect(isSameShape(drawnWith(thin), drawnWith({ ...thin }))).toBe(true);
    for (const [name, [, other]] of Object.entries(strokes)) {
      expect(isSameShape(drawnWith(thin), drawnWith({ ...thin, [name]: other })), name).toBe(false);
    }
  });

  it('only where they take the same steps', () => {
    const path = (...steps: readonly PathStep[]): Shape => ({ kind: 'path', steps, stroke: thin });
    const move: PathStep = { to: 'move', at: [1, 2] };
    expect(isSameShape(path(move, arc), path({ ...move }, { ...arc }))).toBe(true);
    const others: readonly PathStep[] = [
      ...[{ ...arc, radius: 4 }, { ...arc, clockwise: false }, { ...arc, at: [2, 2] } as const],
      ...[move, { to: 'line', at: [1, 2] } as const, { to: 'close' } as const],
    ];
    for (const other of others) expect(isSameShape(path(arc), path(other)), JSON.stringify(other)).toBe(false);
    expect(isSameShape(path(move), path({ to: 'line', at: [1, 2] }))).toBe(false);
    expect(isSameShape(path(arc), path(arc, { to: 'close' }))).toBe(false);
  });

  it('only where their kinds are the same', () => {
    const kinds = Object.entries(shapes).map(([kind, pairs]) => ({ kind, ...firsts(pairs) }) as unknown as Shape);
    for (const one of kinds) for (const other of kinds) expect(isSameShape(one, other)).toBe(one === other);
  });
});

describe('two groups', () => {
  it('say the same of themselves only where every field but what is in them is the same', () => {
    const one = { kind: 'group', nodes: [], ...firsts(groups) } as unknown as Group;
    expect(isSameGroup(one, { ...one, nodes: [{ kind: 'group', nodes: [] }] })).toBe(true);
    for (const [name, [, other]] of Object.entries(groups)) {
      expect(isSameGroup(one, { ...one, [name]: other }), name).toBe(false);
    }
  });
});
