import { type Bounds, boundsOf, leastRestCosts } from './bounds.ts';
import { contains } from './interval-set.ts';
import type { Label, Search } from './labels.ts';
import { type ChosenPlace, leastKinds, type ReadAnchor } from './least-kinds.ts';
import { mayBeNeighbours, type Range, rightOf, type Settled } from './neighbours.ts';
import { pullAt } from './pull.ts';
import type { Reach } from './reach.ts';
import type { MarkedChain } from './tape-marks.ts';

/**
 * Of all placements with the search's cost and pull, the one with the least list of stations, then of kinds by name.
 * Stations are taken one by one from the left; the labels say from which places the rest can still be had. Prefixes that
 * differ in kinds but not in stations go on side by side, so no choice of a kind can spoil a station further right; which
 * kinds they are is settled once all stations are.
 */
export function readBack<P>(
  marked: MarkedChain,
  reach: Reach<P>,
  search: Search<P>,
): readonly ReadAnchor[] | undefined {
  if (search.cost === undefined) return undefined;
  const budget = search.cost;
  const bounds = marked.pieces.map(boundsOf);
  const restCosts = restToTheRight(bounds);
  let prefixes = [startOf(marked, 0, undefined)];

  for (;;) {
    const ready = prefixes.flatMap((prefix) => throughFixed(prefix));
    const finished = ready.find(
      ({ piece, total, pull, cost }) =>
        piece === marked.pieces.length && total >= marked.total && pull === search.pull && cost === budget,
    );
    if (finished !== undefined) return leastKinds(marked, finished.places, budget);

    let next = Number.POSITIVE_INFINITY;
    for (const prefix of ready) next = Math.min(next, nextPlace(prefix));
    if (next === Number.POSITIVE_INFINITY) return undefined;
    prefixes = undominated(
      marked,
      ready.flatMap((prefix) => withAnchorAt(prefix, next)),
    );
  }

  /** The prefix itself and what it becomes by stepping over fixed anchors and breaks, which place nothing new. */
  function throughFixed(prefix: Prefix): Prefix[] {
    const piece = marked.pieces[prefix.piece];
    if (piece === undefined) return [prefix];
    const stop = piece.stops[prefix.passed];
    if (stop !== undefined) {
      const fixed = stop.options.find(({ kind }) => kind === undefined);
      if (fixed === undefined || !reachesStop(prefix, stop.station, fixed.anchorClass, fixed.first)) return [prefix];
      const left: Neighbour = {
        place: undefined,
        station: stop.station,
        anchorClass: fixed.anchorClass,
        last: fixed.last,
      };
      return [prefix, ...throughFixed({ ...prefix, passed: prefix.passed + 1, left, started: true })];
    }
    if (!prefix.started || prefix.left === undefined || !prefix.left.last) return [prefix];
    if (prefix.anchors < prefix.need || prefix.strength < piece.demand) return [prefix];
    return [prefix, ...throughFixed(startOf(marked, prefix.piece + 1, prefix))];
  }

  function reachesStop(prefix: Prefix, station: number, anchorClass: number, first: boolean): boolean {
    if (!prefix.started && !first) return false;
    return (
      prefix.left === undefined || mayBeNeighbours(marked, prefix.left, { anchorClass, station, place: undefined })
    );
  }

  function rangeFor({ left, started, piece }: Prefix, anchorClass: number): Range {
    const end = started ? Number.POSITIVE_INFINITY : (marked.pieces[piece]?.firstGreatest[anchorClass] ?? 0);
    if (left === undefined) return { least: Number.NEGATIVE_INFINITY, greatest: end };
    const { least, greatest } = rightOf(marked, left, anchorClass);
    return { least, greatest: Math.min(greatest, end) };
  }

  /** The leftmost place where the next new anchor can stand so that the rest can still be had. */
  function nextPlace(prefix: Prefix): number {
    const piece = marked.pieces[prefix.piece];
    if (piece === undefined) return Number.POSITIVE_INFINITY;
    let next = Number.POSITIVE_INFINITY;
    const atMost = search.pull - prefix.pull;
    for (const label of search.labels[prefix.piece]?.[2 * prefix.passed] ?? []) {
      if (!fits(prefix, label, piece.demand)) continue;
      const { least, greatest } = rangeFor(prefix, label.anchorClass);
      const place = reach.first(label.places, least, Math.min(greatest, next), atMost);
      if (place !== undefined && place < next) next = place;
    }
    const stop = piece.stops[prefix.passed];
    if (stop === undefined || stop.station / marked.step >= next) return next;
    for (const label of search.labels[prefix.piece]?.[2 * prefix.passed + 1] ?? []) {
      const option = stop.options.find(
        ({ kind, anchorClass }) => kind !== undefined && anchorClass === label.anchorClass,
      );
      if (option === undefined || !fits(prefix, label, piece.demand)) continue;
      if (!reachesStop(prefix, stop.station, label.anchorClass, option.first)) continue;
      if (reach.first(label.places, 0, 0, atMost) !== undefined) next = stop.station / marked.step;
    }
    return next;
  }

  /** The label holds what is to the right of the prefix, and together they make a whole. */
  function fits(prefix: Prefix, label: Label<P>, demand: number): boolean {
    return (
      prefix.cost + label.cost <= budget &&
      prefix.anchors + label.anchors >= Math.max(prefix.need, label.need) &&
      prefix.strength + label.strength >= demand &&
      prefix.total + label.total >= marked.total
    );
  }

  function withAnchorAt(prefix: Prefix, place: number): Prefix[] {
    const piece = marked.pieces[prefix.piece];
    if (piece === undefined) return [];
    const station = place * marked.step;
    const pull = prefix.pull + (pullAt(piece.pull, place) ?? 0);
    const longer: Prefix[] = [];
    const run: ChosenPlace = { piece: prefix.piece, passed: prefix.passed, place, stop: false };
    for (const offer of piece.offers) {
      const { least, greatest } = rangeFor(prefix, offer.anchorClass);
      if (place < least || place > greatest || !contains(offer.places[prefix.passed] ?? [], place)) continue;
      const last = place >= (piece.lastLeast[offer.anchorClass] ?? 0);
      longer.push(lengthened(prefix, offer, { place, station, anchorClass: offer.anchorClass, last }, run, pull));
    }
    const stop = piece.stops[prefix.passed];
    if (stop === undefined || stop.station !== station) return longer.filter(affordable);
    for (const option of stop.options) {
      const { kind, anchorClass, last } = option;
      if (kind === undefined || !reachesStop(prefix, station, anchorClass, option.first)) continue;
      longer.push(
        lengthened(prefix, option, { place: undefined, station, anchorClass, last }, { ...run, stop: true }, pull),
      );
    }
    return longer.filter(affordable);
  }

  function lengthened(
    prefix: Prefix,
    anchor: { readonly cost: number; readonly capacity: number; readonly need: number },
    left: Neighbour,
    chosen: ChosenPlace,
    pull: number,
  ): Prefix {
    const piece = marked.pieces[prefix.piece];
    return {
      piece: prefix.piece,
      passed: chosen.stop ? prefix.passed + 1 : prefix.passed,
      left,
      started: true,
      need: Math.max(prefix.need, anchor.need),
      anchors: Math.min(prefix.anchors + 1, bounds[prefix.piece]?.greatestNeed ?? 0),
      strength: Math.min(prefix.strength + anchor.capacity, piece?.demand ?? 0),
      total: Math.min(prefix.total + 1, marked.total),
      cost: prefix.cost + anchor.cost,
      pull,
      places: [...prefix.places, chosen],
    };
  }

  function affordable(prefix: Prefix): boolean {
    const piece = marked.pieces[prefix.piece];
    const bound = bounds[prefix.piece];
    if (piece === undefined || bound === undefined) return false;
    const here = Math.max(bound.toCover(piece.demand - prefix.strength), bound.toCount(prefix.need - prefix.anchors));
    return prefix.cost + here + (restCosts[prefix.piece] ?? 0) <= budget;
  }
}

