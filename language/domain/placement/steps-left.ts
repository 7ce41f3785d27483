import { clip, type IntervalSet } from './interval-set.ts';
import type { Label } from './labels.ts';
import { leftOfStop, mayBeNeighbours, rightOf, type Settled } from './neighbours.ts';
import type { Reach } from './reach.ts';
import type { MarkedChain, MarkedPiece } from './tape-marks.ts';

/** A label to be: its numbers, not yet capped, and its places, to be worked out only if the numbers are worth it. */
export interface Step<P> extends Pick<Label<P>, 'piece' | 'spot' | 'anchorClass'>, Numbers {
  places(): P;
}

interface Numbers {
  readonly need: number;
  readonly anchors: number;
  readonly strength: number;
  readonly total: number;
  readonly cost: number;
}

/** The last anchors that a chain can have. */
export function firstSteps<P>(marked: MarkedChain, reach: Reach<P>): Step<P>[] {
  return stepsInto(marked, reach, marked.pieces.length - 1, undefined);
}

/** All that may stand next to the left of a label: a new anchor, a stop, or the last anchor of the piece before. */
export function stepsLeft<P>(marked: MarkedChain, reach: Reach<P>, label: Label<P>): Step<P>[] {
  const piece = marked.pieces[label.piece];
  if (piece === undefined) return [];
  const onStop = label.spot % 2 === 1;
  const steps = newSteps(marked, label.piece, onStop ? label.spot - 1 : label.spot, label, (anchorClass, domain) =>
    placesLeftOf(marked, reach, label, anchorClass, domain, piece),
  );
  const stopSpot = onStop ? label.spot - 2 : label.spot - 1;
  if (stopSpot > 0) steps.push(...stopSteps(marked, reach, label.piece, stopSpot, label, label));
  if (label.piece === 0) return steps;
  const ended = endOfPiece(marked, reach, label);
  if (ended !== undefined) steps.push(...stepsInto(marked, reach, label.piece - 1, { ...label, places: ended }));
  return steps;
}

/** Where the first anchor of a finished piece can stand; `undefined` where the piece is not finished. */
export function endOfPiece<P>(marked: MarkedChain, reach: Reach<P>, label: Label<P>): P | undefined {
  const piece = marked.pieces[label.piece];
  if (piece === undefined || label.spot > 1) return undefined;
  if (label.anchors < label.need || label.strength < piece.demand) return undefined;
  if (label.spot === 1) {
    const option = piece.stops[0]?.options.find(({ anchorClass }) => anchorClass === label.anchorClass);
    return option?.first === true ? label.places : undefined;
  }
  const ended = reach.within(label.places, Number.NEGATIVE_INFINITY, piece.firstGreatest[label.anchorClass] ?? 0);
  return reach.isEmpty(ended) ? undefined : ended;
}

/** The last anchor of a piece; `next` is the first one of the piece to the right, if there is any. */
function stepsInto<P>(marked: MarkedChain, reach: Reach<P>, index: number, next: Label<P> | undefined): Step<P>[] {
  const piece = marked.pieces[index];
  if (piece === undefined) return [];
  const empty: Numbers = { need: piece.need, anchors: 0, strength: 0, total: next?.total ?? 0, cost: next?.cost ?? 0 };
  const lastSpot = 2 * piece.stops.length;
  const steps = newSteps(marked, index, lastSpot, empty, (anchorClass, all) => {
    const domain = clip(all, piece.lastLeast[anchorClass] ?? 0, Number.POSITIVE_INFINITY);
    if (next === undefined) return reach.on(domain, piece.pull);
    return placesLeftOf(marked, reach, next, anchorClass, domain, piece);
  });
  if (lastSpot > 0) steps.push(...stopSteps(marked, reach, index, lastSpot - 1, empty, next));
  return steps;
}

function newSteps<P>(
  marked: MarkedChain,
  index: number,
  spot: number,
  numbers: Numbers,
  placesFor: (anchorClass: number, domain: IntervalSet) => P,
): Step<P>[] {
  return (marked.pieces[index]?.offers ?? []).flatMap(({ places, anchorClass, need, capacity, cost }): Step<P>[] => {
    const domain = places[spot / 2];
    if (domain === undefined || domain.length === 0) return [];
    const added = { need, anchors: 1, capacity, cost };
    return [{ piece: index, spot, anchorClass, ...sum(numbers, added), places: () => placesFor(anchorClass, domain) }];
  });
}

/** Steps onto a stop from its neighbour to the right; `undefined`: nothing stands to the right of it. */
function stopSteps<P>(
  marked: MarkedChain,
  reach: Reach<P>,
  index: number,
  spot: number,
  numbers: Numbers,
  right: Label<P> | undefined,
): Step<P>[] {
  const stop = marked.pieces[index]?.stops[(spot - 1) / 2];
  if (stop === undefined) return [];
  return stop.options.flatMap((option): Step<P>[] => {
    const { anchorClass, anchors, need, capacity, cost } = option;
    if (right?.piece !== index && !option.last) return [];
    const settled: Settled = { anchorClass, station: stop.station, place: undefined };
    const met = right === undefined ? reach.stop(0) : placesMet(marked, reach, settled, right);
    if (met === undefined || reach.isEmpty(met)) return [];
    const places = reach.stop(reach.leastPull(met) + option.pull);
    return [
      { piece: index, spot, anchorClass, ...sum(numbers, { need, anchors, capacity, cost }), places: () => places },
    ];
  });
}

/** Where the label's leftmost anchor can stand with a stop as its left neighbour. */
function placesMet<P>(marked: MarkedChain, reach: Reach<P>, stop: Settled, label: Label<P>): P | undefined {
  const other = settledStop(marked, label);
  if (other !== undefined) return mayBeNeighbours(marked, stop, other) ? label.places : undefined;
  const { least, greatest } = rightOf(marked, stop, label.anchorClass);
  return reach.within(label.places, least, greatest);
}

function placesLeftOf<P>(
  marked: MarkedChain,
  reach: Reach<P>,
  label: Label<P>,
  anchorClass: number,
  domain: IntervalSet,
  piece: MarkedPiece,
): P {
  const stop = settledStop(marked, label);
  if (stop !== undefined) {
    const { least, greatest } = leftOfStop(marked, stop, anchorClass);
    return reach.besideStop(label.places, clip(domain, least, greatest), piece.pull);
  }
  const least = marked.gapLeast[anchorClass]?.[label.anchorClass] ?? 0;
  const greatest = marked.gapGreatest[anchorClass]?.[label.anchorClass] ?? 0;
  return reach.leftOf(label.places, least, greatest, domain, piece.pull);
}

function settledStop<P>(marked: MarkedChain, { piece, spot, anchorClass }: Label<P>): Settled | undefined {
  if (spot % 2 === 0) return undefined;
  const station = marked.pieces[piece]?.stops[(spot - 1) / 2]?.station;
  return station === undefined ? undefined : { anchorClass, station, place: undefined };
}

function sum(
  numbers: Numbers,
  anchor: { readonly need: number; readonly anchors: number; readonly capacity: number; readonly cost: number },
): Numbers {
  return {
    need: Math.max(numbers.need, anchor.need),
    anchors: numbers.anchors + anchor.anchors,
    strength: numbers.strength + anchor.capacity,
    total: numbers.total + anchor.anchors,
    cost: numbers.cost + anchor.cost,
  };
}
