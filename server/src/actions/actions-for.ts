import {
  type CodeAction,
  CodeActionKind,
  type CodeActionParams,
  type Diagnostic,
  type Range,
} from 'vscode-languageserver';
import type { Analysis } from '../../../language/analysis.ts';
import type { FileSpan } from '../../../language/domain/model/source.ts';
import type { Finding, Fix } from '../../../language/domain/rules/finding.ts';
import { presentState, type ServerContext } from '../context.ts';
import { toDiagnostic } from '../features/diagnostics.ts';
import { workspaceEdit } from '../workspace-edit.ts';
import { fixAllActions, mendAllOfKind } from './fix-all-actions.ts';
import { rewriteKind } from './kinds.ts';
import { isLayOut, placementActions } from './placement-actions.ts';
import { refactorActions } from './refactor-actions.ts';

/** What the editor offers at a place of the present text. */
export async function actionsFor(
  context: ServerContext,
  { textDocument: { uri }, range, context: asked }: CodeActionParams,
): Promise<CodeAction[]> {
  const listed = context.guarded<CodeAction[]>('looking for fixes', [], () => {
    const state = presentState(context, uri);
    if (!state) return [];
    const { only } = asked;
    const isWanted = (own: string): boolean => only?.every((kind) => !own.startsWith(kind)) !== true;
    return [
      ...(isWanted(CodeActionKind.QuickFix) ? quickFixes(context, state.analysis, uri, range) : []),
      ...(isWanted(rewriteKind) ? placementActions(context, state.analysis, uri, range, only !== undefined) : []),
      ...(isWanted(rewriteKind) ? refactorActions(context, state.analysis, uri, range) : []),
      ...fixAllActions(context, state.analysis, uri, only),
    ];
  });
  const canWait = context.client().textDocument?.codeAction?.resolveSupport?.properties.includes('edit') === true;
  if (canWait || !listed.some(({ data }) => isLayOut(data))) return listed;
  return Promise.all(listed.map((action) => laidOut(context, action, false)));
}

/** Loaded when somebody lays out: checking as one types has no use for the solver. */
export async function laidOut(context: ServerContext, action: CodeAction, picked: boolean): Promise<CodeAction> {
  if (!isLayOut(action.data)) return action;
  const { resolvePlacement } = await import('./lay-out.ts');
  return context.guarded('laying out', action, () => resolvePlacement(context, action, picked));
}

function quickFixes(context: ServerContext, analysis: Analysis, uri: string, range: Range): readonly CodeAction[] {
  const document = context.documentOf(analysis, uri);
  const from = document.offsetAt(range.start);
  const to = document.offsetAt(range.end);
  // Dear, so once for all the findings of a kind.
  const ofKind = new Map<string, CodeAction | undefined>();
  return analysis.findings.flatMap((finding) => {
    if (finding.accepted !== undefined) return [];
    const place = analysis.locate(finding.span);
    if (!place || place.file !== uri || !isInSight(document, place, from, to)) return [];
    const diagnostic = toDiagnostic(context, analysis, finding);
    if (!diagnostic) return [];
    if (finding.fixes.some((fix) => fix.trust === 'safe') && !ofKind.has(finding.rule))
      ofKind.set(finding.rule, mendAllOfKind(context, analysis, uri, finding.rule));
    const all = ofKind.get(finding.rule);
    return [
      ...finding.fixes.map((fix) => quickFix(context, analysis, finding, fix, diagnostic)),
      ...(all ? [{ ...all, diagnostics: [diagnostic] }] : []),
    ];
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
