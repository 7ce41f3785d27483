import { wallAsBuilt } from '../fit/as-built.ts';
import { pieceAt } from '../fit/piece-anchors.ts';
import { tapeStep } from '../fixes/tape-step.ts';
import type { Connector } from '../hardware/connector.ts';
import { anchorsSill } from '../hardware/connector.ts';
import type { Layout, NewAnchor, Wall } from '../model/layout.ts';
import { placementMemory } from '../placement/memory.ts';
import { type NextSpot, nextSpot } from '../placement/next-spot.ts';
import type { PlacedAnchor, PlacementProblem } from '../placement/problem.ts';
import { slides } from '../placement/slide.ts';
import { inches, type Length, nanometres, scale } from '../units/length.ts';
import { type BoardCase, boardCase, useOfPlanned } from './board-case.ts';
import { type ConnectorUse, sillConnectors } from './connector-uses.ts';

/** How far one anchor may slide while all others stay, in whole tape marks. */
export interface SlideRoom {
  readonly left: Length;
  readonly right: Length;
}

/** What the crew does where a hole fails. */
export type HoleFails =
  /** Any one of them replaces it. The same connector first, then the nearest. */
  | { readonly kind: 'spots'; readonly spots: readonly Spot[] }
  /** No single one does; these together do. */
  | { readonly kind: 'more-anchors'; readonly anchors: readonly Spot[] }
  /** Stop and call: nothing that the rules allow replaces it. */
  | { readonly kind: 'stop' };
export interface Spot {
  readonly station: Length;
  readonly use: ConnectorUse;
}

/** A board with anchors of a placement, or of the design, on it. */
export interface AnchoredBoard {
  readonly board: BoardCase;
  readonly problem: PlacementProblem;
  readonly anchors: readonly PlacedAnchor[];
}

/** For every anchor of a board, in the order given. The limits are kept exactly: the tolerance of the checks is not used up. */
export function slideRooms({ problem, anchors }: AnchoredBoard): readonly SlideRoom[] {
  return slides(problem, anchors).map(({ left, right }) => ({ left: nanometres(left), right: nanometres(right) }));
}

/**
 * Where to go on drilling when one hole fails. The new hole keeps twice the depth from the dead one (common practice, no
 * source), and where the connector has a body, that body.
 */
export function ifHoleFails({ board, problem, anchors }: AnchoredBoard, anchor: PlacedAnchor): HoleFails {
  const connector = board.uses.get(anchor.kind)?.connector;
  // The dead hole is a thing in the way like any other: where it fills an end window, the rules may let the next one pass it.
  const pieces = problem.pieces.map((piece) => ({ ...piece, endWindowPastObstruction: board.mayPass }));
  const failed = { anchor, away: awayFrom(connector) };
  const answer = nextSpot({ ...problem, pieces }, anchors, failed, { memory: placementMemory() });
  return answer === undefined ? { kind: 'stop' } : inUses(board, answer);
}

/**
 * How far a planned anchor of the design may slide, with the rest of the design as it is. `undefined` where that cannot be
 * told: no place, no board, no known connector, it does not surely fit where it is, or the rules leave open what is asked.
 */
export function slideOf(layout: Layout, wall: Wall, anchor: NewAnchor): SlideRoom | undefined {
  const found = anchoredBoardOf(layout, wall, anchor);
  if (!found) return undefined;
  const { board, anchors } = found;
  const own = anchors.findIndex(({ station }) => station === anchor.station);
  const offer = board.placement.offers.find(({ kind }) => kind === anchors[own]?.kind);
  if (own < 0 || !offer) return undefined;
  const isClear = board.placement.obstructions.every(({ blocks }) =>
    blocks.every(
      ({ kind, from, to }) =>
        (kind !== undefined && kind !== offer.kind) || (anchor.station ?? from) <= from || (anchor.station ?? to) >= to,
    ),
  );
  return isClear ? slideRooms(found)[own] : undefined;
}

/** What to do where the hole of a planned anchor of the design fails; `undefined` where nothing can be told of it. */
export function holeFailsOf(layout: Layout, wall: Wall, anchor: NewAnchor): HoleFails | undefined {
  const found = anchoredBoardOf(layout, wall, anchor);
  const own = found?.anchors.find(({ station }) => station === anchor.station);
  return found && own && ifHoleFails(found, own);
}

