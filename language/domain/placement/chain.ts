import { clearStretches } from './clear-stretches.ts';
import type {
  AnchorLimits,
  FixedAnchor,
  KindOffer,
  LineTotal,
  PlacementPiece,
  PlacementProblem,
  Stretch,
} from './problem.ts';

/**
 * Pieces that see each other across breaks, ready to solve: the unit of solving and of caching. Everything is moved so
 * that the first piece starts within one tape mark of 0, in an order that does not depend on the input's, and nothing
 * that cannot change the answer is left in, so that equal chains have equal keys wherever they stand.
 */
export interface Chain {
  readonly step: number;
  readonly slip: number;
  readonly pieces: readonly ChainPiece[];
  /** Stations of the wall are `shift` more; a multiple of the step. */
  readonly shift: number;
  /** The whole content of the chain but its names and its place. */
  readonly key: string;
  readonly pieceIds: readonly string[];
}

export interface ChainPiece extends Stretch {
  /** What new anchors still have to bear. */
  readonly demand: number;
  readonly offers: readonly ChainOffer[];
  /** Those that count, by station. */
  readonly fixed: readonly ChainFixed[];
  readonly preferred: readonly number[] | 'evenly';
  readonly leftPin: Pin | undefined;
  readonly rightPin: Pin | undefined;
}

export interface ChainOffer {
  readonly kind: string;
  readonly cost: number;
  readonly capacity: number;
  readonly limits: AnchorLimits;
  readonly clear: readonly Stretch[];
}

export interface ChainFixed {
  readonly station: number;
  readonly limits: AnchorLimits;
  readonly drifts: boolean;
  /** It may be the first, or the last, of its piece. */
  readonly first: boolean;
  readonly last: boolean;
}

/** An end anchor past an obstruction: one station, the nearest clear one, for the kinds that may stand there. */
export interface Pin {
  readonly station: number;
  readonly kinds: readonly string[];
}

/** Cuts the problem where pieces cannot see each other. The problem has no faults. */
export function chainsOf(problem: PlacementProblem): Chain[] {
  const chains: Chain[] = [];
  let run: PlacementPiece[] = [];
  for (const [index, piece] of problem.pieces.entries()) {
    run.push(piece);
    const next = problem.pieces[index + 1];
    if (next !== undefined && piece.joinsNext && !gapAlwaysHolds(piece, next, problem.slip)) continue;
    chains.push(chainOf(problem, run));
    run = [];
  }
  return chains;
}

export function chainOf(problem: PlacementProblem, pieces: readonly PlacementPiece[]): Chain {
  const { step, slip } = problem;
  const shift = Math.floor(Math.min(...pieces.map((piece) => piece.from)) / step) * step;
  const prepared = pieces.map((piece) => moved(prepare(problem, piece), -shift));
  return {
    step,
    slip,
    pieces: prepared,
    shift,
    key: JSON.stringify([step, slip, prepared]),
    pieceIds: pieces.map(({ id }) => id),
  };
}

/** The chain seen from the other side: right is left, stations are negative. For searches that come from the left. */
export function mirrorOf(chain: Chain): Chain {
  const mirror = ({ from, to }: { readonly from: number; readonly to: number }) => ({ from: -to, to: -from });
  const mirrorPin = (pin: Pin | undefined): Pin | undefined =>
    pin === undefined ? undefined : { ...pin, station: -pin.station };
  const pieces = chain.pieces.map(
    (piece): ChainPiece => ({
      ...piece,
      ...mirror(piece),
      offers: piece.offers.map((offer) => ({
        ...offer,
        limits: mirrorLimits(offer.limits),
        clear: offer.clear.map(mirror).reverse(),
      })),
      fixed: piece.fixed
        .map((anchor) => ({
          ...anchor,
          limits: mirrorLimits(anchor.limits),
          station: -anchor.station,
          first: anchor.last,
          last: anchor.first,
        }))
        .reverse(),
      preferred: [],
      leftPin: mirrorPin(piece.rightPin),
      rightPin: mirrorPin(piece.leftPin),
    }),
  );
  return { ...chain, pieces: pieces.reverse() };
}

export function mirrorLimits(limits: AnchorLimits): AnchorLimits {
  return { ...limits, left: limits.right, right: limits.left };
}

/** How many new anchors each line still wants, and from which chains. */
export interface LineShare {
  readonly line: LineTotal;
  readonly chains: readonly number[];
  readonly wanted: number;
}

