import { heightsOf } from '../fit/height-zone.ts';
import { pieceAt } from '../fit/piece-anchors.ts';
import { extentOf } from '../fit/thing-words.ts';
import type { CrippleStretch, Layout, LengthUnits, Obstruction, Wall } from '../model/layout.ts';
import { knownValue, profileAt } from '../model/reading.ts';
import {
  inches,
  inMillimetres,
  type Length,
  larger,
  midpoint,
  minus,
  nanometres,
  plus,
  scale,
  smaller,
  zero,
} from '../units/length.ts';
import { type Box, boxBetween } from './scene.ts';
import type { ShownPart } from './shown-part.ts';
import type { Edges } from './symbols.ts';
import type { Speaker } from './thing-names.ts';
import { levelAt, sillThickness, type WallShape } from './wall-shape.ts';

/** Where a wall stands on its sheet. Stations are x, levels are y. */
export interface ElevationFrame {
  readonly layout: Layout;
  readonly wall: Wall;
  readonly units: LengthUnits;
  readonly shape: WallShape;
  readonly speaker: Speaker;
  /** mm on paper of one true mm. */
  readonly paper: number;
  readonly left: number;
  readonly right: number;
  /** What of the wall is drawn; `left` and `right` are its ends on paper. */
  readonly shown: ShownPart;
  /** Highest and lowest drawn level. */
  readonly highest: Length;
  readonly lowest: Length;
  x(station: Length): number;
  y(level: Length): number;
}

type OnWall = Pick<ElevationFrame, 'wall' | 'shape'>;

/** Top of the sill at a station, above datum. */
export function sillTopAt(frame: OnWall, station: Length, side: 'left' | 'right' = 'right'): Length {
  const top = levelAt(frame.shape, 'top', station, side) ?? zero;
  const piece = pieceAt(frame.wall, station);
  return piece ? plus(top, sillThickness(piece).thick) : top;
}

/** Underside of a cripple wall's plates: the stud's own height where it was measured. */
export function plateUnderside(frame: OnWall, cripple: CrippleStretch, station: Length): Length {
  const studHeight = cripple.studHeight && knownValue(profileAt(cripple.studHeight, station));
  const underside = levelAt(frame.shape, 'joistUnderside', station) ?? zero;
  if (studHeight !== undefined) return smaller(plus(sillTopAt(frame, station), studHeight), underside);
  return minus(underside, scale(inches(1.5), cripple.plates === 'single' ? 1 : 2));
}

/** A thing in the way as it is drawn: its box on paper, and which of its edges anybody measured. */
export interface DrawnThing {
  readonly box: Box;
  readonly recorded: Edges;
  /** No height was recorded: the checks take the full height as blocked. */
  readonly fullHeight: boolean;
}

/** `undefined` where it has no place on this wall. */
export function drawnThing(frame: ElevationFrame, thing: Obstruction): DrawnThing | undefined {
  const extent = extentOf(thing);
  if (!extent) return undefined;
  const { length } = frame.shape;
  const from = larger(extent.from, zero);
  const to = smaller(extent.to, length);
  if (to < from || extent.from > length || extent.to < zero) return undefined;
  const middle = midpoint(from, to);
  const { upper, lower, recorded, fullHeight } = levelsOf(frame, thing, middle);
  const least = 0.6;
  const left = frame.x(from);
  const right = Math.max(frame.x(to), left + least);
  const top = frame.y(upper);
  return { box: boxBetween(left, top, right, Math.max(frame.y(lower), top + least)), recorded, fullHeight };
}

interface Levels {
  readonly upper: Length;
  readonly lower: Length;
  readonly recorded: Edges;
  readonly fullHeight: boolean;
}

function levelsOf(frame: ElevationFrame, thing: Obstruction, station: Length): Levels {
  const { wall, shape } = frame;
  const top = levelAt(shape, 'top', station) ?? zero;
  const ground = levelAt(shape, 'ground', station) ?? minus(top, inches(12));
  const underside = levelAt(shape, 'joistUnderside', station) ?? plus(top, inches(1.5));
  if (thing.kind === 'chimney' || thing.words.has('riser')) {
    return { upper: frame.highest, lower: ground, recorded: { top: true, bottom: true }, fullHeight: false };
  }
  const answer = heightsOf(thing, wall, pieceAt(wall, station));
  if (answer.kind === 'heights' && (Number.isFinite(answer.heights.high) || Number.isFinite(answer.heights.low))) {
    const { high, low } = answer.heights;
    const recorded = { top: Number.isFinite(high), bottom: Number.isFinite(low) };
    return {
      upper: recorded.top ? plus(top, nanometres(high)) : frame.highest,
      lower: recorded.bottom ? plus(top, nanometres(low)) : ground,
      recorded,
      fullHeight: false,
    };
  }
  const standIn = standInHeight(frame, thing, station, { top, ground, underside });
  return { ...standIn, fullHeight: true };
}

/** Where nobody recorded a height: a likely place, whose unknown edges are drawn as not recorded. */
function standInHeight(
  frame: ElevationFrame,
  thing: Obstruction,
  station: Length,
  levels: { readonly top: Length; readonly ground: Length; readonly underside: Length },
): Omit<Levels, 'fullHeight'> {
  const { top, ground, underside } = levels;
  const neither = { top: false, bottom: false };
  const showing = minus(top, ground);
  const cripple = frame.wall.cripples.find((each) => each.from <= station && each.to >= station);
  const plates = cripple ? plateUnderside(frame, cripple, station) : underside;
  const sill = sillTopAt(frame, station);
  switch (thing.kind) {
    case 'vent': {
      const tall = smaller(inches(8), scale(cripple ? minus(plates, sill) : showing, 1, 2));
      const middle = cripple ? midpoint(sill, plates) : minus(top, scale(showing, 2, 5));
      return { upper: plus(middle, scale(tall, 1, 2)), lower: minus(middle, scale(tall, 1, 2)), recorded: neither };
    }
    case 'window': {
      const reaches = thing.words.has('reaches-sill');
      const upper = reaches ? top : minus(top, scale(showing, 1, 10));
      return {
        upper,
        lower: minus(upper, smaller(inches(30), scale(showing, 3, 5))),
        recorded: { top: reaches, bottom: false },
      };
    }
    case 'door':
    case 'hatch':
      return cripple
        ? { upper: plates, lower: sill, recorded: neither }
        : { upper: top, lower: ground, recorded: neither };
    default:
      return { upper: underside, lower: ground, recorded: neither };
  }
}

export const onPaper = (frame: ElevationFrame, length: Length): number => inMillimetres(length) * frame.paper;
