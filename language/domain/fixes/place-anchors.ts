import { clearIntervals } from '../fit/clear-intervals.ts';
import { endWindow, spotPastObstruction } from '../fit/end-window.ts';
import { howSet } from '../fit/fit-case.ts';
import type { Intervals } from '../fit/intervals.ts';
import { within } from '../fit/intervals.ts';
import type { CountedAnchor } from '../fit/piece-anchors.ts';
import { anchorsOf } from '../fit/piece-anchors.ts';
import type { Side } from '../fit/piece-requirements.ts';
import {
  apartAsked,
  countAsked,
  diameterOfConnector,
  diametersOf,
  endDistanceAsked,
  loneAnchorEnd,
  spacingAsked,
  takesOneAnchor,
  uniqueDiameters,
} from '../fit/piece-requirements.ts';
import type { Connector } from '../hardware/connector.ts';
import type { Layout, SillPiece, Stretch, Wall } from '../model/layout.ts';
import { toleranceOf } from '../rulesets/tolerance.ts';
import type { Length } from '../units/length.ts';
import { minus, nanometres, plus, roundDownTo, roundUpTo, zero } from '../units/length.ts';
import type { SpreadBound } from './spread.ts';
import { nearestMark, spread } from './spread.ts';
import { tapeStep } from './tape-step.ts';

/** Which part of a board gets new anchors. */
export type Place =
  /** `atLeast`: more than the rules ask of the board by itself. */
  | { readonly kind: 'piece'; readonly atLeast?: number }
  | { readonly kind: 'gap'; readonly left: CountedAnchor; readonly right: CountedAnchor }
  | { readonly kind: 'end'; readonly side: Side };

/**
 * Stations for the fewest new anchors of one kind that bring a part of a board within the rules in force, on tape marks and
 * where the connector surely fits. `undefined` where there are none, or where the rules leave open what is asked.
 */
export function stationsFor(
  layout: Layout,
  wall: Wall,
  piece: SillPiece,
  connector: Connector,
  place: Place,
): readonly Length[] | undefined {
  const standing = anchorsOf(wall, piece);
  const board = boardFor(layout, wall, piece, connector, standing);
  if (!board) return undefined;
  const { bounds } = board;
  switch (place.kind) {
    case 'piece':
      return board.lone
        ? loneStation(board)
        : fillBoard({ ...board, count: Math.max(board.count, place.atLeast ?? 0) }, standing);
    case 'gap':
      return fewest(
        board,
        { kind: 'anchor', station: place.left.station },
        { kind: 'anchor', station: place.right.station },
      );
    case 'end': {
      if (board.lone) return undefined;
      const first = place.side === 'left' ? standing[0] : standing[standing.length - 1];
      if (!first) return undefined;
      const anchor: SpreadBound = { kind: 'anchor', station: first.station };
      return place.side === 'left' ? fewest(board, bounds.left, anchor) : fewest(board, anchor, bounds.right);
    }
  }
}

export interface Move {
  /** Where the anchor goes. */
  readonly station: Length;
  /** New anchors of the same kind that its neighbours then want. */
  readonly added: readonly Length[];
}

/**
 * Where one anchor may move so that its neighbours and the ends of the board are as they must be, with the fewest new anchors
 * beside it. With `nearest`, the spot nearest to where it stands if it needs no others; else the one with most room round it.
 */
export function moveFor(
  layout: Layout,
  wall: Wall,
  piece: SillPiece,
  anchor: CountedAnchor,
  wish: 'nearest' | 'most-room',
): Move | undefined {
  const connector = anchor.planned?.connector;
  if (!anchor.planned || !connector) return undefined;
  const standing = anchorsOf(wall, piece);
  const index = standing.indexOf(anchor);
  if (index < 0) return undefined;
  const others = standing.filter((each) => each !== anchor);
  const board = boardFor(layout, wall, piece, connector, others, howSet(anchor.planned));
  if (!board) return undefined;
  const alone = (station: Length | undefined): Move | undefined =>
    station === undefined ? undefined : { station, added: [] };
  if (board.lone && others.length === 0) return alone(loneStation(board)?.[0]);
  const before = standing[index - 1];
  const after = standing[index + 1];
  const left: SpreadBound = before ? { kind: 'anchor', station: before.station } : board.bounds.left;
  const right: SpreadBound = after ? { kind: 'anchor', station: after.station } : board.bounds.right;
  if (wish === 'nearest') {
    const { from, to } = reachOf(left, right, board.limits);
    const spots = from <= to ? within(board.sure, { from, to }) : [];
    const near = alone(nearestTo(spots, anchor.station, board.limits.step));
    if (near) return near;
  }
  const stations = run(board, left, right, 1);
  const station = stations?.toSorted((a, b) => Math.abs(a - anchor.station) - Math.abs(b - anchor.station))[0];
  if (stations && station !== undefined) return { station, added: stations.filter((each) => each !== station) };
  if (wish === 'most-room') return undefined;
  // On a board where more is wrong than this anchor's place, out of the way is a beginning.
  const { apart, step } = board.limits;
  const from = before ? plus(before.station, apart) : piece.from;
  const to = after ? minus(after.station, apart) : piece.to;
  return alone(from <= to ? nearestTo(within(board.sure, { from, to }), anchor.station, step) : undefined);
}