export function lineShares(problem: PlacementProblem, chains: readonly Chain[]): LineShare[] {
  return problem.lines.map((line) => {
    const counted = new Set(line.pieces);
    const standing = problem.pieces
      .filter((piece) => counted.has(piece.id))
      .reduce((sum, piece) => sum + piece.fixed.filter((anchor) => anchor.counts).length, 0);
    return {
      line,
      chains: [...chains.keys()].filter((index) => chains[index]?.pieceIds.some((id) => counted.has(id))),
      wanted: Math.max(0, line.count - standing),
    };
  });
}

/**
 * An anchor as its neighbours see it. `movable`: it has slack to give. `standing`: nothing that placement does can mend
 * what is between two of these.
 */
export interface AnchorClass {
  readonly limits: AnchorLimits;
  readonly movable: boolean;
  readonly drifts: boolean;
  readonly standing: boolean;
}

/** Bounds of the gap between two neighbours, when it keeps `slack` to spare and both may drift by `slip`. */
export function gapBetween(
  a: AnchorClass,
  b: AnchorClass,
  slip: number,
  slack: number,
): { readonly least: number; readonly greatest: number } {
  const greatest = Math.min(a.limits.maxGap ?? Number.POSITIVE_INFINITY, b.limits.maxGap ?? Number.POSITIVE_INFINITY);
  if (a.standing && b.standing) return { least: Number.NEGATIVE_INFINITY, greatest };
  const spare = slip * (Number(a.drifts) + Number(b.drifts)) + (a.movable || b.movable ? slack : 0);
  return { least: Math.max(a.limits.minGap, b.limits.minGap) + spare, greatest: greatest - spare };
}

export const newClass = (limits: AnchorLimits): AnchorClass => ({
  limits,
  movable: true,
  drifts: true,
  standing: false,
});
export const pinnedClass = (limits: AnchorLimits): AnchorClass => ({
  limits,
  movable: false,
  drifts: true,
  standing: false,
});
export const fixedClass = ({
  limits,
  drifts,
}: {
  readonly limits: AnchorLimits;
  readonly drifts: boolean;
}): AnchorClass => ({
  limits,
  movable: false,
  drifts,
  standing: true,
});

export function byCodeUnits(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}

function prepare(problem: PlacementProblem, piece: PlacementPiece): ChainPiece {
  const counted = piece.fixed.filter((anchor) => anchor.counts).sort((a, b) => a.station - b.station);
  const leftPin = pinAt('left', problem, piece, counted);
  const rightPin = pinAt('right', problem, piece, counted);
  const offers = piece.offers.map((offer): ChainOffer => {
    const kind = problem.kinds.find(({ id }) => id === offer.kind);
    const clear = clearStretches(piece, offer.kind, offer.available, piece.obstructions);
    return { kind: offer.kind, cost: kind?.cost ?? 1, capacity: kind?.capacity ?? 0, limits: offer.limits, clear };
  });
  return {
    from: piece.from,
    to: piece.to,
    demand: Math.max(0, piece.demand - piece.fixed.reduce((sum, anchor) => sum + anchor.capacity, 0)),
    offers: offers.sort((a, b) => byCodeUnits(a.kind, b.kind)),
    fixed: counted.map(({ station, limits, drifts }) => ({
      station,
      limits,
      drifts,
      first: station - piece.from <= mostFrom('left', limits) || leftPin === 'fixed',
      last: piece.to - station <= mostFrom('right', limits) || rightPin === 'fixed',
    })),
    preferred: piece.preferred === 'evenly' ? 'evenly' : [...new Set(piece.preferred)].sort((a, b) => a - b),
    leftPin: leftPin === 'fixed' ? undefined : leftPin,
    rightPin: rightPin === 'fixed' ? undefined : rightPin,
  };
}

/**
 * The exception for an end window that physical things block wholly: the nearest clear spot beyond it, wherever the fixed
 * anchors stand. `'fixed'` where one of them is nearer to the end than that spot. The spot is what it is: it cannot be
 * kept at a distance from what is beside it, so no slip is held back there.
 */
