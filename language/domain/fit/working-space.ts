import type { Layout, Obstruction, Stretch, Wall } from '../model/layout.ts';
import { degrees } from '../model/layout.ts';
import { knownValue } from '../model/reading.ts';
import { recentOnly } from '../recent-only.ts';
import type { Length } from '../units/length.ts';
import { inches, larger, midpoint, minus, nanometres, plus, zero } from '../units/length.ts';
import type { Corner } from './corners.ts';
import { cornersOf, depthOfCorner } from './corners.ts';
import { asked } from './footprint.ts';
import { extentOf } from './thing-words.ts';

/** The part of a wall that the working space in front of an electrical panel takes up. */
export interface WorkingSpace extends Stretch {
  readonly panel: Obstruction;
}

/**
 * Working spaces that a wall has to leave free: in front of its own electrical panels, as wide as the rules ask or as the
 * panel is; and where a panel of the next wall stands at an inside corner, as deep as the rules ask, along this wall.
 */
export function workingSpacesOn(layout: Layout, wall: Wall): readonly WorkingSpace[] {
  const wide = asked(layout.rules, 'working-space-wide');
  if (wide === undefined) return [];
  const own = panelsOn(wall).map((panel) => spaceBefore(panel, wide));
  const deep = asked(layout.rules, 'working-space-deep');
  if (deep === undefined) return own;
  const { left, right } = cornersOf(layout, wall);
  return [
    ...own,
    ...(left ? roundTheCorner(wall, 'left', left, wide, deep) : []),
    ...(right ? roundTheCorner(wall, 'right', right, wide, deep) : []),
  ];
}

interface PlacedPanel extends Stretch {
  readonly thing: Obstruction;
}

const known = recentOnly<Wall, readonly PlacedPanel[]>();

function panelsOn(wall: Wall): readonly PlacedPanel[] {
  const before = known.get(wall);
  if (before) return before;
  const panels = wall.obstructions.flatMap((thing): readonly PlacedPanel[] => {
    const extent = thing.kind === 'electrical-panel' && !thing.remedied ? extentOf(thing) : undefined;
    return extent ? [{ ...extent, thing }] : [];
  });
  known.set(wall, panels);
  return panels;
}

function spaceBefore({ from, to, thing }: PlacedPanel, wide: Length): WorkingSpace {
  const centre = midpoint(from, to);
  const half = nanometres(Math.ceil(larger(wide, minus(to, from)) / 2));
  return { from: minus(centre, half), to: plus(centre, half), panel: thing };
}

/** Old stems are 6 to 8 in thick; an unmeasured one is taken as a foot. */
const UNMEASURED_STEM = inches(12);

function roundTheCorner(
  wall: Wall,
  own: 'left' | 'right',
  corner: Corner,
  wide: Length,
  deep: Length,
): readonly WorkingSpace[] {
  const { neighbour, end, turn } = corner;
  const { length } = wall;
  // At any other angle the two spaces do not meet squarely, and where walls turn away from each other not at all.
  if (turn !== degrees(90) || length === undefined || neighbour.length === undefined) return [];
  const depth = (of: Wall, at: 'left' | 'right', to: Corner): Length => {
    const answer = depthOfCorner(of, at, to);
    return answer.kind === 'depth' ? answer.depth : UNMEASURED_STEM;
  };
  const faceOfThisWall = depth(neighbour, end, { neighbour: wall, end: own, turn });
  const faceOfNeighbour = depth(wall, own, corner);
  const far = neighbour.length;
  return panelsOn(neighbour).flatMap((panel): readonly WorkingSpace[] => {
    const space = spaceBefore(panel, wide);
    const reaches = end === 'left' ? space.from < faceOfThisWall : space.to > minus(far, faceOfThisWall);
    if (!reaches) return [];
    const reach = plus(plus(faceOfNeighbour, deep), knownValue(panel.thing.deep) ?? zero);
    return own === 'left'
      ? [{ from: nanometres(-1), to: reach, panel: panel.thing }]
      : [{ from: minus(length, reach), to: plus(length, nanometres(1)), panel: panel.thing }];
  });
}
