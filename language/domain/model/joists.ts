import type { Length } from '../units/length.ts';
import { half, inches, minus, plus, smaller, zero } from '../units/length.ts';
import type { Bays, IrregularJoist, JoistRun, Size } from './layout.ts';
import { knownValue } from './reading.ts';

/** A joist that ends on the wall. */
export interface JoistOnWall {
  /** Of its centre. */
  readonly station: Length;
  readonly size: Size | undefined;
}

/** The space between two joists; bay 1 lies between the first joist and the second. */
export interface JoistBay {
  readonly number: number;
  readonly left: JoistOnWall;
  readonly right: JoistOnWall;
}

export interface JoistsOfWall {
  /** In order of station. */
  readonly joists: readonly JoistOnWall[];
  /** What nobody recorded, in words; without it some joists are missing from the list. */
  readonly lacking: readonly string[];
}

/** Wood closer than this is a slip of the pen, and a run of more is half a mile long: neither is counted out. */
const CLOSEST_SPACING = inches(3);
const MOST_JOISTS = 2000;

/** Joists that end on a wall, counted out from the first station and the spacing of each run. */
export function joistsOnWall(wall: {
  readonly name: string;
  readonly length: Length | undefined;
  readonly joists: readonly JoistRun[];
  readonly irregularJoists: readonly IrregularJoist[];
}): JoistsOfWall {
  const joists: JoistOnWall[] = [];
  const lacking: string[] = [];
  for (const run of wall.joists) {
    if (run.run !== 'into') continue;
    const spaced = knownValue(run.spaced);
    // A spacing without a first station starts where its stretch does; `first unknown` does not.
    const first = run.first ? knownValue(run.first) : run.from;
    if (spaced === undefined) lacking.push(`spacing of the joists of wall ${wall.name}`);
    if (first === undefined) lacking.push(`first joist of wall ${wall.name}`);
    if (spaced === undefined || first === undefined) continue;
    const end = wall.length === undefined ? run.to : smaller(run.to, wall.length);
    const last = smaller(knownValue(run.last) ?? end, end);
    if (spaced < CLOSEST_SPACING || (last - first) / spaced > MOST_JOISTS) continue;
    for (let station = first; station <= last; station = plus(station, spaced)) {
      if (station >= run.from) joists.push({ station, size: run.size });
    }
  }
  const usual = wall.joists.find((run) => run.size)?.size;
  for (const joist of wall.irregularJoists) joists.push({ station: joist.station, size: joist.size ?? usual });
  return { joists: joists.sort((a, b) => a.station - b.station), lacking };
}

export function baysBetween(joists: readonly JoistOnWall[]): readonly JoistBay[] {
  return joists.slice(1).map((right, index) => ({ number: index + 1, left: joists[index] ?? right, right }));
}

/** The middle of a bay's clear space. */
export function bayCentre({ left, right }: JoistBay): Length {
  const halfOf = (joist: JoistOnWall): Length => half(knownValue(joist.size?.thick) ?? zero);
  const from = plus(left.station, halfOf(left));
  const to = minus(right.station, halfOf(right));
  return plus(from, half(minus(to, from)));
}

/** Whether a line on bays names a bay, by its number. */
export function namesBay(bays: Bays): (bay: number) => boolean {
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
