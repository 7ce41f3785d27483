import { type Chain, type ChainPiece, insideEnds, mostFrom } from './chain.ts';
import { completionsFromTheLeft } from './completions.ts';
import { type SearchOptions, searchLabels } from './labels.ts';
import type { ReadAnchor } from './least-kinds.ts';
import { type ChainPlacement, type CostAnswer, memoryOf, type PlacementMemory } from './memory.ts';
import { pullReach, type Reach, setReach } from './reach.ts';
import { readBack } from './read-back.ts';
import { tighten } from './tape-marks.ts';

/** What is asked of a chain. */
export interface ChainDemand {
  /** In tape marks, to spare on every limit. */
  readonly slack: number;
  /** New anchors at least, over the chain. */
  readonly total: number;
  /** `undefined`: all that are offered. */
  readonly kinds: ReadonlySet<string> | undefined;
  readonly budget: number;
}

/** Shared by all questions about the chains of one problem. */
export interface Solving {
  readonly memory: PlacementMemory;
  /** What one question, or one row of questions, may cost before it is given up. */
  readonly effort: number;
  /** What is left of it for the questions at hand. */
  readonly allowance: { left: number };
  /** Set once any search was given up: what follows holds, but is not proven the best. */
  readonly tally: { unfinished: boolean };
}

/** About a second of searching. A wall of 200 ft takes a hundredth of it. */
const MOST_EFFORT = 40_000;

export const noBudget = Number.POSITIVE_INFINITY;

export function solving(memory: PlacementMemory, effort = MOST_EFFORT): Solving {
  return { memory, effort, allowance: { left: effort }, tally: { unfinished: false } };
}

/** For the next row of questions: the allowance is whole again. */
export function afresh(job: Solving): Solving {
  return { ...job, allowance: { left: job.effort } };
}

export function leastCost(chain: Chain, demand: ChainDemand, job: Solving): CostAnswer {
  const { costs } = memoryOf(job.memory, chain);
  const key = keyOf(demand);
  const known = costs.get(key);
  if (known !== undefined && isWorthAs(known, job)) return charged(known, job);
  const search = searchLabels(tighten(chain, demand), setReach, optionsFor(demand, 'first', job));
  const answer: CostAnswer = { cost: search.cost, effort: search.effort, unfinished: search.unfinished };
  costs.set(key, answer);
  return charged(answer, job);
}

/**
 * The greatest whole number up to `bound` for which something holds that, holding for one, holds for all below it: 0 is
 * taken to hold. The bound, the usual answer for slack, is tried first, the rest is halved.
 */
export function greatestHolding(holds: (value: number) => boolean, bound: number): number {
  if (bound <= 0 || holds(bound)) return Math.max(0, bound);
  let possible = 0;
  let impossible = bound;
  while (impossible - possible > 1) {
    const middle = Math.floor((possible + impossible) / 2);
    if (holds(middle)) possible = middle;
    else impossible = middle;
  }
  return possible;
}

/**
 * No placement that places anything keeps more than this to spare: half the widest window at either end of each piece that
 * needs new end anchors, half the widest clear stretch of any.
 */
export function slackBound(chain: Chain): number {
  let tightest = Number.POSITIVE_INFINITY;
  let widest = 0;
  for (const piece of chain.pieces) {
    const rooms = piece.offers.map(({ limits, clear }) => {
      const inside = insideEnds(piece, limits);
      const stretches = clear.map(({ from, to }) => Math.min(to, inside.to) - Math.max(from, inside.from));
      return { limits, room: Math.max(0, ...stretches) };
    });
    widest = Math.max(widest, ...rooms.map(({ room }) => room));
    if (piece.fixed.length > 0 || piece.leftPin !== undefined || piece.rightPin !== undefined) continue;
    for (const end of ['left', 'right'] as const) {
      const windows = rooms.map(({ limits, room }) => Math.min(room, mostFrom(end, limits) - limits[end].least));
      tightest = Math.min(tightest, Math.max(0, ...windows));
    }
  }
  return Math.max(0, Math.floor((Math.min(tightest, widest) / 2 - chain.slip) / chain.step));
}

/** The best placement at a known least cost and greatest slack: nearest to the preferred stations, then in canonical order. */
export function bestPlacement(chain: Chain, demand: ChainDemand, job: Solving): ChainPlacement {
  const { placements } = memoryOf(job.memory, chain);
  const key = keyOf(demand);
  const known = placements.get(key);
  if (known !== undefined && isWorthAs(known, job)) return charged(known, job);
  const isEven = chain.pieces.some((piece) => piece.preferred === 'evenly');
  const first = isEven
    ? placementBy(
        setReach,
        drawnTo(chain, () => []),
        demand,
        'all',
        job,
      )
    : undefined;
  const drawn =
    first === undefined ? chain : drawnTo(chain, (piece, index) => evenStations(piece, index, first.anchors));
  const placement =
    (drawn.pieces.some((piece) => piece.preferred.length > 0)
      ? placementBy(pullReach, drawn, demand, 'all', job)
      : placementBy(setReach, drawn, demand, 'all', job)) ?? anyPlacement(chain, demand, job);
  placements.set(key, placement);
  return charged(placement, job);
}

