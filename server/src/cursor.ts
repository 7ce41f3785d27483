import type { Position } from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import type { Analysis } from '../../language/analysis.ts';
import type { CursorPlace } from '../../language/protocol/requests.ts';
import type { ServerContext } from './context.ts';
import { type CursorSpot, type UnderCursor, underCursor } from './things.ts';

/** What the cursor is on, in this file or one that it uses; `undefined` where it is in neither. */
export function cursorOf(
  context: ServerContext,
  analysis: Analysis,
  cursor: CursorPlace | undefined,
): UnderCursor | undefined {
  if (!cursor || !analysis.files.includes(cursor.uri)) return undefined;
  return underCursor(analysis, cursor.uri, spotOf(context.documentOf(analysis, cursor.uri), cursor));
}

export function spotOf(document: TextDocument, { line, character }: Position): CursorSpot {
  const lineStart = document.offsetAt({ line, character: 0 });
  const next = document.offsetAt({ line: line + 1, character: 0 });
  return { offset: document.offsetAt({ line, character }), lineStart, lineEnd: Math.max(lineStart, next - 1) };
}
