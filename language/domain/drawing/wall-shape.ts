import type { FoundationStretch, Layout, SillPiece, Wall } from '../model/layout.ts';
import { knownValue, type Profile, profileAt, type Reading } from '../model/reading.ts';
import { inches, type Length, larger, minus, plus, smaller, zero } from '../units/length.ts';

/**
 * Heights of a wall seen from inside, as far as anybody measured them. What is missing gets a stand-in, so that the rest
 * can be drawn, and says so: a drawing shows a stand-in in short heavy dashes only.
 */
export interface WallShape {
  /** From station 0 to here the wall is drawn; `lengthKnown` says whether anybody taped it. */
  readonly length: Length;
  readonly lengthKnown: boolean;
  /** Left to right, without holes between them. */
  readonly stems: readonly Stem[];
}

export interface Stem {
  readonly from: Length;
  readonly to: Length;
  readonly top: readonly LevelAt[];
  readonly ground: readonly LevelAt[];
  /** Outside; empty where nobody measured it. */
  readonly soil: readonly LevelAt[];
  readonly joistUnderside: readonly LevelAt[];
  readonly topKnown: boolean;
  readonly groundKnown: boolean;
  readonly undersideKnown: boolean;
  /** `undefined`: no foundation line covers it. */
  readonly foundation: FoundationStretch | undefined;
}
export interface LevelAt {
  readonly station: Length;
  readonly level: Length;
}

/** Stand-ins for what nobody measured: only ever drawn as not recorded. */
const STAND_IN = {
  showing: inches(12),
  sillThickness: inches(1.5),
  sillWidth: inches(5.5),
  joistDepth: inches(9.25),
  joistThickness: inches(1.5),
} as const;

/** As taped, else as far as anything stands on it. */
export const drawnLength = (wall: Wall): Length => wall.length ?? farthestStation(wall);

export function shapeOf(wall: Wall, layout: Layout): WallShape {
  const length = drawnLength(wall);
  const floor = knownValue(layout.house.floorUnderside);
  const stems = stretchesOf(wall, length).map(({ from, to, foundation }) => stemOf(wall, floor, from, to, foundation));
  return { length, lengthKnown: wall.length !== undefined, stems };
}

export function sillThickness(piece: SillPiece): { readonly thick: Length; readonly known: boolean } {
  const thick = knownValue(piece.size?.thick);
  if (thick === undefined) return { thick: STAND_IN.sillThickness, known: false };
  return { thick: piece.double ? plus(thick, thick) : thick, known: true };
}

export function sillWidth(piece: SillPiece): { readonly wide: Length; readonly known: boolean } {
  const wide = knownValue(piece.size?.wide);
  return { wide: wide ?? STAND_IN.sillWidth, known: wide !== undefined };
}

export const standInJoist = { depth: STAND_IN.joistDepth, thickness: STAND_IN.joistThickness };

export type Height = 'top' | 'ground' | 'soil' | 'joistUnderside';

/** The stem at a station; at a step the right one, or the left one for what ends there. */
export function stemAt(shape: WallShape, station: Length, side: 'left' | 'right' = 'right'): Stem | undefined {
  const { stems } = shape;
  let low = 0;
  let high = stems.length - 1;
  while (low < high) {
    const middle = Math.ceil((low + high) / 2);
    const from = stems[middle]?.from ?? zero;
    if (side === 'right' ? from <= station : from < station) low = middle;
    else high = middle - 1;
  }
  return stems[low];
}

/** `undefined` where there is no such level: outside soil that nobody measured, a wall without a stem. */
export function levelAt(
  shape: WallShape,
  height: Height,
  station: Length,
  side: 'left' | 'right' = 'right',
): Length | undefined {
  const stem = stemAt(shape, station, side);
  return stem && levelOn(stem[height], station);
}

function levelOn(levels: readonly LevelAt[], station: Length): Length | undefined {
  const first = levels[0];
  if (!first) return undefined;
  let left = first;
  for (const level of levels) {
    if (level.station >= station) {
      if (level.station === left.station) return level.level;
      const share = (station - left.station) / (level.station - left.station);
      return Math.max(0, Math.min(1, share)) === 0
        ? left.level
        : ((left.level + Math.round((level.level - left.level) * Math.max(0, Math.min(1, share)))) as Length);
    }
    left = level;
  }
  return left.level;
}

