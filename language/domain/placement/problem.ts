/**
 * Where to put anchors, as a problem in whole numbers. The solver knows no inches: every length is a whole count of one
 * unit, the project's nanometres as well as the sixteenths of the published cases. `Length` values drop in as they are.
 *
 * Stations of one piece share one axis. Pieces of several walls may stand in one problem, as their axes never meet:
 * pieces see each other only through `joinsNext` (neighbours of one wall) and through the totals of `lines`.
 */
export interface PlacementProblem {
  /** The tape mark: every new anchor stands on a multiple of it from station 0 (1/16 in, or 1 mm). At least 1. */
  readonly step: number;
  /** Every anchor that is not yet in may drift this far either way, all at once, and the answer still holds. 0: no such promise. */
  readonly slip: number;
  readonly kinds: readonly AnchorKind[];
  /** Along each wall from its station 0. */
  readonly pieces: readonly PlacementPiece[];
  readonly lines: readonly LineTotal[];
}

export interface AnchorKind {
  readonly id: string;
  /** Whole, at least 1: cents, or any other unit of cost. */
  readonly cost: number;
  /** Whole, at least 0, rounded down from the report; in the unit of the demands. */
  readonly capacity: number;
}

/** One sill board, from true end to true end. Neighbours may overlap (a lap) or leave a hole (a chimney). */
export interface PlacementPiece {
  readonly id: string;
  readonly from: number;
  readonly to: number;
  /** The capacities of its anchors add up to at least this; rounded up from the force. 0: none asked. */
  readonly demand: number;
  /** The gap limits hold across the break to the next piece of the list too. */
  readonly joinsNext: boolean;
  /** The kinds that may be used on it. */
  readonly offers: readonly KindOffer[];
  /** Kinds that would fit the job but were not chosen: tried as a way out when nothing else works. */
  readonly otherOffers: readonly KindOffer[];
  readonly obstructions: readonly PlacementObstruction[];
  readonly fixed: readonly FixedAnchor[];
  /**
   * Stations that new anchors are drawn to, the centres of stud bays; or `evenly`: to equal gaps, where a board has no
   * studs. Neither costs an anchor or slack.
   */
  readonly preferred: readonly number[] | 'evenly';
  /**
   * Where physical things block a whole end window, the nearest clear spot beyond it serves (existing-building code
   * appendix, section A304.3.2, exception; recalled, confirm in the adopted copy). False where the rule set is silent.
   */
  readonly endWindowPastObstruction: boolean;
}

/** One kind on one piece: the limits may depend on its bolt, the room on its plate. */
export interface KindOffer {
  readonly kind: string;
  readonly limits: AnchorLimits;
  /**
   * Closed stretches where it fits the piece when no obstruction is counted. Intervals that touch are one. Where boards
   * overlap, only the part of the lap in which an anchor counts for this one.
   */
  readonly available: readonly Stretch[];
}

/** Both bounds of each limit are inclusive. Between two anchors with different limits the stricter governs. */
export interface AnchorLimits {
  readonly left: EndLimits;
  readonly right: EndLimits;
  /** Centre to centre. At least 1. */
  readonly minGap: number;
  /** `undefined`: no spacing limit (a piece that goes by the count table). */
  readonly maxGap: number | undefined;
  /** The piece holds at least this many anchors once one of this kind is among them. At least 1. */
  readonly count: number;
}

/** At one end of a piece; an end at a corner may have other limits than one at a joint. */
export interface EndLimits {
  /** No anchor stands nearer to this end. At least 0. */
  readonly least: number;
  /** The anchor next to this end stands no further from it. `undefined`: anywhere (a piece that takes one anchor). */
  readonly most: number | undefined;
}

