import { partsThatSayTheSame } from '../as-it-was.ts';
import { isSameList } from '../list-in-runs.ts';
import type { Layout, Wall } from '../model/layout.ts';
import { recording } from '../recording.ts';

/**
 * What a drawing of the pane keeps from one text to the next, so that what did not change is neither drawn nor written again. The drawing
 * is the same as without. It may be left half way: everything in it holds by itself.
 */
export interface KeptParts {
  readonly kept: Map<string, Kept>;
  /** Asked for since the last drawing came to its end. */
  readonly asked: Set<string>;
  /** Of an elevation, as it was drawn last. */
  wall?: Wall;
}

interface Kept {
  readonly inputs: readonly unknown[];
  readonly layout: ReadonlyMap<keyof Layout, unknown>;
  readonly wall: ReadonlyMap<keyof Wall, unknown>;
  readonly counts: ReadonlyMap<string, number | undefined>;
  readonly made: unknown;
}

export const nothingKept = (): KeptParts => ({ kept: new Map(), asked: new Set() });

/** Of what is not in the drawing any more nothing is kept. */
export function forgetTheRest({ kept, asked }: KeptParts): void {
  for (const name of kept.keys()) if (!asked.has(name)) kept.delete(name);
  asked.clear();
}

/** The wall as it is, with the things of before where they say the same: a key makes all work of its block anew. */
export function wallToDraw(memory: KeptParts, wall: Wall): Wall {
  const before = memory.wall;
  memory.wall = before?.id === wall.id ? partsThatSayTheSame(before, wall) : wall;
  return memory.wall;
}

/** What a part is drawn from besides what it is given: parts of the house and of a wall, and how many findings are on a thing. */
export interface Ground {
  readonly layout: Layout;
  readonly wall?: Wall;
  readonly findingsOn: ReadonlyMap<string, number>;
}

/**
 * What was made of the same inputs, where all that it looked at besides is still the same.
 * @param make is given a view of the house and of the wall that notes what is looked at. The wall is no member of `layout.walls` there, so
 *   nothing that looks for it round its corners may be asked
 */
export function keptOr<On extends Ground, Made>(
  { kept, asked }: KeptParts,
  name: string,
  inputs: readonly unknown[],
  ground: On,
  make: (ground: On) => Made,
): Made {
  asked.add(name);
  const before = kept.get(name);
  if (before && isSameList(before.inputs, inputs) && isAsRead(before, ground)) return before.made as Made;
  const layout = new Map<keyof Layout, unknown>();
  const wall = new Map<keyof Wall, unknown>();
  const counts = new Map<string, number | undefined>();
  const made = make({
    ...ground,
    layout: recording(ground.layout, layout),
    ...(ground.wall ? { wall: recording(ground.wall, wall) } : {}),
    findingsOn: counting(ground.findingsOn, counts),
  });
  kept.set(name, { inputs, layout, wall, counts, made });
  return made;
}

function isAsRead({ layout, wall, counts }: Kept, ground: Ground): boolean {
  for (const [part, value] of layout) if (!isSamePart(ground.layout[part], value)) return false;
  for (const [part, value] of wall) if (!isSamePart(ground.wall?.[part], value)) return false;
  for (const [thing, count] of counts) if (ground.findingsOn.get(thing) !== count) return false;
  return true;
}

/** Some lists are made anew with each text; what is in them mostly is not. */
const isSamePart = (a: unknown, b: unknown): boolean =>
  a === b || (Array.isArray(a) && Array.isArray(b) && isSameList(a, b));

/** The same counts, noting which are asked for. */
function counting(
  counts: ReadonlyMap<string, number>,
  read: Map<string, number | undefined>,
): ReadonlyMap<string, number> {
  const view = new Map(counts);
  view.get = (thing) => {
    const count = counts.get(thing);
    read.set(thing, count);
    return count;
  };
  return view;
}
