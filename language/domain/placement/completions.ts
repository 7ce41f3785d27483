import { type Chain, mirrorLimits, mirrorOf } from './chain.ts';
import { type IntervalSet, intervalSet, nowhere, reachedFromTheLeft, union } from './interval-set.ts';
import { type Label, searchLabels } from './labels.ts';
import { setReach } from './reach.ts';
import { classKey, type MarkedChain, type Tightening, tighten } from './tape-marks.ts';

/** Where the leftmost anchor of a label may stand so that the rest to the left of it still fits the budget. */
export type Completions = (label: CompletedNumbers) => IntervalSet;
export type CompletedNumbers = Pick<
  Label<unknown>,
  'piece' | 'spot' | 'anchorClass' | 'need' | 'anchors' | 'strength' | 'total' | 'cost'
>;

const everywhere: IntervalSet = [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY];

/**
 * What can be had on the left, from a search of the mirrored chain, which looks at cost only and is therefore quick. It
 * spares the search for the least pull all labels that no placement of the least cost goes through; nearly all are such.
 */
export function completionsFromTheLeft(
  chain: Chain,
  marked: MarkedChain,
  tightening: Tightening,
  budget: number,
  effort: number,
): Completions | undefined {
  const mirrored = mirrorOf(chain);
  const other = tighten(mirrored, tightening);
  const search = searchLabels(other, setReach, { budget, until: 'all', effort });
  if (search.unfinished) return undefined;
  const lastPiece = marked.pieces.length - 1;
  const keysHere = marked.classes.map(classKey);
  const classHere = other.classes.map((mirror) =>
    keysHere.indexOf(classKey({ ...mirror, limits: mirrorLimits(mirror.limits) })),
  );

  /** The left parts that end in a run or on a stop, in the places of this chain. */
  const leftParts = marked.pieces.map((piece, index) =>
    Array.from({ length: 2 * piece.stops.length + 1 }, (_, spot) =>
      (search.labels[lastPiece - index]?.[2 * piece.stops.length - spot] ?? []).map((label) => ({
        ...label,
        anchorClass: classHere[label.anchorClass] ?? 0,
        places: mirroredPlaces(label.places),
      })),
    ),
  );

  return (label) => {
    const piece = marked.pieces[label.piece];
    if (piece === undefined) return nowhere;
    let places: IntervalSet = nowhere;
    const addFrom = (part: Label<IntervalSet>) => {
      const least = marked.gapLeast[part.anchorClass]?.[label.anchorClass] ?? 0;
      const greatest = marked.gapGreatest[part.anchorClass]?.[label.anchorClass] ?? 0;
      places = union(places, reachedFromTheRight(part.places, least, greatest));
    };
    const affords = (part: Label<IntervalSet>) =>
      label.cost + part.cost <= budget && label.total + part.total >= marked.total;
    const fits = (part: Label<IntervalSet>) =>
      affords(part) &&
      label.anchors + part.anchors >= Math.max(label.need, part.need) &&
      label.strength + part.strength >= piece.demand;

    // Stops stand off the marks, so next to one only the numbers are held against each other.
    if (label.spot > 0 && leftParts[label.piece]?.[label.spot - 1]?.some(fits)) return everywhere;
    if (label.spot % 2 === 1) {
      if (leftParts[label.piece]?.[label.spot - 1]?.some(fits)) return everywhere;
      if (label.spot > 1 && leftParts[label.piece]?.[label.spot - 2]?.some(fits)) return everywhere;
    } else for (const part of leftParts[label.piece]?.[label.spot] ?? []) if (fits(part)) addFrom(part);

    const closable = label.spot <= 1 && label.anchors >= label.need && label.strength >= piece.demand;
    if (!closable) return places;
    if (label.piece === 0)
      return label.spot === 1
        ? everywhere
        : union(places, [Number.NEGATIVE_INFINITY, piece.firstGreatest[label.anchorClass] ?? 0]);
    const before = marked.pieces[label.piece - 1];
    const ended = (part: Label<IntervalSet>) =>
      affords(part) && part.anchors >= part.need && part.strength >= (before?.demand ?? 0);
    const lastSpot = 2 * (before?.stops.length ?? 0);
    if (lastSpot > 0 && leftParts[label.piece - 1]?.[lastSpot - 1]?.some(ended)) return everywhere;
    for (const part of leftParts[label.piece - 1]?.[lastSpot] ?? []) {
      if (!ended(part)) continue;
      if (label.spot === 1) return everywhere;
      addFrom(part);
    }
    return places;
  };
}

function mirroredPlaces(places: IntervalSet): IntervalSet {
  const pairs: [number, number][] = [];
  for (let at = places.length - 2; at >= 0; at -= 2) pairs.push([-(places[at + 1] ?? 0), -(places[at] ?? 0)]);
  return intervalSet(pairs);
}

function reachedFromTheRight(places: IntervalSet, least: number, greatest: number): IntervalSet {
  return reachedFromTheLeft(places, -greatest, -least);
}
