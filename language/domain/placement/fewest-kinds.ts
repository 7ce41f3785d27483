import { byCodeUnits, type Chain } from './chain.ts';
import { leastCost, type Solving } from './solve-chain.ts';

/** A chain whose cost and slack are settled. */
export interface SettledChain {
  readonly chain: Chain;
  readonly total: number;
  readonly cost: number;
  readonly slack: number;
}

/**
 * All smallest sets of kinds with which every chain still has its cost and its slack, so that the crew carries the fewest
 * sorts of hardware. Kinds that are `free`, as hand-set anchors use them anyway, do not count.
 */
export function fewestKinds(
  chains: readonly SettledChain[],
  free: ReadonlySet<string>,
  solving: Solving,
): ReadonlySet<string>[] {
  const offered = [...new Set(chains.flatMap(({ chain }) => kindsOf(chain)))].sort(byCodeUnits);
  const suffices = (kinds: ReadonlySet<string>) => chains.every((settled) => stillPossible(settled, kinds, solving));
  const optional = offered.filter((kind) => !free.has(kind));
  // Whatever cannot be left out alone is in every set: this is what keeps the number of sets to try small.
  const needed = optional.filter((kind) => !suffices(new Set(offered.filter((other) => other !== kind))));
  const doubtful = optional.filter((kind) => !needed.includes(kind));
  const always = [...offered.filter((kind) => free.has(kind)), ...needed];
  for (let size = 0; size <= doubtful.length; size += 1) {
    const found = choices(doubtful, size)
      .map((chosen) => new Set([...always, ...chosen]))
      .filter(suffices);
    if (found.length > 0) return found;
  }
  return [new Set(offered)];
}

/** The kinds of a set that the chain can use; `undefined` where the set holds all of them. */
export function kindsFor(chain: Chain, kinds: ReadonlySet<string>): ReadonlySet<string> | undefined {
  const own = kindsOf(chain);
  const usable = own.filter((kind) => kinds.has(kind));
  return usable.length === own.length ? undefined : new Set(usable);
}

function stillPossible(
  { chain, total, cost, slack }: SettledChain,
  kinds: ReadonlySet<string>,
  solving: Solving,
): boolean {
  const usable = kindsFor(chain, kinds);
  return (
    usable === undefined || leastCost(chain, { slack, total, kinds: usable, budget: cost }, solving).cost !== undefined
  );
}

function kindsOf(chain: Chain): string[] {
  return [...new Set(chain.pieces.flatMap((piece) => piece.offers.map(({ kind }) => kind)))].sort(byCodeUnits);
}

/** All choices of so many, in the order of the list. */
function choices<T>(from: readonly T[], size: number): T[][] {
  if (size === 0) return [[]];
  return from.flatMap((first, index) => choices(from.slice(index + 1), size - 1).map((rest) => [first, ...rest]));
}
