import {
  type InTurns,
  type LaneBounds,
  type LaneItem,
  placeBetweenPosts,
  placeInLane,
  placeInTurns,
  roomInTurns,
} from './label-lane.ts';

/** A marker that wants to stand over its place, in one of several rows. */
export interface RowItem extends LaneItem {
  /** Nought is never dropped; the highest goes first. */
  readonly priority: number;
}
export interface PlacedInRow {
  readonly index: number;
  /** Row 0 is the nearest to the drawing. */
  readonly row: number;
  readonly centre: number;
}
export interface RowsOptions extends LaneBounds {
  /** Leaders of other lanes that pass all rows: nothing may stand on them. */
  readonly posts: readonly number[];
  readonly clearOfPost: number;
  readonly mostRows: number;
  /** A wider shift asks for another row. */
  readonly farthestShift: number;
}

/**
 * Places labels in as few rows as do: one row, least squares; where that shifts a label too far or has no room, the labels
 * take turns in two rows, then three, and the leader of an upper row is a post in the rows below it. Where three rows are full, the
 * least important tenth is dropped and it starts over. Labels of priority 0 stay whatever happens.
 *
 * @param items in order of their wish.
 */
export function placeInRows(
  items: readonly RowItem[],
  options: RowsOptions,
): { readonly placed: readonly PlacedInRow[]; readonly rows: number; readonly dropped: readonly number[] } {
  const byWorth = items
    .map((_, index) => index)
    .sort((a, b) => (items[a]?.priority ?? 0) - (items[b]?.priority ?? 0) || a - b);
  const droppable = byWorth.filter((index) => (items[index]?.priority ?? 0) > 0).length;
  let dropped = 0;
  for (;;) {
    const kept = byWorth.slice(0, byWorth.length - dropped).sort((a, b) => a - b);
    const found = placeKept(items, kept, options);
    if (found) return { ...found, dropped: byWorth.slice(byWorth.length - dropped).sort((a, b) => a - b) };
    if (dropped === droppable) {
      return {
        ...stacked(items, kept, options),
        dropped: byWorth.slice(byWorth.length - dropped).sort((a, b) => a - b),
      };
    }
    dropped = Math.min(droppable, dropped + Math.max(1, Math.floor(items.length / 10)));
  }
}

type Placement = { readonly placed: readonly PlacedInRow[]; readonly rows: number };

function placeKept(items: readonly RowItem[], kept: readonly number[], options: RowsOptions): Placement | undefined {
  let best: (Placement & { readonly shift: number }) | undefined;
  for (let rows = 1; rows <= options.mostRows; rows++) {
    const placed = inTurns(items, kept, rows, options);
    if (!placed) continue;
    const shift = placed.reduce(
      (most, { index, centre }) => Math.max(most, Math.abs(centre - (items[index]?.wanted ?? 0))),
      0,
    );
    // Another row has to be worth its height.
    if (!best || shift < best.shift * 0.7) best = { placed, rows, shift };
    if (best.shift <= options.farthestShift) break;
  }
  return best;
}

function inTurns(
  items: readonly RowItem[],
  kept: readonly number[],
  rows: number,
  options: RowsOptions,
): readonly PlacedInRow[] | undefined {
  const placed: PlacedInRow[] = [];
  let posts = [...options.posts].sort((a, b) => a - b);
  for (let row = rows - 1; row >= 0; row--) {
    const members = kept.filter((_, turn) => turn % rows === row);
    const lane = members.map((index) => items[index] ?? { wanted: 0, width: 0 });
    const centres = posts.length === 0 ? placeInLane(lane, options) : placeBetweenPosts(lane, posts, options);
    if (!centres) return undefined;
    for (const [turn, index] of members.entries()) {
      const centre = centres[turn];
      if (centre === undefined) return undefined;
      placed.push({ index, row, centre });
    }
    posts = [...posts, ...lane.map((item) => item.wanted)].sort((a, b) => a - b);
  }
  return placed;
}

/** Nothing may be dropped and nothing fits: as many rows as it takes, over any leader. */
function stacked(items: readonly RowItem[], kept: readonly number[], options: RowsOptions): Placement {
  const room = options.to - options.from;
  const total = kept.reduce((sum, index) => sum + (items[index]?.width ?? 0) + options.gap, 0);
  for (let rows = Math.max(1, Math.ceil(total / Math.max(room, 1))); rows <= kept.length; rows++) {
    const placed = inTurns(items, kept, rows, { ...options, posts: [] }) ?? withoutPosts(items, kept, rows, options);
    if (placed) return { placed, rows };
  }
  // Each wider than the lane: one a row, at the lane's start.
  return {
    placed: kept.map((index, row) => ({ index, row, centre: options.from + (items[index]?.width ?? 0) / 2 })),
    rows: kept.length,
  };
}

function withoutPosts(
  items: readonly RowItem[],
  kept: readonly number[],
  rows: number,
  options: RowsOptions,
): readonly PlacedInRow[] | undefined {
  const placed: PlacedInRow[] = [];
  for (let row = 0; row < rows; row++) {
    const members = kept.filter((_, turn) => turn % rows === row);
    const centres = placeInLane(
      members.map((index) => items[index] ?? { wanted: 0, width: 0 }),
      options,
    );
    if (!centres) return undefined;
    for (const [turn, index] of members.entries()) placed.push({ index, row, centre: centres[turn] ?? 0 });
  }
  return placed;
}

/**
 * Labels with leaders, in one row or in turns in two. Where two rows are full the least important tenth is dropped and it
 * starts over; labels of priority 0 stay whatever happens, and the lane grows for them.
 */
export function placeLabels(
  items: readonly RowItem[],
  lane: LaneBounds,
  farthest: number,
): InTurns & { readonly kept: readonly number[]; readonly dropped: readonly number[] } {
  const byWorth = items
    .map((_, index) => index)
    .sort((a, b) => (items[a]?.priority ?? 0) - (items[b]?.priority ?? 0) || a - b);
  const droppable = byWorth.filter((index) => (items[index]?.priority ?? 0) > 0).length;
  for (let dropped = 0; ; dropped = Math.min(droppable, dropped + Math.max(1, Math.floor(items.length / 10)))) {
    const kept = byWorth.slice(0, byWorth.length - dropped).sort((a, b) => a - b);
    const members = kept.map((index) => items[index] ?? { wanted: 0, width: 0 });
    const short = dropped === droppable ? Math.max(0, roomInTurns(members, lane.gap) - (lane.to - lane.from)) : 0;
    const placed = placeInTurns(members, { ...lane, from: lane.from - short / 2, to: lane.to + short / 2 }, farthest);
    if (placed) return { ...placed, kept, dropped: byWorth.slice(byWorth.length - dropped).sort((a, b) => a - b) };
  }
}
