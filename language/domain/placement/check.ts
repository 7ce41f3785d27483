import type {
  AnchorLimits,
  KindOffer,
  PlacedAnchor,
  PlacementObstruction,
  PlacementPiece,
  PlacementProblem,
  Stretch,
} from './problem.ts';

/**
 * Holds a list of new anchors against a problem, one constraint at a time, sharing no code with the solver: every answer
 * of the solver goes through here before anyone sees it.
 */
export interface PlacementCheck {
  readonly violations: readonly PlacementViolation[];
  readonly cost: number;
  /**
   * How far any one limit or obstruction still is from every new anchor, beyond the promised slip: the least of all.
   * `undefined` where nothing new is placed, or only end anchors that have one spot each.
   */
  readonly slack: number | undefined;
  /** New end anchors on the one spot that an obstruction leaves: they may neither slide nor slip. */
  readonly onlySpots: readonly PlacedAnchor[];
}

export type ViolationKind =
  | 'unknown-piece'
  | 'kind-not-offered'
  | 'off-tape-mark'
  | 'blocked'
  | 'too-near-end'
  | 'end-anchor-too-far'
  | 'gap-too-wide'
  | 'gap-too-tight'
  | 'too-few'
  | 'too-weak'
  | 'line-short';

export interface PlacementViolation {
  readonly kind: ViolationKind;
  /** A piece, or a line for `line-short`. */
  readonly where: string;
  /** The piece on the other side, for a gap across a break. */
  readonly across?: string;
  /** The anchor, or the left one of a gap. */
  readonly station: number | undefined;
  /** By how much, in the unit of what is violated. */
  readonly by: number;
  /** It is between fixed anchors and their surroundings only: no new anchor causes it or can mend it. */
  readonly standing: boolean;
}

export function checkPlacement(problem: PlacementProblem, anchors: readonly PlacedAnchor[]): PlacementCheck {
  const violations: PlacementViolation[] = [];
  const costs = new Map(problem.kinds.map((kind) => [kind.id, kind.cost]));
  const byPiece = new Map(problem.pieces.map(({ id }) => [id, [] as PlacedAnchor[]]));
  const onlySpots: PlacedAnchor[] = [];
  let slack: number | undefined;
  const spare = (room: number) => {
    slack = slack === undefined ? room : Math.min(slack, room);
  };

  for (const anchor of anchors) {
    const { piece, station } = anchor;
    const own = byPiece.get(piece);
    if (own === undefined) violations.push({ kind: 'unknown-piece', where: piece, station, by: 0, standing: false });
    else own.push(anchor);
  }
  let before: { readonly id: string; readonly row: readonly Standing[] } | undefined;
  for (const piece of problem.pieces) {
    const row = rowOf(problem, piece, byPiece.get(piece.id) ?? []);
    violations.push(...checkPiece(problem, piece, row, spare));
    for (const { station, offer, onlySpot } of row) {
      if (offer !== undefined && onlySpot.length > 0) onlySpots.push({ piece: piece.id, station, kind: offer.kind });
    }
    if (before !== undefined) {
      const { id } = before;
      const ends = [...before.row.slice(-1), ...row.slice(0, 1)];
      violations.push(...checkGaps(problem, piece, ends, spare).map((violation) => ({ ...violation, across: id })));
    }
    before = piece.joinsNext ? { id: piece.id, row } : undefined;
  }
  for (const line of problem.lines) {
    const standing = problem.pieces
      .filter(({ id }) => line.pieces.includes(id))
      .flatMap(({ fixed }) => fixed.filter(({ counts }) => counts));
    const placed = anchors.filter((anchor) => line.pieces.includes(anchor.piece));
    const short = line.count - standing.length - placed.length;
    if (short > 0)
      violations.push({ kind: 'line-short', where: line.id, station: undefined, by: short, standing: false });
  }
  return { violations, cost: anchors.reduce((sum, { kind }) => sum + (costs.get(kind) ?? 0), 0), slack, onlySpots };
}

type End = 'left' | 'right';

/** An anchor in its row: new, or fixed. */
interface Standing {
  readonly station: number;
  readonly limits: AnchorLimits;
  readonly offer: KindOffer | undefined;
  readonly capacity: number;
  readonly drifts: boolean;
  /** The ends at which it has the one spot that an obstruction leaves. */
  readonly onlySpot: readonly End[];
}

