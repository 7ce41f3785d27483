import type { Scene, SceneNode } from '../../language/domain/drawing/scene.ts';
import { shapeOf } from '../../language/domain/drawing/wall-shape.ts';
import type { Layout, Wall } from '../../language/domain/model/layout.ts';
import { inMillimetres } from '../../language/domain/units/length.ts';
import type { StationAxis } from '../../language/protocol/preview.ts';

/** Where stations lie in the elevation of a whole wall: its tape is true to scale and begins at station 0. */
export function axisOf(scene: Scene, wall: Wall, layout: Layout): StationAxis | null {
  const length = inMillimetres(shapeOf(wall, layout).length);
  const tape = tapeIn(scene.nodes);
  return tape && length > 0 ? { zero: tape.x, tape: tape.y, scale: tape.width / length } : null;
}

function tapeIn(nodes: readonly SceneNode[]): { x: number; y: number; width: number } | undefined {
  for (const node of nodes) {
    if (node.kind !== 'group') continue;
    const [first] = node.nodes;
    if (node.role === 'tape' && first?.kind === 'rect') return first;
    const inside = tapeIn(node.nodes);
    if (inside) return inside;
  }
  return undefined;
}
