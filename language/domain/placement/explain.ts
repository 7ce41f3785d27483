import { byCodeUnits, chainOf, chainsOf, insideEnds, lineShares, mirrorOf } from './chain.ts';
import { choices } from './fewest-kinds.ts';
import { isNowhere } from './interval-set.ts';
import { searchLabels } from './labels.ts';
import { leastLineCost, mostAnchors } from './line-total.ts';
import { placementMemory } from './memory.ts';
import type { AnchorLimits, EndLimits, PlacementPiece, PlacementProblem, Stretch } from './problem.ts';
import { setReach } from './reach.ts';
import type { Failure, SolveOptions } from './solve.ts';
import { afresh, greatestHolding, leastCost, noBudget, type Solving, solving } from './solve-chain.ts';
import { tighten } from './tape-marks.ts';

/** Why pieces, or a line, cannot be served, and what would change that. All in data: the wording is the caller's. */
export interface Explanation {
  readonly pieces: readonly string[];
  readonly cause: Cause;
  /**
   * The smallest set of obstructions that leaves no placement even with all others gone. Empty: the limits alone, or the
   * fixed anchors, leave none.
   */
  readonly blockers: readonly string[];
  /** No smaller set does; false where there were too many sets to try and this one is only free of surplus. */
  readonly blockersAreFewest: boolean;
  /** Changes that help, each tried alone, the cheapest first. */
  readonly reliefs: readonly PricedRelief[];
  /** False where some question took too long: then there may be less to it than is said here. */
  readonly proven: boolean;
}

export type Cause =
  /** No kind may be used on it, and what stands there is not enough. */
  | { readonly kind: 'nothing-offered'; readonly piece: string }
  /** Both end distances together leave no tape mark. */
  | { readonly kind: 'piece-too-short'; readonly piece: string; readonly length: number; readonly least: number }
  | {
      readonly kind: 'end-blocked';
      readonly piece: string;
      readonly end: 'left' | 'right';
      readonly window: Stretch;
      readonly obstructions: readonly string[];
    }
  /** It could be done if these fixed anchors, each by itself, were not where they are. */
  | { readonly kind: 'fixed-in-the-way'; readonly piece: string; readonly anchors: readonly string[] }
  /** From the left, anchors reach `reached` and the next place to stand is beyond the greatest gap, or there is none. */
  | {
      readonly kind: 'stretch-blocked';
      readonly piece: string;
      readonly reached: number | undefined;
      readonly next: number | undefined;
      readonly maxGap: number | undefined;
      readonly obstructions: readonly string[];
    }
  | { readonly kind: 'too-few-fit'; readonly piece: string; readonly fit: number; readonly wanted: number }
  | { readonly kind: 'too-weak'; readonly piece: string; readonly greatest: number; readonly demand: number }
  /** Count and strength can each be had, not both. */
  | { readonly kind: 'count-and-strength'; readonly piece: string }
  /** Each piece could be served alone; the gaps across the breaks between them cannot be kept. */
  | { readonly kind: 'across-breaks'; readonly pieces: readonly string[] }
  | { readonly kind: 'line-short'; readonly line: string; readonly fit: number; readonly wanted: number };

export type Relief =
  | { readonly kind: 'lift'; readonly obstruction: string }
  | { readonly kind: 'allow'; readonly anchorKind: string }
  /** Place without this fixed anchor: move it if it was set by hand, replace it if it was found. */
  | { readonly kind: 'release'; readonly anchor: string }
  | { readonly kind: 'less-slip'; readonly slip: number }
  /** What a rule set or an engineer would have to allow, in the unit of the limit: the least that helps. */
  | { readonly kind: 'loosen'; readonly limit: LooseLimit; readonly by: number };
export type LooseLimit = 'end-least' | 'end-most' | 'minGap' | 'maxGap' | 'count' | 'demand' | 'line-count';

export interface PricedRelief {
  readonly relief: Relief;
  /** Anchors of these pieces with it, and what lifting costs. */
  readonly cost: number;
  /** False where the lifting itself has no price, so the cost is of the anchors only. */
  readonly priced: boolean;
}

