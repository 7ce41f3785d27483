import { endWindow, fromEnd, spotPastObstruction } from '../fit/end-window.ts';
import { type Blocked, PHYSICAL } from '../fit/fit-case.ts';
import { anchorsOf, type CountedAnchor, pieceAt } from '../fit/piece-anchors.ts';
import { diameterOfConnector, pastObstructionAllowed, type Side } from '../fit/piece-requirements.ts';
import { isOpening, studsOf } from '../fit/studs.ts';
import type { Connector } from '../hardware/connector.ts';
import type { Defect, Layout, NewAnchor, Obstruction, SillPiece, Wall } from '../model/layout.ts';
import { knownValue } from '../model/reading.ts';
import type {
  BlockedStretch,
  FixedAnchor,
  KindOffer,
  PlacementObstruction,
  PlacementPiece,
} from '../placement/problem.ts';
import { inches, type Length, nanometres } from '../units/length.ts';
import { type BoardUses, type ConnectorUse, type UseOnBoard, useOf, usesOnBoard } from './connector-uses.ts';
import { bothLimits, countWithNothingInTheWay, limitsOnBoard } from './limits-on-board.ts';

/** One board as the solver takes it, with what its names stand for. */
export interface BoardCase {
  readonly kind: 'case';
  readonly wall: Wall;
  readonly piece: SillPiece;
  readonly placement: PlacementPiece;
  readonly uses: ReadonlyMap<string, ConnectorUse>;
  /** By the id of an obstruction. */
  readonly inTheWay: ReadonlyMap<string, InTheWay>;
  /** Anchors that placement goes by and leaves as they are. */
  readonly kept: readonly CountedAnchor[];
  /** Proposals of the tool that a new placement replaces. */
  readonly movable: readonly NewAnchor[];
  readonly unfit: BoardUses['unfit'];
  /** Physical things fill all of this end window for every connector on offer, and all rules in force let an anchor stand beyond. */
  readonly pastObstruction: Readonly<Record<Side, boolean>>;
  /** By use: how far from the end the nearest clear spot beyond such a window is. */
  readonly nearestPast: Readonly<Record<Side, ReadonlyMap<string, Length>>>;
  /** All rules in force let an end anchor stand beyond a window that physical things fill. */
  readonly mayPass: boolean;
}

/** Nothing is proposed for the board: what the rules ask of it cannot be told. */
export interface OpenBoard {
  readonly kind: 'open';
  readonly wall: Wall;
  readonly piece: SillPiece;
  readonly why: string;
}

/** What rules centres out, for the words about it. */
export interface InTheWay {
  readonly words: string;
  readonly reason: Blocked['reason'];
  readonly obstruction: Obstruction | undefined;
  readonly defect: Defect | undefined;
  /** The measurement that would tell; `undefined` where it is known to be in the way. */
  readonly wants: string | undefined;
}

export interface BoardOptions {
  readonly step: Length;
  readonly connectors: readonly Connector[];
  /** As a way out only. */
  readonly otherConnectors: readonly Connector[];
  isMovable(anchor: NewAnchor): boolean;
}

/**
 * What the solver is to know of a board.
 * @param layouts the same house under each of the rule sets that all have to be kept; nothing but the rules differs
 */
