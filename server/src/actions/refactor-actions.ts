import type { CodeAction, Range } from 'vscode-languageserver';
import type { Analysis } from '../../../language/analysis.ts';
import {
  anchorJoint,
  flipStations,
  jointsOf,
  spellOutBreaks,
  splitSillAt,
  stationLists,
} from '../../../language/domain/fixes/refactorings.ts';
import { tapeStep } from '../../../language/domain/fixes/tape-step.ts';
import type { SillPiece, Wall } from '../../../language/domain/model/layout.ts';
import type { Fix } from '../../../language/domain/rules/finding.ts';
import { midpoint, roundTo } from '../../../language/domain/units/length.ts';
import type { ServerContext } from '../context.ts';
import { spotOf } from '../cursor.ts';
import { underCursor } from '../things.ts';
import { workspaceEdit } from '../workspace-edit.ts';
import { rewriteKind } from './kinds.ts';

/** Changes of a wall or a board that a person may want without anything being wrong: on its own line only, to stay out of the way. */
export function refactorActions(
  context: ServerContext,
  analysis: Analysis,
  uri: string,
  range: Range,
): readonly CodeAction[] {
  const placed = underCursor(analysis, uri, spotOf(context.documentOf(analysis, uri), range.start)).on;
  const fixes =
    placed?.kind === 'wall'
      ? [
          ...stationLists.flatMap((list) => flipStations(analysis.layout, placed.wall, list)),
          ...spellOutBreaks(placed.wall),
        ]
      : placed?.kind === 'piece'
        ? onBoard(analysis, placed.wall, placed.thing)
        : [];
  return fixes.map((fix) => {
    const edit = workspaceEdit(context, analysis, fix.edits);
    return {
      title: fix.title,
      kind: rewriteKind,
      ...(typeof edit === 'string' ? { disabled: { reason: edit } } : { edit }),
    };
  });
}

/** Cut in the middle, for the station to be mended; and the anchors of the joint at its right end. */
function onBoard({ layout }: Analysis, wall: Wall, piece: SillPiece): readonly Fix[] {
  const middle = roundTo(midpoint(piece.from, piece.to), tapeStep(layout.title.units));
  const joint = jointsOf(wall).find(({ left }) => left === piece);
  return [
    ...(piece.layer === 'survey' ? splitSillAt(layout, wall, middle, 'butt') : []),
    ...(joint ? anchorJoint(layout, wall, joint.left, joint.right) : []),
  ];
}
