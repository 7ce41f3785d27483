import type { Point, Space, Wall } from '../model/layout.ts';
import { inMillimetres, type Length } from '../units/length.ts';
import { type Compass, compassOf } from './spoken.ts';

/** A wall in plan, in true mm, x east and y north: its line on the face that the title block names, and which way inside lies. */
export interface PlanAxis {
  readonly from: TrueXY;
  readonly to: TrueXY;
  /** Unit vector along the wall, from station 0. */
  readonly along: TrueXY;
  /** Unit vector into the house: to the right of whoever walks from station 0. */
  readonly inward: TrueXY;
  readonly length: number;
  /** Where a station stands, `inside` mm further in than the wall's line. */
  at(station: Length, inside?: number): TrueXY;
}
export type TrueXY = readonly [x: number, y: number];

/** `undefined` where the wall has no place in plan, or no length there. */
export function planAxis(wall: Wall): PlanAxis | undefined {
  if (!wall.plan) return undefined;
  const from = trueXY(wall.plan.from);
  const to = trueXY(wall.plan.to);
  const length = Math.hypot(to[0] - from[0], to[1] - from[1]);
  if (length === 0) return undefined;
  const along: TrueXY = [(to[0] - from[0]) / length, (to[1] - from[1]) / length];
  const inward: TrueXY = [along[1], -along[0]];
  // Stations are tied to the taped wall, the plan to the adjusted one: the few sixteenths are spread along it.
  const stretch = wall.length && wall.length > 0 ? length / inMillimetres(wall.length) : 1;
  return {
    from,
    to,
    along,
    inward,
    length,
    at: (station, inside = 0) => {
      const distance = inMillimetres(station) * stretch;
      return [from[0] + along[0] * distance + inward[0] * inside, from[1] + along[1] * distance + inward[1] * inside];
    },
  };
}

export const trueXY = (point: Point): TrueXY => [inMillimetres(point.x), inMillimetres(point.y)];

/** What somebody inside looks at who faces the wall. */
export function facing(axis: PlanAxis): Compass {
  return compassOf(-axis.inward[0], -axis.inward[1]);
}

/** The corner at station 0 and the one at the far end, by compass: of a west wall the south-west and the north-west one. */
export function cornerNames(axis: PlanAxis): { readonly zero: Compass; readonly far: Compass } {
  const corner = (sign: number): Compass =>
    compassOf(sign * axis.along[0] - axis.inward[0], sign * axis.along[1] - axis.inward[1]);
  return { zero: corner(-1), far: corner(1) };
}

/** The space just inside a wall at a station. */
export function spaceInside(axis: PlanAxis, station: Length, spaces: readonly Space[]): Space | undefined {
  return spaceAt(axis.at(station, 450), spaces);
}

/** The space that a point in plan lies in. */
export function spaceAt([x, y]: TrueXY, spaces: readonly Space[]): Space | undefined {
  return spaces.find((space) => {
    if (!space.from || !space.to) return false;
    const [x1, y1] = trueXY(space.from);
    const [x2, y2] = trueXY(space.to);
    return x >= Math.min(x1, x2) && x <= Math.max(x1, x2) && y >= Math.min(y1, y2) && y <= Math.max(y1, y2);
  });
}
