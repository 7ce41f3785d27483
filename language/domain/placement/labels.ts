import { boundsOf, leastRestCosts } from './bounds.ts';
import { type Chain, gapBetween } from './chain.ts';
import type { Completions } from './completions.ts';
import { clip } from './interval-set.ts';
import { popLeast, push } from './queue.ts';
import type { Reach } from './reach.ts';
import { type MarkedChain, placesLeftOf, placesRightOf } from './tape-marks.ts';

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
  /** In tape marks, as the chain was tightened. */
  readonly slack: number;
  /** Where a label has to stand to be of any use, when that is known from elsewhere. */
  readonly completions?: Completions | undefined;
}

/**
 * The cheapest placements of a chain: labels in the order of their estimate, joined where their numbers agree, freed of
 * places that an earlier label serves at least as well. Estimates never exceed the cost of any completion and never fall
 * along a path, so the first label that closes the chain has the least cost.
 */
export function searchLabels<P>(chain: Chain, marked: MarkedChain, reach: Reach<P>, options: SearchOptions): Search<P> {
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

  const offer = (
    piece: number,
    spot: number,
    anchorClass: number,
    numbers: { need: number; anchors: number; strength: number; total: number; cost: number },
    places: P,
  ): void => {
    if (reach.isEmpty(places)) return;
    const bound = bounds[piece];
    const here = marked.pieces[piece];
    if (bound === undefined || here === undefined) return;
    const anchors = Math.min(numbers.anchors, bound.greatestNeed);
    const strength = Math.min(numbers.strength, here.demand);
    const total = Math.min(numbers.total, marked.total);
    const left =
      Math.max(bound.toCover(here.demand - strength), bound.toCount(numbers.need - anchors)) + (restCosts[piece] ?? 0);
    const estimate = numbers.cost + Math.max(left, total < marked.total ? (marked.total - total) * cheapest : 0);
    if (!(estimate <= budget)) return;
    const key = `${piece} ${spot} ${anchorClass} ${numbers.need} ${anchors} ${strength} ${total} ${numbers.cost}`;
    const twin = open.get(key);
    if (twin !== undefined) {
      twin.places = reach.either(twin.places, places);
      return;
    }
    const label: Label<P> = {
      piece,
      spot,
      anchorClass,
      need: numbers.need,
      anchors,
      strength,
      total,
      cost: numbers.cost,
      estimate,
      key,
      places,
    };
    open.set(key, label);
    push(queue, label, comesBefore);
  };

  startPiece(marked.pieces.length - 1, undefined);
  while (queue.length > 0) {
    const label = popLeast(queue, comesBefore);
    if (label === undefined || label.estimate > budget) break;
    open.delete(label.key);
    const taken = labels[label.piece]?.[label.spot];
    if (taken === undefined) continue;
    let places =
      options.completions === undefined ? label.places : reach.onlyOn(label.places, options.completions(label));
    if (reach.isEmpty(places)) continue;
    for (const earlier of taken) {
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
        if (reach.isEmpty(places)) break;
      }
    }
    if (reach.isEmpty(places)) continue;
    label.places = places;
    effort += 1 + taken.length / 1000 + reach.size(places) / 40;
    taken.push(label);
    if (effort > options.effort) return { cost: undefined, pull, labels, effort, unfinished: true };
    if (label.piece === 0 && label.total >= marked.total) {
      const ended = closed(label);
      if (ended !== undefined) {
        cost = label.cost;
        budget = Math.min(budget, cost);
        pull = Math.min(pull, reach.leastPull(ended));
        if (options.until === 'first') break;
      }
    }
    extend(label);
  }
  return { cost, pull, labels, effort, unfinished: false };

  /** Adds what may stand next to the left of a label. */
  function extend(label: Label<P>): void {
    const piece = marked.pieces[label.piece];
    if (piece === undefined) return;
    if (label.spot % 2 === 0) {
      addNew(label.piece, label.spot, label, (anchorClass, domain) =>
        reach.leftOf(
          label.places,
          gap(marked.gapLeast, anchorClass, label),
          gap(marked.gapGreatest, anchorClass, label),
          domain,
          piece.pull,
        ),
      );
      if (label.spot > 0) addStop(label.piece, label.spot - 1, label, label);
    } else {
      const stop = piece.stops[(label.spot - 1) / 2];
      const standing = marked.classes[label.anchorClass];
      if (stop === undefined || standing === undefined) return;
      addNew(label.piece, label.spot - 1, label, (anchorClass, domain) =>
        reach.besideStop(label.places, leftOfStop(stop.station, standing, anchorClass, domain), piece.pull),
      );
      if (label.spot > 1) addStop(label.piece, label.spot - 2, label, label);
    }
    if (label.piece > 0) {
      const ended = closed(label);
      if (ended !== undefined) startPiece(label.piece - 1, { ...label, places: ended });
    }
  }

  /** Adds the last anchor of a piece; `next` is the first one of the piece to the right, if there is any. */
  function startPiece(pieceIndex: number, next: Label<P> | undefined): void {
    const piece = marked.pieces[pieceIndex];
    if (piece === undefined) return;
    const empty = { need: piece.need, anchors: 0, strength: 0, total: next?.total ?? 0, cost: next?.cost ?? 0 };
    const lastSpot = 2 * piece.stops.length;
    const nextStop =
      next !== undefined && next.spot % 2 === 1 ? marked.pieces[next.piece]?.stops[(next.spot - 1) / 2] : undefined;
    addNew(pieceIndex, lastSpot, empty, (anchorClass, all) => {
      const domain = clip(all, piece.lastLeast[anchorClass] ?? 0, Number.POSITIVE_INFINITY);
      if (next === undefined) return reach.on(domain, piece.pull);
      const standing = marked.classes[next.anchorClass];
      if (nextStop !== undefined && standing !== undefined) {
        return reach.besideStop(next.places, leftOfStop(nextStop.station, standing, anchorClass, domain), piece.pull);
      }
      return reach.leftOf(
        next.places,
        gap(marked.gapLeast, anchorClass, next),
        gap(marked.gapGreatest, anchorClass, next),
        domain,
        piece.pull,
      );
    });
    if (piece.stops.length > 0) addStop(pieceIndex, lastSpot - 1, empty, next);
  }

  type Numbers = Pick<Label<P>, 'need' | 'anchors' | 'strength' | 'total' | 'cost'>;

  function addNew(
    pieceIndex: number,
    spot: number,
    numbers: Numbers,
    placesFor: (anchorClass: number, domain: readonly number[]) => P,
  ): void {
    const piece = marked.pieces[pieceIndex];
    if (piece === undefined) return;
    for (const kind of piece.offers) {
      const domain = kind.places[spot / 2];
      if (domain === undefined || domain.length === 0) continue;
      if (numbers.cost + kind.cost > budget) continue;
      offer(
        pieceIndex,
        spot,
        kind.anchorClass,
        {
          need: Math.max(numbers.need, kind.need),
          anchors: numbers.anchors + 1,
          strength: numbers.strength + kind.capacity,
          total: numbers.total + 1,
          cost: numbers.cost + kind.cost,
        },
        placesFor(kind.anchorClass, domain),
      );
    }
  }

  /** Steps onto a stop from `right`, its neighbour to the right; `undefined`: nothing stands to the right of it. */
  function addStop(pieceIndex: number, spot: number, numbers: Numbers, right: Label<P> | undefined): void {
    const piece = marked.pieces[pieceIndex];
    const stop = piece?.stops[(spot - 1) / 2];
    if (piece === undefined || stop === undefined) return;
    for (const option of stop.options) {
      const standing = marked.classes[option.anchorClass];
      if (standing === undefined) continue;
      const opensPiece = right === undefined || right.piece !== pieceIndex;
      if (opensPiece && !option.last) continue;
      let pullSoFar = 0;
      if (right !== undefined) {
        const neighbour = marked.classes[right.anchorClass];
        if (neighbour === undefined) continue;
        let met: P;
        if (right.spot % 2 === 1) {
          const other = marked.pieces[right.piece]?.stops[(right.spot - 1) / 2];
          if (other === undefined || !stopsAgree(stop.station, option.anchorClass, other.station, right.anchorClass))
            continue;
          met = right.places;
        } else {
          const { least, greatest } = placesRightOf(stop.station, standing, neighbour, chain, options.slack);
          met = reach.within(right.places, least, greatest);
        }
        if (reach.isEmpty(met)) continue;
        pullSoFar = reach.leastPull(met);
      }
      offer(
        pieceIndex,
        spot,
        option.anchorClass,
        {
          need: Math.max(numbers.need, option.need),
          anchors: numbers.anchors + option.anchors,
          strength: numbers.strength + option.capacity,
          total: numbers.total + option.anchors,
          cost: numbers.cost + option.cost,
        },
        reach.stop(pullSoFar + option.pull),
      );
    }
  }

  /** Where the first anchor of a finished piece can stand, `undefined` where the piece is not finished. */
  function closed(label: Label<P>): P | undefined {
    const piece = marked.pieces[label.piece];
    if (piece === undefined || label.anchors < label.need || label.strength < piece.demand || label.spot > 1)
      return undefined;
    if (label.spot === 1) {
      const option = piece.stops[0]?.options.find(({ anchorClass }) => anchorClass === label.anchorClass);
      return option?.first === true ? label.places : undefined;
    }
    const ended = reach.within(label.places, Number.NEGATIVE_INFINITY, piece.firstGreatest[label.anchorClass] ?? 0);
    return reach.isEmpty(ended) ? undefined : ended;
  }

  function leftOfStop(
    station: number,
    stop: MarkedChain['classes'][number],
    anchorClass: number,
    domain: readonly number[],
  ) {
    const anchor = marked.classes[anchorClass];
    if (anchor === undefined) return [];
    const { least, greatest } = placesLeftOf(station, stop, anchor, chain, options.slack);
    return clip(domain, least, greatest);
  }

  function stopsAgree(left: number, leftClass: number, right: number, rightClass: number): boolean {
    return stopGapHolds(chain, marked, options.slack, left, leftClass, right, rightClass);
  }
}

function gap<P>(table: readonly (readonly number[])[], left: number, right: Label<P>): number {
  return table[left]?.[right.anchorClass] ?? 0;
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

/** Two stops may be neighbours. */
export function stopGapHolds(
  chain: Chain,
  marked: MarkedChain,
  slack: number,
  left: number,
  leftClass: number,
  right: number,
  rightClass: number,
): boolean {
  const a = marked.classes[leftClass];
  const b = marked.classes[rightClass];
  if (a === undefined || b === undefined) return false;
  const { least, greatest } = gapBetween(a, b, chain.slip, slack * chain.step);
  return right - left >= least && right - left <= greatest;
}
