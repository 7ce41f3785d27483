import { textBox } from './lettering.ts';
import { type Box, type SceneNode, type Shape, walkScene, type XY } from './scene.ts';

/** The box round everything that is drawn; `undefined` for nothing. Strokes count without their width. */
export function boundsOf(nodes: readonly SceneNode[]): Box | undefined {
  let [left, top, right, bottom] = [
    Number.POSITIVE_INFINITY,
    Number.POSITIVE_INFINITY,
    Number.NEGATIVE_INFINITY,
    Number.NEGATIVE_INFINITY,
  ];
  for (const { node } of walkScene(nodes)) {
    if (node.kind === 'group') continue;
    for (const [x, y] of extremesOf(node)) {
      left = Math.min(left, x);
      top = Math.min(top, y);
      right = Math.max(right, x);
      bottom = Math.max(bottom, y);
    }
  }
  return right < left ? undefined : { x: left, y: top, width: right - left, height: bottom - top };
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
