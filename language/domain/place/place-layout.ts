import { fromEnd } from '../fit/end-window.ts';
import { type CountedAnchor, pieceAt } from '../fit/piece-anchors.ts';
import { lineOf } from '../fit/storeys.ts';
import { withEdits } from '../fixes/apply-in-memory.ts';
import { tapeStep } from '../fixes/tape-step.ts';
import type { Layout, NewAnchor, SillPiece, Wall } from '../model/layout.ts';
import { checkPlacement } from '../placement/check.ts';
import type { Explanation } from '../placement/explain.ts';
import { explainFailure } from '../placement/explain.ts';
import { type PlacementMemory, placementMemory } from '../placement/memory.ts';
import type { PlacedAnchor, PlacementProblem } from '../placement/problem.ts';
import { type PlacementAnswer, solvePlacement } from '../placement/solve.ts';
import { type Length, nanometres, zero } from '../units/length.ts';
import { type BoardCase, boardCase, type OpenBoard } from './board-case.ts';
import { type Costs, costsOf, kindsOf, plainCost } from './connector-costs.ts';
import { type ConnectorUse, sillConnectors } from './connector-uses.ts';
import { cornerClashes, type KeepOff } from './corner-clashes.ts';
import { placementEdits } from './placement-edits.ts';

export type PlaceScope =
  | { readonly kind: 'house' }
  | { readonly kind: 'wall'; readonly wall: Wall }
  | { readonly kind: 'piece'; readonly wall: Wall; readonly piece: SillPiece };

export interface PlaceRequest {
  /** The same house under each of the rule sets that all have to be kept; nothing but the rules differs. */
  readonly layouts: readonly [Layout, ...Layout[]];
  readonly scope: PlaceScope;
  /** Every hole may drift this far either way, all at once, and every limit still holds. */
  readonly slip?: Length | undefined;
  /** Names of connectors to choose from; without them, all in sight. */
  readonly connectors?: readonly string[] | undefined;
  /** Also move proposals that have left the office in an issue. */
  readonly moveIssued?: boolean | undefined;
  /** What earlier placements found out: an edit of one board then costs one small solve. */
  readonly memory?: PlacementMemory | undefined;
  /** Leave out why boards without a placement have none: finding it out takes many small solves. */
  readonly unexplained?: boolean | undefined;
}

export interface LayoutPlacement {
  readonly boards: readonly BoardPlacement[];
  readonly costs: Costs;
  /** Of the new anchors, in cents or as a number of connectors. */
  readonly cost: number;
  readonly slip: Length;
  /** Proposals that were kept because an issue holds their marks. */
  readonly issued: readonly string[];
}

export type BoardPlacement = { readonly wall: Wall; readonly piece: SillPiece } & (
  | ({ readonly outcome: 'placed' } & PlacedBoard)
  | ({ readonly outcome: 'infeasible' | 'gave-up' } & FailedBoard)
  /** What the rules ask of it cannot be told, so nothing is proposed. */
  | { readonly outcome: 'open'; readonly why: string }
  /** The design, or its line, says that nothing is to be done. */
  | { readonly outcome: 'left-alone'; readonly why: string }
);

export interface PlacedBoard {
  readonly board: BoardCase;
  /** The board alone, as it was solved. */
  readonly problem: PlacementProblem;
  /** New, from left to right. Empty: what stands there is enough. */
  readonly anchors: readonly ProposedAnchor[];
  readonly cost: number;
  /** No placement under the same limits costs less. */
  readonly lowerBound: number;
  /** The least room that any new anchor has to any limit, in whole tape marks; `undefined` where none has any to lose. */
  readonly slack: Length | undefined;
  /** Connectors that would be cheaper here at some prices within their ranges. */
  readonly cheaperAtOtherPrices: readonly string[];
}

export interface ProposedAnchor {
  readonly station: Length;
  readonly use: ConnectorUse;
  /** On the one spot that things in the end window leave. */
  readonly onlySpot: boolean;
}

export interface FailedBoard {
  readonly board: BoardCase;
  readonly problem: PlacementProblem;
  /** `undefined` where it was not asked for. */
  readonly explanation: Explanation | undefined;
}

/**
 * New anchors for boards, a wall or a house: the cheapest that keep every limit, with the most room round them. What was
 * found and counts, set by hand, installed or issued stays; what the tool proposed before is placed anew. Exact, and the
 * same for the same layout.
 */
