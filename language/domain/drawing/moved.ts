import type { PathStep, SceneNode, XY } from './scene.ts';

/** The same drawing elsewhere on its paper. */
export function moved(nodes: readonly SceneNode[], [dx, dy]: XY): readonly SceneNode[] {
  if (dx === 0 && dy === 0) return nodes;
  const by = ([x, y]: XY): XY => [x + dx, y + dy];
  const step = (each: PathStep): PathStep => (each.to === 'close' ? each : { ...each, at: by(each.at) });
  const elsewhere = (node: SceneNode): SceneNode => {
    switch (node.kind) {
      case 'group':
        return { ...node, nodes: moved(node.nodes, [dx, dy]) };
      case 'line':
        return { ...node, from: by(node.from), to: by(node.to) };
      case 'polyline':
        return { ...node, points: node.points.map(by) };
      case 'rect':
        return { ...node, x: node.x + dx, y: node.y + dy };
      case 'circle':
        return { ...node, centre: by(node.centre) };
      case 'path':
        return { ...node, steps: node.steps.map(step) };
      case 'text':
        return { ...node, at: by(node.at) };
    }
  };
  return nodes.map(elsewhere);
}
