import type { Layout, ResistanceLine, Stretch, Wall } from '../model/layout.ts';
import type { Reading } from '../model/reading.ts';

/** Storeys above a stretch of a wall: `undefined` in the list where nobody says. */
export type StoreysAbove = readonly (Reading<number> | undefined)[];

/**
 * Every number of storeys that stands above some part of a stretch. What the wall says of the stretch goes before what its
 * line says, that before what the house says.
 */
export function storeysOver(layout: Layout, wall: Wall, stretch: Stretch): StoreysAbove {
  if (wall.storeys.length === 0) return [storeysOfLine(layout, wall)];
  const found: (Reading<number> | undefined)[] = [];
  let reached = stretch.from;
  for (const each of wall.storeys.toSorted((a, b) => a.stretch.from - b.stretch.from)) {
    const touches = each.stretch.from < stretch.to && each.stretch.to > stretch.from;
    const holdsPoint =
      stretch.from === stretch.to && each.stretch.from <= stretch.from && stretch.to <= each.stretch.to;
    if (!touches && !holdsPoint) continue;
    if (each.stretch.from > reached) found.push(storeysOfLine(layout, wall));
    found.push(each.value);
    if (each.stretch.to > reached) reached = each.stretch.to;
  }
  if (found.length === 0 || reached < stretch.to) found.push(storeysOfLine(layout, wall));
  return found.filter((each, index) => found.findIndex((other) => sameStoreys(each, other)) === index);
}

/** The line of resistance that a wall belongs to; a perimeter wall without one is a line of its own. */
export function lineOf(layout: Layout, wall: Wall): ResistanceLine | undefined {
  return linesByWall(layout).get(wall.name.toLowerCase());
}

/**
 * The other walls of the line that this wall is the first of, in the order of the house; none for the rest, so that each line
 * is looked at once, from its first wall.
 */
export function othersOfLine(layout: Layout, wall: Wall): readonly Wall[] {
  const line = lineOf(layout, wall);
  if (!line || line.walls.length < 2) return [];
  const walls = wallsOfLines(layout).get(line) ?? [];
  return walls[0] === wall ? walls.slice(1) : [];
}

/** All walls of the line that a wall belongs to, in the order of the house; itself where it is a line of its own. */
export function wallsOfLine(layout: Layout, wall: Wall): readonly Wall[] {
  const line = lineOf(layout, wall);
  const walls = line && line.walls.length > 1 ? wallsOfLines(layout).get(line) : undefined;
  return walls?.includes(wall) ? walls : [wall];
}

/** Whether a wall is the first of its line, or a line of its own. */
export function speaksForLine(layout: Layout, wall: Wall): boolean {
  const line = lineOf(layout, wall);
  return !line || line.walls.length < 2 || wallsOfLines(layout).get(line)?.[0] === wall;
}

const wallIndexes = new WeakMap<
  readonly ResistanceLine[],
  WeakMap<readonly Wall[], ReadonlyMap<ResistanceLine, readonly Wall[]>>
>();

function wallsOfLines(layout: Layout): ReadonlyMap<ResistanceLine, readonly Wall[]> {
  const ofLines = wallIndexes.get(layout.lines) ?? new WeakMap<readonly Wall[], ReadonlyMap<ResistanceLine, Wall[]>>();
  wallIndexes.set(layout.lines, ofLines);
  const known = ofLines.get(layout.walls);
  if (known) return known;
  const index = new Map<ResistanceLine, Wall[]>();
  for (const wall of layout.walls) {
    const line = lineOf(layout, wall);
    if (!line) continue;
    const walls = index.get(line);
    if (walls) walls.push(wall);
    else index.set(line, [wall]);
  }
  ofLines.set(layout.walls, index);
  return index;
}

function storeysOfLine(layout: Layout, wall: Wall): Reading<number> | undefined {
  return lineOf(layout, wall)?.storeys ?? layout.house.storeys;
}

const lineIndexes = new WeakMap<readonly ResistanceLine[], ReadonlyMap<string, ResistanceLine>>();

function linesByWall(layout: Layout): ReadonlyMap<string, ResistanceLine> {
  const known = lineIndexes.get(layout.lines);
  if (known) return known;
  const index = new Map<string, ResistanceLine>();
  for (const line of layout.lines) {
    for (const wall of line.walls) {
      const key = wall.name.toLowerCase();
      if (!index.has(key)) index.set(key, line);
    }
  }
  lineIndexes.set(layout.lines, index);
  return index;
}

function sameStoreys(a: Reading<number> | undefined, b: Reading<number> | undefined): boolean {
  if (a?.kind !== b?.kind) return false;
  return a?.kind !== 'known' || b?.kind !== 'known' || a.value === b.value;
}