export function placeLayout(request: PlaceRequest): LayoutPlacement {
  const { layouts, scope, slip = zero } = request;
  const [layout] = layouts;
  const memory = request.memory ?? placementMemory();
  const step = tapeStep(layout.title.units);
  const { chosen, others } = sillConnectors(layout, request.connectors);
  const isIssued = layout.issues.length > 0 && request.moveIssued !== true;
  const options = {
    step,
    connectors: chosen,
    otherConnectors: others,
    isMovable: (anchor: NewAnchor) => isProposal(anchor) && !isIssued,
  };

  const sites = sitesOf(layout, scope);
  const cases = sites.flatMap(({ wall, piece, leftAlone }) =>
    leftAlone === undefined ? [boardCase(layouts, wall, piece, options)] : [],
  );
  const uses = [...new Map(cases.flatMap((each) => (each.kind === 'case' ? [...each.uses] : []))).values()];
  const costs = costsOf(layout, uses);
  const work: Work = { sites, costs, kinds: kindsOf(uses, costs), step, slip, memory };

  let current = cases;
  let placements = placedAll(work, current);
  // Walls are solved by themselves; what two of them drill into the concrete of one corner is seen to afterwards.
  const settled = new Set<string>();
  for (let round = 0; round < MOST_CORNER_ROUNDS; round += 1) {
    const clash = clashesOf(layout, placements, costs, slip).find(({ key }) => !settled.has(key));
    if (clash === undefined) break;
    settled.add(clash.key);
    for (const way of clash.ways) {
      const eased = current.map((each) => way.reduce(keepingOff, each));
      const tried = placedAll(work, eased);
      if (placedCount(tried) < placedCount(placements)) continue;
      current = eased;
      placements = tried;
      // Placed anew, an old pair may meet again elsewhere.
      settled.clear();
      break;
    }
  }
  if (request.unexplained !== true) placements = placements.map((board) => explained(board, memory));
  return {
    boards: placements,
    costs,
    cost: placements.reduce((sum, board) => sum + (board.outcome === 'placed' ? board.cost : 0), 0),
    slip,
    issued: isIssued
      ? cases
          .flatMap((each) => (each.kind === 'case' ? each.kept : []))
          .flatMap(({ planned }) => (planned && isProposal(planned) ? [planned.name] : []))
      : [],
  };
}

/** A house has a dozen corners at most, and each clash takes one round or two. */
const MOST_CORNER_ROUNDS = 24;

interface Work {
  readonly sites: readonly Site[];
  readonly costs: Costs;
  readonly kinds: PlacementProblem['kinds'];
  readonly step: Length;
  readonly slip: Length;
  readonly memory: PlacementMemory;
}

function placedAll(
  { sites, costs, kinds, step, slip, memory }: Work,
  cases: readonly (BoardCase | OpenBoard)[],
): readonly BoardPlacement[] {
  const boards = cases.filter((each) => each.kind === 'case');
  const problem: PlacementProblem = { step, slip, kinds, pieces: boards.map((board) => board.placement), lines: [] };
  const answer = solvedWithin(problem, boards, memory);
  return sites.map(({ wall, piece, leftAlone }): BoardPlacement => {
    if (leftAlone !== undefined) return { wall, piece, outcome: 'left-alone', why: leftAlone };
    const own = cases.find((each) => each.piece === piece);
    if (own === undefined || own.kind === 'open') return { wall, piece, outcome: 'open', why: own?.why ?? '' };
    if (answer.status === 'malformed') {
      const fault = answer.faults.find(({ where }) => where === piece.id) ?? answer.faults[0];
      return { wall, piece, outcome: 'open', why: `its figures cannot be read: ${fault?.what ?? ''}` };
    }
    return placementOf(own, problem, answer, costs, memory);
  });
}

const placedCount = (boards: readonly BoardPlacement[]): number =>
  boards.filter(({ outcome }) => outcome === 'placed').length;