/** Something in the way. It blocks open stretches: an anchor may stand exactly at their ends. */
export interface PlacementObstruction {
  readonly id: string;
  /** A thing (pipe, vent, chimney, neighbour's concrete), not a defect of wood or concrete, and not a stud. */
  readonly physical: boolean;
  /** It could be moved or mended: lifting it is tried as a way out. */
  readonly liftable: boolean;
  /** What lifting it costs, in the unit of the kinds' cost; `undefined`: not priced. */
  readonly liftCost: number | undefined;
  /** Widened by the clearance, and by the half-width of the kind that it holds for. */
  readonly blocks: readonly BlockedStretch[];
}
export interface BlockedStretch extends Stretch {
  /** `undefined`: for every kind. */
  readonly kind: string | undefined;
}

export interface Stretch {
  readonly from: number;
  readonly to: number;
}

/** An anchor that placement never moves: found in the wall with credit, set by hand, or installed. */
export interface FixedAnchor {
  readonly id: string;
  readonly station: number;
  readonly limits: AnchorLimits;
  /** Counts in gaps, ends and numbers. False: it lends strength only (part credit). */
  readonly counts: boolean;
  /** The strength that it is credited with. */
  readonly capacity: number;
  /** Not yet in: its hole may still drift when it is drilled. */
  readonly drifts: boolean;
  /** New hardware of one of the kinds, `undefined` for what was found: using that kind again adds no kind to the job. */
  readonly kind: string | undefined;
}

/** So many anchors on a line, over all its pieces; obstructions move anchors, they do not cut this number. */
export interface LineTotal {
  readonly id: string;
  readonly pieces: readonly string[];
  readonly count: number;
}

/** A new anchor of an answer. */
export interface PlacedAnchor {
  readonly piece: string;
  readonly station: number;
  readonly kind: string;
}

/** Why a problem cannot be read; `where` names a piece, kind, fixed anchor or line. */
export interface ProblemFault {
  readonly where: string;
  readonly what: string;
}

/** The work for a line grows with its number, and no house has so many. */
const MOST_ON_LINE = 10_000;

