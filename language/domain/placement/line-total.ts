import type { Chain } from './chain.ts';
import { afresh, greatestHolding, leastCost, noBudget, type Solving, slackBound } from './solve-chain.ts';

/** What each chain of a line does for the line's number of anchors. */
export interface LineSpread {
  readonly shares: readonly { readonly total: number; readonly cost: number }[];
  /** The greatest slack that all of them can keep together at the least cost, in tape marks. */
  readonly slack: number;
}

/**
 * The cheapest way to bring `wanted` new anchors onto a line whose chains are otherwise strangers: the least cost of each
 * chain for every number of anchors, added up like a small knapsack. `undefined`: so many do not fit.
 */
export function spreadOverLine(chains: readonly Chain[], wanted: number, job: Solving): LineSpread | undefined {
  const cost = leastLineCost(chains, wanted, job);
  if (cost === undefined) return undefined;
  const members = membersOf(chains, job);
  const alone = members.map((member) => costWith(member, 0, 0));
  const others = alone.reduce((sum, own) => sum + own, 0);
  // A chain can spend no more than the others leave.
  const budgeted = members.map((member, index) => ({ ...member, budget: cost - (others - (alone[index] ?? 0)) }));
  const levelsAt = (slack: number) => levelsOf(budgeted, wanted, slack);
  const slack = greatestHolding(
    (candidate) => costOf(restTables(levelsAt(candidate), wanted), wanted) <= cost,
    Math.max(...chains.map(slackBound)),
  );

  const levels = levelsAt(slack);
  const rest = restTables(levels, wanted);
  let left = wanted;
  let budget = cost;
  const shares: { total: number; cost: number }[] = [];
  for (const [index, own] of levels.entries()) {
    // Of the ways that keep both optima, the earlier chains take the fewest.
    const supplyAt = (level: Level) => (rest[index + 1] ?? []).findLastIndex((needed) => needed <= budget - level.cost);
    const chosen = own.find((level) => supplyAt(level) >= 0 && level.most + supplyAt(level) >= left);
    // Only where a search was given up can there be none.
    if (chosen === undefined) return undefined;
    const total = Math.max(0, left - supplyAt(chosen));
    shares.push({ total, cost: chosen.cost });
    left -= total;
    budget -= chosen.cost;
  }
  return { shares, slack };
}

export function leastLineCost(chains: readonly Chain[], wanted: number, job: Solving): number | undefined {
  const cost = costOf(restTables(levelsOf(membersOf(chains, job), wanted, 0), wanted), wanted);
  return cost === Number.POSITIVE_INFINITY ? undefined : cost;
}

/** The most new anchors that fit on a chain, looking no further than `limit`. */
export function mostAnchors(chain: Chain, limit: number, job: Solving): number {
  const fits = (total: number) =>
    leastCost(chain, { slack: 0, total, kinds: undefined, budget: noBudget }, job).cost !== undefined;
  return greatestHolding(fits, limit);
}

/** Up to `most` anchors cost this, and one more costs more. */
interface Level {
  readonly cost: number;
  readonly most: number;
}

/** A chain of the line, with what it may spend, and an allowance of its own for all that is asked about it. */
interface Member {
  readonly chain: Chain;
  readonly budget: number;
  readonly job: Solving;
}

function membersOf(chains: readonly Chain[], job: Solving): Member[] {
  return chains.map((chain) => ({ chain, budget: noBudget, job: afresh(job) }));
}

function costWith({ chain, budget, job }: Member, total: number, slack: number): number {
  return leastCost(chain, { slack, total, kinds: undefined, budget }, job).cost ?? Number.POSITIVE_INFINITY;
}

function levelsOf(members: readonly Member[], wanted: number, slack: number): Level[][] {
  return members.map((member) => {
    const cost = (total: number) => costWith(member, total, slack);
    const levels: Level[] = [];
    // Cost never falls with the number, so a stretch with equal ends is level all through.
    const between = (from: number, costFrom: number, to: number, costTo: number): void => {
      if (costFrom === costTo || to - from <= 1) {
        if (costFrom !== costTo) levels.push({ cost: costFrom, most: from });
        return;
      }
      const middle = Math.floor((from + to) / 2);
      const costMiddle = cost(middle);
      between(from, costFrom, middle, costMiddle);
      between(middle, costMiddle, to, costTo);
    };
    const greatest = cost(wanted);
    between(0, cost(0), wanted, greatest);
    levels.push({ cost: greatest, most: wanted });
    return levels.filter((level) => level.cost !== Number.POSITIVE_INFINITY);
  });
}

/** `tables[k][n]`: the least cost of `n` anchors or more from the chains `k` and on. */
function restTables(levels: readonly (readonly Level[])[], wanted: number): number[][] {
  const tables: number[][] = [
    Array.from({ length: wanted + 1 }, (_, count) => (count === 0 ? 0 : Number.POSITIVE_INFINITY)),
  ];
  for (const own of [...levels].reverse()) {
    const rest = tables[0] ?? [];
    tables.unshift(
      rest.map((_, count) =>
        Math.min(
          ...own.map(({ cost, most }) => cost + (rest[Math.max(0, count - most)] ?? 0)),
          Number.POSITIVE_INFINITY,
        ),
      ),
    );
  }
  return tables;
}

function costOf(tables: readonly (readonly number[])[], wanted: number): number {
  return tables[0]?.[wanted] ?? Number.POSITIVE_INFINITY;
}
