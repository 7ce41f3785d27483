import type { Box } from './scene.ts';

/** Boxes on a sheet that nothing else may cover. Looks up in a grid, so that many labels stay cheap. */
export interface Occupied {
  take(box: Box): void;
  isFree(box: Box): boolean;
}

export const CELL = 12;
/** More rows than any sheet has, above and below its origin. */
export const ROWS = 1_000_003;

export function occupied(): Occupied {
  const cells = new Map<number, Box[]>();
  return {
    take: (box) => {
      for (const key of cellsOf(box)) {
        const members = cells.get(key);
        if (members) members.push(box);
        else cells.set(key, [box]);
      }
    },
    isFree: (box) => isFreeIn(box, (key) => cells.get(key)),
  };
}

/** Those that a box touches. */
export function cellsOf(box: Box): readonly number[] {
  const keys: number[] = [];
  const [lastColumn, lastRow] = [Math.floor((box.x + box.width) / CELL), Math.floor((box.y + box.height) / CELL)];
  for (let column = Math.floor(box.x / CELL); column <= lastColumn; column++)
    for (let row = Math.floor(box.y / CELL); row <= lastRow; row++) keys.push(column * ROWS + row);
  return keys;
}

/** Asked many thousand times for one drawing, so it makes no lists. */
export function isFreeIn(box: Box, boxesAt: (key: number) => readonly Box[] | undefined): boolean {
  const [lastColumn, lastRow] = [Math.floor((box.x + box.width) / CELL), Math.floor((box.y + box.height) / CELL)];
  for (let column = Math.floor(box.x / CELL); column <= lastColumn; column++) {
    for (let row = Math.floor(box.y / CELL); row <= lastRow; row++) {
      for (const other of boxesAt(column * ROWS + row) ?? []) if (overlap(box, other)) return false;
    }
  }
  return true;
}

export function overlap(a: Box, b: Box): boolean {
  return a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height;
}

export interface RoundAbout {
  /** The thing that the label names. */
  readonly at: readonly [x: number, y: number];
  readonly width: number;
  readonly height: number;
  /** Half the size of the thing: the label stays clear of it. */
  readonly reach: number;
  /** It must be shown: it looks further than a reader likes, before it gives up. */
  readonly never?: 'dropped';
}

/**
 * The first free place round a thing: beside, above and below it, nearest ring first; right before left, beside before above.
 * `undefined` where all are taken.
 */
export function placeRoundAbout(
  label: RoundAbout,
  taken: Occupied,
  allows: (box: Box) => boolean = () => true,
): Box | undefined {
  return firstPlace(label, taken, [allows]);
}

/** The first free place by the strictest way that has one; what is free is looked for once for all of them. */
export function firstPlace(
  label: RoundAbout,
  taken: Occupied,
  ways: readonly ((box: Box) => boolean)[],
): Box | undefined {
  const more = placesRoundAbout(label);
  const free: Box[] = [];
  for (const allows of ways) {
    const known = free.find(allows);
    if (known) return known;
    for (const box of more) {
      if (!taken.isFree(box)) continue;
      free.push(box);
      if (allows(box)) return box;
    }
  }
  return undefined;
}

function* placesRoundAbout(label: RoundAbout): Generator<Box, undefined> {
  const { width, height } = label;
  const [x, y] = label.at;
  for (const away of label.never === 'dropped' ? [...NEAR, ...FAR] : NEAR) {
    const gap = label.reach + away;
    const diagonal = label.reach * 0.7 + away * 0.8;
    const candidates: readonly (readonly [number, number])[] = [
      [x + gap, y - height / 2],
      [x - gap - width, y - height / 2],
      [x + diagonal, y - diagonal - height],
      [x + diagonal, y + diagonal],
      [x - diagonal - width, y - diagonal - height],
      [x - diagonal - width, y + diagonal],
      ...[0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8].flatMap((share): readonly (readonly [number, number])[] => [
        [x - width * share, y - gap - height],
        [x - width * share, y + gap],
      ]),
      ...SLANTS.map(([dx, dy]): readonly [number, number] => {
        const out = gap + (Math.abs(dx) * width + Math.abs(dy) * height) / 2;
        return [x + dx * out - width / 2, y + dy * out - height / 2];
      }),
    ];
    for (const [left, top] of candidates) yield { x: left, y: top, width, height };
  }
  if (label.never === 'dropped') yield* placesOnGrid(label);
}

