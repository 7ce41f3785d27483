import type { Obstruction, SillPiece, Stretch, Wall, Zone } from '../model/layout.ts';
import type { Profile } from '../model/reading.ts';
import { knownValue, profileRange } from '../model/reading.ts';
import type { Length } from '../units/length.ts';
import { minus, negate, scale, zero } from '../units/length.ts';
import { extentOf } from './thing-words.ts';

/** Heights above the top of the concrete at the same station; infinite where the thing goes on past what was measured. */
export interface HeightRange {
  readonly low: number;
  readonly high: number;
}
export const fullHeight: HeightRange = { low: Number.NEGATIVE_INFINITY, high: Number.POSITIVE_INFINITY };

export type HeightAnswer =
  | { readonly kind: 'heights'; readonly heights: HeightRange }
  /** A measurement that the zone is read from is missing, in words. */
  | { readonly kind: 'lacking'; readonly wants: string };

/** Whether two ranges share more than an edge. */
export const overlaps = (a: HeightRange, b: HeightRange): boolean => a.low < b.high && b.low < a.high;

/** How far apart two ranges are; 0 where they touch or overlap. */
export const heightBetween = (a: HeightRange, b: HeightRange): number => Math.max(0, a.low - b.high, b.low - a.high);

/** Top of the sill board above the concrete; `undefined` where its thickness is not known. */
export function sillTop(piece: SillPiece | undefined): Length | undefined {
  const thick = knownValue(piece?.size?.thick);
  return thick === undefined ? undefined : scale(thick, piece?.double ? 2 : 1);
}

/** The heights that a thing takes up. Without a zone it takes the full height: what is not recorded is in the way. */
export function heightsOf(obstruction: Obstruction, wall: Wall, piece: SillPiece | undefined): HeightAnswer {
  const { zone } = obstruction;
  const extent = extentOf(obstruction);
  if (!zone || !extent) return { kind: 'heights', heights: fullHeight };
  const near = knownValue(zone.near);
  const far = zone.far && knownValue(zone.far);
  // An unknown height is in the way like one that nobody recorded.
  if (near === undefined || (zone.far && far === undefined)) return { kind: 'heights', heights: fullHeight };
  const datum = heightOfDatum(zone.datum, wall, piece, extent);
  if (datum.kind === 'lacking') return datum;
  const distances = distancesFromDatum(obstruction, near, far);
  const { low, high } = datum.heights;
  const heights =
    zone.side === 'above'
      ? { low: low + distances.near, high: high + distances.far }
      : { low: low - distances.far, high: high - distances.near };
  return { kind: 'heights', heights };
}

/** Kinds that run as a tube: one distance alone is that of their middle. */
const TUBES: ReadonlySet<Obstruction['kind']> = new Set(['pipe', 'gas-pipe', 'stack', 'conduit', 'duct', 'flue']);

/** One distance alone: the middle of a tube; of anything else, where it begins, and it goes on from there. */
function distancesFromDatum(
  obstruction: Obstruction,
  near: Length,
  far: Length | undefined,
): { readonly near: number; readonly far: number } {
  if (far !== undefined) return { near: Math.min(near, far), far: Math.max(near, far) };
  const diameter = knownValue(obstruction.diameter);
  if (diameter !== undefined) return { near: near - Math.ceil(diameter / 2), far: near + Math.ceil(diameter / 2) };
  if (TUBES.has(obstruction.kind)) return { near, far: near };
  return { near, far: Number.POSITIVE_INFINITY };
}

function heightOfDatum(datum: Zone['datum'], wall: Wall, piece: SillPiece | undefined, extent: Stretch): HeightAnswer {
  switch (datum) {
    case 'top':
      return { kind: 'heights', heights: { low: 0, high: 0 } };
    case 'soil': {
      const showing = rangeOver(wall.foundation, (each) => each.showing, extent);
      if (!showing) return { kind: 'lacking', wants: `concrete showing on wall ${wall.name}` };
      return { kind: 'heights', heights: { low: negate(showing.greatest), high: negate(showing.least) } };
    }
    case 'joists':
      return undersideOfJoists(wall, piece, extent);
  }
}

/** Above the top of the concrete: least and greatest over the extent. */
export function undersideOfJoists(wall: Wall, piece: SillPiece | undefined, extent: Stretch): HeightAnswer {
  const cripples = wall.cripples.filter((each) => touches(each, extent));
  if (cripples.length === 0) {
    // Without a cripple wall the joists sit on the sill.
    const top = sillTop(piece);
    return top === undefined
      ? { kind: 'lacking', wants: piece ? `thickness of sill ${piece.name}` : `sill of wall ${wall.name}` }
      : { kind: 'heights', heights: { low: top, high: top } };
  }
  const height = rangeOver(cripples, (each) => each.height, extent);
  if (!height) return { kind: 'lacking', wants: `height of the cripple wall on wall ${wall.name}` };
  return { kind: 'heights', heights: { low: height.least, high: height.greatest } };
}

function rangeOver<Part extends Stretch>(
  parts: readonly Part[],
  profileOf: (part: Part) => Profile | undefined,
  extent: Stretch,
): { readonly least: Length; readonly greatest: Length } | undefined {
  let least: Length | undefined;
  let greatest: Length | undefined;
  for (const part of parts) {
    if (!touches(part, extent)) continue;
    const profile = profileOf(part);
    if (!profile) return undefined;
    const range = profileRange(profile, clamp(extent.from, part), clamp(extent.to, part));
    if ('kind' in range) return undefined;
    if (least === undefined || range.least.value < least) least = range.least.value;
    if (greatest === undefined || range.greatest.value > greatest) greatest = range.greatest.value;
  }
  return least === undefined || greatest === undefined ? undefined : { least, greatest };
}

const touches = (part: Stretch, extent: Stretch): boolean => part.from <= extent.to && part.to >= extent.from;

function clamp(station: Length, part: Stretch): Length {
  if (station < part.from) return part.from;
  return station > part.to ? part.to : station;
}

/** What a side plate takes up: its top stands level with the sill board's unless the connector says how far below. */
export function plateHeights(
  top: Length,
  drop: Length | undefined,
  tall: Length,
): { readonly low: Length; readonly high: Length } {
  const high = minus(top, drop ?? zero);
  return { low: minus(high, tall), high };
}
