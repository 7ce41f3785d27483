import { isSameList } from '../list-in-runs.ts';
import type { Layout } from '../model/layout.ts';
import { recording } from '../recording.ts';
import type { PlacingMemory } from './placing.ts';

/**
 * What the plan of a pane keeps from one text to the next, so that a wall that did not change is neither drawn nor written again. The
 * drawing is the same as without. It may be left half way: everything in it holds by itself.
 */
export interface PlanMemory {
  readonly kept: Map<string, Kept>;
  readonly strings: PlacingMemory;
  readonly labels: PlacingMemory;
  /** Asked for since the last plan was drawn to its end. */
  readonly asked: Set<string>;
}

interface Kept {
  readonly inputs: readonly unknown[];
  readonly layout: ReadonlyMap<keyof Layout, unknown>;
  readonly counts: ReadonlyMap<string, number | undefined>;
  readonly made: unknown;
}

export function createPlanMemory(): PlanMemory {
  const nothing = (): PlacingMemory => ({ done: undefined, begun: undefined });
  return { kept: new Map(), strings: nothing(), labels: nothing(), asked: new Set() };
}

/** Of what is not in the plan any more nothing is kept. */
export function forgetTheRest({ kept, asked }: PlanMemory): void {
  for (const name of kept.keys()) if (!asked.has(name)) kept.delete(name);
  asked.clear();
}

/** What a part of the plan is drawn from besides its wall: parts of the house, and how many findings are on a thing. */
export interface PlanGround {
  readonly layout: Layout;
  readonly findingsOn: ReadonlyMap<string, number>;
}

/** What was made of the same inputs, where all that it looked at besides is still the same. */
export function keptOr<Made>(
  { kept, asked }: PlanMemory,
  name: string,
  inputs: readonly unknown[],
  ground: PlanGround,
  make: (ground: PlanGround) => Made,
): Made {
  asked.add(name);
  const before = kept.get(name);
  if (before && isSameList(before.inputs, inputs) && isAsRead(before, ground)) return before.made as Made;
  const layout = new Map<keyof Layout, unknown>();
  const counts = new Map<string, number | undefined>();
  const made = make({ layout: recording(ground.layout, layout), findingsOn: counting(ground.findingsOn, counts) });
  kept.set(name, { inputs, layout, counts, made });
  return made;
}

function isAsRead({ layout, counts }: Kept, ground: PlanGround): boolean {
  for (const [part, value] of layout) if (!isSamePart(ground.layout[part], value)) return false;
  for (const [thing, count] of counts) if (ground.findingsOn.get(thing) !== count) return false;
  return true;
}

/** Some lists of the house are made anew with each text; what is in them mostly is not. */
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