/** Jumps of the top of concrete: where two stems meet at different heights. */
export function stepsOf(
  shape: WallShape,
): readonly { readonly station: Length; readonly before: Length; readonly after: Length }[] {
  return shape.stems.flatMap((stem, index) => {
    const left = shape.stems[index - 1];
    if (!left?.topKnown || !stem.topKnown) return [];
    const before = levelOn(left.top, stem.from);
    const after = levelOn(stem.top, stem.from);
    return before === undefined || after === undefined || before === after
      ? []
      : [{ station: stem.from, before, after }];
  });
}

function farthestStation(wall: Wall): Length {
  const stations = [
    ...wall.pieces.map((piece) => piece.to),
    ...wall.foundation.map((stretch) => stretch.to),
    ...wall.obstructions.flatMap((thing) => (thing.stretch ? [thing.stretch.to] : [])),
    ...wall.anchors.flatMap((anchor) => (anchor.station === undefined ? [] : [anchor.station])),
    ...wall.foundAnchors.flatMap((anchor) => (anchor.station === undefined ? [] : [anchor.station])),
  ];
  return stations.reduce(larger, zero);
}

/** The foundation lines in order, and one nameless stretch for each hole between them. */
function stretchesOf(
  wall: Wall,
  length: Length,
): readonly { readonly from: Length; readonly to: Length; readonly foundation: FoundationStretch | undefined }[] {
  const stretches: { from: Length; to: Length; foundation: FoundationStretch | undefined }[] = [];
  let reached = zero;
  for (const foundation of [...wall.foundation].sort((a, b) => a.from - b.from)) {
    const from = larger(foundation.from, reached);
    const to = smaller(foundation.to, length);
    if (to <= from) continue;
    if (from > reached) stretches.push({ from: reached, to: from, foundation: undefined });
    stretches.push({ from, to, foundation });
    reached = to;
  }
  if (reached < length) stretches.push({ from: reached, to: length, foundation: undefined });
  return stretches;
}

function stemOf(
  wall: Wall,
  floor: Length | undefined,
  from: Length,
  to: Length,
  foundation: FoundationStretch | undefined,
): Stem {
  const cripple = wall.cripples.find((stretch) => stretch.from < to && stretch.to > from);
  const piece = wall.pieces.find((candidate) => candidate.from < to && candidate.to > from);
  const stations = breakpoints(from, to, [foundation?.top, foundation?.showing, foundation?.grade, cripple?.height]);
  const crippleHeight = (station: Length): Length | undefined => knownAt(cripple?.height, station);
  const overSill = (station: Length): Length | undefined =>
    cripple ? crippleHeight(station) : piece ? sillThickness(piece).thick : STAND_IN.sillThickness;
  const topKnown = stations.every((station) => knownAt(foundation?.top, station) !== undefined);
  const top = stations.map((station): LevelAt => {
    const known = knownAt(foundation?.top, station);
    const under = overSill(station);
    return { station, level: known ?? (floor !== undefined && under !== undefined ? minus(floor, under) : zero) };
  });
  const groundKnown = topKnown && stations.every((station) => knownAt(foundation?.showing, station) !== undefined);
  const ground = top.map(
    ({ station, level }): LevelAt => ({
      station,
      level: minus(level, knownAt(foundation?.showing, station) ?? STAND_IN.showing),
    }),
  );
  const soilKnown = topKnown && stations.every((station) => knownAt(foundation?.grade, station) !== undefined);
  const soil = soilKnown
    ? top.map(
        ({ station, level }): LevelAt => ({
          station,
          level: minus(level, knownAt(foundation?.grade, station) ?? zero),
        }),
      )
    : [];
  const undersideKnown =
    floor !== undefined || (topKnown && stations.every((station) => overSill(station) !== undefined));
  const joistUnderside = top.map(
    ({ station, level }): LevelAt => ({
      station,
      level: floor ?? plus(level, overSill(station) ?? STAND_IN.sillThickness),
    }),
  );
  return { from, to, top, ground, soil, joistUnderside, topKnown, groundKnown, undersideKnown, foundation };
}

function knownAt(profile: Profile | undefined, station: Length): Length | undefined {
  const reading: Reading<Length> | undefined = profile && profileAt(profile, station);
  return knownValue(reading);
}

function breakpoints(from: Length, to: Length, profiles: readonly (Profile | undefined)[]): readonly Length[] {
  const inside = profiles.flatMap((profile) =>
    (profile?.points ?? []).map((point) => point.station).filter((station) => station > from && station < to),
  );
  return [...new Set([from, ...inside, to])].sort((a, b) => a - b);
}
