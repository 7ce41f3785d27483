import { byCodeUnits, type Chain } from './chain.ts';
import { afresh, leastCost, type Solving } from './solve-chain.ts';

/** A chain whose cost and slack are settled. */
export interface SettledChain {
  readonly chain: Chain;
  readonly total: number;
  readonly cost: number;
  readonly slack: number;
}

/** Sets of kinds tried at most: with more than a dozen kinds that all cost the same there could be thousands. */
const MOST_SETS = 400;

/**
 * All smallest sets of kinds with which every chain still has its cost and its slack, so that the crew carries the fewest
 * sorts of hardware. Kinds that are `free`, as hand-set anchors use them anyway, do not count.
 */
export function fewestKinds(
  chains: readonly SettledChain[],
  free: ReadonlySet<string>,
  job: Solving,
): ReadonlySet<string>[] {
  const offered = [...new Set(chains.flatMap(({ chain }) => kindsOf(chain)))].sort(byCodeUnits);
  const jobs = chains.map(() => afresh(job));
  const suffices = (kinds: ReadonlySet<string>) =>
    chains.every((settled, index) => stillPossible(settled, kinds, jobs[index] ?? job));
  const optional = offered.filter((kind) => !free.has(kind));
  // Whatever cannot be left out alone is in every set: this is what keeps the number of sets to try small.
  const needed = optional.filter((kind) => !suffices(new Set(offered.filter((other) => other !== kind))));
  const doubtful = optional.filter((kind) => !needed.includes(kind));
  const always = [...offered.filter((kind) => free.has(kind)), ...needed];
  const found: Set<string>[] = [];
  let tried = 0;
  for (let size = 0; size <= doubtful.length && found.length === 0; size += 1) {
    for (const chosen of choices(doubtful, size)) {
      tried += 1;
      if (tried > MOST_SETS) {
        job.tally.unfinished = true;
        return found.length > 0 ? found : [new Set(offered)];
      }
      const kinds = new Set([...always, ...chosen]);
      if (suffices(kinds)) found.push(kinds);
    }
  }
  return found.length > 0 ? found : [new Set(offered)];
}

/** The kinds of a set that the chain can use; `undefined` where the set holds all of them. */
export function kindsFor(chain: Chain, kinds: ReadonlySet<string>): ReadonlySet<string> | undefined {
  const own = kindsOf(chain);
  const usable = own.filter((kind) => kinds.has(kind));
  return usable.length === own.length ? undefined : new Set(usable);
}

function stillPossible({ chain, total, cost, slack }: SettledChain, kinds: ReadonlySet<string>, job: Solving): boolean {
  const usable = kindsFor(chain, kinds);
  return (
    usable === undefined || leastCost(chain, { slack, total, kinds: usable, budget: cost }, job).cost !== undefined
  );
}

function kindsOf(chain: Chain): string[] {
  return [...new Set(chain.pieces.flatMap((piece) => piece.offers.map(({ kind }) => kind)))].sort(byCodeUnits);
}

/** All choices of so many, in the order of the list. */
export function* choices<T>(from: readonly T[], size: number): Generator<T[]> {
  if (size === 0) {
    yield [];
    return;
  }
  for (const [index, first] of from.entries()) {
    for (const rest of choices(from.slice(index + 1), size - 1)) yield [first, ...rest];
  }
}