/** The board of a planned anchor: it and its planned neighbours as anchors that may slide, the rest as fixed. */
export function anchoredBoardOf(layout: Layout, wall: Wall, anchor: NewAnchor): AnchoredBoard | undefined {
  const { station, connector, state } = anchor;
  if (station === undefined || !connector || state !== 'planned' || !anchorsSill(connector.kind)) return undefined;
  // Neighbours that are in the wall already stand where they were built.
  const built = wallAsBuilt(layout, wall);
  const piece = pieceAt(built, station);
  if (!piece) return undefined;
  const ofLayout = kept.get(layout) ?? new Map<string, AnchoredBoard | undefined>();
  kept.set(layout, ofLayout);
  if (!ofLayout.has(piece.id)) ofLayout.set(piece.id, anchoredBoard(layout, built, piece));
  return ofLayout.get(piece.id);
}

/** As long as the layout: a schedule asks for every anchor of a board. */
const kept = new WeakMap<Layout, Map<string, AnchoredBoard | undefined>>();

function anchoredBoard(layout: Layout, wall: Wall, piece: BoardCase['piece']): AnchoredBoard | undefined {
  const isPlanned = (each: NewAnchor): boolean =>
    each.state === 'planned' && each.connector !== undefined && anchorsSill(each.connector.kind);
  const planned = wall.anchors.filter(
    (each) => isPlanned(each) && each.station !== undefined && pieceAt(wall, each.station) === piece,
  );
  const named = new Set(planned.flatMap((each) => each.connector ?? []));
  const boardWith = (isMovable: (anchor: NewAnchor) => boolean) =>
    boardCase([layout], wall, piece, {
      step: tapeStep(layout.title.units),
      connectors: [...new Set([...named, ...sillConnectors(layout).chosen])],
      otherConnectors: [],
      isMovable,
    });
  const allMovable = boardWith(isPlanned);
  if (allMovable.kind === 'open') return undefined;
  // What is used in a way that placement would not offer here stays where it is, and is a neighbour all the same.
  const offered = new Set(allMovable.placement.offers.map(({ kind }) => kind));
  const mayMove = new Set(
    planned.filter((each) => each.connector && offered.has(useOfPlanned(each, each.connector).id)),
  );
  const board = mayMove.size === planned.length ? allMovable : boardWith((each) => mayMove.has(each));
  if (board.kind === 'open') return undefined;
  const anchors = planned.flatMap((each): PlacedAnchor[] => {
    if (each.station === undefined || !each.connector || !mayMove.has(each)) return [];
    return [{ piece: piece.id, station: each.station, kind: useOfPlanned(each, each.connector).id }];
  });
  const problem: PlacementProblem = {
    step: tapeStep(layout.title.units),
    slip: 0,
    kinds: [...board.uses.keys()].map((id) => ({ id, cost: 1, capacity: 0 })),
    pieces: [board.placement],
    lines: [],
  };
  return { board, problem, anchors };
}

function awayFrom(connector: Connector | undefined): Length {
  const fastener = connector?.fasteners.find(({ member }) => member === 'concrete');
  const depth = fastener?.holeDepth ?? fastener?.embed ?? USUAL_DEPTH;
  return nanometres(Math.max(scale(depth, 2), connector?.body?.wide ?? 0));
}

/** Of a half-inch anchor: common practice, no source. */
const USUAL_DEPTH = inches(4);

function inUses(board: BoardCase, answer: NextSpot): HoleFails {
  const spots = (anchors: readonly PlacedAnchor[]): readonly Spot[] =>
    anchors.flatMap(({ station, kind }) => {
      const use = board.uses.get(kind);
      return use === undefined ? [] : [{ station: nanometres(station), use }];
    });
  if (answer.kind === 'spots') return { kind: 'spots', spots: spots(answer.spots) };
  if (answer.kind === 'more-anchors') {
    const anchors = spots(answer.anchors);
    return anchors.length === 1 ? { kind: 'spots', spots: anchors } : { kind: 'more-anchors', anchors };
  }
  return { kind: 'stop' };
}
