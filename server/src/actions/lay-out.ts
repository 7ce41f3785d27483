import type { CodeAction } from 'vscode-languageserver';
import type { Analysis } from '../../../language/analysis.ts';
import { countOf, printable } from '../../../language/domain/documents/text-layout.ts';
import type { Layout, Wall } from '../../../language/domain/model/layout.ts';
import { failureInWords } from '../../../language/domain/place/failure-words.ts';
import { framingEdits, framingFor } from '../../../language/domain/place/framing.ts';
import { type LayoutPlacement, type PlaceScope, placeLayout } from '../../../language/domain/place/place-layout.ts';
import { placementEdits } from '../../../language/domain/place/placement-edits.ts';
import { type PlacementMemory, placementMemory } from '../../../language/domain/placement/memory.ts';
import { presentState, type ServerContext } from '../context.ts';
import { workspaceEdit } from '../workspace-edit.ts';
import { isLayOut, type LayOut } from './placement-actions.ts';

/**
 * Works an action out on the text as it is now, and tells the person what could not be laid out. Other actions come back as
 * they are.
 */
export function resolvePlacement(context: ServerContext, action: CodeAction, picked: boolean): CodeAction {
  const data: unknown = action.data;
  if (!isLayOut(data)) return action;
  const state = presentState(context, data.uri);
  if (!state) return action;
  const resolved = withEdit(context, state.analysis, action, data);
  if (resolved.said !== undefined && picked) void context.connection.window.showInformationMessage(resolved.said);
  return resolved.action;
}

const memories = new WeakMap<ServerContext, PlacementMemory>();

function memoryFor(context: ServerContext): PlacementMemory {
  const known = memories.get(context) ?? placementMemory();
  memories.set(context, known);
  return known;
}

function withEdit(
  context: ServerContext,
  analysis: Analysis,
  action: CodeAction,
  data: LayOut,
): { readonly action: CodeAction; readonly said: string | undefined } {
  const { layout } = analysis;
  const scope = scopeOf(layout, data);
  if (!scope) return { action, said: 'That part of the layout is not there any more.' };
  const placement = placeLayout({ layouts: [layout], scope, memory: memoryFor(context) });
  const { edits } = placementEdits(layout, placement);
  const walls =
    scope.kind === 'piece' ? [] : layout.walls.filter((wall) => scope.kind === 'house' || wall === scope.wall);
  const framing = walls.flatMap((wall) => {
    const proposal = wall.role === 'perimeter' ? framingFor(layout, wall) : undefined;
    return proposal ? framingEdits(proposal) : [];
  });
  const said = saidOf(layout, placement);
  const all = [...edits, ...framing];
  if (all.length === 0) return { action, said: said ?? `${action.title}: nothing to change.` };
  const edit = workspaceEdit(context, analysis, all, {
    label: action.title,
    needsConfirmation: true,
    description: 'proposed places; what was set by hand, found or installed stays',
  });
  if (typeof edit === 'string') return { action, said: `It cannot be written: ${edit}.` };
  return { action: { ...action, edit }, said };
}

/** What could not be laid out; `undefined` where all could. */
function saidOf(layout: Layout, { boards, costs }: LayoutPlacement): string | undefined {
  const failed = boards.flatMap((board) => {
    const name = printable(board.piece.name);
    if (board.outcome === 'infeasible' || board.outcome === 'gave-up') {
      const { cause, reliefs } = failureInWords(layout, board, costs);
      const way = reliefs[0] ? ` A way out: ${reliefs[0].words}.` : '';
      return [`Sill ${name} has no placement: ${printable(cause)}.${printable(way)}`];
    }
    return board.outcome === 'open' ? [`Sill ${name} is not placed: ${printable(board.why)}.`] : [];
  });
  const [first, ...others] = failed;
  if (first === undefined) return undefined;
  return others.length === 0 ? first : `${first} And ${countOf(others.length, 'more board')} without a placement.`;
}

function scopeOf(layout: Layout, { layOut, wall: wallId, piece: pieceId }: LayOut): PlaceScope | undefined {
  if (layOut === 'house') return { kind: 'house' };
  const wall: Wall | undefined = layout.walls.find(({ id }) => id === wallId);
  if (!wall) return undefined;
  if (layOut === 'wall') return { kind: 'wall', wall };
  const piece = wall.pieces.find(({ id }) => id === pieceId);
  return piece && { kind: 'piece', wall, piece };
}