function rowOf(problem: PlacementProblem, piece: PlacementPiece, anchors: readonly PlacedAnchor[]): Standing[] {
  const anywhere = { least: 0, most: undefined };
  const nothing: AnchorLimits = { left: anywhere, right: anywhere, minGap: 1, maxGap: undefined, count: 1 };
  const fixed = piece.fixed
    .filter(({ counts }) => counts)
    .map(({ station, limits, drifts }): Standing => {
      return { station, limits, offer: undefined, capacity: 0, drifts, onlySpot: [] };
    });
  const placed = anchors.map(({ station, kind }): Standing => {
    const offer = piece.offers.find((candidate) => candidate.kind === kind) ?? { kind, limits: nothing, available: [] };
    const capacity = problem.kinds.find(({ id }) => id === kind)?.capacity ?? 0;
    return { station, limits: offer.limits, offer, capacity, drifts: true, onlySpot: [] };
  });
  const row = [...fixed, ...placed].sort((a, b) => a.station - b.station);
  return row.map((anchor) => {
    if (anchor.offer === undefined) return anchor;
    const outermost: End[] = [];
    if (anchor === row[0]) outermost.push('left');
    if (anchor === row.at(-1)) outermost.push('right');
    return { ...anchor, onlySpot: outermost.filter((end) => isOnlyEndSpot(problem, piece, end, anchor.station)) };
  });
}

function checkPiece(
  problem: PlacementProblem,
  piece: PlacementPiece,
  row: readonly Standing[],
  spare: (room: number) => void,
): PlacementViolation[] {
  const violations: PlacementViolation[] = [];
  const report = (kind: ViolationKind, station: number | undefined, by: number, standing = false) => {
    violations.push({ kind, where: piece.id, station, by, standing });
  };

  for (const { station, limits, offer, onlySpot } of row) {
    const fromEnds = Math.min(station - piece.from - limits.left.least, piece.to - station - limits.right.least);
    if (offer === undefined) {
      if (fromEnds < 0) report('too-near-end', station, -fromEnds, true);
      continue;
    }
    // The one spot that an obstruction leaves has no room to promise.
    const slip = onlySpot.length > 0 ? 0 : problem.slip;
    if (!piece.offers.includes(offer)) report('kind-not-offered', station, 0);
    if (station % problem.step !== 0) report('off-tape-mark', station, station % problem.step);
    if (fromEnds < slip) report('too-near-end', station, slip - fromEnds);
    const clear = clearRoom(piece, offer, station);
    const room = clear === undefined ? undefined : Math.min(station - clear.from, clear.to - station);
    if (room === undefined || room < slip) report('blocked', station, room === undefined ? 0 : slip - room);
    if (onlySpot.length > 0 || room === undefined) continue;
    spare(fromEnds - slip);
    spare(room - slip);
  }

  for (const end of ['left', 'right'] as const) {
    const anchor = row.at(end === 'left' ? 0 : -1);
    const most = anchor?.limits[end].most;
    if (anchor === undefined || most === undefined || anchor.onlySpot.includes(end)) continue;
    const isFixed = anchor.offer === undefined;
    const room = most - distanceFrom(end, piece, anchor.station) - (isFixed ? 0 : problem.slip);
    if (!isFixed && anchor.onlySpot.length === 0) spare(room);
    if (room >= 0 || (isFixed && isOnlyEndSpot(problem, piece, end, anchor.station))) continue;
    report('end-anchor-too-far', anchor.station, -room);
  }

  violations.push(...checkGaps(problem, piece, row, spare));
  const wanted = Math.max(1, ...row.map(({ limits }) => limits.count));
  if (row.length < wanted) report('too-few', undefined, wanted - row.length);
  const strength = [...row, ...piece.fixed].reduce((sum, { capacity }) => sum + capacity, 0);
  if (strength < piece.demand) report('too-weak', undefined, piece.demand - strength);
  return violations;
}

function checkGaps(
  { slip }: PlacementProblem,
  piece: PlacementPiece,
  row: readonly Standing[],
  spare: (room: number) => void,
): PlacementViolation[] {
  const violations: PlacementViolation[] = [];
  for (const [index, right] of row.entries()) {
    const left = row[index - 1];
    if (left === undefined) continue;
    const bothFixed = left.offer === undefined && right.offer === undefined;
    const drift = bothFixed ? 0 : slip * (Number(left.drifts) + Number(right.drifts));
    const gap = right.station - left.station;
    const tight = gap - Math.max(left.limits.minGap, right.limits.minGap) - drift;
    const wide =
      Math.min(left.limits.maxGap ?? Number.POSITIVE_INFINITY, right.limits.maxGap ?? Number.POSITIVE_INFINITY) -
      gap -
      drift;
    const where = piece.id;
    if (tight < 0)
      violations.push({ kind: 'gap-too-tight', where, station: left.station, by: -tight, standing: bothFixed });
    if (wide < 0) violations.push({ kind: 'gap-too-wide', where, station: left.station, by: -wide, standing: false });
    const hasSlack = (anchor: Standing) => anchor.offer !== undefined && anchor.onlySpot.length === 0;
    if (hasSlack(left) || hasSlack(right)) {
      spare(tight);
      spare(wide);
    }
  }
  return violations;
}

