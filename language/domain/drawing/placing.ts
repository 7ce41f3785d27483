import { isSameList } from '../list-in-runs.ts';
import { CELL, cellsOf, isFreeIn, type Occupied, ROWS } from './free-room.ts';
import type { Box } from './scene.ts';

/**
 * Labels and strings take their places in turns, each clear of all before it, so that one moved mark may in principle move any label. Most
 * it leaves alone. A placing that follows another of nearly the same drawing knows what each turn looked at then: where the room in
 * those cells is taken by the same boxes in the same order, the turn ends as it did, and is not searched again. Whatever comes of it
 * is what a search would have found, to the last digit.
 */
export interface Placing {
  occupied(): Occupied;
  /**
   * @param work reads and takes room of this placing, and else hangs on nothing but its inputs
   * @param inputs compared one by one, as they are
   */
  turn<Found>(name: string, inputs: readonly unknown[], work: () => Found): Found;
  /** No more turns: what the one before knew is let go. */
  end(): void;
  readonly known: KnownPlacing;
}

export interface KnownPlacing {
  readonly grids: readonly Grid[];
  readonly turns: ReadonlyMap<string, Turn>;
}
type Grid = Map<number, Cell>;
interface Cell {
  readonly boxes: Box[];
  /** The time at which each was taken. */
  readonly times: number[];
  /** So far the same boxes as in the placing before. */
  isAsBefore: boolean;
}
interface Turn {
  readonly inputs: readonly unknown[];
  readonly time: number;
  /** For each grid the part that was looked at, in cells. */
  readonly looked: (Span | undefined)[];
  readonly taken: { readonly grid: number; readonly box: Box }[];
  found: unknown;
}
interface Span {
  left: number;
  top: number;
  right: number;
  bottom: number;
}

/** What placings know from one to the next. */
export interface PlacingMemory {
  done: KnownPlacing | undefined;
  /** Left off half way, or still going on. */
  begun: KnownPlacing | undefined;
}

/** A placing with what is known of those before. One that was left off may know most: of a large house that was just opened, all. */
export function placingAfter(memory: PlacingMemory): Placing {
  const { done, begun } = memory;
  const placing = createPlacing((done?.turns.size ?? 0) >= (begun?.turns.size ?? 0) ? done : begun);
  memory.begun = placing.known;
  return {
    ...placing,
    end() {
      placing.end();
      memory.done = placing.known;
      memory.begun = undefined;
    },
  };
}

export function createPlacing(before?: KnownPlacing): Placing {
  const grids: Grid[] = [];
  const turns = new Map<string, Turn>();
  const timesNamed = new Map<string, number>();
  let known = before;
  let time = 0;
  let current: Turn | undefined;

  function occupied(): Occupied {
    const index = grids.length;
    const grid: Grid = new Map();
    grids.push(grid);
    return {
      take: (box) => take(index, box),
      isFree: (box) => {
        if (current) look(current, index, box);
        return isFreeIn(box, (key) => grid.get(key)?.boxes);
      },
    };
  }

  function take(index: number, box: Box): void {
    current?.taken.push({ grid: index, box });
    for (const key of cellsOf(box)) {
      const cell = grids[index]?.get(key) ?? { boxes: [], times: [], isAsBefore: true };
      grids[index]?.set(key, cell);
      const then = known?.grids[index]?.get(key)?.boxes[cell.boxes.length];
      cell.isAsBefore &&= then !== undefined && isSameBox(then, box);
      cell.boxes.push(box);
      cell.times.push(time);
    }
  }

  function turn<Found>(name: string, inputs: readonly unknown[], work: () => Found): Found {
    const count = timesNamed.get(name) ?? 0;
    timesNamed.set(name, count + 1);
    const key = `${count} ${name}`;
    time += 1;
    const then = known?.turns.get(key);
    const isAsThen = then !== undefined && isSameList(then.inputs, inputs) && isRoomAsThen(then);
    const turned: Turn = isAsThen
      ? { ...then, time, taken: [] }
      : { inputs, time, looked: [], taken: [], found: undefined };
    current = turned;
    if (isAsThen) for (const { grid, box } of then.taken) take(grid, box);
    else turned.found = work();
    current = undefined;
    turns.set(key, turned);
    time += 1;
    return turned.found as Found;
  }

  function isRoomAsThen({ looked, time: then }: Turn): boolean {
    return looked.every((span, index) => {
      if (!span) return true;
      for (let column = span.left; column <= span.right; column++) {
        for (let row = span.top; row <= span.bottom; row++) {
          const key = column * ROWS + row;
          if (!isCellAsThen(grids[index]?.get(key), known?.grids[index]?.get(key), then)) return false;
        }
      }
      return true;
    });
  }

  return {
    occupied,
    turn,
    end: () => {
      known = undefined;
    },
    known: { grids, turns },
  };
}

/** All boxes now in the cell are those that were there at that time, and no other was. */
function isCellAsThen(now: Cell | undefined, before: Cell | undefined, then: number): boolean {
  if (now && !now.isAsBefore) return false;
  const count = now?.boxes.length ?? 0;
  const [last, next] = [before?.times[count - 1], before?.times[count]];
  return (last === undefined || last < then) && (next === undefined || next >= then);
}

function look({ looked }: Turn, grid: number, { x, y, width, height }: Box): void {
  const [left, top] = [Math.floor(x / CELL), Math.floor(y / CELL)];
  const [right, bottom] = [Math.floor((x + width) / CELL), Math.floor((y + height) / CELL)];
  const span = looked[grid];
  if (!span) {
    looked[grid] = { left, top, right, bottom };
    return;
  }
  if (left < span.left) span.left = left;
  if (top < span.top) span.top = top;
  if (right > span.right) span.right = right;
  if (bottom > span.bottom) span.bottom = bottom;
}

const isSameBox = (a: Box, b: Box): boolean =>
  a === b || (a.x === b.x && a.y === b.y && a.width === b.width && a.height === b.height);
