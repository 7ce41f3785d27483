import type { WallCase } from './random-walls.ts';

const NEVER = 1e9;

/**
 * The least cost of a wall with every limit tightened by `slack`, mark by mark: for each sixteenth, and each number and
 * strength of the anchors so far, the least cost with an anchor there, from a sliding minimum over the places that can come
 * before. `undefined`: no placement. Shares no idea and no code with the solver; its work grows with length, kinds and sums.
 */
export function gridLeastCost(wall: WallCase, slack: number): number | undefined {
  const maxGap = wall.maxGap - slack;
  const minGap = wall.minGap + slack;
  const emin = wall.emin + slack;
  const emax = wall.emax - slack;
  if (emax < emin || maxGap < minGap) return undefined;
  const allowed = wall.types.map((type) => allowedMarks(wall, type, slack));
  const cuts = [0, ...wall.breaks, wall.length];
  // Cheapest way to have closed the pieces so far with their last anchor at each mark.
  let closedBefore: Int32Array | undefined;

  for (const [piece, demand] of wall.demand.entries()) {
    const from = cuts[piece] ?? 0;
    const to = cuts[piece + 1] ?? 0;
    const sums = cappedSums(
      wall.types.map(({ capacity }) => capacity),
      demand,
    );
    const indexOf = new Map(sums.map((sum, index) => [sum, index]));
    const states = wall.minCount * sums.length;
    const stateOf = (count: number, sum: number) =>
      (Math.min(count, wall.minCount) - 1) * sums.length + (indexOf.get(Math.min(sum, demand)) ?? 0);
    const width = to - from + 1;
    const cost = Array.from({ length: states }, () => new Int32Array(width).fill(NEVER));
    const windows = cost.map((row) => slidingMinimum(row));
    const before = closedBefore === undefined ? undefined : slidingMinimum(closedBefore);
    const closed = new Int32Array(wall.length + 1).fill(NEVER);
    const done = stateOf(wall.minCount, demand);

    for (let x = from; x <= to; x += 1) {
      const entered = x - minGap - from;
      for (const window of windows) window.moveTo(x - maxGap - from, entered);
      if (before !== undefined) before.moveTo(x - maxGap, x - minGap);
      if (x < from + emin || x > to - emin) continue;
      for (const [t, type] of wall.types.entries()) {
        if (allowed[t]?.[x] !== 1) continue;
        if (x <= from + emax) {
          const start = before === undefined ? 0 : before.least();
          lower(cost[stateOf(1, type.capacity)], x - from, start + type.cost);
        }
        for (let count = 1; count <= wall.minCount; count += 1) {
          for (const [index, sum] of sums.entries()) {
            const least = windows[(count - 1) * sums.length + index]?.least() ?? NEVER;
            if (least < NEVER) lower(cost[stateOf(count + 1, sum + type.capacity)], x - from, least + type.cost);
          }
        }
      }
      if (x >= to - emax) closed[x] = cost[done]?.[x - from] ?? NEVER;
    }
    closedBefore = closed;
  }
  const least = (closedBefore ?? new Int32Array()).reduce((a, b) => Math.min(a, b), NEVER);
  return least < NEVER ? least : undefined;
}

/** 1 at the marks where a type may stand and slide by the slack either way without meeting an edge. */
function allowedMarks(wall: WallCase, type: WallCase['types'][number], slack: number): Uint8Array {
  // Half marks tell room that touches from room that does not.
  const open = new Uint8Array(2 * wall.length + 1);
  for (const [from, to] of type.available ?? [[0, wall.length]]) open.fill(1, 2 * from, 2 * to + 1);
  for (const { from, to, clear } of wall.obstructions) {
    const reach = clear + type.half;
    open.fill(0, Math.max(0, 2 * (from - reach) + 1), Math.max(0, 2 * (to + reach)));
  }
  const allowed = new Uint8Array(wall.length + 1);
  let run = 0;
  const openToTheLeft = Array.from(open, (here) => {
    run = here === 1 ? run + 1 : 0;
    return run;
  });
  for (let x = 0; x <= wall.length; x += 1) {
    // The stretch from x - slack to x + slack is open: 4 × slack + 1 half marks that end at 2 (x + slack).
    if ((openToTheLeft[2 * (x + slack)] ?? 0) >= 4 * slack + 1) allowed[x] = 1;
  }
  return allowed;
}

/** All sums of capacities, capped at the demand, in ascending order. */
function cappedSums(capacities: readonly number[], demand: number): number[] {
  const sums = new Set<number>();
  const waiting = [0];
  for (let sum = waiting.pop(); sum !== undefined; sum = waiting.pop()) {
    for (const capacity of capacities) {
      const next = Math.min(demand, sum + capacity);
      if (!sums.has(next)) {
        sums.add(next);
        waiting.push(next);
      }
    }
  }
  return [...sums].sort((a, b) => a - b);
}

/** The least of a row between two marks that only ever move right. */
function slidingMinimum(row: Int32Array) {
  const queue = new Int32Array(row.length);
  let head = 0;
  let tail = 0;
  let next = 0;
  return {
    moveTo(from: number, to: number): void {
      for (; next <= to && next < row.length; next += 1) {
        const value = row[next] ?? NEVER;
        while (tail > head && (row[queue[tail - 1] ?? 0] ?? NEVER) >= value) tail -= 1;
        queue[tail] = next;
        tail += 1;
      }
      while (head < tail && (queue[head] ?? 0) < from) head += 1;
    },
    least: () => (head < tail ? (row[queue[head] ?? 0] ?? NEVER) : NEVER),
  };
}

function lower(row: Int32Array | undefined, at: number, value: number): void {
  if (row !== undefined && value < (row[at] ?? NEVER)) row[at] = value;
}
