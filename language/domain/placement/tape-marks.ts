import {
  type AnchorClass,
  type Chain,
  type ChainPiece,
  fixedClass,
  gapBetween,
  insideEnds,
  mostFrom,
  newClass,
  type Pin,
  pinnedClass,
} from './chain.ts';
import { clip, type IntervalSet, intervalSet } from './interval-set.ts';
import { distanceToNearest, type Pull, pullAt } from './pull.ts';

/**
 * A chain with every limit tightened by a slack and counted in tape marks: place `p` is station `p × step`.
 *
 * Nothing is lost by the rounding. New anchors stand on multiples of the step, so `x ≥ low` holds exactly when
 * `x ÷ step ≥ ⌈low ÷ step⌉`, `x ≤ high` when `x ÷ step ≤ ⌊high ÷ step⌋`, and the difference of two of them obeys a gap
 * limit exactly when it obeys the limit rounded inward to a multiple of the step. Limits to a fixed anchor, which may
 * stand off the marks, are added up in the unit first and rounded after. What is left on the places are bounds and
 * differences in whole numbers, a system that has a whole solution whenever it has one at all (a shortest path in its
 * constraint graph is one), so where all data are multiples of the step no finer tape would find a cheaper placement.
 */
export interface MarkedChain {
  readonly pieces: readonly MarkedPiece[];
  /** By the class of the left anchor, then of the right one: the gap between two new anchors, in places. */
  readonly gapLeast: readonly (readonly number[])[];
  readonly gapGreatest: readonly (readonly number[])[];
  readonly classes: readonly AnchorClass[];
  /** `atLeastAsFree[a][b]`: whatever may follow `b` may follow `a` at the same place, on either side. */
  readonly atLeastAsFree: readonly (readonly boolean[])[];
  /** So many new anchors at least, over the whole chain. */
  readonly total: number;
  readonly step: number;
  readonly slip: number;
  /** What every limit is tightened by, in tape marks. */
  readonly slack: number;
}

export interface MarkedPiece {
  readonly demand: number;
  /** New anchors wanted for the sake of the fixed ones that count. */
  readonly need: number;
  readonly offers: readonly MarkedOffer[];
  readonly stops: readonly Stop[];
  /** By class, in places. */
  readonly firstGreatest: readonly number[];
  readonly lastLeast: readonly number[];
  /** Distance to the nearest preferred station, in the unit. */
  readonly pull: Pull;
}

export interface MarkedOffer {
  readonly kind: string;
  readonly cost: number;
  readonly capacity: number;
  readonly anchorClass: number;
  /** New anchors wanted in the piece once this kind is among them. */
  readonly need: number;
  /** Where it may stand, by run: the stretch before the first stop, between two stops, …, after the last. */
  readonly places: readonly IntervalSet[];
}

/** A station that every placement passes: a fixed anchor, or an end anchor past an obstruction. */
export interface Stop {
  readonly station: number;
  /** One for a fixed anchor; for an end anchor the kinds that may stand there. */
  readonly options: readonly StopOption[];
}

export interface StopOption {
  /** `undefined`: a fixed anchor. */
  readonly kind: string | undefined;
  readonly cost: number;
  readonly capacity: number;
  readonly anchorClass: number;
  /** 1 for a new anchor, 0 for a fixed one, which is counted already. */
  readonly anchors: number;
  readonly need: number;
  readonly first: boolean;
  readonly last: boolean;
  readonly pull: number;
}

export interface Tightening {
  /** In tape marks. */
  readonly slack: number;
  readonly total: number;
  /** `undefined`: all kinds offered. */
  readonly kinds: ReadonlySet<string> | undefined;
}

export function tighten(chain: Chain, { slack, total, kinds }: Tightening): MarkedChain {
  const { step, slip } = chain;
  const spare = slack * step;
  const classes: AnchorClass[] = [];
  const classIndex = new Map<string, number>();
  const indexOf = (anchor: AnchorClass): number => {
    const key = classKey(anchor);
    const known = classIndex.get(key);
    if (known !== undefined) return known;
    classIndex.set(key, classes.length);
    classes.push(anchor);
    return classes.length - 1;
  };

  const drafts = chain.pieces.map((piece) => draftPiece(piece, chain, spare, kinds, indexOf));
  const gaps = classes.map((a) => classes.map((b) => gapBetween(a, b, slip, spare)));
  const pieces = drafts.map(
    ({ piece, ...draft }): MarkedPiece => ({
      ...draft,
      firstGreatest: classes.map(({ limits }) =>
        Math.floor((piece.from + mostFrom('left', limits) - slip - spare) / step),
      ),
      lastLeast: classes.map(({ limits }) => Math.ceil((piece.to - mostFrom('right', limits) + slip + spare) / step)),
    }),
  );
  // No two anchors of a chain are further apart than this, so it stands for "no limit".
  const ends = chain.pieces.flatMap(({ from, to }) => [from, to]);
  const span = Math.ceil((Math.max(...ends) - Math.min(...ends)) / step) + 1;
  return {
    pieces,
    classes,
    gapLeast: gaps.map((row) =>
      row.map(({ least }) => (least === Number.NEGATIVE_INFINITY ? 0 : Math.ceil(least / step))),
    ),
    gapGreatest: gaps.map((row) => row.map(({ greatest }) => Math.min(span, Math.floor(greatest / step)))),
    atLeastAsFree: classes.map((a) => classes.map((b) => isAtLeastAsFree(a, b))),
    total,
    step,
    slip,
    slack,
  };
}

