import type { Chain } from './chain.ts';
import type { ReadAnchor } from './least-kinds.ts';

/**
 * What is known of chains solved before, so that an edit of one piece costs one small solve. A chain is known by its whole
 * content, wherever it stands, so nothing in here can be out of date. Keep one for as long as a document is open.
 */
export interface PlacementMemory {
  readonly chains: Map<string, ChainMemory>;
  /** So many chains are kept; those not asked for longest go first. */
  readonly capacity: number;
}

export interface ChainMemory {
  readonly costs: Map<string, CostAnswer>;
  readonly placements: Map<string, ChainPlacement>;
}

export interface CostAnswer {
  /** `undefined`: nothing within the budget. */
  readonly cost: number | undefined;
  /** What finding it took, and what using it again is charged. */
  readonly effort: number;
  readonly unfinished: boolean;
}

export interface ChainPlacement {
  readonly anchors: readonly ReadAnchor[];
  /** How far the anchors stray from the preferred stations, summed. */
  readonly pull: number;
  readonly effort: number;
  readonly unfinished: boolean;
}

export function placementMemory(capacity = 2000): PlacementMemory {
  return { chains: new Map(), capacity };
}

export function memoryOf(memory: PlacementMemory, chain: Chain): ChainMemory {
  const known = memory.chains.get(chain.key);
  if (known !== undefined) {
    memory.chains.delete(chain.key);
    memory.chains.set(chain.key, known);
    return known;
  }
  const fresh: ChainMemory = { costs: new Map(), placements: new Map() };
  memory.chains.set(chain.key, fresh);
  const oldest = memory.chains.keys().next();
  if (memory.chains.size > memory.capacity && oldest.done !== true) memory.chains.delete(oldest.value);
  return fresh;
}
