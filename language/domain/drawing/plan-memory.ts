import { type KeptParts, nothingKept } from './kept-parts.ts';
import type { PlacingMemory } from './placing.ts';

/** What the plan of a pane keeps from one text to the next: its parts, and where strings and labels found room. */
export interface PlanMemory extends KeptParts {
  readonly strings: PlacingMemory;
  readonly labels: PlacingMemory;
}

export function createPlanMemory(): PlanMemory {
  const nothing = (): PlacingMemory => ({ done: undefined, begun: undefined });
  return { ...nothingKept(), strings: nothing(), labels: nothing() };
}
