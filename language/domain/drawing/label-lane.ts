/**
 * Spreads things along a lane: the order stays, neighbours keep their least distance, all stand between the bounds, and the
 * sum of squared shifts is least. With the distances taken out this is isotonic regression, solved exactly by pooling
 * adjacent violators (Barlow et al. 1972; Best and Chakravarti 1990); bounds then only clamp. O(n).
 *
 * @param wanted centres, in order; a centre left of the one before is legal and is pushed right.
 * @param apart least distances between neighbours: one fewer than `wanted`.
 * @returns the centres, or `undefined` where the lane is too short.
 */
export function spreadAlong(
  wanted: readonly number[],
  apart: readonly number[],
  bounds: { readonly from: number; readonly to: number },
): readonly number[] | undefined {
  const offsets: number[] = [];
  let offset = 0;
  for (let index = 0; index < wanted.length; index++) {
    if (index > 0) offset += apart[index - 1] ?? 0;
    offsets.push(offset);
  }
  if (wanted.length === 0) return [];
  const room = bounds.to - offset;
  // Sums of distances carry rounding of their own.
  if (room < bounds.from - 1e-9) return undefined;
  const pools: { total: number; count: number }[] = [];
  for (let index = 0; index < wanted.length; index++) {
    let pool = { total: (wanted[index] ?? 0) - (offsets[index] ?? 0), count: 1 };
    for (let last = pools[pools.length - 1]; last && last.total / last.count >= pool.total / pool.count; ) {
      pool = { total: last.total + pool.total, count: last.count + pool.count };
      pools.pop();
      last = pools[pools.length - 1];
    }
    pools.push(pool);
  }
  const centres: number[] = [];
  for (const pool of pools) {
    const level = Math.min(Math.max(pool.total / pool.count, bounds.from), Math.max(room, bounds.from));
    for (let count = 0; count < pool.count; count++) centres.push(level + (offsets[centres.length] ?? 0));
  }
  return centres;
}

export interface LaneItem {
  /** Wanted centre. */
  readonly wanted: number;
  readonly width: number;
}
export interface LaneBounds {
  readonly from: number;
  readonly to: number;
  /** Clear space between neighbours. */
  readonly gap: number;
}

/** Centres of labels in one lane, in the order given; `undefined` where they don't fit. */
export function placeInLane(items: readonly LaneItem[], lane: LaneBounds): readonly number[] | undefined {
  const first = items[0];
  const last = items[items.length - 1];
  if (!first || !last) return [];
  const apart: number[] = [];
  for (let index = 1; index < items.length; index++) {
    apart.push(((items[index - 1]?.width ?? 0) + (items[index]?.width ?? 0)) / 2 + lane.gap);
  }
  const wanted = items.map((item) => item.wanted);
  return spreadAlong(wanted, apart, { from: lane.from + first.width / 2, to: lane.to - last.width / 2 });
}

export interface InTurns {
  readonly centres: readonly number[];
  /** Row 0 is the nearest to the things; every other label stands in row 1 where two rows are needed. */
  readonly rows: readonly number[];
  readonly rowCount: number;
  /** Farthest from its wish. */
  readonly shift: number;
}

/**
 * One row if none has to move further than `farthest`; else two, where labels that crowd each other take turns. The leader of an
 * upper label comes down at its centre, between two lower labels, so the centres keep the order of the things and no two
 * leaders cross: with the distances of neighbours known, this is the same least-squares problem as one row.
 * `undefined` where even two rows are full.
 */
export function placeInTurns(items: readonly LaneItem[], lane: LaneBounds, farthest: number): InTurns | undefined {
  const wanted = items.map((item) => item.wanted);
  const one = placeInLane(items, lane);
  const first =
    one &&
    described(
      one,
      wanted,
      one.map(() => 0),
    );
  if (first && first.shift <= farthest) return first;
  let best = first;
  const inRows = (rows: readonly number[]): InTurns | undefined => {
    const [start, end] = [items[0], items[items.length - 1]];
    const bounds = { from: lane.from + (start?.width ?? 0) / 2, to: lane.to - (end?.width ?? 0) / 2 };
    const two = spreadAlong(wanted, apartInRows(items, rows, lane.gap), bounds);
    return two && described(two, wanted, rows);
  };
  for (const limit of [farthest, 0]) {
    const second = inRows(turnsOf(items, lane.gap, limit));
    if (second && (!best || second.shift < best.shift)) best = second;
    if (best && best.shift <= farthest) break;
  }
  // In a lane narrower than the things themselves lie apart, labels that never crowded each other take turns too.
  return best ?? inRows(items.map((_, index) => index % 2));
}

/** The room that labels need in two rows, from edge to edge. */
export function roomInTurns(items: readonly LaneItem[], gap: number): number {
  const ends = ((items[0]?.width ?? 0) + (items[items.length - 1]?.width ?? 0)) / 2;
  const turns = items.map((_, index) => index % 2);
  return apartInRows(items, turns, gap).reduce((sum, distance) => sum + distance, ends) + 1e-6;
}