/** The left part of a placement, in the terms that its continuation depends on. */
interface Prefix {
  readonly piece: number;
  /** Stops of the piece to the left. */
  readonly passed: number;
  /** The last anchor so far. */
  readonly left: Neighbour | undefined;
  /** The piece has an anchor. */
  readonly started: boolean;
  readonly need: number;
  readonly anchors: number;
  readonly strength: number;
  readonly total: number;
  readonly cost: number;
  readonly pull: number;
  readonly places: readonly ChosenPlace[];
}

interface Neighbour extends Settled {
  /** It may be the last of its piece. */
  readonly last: boolean;
}

function startOf(marked: MarkedChain, piece: number, before: Prefix | undefined): Prefix {
  return {
    piece,
    passed: 0,
    left: before?.left,
    started: false,
    need: marked.pieces[piece]?.need ?? 0,
    anchors: 0,
    strength: 0,
    total: before?.total ?? 0,
    cost: before?.cost ?? 0,
    pull: before?.pull ?? 0,
    places: before?.places ?? [],
  };
}

/** Of prefixes that end at the same place, those that no other can stand in for, whatever comes after. */
function undominated(marked: MarkedChain, prefixes: readonly Prefix[]): Prefix[] {
  const kept: Prefix[] = [];
  const sorted = [...prefixes].sort(
    (a, b) => a.cost - b.cost || b.strength - a.strength || b.anchors - a.anchors || a.need - b.need,
  );
  for (const prefix of sorted) if (!kept.some((other) => standsInFor(marked, other, prefix))) kept.push(prefix);
  return kept;
}

function standsInFor(marked: MarkedChain, a: Prefix, b: Prefix): boolean {
  return (
    a.piece === b.piece &&
    a.passed === b.passed &&
    a.left?.place === b.left?.place &&
    (a.left?.last === true || b.left?.last !== true) &&
    a.cost <= b.cost &&
    a.strength >= b.strength &&
    a.anchors >= b.anchors &&
    a.need <= b.need &&
    a.total >= b.total &&
    a.pull <= b.pull &&
    marked.atLeastAsFree[a.left?.anchorClass ?? 0]?.[b.left?.anchorClass ?? 0] === true
  );
}

function restToTheRight(bounds: readonly Bounds[]): number[] {
  return leastRestCosts([...bounds].reverse())
    .slice(0, bounds.length)
    .reverse();
}