function clashesOf(layout: Layout, boards: readonly BoardPlacement[], costs: Costs, slip: Length) {
  const { edits } = placementEdits(layout, { boards, costs, cost: 0, slip, issued: [] });
  const after = withEdits(layout, edits);
  const before = new Set(boards.flatMap((board) => ('board' in board ? board.board.kept.map(({ id }) => id) : [])));
  const placedOn = new Set(boards.flatMap((board) => (board.outcome === 'placed' ? [board.piece.id] : [])));
  const fresh = new Set(
    after.walls.flatMap((wall) =>
      wall.anchors
        .filter(({ id, station }) => {
          const piece = station === undefined ? undefined : pieceAt(wall, station);
          return piece !== undefined && placedOn.has(piece.id) && !before.has(id);
        })
        .map(({ id }) => id),
    ),
  );
  return cornerClashes(after, (anchor) => fresh.has(anchor));
}

function keepingOff(each: BoardCase | OpenBoard, { piece, obstruction, facts }: KeepOff): BoardCase | OpenBoard {
  if (each.kind === 'open' || each.piece.id !== piece) return each;
  const { placement } = each;
  return {
    ...each,
    inTheWay: new Map([...each.inTheWay, [obstruction.id, facts]]),
    placement: {
      ...placement,
      obstructions: [...placement.obstructions.filter(({ id }) => id !== obstruction.id), obstruction],
    },
  };
}

function explained(board: BoardPlacement, memory: PlacementMemory): BoardPlacement {
  if (board.outcome !== 'infeasible' && board.outcome !== 'gave-up') return board;
  const failure = { kind: 'pieces' as const, pieces: [board.piece.id] };
  const explanation = explainFailure(board.problem, failure, { memory });
  return { ...board, outcome: explanation.proven ? 'infeasible' : board.outcome, explanation };
}

const isProposal = (anchor: NewAnchor): boolean => anchor.proposed && anchor.state === 'planned';

/** One board of a problem by itself. */
export function aloneIn(problem: PlacementProblem, board: BoardCase): PlacementProblem {
  const own = new Set(board.uses.keys());
  return { ...problem, kinds: problem.kinds.filter(({ id }) => own.has(id)), pieces: [board.placement], lines: [] };
}

interface Site {
  readonly wall: Wall;
  readonly piece: SillPiece;
  readonly leftAlone: string | undefined;
}

function sitesOf(layout: Layout, scope: PlaceScope): readonly Site[] {
  const onWall = (wall: Wall, pieces: readonly SillPiece[]): readonly Site[] =>
    pieces
      .filter(({ from, to }) => from < to)
      .toSorted((a, b) => a.from - b.from || a.to - b.to)
      .map((piece) => ({ wall, piece, leftAlone: whyLeftAlone(layout, wall, scope) }));
  switch (scope.kind) {
    case 'house':
      // An old wall inside the house is asked for nothing until somebody works on it.
      return layout.walls
        .filter((wall) => wall.role === 'perimeter' || wall.anchors.length > 0)
        .flatMap((wall) => onWall(wall, wall.pieces));
    case 'wall':
      return onWall(scope.wall, scope.wall.pieces);
    case 'piece':
      return onWall(scope.wall, [scope.piece]);
  }
}

function whyLeftAlone(layout: Layout, wall: Wall, scope: PlaceScope): string | undefined {
  if (wall.noWork) return `no work: ${wall.noWork.reason}`;
  const exempt = lineOf(layout, wall)?.exempt;
  if (scope.kind === 'house' && exempt && exempt.from !== 'bracing') return `exempt: ${exempt.reason}`;
  return undefined;
}

/**
 * The answer, in which no anchor stands beyond an end window that `fit` would not let it: the solver takes a window for
 * filled where things leave less of it than a tape mark, or than the slip; the checks do not.
 */
function solvedWithin(
  problem: PlacementProblem,
  boards: readonly BoardCase[],
  memory: PlacementMemory,
): PlacementAnswer {
  const answer = solvePlacement(problem, { memory });
  if (answer.status === 'malformed') return answer;
  const wrong = new Set(
    answer.onlySpots.flatMap((spot) => {
      const board = boards.find(({ piece }) => piece.id === spot.piece);
      return board === undefined || mayStandBeyond(board, spot, answer.anchors, problem.step) ? [] : [spot.piece];
    }),
  );
  if (wrong.size === 0) return answer;
  const pieces = problem.pieces.map((piece) =>
    wrong.has(piece.id) ? { ...piece, endWindowPastObstruction: false } : piece,
  );
  return solvePlacement({ ...problem, pieces }, { memory });
}

