import { describe, expect, it } from 'vitest';
import type { SceneNode } from '../../../language/domain/drawing/scene.ts';
import {
  bolt,
  boltPlan,
  foundAnchor,
  foundAnchorPlan,
  foundBlock,
  holdDownPlan,
  type MarkState,
  markFrame,
  missingBlock,
  omittedBox,
  platePlan,
  sidePlate,
} from '../../../language/domain/drawing/symbols.ts';
import { strapPlan } from '../../../language/domain/drawing/symbols-in-plan.ts';
import { newWood, removedWood } from '../../../language/domain/drawing/symbols-of-new-work.ts';
import { difference, greyPicture } from './grey-raster.ts';

const found = { credit: 'none', rust: 'none', bent: false, loose: false, removed: false } as const;
const states = {
  new: { proposed: false, state: 'planned' },
  proposed: { proposed: true, state: 'planned' },
  omitted: { proposed: false, state: 'omitted' },
} as const satisfies Record<string, MarkState>;

const box = { x: -3.5, y: -3, width: 7, height: 6 };
const bar = (half: number) =>
  [
    [-4, -half],
    [4, -half],
    [4, half],
    [-4, half],
  ] as const;
const inStates = (draw: (state: MarkState) => readonly SceneNode[]): Readonly<Record<string, readonly SceneNode[]>> =>
  Object.fromEntries(Object.entries(states).map(([name, state]) => [name, draw(state)]));

const signs: Readonly<Record<string, Readonly<Record<string, readonly SceneNode[]>>>> = {
  'bolts in elevation': {
    found: [foundAnchor({ x: 0, sillTop: -1, foot: 4.5, footKnown: true }, found)],
    ...inStates((state) => [bolt({ x: 0, sillTop: -1, foot: 4.5, footKnown: true, washer: 3.2 }, state)]),
  },
  'plates in elevation': inStates((state) => [
    sidePlate({ body: box, step: -1.5, concreteHoles: [], sillHoles: [] }, state),
  ]),
  'bolts in plan': {
    found: [foundAnchorPlan([0, 0], found)],
    ...inStates((state) => [boltPlan([0, 0], state)]),
  },
  'plates in plan': inStates((state) => [platePlan(bar(0.55), state)]),
  'hold-downs in plan': inStates((state) => [holdDownPlan([0, 0], state)]),
  'straps in plan': inStates((state) => [strapPlan(bar(0.45), state)]),
  'frames of marks': inStates((state) => markFrame('F-1', [0, 0], { width: 8, height: 4.6 }, 'square', state, 'mark')),
  blocks: {
    found: [foundBlock(box)],
    new: [newWood(box, false, 'block-new')],
    proposed: [newWood(box, true, 'block-proposed')],
    missing: [missingBlock(box)],
    removed: [removedWood(box)],
    omitted: [omittedBox(box)],
  },
};

/** Of the ink of two signs, what must differ to tell them apart at arm's length: common practice, no source. */
const LEAST_DIFFERENCE = 0.2;

describe('on a grey copy', () => {
  it.each(Object.entries(signs))('%s tell found, new, proposed and omitted apart', (_, looks) => {
    const pictures = Object.entries(looks).map(([name, nodes]) => ({ name, picture: greyPicture(nodes, 6) }));
    expect(pictures.length).toBeGreaterThanOrEqual(3);
    pictures.forEach((one, index) => {
      for (const other of pictures.slice(index + 1))
        expect(difference(one.picture, other.picture), `${one.name} and ${other.name}`).toBeGreaterThan(
          LEAST_DIFFERENCE,
        );
    });
  });

  it('a sign differs from itself nowhere, nor from itself moved by half a millimetre', () => {
    const [at, moved] = [0, 0.4].map((x) => greyPicture([boltPlan([x, 0], states.new)], 6));
    if (!at || !moved) throw new Error('no picture');
    expect(difference(at, at)).toBe(0);
    expect(difference(at, moved)).toBeLessThan(0.02);
  });
});