/** Where none of the ways out is open: outwards in steps as fine as a line of text. */
function* placesOnGrid({ at: [x, y], width, height, reach }: RoundAbout): Generator<Box, undefined> {
  const at = (middle: number, centre: number): Box => ({
    x: middle - width / 2,
    y: centre - height / 2,
    width,
    height,
  });
  for (let ring = 1; ring <= MOST_RINGS; ring++) {
    const away = reach + ring * GRID_STEP;
    for (let step = -ring; step <= ring; step++) {
      const along = step * GRID_STEP;
      yield at(x + along, y - away);
      yield at(x + along, y + away);
      yield at(x - away, y + along);
      yield at(x + away, y + along);
    }
  }
}

const GRID_STEP = 3.5;
const MOST_RINGS = 40;

/** Between the eight usual ways: in a corner of a house few ways are open. */
const SLANTS = [20, 35, 55, 70].flatMap((degrees) => {
  const [dx, dy] = [Math.cos((degrees * Math.PI) / 180), Math.sin((degrees * Math.PI) / 180)];
  return [
    [dx, -dy],
    [dx, dy],
    [-dx, -dy],
    [-dx, dy],
  ] as const;
});

const NEAR = [1.4, 4, 8, 13, 19, 27];
const FAR = [36, 48, 62, 80, 100, 130];

/** Whether all of a box lies inside an outline. Looks at the sides on a level with it only: a large house has hundreds. */
export function insideOutline(outline: readonly (readonly [x: number, y: number])[]): (box: Box) => boolean {
  if (outline.length < 3) return () => true;
  const sidesOnLevel = new Map<number, Side[]>();
  outline.forEach(([x1, y1], index) => {
    const [x2, y2] = outline[(index + 1) % outline.length] ?? [x1, y1];
    for (let level = levelOf(Math.min(y1, y2)); level <= levelOf(Math.max(y1, y2)); level++) {
      const sides = sidesOnLevel.get(level);
      if (sides) sides.push([x1, y1, x2, y2]);
      else sidesOnLevel.set(level, [[x1, y1, x2, y2]]);
    }
  });
  const isInside = (x: number, y: number): boolean => {
    let inside = false;
    for (const [x1, y1, x2, y2] of sidesOnLevel.get(levelOf(y)) ?? [])
      if (y1 > y !== y2 > y && x < ((x2 - x1) * (y - y1)) / (y2 - y1) + x1) inside = !inside;
    return inside;
  };
  return ({ x, y, width, height }) =>
    isInside(x, y) && isInside(x + width, y) && isInside(x, y + height) && isInside(x + width, y + height);
}

type Side = readonly [x1: number, y1: number, x2: number, y2: number];
const levelOf = (y: number): number => Math.floor(y / CELL);

/** The free place nearest to the middle of an area. */
export function placeWithin(
  area: Box,
  size: { readonly width: number; readonly height: number },
  taken: Occupied,
): Box | undefined {
  const steps = 9;
  const places: { readonly box: Box; readonly away: number }[] = [];
  for (let column = 0; column < steps; column++) {
    for (let row = 0; row < steps; row++) {
      const x = area.x + ((area.width - size.width) * column) / (steps - 1);
      const y = area.y + ((area.height - size.height) * row) / (steps - 1);
      places.push({ box: { x, y, ...size }, away: Math.hypot(column - (steps - 1) / 2, row - (steps - 1) / 2) });
    }
  }
  return places.sort((a, b) => a.away - b.away).find(({ box }) => taken.isFree(box))?.box;
}

/** Small boxes along a line, for a line that labels must not cross. */
export function alongLine(from: readonly [number, number], to: readonly [number, number]): readonly Box[] {
  const parts = partsOf(from, to);
  return Array.from({ length: parts }, (_, index) => partOf(from, to, index, parts));
}

/** Whether nothing lies under a line; its first `skipped` small boxes may lie on anything. */
export function isClearAlong(
  from: readonly [number, number],
  to: readonly [number, number],
  room: Occupied,
  skipped = 0,
): boolean {
  const parts = partsOf(from, to);
  for (let index = skipped; index < parts; index++) if (!room.isFree(partOf(from, to, index, parts))) return false;
  return true;
}

const partsOf = (from: readonly [number, number], to: readonly [number, number]): number =>
  Math.max(1, Math.ceil(Math.hypot(to[0] - from[0], to[1] - from[1]) / 2));

function partOf(from: readonly [number, number], to: readonly [number, number], index: number, parts: number): Box {
  const share = (index + 0.5) / parts;
  const [x, y] = [from[0] + (to[0] - from[0]) * share, from[1] + (to[1] - from[1]) * share];
  return { x: x - 0.9, y: y - 0.9, width: 1.8, height: 1.8 };
}