interface Board {
  readonly piece: SillPiece;
  readonly sure: Intervals;
  readonly limits: { readonly most: Length | undefined; readonly apart: Length; readonly step: Length };
  readonly bounds: { readonly left: SpreadBound; readonly right: SpreadBound };
  readonly count: number;
  readonly lone: boolean;
  readonly loneEnd: Length | undefined;
  readonly tolerance: Length;
}

function boardFor(
  layout: Layout,
  wall: Wall,
  piece: SillPiece,
  connector: Connector,
  standing: readonly CountedAnchor[],
  like?: ReturnType<typeof howSet>,
): Board | undefined {
  const own = diameterOfConnector(connector);
  const diameters = uniqueDiameters([...diametersOf(standing), own]);
  const endsAsked = (side: Side) => ({
    least: endDistanceAsked(layout, wall, piece, side, 'least', diameters),
    most: endDistanceAsked(layout, wall, piece, side, 'most', diameters),
  });
  const spacing = spacingAsked(layout, wall, piece, piece, diameters);
  const count = countAsked(layout, wall, piece, diameters);
  const apart = apartAsked(layout, wall, piece, diameters);
  const lone = takesOneAnchor(layout, wall, piece, diameters);
  // A limit that is wanted but not given would be guessed: propose nothing.
  if (spacing.kind !== 'asked' && count.kind !== 'asked') return undefined;
  const ends = { left: endsAsked('left'), right: endsAsked('right') };
  const distances = [ends.left.least, ends.left.most, ends.right.least, ends.right.most];
  if ([...distances, spacing, count, apart].some((each) => each.kind === 'depends' || each.kind === 'conflict'))
    return undefined;
  if (!lone && !distances.some((each) => each.kind === 'asked')) return undefined;

  const fits = clearIntervals({ layout, wall, piece, connector, ...like });
  const step = tapeStep(layout.title.units);
  const bound = (side: Side): SpreadBound => {
    const { least, most } = ends[side];
    const nearEnd = least.kind === 'asked' ? least.value : zero;
    const farEnd = most.kind === 'asked' ? most.value : minus(piece.to, piece.from);
    const window = endWindow(piece, side, nearEnd, farEnd);
    const past = spotPastObstruction(layout, piece, side, window, fits);
    if (!past) return { kind: 'end', window };
    // On the mark next to the nearest clear spot, on its far side.
    const spot =
      side === 'left'
        ? { from: past.nearest, to: roundUpTo(past.nearest, step) }
        : { from: roundDownTo(past.nearest, step), to: past.nearest };
    return { kind: 'end', window: spot };
  };
  const loneEnd = loneAnchorEnd(layout, wall, piece, own);
  return {
    piece,
    sure: fits.sure,
    limits: {
      most: spacing.kind === 'asked' ? spacing.value : undefined,
      apart: apart.kind === 'asked' ? apart.value : nanometres(1),
      step,
    },
    bounds: { left: bound('left'), right: bound('right') },
    count: count.kind === 'asked' ? count.value : 1,
    lone,
    loneEnd: loneEnd.kind === 'asked' ? loneEnd.value : undefined,
    tolerance: toleranceOf(layout.rules),
  };
}