/** What has to hold before anything is solved. Numbers that do not fit exactly are refused here, so nothing rounds later. */
export function problemFaults(problem: PlacementProblem): ProblemFault[] {
  const faults: ProblemFault[] = [];
  const kinds = new Set<string>();
  const pieces = new Map<string, PlacementPiece>();
  const whole = (where: string, what: string, value: number, least: number) => {
    if (!Number.isSafeInteger(value) || value < least)
      faults.push({ where, what: `${what} is ${value}, not a whole number from ${least} up` });
  };
  const stretch = (where: string, what: string, { from, to }: Stretch) => {
    if (!Number.isSafeInteger(from) || !Number.isSafeInteger(to) || from > to)
      faults.push({ where, what: `${what} runs from ${from} to ${to}` });
  };
  const limits = (where: string, { left, right, minGap, maxGap, count }: AnchorLimits) => {
    for (const { least, most } of [left, right]) {
      whole(where, 'the least end distance', least, 0);
      if (most !== undefined) whole(where, 'the greatest end distance', most, 0);
    }
    whole(where, 'the least gap', minGap, 1);
    if (maxGap !== undefined) whole(where, 'the greatest gap', maxGap, 1);
    whole(where, 'the least count', count, 1);
  };

  whole('problem', 'the step', problem.step, 1);
  whole('problem', 'the slip', problem.slip, 0);
  for (const kind of problem.kinds) {
    if (kinds.has(kind.id)) faults.push({ where: kind.id, what: 'the kind is given twice' });
    kinds.add(kind.id);
    whole(kind.id, 'the cost', kind.cost, 1);
    whole(kind.id, 'the capacity', kind.capacity, 0);
  }
  for (const piece of problem.pieces) {
    if (pieces.has(piece.id)) faults.push({ where: piece.id, what: 'the piece is given twice' });
    pieces.set(piece.id, piece);
    stretch(piece.id, 'the piece', piece);
    whole(piece.id, 'the demand', piece.demand, 0);
    for (const kind of problem.kinds) {
      // The bound on what is left multiplies a demand by a cost; beyond this the product would round.
      if (piece.demand * kind.cost > Number.MAX_SAFE_INTEGER)
        faults.push({ where: piece.id, what: `demand times the cost of ${kind.id} is too large` });
    }
    const offered = new Set<string>();
    for (const offer of [...piece.offers, ...piece.otherOffers]) {
      if (!kinds.has(offer.kind))
        faults.push({ where: piece.id, what: `offers ${offer.kind}, which is no kind of the problem` });
      if (offered.has(offer.kind)) faults.push({ where: piece.id, what: `offers ${offer.kind} twice` });
      offered.add(offer.kind);
      limits(piece.id, offer.limits);
      for (const part of offer.available) stretch(piece.id, `the room of ${offer.kind}`, part);
    }
    for (const obstruction of piece.obstructions) {
      for (const part of obstruction.blocks) stretch(obstruction.id, 'the blocked stretch', part);
      if (obstruction.liftCost !== undefined) whole(obstruction.id, 'the cost of lifting', obstruction.liftCost, 0);
    }
    for (const anchor of piece.fixed) {
      whole(anchor.id, 'the capacity', anchor.capacity, 0);
      limits(anchor.id, anchor.limits);
      if (!Number.isSafeInteger(anchor.station) || anchor.station < piece.from || anchor.station > piece.to) {
        faults.push({ where: anchor.id, what: `stands at ${anchor.station}, not on piece ${piece.id}` });
      }
    }
    for (const station of piece.preferred === 'evenly' ? [] : piece.preferred) {
      if (!Number.isSafeInteger(station))
        faults.push({ where: piece.id, what: `prefers ${station}, not a whole number` });
    }
  }
  const counted = new Map<string, string>();
  for (const line of problem.lines) {
    whole(line.id, 'the count', line.count, 0);
    if (line.count > MOST_ON_LINE)
      faults.push({ where: line.id, what: `the count is ${line.count}, over ${MOST_ON_LINE}` });
    for (const id of line.pieces) {
      if (!pieces.has(id)) faults.push({ where: line.id, what: `counts ${id}, which is no piece of the problem` });
      const other = counted.get(id);
      if (other !== undefined) faults.push({ where: line.id, what: `counts ${id}, which ${other} counts already` });
      counted.set(id, line.id);
    }
  }
  for (const [index, piece] of problem.pieces.entries()) {
    const next = problem.pieces[index + 1];
    if (!piece.joinsNext || next === undefined) continue;
    if (counted.get(piece.id) !== counted.get(next.id)) {
      faults.push({ where: piece.id, what: `joins ${next.id}, which another line counts` });
    }
  }
  return faults;
}

/** What a thing from `from` to `to` blocks, when `clear` must stay free beside it and each kind has a half-width. */
export function blocksAround(
  thing: Stretch & { readonly clear: number },
  halfWidths: ReadonlyMap<string, number>,
): BlockedStretch[] {
  return [...halfWidths].map(([kind, half]) => ({
    kind,
    from: thing.from - thing.clear - half,
    to: thing.to + thing.clear + half,
  }));
}

/**
 * Limits of a board that takes one anchor: anywhere in its clear stretch, the end distance as wanted where the board is
 * long enough, else as large as leaves its middle (and one tape mark either side). The best slack then puts the anchor in
 * the middle of the widest clear stretch.
 */
export function oneAnchorLimits(
  piece: Stretch,
  wanted: { readonly end: number; readonly minGap: number },
  step: number,
): AnchorLimits {
  const roomToMiddle = Math.max(0, Math.floor((piece.to - piece.from) / 2) - step);
  const end: EndLimits = { least: Math.min(wanted.end, roomToMiddle), most: undefined };
  return { left: end, right: end, minGap: wanted.minGap, maxGap: undefined, count: 1 };
}
