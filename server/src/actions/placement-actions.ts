import type { CodeAction, Range } from 'vscode-languageserver';
import type { Analysis } from '../../../language/analysis.ts';
import { pieceAt } from '../../../language/domain/fit/piece-anchors.ts';
import type { SillPiece } from '../../../language/domain/model/layout.ts';
import type { ServerContext } from '../context.ts';
import { underCursor } from '../things.ts';
import { rewriteKind } from './kinds.ts';

/** What an action lays out, as it travels to the editor and back. */
export interface LayOut {
  readonly layOut: 'house' | 'wall' | 'piece';
  readonly uri: string;
  readonly wall: string | undefined;
  readonly piece: string | undefined;
}

/**
 * "Lay out …" for the board, the wall and the house in sight. Nothing is solved for the list: `lay-out.ts` works
 * an action out when somebody picks it.
 * @param asked the person asked for such actions by name, so the caret may be anywhere in the block
 */
export function placementActions(
  context: ServerContext,
  analysis: Analysis,
  uri: string,
  range: Range,
  asked: boolean,
): readonly CodeAction[] {
  return scopesInSight(context, analysis, uri, range, asked).map(({ title, data }) => ({
    title,
    kind: rewriteKind,
    data,
  }));
}

interface Offered {
  readonly title: string;
  readonly data: LayOut;
}

function scopesInSight(
  context: ServerContext,
  analysis: Analysis,
  uri: string,
  range: Range,
  asked: boolean,
): readonly Offered[] {
  const { layout } = analysis;
  const document = context.documentOf(analysis, uri);
  const offset = document.offsetAt(range.start);
  const lineStart = document.offsetAt({ line: range.start.line, character: 0 });
  const lineEnd = document.offsetAt({ line: range.start.line + 1, character: 0 }) - 1;
  const { on, wall } = underCursor(analysis, uri, { offset, lineStart, lineEnd: Math.max(lineStart, lineEnd) });
  const isOnLine = (span: Parameters<Analysis['locate']>[0] | undefined): boolean => {
    const place = span && analysis.locate(span);
    return place?.file === uri && place.start <= lineEnd && place.end >= lineStart && place.start >= lineStart;
  };
  const offered: Offered[] = [];
  const piece = pieceOf(on);
  if (wall && piece) {
    const data: LayOut = { layOut: 'piece', uri, wall: wall.id, piece: piece.id };
    offered.push({ title: `Lay out sill ${piece.name}`, data });
  }
  const isOnHeading =
    wall !== undefined && [wall.nameSource, ...wall.workBlocks.map((block) => block.headingSource)].some(isOnLine);
  if (wall && wall.pieces.length > 0 && (piece || isOnHeading || asked)) {
    offered.push({
      title: `Lay out wall ${wall.name}`,
      data: { layOut: 'wall', uri, wall: wall.id, piece: undefined },
    });
  }
  const hasBoards = layout.walls.some((each) => each.pieces.length > 0);
  if (hasBoards && (isOnHeading || asked || isOnLine(layout.title.source))) {
    offered.push({ title: 'Lay out the house', data: { layOut: 'house', uri, wall: undefined, piece: undefined } });
  }
  return offered;
}

function pieceOf(on: ReturnType<typeof underCursor>['on']): SillPiece | undefined {
  if (on?.kind === 'piece') return on.thing;
  if (on?.kind === 'anchor' && on.thing.station !== undefined) return pieceAt(on.wall, on.thing.station);
  return undefined;
}

export function isLayOut(data: unknown): data is LayOut {
  return typeof data === 'object' && data !== null && 'layOut' in data && 'uri' in data && typeof data.uri === 'string';
}