export function boardCase(
  layouts: readonly [Layout, ...Layout[]],
  wall: Wall,
  piece: SillPiece,
  options: BoardOptions,
): BoardCase | OpenBoard {
  const open = (why: string): OpenBoard => ({ kind: 'open', wall, piece, why });
  const { step } = options;
  const kept = anchorsOf(wall, piece).filter(({ planned }) => planned === undefined || !options.isMovable(planned));
  const movable = wall.anchors.filter(
    (anchor) => options.isMovable(anchor) && anchor.station !== undefined && pieceAt(wall, anchor.station) === piece,
  );

  const perLayout = layouts.map((layout) => offersOf(layout, wall, piece, options.connectors, step));
  const others = layouts.map((layout) => offersOf(layout, wall, piece, options.otherConnectors, step));
  const offers = inAll(perLayout.map((each) => each.offers));
  const leftOpen = [...new Set(perLayout.flatMap((each) => each.open))];
  if (offers.length === 0 && leftOpen.length > 0) return open(leftOpen[0] ?? '');

  const fixed: FixedAnchor[] = [];
  for (const anchor of kept) {
    const answers = layouts.map((layout) => limitsOnBoard(layout, wall, piece, anchor.diameter, step));
    const unknown = answers.find((answer) => answer.kind === 'open');
    if (unknown?.kind === 'open') return open(`${anchor.words}: ${unknown.why}`);
    const limits = answers.flatMap((answer) => (answer.kind === 'limits' ? [answer.limits] : [])).reduce(bothLimits);
    fixed.push({
      id: anchor.id,
      station: anchor.station,
      limits,
      counts: true,
      capacity: 0,
      drifts: anchor.planned?.state === 'planned',
      kind: anchor.planned?.connector && useOfPlanned(anchor.planned, anchor.planned.connector).id,
    });
  }

  const ways = layouts.flatMap((layout, index) =>
    (perLayout[index]?.offers ?? []).map((offer) => ({ layout, ...offer })),
  );
  const mayPass = layouts.every((layout) => pastObstructionAllowed(layout) !== undefined);
  const nearestPast = { left: new Map<string, Length>(), right: new Map<string, Length>() };
  const isPast = (side: Side): boolean =>
    mayPass &&
    offers.length > 0 &&
    ways.every(({ layout, use, fits, offer }) => {
      const { least, most } = offer.limits[side];
      if (most === undefined) return false;
      const window = endWindow(piece, side, nanometres(least), nanometres(most));
      const past = spotPastObstruction(layout, piece, side, window, fits);
      if (past) nearestPast[side].set(use.id, fromEnd(piece, side, past.nearest));
      return past !== undefined;
    });
  const pastObstruction = { left: isPast('left'), right: isPast('right') };
  const isPastSomewhere = pastObstruction.left || pastObstruction.right;
  const withCount = (offer: KindOffer): KindOffer =>
    isPastSomewhere
      ? { ...offer, limits: { ...offer.limits, count: countWithNothingInTheWay(piece, offer.limits) } }
      : offer;

  const inTheWay = new Map<string, InTheWay>();
  const obstructions = obstructionsOf(
    wall,
    [...perLayout, ...others].flatMap((each) => each.offers),
    inTheWay,
  );
  const usable = new Set(offers.map(({ offer }) => offer.kind));
  const otherOffers = inAll(others.map((each) => each.offers)).filter(({ offer }) => !usable.has(offer.kind));
  return {
    kind: 'case',
    wall,
    piece,
    kept,
    movable,
    uses: new Map([...offers, ...otherOffers].map(({ use }) => [use.id, use])),
    inTheWay,
    unfit: perLayout[0]?.unfit ?? [],
    pastObstruction,
    nearestPast,
    mayPass,
    placement: {
      id: piece.id,
      from: piece.from,
      to: piece.to,
      demand: 0,
      joinsNext: false,
      offers: offers.map(({ offer }) => withCount(offer)),
      otherOffers: otherOffers.map(({ offer }) => withCount(offer)),
      obstructions,
      fixed,
      preferred: preferredOn(wall, piece, offers),
      endWindowPastObstruction: isPastSomewhere,
    },
  };
}

/** How a planned anchor uses its connector, as far as placement tells uses apart. */
export function useOfPlanned({ rightAngleDrill, shim }: NewAnchor, connector: Connector): ConnectorUse {
  return useOf(connector, { rightAngleDrill, shim: knownValue(shim) });
}

interface Offer extends UseOnBoard {
  readonly offer: KindOffer;
}

function offersOf(
  layout: Layout,
  wall: Wall,
  piece: SillPiece,
  connectors: readonly Connector[],
  step: Length,
): { readonly offers: readonly Offer[]; readonly unfit: BoardUses['unfit']; readonly open: readonly string[] } {
  const { fitting, unfit } = usesOnBoard(layout, wall, piece, connectors);
  const offers: Offer[] = [];
  const open: string[] = [];
  const available = stretchesThatCount(wall, piece);
  for (const { use, fits } of fitting) {
    const answer = limitsOnBoard(layout, wall, piece, diameterOfConnector(use.connector), step);
    if (answer.kind === 'open') open.push(`${use.connector.name}: ${answer.why}`);
    else offers.push({ use, fits, offer: { kind: use.id, limits: answer.limits, available } });
  }
  return { offers, unfit, open };
}

/** Those that each list has, under the limits of all. */
function inAll(lists: readonly (readonly Offer[])[]): Offer[] {
  const [first = [], ...rest] = lists;
  return first.flatMap((own): Offer[] => {
    let limits = own.offer.limits;
    for (const list of rest) {
      const same = list.find(({ use }) => use.id === own.use.id);
      if (same === undefined) return [];
      limits = bothLimits(limits, same.offer.limits);
    }
    return [{ ...own, offer: { ...own.offer, limits } }];
  });
}

