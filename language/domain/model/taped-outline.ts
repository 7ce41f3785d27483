import { zero } from '../units/length.ts';
import type { Layout, Wall } from './layout.ts';
import { degrees } from './layout.ts';
import type { TraverseInput } from './outline.ts';
import { knownValue } from './reading.ts';

/** The perimeter as it was taped, or as its lengths were adjusted, ready to be walked round. */
export function outlineOf(layout: Layout, lengths: 'taped' | 'adjusted'): TraverseInput {
  const walls = perimeterOf(layout);
  return {
    start: walls[0]?.plan?.from ?? { x: zero, y: zero },
    facing: facingOf(walls[0]),
    walls: walls.map((wall) => ({ length: lengthOf(wall, lengths), turn: wall.turn })),
  };
}

export function perimeterOf({ walls }: Pick<Layout, 'walls'>): readonly Wall[] {
  const known = perimeters.get(walls);
  if (known) return known;
  const perimeter = walls.filter((wall) => wall.role === 'perimeter');
  perimeters.set(walls, perimeter);
  return perimeter;
}
const perimeters = new WeakMap<readonly Wall[], readonly Wall[]>();

function lengthOf(wall: Wall, lengths: 'taped' | 'adjusted'): Wall['length'] {
  const taped = knownValue(wall.taped);
  const adjusted = knownValue(wall.adjusted);
  return lengths === 'taped' ? (taped ?? adjusted) : (adjusted ?? taped);
}

/**
 * Whether the walls go all the way round: their turns add up to a full circle. Until then somebody is still writing them down.
 */
export function goesRound(layout: Layout): boolean {
  const walls = perimeterOf(layout);
  const turned = walls.reduce((sum, wall) => sum + wall.turn, 0);
  return walls.length > 2 && Math.abs(turned) === degrees(360);
}

/** What one looks at from inside, facing the first wall: the wall runs to the right of it. */
function facingOf(wall: Wall | undefined): TraverseInput['facing'] {
  if (!wall?.plan) return degrees(0);
  const { from, to } = wall.plan;
  const heading = (Math.atan2(to.x - from.x, to.y - from.y) * 180) / Math.PI;
  return degrees((heading - 90 + 360) % 360);
}