/** What a failure is looked into with: a tenth of what solving may cost, for each of many small questions. */
const EFFORT = 4_000;
/** Sets of obstructions tried at most, to find the smallest that blocks. */
const MOST_SETS = 300;

export function explainFailure(problem: PlacementProblem, failure: Failure, options: SolveOptions = {}): Explanation {
  const job = solving(options.memory ?? placementMemory(), options.effort ?? EFFORT);
  const ids =
    failure.kind === 'pieces' ? failure.pieces : (problem.lines.find(({ id }) => id === failure.line)?.pieces ?? []);
  const scope = only(problem, new Set(ids), failure.kind === 'line' ? failure.line : undefined);
  const failing = failure.kind === 'line' ? [] : scope.pieces.filter((piece) => !isPossible(alone(scope, piece), job));
  const first = failing[0];
  const cause =
    failure.kind === 'line'
      ? lineCause(scope, failure.line, job)
      : first === undefined
        ? ({ kind: 'across-breaks', pieces: ids } as const)
        : pieceCause(alone(scope, first), first, job);
  const { blockers, fewest } = smallestBlockers(scope, job);
  const helping = reliefs(scope, failing, job);
  const proven = !job.tally.unfinished;
  return { pieces: ids, cause, blockers, blockersAreFewest: fewest, reliefs: helping, proven };
}

/** The first cause that applies, from the plainest to the deepest. */
function pieceCause(problem: PlacementProblem, piece: PlacementPiece, job: Solving): Cause {
  const { id } = piece;
  const counted = piece.fixed.filter(({ counts }) => counts);
  if (piece.offers.length === 0) return { kind: 'nothing-offered', piece: id };
  const insides = piece.offers.map(({ limits }) => insideEnds(piece, limits));
  const fits = insides.some(({ from, to }) => firstMark(problem, from + problem.slip) <= to - problem.slip);
  if (counted.length === 0 && !fits) {
    const taken = piece.offers.map(({ limits }) => limits.left.least + limits.right.least + 2 * problem.slip);
    return { kind: 'piece-too-short', piece: id, length: piece.to - piece.from, least: Math.min(...taken) };
  }

  const marked = tighten(chainOf(problem, [piece]), { slack: 0, total: 0, kinds: undefined }).pieces[0];
  for (const end of ['left', 'right'] as const) {
    const served = marked?.stops.some(({ options }) =>
      options.some((option) => (end === 'left' ? option.first : option.last)),
    );
    const places = marked?.offers.some((offer) =>
      offer.places.some((set) => {
        if (isNowhere(set)) return false;
        return end === 'left'
          ? (set[0] ?? 0) <= (marked.firstGreatest[offer.anchorClass] ?? 0)
          : (set.at(-1) ?? 0) >= (marked.lastLeast[offer.anchorClass] ?? 0);
      }),
    );
    if (served === true || places === true) continue;
    const near = Math.min(...piece.offers.map(({ limits }) => limits[end].least));
    const far = Math.max(...piece.offers.map(({ limits }) => limits[end].most ?? piece.to - piece.from));
    const window =
      end === 'left'
        ? { from: piece.from + near, to: piece.from + far }
        : { from: piece.to - far, to: piece.to - near };
    return { kind: 'end-blocked', piece: id, end, window, obstructions: blocking(piece, window) };
  }

  const inTheWay = counted.filter((anchor) => isPossible(without(problem, anchor.id), job));
  if (inTheWay.length > 0) return { kind: 'fixed-in-the-way', piece: id, anchors: inTheWay.map((anchor) => anchor.id) };

  const bare = withPieces(problem, (other) => ({
    ...mapLimits(other, (limits) => ({ ...limits, count: 1 })),
    demand: 0,
  }));
  if (!isPossible(bare, job)) return stretchCause(bare, piece);
  const weightless = withPieces(problem, (other) => ({ ...other, demand: 0 }));
  if (!isPossible(weightless, job)) {
    const wanted = Math.max(
      ...piece.offers.map(({ limits }) => limits.count),
      ...counted.map(({ limits }) => limits.count),
    );
    return {
      kind: 'too-few-fit',
      piece: id,
      fit: wanted - (leastLoosening(weightless, 'count', job) ?? wanted),
      wanted,
    };
  }
  const uncounted = withPieces(problem, (other) => mapLimits(other, (limits) => ({ ...limits, count: 1 })));
  if (isPossible(uncounted, job)) return { kind: 'count-and-strength', piece: id };
  return {
    kind: 'too-weak',
    piece: id,
    greatest: piece.demand - (leastLoosening(problem, 'demand', job) ?? piece.demand),
    demand: piece.demand,
  };
}