/** It is the outermost at an end where `fit` finds the window filled, on the tape mark at the nearest clear spot. */
function mayStandBeyond(
  { piece, kept, pastObstruction, nearestPast, placement }: BoardCase,
  { station, kind }: PlacedAnchor,
  anchors: readonly PlacedAnchor[],
  step: number,
): boolean {
  const limits = placement.offers.find((offer) => offer.kind === kind)?.limits;
  const row = [
    ...kept.map((anchor) => anchor.station),
    ...anchors.flatMap((each) => (each.piece === piece.id ? each.station : [])),
  ];
  return (['left', 'right'] as const).every((side) => {
    const outermost = side === 'left' ? Math.min(...row) : Math.max(...row);
    const distance = fromEnd(piece, side, nanometres(station));
    if (station !== outermost || distance <= (limits?.[side].most ?? Number.POSITIVE_INFINITY)) return true;
    const nearest = nearestPast[side].get(kind);
    return pastObstruction[side] && nearest !== undefined && distance < nearest + step;
  });
}

function placementOf(
  board: BoardCase,
  whole: PlacementProblem,
  answer: Exclude<PlacementAnswer, { readonly status: 'malformed' }>,
  costs: Costs,
  memory: PlacementMemory,
): BoardPlacement {
  const { wall, piece } = board;
  const problem = aloneIn(whole, board);
  const failure =
    'failed' in answer
      ? answer.failed.find((each) => each.kind === 'pieces' && each.pieces.includes(piece.id))
      : undefined;
  if (failure) {
    const outcome = answer.status === 'gave-up' ? 'gave-up' : 'infeasible';
    return { wall, piece, outcome, board, problem, explanation: undefined };
  }
  const own = answer.anchors.filter((anchor) => anchor.piece === piece.id);
  const check = checkPlacement(problem, own);
  const anchors = own.flatMap(({ station, kind }): ProposedAnchor[] => {
    const use = board.uses.get(kind);
    const onlySpot = check.onlySpots.some((spot) => spot.station === station);
    return use === undefined ? [] : [{ station: nanometres(station), use, onlySpot }];
  });
  const isProven = answer.status === 'optimal' || answer.status === 'infeasible';
  return {
    wall,
    piece,
    outcome: 'placed',
    board,
    problem,
    anchors,
    cost: plainCost(check.cost, costs),
    lowerBound: isProven ? plainCost(check.cost, costs) : plainCost(plainLowerBound(problem, board.kept), costs),
    slack: check.slack === undefined ? undefined : nanometres(check.slack),
    cheaperAtOtherPrices: cheaperAtOtherPrices(board, problem, own, costs, memory),
  };
}

/** However the anchors are spread, the piece wants so many, and none costs less than the cheapest. */
function plainLowerBound({ pieces, kinds }: PlacementProblem, kept: readonly CountedAnchor[]): number {
  const counts = pieces.flatMap(({ offers }) => offers.map(({ limits }) => limits.count));
  const wanted = Math.max(0, Math.min(...counts, Number.MAX_SAFE_INTEGER) - kept.length);
  return counts.length === 0 ? 0 : wanted * Math.min(...kinds.map(({ cost }) => cost));
}

/** The placement with its own connectors as dear as they may be, and all others as cheap. */
function cheaperAtOtherPrices(
  board: BoardCase,
  problem: PlacementProblem,
  anchors: readonly PlacedAnchor[],
  costs: Costs,
  memory: PlacementMemory,
): readonly string[] {
  if (costs.unit !== 'money' || anchors.length === 0 || board.placement.offers.length < 2) return [];
  const used = new Set(anchors.map(({ kind }) => kind));
  const uses = [...board.uses.values()];
  const dear: PlacementProblem = {
    ...problem,
    kinds: kindsOf(uses, costs, (use, { low, high }) => (used.has(use.id) ? high : low)),
  };
  const now = checkPlacement(dear, anchors).cost;
  const other = solvePlacement(dear, { memory });
  if (other.status === 'malformed' || other.cost >= now) return [];
  const names = other.anchors
    .filter(({ kind }) => !used.has(kind))
    .map(({ kind }) => board.uses.get(kind)?.connector.name ?? kind);
  return [...new Set(names)];
}