/** Labels that would stand shoulder to shoulder in one row, and one of them too far off, take turns; all others stay below. */
function turnsOf(items: readonly LaneItem[], gap: number, farthest: number): readonly number[] {
  const alone = placeInLane(items, { from: Number.NEGATIVE_INFINITY, to: Number.POSITIVE_INFINITY, gap }) ?? [];
  const rows: number[] = [];
  for (let start = 0; start < items.length; ) {
    let end = start;
    let shift = 0;
    do {
      shift = Math.max(shift, Math.abs((alone[end] ?? 0) - (items[end]?.wanted ?? 0)));
      end++;
    } while (end < items.length && shoulderToShoulder(alone, items, end, gap));
    for (let index = start; index < end; index++) rows.push(shift > farthest ? (index - start) % 2 : 0);
    start = end;
  }
  return rows;
}

function shoulderToShoulder(
  centres: readonly number[],
  items: readonly LaneItem[],
  index: number,
  gap: number,
): boolean {
  const apart = (centres[index] ?? 0) - (centres[index - 1] ?? 0);
  return apart <= ((items[index]?.width ?? 0) + (items[index - 1]?.width ?? 0)) / 2 + gap + 1e-6;
}

/** Least distances of neighbours: labels of one row clear each other, a lower label clears the leaders of its neighbours. */
function apartInRows(items: readonly LaneItem[], rows: readonly number[], gap: number): readonly number[] {
  const clear = Math.max(gap / 2, 0.9);
  const widthOf = (index: number): number => items[index]?.width ?? 0;
  const apart = items.slice(1).map((item, index) => {
    if (rows[index] === rows[index + 1]) return (item.width + widthOf(index)) / 2 + gap;
    return (rows[index] === 0 ? widthOf(index) : item.width) / 2 + clear;
  });
  // Two labels of one row with others between them: what those leave wanting falls to all steps alike.
  const latest = new Map<number, number>();
  items.forEach((item, index) => {
    const before = latest.get(rows[index] ?? 0);
    latest.set(rows[index] ?? 0, index);
    if (before === undefined || before === index - 1) return;
    const steps = index - before;
    let sum = 0;
    for (let step = before; step < index; step++) sum += apart[step] ?? 0;
    const short = (item.width + widthOf(before)) / 2 + gap - sum;
    if (short <= 0) return;
    for (let step = before; step < index; step++) apart[step] = (apart[step] ?? 0) + short / steps;
  });
  return apart;
}

function described(centres: readonly number[], wanted: readonly number[], rows: readonly number[]): InTurns {
  return {
    centres,
    rows,
    rowCount: rows.includes(1) ? 2 : 1,
    shift: centres.reduce((most, centre, index) => Math.max(most, Math.abs(centre - (wanted[index] ?? centre))), 0),
  };
}

/**
 * As `placeInLane`, but nothing may stand on a post: posts are leaders of other lanes, and can't give way. Each item goes to
 * the stretch between posts that is nearest to its wish and has room, then each stretch is spread by itself.
 *
 * @returns a centre for each item, `undefined` for those that found no room.
 */
export function placeBetweenPosts(
  items: readonly LaneItem[],
  posts: readonly number[],
  lane: LaneBounds & { readonly clearOfPost: number },
): readonly (number | undefined)[] {
  // One on the end of the lane, or just outside, takes room from it all the same.
  const edges = [
    lane.from - lane.clearOfPost,
    ...posts.filter((post) => post > lane.from - lane.clearOfPost && post < lane.to + lane.clearOfPost),
    lane.to + lane.clearOfPost,
  ];
  const stretches = edges.slice(1).map((edge, index) => ({
    from: (edges[index] ?? 0) + lane.clearOfPost,
    to: edge - lane.clearOfPost,
    used: 0,
    items: [] as number[],
  }));
  const centres: (number | undefined)[] = items.map(() => undefined);
  items.forEach((item, itemIndex) => {
    const home = lastAtOrBefore(edges, item.wanted);
    let best: { readonly stretch: (typeof stretches)[number]; readonly shift: number } | undefined;
    for (let away = 0; away <= FARTHEST_STRETCH; away++) {
      for (const stretch of away === 0 ? [stretches[home]] : [stretches[home - away], stretches[home + away]]) {
        if (!stretch) continue;
        const more = item.width + (stretch.items.length > 0 ? lane.gap : 0);
        if (stretch.used + more > stretch.to - stretch.from + 1e-9) continue;
        const nearest = Math.min(Math.max(item.wanted, stretch.from + item.width / 2), stretch.to - item.width / 2);
        const shift = Math.abs(nearest - item.wanted);
        if (!best || shift < best.shift - 1e-9) best = { stretch, shift };
      }
    }
    if (!best) return;
    best.stretch.used += item.width + (best.stretch.items.length > 0 ? lane.gap : 0);
    best.stretch.items.push(itemIndex);
  });
  for (const stretch of stretches) {
    const members = stretch.items.map((index) => ({ index, item: items[index] ?? { wanted: 0, width: 0 } }));
    const placed = placeInLane(
      members.map((member) => member.item),
      { from: stretch.from, to: stretch.to, gap: lane.gap },
    );
    members.forEach((member, index) => {
      centres[member.index] = placed?.[index];
    });
  }
  return centres;
}

/** How many stretches away an item looks for room: keeps a crowded lane linear, and a mark near its place. */
const FARTHEST_STRETCH = 8;

function lastAtOrBefore(sorted: readonly number[], value: number): number {
  let low = 0;
  let high = sorted.length - 2;
  while (low < high) {
    const middle = Math.ceil((low + high) / 2);
    if ((sorted[middle] ?? 0) <= value) low = middle;
    else high = middle - 1;
  }
  return low;
}
