import { type LegalWindows, windowsOnBoard } from '../drawing/legal-windows.ts';
import { isIssued } from '../drawing/placed-mark.ts';
import { shapeOf } from '../drawing/wall-shape.ts';
import { wallAsBuilt } from '../fit/as-built.ts';
import { type ClearIntervals, clearIntervals } from '../fit/clear-intervals.ts';
import { howSet } from '../fit/fit-case.ts';
import { within } from '../fit/intervals.ts';
import { anchorsOf, pieceAt } from '../fit/piece-anchors.ts';
import { nearServices } from '../fixes/anchor-fixes.ts';
import { withEdits } from '../fixes/apply-in-memory.ts';
import { tapeStep } from '../fixes/tape-step.ts';
import type { Layout, NewAnchor, SillPiece, Stretch, Wall } from '../model/layout.ts';
import { checkPlacement } from '../placement/check.ts';
import type { AnchorLimits, PlacedAnchor, PlacementProblem } from '../placement/problem.ts';
import { betweenNeighbours, rowsOf } from '../placement/slide.ts';
import { type Length, nanometres } from '../units/length.ts';
import { bestStations } from './best-stations.ts';
import { type BoardCase, boardCase, stretchesThatCount, useOfPlanned } from './board-case.ts';

/** One board that a connector may be moved along, and everything that a new place on it is judged by. */
export interface BoardOfMove {
  readonly piece: SillPiece;
  /** Where an anchor counts for this board: in a lap, for one of the two. */
  readonly counts: readonly Stretch[];
  readonly windows: LegalWindows;
  readonly fits: ClearIntervals;
  /** The other anchors that count for it, from left to right, where they were built. */
  readonly others: readonly OtherAnchor[];
  /** What is asked at its ends and between anchors; `undefined` where it cannot be told. */
  readonly limits: AnchorLimits | undefined;
  /** Parts of the surely clear room in which the distances to ends and neighbours are kept too; none where that cannot be told. */
  readonly kept: readonly Stretch[];
  /** Open stretches in which gas or power is near. */
  readonly services: readonly Stretch[];
  /** Where a placement that leaves everything else as it is would set it. */
  readonly best: readonly Length[];
}
export interface OtherAnchor {
  readonly name: string;
  readonly station: Length;
  /** The stricter of its own limits and those of the moved one. */
  readonly leastGap: Length | undefined;
  readonly mostGap: Length | undefined;
}

/**
 * Why a mark of the design stays where it is; `undefined` where it may be moved. What is in the wall is moved by the record
 * only, and what left the office in an issue by nobody but its author, in the text.
 */
export function whyFixed(layout: Layout, anchor: NewAnchor): string | undefined {
  switch (anchor.state) {
    case 'installed':
      return `${anchor.name} is installed: where it stands is a matter of the record`;
    case 'omitted':
      return `${anchor.name} was left out: there is nothing to move`;
    case 'failed':
      return `${anchor.name} failed its test and stays where it was drilled`;
  }
  if (isIssued(anchor, layout)) {
    const issue = layout.issues.at(-1);
    const name = issue?.number === undefined ? 'an issue' : `issue ${issue.number}`;
    return `${anchor.name} is on ${name}, which has left the office: change its line in the text and issue anew`;
  }
  if (anchor.connector === undefined)
    return `the connector of ${anchor.name} is not in sight: nobody can say where it fits`;
  if (anchor.station === undefined) return `${anchor.name} has no station that could be read`;
  return undefined;
}