/** Other preferred stations on the pieces that ask for equal gaps. */
function drawnTo(chain: Chain, stationsFor: (piece: ChainPiece, index: number) => readonly number[]): Chain {
  const pieces = chain.pieces.map((piece, index) =>
    piece.preferred === 'evenly' ? { ...piece, preferred: stationsFor(piece, index) } : piece,
  );
  return { ...chain, pieces };
}

/**
 * Where the anchors of a placement would stand with equal gaps: between the middles of the end windows, and between fixed
 * anchors, as many in each stretch as the placement has there.
 */
function evenStations(piece: ChainPiece, index: number, anchors: readonly ReadAnchor[]): number[] {
  const own = anchors.filter((anchor) => anchor.piece === index);
  const limitsOf = (anchor: ReadAnchor | undefined) => piece.offers.find(({ kind }) => kind === anchor?.kind)?.limits;
  const middleOf = (end: 'left' | 'right', anchor: ReadAnchor | undefined) => {
    const { least, most } = limitsOf(anchor)?.[end] ?? { least: 0, most: undefined };
    const share = (piece.to - piece.from) / (2 * Math.max(1, own.length + piece.fixed.length));
    return most === undefined ? Math.max(least, share) : (least + most) / 2;
  };
  const fixed = piece.fixed.map(({ station }) => station);
  const bounds = [Number.NEGATIVE_INFINITY, ...fixed, Number.POSITIVE_INFINITY];
  const stations = bounds.slice(1).flatMap((to, run) => {
    const from = bounds[run] ?? 0;
    const between = own.filter(({ station }) => station > from && station < to);
    const count = between.length;
    const isFirst = run === 0;
    const isLast = to === Number.POSITIVE_INFINITY;
    const start = isFirst ? piece.from + middleOf('left', between[0]) : from;
    const end = isLast ? piece.to - middleOf('right', between.at(-1)) : to;
    if (isFirst && isLast && count === 1) return [(start + end) / 2];
    // An end anchor takes the end of its stretch itself; next to a fixed one there is a gap first.
    const gaps = count + 1 - Number(isFirst) - Number(isLast);
    return between.map((_, at) => start + ((at + Number(!isFirst)) * (end - start)) / gaps);
  });
  return [...new Set(stations.map(Math.round))].sort((a, b) => a - b);
}

function placementBy<P>(
  reach: Reach<P>,
  chain: Chain,
  demand: ChainDemand,
  until: 'first' | 'all',
  job: Solving,
): ChainPlacement | undefined {
  const marked = tighten(chain, demand);
  const completions =
    until === 'all' ? completionsFromTheLeft(chain, marked, demand, demand.budget, job.allowance.left) : undefined;
  const search = searchLabels(marked, reach, { ...optionsFor(demand, until, job), completions });
  const anchors = readBack(marked, reach, search);
  return anchors === undefined
    ? undefined
    : { anchors, pull: search.pull, effort: search.effort, unfinished: search.unfinished };
}

/** Where looking at all placements of the least cost takes too long: the one that the search for the cost came upon. */
function anyPlacement(chain: Chain, demand: ChainDemand, job: Solving): ChainPlacement {
  const undrawn: Chain = { ...chain, pieces: chain.pieces.map((piece) => ({ ...piece, preferred: [] })) };
  const placement = placementBy(setReach, undrawn, demand, 'first', afresh(job));
  if (placement === undefined) throw new Error('a placement of known cost could not be read back');
  return { ...placement, unfinished: true };
}

function optionsFor(demand: ChainDemand, until: 'first' | 'all', job: Solving): SearchOptions {
  return { budget: demand.budget, until, effort: job.allowance.left };
}

/** An answer from memory has to be the one that a search with the present allowance would give: memory changes no answer. */
function isWorthAs(known: { readonly effort: number; readonly unfinished: boolean }, job: Solving): boolean {
  return known.unfinished ? known.effort >= job.allowance.left : known.effort <= job.allowance.left;
}

function charged<A extends { readonly effort: number; readonly unfinished: boolean }>(answer: A, job: Solving): A {
  job.allowance.left = Math.max(0, job.allowance.left - answer.effort);
  if (answer.unfinished) job.tally.unfinished = true;
  return answer;
}

function keyOf({ slack, total, kinds, budget }: ChainDemand): string {
  return `${slack} ${total} ${budget} ${kinds === undefined ? '' : JSON.stringify([...kinds].sort())}`;
}
