import type { GirderFacts, PointFacts, WallFacts } from './facts.ts';
import { FOOT, INCH } from './facts.ts';
import type { HouseFrame } from './foundation.ts';
import { inches } from './foundation.ts';
import type { Outline } from './outline.ts';
import type { Random } from './random.ts';

/** Which way the floor's joists run: into the walls of one direction, along those of the other. */
export function joistsOfWall(
  random: Random,
  frame: HouseFrame,
  heading: number,
  joistsRunEast: boolean,
): WallFacts['joists'] {
  const runsNorth = heading % 180 === 0;
  const into = heading % 90 !== 0 || runsNorth === joistsRunEast;
  return {
    run: into ? 'into' : 'parallel',
    first: into ? inches(frame, random.pick([0, 1, 6, 9])) : 0,
    spaced: inches(frame, random.pick([12, 16, 16, 24])),
  };
}

/** A beam through the middle of the house, with posts at even spacing from its first point. */
export function girdersOf(
  random: Random,
  frame: HouseFrame,
  outline: Outline,
  joistsRunEast: boolean,
): readonly GirderFacts[] {
  const { from, to } = outline.core;
  const middle = (a: number, b: number): number => inches(frame, Math.round((a + b) / 2 / INCH));
  const ends: readonly [PointFacts, PointFacts] = joistsRunEast
    ? [
        { x: middle(from.x, to.x), y: from.y },
        { x: middle(from.x, to.x), y: to.y },
      ]
    : [
        { x: from.x, y: middle(from.y, to.y) },
        { x: to.x, y: middle(from.y, to.y) },
      ];
  const length = Math.abs(ends[1].x - ends[0].x) + Math.abs(ends[1].y - ends[0].y);
  if (length < 6 * FOOT || random.chance(0.3)) return [];
  const count = Math.max(1, Math.floor(length / (6 * FOOT)) - 1);
  const spacing = inches(frame, Math.floor(length / (count + 1) / INCH));
  const posts = Array.from({ length: count }, (_, index) => ({
    name: `P${index + 1}`,
    station: (index + 1) * spacing,
    size: random.pick<'4x4' | '6x6'>(['4x4', '6x6']),
  }));
  return [{ name: 'GD', from: ends[0], to: ends[1], posts }];
}
