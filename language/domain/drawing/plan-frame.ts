import type { Layout, LengthUnits, Wall } from '../model/layout.ts';
import { knownValue, type Profile, profileAt } from '../model/reading.ts';
import { inches, inMillimetres, type Length } from '../units/length.ts';
import { type PlanAxis, planAxis, type TrueXY } from './plan-axis.ts';
import type { XY } from './scene.ts';
import { type Stem, shapeOf, type WallShape } from './wall-shape.ts';

/** Where the house stands on its sheet. */
export interface PlanFrame {
  readonly layout: Layout;
  readonly units: LengthUnits;
  /** mm on paper of one true mm. */
  readonly paper: number;
  at(point: TrueXY): XY;
}

/** A perimeter wall with its concrete in plan. */
export interface PlanWall {
  readonly wall: Wall;
  readonly axis: PlanAxis;
  readonly shape: WallShape;
  readonly before: PlanAxisWithWall | undefined;
  readonly after: PlanAxisWithWall | undefined;
}
interface PlanAxisWithWall {
  readonly wall: Wall;
  readonly axis: PlanAxis;
}

/** Stand-in for a stem whose thickness nobody measured: drawn as not recorded. */
const STAND_IN_THICKNESS = inMillimetres(inches(8));
/** Walls whose ends lie further apart than this do not meet at a corner. */
const OPEN_CORNER = inMillimetres(inches(6));

export function planWalls(layout: Layout): readonly PlanWall[] {
  const perimeter = layout.walls.filter((wall) => wall.role === 'perimeter');
  const placed = perimeter.map((wall) => ({ wall, axis: planAxis(wall) }));
  return placed.flatMap(({ wall, axis }, index): PlanWall[] => {
    if (!axis) return [];
    const before = placed[(index + placed.length - 1) % placed.length];
    const after = placed[(index + 1) % placed.length];
    return [
      {
        wall,
        axis,
        shape: shapeOf(wall, layout),
        before:
          before?.axis && before.wall !== wall && near(before.axis.to, axis.from)
            ? { wall: before.wall, axis: before.axis }
            : undefined,
        after:
          after?.axis && after.wall !== wall && near(axis.to, after.axis.from)
            ? { wall: after.wall, axis: after.axis }
            : undefined,
      },
    ];
  });
}

/** Walls inside the house that have a place in plan: nothing meets them at a corner. */
export function interiorPlaces(layout: Layout): readonly PlanWall[] {
  return layout.walls.flatMap((wall): PlanWall[] => {
    const axis = wall.role === 'interior' ? planAxis(wall) : undefined;
    return axis ? [{ wall, axis, shape: shapeOf(wall, layout), before: undefined, after: undefined }] : [];
  });
}

function near(a: TrueXY, b: TrueXY): boolean {
  return Math.hypot(a[0] - b[0], a[1] - b[1]) <= OPEN_CORNER;
}

/** True mm from the wall's line to the two faces of its concrete; inwards counts up. */
export interface Faces {
  readonly inner: number;
  readonly outer: number;
  readonly known: boolean;
}

export function facesAt(wall: Wall, stem: Stem | undefined, station: Length): Faces {
  const thick = knownAt(stem?.foundation?.thick, station);
  const depth = thick === undefined ? STAND_IN_THICKNESS : inMillimetres(thick);
  const known = thick !== undefined;
  return wall.face === 'inside' ? { inner: 0, outer: -depth, known } : { inner: depth, outer: 0, known };
}

function knownAt(profile: Profile | undefined, station: Length): Length | undefined {
  return profile && knownValue(profileAt(profile, station));
}

/**
 * A corner of one face: where it crosses the same face of the neighbour, so that the concrete of two walls meets in a mitre.
 * `undefined` where they run on in line.
 */
export function cornerOf(own: PlanAxis, ownOffset: number, other: PlanAxis, otherOffset: number): TrueXY | undefined {
  const turn = own.along[0] * other.along[1] - own.along[1] * other.along[0];
  if (Math.abs(turn) < 0.02) return undefined;
  const a = shifted(own, ownOffset);
  const b = shifted(other, otherOffset);
  const share = ((b[0] - a[0]) * other.along[1] - (b[1] - a[1]) * other.along[0]) / turn;
  const corner: TrueXY = [a[0] + own.along[0] * share, a[1] + own.along[1] * share];
  // A sharp corner would throw its point far away.
  const reach = 4 * (Math.abs(ownOffset) + Math.abs(otherOffset)) + OPEN_CORNER;
  return [own.from, own.to].some((end) => Math.hypot(corner[0] - end[0], corner[1] - end[1]) <= reach)
    ? corner
    : undefined;
}

function shifted(axis: PlanAxis, offset: number): TrueXY {
  return [axis.from[0] + axis.inward[0] * offset, axis.from[1] + axis.inward[1] * offset];
}