/** How far from the left a row of anchors gets, taking no account of counts and strength. */
function stretchCause(problem: PlacementProblem, piece: PlacementPiece): Cause {
  const chain = mirrorOf(chainOf(problem, [piece]));
  const marked = tighten(chain, { slack: 0, total: 0, kinds: undefined });
  const search = searchLabels(marked, setReach, { budget: noBudget, until: 'first', effort: EFFORT });
  // Mirrored places are negative, so the rightmost station is the least of them.
  const station = (place: number) => -place * problem.step + chain.shift;
  const reachedStations = (search.labels[0] ?? []).flatMap((labels, spot) =>
    labels.map(({ places }) =>
      spot % 2 === 0 ? station(places[0] ?? 0) : chain.shift - (marked.pieces[0]?.stops[(spot - 1) / 2]?.station ?? 0),
    ),
  );
  const reached = reachedStations.length === 0 ? undefined : Math.max(...reachedStations);
  const starts = (marked.pieces[0]?.offers ?? []).flatMap(({ places }) =>
    places.flatMap((set) => set.filter((_, at) => at % 2 === 1).map(station)),
  );
  const beyond = starts.filter((start) => reached === undefined || start > reached);
  const next = beyond.length === 0 ? undefined : Math.min(...beyond);
  const maxGaps = piece.offers.flatMap(({ limits }) => limits.maxGap ?? []);
  return {
    kind: 'stretch-blocked',
    piece: piece.id,
    reached,
    next,
    maxGap: maxGaps.length === 0 ? undefined : Math.max(...maxGaps),
    obstructions: blocking(piece, { from: reached ?? piece.from, to: next ?? piece.to }),
  };
}

function lineCause(problem: PlacementProblem, line: string, job: Solving): Cause {
  const share = lineShares(problem, chainsOf(problem))[0];
  const fit = chainsOf(problem).reduce((sum, chain) => sum + mostAnchors(chain, share?.wanted ?? 0, afresh(job)), 0);
  const wanted = problem.lines[0]?.count ?? 0;
  return { kind: 'line-short', line, fit: fit + wanted - (share?.wanted ?? 0), wanted };
}

/** Every single change that helps. Those of the place and of the choice come before those of the rules where they cost the same. */
function reliefs(problem: PlacementProblem, failing: readonly PlacementPiece[], job: Solving): PricedRelief[] {
  const found: PricedRelief[] = [];
  const attempt = (
    relief: Relief,
    changed: PlacementProblem,
    price: { readonly of: number | undefined } = { of: 0 },
  ) => {
    const cost = leastTotal(changed, job);
    if (cost !== undefined) found.push({ relief, cost: cost + (price.of ?? 0), priced: price.of !== undefined });
  };
  const obstructions = new Map(
    problem.pieces.flatMap((piece) => piece.obstructions.map((obstruction) => [obstruction.id, obstruction] as const)),
  );
  for (const { id, liftable, liftCost } of obstructions.values()) {
    if (liftable)
      attempt(
        { kind: 'lift', obstruction: id },
        keeping(problem, (other) => other !== id),
        { of: liftCost },
      );
  }
  for (const kind of new Set(problem.pieces.flatMap(({ otherOffers }) => otherOffers.map((offer) => offer.kind)))) {
    const allowed = withPieces(problem, (piece) => ({
      ...piece,
      offers: [...piece.offers, ...piece.otherOffers.filter((offer) => offer.kind === kind)],
    }));
    attempt({ kind: 'allow', anchorKind: kind }, allowed);
  }
  for (const { id } of problem.pieces.flatMap(({ fixed }) => fixed))
    attempt({ kind: 'release', anchor: id }, without(problem, id));
  if (problem.slip > 0) {
    const at = (marks: number) => ({ ...problem, slip: Math.min(problem.slip, marks * problem.step) });
    const marks = greatestHolding((value) => isPossible(at(value), job), Math.ceil(problem.slip / problem.step));
    if (isPossible(at(marks), job)) attempt({ kind: 'less-slip', slip: at(marks).slip }, at(marks));
  }
  const loose: readonly LooseLimit[] =
    problem.lines.length > 0
      ? ['line-count', 'minGap', 'end-least', 'end-most']
      : ['end-most', 'end-least', 'maxGap', 'minGap', 'count', 'demand'];
  const target = failing.length === 0 ? undefined : new Set(failing.map(({ id }) => id));
  for (const limit of loose) {
    const by = leastLoosening(problem, limit, job, target);
    if (by !== undefined) attempt({ kind: 'loosen', limit, by }, loosened(problem, limit, by, target));
  }
  const rank = ({ relief }: PricedRelief) => Number(relief.kind === 'loosen');
  return found.sort((a, b) => rank(a) - rank(b) || a.cost - b.cost || Number(b.priced) - Number(a.priced));
}

