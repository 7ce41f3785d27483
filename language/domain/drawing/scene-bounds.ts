import { textBox } from './lettering.ts';
import type { Box, Group, SceneNode, Shape, XY } from './scene.ts';

/** The box round everything that is drawn; `undefined` for nothing. Strokes count without their width. */
export function boundsOf(nodes: readonly SceneNode[]): Box | undefined {
  const { left, top, right, bottom } = edgesOf(nodes);
  return right < left ? undefined : { x: left, y: top, width: right - left, height: bottom - top };
}

interface Edges {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

/** Of a group that is kept from one drawing to the next they are found once. */
const ofGroups = new WeakMap<Group, Edges>();

function edgesOf(nodes: readonly SceneNode[]): Edges {
  let [left, top, right, bottom] = [
    Number.POSITIVE_INFINITY,
    Number.POSITIVE_INFINITY,
    Number.NEGATIVE_INFINITY,
    Number.NEGATIVE_INFINITY,
  ];
  const take = (x: number, y: number): void => {
    left = Math.min(left, x);
    top = Math.min(top, y);
    right = Math.max(right, x);
    bottom = Math.max(bottom, y);
  };
  for (const node of nodes) {
    if (node.kind !== 'group') {
      for (const [x, y] of extremesOf(node)) take(x, y);
      continue;
    }
    const edges = ofGroups.get(node) ?? edgesOf(node.nodes);
    ofGroups.set(node, edges);
    if (edges.right < edges.left) continue;
    take(edges.left, edges.top);
    take(edges.right, edges.bottom);
  }
  return { left, top, right, bottom };
}

function extremesOf(shape: Shape): readonly XY[] {
  switch (shape.kind) {
    case 'line':
      return [shape.from, shape.to];
    case 'polyline':
      return shape.points;
    case 'rect':
      return [
        [shape.x, shape.y],
        [shape.x + shape.width, shape.y + shape.height],
      ];
    case 'circle':
      return [
        [shape.centre[0] - shape.radius, shape.centre[1] - shape.radius],
        [shape.centre[0] + shape.radius, shape.centre[1] + shape.radius],
      ];
    case 'path':
      return shape.steps.flatMap((step) => (step.to === 'close' ? [] : [step.at]));
    case 'text': {
      const box = textBox(shape);
      return [
        [box.x, box.y],
        [box.x + box.width, box.y + box.height],
      ];
    }
  }
}