function pinAt(
  end: 'left' | 'right',
  problem: PlacementProblem,
  piece: PlacementPiece,
  counted: readonly FixedAnchor[],
): Pin | 'fixed' | undefined {
  if (!piece.endWindowPastObstruction || piece.offers.length === 0) return undefined;
  const { step, slip } = problem;
  const served = counted.some(({ station, limits }) => fromEnd(end, piece, station) <= mostFrom(end, limits));
  if (served || !piece.offers.every((offer) => windowIsBlocked(end, piece, offer, step, slip))) return undefined;

  const spots = new Map<string, number>();
  for (const offer of piece.offers) {
    const inside = insideEnds(piece, offer.limits);
    const clear = clearStretches(piece, offer.kind, offer.available, piece.obstructions).flatMap((part) => {
      const from = Math.ceil(Math.max(part.from, inside.from) / step) * step;
      const to = Math.floor(Math.min(part.to, inside.to) / step) * step;
      return from <= to ? [end === 'left' ? from : to] : [];
    });
    if (clear.length > 0) spots.set(offer.kind, end === 'left' ? Math.min(...clear) : Math.max(...clear));
  }
  const nearest = (stations: Iterable<number>) =>
    Math.min(Number.POSITIVE_INFINITY, ...[...stations].map((station) => fromEnd(end, piece, station)));
  const nearestFixed = nearest(counted.map(({ station }) => station));
  const nearestSpot = nearest(spots.values());
  if (nearestFixed !== Number.POSITIVE_INFINITY && nearestFixed <= nearestSpot) return 'fixed';
  if (nearestSpot === Number.POSITIVE_INFINITY) return undefined;
  const station = end === 'left' ? piece.from + nearestSpot : piece.to - nearestSpot;
  const kinds = [...spots].filter(([, spot]) => spot === station).map(([kind]) => kind);
  return { station, kinds: kinds.sort(byCodeUnits) };
}

/** Physical things alone leave no tape mark of the end window free. */
function windowIsBlocked(
  end: 'left' | 'right',
  piece: PlacementPiece,
  { kind, limits }: KindOffer,
  step: number,
  slip: number,
): boolean {
  const { least, most } = limits[end];
  if (most === undefined) return false;
  const things = piece.obstructions.filter((obstruction) => obstruction.physical);
  const window =
    end === 'left'
      ? { from: piece.from + least, to: piece.from + most }
      : { from: piece.to - most, to: piece.to - least };
  return clearStretches(piece, kind, [piece], things).every((part) => {
    const from = Math.max(part.from, window.from) + slip;
    const to = Math.min(part.to, window.to) - slip;
    return Math.ceil(from / step) > Math.floor(to / step);
  });
}

/** Where the end limits let an anchor stand at all. */
export function insideEnds(piece: Stretch, { left, right }: AnchorLimits): Stretch {
  return { from: piece.from + left.least, to: piece.to - right.least };
}

export function mostFrom(end: 'left' | 'right', limits: AnchorLimits): number {
  return limits[end].most ?? Number.POSITIVE_INFINITY;
}

function fromEnd(end: 'left' | 'right', piece: Stretch, station: number): number {
  return end === 'left' ? station - piece.from : piece.to - station;
}

/**
 * The gap across the break holds wherever the two end anchors stand: at most the greatest end distances from it, at
 * least the least ones. Keeping slack only helps: it draws the two ends inward by twice what the gap limit loses.
 */
function gapAlwaysHolds(piece: PlacementPiece, next: PlacementPiece, slip: number): boolean {
  if (piece.endWindowPastObstruction || next.endWindowPastObstruction) return false;
  const between = next.from - piece.to;
  return possibleEnds('right', piece, slip).every((a) =>
    possibleEnds('left', next, slip).every((b) => {
      const { least, greatest } = gapBetween(a.anchor, b.anchor, slip, 0);
      return between + a.least + b.least >= least && between + a.greatest + b.greatest <= greatest;
    }),
  );
}

function possibleEnds(end: 'left' | 'right', piece: PlacementPiece, slip: number) {
  const whole = piece.to - piece.from;
  const fixed = piece.fixed
    .filter(({ counts, station, limits }) => counts && fromEnd(end, piece, station) <= mostFrom(end, limits))
    .map((anchor) => {
      const distance = fromEnd(end, piece, anchor.station);
      return { anchor: fixedClass(anchor), least: distance, greatest: distance };
    });
  const placed = piece.offers.map(({ limits }) => ({
    anchor: newClass(limits),
    least: limits[end].least + slip,
    greatest: Math.min(mostFrom(end, limits), whole) - slip,
  }));
  return [...fixed, ...placed];
}

function moved(piece: ChainPiece, by: number): ChainPiece {
  const move = ({ from, to }: Stretch): Stretch => ({ from: from + by, to: to + by });
  const movePin = (pin: Pin | undefined): Pin | undefined =>
    pin === undefined ? undefined : { ...pin, station: pin.station + by };
  return {
    ...piece,
    ...move(piece),
    offers: piece.offers.map((offer) => ({ ...offer, clear: offer.clear.map(move) })),
    fixed: piece.fixed.map((anchor) => ({ ...anchor, station: anchor.station + by })),
    preferred: piece.preferred === 'evenly' ? 'evenly' : piece.preferred.map((station) => station + by),
    leftPin: movePin(piece.leftPin),
    rightPin: movePin(piece.rightPin),
  };
}
