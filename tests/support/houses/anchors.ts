import type { AnchorFacts, ConnectorName, PieceFacts } from './facts.ts';
import { INCH, MILLIMETRE } from './facts.ts';
import type { HouseFrame } from './foundation.ts';
import { inches } from './foundation.ts';
import type { Random } from './random.ts';
import type { SillOfWall } from './sill.ts';
import { setBackFor } from './sill.ts';

export interface Anchored {
  /** The boards, some of them with another connector than was first thought of. */
  readonly pieces: readonly PieceFacts[];
  readonly anchors: readonly AnchorFacts[];
  /** Station of the first stud: chosen so that no stud stands in an end window. */
  readonly firstStud: number;
}

/**
 * Anchors by the rule set existing-building, laid out before anything else so that the rest can keep out of their way: 9 to 12 in from
 * every true end, evenly between, no further apart than the table allows, and as many as it asks of a short board.
 */
export function anchorsOfWall(
  random: Random,
  frame: HouseFrame,
  storeys: 1 | 2,
  wall: { readonly name: string; readonly length: number },
  sill: SillOfWall,
): Anchored {
  const starts = Array.from({ length: 16 }, (_, index) => inches(frame, (index * 5) % 16));
  const offset = random.integer(0, 15);
  for (const start of [...starts.slice(offset), ...starts.slice(0, offset)]) {
    const studs = studsAt(frame, start);
    const stations = sill.pieces.map((piece) => stationsOn(frame, storeys, wall.length, piece, studs));
    if (stations.every((each) => each !== undefined)) return numbered(wall.name, sill.pieces, stations, start);
  }
  // No row of studs leaves every window clear: side plates do not mind studs.
  const plated = sill.pieces.map((piece): PieceFacts => {
    if (piece.connector !== 'bolt-half') return piece;
    const connector: ConnectorName = 'stepped-plate-s';
    return { ...piece, connector, setBack: setBackFor(random, frame, connector, sill.runs[piece.run]) };
  });
  const start = starts[offset] ?? 0;
  const stations = plated.map((piece) => stationsOn(frame, storeys, wall.length, piece, studsAt(frame, start)));
  return numbered(wall.name, plated, stations, start);
}

function numbered(
  wall: string,
  pieces: readonly PieceFacts[],
  stations: readonly (readonly number[] | undefined)[],
  firstStud: number,
): Anchored {
  const anchors = pieces.flatMap((piece, index) =>
    (stations[index] ?? []).map((station) => ({ mark: '', connector: piece.connector, station, piece: index })),
  );
  const sorted = anchors.sort((a, b) => a.station - b.station);
  return { pieces, anchors: sorted.map((each, index) => ({ ...each, mark: `${wall}-${index + 1}` })), firstStud };
}

interface Studs {
  readonly first: number;
  readonly spaced: number;
  /** A bolt's centre keeps half a stud and half a washer from a stud's. */
  readonly clear: number;
}
const studsAt = (frame: HouseFrame, first: number): Studs => ({
  first,
  spaced: frame.studSpacing,
  clear: Math.ceil(frame.stud.thick / 2) + 1.5 * INCH,
});

function isClear(station: number, studs: Studs): boolean {
  const past = (((station - studs.first) % studs.spaced) + studs.spaced) % studs.spaced;
  return past >= studs.clear && studs.spaced - past >= studs.clear;
}

/** `undefined` where studs stand in an end window. */
function stationsOn(
  frame: HouseFrame,
  storeys: 1 | 2,
  wallLength: number,
  piece: PieceFacts,
  studs: Studs,
): readonly number[] | undefined {
  const bolted = piece.connector === 'bolt-half';
  const length = piece.to - piece.from;
  const free = (station: number): boolean => !bolted || isClear(station, studs);
  const left = inWindow(frame, (distance) => piece.from + distance, !bolted && piece.from === 0, free);
  const right = inWindow(frame, (distance) => piece.to - distance, !bolted && piece.to === wallLength, free);
  if (left === undefined || right === undefined) return undefined;
  const count = countFor(length, right - left, storeys);
  const tape = tapeOf(frame);
  const between = Array.from({ length: count - 2 }, (_, index) => {
    const even = left + ((right - left) * (index + 1)) / (count - 1);
    return nearest(Math.round(even / tape) * tape, tape, free);
  });
  return [left, ...between, right];
}