/** Between the standing anchors, the fewest that keep the spacing and the ends; then more where the board wants a number. */
function fillBoard(board: Board, standing: readonly CountedAnchor[]): readonly Length[] | undefined {
  const anchors = standing.map((each): SpreadBound => ({ kind: 'anchor', station: each.station }));
  const bounds = [board.bounds.left, ...anchors, board.bounds.right];
  const runs: { readonly left: SpreadBound; readonly right: SpreadBound; stations: readonly Length[] }[] = [];
  for (const [index, right] of bounds.entries()) {
    const left = bounds[index - 1];
    if (!left) continue;
    const stations = fewest(board, left, right);
    if (!stations) return undefined;
    runs.push({ left, right, stations });
  }
  const total = (): number => standing.length + runs.reduce((sum, run) => sum + run.stations.length, 0);
  while (total() < board.count) {
    // Where the anchors stand widest apart, another one brings most.
    const roomiest = runs
      .map((run) => ({ run, gap: lengthBetween(run.left, run.right) / (run.stations.length + 1) }))
      .sort((a, b) => b.gap - a.gap)
      .map(({ run }) => ({ run, more: spread(problemOf(board, run.left, run.right), run.stations.length + 1) }))
      .find(({ more }) => more !== undefined);
    if (!roomiest?.more) return undefined;
    roomiest.run.stations = roomiest.more;
  }
  return runs.flatMap((run) => run.stations);
}

/** More than this in one run is a slip in a rule set or in a length. */
const MOST_IN_A_RUN = 500;

function fewest(board: Board, left: SpreadBound, right: SpreadBound): readonly Length[] | undefined {
  return needsNothing(board, left, right) ? [] : run(board, left, right, 1);
}

/** The fewest anchors, but not fewer than `least`, that span a run. */
function run(board: Board, left: SpreadBound, right: SpreadBound, least: number): readonly Length[] | undefined {
  const reach = board.limits.most;
  // Each anchor takes the run one spacing further.
  const atLeast =
    reach === undefined || reach <= 0 ? least : Math.max(least, Math.ceil(lengthBetween(left, right) / reach) - 1);
  for (let count = atLeast; count <= Math.min(MOST_IN_A_RUN, atLeast + 12); count += 1) {
    const stations = spread(problemOf(board, left, right), count);
    if (stations) return stations;
  }
  return undefined;
}

function problemOf(board: Board, left: SpreadBound, right: SpreadBound): Parameters<typeof spread>[0] {
  return { ...board.limits, left, right, clear: board.sure };
}

/** Nothing is wanted between two anchors near enough, or at an end whose window has its anchor (or one nearer still). */
function needsNothing({ limits, tolerance }: Board, left: SpreadBound, right: SpreadBound): boolean {
  if (left.kind === 'anchor' && right.kind === 'anchor') {
    return limits.most === undefined || right.station - left.station <= limits.most + tolerance;
  }
  if (left.kind === 'end' && right.kind === 'anchor') return right.station <= left.window.to + tolerance;
  if (left.kind === 'anchor' && right.kind === 'end') return left.station >= right.window.from - tolerance;
  return false;
}

function lengthBetween(left: SpreadBound, right: SpreadBound): number {
  const from = left.kind === 'anchor' ? left.station : left.window.to;
  const to = right.kind === 'anchor' ? right.station : right.window.from;
  return Math.max(0, to - from);
}

/** The only anchor of a short board: nearest to the middle of its widest clear stretch, away from the ends where it can be. */
function loneStation(board: Board): readonly Length[] | undefined {
  const { piece, sure, limits, loneEnd } = board;
  const inner =
    loneEnd === undefined ? [] : within(sure, { from: plus(piece.from, loneEnd), to: minus(piece.to, loneEnd) });
  for (const set of [inner, sure]) {
    const widest = set.toSorted((a, b) => b.to - b.from - (a.to - a.from) || a.from - b.from);
    for (const stretch of widest) {
      const middle = nanometres(Math.floor((stretch.from + stretch.to) / 2));
      const station = nearestTo([stretch], middle, limits.step);
      if (station !== undefined) return [station];
    }
  }
  return undefined;
}

function reachOf(left: SpreadBound, right: SpreadBound, { most, apart }: Board['limits']): Stretch {
  const furthest = most ?? Number.MAX_SAFE_INTEGER / 4;
  const low = left.kind === 'end' ? left.window.from : left.station + apart;
  const high = right.kind === 'end' ? right.window.to : right.station - apart;
  const from = Math.max(low, right.kind === 'end' ? right.window.from : right.station - furthest);
  const to = Math.min(high, left.kind === 'end' ? left.window.to : left.station + furthest);
  return { from: nanometres(Math.ceil(from)), to: nanometres(Math.floor(to)) };
}

/** The tape mark of intervals nearest to a station. */
export function nearestTo(intervals: Intervals, station: Length, step: Length): Length | undefined {
  const marks = intervals.flatMap((each): readonly (readonly [number, number])[] => {
    const from = Math.ceil(each.from / step);
    const to = Math.floor(each.to / step);
    return from <= to ? [[from, to]] : [];
  });
  const mark = nearestMark(marks, station / step);
  return mark === undefined ? undefined : nanometres(mark * step);
}
