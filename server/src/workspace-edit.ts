import type { AnnotatedTextEdit, ChangeAnnotation, TextEdit, WorkspaceEdit } from 'vscode-languageserver';
import { type Analysis, writeEdits } from '../../language/analysis.ts';
import type { ThingEdit } from '../../language/domain/fixes/edit.ts';
import { rangeOf, type ServerContext } from './context.ts';

/**
 * Edits of things as one edit of the editor, which one undo takes back; the reason where they cannot be written.
 * @param preview asks the editor to show the difference first, where it can
 */
export function workspaceEdit(
  context: ServerContext,
  analysis: Analysis,
  edits: readonly ThingEdit[],
  preview?: ChangeAnnotation,
): WorkspaceEdit | string {
  const written = writeEdits(analysis, edits);
  if (written.kind === 'refused') return written.reason;
  const canPreview = context.client().workspace?.workspaceEdit?.changeAnnotationSupport !== undefined;
  const annotation = canPreview ? preview : undefined;
  const files = [...new Set(written.changes.map((change) => change.file))];
  const documentChanges = files.map((uri) => {
    const document = context.documentOf(analysis, uri);
    const changes = written.changes.filter((change) => change.file === uri);
    return {
      textDocument: { uri, version: context.documents.get(uri)?.version ?? null },
      edits: changes.map(({ start, end, text }): TextEdit | AnnotatedTextEdit => ({
        range: rangeOf(document, start, end),
        newText: text,
        ...(annotation ? { annotationId: ANNOTATION } : {}),
      })),
    };
  });
  return { documentChanges, ...(annotation ? { changeAnnotations: { [ANNOTATION]: annotation } } : {}) };
}

const ANNOTATION = 'layout';
