import { byCodeUnits, type Chain, chainsOf, type LineShare, lineShares } from './chain.ts';
import { checkPlacement, type PlacementViolation } from './check.ts';
import { fewestKinds, kindsFor, type SettledChain } from './fewest-kinds.ts';
import { spreadOverLine } from './line-total.ts';
import { type ChainPlacement, type PlacementMemory, placementMemory } from './memory.ts';
import { type PlacedAnchor, type PlacementProblem, type ProblemFault, problemFaults } from './problem.ts';
import {
  afresh,
  bestPlacement,
  greatestHolding,
  leastCost,
  noBudget,
  type Solving,
  slackBound,
  solving,
} from './solve-chain.ts';

export type PlacementAnswer =
  /** The one best placement. */
  | (Placed & { readonly status: 'optimal' })
  /** A placement that holds, where the search was given up before it was proven the best. */
  | (Placed & { readonly status: 'unproven' })
  /** No placement of some pieces, or not so many anchors on some line, exists. What could be placed is there. */
  | (Placed & { readonly status: 'infeasible'; readonly failed: readonly Failure[] })
  /** The search for some pieces was given up before any placement was found. */
  | (Placed & { readonly status: 'gave-up'; readonly failed: readonly Failure[] })
  /** The problem cannot be read. */
  | { readonly status: 'malformed'; readonly faults: readonly ProblemFault[] };

export interface Placed {
  /** New anchors, in the order of the pieces, then of stations. Those of pieces without a placement are missing. */
  readonly anchors: readonly PlacedAnchor[];
  /** Of these anchors. */
  readonly cost: number;
  /** The least room that any of them has to any limit, in the problem's unit; `undefined` where nothing was placed. */
  readonly slack: number | undefined;
  /** Of these, the end anchors on the one spot that an obstruction leaves: they may neither slide nor slip. */
  readonly onlySpots: readonly PlacedAnchor[];
  /** What is wrong between fixed anchors and their surroundings already, and no new anchor can mend. */
  readonly standing: readonly PlacementViolation[];
}

/** Pieces that see each other and cannot all be served, or a line that cannot get its number. */
export type Failure =
  | { readonly kind: 'pieces'; readonly pieces: readonly string[] }
  | { readonly kind: 'line'; readonly line: string };

export interface SolveOptions {
  /** What is known from earlier problems; without one, nothing is kept. */
  readonly memory?: PlacementMemory;
  /** What one step of the search may cost before it is given up: the guard against numbers that make it explode. */
  readonly effort?: number;
}

/**
 * Where new anchors go. Of all placements that keep every limit: the least cost; then the greatest slack, so that holes may
 * miss their marks; then the fewest kinds of hardware; then nearest to the preferred stations; then the least list of
 * stations, and of kinds by name. Pieces that cannot see each other have their own greatest slack each. Where either board
 * of a lap could hold an anchor, which one does is settled before the kinds are.
 *
 * Slack is maximised in whole tape marks. The answer is the same for the same problem, in whatever order its kinds and
 * obstructions are listed, and has passed `checkPlacement`.
 */
export function solvePlacement(problem: PlacementProblem, options: SolveOptions = {}): PlacementAnswer {
  const faults = problemFaults(problem);
  if (faults.length > 0) return { status: 'malformed', faults };
  const job = solving(options.memory ?? placementMemory(), options.effort);
  const chains = chainsOf(problem);
  const failed: Failure[] = [];
  let settled = new Map<number, SettledChain>();
  let gaveUp = false;
  for (const [index, chain] of chains.entries()) {
    const demand = { slack: 0, total: 0, kinds: undefined, budget: noBudget };
    const { cost, unfinished } = leastCost(chain, demand, afresh(job));
    if (cost === undefined) {
      failed.push({ kind: 'pieces', pieces: chain.pieceIds });
      gaveUp ||= unfinished;
    } else settled.set(index, settle(chain, 0, cost, afresh(job)));
  }

  let placements = placeAll(problem, settled, job);
  const short = shortLines(problem, chains, placements).filter((share) =>
    share.chains.every((index) => settled.has(index)),
  );
  for (const share of short) {
    const spread = withShare(share, settled, job);
    if (spread === undefined) {
      failed.push({ kind: 'line', line: share.line.id });
      gaveUp ||= job.tally.unfinished;
    } else settled = spread;
  }
  if (short.length > 0) placements = placeAll(problem, settled, job);
  return checkedAnswer(problem, anchorsOf(chains, placements), failed, { gaveUp, unproven: job.tally.unfinished });
}

/** Lines for which the placements that are best by themselves do not make up the number. */
function shortLines(
  problem: PlacementProblem,
  chains: readonly Chain[],
  placements: ReadonlyMap<number, ChainPlacement>,
): LineShare[] {
  return lineShares(problem, chains).filter(({ chains: counted, wanted }) => {
    return counted.reduce((sum, index) => sum + (placements.get(index)?.anchors.length ?? 0), 0) < wanted;
  });
}

