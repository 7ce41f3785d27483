import type { NumberedBay } from '../fit/closed-bays.ts';
import { joistsOnWall } from '../model/joists.ts';
import type { Wall } from '../model/layout.ts';
import { knownValue } from '../model/reading.ts';
import { half, type Length, larger, minus, plus, smaller, zero } from '../units/length.ts';
import { standInJoist } from './wall-shape.ts';

/** A joist that ends on the wall: its centre, its width along the wall. */
export interface JoistEnd {
  readonly station: Length;
  readonly wide: Length;
  readonly depth: Length;
  readonly sizeKnown: boolean;
}
/** Joist ends on the wall, left to right; those that nobody placed are missing. */
export function joistEnds(wall: Wall, length: Length): readonly JoistEnd[] {
  const { name, joists, irregularJoists } = wall;
  return joistsOnWall({ name, joists, irregularJoists, length }).joists.map(({ station, size }) => ({
    station,
    ...joistSize(size),
  }));
}

/** The clear spaces between joists, in order of station. */
export function baysOf(joists: readonly JoistEnd[]): readonly NumberedBay[] {
  return joists.slice(1).map((right, index) => {
    const left = joists[index] ?? right;
    return { number: index + 1, from: plus(left.station, half(left.wide)), to: minus(right.station, half(right.wide)) };
  });
}

/** What of a joist lies on the wall. */
export function onWall(member: JoistEnd, length: Length): { readonly from: Length; readonly to: Length } {
  return {
    from: larger(minus(member.station, half(member.wide)), zero),
    to: smaller(plus(member.station, half(member.wide)), length),
  };
}

function joistSize(size: Wall['joists'][number]['size']): {
  readonly wide: Length;
  readonly depth: Length;
  readonly sizeKnown: boolean;
} {
  const wide = knownValue(size?.thick);
  const depth = knownValue(size?.wide);
  return {
    wide: wide ?? standInJoist.thickness,
    depth: depth ?? standInJoist.depth,
    sizeKnown: wide !== undefined && depth !== undefined,
  };
}