/** Every board of the wall, from left to right, as the checks, the placement and the drawings see it. */
export function boardsOfMove(layout: Layout, wall: Wall, anchor: NewAnchor): readonly BoardOfMove[] {
  const { connector, station } = anchor;
  if (!connector) return [];
  // The board as it is when this one is lifted off it.
  const without = withEdits(layout, [{ kind: 'remove-anchor', anchor: anchor.id }]);
  const bare = without.walls.find(({ id }) => id === wall.id);
  if (!bare) return [];
  const built = wallAsBuilt(layout, bare);
  const shape = shapeOf(wall, layout);
  const own = station === undefined ? undefined : pieceAt(wall, station);
  const pieces = wall.pieces.toSorted((a, b) => a.from - b.from || a.to - b.to);
  let isMissed = false;
  const boards = pieces.flatMap((piece): BoardOfMove[] => {
    const windows = windowsOnBoard({ layout, wall, shape }, anchor, piece);
    if (!windows) return [];
    const fits = clearIntervals({ layout, wall, piece, connector, ...howSet(anchor) });
    const use = useOfPlanned(anchor, connector).id;
    const board = boardCase([without], built, piece, {
      step: tapeStep(layout.title.units),
      connectors: [connector],
      otherConnectors: [],
      isMovable: () => false,
    });
    const limits = board.kind === 'case' ? board.placement.offers.find(({ kind }) => kind === use)?.limits : undefined;
    if (piece === own && board.kind === 'case' && station !== undefined) isMissed = isMissedOn(board, use, station);
    const isPlain = !anchor.rightAngleDrill && anchor.shim === undefined && anchor.offset === undefined;
    return [
      {
        piece,
        counts: stretchesThatCount(wall, piece).map(({ from, to }) => ({ from: nanometres(from), to: nanometres(to) })),
        windows,
        fits,
        services: nearServices(fits),
        limits,
        others: othersOn(built, piece, board.kind === 'case' ? board : undefined, limits),
        kept:
          board.kind === 'case' && limits
            ? keptStretches(board, use, limits, fits, piece === own ? station : undefined)
            : [],
        best: isPlain && board.kind === 'case' ? bestStations(without, built, piece, connector) : [],
      },
    ];
  });
  return boards.map((board) => (isMissed && board.piece !== own ? { ...board, kept: [] } : board));
}

function othersOn(
  wall: Wall,
  piece: SillPiece,
  board: BoardCase | undefined,
  limits: AnchorLimits | undefined,
): readonly OtherAnchor[] {
  return anchorsOf(wall, piece).map(({ id, words, station }) => {
    const own = board?.placement.fixed.find((each) => each.id === id)?.limits;
    const most = Math.min(own?.maxGap ?? Number.POSITIVE_INFINITY, limits?.maxGap ?? Number.POSITIVE_INFINITY);
    const least = Math.max(own?.minGap ?? 0, limits?.minGap ?? 0);
    return {
      name: words,
      station,
      mostGap: limits && Number.isFinite(most) ? nanometres(most) : undefined,
      leastGap: limits && least > 1 ? nanometres(least) : undefined,
    };
  });
}

/**
 * Between each two of the others, the part of the clear room that keeps every distance. A place between two of them counts
 * only if taking it breaks nothing that the other places would not break too: who leaves a gap behind has not kept it.
 */
function keptStretches(
  board: BoardCase,
  use: string,
  limits: AnchorLimits,
  { sure }: ClearIntervals,
  station: Length | undefined,
): readonly Stretch[] {
  const { piece, placement } = board;
  const problem = problemOf(board, use);
  const rows = rowsOf(problem, []);
  const stations = (rows[0] ?? []).map((each) => each.station);
  const slots = [piece.from - 1, ...stations].map((from, index) => ({ from, to: stations[index] ?? piece.to + 1 }));
  const candidates = slots.flatMap(({ from, to }) => {
    if (to - from < 2) return [];
    const asked = betweenNeighbours(problem, rows, placement, from + 1, limits);
    if (asked.from > asked.to) return [];
    return within(sure, { from: nanometres(asked.from), to: nanometres(asked.to) }).map((stretch) => ({
      stretch,
      broken: brokenWith(problem, [{ piece: piece.id, station: stretch.from, kind: use }]),
    }));
  });
  const now = station === undefined ? [] : [brokenWith(problem, [{ piece: piece.id, station, kind: use }])];
  const all = [...candidates.map(({ broken }) => broken), ...now];
  const anyway = (each: string): boolean => all.every((broken) => broken.has(each));
  return candidates.filter(({ broken }) => [...broken].every(anyway)).map(({ stretch }) => stretch);
}

/** Its board would break a limit without it that it keeps now. */
function isMissedOn(board: BoardCase, use: string, station: Length): boolean {
  const problem = problemOf(board, use);
  const now = brokenWith(problem, [{ piece: board.piece.id, station, kind: use }]);
  return [...brokenWith(problem, [])].some((each) => !now.has(each));
}

function problemOf({ placement }: BoardCase, use: string): PlacementProblem {
  // Places off the tape marks are looked at too.
  return { step: 1, slip: 0, kinds: [{ id: use, cost: 1, capacity: 0 }], pieces: [placement], lines: [] };
}

function brokenWith(problem: PlacementProblem, anchors: readonly PlacedAnchor[]): ReadonlySet<string> {
  const { violations } = checkPlacement(problem, anchors);
  return new Set(violations.map(({ kind, station }) => `${kind} ${station ?? ''}`));
}