/** The settled chains with the number of a line shared out among its own; `undefined`: so many do not fit. */
function withShare(
  { chains, wanted }: LineShare,
  settled: ReadonlyMap<number, SettledChain>,
  job: Solving,
): Map<number, SettledChain> | undefined {
  const members = chains.flatMap((index) => settled.get(index)?.chain ?? []);
  const spread = spreadOverLine(members, wanted, job);
  if (spread === undefined) return undefined;
  const changed = new Map(settled);
  for (const [at, index] of chains.entries()) {
    const chain = members[at];
    const share = spread.shares[at];
    if (chain !== undefined && share !== undefined)
      changed.set(index, settle(chain, share.total, share.cost, afresh(job)));
  }
  return changed;
}

/** Nothing leaves the solver that its checker does not accept. */
function checkedAnswer(
  problem: PlacementProblem,
  anchors: readonly PlacedAnchor[],
  failed: readonly Failure[],
  { gaveUp, unproven }: { readonly gaveUp: boolean; readonly unproven: boolean },
): PlacementAnswer {
  const { violations, cost, slack, onlySpots } = checkPlacement(problem, anchors);
  const unserved = new Set(failed.flatMap((failure) => (failure.kind === 'pieces' ? failure.pieces : [])));
  const unmet = new Set(failed.flatMap((failure) => (failure.kind === 'line' ? [failure.line] : [])));
  for (const line of problem.lines) if (line.pieces.some((id) => unserved.has(id))) unmet.add(line.id);
  const isExpected = ({ kind, where, across, standing }: PlacementViolation) =>
    standing || (kind === 'line-short' ? unmet.has(where) : unserved.has(where) || unserved.has(across ?? where));
  const wrong = violations.find((violation) => !isExpected(violation));
  if (wrong !== undefined) throw new Error(`the placement fails its own check: ${JSON.stringify(wrong)}`);
  const placed: Placed = { anchors, cost, slack, onlySpots, standing: violations.filter(({ standing }) => standing) };
  if (failed.length > 0) return { ...placed, status: gaveUp ? 'gave-up' : 'infeasible', failed };
  return { ...placed, status: unproven ? 'unproven' : 'optimal' };
}

/** The greatest slack of a chain whose cost is known. */
function settle(chain: Chain, total: number, cost: number, job: Solving): SettledChain {
  if (cost === 0) return { chain, total, cost, slack: 0 };
  const keeps = (slack: number) =>
    leastCost(chain, { slack, total, kinds: undefined, budget: cost }, job).cost !== undefined;
  return { chain, total, cost, slack: greatestHolding(keeps, slackBound(chain)) };
}

/** Places every settled chain with one set of kinds for all, the best of the smallest sets. */
function placeAll(
  problem: PlacementProblem,
  settled: ReadonlyMap<number, SettledChain>,
  job: Solving,
): Map<number, ChainPlacement> {
  const free = new Set(problem.pieces.flatMap((piece) => piece.fixed.flatMap(({ kind }) => kind ?? [])));
  const order = [...settled.keys()].sort((a, b) => a - b);
  let best: { readonly pull: number; readonly placements: Map<number, ChainPlacement> } | undefined;
  for (const kinds of fewestKinds([...settled.values()], free, job)) {
    const placements = new Map<number, ChainPlacement>();
    for (const [index, { chain, total, cost, slack }] of settled) {
      placements.set(
        index,
        bestPlacement(chain, { slack, total, kinds: kindsFor(chain, kinds), budget: cost }, afresh(job)),
      );
    }
    const pull = [...placements.values()].reduce((sum, placement) => sum + placement.pull, 0);
    if (
      best === undefined ||
      pull < best.pull ||
      (pull === best.pull && comesFirst(order, placements, best.placements))
    ) {
      best = { pull, placements };
    }
  }
  return best?.placements ?? new Map();
}

/** Canonical order over the whole problem: stations first, then kinds. */
function comesFirst(
  order: readonly number[],
  a: ReadonlyMap<number, ChainPlacement>,
  b: ReadonlyMap<number, ChainPlacement>,
): boolean {
  const listA = order.map((index) => a.get(index)?.anchors ?? []);
  const listB = order.map((index) => b.get(index)?.anchors ?? []);
  for (const [at, anchors] of listA.entries()) {
    const others = listB[at] ?? [];
    for (const [index, anchor] of anchors.entries()) {
      const other = others[index];
      if (other === undefined) return false;
      if (anchor.station !== other.station) return anchor.station < other.station;
    }
    if (anchors.length < others.length) return true;
  }
  for (const [at, anchors] of listA.entries()) {
    for (const [index, { kind }] of anchors.entries()) {
      const order = byCodeUnits(kind, listB[at]?.[index]?.kind ?? kind);
      if (order !== 0) return order < 0;
    }
  }
  return false;
}

function anchorsOf(chains: readonly Chain[], placements: ReadonlyMap<number, ChainPlacement>): PlacedAnchor[] {
  return chains.flatMap(({ pieceIds, shift }, index) =>
    (placements.get(index)?.anchors ?? []).map(({ piece, station, kind }) => ({
      piece: pieceIds[piece] ?? '',
      station: station + shift,
      kind,
    })),
  );
}