/** The least change of one limit that makes room, in its own unit, lengths in whole tape marks; `undefined`: none does. */
function leastLoosening(
  problem: PlacementProblem,
  limit: LooseLimit,
  job: Solving,
  target?: ReadonlySet<string>,
): number | undefined {
  const step = limit === 'count' || limit === 'demand' || limit === 'line-count' ? 1 : problem.step;
  const limits = problem.pieces.flatMap((piece) => [...piece.offers, ...piece.fixed].map((anchor) => anchor.limits));
  const span = Math.max(...problem.pieces.map(({ to }) => to)) - Math.min(...problem.pieces.map(({ from }) => from));
  const most: Record<LooseLimit, number> = {
    'end-least': Math.max(0, ...limits.flatMap(({ left, right }) => [left.least, right.least])),
    'end-most': span,
    minGap: Math.max(1, ...limits.map(({ minGap }) => minGap)) - 1,
    maxGap: span,
    count: Math.max(1, ...limits.map(({ count }) => count)) - 1,
    demand: Math.max(...problem.pieces.map(({ demand }) => demand)),
    'line-count': problem.lines[0]?.count ?? 0,
  };
  const helps = (steps: number) => isPossible(loosened(problem, limit, steps * step, target), job);
  const bound = Math.ceil(most[limit] / step);
  if (bound <= 0 || !helps(bound)) return undefined;
  return (bound - greatestHolding((back) => helps(bound - back), bound)) * step;
}

function loosened(
  problem: PlacementProblem,
  limit: LooseLimit,
  by: number,
  target?: ReadonlySet<string>,
): PlacementProblem {
  if (limit === 'line-count')
    return { ...problem, lines: problem.lines.map((line) => ({ ...line, count: Math.max(0, line.count - by) })) };
  return withPieces(problem, (piece) => {
    if (target?.has(piece.id) === false) return piece;
    if (limit === 'demand') return { ...piece, demand: Math.max(0, piece.demand - by) };
    return mapLimits(piece, (limits) => {
      if (limit === 'end-least') {
        return mapEnds(limits, ({ least, most }) => ({ least: Math.max(0, least - by), most }));
      }
      if (limit === 'end-most') {
        return mapEnds(limits, ({ least, most }) => ({ least, most: most === undefined ? undefined : most + by }));
      }
      if (limit === 'minGap') return { ...limits, minGap: Math.max(1, limits.minGap - by) };
      if (limit === 'maxGap')
        return { ...limits, maxGap: limits.maxGap === undefined ? undefined : limits.maxGap + by };
      return { ...limits, count: Math.max(1, limits.count - by) };
    });
  });
}