/** The closed room around a station where the kind may slide, `undefined` where it may not stand. */
function clearRoom(
  piece: Stretch & { readonly obstructions: readonly PlacementObstruction[] },
  offer: KindOffer,
  station: number,
): Stretch | undefined {
  let from = station;
  let to = station;
  if (!offer.available.some((part) => part.from <= station && station <= part.to)) return undefined;
  // Rooms that touch are one: grow until no room reaches further.
  for (let grown = true; grown; ) {
    grown = false;
    for (const part of offer.available) {
      if (part.from > to || part.to < from || (part.from >= from && part.to <= to)) continue;
      from = Math.min(from, part.from);
      to = Math.max(to, part.to);
      grown = true;
    }
  }
  for (const { blocks } of piece.obstructions) {
    for (const block of blocks) {
      if (block.from >= block.to || (block.kind !== undefined && block.kind !== offer.kind)) continue;
      if (block.from < station && station < block.to) return undefined;
      if (block.to <= station) from = Math.max(from, block.to);
      else to = Math.min(to, block.from);
    }
  }
  return { from, to };
}

/**
 * The rule set lets this station be an end anchor though it is past the window: physical things block the whole window for
 * every kind on offer, and nothing can stand, or stands, nearer to the end. Whether a mark is free can only change where
 * something begins or ends, so the marks next to those places are all that need trying.
 */
function isOnlyEndSpot(problem: PlacementProblem, piece: PlacementPiece, end: End, station: number): boolean {
  if (!piece.endWindowPastObstruction || piece.offers.length === 0) return false;
  const counted = piece.fixed.filter(({ counts }) => counts);
  const distance = (at: number) => distanceFrom(end, piece, at);
  if (counted.some((anchor) => distance(anchor.station) <= (anchor.limits[end].most ?? Number.POSITIVE_INFINITY))) {
    return false;
  }
  const roomAt = (offer: KindOffer, on: PlacementPiece, mark: number) => {
    const room = clearRoom(on, offer, mark);
    if (room === undefined) return -1;
    return Math.min(mark - Math.max(room.from, piece.from), Math.min(room.to, piece.to) - mark);
  };
  const standsFree = (offer: KindOffer, mark: number) => {
    const { left, right } = offer.limits;
    return mark - piece.from >= left.least && piece.to - mark >= right.least && roomAt(offer, piece, mark) >= 0;
  };
  const thingsOnly = { ...piece, obstructions: piece.obstructions.filter(({ physical }) => physical) };
  for (const offer of piece.offers) {
    const { least, most } = offer.limits[end];
    const roomy = { ...offer, available: [{ from: piece.from, to: piece.to }] };
    const marks = marksWorthTrying(problem, thingsOnly, roomy, problem.slip);
    const isFree = (mark: number) => {
      const inWindow = distance(mark) - least >= problem.slip && (most ?? 0) - distance(mark) >= problem.slip;
      return inWindow && roomAt(roomy, thingsOnly, mark) >= problem.slip;
    };
    if (most === undefined || marks.some(isFree)) return false;
  }
  const isNearer = (at: number) => distance(at) < distance(station);
  const nearerFree = (offer: KindOffer) =>
    marksWorthTrying(problem, piece, offer, 0).some((mark) => isNearer(mark) && standsFree(offer, mark));
  return !piece.offers.some(nearerFree) && !counted.some((anchor) => isNearer(anchor.station));
}

function marksWorthTrying({ step }: PlacementProblem, piece: PlacementPiece, offer: KindOffer, slip: number): number[] {
  const blocks = piece.obstructions.flatMap((obstruction) => obstruction.blocks);
  const starts = [
    piece.from + offer.limits.left.least,
    ...[...offer.available, piece].map(({ from }) => from),
    ...blocks.map(({ to }) => to),
  ];
  const ends = [
    piece.to - offer.limits.right.least,
    ...[...offer.available, piece].map(({ to }) => to),
    ...blocks.map(({ from }) => from),
  ];
  return [
    ...starts.map((start) => Math.ceil((start + slip) / step) * step),
    ...ends.map((stop) => Math.floor((stop - slip) / step) * step),
  ];
}

function distanceFrom(end: End, piece: Stretch, station: number): number {
  return end === 'left' ? station - piece.from : piece.to - station;
}