/** One obstruction for each thing, whatever it does to the connectors; for other causes one for each cause. */
function obstructionsOf(
  wall: Wall,
  offers: readonly Offer[],
  inTheWay: Map<string, InTheWay>,
): readonly PlacementObstruction[] {
  const things = new Map(wall.obstructions.map((thing) => [thing.id, thing]));
  const defects = new Map(wall.defects.map((defect) => [defect.id, defect]));
  const blocks = new Map<string, Map<string, BlockedStretch>>();
  const add = (id: string, facts: InTheWay, block: BlockedStretch): void => {
    if (!inTheWay.has(id)) inTheWay.set(id, facts);
    const own = blocks.get(id) ?? new Map<string, BlockedStretch>();
    blocks.set(id, own);
    own.set(`${block.kind} ${block.from} ${block.to}`, block);
  };
  for (const { use, fits } of offers) {
    for (const { thing, reason, words, from, to } of fits.blocked) {
      // The stud beside an opening goes by the opening's name and is no opening.
      const obstruction = thing === undefined || !PHYSICAL.has(reason) ? undefined : things.get(thing);
      const defect = thing === undefined ? undefined : defects.get(thing);
      const id = obstruction ? obstruction.id : `${reason} ${thing ?? words}`;
      add(id, { words, reason, obstruction, defect, wants: undefined }, { kind: use.id, from, to });
    }
    for (const { thing, reason, wants, from, to } of fits.lacking) {
      const facts = {
        words: `${wants}, which nobody measured`,
        reason,
        obstruction: undefined,
        defect: undefined,
        wants,
      };
      add(`unknown ${thing} ${wants}`, facts, { kind: use.id, from, to });
    }
  }
  return [...blocks].map(([id, own]): PlacementObstruction => {
    const facts = inTheWay.get(id);
    return {
      id,
      physical: facts !== undefined && facts.wants === undefined && PHYSICAL.has(facts.reason),
      liftable: facts !== undefined && isLiftable(facts),
      liftCost: undefined,
      blocks: [...own.values()],
    };
  });
}

/** Somebody could move it, mend it or measure it. */
function isLiftable({ obstruction, defect, wants }: InTheWay): boolean {
  if (wants !== undefined || defect !== undefined) return true;
  return obstruction !== undefined && !isOpening(obstruction) && !obstruction.words.has('fixed');
}

/** The part of a board on which an anchor counts for it: in a lap, an anchor belongs to one of the two boards. */
export function stretchesThatCount(wall: Wall, piece: SillPiece): KindOffer['available'] {
  const overlapping = wall.pieces.filter(
    (other) => other !== piece && other.from <= piece.to && other.to >= piece.from,
  );
  if (overlapping.length === 0) return [{ from: piece.from, to: piece.to }];
  const ends = [piece, ...overlapping].flatMap(({ from, to }) => [from, to]);
  // Which board's end is nearer can only change at an end, or half way between two of them.
  const turns = new Set<number>();
  for (const a of ends) {
    for (const b of ends) {
      const middle = Math.floor((a + b) / 2);
      for (const at of [middle, middle + 1]) if (at >= piece.from && at <= piece.to) turns.add(at);
    }
  }
  const sorted = [...turns].sort((a, b) => a - b);
  const counts = (at: number) => pieceAt(wall, nanometres(at)) === piece;
  const parts: { from: number; to: number }[] = [];
  const add = (from: number, to: number): void => {
    const last = parts.at(-1);
    if (last !== undefined && from <= last.to + 1) last.to = to;
    else parts.push({ from, to });
  };
  for (const [index, at] of sorted.entries()) {
    const before = sorted[index - 1];
    if (before !== undefined && at - before > 1 && counts(before + 1)) add(before + 1, at - 1);
    if (counts(at)) add(at, at);
  }
  return parts;
}

/**
 * Bolts are drawn to the middles of stud bays. On a board that goes by number, to those nearest to an even spread: without
 * a spacing to keep, several could crowd into one place. Plates on the face of the sill care for even gaps only.
 */
function preferredOn(wall: Wall, piece: SillPiece, offers: readonly Offer[]): PlacementPiece['preferred'] {
  const bolts = offers.filter(({ use }) => use.connector.kind === 'through-bolt');
  const centres = bolts.length === 0 ? [] : bayCentres(wall, piece);
  if (centres.length === 0) return 'evenly';
  const limits = bolts.map(({ offer }) => offer.limits);
  if (limits.some(({ maxGap }) => maxGap !== undefined)) return centres;
  const count = Math.max(...limits.map((each) => each.count));
  const [first] = limits;
  if (count < 3 || !first) return centres;
  const middle = ({ least, most = least }: { readonly least: number; readonly most: number | undefined }) =>
    (least + most) / 2;
  const from = piece.from + middle(first.left);
  const to = piece.to - middle(first.right);
  const even = Array.from({ length: count }, (_, index) => from + ((to - from) * index) / (count - 1));
  return even.map((aim) =>
    centres.reduce((best, centre) => (Math.abs(centre - aim) < Math.abs(best - aim) ? centre : best)),
  );
}

/** Studs further from the board than this make no bay over it. */
const NEAR_THE_BOARD = inches(48);

function bayCentres(wall: Wall, piece: SillPiece): readonly number[] {
  const studs = studsOf(wall).studs.filter(
    ({ centre }) => centre > piece.from - NEAR_THE_BOARD && centre < piece.to + NEAR_THE_BOARD,
  );
  const centres = studs.slice(1).map(({ centre }, index) => {
    const left = studs[index]?.centre ?? centre;
    return Math.floor((left + centre) / 2);
  });
  return centres.filter((centre) => centre >= piece.from && centre <= piece.to);
}