/** The same for two classes exactly when they are the same, in whatever chain. */
export function classKey({ limits, movable, drifts, standing }: AnchorClass): string {
  const { left, right, minGap, maxGap, count } = limits;
  return [left.least, left.most, right.least, right.most, minGap, maxGap, count, movable, drifts, standing].join();
}

function draftPiece(
  piece: ChainPiece,
  { step, slip }: Chain,
  spare: number,
  kinds: ReadonlySet<string> | undefined,
  indexOf: (anchor: AnchorClass) => number,
) {
  const needOf = (count: number) => Math.max(0, count - piece.fixed.length);
  const allowed = piece.offers.filter(({ kind }) => kinds === undefined || kinds.has(kind));
  const marks = { least: Math.ceil(piece.from / step), greatest: Math.floor(piece.to / step) };
  const pull = distanceToNearest(
    piece.preferred === 'evenly' ? [] : piece.preferred,
    step,
    marks.least,
    marks.greatest,
  );

  const pinOptions = (pin: Pin): StopOption[] =>
    allowed
      .filter(({ kind }) => pin.kinds.includes(kind))
      .map(({ kind, cost, capacity, limits }) => ({
        kind,
        cost,
        capacity,
        anchorClass: indexOf(pinnedClass(limits)),
        anchors: 1,
        need: needOf(limits.count),
        first: pin === piece.leftPin || pin.station + slip <= piece.from + mostFrom('left', limits),
        last: pin === piece.rightPin || pin.station - slip >= piece.to - mostFrom('right', limits),
        pull: pullAt(pull, pin.station / step) ?? 0,
      }));
  const stops: Stop[] = piece.fixed.map((anchor) => ({
    station: anchor.station,
    options: [
      {
        kind: undefined,
        cost: 0,
        capacity: 0,
        anchorClass: indexOf(fixedClass(anchor)),
        anchors: 0,
        need: 0,
        first: anchor.first,
        last: anchor.last,
        pull: 0,
      },
    ],
  }));
  const { leftPin, rightPin } = piece;
  if (leftPin !== undefined && rightPin !== undefined && leftPin.station === rightPin.station) {
    const both = pinOptions(leftPin).map((option) => ({ ...option, first: true, last: true }));
    stops.push({ station: leftPin.station, options: both });
  } else {
    if (leftPin !== undefined) stops.push({ station: leftPin.station, options: pinOptions(leftPin) });
    if (rightPin !== undefined) stops.push({ station: rightPin.station, options: pinOptions(rightPin) });
  }
  stops.sort((a, b) => a.station - b.station);

  const runs = [...stops.keys(), stops.length].map((run) => {
    const before = stops[run - 1]?.station;
    const after = stops[run]?.station;
    // An end anchor past an obstruction is the outermost of its piece: nothing stands between it and its end.
    const outside = (run === 0 && leftPin !== undefined) || (run === stops.length && rightPin !== undefined);
    return {
      least: outside ? Number.POSITIVE_INFINITY : before === undefined ? marks.least : Math.floor(before / step) + 1,
      greatest: after === undefined ? marks.greatest : Math.ceil(after / step) - 1,
    };
  });
  const offers = allowed.map(({ kind, cost, capacity, limits, clear }): MarkedOffer => {
    const inside = insideEnds(piece, limits);
    const places = intervalSet(
      clear.map(({ from, to }) => [
        Math.ceil((Math.max(from, inside.from) + slip + spare) / step),
        Math.floor((Math.min(to, inside.to) - slip - spare) / step),
      ]),
    );
    return {
      kind,
      cost,
      capacity,
      anchorClass: indexOf(newClass(limits)),
      need: needOf(limits.count),
      places: runs.map(({ least, greatest }) => clip(places, least, greatest)),
    };
  });
  const need = needOf(Math.max(0, ...piece.fixed.map(({ limits }) => limits.count)));
  return { piece, demand: piece.demand, need, offers, stops, pull };
}

function isAtLeastAsFree(a: AnchorClass, b: AnchorClass): boolean {
  if (a === b) return true;
  if (a.movable !== b.movable || a.drifts !== b.drifts || a.standing !== b.standing) return false;
  const greatest = (value: number | undefined) => value ?? Number.POSITIVE_INFINITY;
  return (
    a.limits.minGap <= b.limits.minGap &&
    greatest(a.limits.maxGap) >= greatest(b.limits.maxGap) &&
    mostFrom('left', a.limits) >= mostFrom('left', b.limits) &&
    mostFrom('right', a.limits) >= mostFrom('right', b.limits)
  );
}