/** Nearest to the middle of the window. At a corner a plate needs room beside the neighbour's concrete: 12 in. */
function inWindow(
  frame: HouseFrame,
  at: (distance: number) => number,
  corner: boolean,
  free: (station: number) => boolean,
): number | undefined {
  const tape = tapeOf(frame);
  if (corner) return at(frame.units === 'metric' ? 305 * MILLIMETRE : 12 * INCH);
  const least = Math.ceil((9 * INCH) / tape);
  const most = Math.floor((12 * INCH) / tape);
  const middle = Math.floor((least + most) / 2);
  for (let off = 0; off <= most - middle; off += 1) {
    for (const steps of [middle - off, middle + off]) {
      if (steps >= least && steps <= most && free(at(steps * tape))) return at(steps * tape);
    }
  }
  return undefined;
}

/** At most 6 in either way, which the spacing leaves room for. */
function nearest(station: number, tape: number, free: (station: number) => boolean): number {
  for (let off = 0; off * tape <= 3 * INCH; off += 1) {
    for (const each of [station - off * tape, station + off * tape]) if (free(each)) return each;
  }
  return station;
}

/** Table A304.3.1 of the rule set for boards of 12 ft and more (less 6 in for sliding past studs), its short-board table below that. */
function countFor(length: number, span: number, storeys: 1 | 2): number {
  if (length >= 144 * INCH) return Math.ceil(span / ((storeys === 1 ? 66 : 42) * INCH)) + 1;
  if (length >= 72 * INCH) return storeys === 1 ? 3 : 4;
  return 2;
}

const tapeOf = (frame: HouseFrame): number => (frame.units === 'metric' ? MILLIMETRE : INCH / 4);

/**
 * Bracing at both ends of each cripple wall, edges on studs, at least twice as long as high, and 6 in away from chimneys and doors.
 * None where the joists lie on the sill.
 */
export function panelsOfWall(
  frame: HouseFrame,
  wall: { readonly name: string },
  sill: SillOfWall,
  firstStud: number,
): readonly { readonly mark: string; readonly from: number; readonly to: number }[] {
  const places = sill.runs.flatMap((run) => {
    const { cripple } = run;
    if (!cripple) return [];
    const least = Math.max(48 * INCH, 2 * Math.max(...cripple.studHeight));
    return between(run, sill.holes).flatMap((stretch) => panelsOn(frame, stretch, least, firstStud));
  });
  return places.map(([from, to], index) => ({ mark: `${wall.name}-P${index + 1}`, from, to }));
}

interface Range {
  readonly from: number;
  readonly to: number;
}

function between(run: Range, holes: readonly Range[]): readonly Range[] {
  const inside = holes.filter((hole) => hole.to > run.from && hole.from < run.to);
  const starts = [run.from, ...inside.map((hole) => hole.to + 6 * INCH)];
  const ends = [...inside.map((hole) => hole.from - 6 * INCH), run.to];
  return starts.map((from, index) => ({ from, to: ends[index] ?? run.to }));
}

function panelsOn(
  frame: HouseFrame,
  { from, to }: Range,
  least: number,
  firstStud: number,
): readonly (readonly [number, number])[] {
  if (to - from < least) return [];
  const long = Math.max(least, 0.32 * (to - from));
  const stud = (count: number): number => firstStud + count * frame.studSpacing;
  const left = stud(Math.ceil((from + long - firstStud) / frame.studSpacing));
  const right = stud(Math.floor((to - long - firstStud) / frame.studSpacing));
  if (right - left < 24 * INCH) return [[from, to]];
  return [
    [from, left],
    [right, to],
  ];
}
