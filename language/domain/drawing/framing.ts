import type { Blocking, Wall } from '../model/layout.ts';
import { knownValue } from '../model/reading.ts';
import { half, inches, type Length, larger, minus, plus, smaller, zero } from '../units/length.ts';
import { standInJoist } from './wall-shape.ts';

/** A joist that ends on the wall: its centre, its width along the wall. */
export interface JoistEnd {
  readonly station: Length;
  readonly wide: Length;
  readonly depth: Length;
  readonly sizeKnown: boolean;
}
export interface Bay {
  /** Between the first joist and the second is bay 1. */
  readonly number: number;
  readonly from: Length;
  readonly to: Length;
}

/** Wood closer than this is a slip of the pen: drawn as one band rather than by the piece. */
const CLOSEST_SPACING = inches(3);
/** A run of more is not drawn by the piece either: 2 000 joists 16 in apart are half a mile of wall. */
const MOST_MEMBERS = 2000;

const drawnByThePiece = (from: Length, to: Length, spaced: Length): boolean =>
  spaced >= CLOSEST_SPACING && (to - from) / spaced <= MOST_MEMBERS;

/** Joist ends on the wall, left to right. A run without a first station or a spacing has none: nobody knows where they are. */
export function joistEnds(wall: Wall, length: Length): readonly JoistEnd[] {
  const ends: JoistEnd[] = [];
  for (const run of wall.joists) {
    const spaced = knownValue(run.spaced);
    const first = knownValue(run.first);
    if (run.run !== 'into' || spaced === undefined || first === undefined) continue;
    const last = smaller(knownValue(run.last) ?? run.to, smaller(run.to, length));
    if (!drawnByThePiece(first, last, spaced)) continue;
    for (let station = first; station <= last; station = plus(station, spaced)) {
      if (station >= run.from) ends.push({ station, ...joistSize(run.size) });
    }
  }
  const usual = wall.joists.find((run) => run.size)?.size;
  for (const joist of wall.irregularJoists) {
    ends.push({ station: joist.station, ...joistSize(joist.size ?? usual) });
  }
  return ends.sort((a, b) => a.station - b.station);
}

/** The clear spaces between joists, in order of station. */
export function baysOf(joists: readonly JoistEnd[]): readonly Bay[] {
  return joists.slice(1).map((right, index) => {
    const left = joists[index] ?? right;
    return { number: index + 1, from: plus(left.station, half(left.wide)), to: minus(right.station, half(right.wide)) };
  });
}

/** Whether a blocking line names a bay, by its number. */
export function blockedBays(blocking: Blocking): (bay: number) => boolean {
  const { bays } = blocking;
  switch (bays.kind) {
    case 'every':
      return () => true;
    case 'odd':
      return (bay) => bay % 2 === 1;
    case 'even':
      return (bay) => bay % 2 === 0;
    case 'numbers': {
      const numbers = new Set(bays.numbers);
      return (bay) => numbers.has(bay);
    }
    case 'unknown':
    case 'none':
      return () => false;
  }
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
