import { withEdits } from '../fixes/apply-in-memory.ts';
import type { ThingEdit } from '../fixes/edit.ts';
import type { Layout } from '../model/layout.ts';
import { type HoleFails, ifHoleFails, type SlideRoom, slideRooms } from '../place/crew-notes.ts';
import { type FailureWords, failureInWords } from '../place/failure-words.ts';
import { type FramingProposal, framingEdits, framingFor } from '../place/framing.ts';
import {
  type BoardPlacement,
  type LayoutPlacement,
  type PlacedBoard,
  type PlaceRequest,
  placeLayout,
} from '../place/place-layout.ts';
import { type MarkedAnchor, placementEdits } from '../place/placement-edits.ts';
import { reasonOf } from '../place/reason-words.ts';
import { replacementFor } from '../place/replace-board.ts';
import { checkLayout } from '../rules/check-layout.ts';
import type { Finding } from '../rules/finding.ts';
import { type Basis, basisOf, namedRuleSets } from './basis.ts';

/** A placement with all that is printed about it. */
export interface PlacementReport {
  readonly house: string;
  readonly layout: Layout;
  readonly placement: LayoutPlacement;
  readonly boards: readonly BoardReport[];
  readonly framing: readonly FramingProposal[];
  readonly edits: readonly ThingEdit[];
  /** Marks of proposals that go. */
  readonly removed: readonly string[];
  /** Of the house as it would then be. */
  readonly basis: Basis;
  /** One for each rule set, where several were to be kept at once. */
  readonly underEach: readonly RulesCost[];
}

export interface BoardReport {
  readonly board: BoardPlacement;
  readonly anchors: readonly AnchorReport[];
  /** `undefined` where the board has its placement. */
  readonly failure: FailureWords | undefined;
}
export interface AnchorReport extends MarkedAnchor {
  readonly slide: SlideRoom;
  readonly ifHoleFails: HoleFails;
  readonly why: string;
}

export interface RulesCost {
  /** Of the rule set. */
  readonly name: string;
  /** Under this one alone, and under it together with those before it; in cents or as a number of connectors. */
  readonly alone: number;
  readonly together: number;
  /** Errors of the house with the placement, under this rule set. */
  readonly errors: number;
}

/**
 * @param textFindings what is wrong with the text itself: it stays whatever is placed
 */
export function placementReport(request: PlaceRequest, textFindings: readonly Finding[]): PlacementReport {
  const [layout, ...others] = request.layouts;
  const placement = placeLayout(request);
  const { edits, marks, removed } = placementEdits(layout, placement);
  const walls = new Set(placement.boards.map(({ wall }) => wall));
  const framing =
    request.scope.kind === 'piece'
      ? []
      : layout.walls.flatMap((wall) => (walls.has(wall) ? (framingFor(layout, wall) ?? []) : []));
  const allEdits = [...edits, ...framing.flatMap(framingEdits)];
  const basisUnder = (each: Layout): Basis => {
    const after = withEdits(each, allEdits);
    const checked = checkLayout(after);
    return basisOf(after, { ...checked, findings: [...textFindings, ...checked.findings] });
  };
  const boards = placement.boards.map((board): BoardReport => {
    if (board.outcome === 'placed') {
      return { board, anchors: anchorReports(layout, board, marks.get(board.piece.id) ?? []), failure: undefined };
    }
    if (board.outcome !== 'infeasible' && board.outcome !== 'gave-up')
      return { board, anchors: [], failure: undefined };
    const replacement = replacementFor(request, board.wall, board.piece);
    const failure = failureInWords(layout, board, placement.costs, replacement === undefined ? [] : [replacement]);
    return { board, anchors: [], failure };
  });
  return {
    house: layout.title.name ?? 'untitled layout',
    layout,
    placement,
    boards,
    framing,
    edits: allEdits,
    removed: removed.map(({ name }) => name),
    basis: basisUnder(layout),
    underEach: others.length === 0 ? [] : costsUnderEach(request, basisUnder),
  };
}

function anchorReports(layout: Layout, placed: PlacedBoard, marks: readonly MarkedAnchor[]): readonly AnchorReport[] {
  const { board, problem } = placed;
  const anchors = placed.anchors.map(({ station, use }) => ({ piece: board.piece.id, station, kind: use.id }));
  const onBoard = { board, problem, anchors };
  const rooms = slideRooms(onBoard);
  return marks.flatMap((marked): AnchorReport[] => {
    const index = placed.anchors.indexOf(marked.anchor);
    const own = anchors[index];
    const slide = rooms[index];
    if (own === undefined || slide === undefined) return [];
    const why = reasonOf(placed, marked.anchor, layout.title.units);
    return [{ ...marked, slide, ifHoleFails: ifHoleFails(onBoard, own), why }];
  });
}

function costsUnderEach(request: PlaceRequest, basisUnder: (layout: Layout) => Basis): readonly RulesCost[] {
  return request.layouts.map((layout, index): RulesCost => {
    const [first, ...rest] = request.layouts.slice(0, index + 1);
    const unexplained = { ...request, unexplained: true };
    return {
      name: namedRuleSets(layout)
        .map(({ name }) => name)
        .join(', '),
      alone: placeLayout({ ...unexplained, layouts: [layout] }).cost,
      together: first === undefined ? 0 : placeLayout({ ...unexplained, layouts: [first, ...rest] }).cost,
      errors: basisUnder(layout).counts.errors,
    };
  });
}
