import type { Layout, Wall } from '../model/layout.ts';
import { degrees } from '../model/layout.ts';
import type { Profile, Reading } from '../model/reading.ts';
import { perimeterOf } from '../model/taped-outline.ts';
import { placeInList } from '../place-in-list.ts';
import type { Length } from '../units/length.ts';
import { nanometres } from '../units/length.ts';

/** The walls that a perimeter wall meets at its two ends; each with the turn at that corner. */
export interface Corners {
  readonly left: Corner | undefined;
  readonly right: Corner | undefined;
}
export interface Corner {
  readonly neighbour: Wall;
  /** The neighbour's end at this corner. */
  readonly end: 'left' | 'right';
  readonly turn: Wall['turn'];
}

/** Two walls or fewer are an outline being written: the last does not meet the first yet. */
export function cornersOf(layout: Layout, wall: Wall): Corners {
  if (wall.role !== 'perimeter') return noCorners;
  const perimeter = perimeterOf(layout);
  // As it was built, or as something would make it, a wall is another object at the same corners.
  const place = placeInList(perimeter, wall) ?? perimeter.findIndex(({ id }) => id === wall.id);
  if (place < 0) return noCorners;
  const closed = perimeter.length > 2;
  const before = perimeter[place - 1] ?? (closed ? perimeter[perimeter.length - 1] : undefined);
  const after = perimeter[place + 1] ?? (closed ? perimeter[0] : undefined);
  return {
    left: before && { neighbour: before, end: 'right', turn: wall.turn },
    right: after && { neighbour: after, end: 'left', turn: after.turn },
  };
}
const noCorners: Corners = { left: undefined, right: undefined };

export type CornerDepth =
  | { readonly kind: 'depth'; readonly depth: Length }
  | { readonly kind: 'lacking'; readonly wants: string; readonly of: Wall };

/**
 * How far along the wall, from its end, the neighbour's concrete stands in front of its inner face. Nothing does where stations
 * are read on the inside face, or where the walls turn away from each other.
 */
export function depthOfCorner(wall: Wall, own: 'left' | 'right', corner: Corner): CornerDepth {
  const turn = corner.turn;
  if (wall.face === 'inside' || turn <= 0 || turn >= degrees(180)) return { kind: 'depth', depth: nanometres(0) };
  const thick = thicknessAtEnd(corner.neighbour, corner.end);
  if (thick === undefined) return lacking(corner.neighbour, corner.end);
  if (turn === degrees(90)) return { kind: 'depth', depth: thick };
  const ownThick = thicknessAtEnd(wall, own);
  if (ownThick === undefined) return lacking(wall, own);
  // Where the inner faces of two walls cross, seen from the corner of their outer faces.
  const angle = (turn / 1_000_000) * (Math.PI / 180);
  const depth = (thick - ownThick * Math.cos(angle)) / Math.sin(angle);
  return { kind: 'depth', depth: nanometres(Math.max(0, Math.ceil(depth))) };
}

/**
 * All that a wall shows round its corner to whom does not look for what is drilled there: it stays while the work on the wall does
 * not touch it.
 */
export function seenRound(corner: Corner | undefined): readonly unknown[] {
  if (!corner) return [undefined];
  const { neighbour, end, turn } = corner;
  const panels = neighbour.obstructions.filter((thing) => thing.kind === 'electrical-panel');
  return [turn, neighbour.nameSource, neighbour.length, thicknessAtEnd(neighbour, end), ...panels];
}

function lacking(wall: Wall, end: 'left' | 'right'): CornerDepth {
  return { kind: 'lacking', wants: `thickness of the foundation at the ${end} end of wall ${wall.name}`, of: wall };
}

function thicknessAtEnd(wall: Wall, end: 'left' | 'right'): Length | undefined {
  const ordered = wall.foundation.toSorted((a, b) => a.from - b.from);
  const stretch = end === 'left' ? ordered[0] : ordered[ordered.length - 1];
  const reading = stretch?.thick && readingAtEnd(stretch.thick, end);
  return reading?.kind === 'known' ? reading.value : undefined;
}

function readingAtEnd(profile: Profile, end: 'left' | 'right'): Reading<Length> | undefined {
  return profile.points[end === 'left' ? 0 : profile.points.length - 1]?.value;
}