/** The smallest set of obstructions that blocks with all others lifted, by trying the small sets first. */
function smallestBlockers(problem: PlacementProblem, job: Solving): { blockers: string[]; fewest: boolean } {
  const ids = [...new Set(problem.pieces.flatMap((piece) => piece.obstructions.map(({ id }) => id)))].sort(byCodeUnits);
  const blocks = (set: readonly string[]) =>
    !isPossible(
      keeping(problem, (id) => set.includes(id)),
      job,
    );
  let tries = 0;
  for (let size = 0; size <= ids.length; size += 1) {
    for (const set of choices(ids, size)) {
      tries += 1;
      if (tries > MOST_SETS) return { blockers: freeOfSurplus(ids, blocks), fewest: false };
      if (blocks(set)) return { blockers: set, fewest: true };
    }
  }
  return { blockers: [], fewest: true };
}

function freeOfSurplus(ids: readonly string[], blocks: (set: readonly string[]) => boolean): string[] {
  return ids.reduce<string[]>(
    (set, id) => {
      const rest = set.filter((other) => other !== id);
      return blocks(rest) ? rest : set;
    },
    [...ids],
  );
}

function isPossible(problem: PlacementProblem, job: Solving): boolean {
  return leastTotal(problem, job) !== undefined;
}

/** Least cost of all pieces, with the number of the line where there is one. */
function leastTotal(problem: PlacementProblem, job: Solving): number | undefined {
  const chains = chainsOf(problem);
  let total = 0;
  for (const chain of chains) {
    const { cost } = leastCost(chain, { slack: 0, total: 0, kinds: undefined, budget: noBudget }, afresh(job));
    if (cost === undefined) return undefined;
    total += cost;
  }
  const share = lineShares(problem, chains)[0];
  return share === undefined || share.wanted === 0 ? total : leastLineCost(chains, share.wanted, job);
}

/** Some pieces of the problem, and at most one line. */
function only(problem: PlacementProblem, ids: ReadonlySet<string>, line: string | undefined): PlacementProblem {
  const pieces = problem.pieces.flatMap((piece, index) => {
    const next = problem.pieces[index + 1];
    return ids.has(piece.id)
      ? [{ ...piece, joinsNext: piece.joinsNext && next !== undefined && ids.has(next.id) }]
      : [];
  });
  return { ...problem, pieces, lines: problem.lines.filter(({ id }) => id === line) };
}

function alone(problem: PlacementProblem, piece: PlacementPiece): PlacementProblem {
  return { ...problem, pieces: [{ ...piece, joinsNext: false }], lines: [] };
}

function withPieces(problem: PlacementProblem, change: (piece: PlacementPiece) => PlacementPiece): PlacementProblem {
  return { ...problem, pieces: problem.pieces.map(change) };
}

function keeping(problem: PlacementProblem, keep: (obstruction: string) => boolean): PlacementProblem {
  return withPieces(problem, (piece) => ({ ...piece, obstructions: piece.obstructions.filter(({ id }) => keep(id)) }));
}

function without(problem: PlacementProblem, fixed: string): PlacementProblem {
  return withPieces(problem, (piece) => ({ ...piece, fixed: piece.fixed.filter(({ id }) => id !== fixed) }));
}

function mapLimits(piece: PlacementPiece, change: (limits: AnchorLimits) => AnchorLimits): PlacementPiece {
  return {
    ...piece,
    offers: piece.offers.map((offer) => ({ ...offer, limits: change(offer.limits) })),
    fixed: piece.fixed.map((anchor) => ({ ...anchor, limits: change(anchor.limits) })),
  };
}

function mapEnds(limits: AnchorLimits, change: (end: EndLimits) => EndLimits): AnchorLimits {
  return { ...limits, left: change(limits.left), right: change(limits.right) };
}

function blocking(piece: PlacementPiece, stretch: Stretch): string[] {
  const offered = new Set(piece.offers.map(({ kind }) => kind));
  const blocks = piece.obstructions.filter((obstruction) =>
    obstruction.blocks.some(
      (block) =>
        block.from < stretch.to && block.to > stretch.from && (block.kind === undefined || offered.has(block.kind)),
    ),
  );
  return [...new Set(blocks.map(({ id }) => id))].sort(byCodeUnits);
}

function firstMark({ step }: PlacementProblem, from: number): number {
  return Math.ceil(from / step) * step;
}
