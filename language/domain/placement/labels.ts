import { boundsOf, leastRestCosts } from './bounds.ts';
import type { Completions } from './completions.ts';
import { popLeast, push } from './queue.ts';
import type { Reach } from './reach.ts';
import { endOfPiece, firstSteps, type Step, stepsLeft } from './steps-left.ts';
import type { MarkedChain } from './tape-marks.ts';

/**
 * Everything to the right of a cut through the chain that shares these numbers: how many anchors, how strong, how dear.
 * `places` is where its leftmost anchor can stand, over every way to get these numbers: a set, so nothing is lost. The
 * search runs from the right end so that an answer can be read from the left, least station first.
 */
export interface Label<P> {
  readonly piece: number;
  /** Runs and stops of a piece are numbered together from the left: run `i` is spot `2i`, stop `i` is spot `2i + 1`. */
  readonly spot: number;
  /** Of the leftmost anchor. */
  readonly anchorClass: number;
  /** New anchors wanted in the piece, for the kinds used in it so far. */
  readonly need: number;
  /** New anchors in the piece so far, their strength, both capped at what is wanted. */
  readonly anchors: number;
  readonly strength: number;
  /** New anchors in the chain so far, capped. */
  readonly total: number;
  readonly cost: number;
  /** No placement through this label costs less. */
  readonly estimate: number;
  /** The numbers above in one string: labels that agree in all of them are one. */
  readonly key: string;
  places: P;
}

export interface Search<P> {
  readonly cost: number | undefined;
  /** Least pull of the placements of that cost; only when all were searched for. */
  readonly pull: number;
  /** Those taken, by piece and spot. */
  readonly labels: readonly (readonly (readonly Label<P>[])[])[];
  readonly effort: number;
  /** The search was given up: the cost is unknown. */
  readonly unfinished: boolean;
}

export interface SearchOptions {
  /** No placement dearer than this is looked for. */
  readonly budget: number;
  /** `first`: stop at the first, which is a cheapest. `all`: go on through all labels of placements as cheap. */
  readonly until: 'first' | 'all';
  /** Labels taken, and a share for each that they are held against and for their size: given up beyond it. */
  readonly effort: number;
  /** Where a label has to stand to be of any use, when that is known from elsewhere. */
  readonly completions?: Completions | undefined;
}

/**
 * The cheapest placements of a chain: labels in the order of their estimate, joined where their numbers agree, freed of
 * places that an earlier label serves at least as well. Estimates never exceed the cost of any completion and never fall
 * along a path, so the first label that closes the chain has the least cost.
 */
export function searchLabels<P>(marked: MarkedChain, reach: Reach<P>, options: SearchOptions): Search<P> {
  const bounds = marked.pieces.map(boundsOf);
  const cheapest = Math.min(...bounds.map((bound) => bound.cheapest));
  const restCosts = leastRestCosts(bounds);
  const open = new Map<string, Label<P>>();
  const queue: Label<P>[] = [];
  const labels = marked.pieces.map((piece) => Array.from({ length: 2 * piece.stops.length + 1 }, (): Label<P>[] => []));
  let budget = options.budget;
  let cost: number | undefined;
  let pull = Number.POSITIVE_INFINITY;
  let effort = 0;

  for (const step of firstSteps(marked, reach)) offer(step);
  while (queue.length > 0) {
    const label = popLeast(queue, comesBefore);
    if (label === undefined || label.estimate > budget) break;
    open.delete(label.key);
    const taken = labels[label.piece]?.[label.spot];
    if (taken === undefined) continue;
    label.places = newPlaces(label, taken);
    if (reach.isEmpty(label.places)) continue;
    effort += 1 + taken.length / 1000 + reach.size(label.places) / 40;
    taken.push(label);
    if (effort > options.effort) return { cost: undefined, pull, labels, effort, unfinished: true };
    const ended = label.piece === 0 && label.total >= marked.total ? endOfPiece(marked, reach, label) : undefined;
    if (ended !== undefined) {
      cost = label.cost;
      budget = Math.min(budget, cost);
      pull = Math.min(pull, reach.leastPull(ended));
      if (options.until === 'first') break;
    }
    for (const step of stepsLeft(marked, reach, label)) offer(step);
  }
  return { cost, pull, labels, effort, unfinished: false };

  /** Puts a step in the queue, or joins it with the label there that has the same numbers. */
  function offer(step: Step<P>): void {
    const bound = bounds[step.piece];
    const here = marked.pieces[step.piece];
    if (bound === undefined || here === undefined || step.cost > budget) return;
    // Numbers beyond what can be wanted are all one; kept apart they would only multiply the labels.
    const anchors = Math.min(step.anchors, bound.greatestNeed);
    const strength = Math.min(step.strength, here.demand);
    const total = Math.min(step.total, marked.total);
    const inPiece = Math.max(bound.toCover(here.demand - strength), bound.toCount(step.need - anchors));
    const inTotal = total < marked.total ? (marked.total - total) * cheapest : 0;
    const estimate = step.cost + Math.max(inPiece + (restCosts[step.piece] ?? 0), inTotal);
    if (!(estimate <= budget)) return;
    const places = step.places();
    if (reach.isEmpty(places)) return;
    const { piece, spot, anchorClass, need } = step;
    const key = `${piece} ${spot} ${anchorClass} ${need} ${anchors} ${strength} ${total} ${step.cost}`;
    const twin = open.get(key);
    if (twin !== undefined) {
      twin.places = reach.either(twin.places, places);
      return;
    }
    const label: Label<P> = {
      piece,
      spot,
      anchorClass,
      need,
      anchors,
      strength,
      total,
      cost: step.cost,
      estimate,
      key,
      places,
    };
    open.set(key, label);
    push(queue, label, comesBefore);
  }

  /** The places of a label that are of use and that no label taken before serves at least as well. */
  function newPlaces(label: Label<P>, taken: readonly Label<P>[]): P {
    let { places } = label;
    if (options.completions !== undefined) places = reach.onlyOn(places, options.completions(label));
    for (const earlier of taken) {
      if (reach.isEmpty(places)) break;
      if (
        earlier.cost <= label.cost &&
        earlier.strength >= label.strength &&
        earlier.anchors >= label.anchors &&
        earlier.need <= label.need &&
        earlier.total >= label.total &&
        marked.atLeastAsFree[earlier.anchorClass]?.[label.anchorClass] === true
      ) {
        places = reach.without(places, earlier.places);
        effort += 0.02;
      }
    }
    return places;
  }
}

/**
 * Whatever a label can be joined with comes from labels before it: a step left costs something, or it steps onto a fixed
 * anchor further left for nothing.
 */
function comesBefore<P>(a: Label<P>, b: Label<P>): boolean {
  if (a.estimate !== b.estimate) return a.estimate < b.estimate;
  if (a.cost !== b.cost) return a.cost < b.cost;
  if (a.piece !== b.piece) return a.piece > b.piece;
  return a.spot > b.spot;
}
