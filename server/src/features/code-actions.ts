import {
  type CodeAction,
  CodeActionKind,
  type Diagnostic,
  type Range,
  type WorkspaceEdit,
} from 'vscode-languageserver';
import { type Analysis, writeEdits } from '../../../language/analysis.ts';
import type { ThingEdit } from '../../../language/domain/fixes/edit.ts';
import type { FileSpan } from '../../../language/domain/model/source.ts';
import type { Finding, Fix } from '../../../language/domain/rules/finding.ts';
import { type Feature, presentState, rangeOf, type ServerContext } from '../context.ts';
import { toDiagnostic } from './diagnostics.ts';

/**
 * Fixes for the findings in sight. They are worked out anew on the present text, never taken from the diagnostics that
 * the editor sends along, so an edit never comes from an older text.
 */
export const codeActions: Feature = {
  capabilities: { codeActionProvider: { codeActionKinds: [CodeActionKind.QuickFix] } },
  register(context) {
    context.connection.onCodeAction(({ textDocument, range, context: asked }) =>
      context.guarded<CodeAction[]>('looking for fixes', [], () => {
        const state = presentState(context, textDocument.uri);
        if (!state) return [];
        const isWanted = asked.only?.every((kind) => !CodeActionKind.QuickFix.startsWith(kind)) !== true;
        return isWanted ? [...quickFixes(context, state.analysis, textDocument.uri, range)] : [];
      }),
    );
    return undefined;
  },
};

function quickFixes(context: ServerContext, analysis: Analysis, uri: string, range: Range): readonly CodeAction[] {
  const document = context.documentOf(analysis, uri);
  const from = document.offsetAt(range.start);
  const to = document.offsetAt(range.end);
  return analysis.findings.flatMap((finding) => {
    if (finding.accepted !== undefined) return [];
    const place = analysis.locate(finding.span);
    if (!place || place.file !== uri || !isInSight(document, place, from, to)) return [];
    const diagnostic = toDiagnostic(context, analysis, finding, rangeOf(document, place.start, place.end));
    return finding.fixes.map((fix) => quickFix(context, analysis, finding, fix, diagnostic));
  });
}

/** On the finding, or with a bare caret anywhere on its line: nobody aims at a squiggle. */
function isInSight(
  document: ReturnType<ServerContext['documentOf']>,
  place: FileSpan,
  from: number,
  to: number,
): boolean {
  if (place.start <= to && from <= place.end) return true;
  if (from !== to) return false;
  const line = document.positionAt(from).line;
  return document.positionAt(place.start).line === line || document.positionAt(place.end).line === line;
}

function quickFix(
  context: ServerContext,
  analysis: Analysis,
  finding: Finding,
  fix: Fix,
  diagnostic: Diagnostic,
): CodeAction {
  const edit = workspaceEdit(context, analysis, fix.edits);
  const isOnlyOne = finding.fixes.length === 1;
  return {
    title: fix.title,
    kind: CodeActionKind.QuickFix,
    diagnostics: [diagnostic],
    ...(typeof edit === 'string' ? { disabled: { reason: edit } } : { edit }),
    ...(isOnlyOne && fix.trust === 'safe' ? { isPreferred: true } : {}),
  };
}

/** The reason where the edits cannot be written. */
function workspaceEdit(
  context: ServerContext,
  analysis: Analysis,
  edits: readonly ThingEdit[],
): WorkspaceEdit | string {
  const written = writeEdits(analysis, edits);
  if (written.kind === 'refused') return written.reason;
  const files = [...new Set(written.changes.map((change) => change.file))];
  const documentChanges = files.map((uri) => {
    const document = context.documentOf(analysis, uri);
    const changes = written.changes.filter((change) => change.file === uri);
    return {
      textDocument: { uri, version: context.documents.get(uri)?.version ?? null },
      edits: changes.map(({ start, end, text }) => ({ range: rangeOf(document, start, end), newText: text })),
    };
  });
  return { documentChanges };
}
