import { contains } from './interval-set.ts';
import { mayBeNeighbours, type Settled } from './neighbours.ts';
import type { MarkedChain } from './tape-marks.ts';

/** A new anchor of a chain's answer, by the chain's own stations. */
export interface ReadAnchor {
  readonly piece: number;
  readonly station: number;
  readonly kind: string;
}

/** A place settled on, its kind still open. */
export interface ChosenPlace {
  readonly piece: number;
  /** Stops of the piece to its left. */
  readonly passed: number;
  readonly place: number;
  /** It is the stop after those, an end anchor past an obstruction. */
  readonly stop: boolean;
}

/**
 * The least list of kinds, by name, that may stand at settled places within the budget. From the right, every kind at
 * every place gets the ways to go on from it that are worth having, the cheaper and the stronger ones; from the left, the
 * first kind with a way that suffices is taken.
 */
export function leastKinds(
  marked: MarkedChain,
  places: readonly ChosenPlace[],
  budget: number,
): ReadAnchor[] | undefined {
  const row = rowOf(marked, places);
  const ways: Way[][][] = [];
  for (let at = row.length - 1; at >= 0; at -= 1) {
    const next = row[at + 1];
    const waysOn = ways[0];
    ways.unshift(row[at]?.choices.map((choice) => waysFrom(row[at], choice, next, waysOn)) ?? []);
  }

  const anchors: ReadAnchor[] = [];
  let cost = 0;
  let strength = 0;
  let previous: Choice | undefined;
  for (const [at, { piece, choices }] of row.entries()) {
    if (row[at - 1]?.piece !== piece) strength = 0;
    const demand = marked.pieces[piece]?.demand ?? 0;
    const chosen = choices.find(
      (choice, index) =>
        (previous === undefined || mayBeNeighbours(marked, previous, choice)) &&
        ways[at]?.[index]?.some((way) => cost + way.cost <= budget && strength + way.strength >= demand),
    );
    if (chosen === undefined) return undefined;
    cost += chosen.cost;
    strength += chosen.capacity;
    if (chosen.kind !== undefined) anchors.push({ piece, station: chosen.station, kind: chosen.kind });
    previous = chosen;
  }
  return anchors;

  function waysFrom(
    element: RowElement | undefined,
    choice: Choice,
    next: RowElement | undefined,
    waysOn: readonly Way[][] | undefined,
  ): Way[] {
    const own: Way = { cost: choice.cost, strength: choice.capacity };
    if (element === undefined || next === undefined || waysOn === undefined) return [own];
    const on = next.choices.flatMap((neighbour, index) =>
      mayBeNeighbours(marked, choice, neighbour) ? (waysOn[index] ?? []) : [],
    );
    if (element.piece === next.piece) {
      return worthHaving(on.map((way) => ({ cost: own.cost + way.cost, strength: own.strength + way.strength })));
    }
    const demand = marked.pieces[next.piece]?.demand ?? 0;
    const served = on.filter((way) => way.strength >= demand);
    return served.length === 0
      ? []
      : [{ cost: own.cost + Math.min(...served.map((way) => way.cost)), strength: own.strength }];
  }
}

interface Way {
  readonly cost: number;
  /** Within the piece. */
  readonly strength: number;
}

/** An anchor of the row: a fixed one with its one choice, or a new one with the kinds that may stand there. */
interface RowElement {
  readonly piece: number;
  readonly choices: readonly Choice[];
}

interface Choice extends Settled {
  /** `undefined`: a fixed anchor. */
  readonly kind: string | undefined;
  readonly cost: number;
  readonly capacity: number;
}

/** All anchors of the chain from the left, each with the kinds that its place, its end and the count of its piece allow. */
function rowOf(marked: MarkedChain, places: readonly ChosenPlace[]): RowElement[] {
  return marked.pieces.flatMap((piece, pieceIndex) => {
    const own = places.filter((chosen) => chosen.piece === pieceIndex);
    const elements: RowElement[] = [];
    for (let passed = 0; passed <= piece.stops.length; passed += 1) {
      for (const { place } of own.filter((chosen) => chosen.passed === passed && !chosen.stop)) {
        const choices = piece.offers
          .filter((offer) => contains(offer.places[passed] ?? [], place) && offer.need <= own.length)
          .map(
            ({ kind, cost, capacity, anchorClass }): Choice => ({
              kind,
              cost,
              capacity,
              anchorClass,
              station: place * marked.step,
              place,
            }),
          );
        elements.push({ piece: pieceIndex, choices });
      }
      const stop = piece.stops[passed];
      if (stop === undefined) continue;
      const { station } = stop;
      const options = stop.options.filter(({ need }) => need <= own.length);
      elements.push({
        piece: pieceIndex,
        choices: options.map((option): Choice => ({ ...option, station, place: undefined })),
      });
    }
    const first = elements[0];
    const last = elements.at(-1);
    return elements.map((element) => ({
      ...element,
      choices: element.choices.filter(
        (choice) => (element !== first || mayBeFirst(choice, piece)) && (element !== last || mayBeLast(choice, piece)),
      ),
    }));
  });
}

function mayBeFirst({ place, anchorClass, kind }: Choice, piece: MarkedChain['pieces'][number]): boolean {
  if (place !== undefined) return place <= (piece.firstGreatest[anchorClass] ?? 0);
  return piece.stops[0]?.options.some((option) => option.kind === kind && option.first) === true;
}

function mayBeLast({ place, anchorClass, kind }: Choice, piece: MarkedChain['pieces'][number]): boolean {
  if (place !== undefined) return place >= (piece.lastLeast[anchorClass] ?? 0);
  return piece.stops.at(-1)?.options.some((option) => option.kind === kind && option.last) === true;
}

/** Without those that another beats in cost and strength. */
function worthHaving(ways: readonly Way[]): Way[] {
  const kept: Way[] = [];
  for (const way of [...ways].sort((a, b) => a.cost - b.cost || b.strength - a.strength)) {
    const last = kept.at(-1);
    if (last === undefined || way.strength > last.strength) kept.push(way);
  }
  return kept;
}
