import type { Tie } from '../model/design.ts';
import type { NewAnchor, Wall } from '../model/layout.ts';

/**
 * New work on a wall for which somebody drills into its foundation: the anchors of the sill, and the rods of hold-downs, seen as
 * anchors. A hold-down ties no board down and counts for none, but its hole meets the same pipes, openings and joints.
 */
export function drilledInto(wall: Wall): readonly NewAnchor[] {
  const rods = wall.ties.filter((tie) => tie.kind === 'hold-down').map(asAnchor);
  return rods.length === 0 ? wall.anchors : [...wall.anchors, ...rods];
}

const asAnchor = (tie: Tie): NewAnchor => ({ ...tie, rightAngleDrill: tie.rightAngleDrill ?? false });
