import type { WorkspaceEdit } from 'vscode-languageserver';
import type { Analysis } from '../../../language/analysis.ts';
import type { EditAnswer, MovesAnswer } from '../../../language/protocol/moves.ts';
import type { FixesAnswer, FixesOfFinding } from '../../../language/protocol/preview.ts';
import {
  type FixesParams,
  fixesRequest,
  type MendParams,
  type MoveParams,
  type MovesParams,
  mendRequest,
  moveRequest,
  movesRequest,
} from '../../../language/protocol/requests.ts';
import type { Feature, ServerContext } from '../context.ts';
import { revisionOf } from '../revision.ts';
import { workspaceEdit } from '../workspace-edit.ts';

/** What a person changes in the pane: moving a connector, and mending a finding. Each is one edit, which one undo takes back. */
export const editsFromPane: Feature = {
  capabilities: {},
  register(context) {
    context.connection.onRequest<MovesAnswer | null, void>(movesRequest, async ({ uri, thing, units }: MovesParams) => {
      const { movesOf } = await import('../move-connector.ts');
      return context.guarded<MovesAnswer | null>('looking where a connector may stand', null, () => {
        const analysis = context.analyses.of(uri);
        return analysis ? movesOf(analysis, thing, units) : null;
      });
    });
    context.connection.onRequest<EditAnswer, void>(moveRequest, async (asked: MoveParams) => {
      const { moveOf } = await import('../move-connector.ts');
      return edited(context, asked, (analysis) => moveOf(context, analysis, asked));
    });
    context.connection.onRequest<FixesAnswer | null, void>(fixesRequest, (asked: FixesParams) =>
      fixesOf(context, asked),
    );
    context.connection.onRequest<EditAnswer, void>(mendRequest, (asked: MendParams) =>
      edited(context, asked, (analysis) => mendOf(context, analysis, asked)),
    );
    return undefined;
  },
};

export interface EditFromPane {
  /** In the list of what can be undone. */
  readonly label: string;
  readonly edit: WorkspaceEdit;
  /** What to say when it is made. */
  readonly words: string;
}

/** The texts must be those that the person saw, from the question to the moment when the editor makes the change. */
async function edited(
  context: ServerContext,
  { uri, revision }: { readonly uri: string; readonly revision: number },
  make: (analysis: Analysis) => EditFromPane | string,
): Promise<EditAnswer> {
  const made = context.guarded<EditFromPane | string>('making an edit', failed, () => {
    const analysis = context.analyses.of(uri);
    if (!analysis || revisionOf(analysis) !== revision) return changed;
    return make(analysis);
  });
  if (typeof made === 'string') return { kind: 'refused', reason: made };
  const { label, edit, words } = made;
  try {
    const { applied } = await context.connection.workspace.applyEdit({ label, edit });
    return applied ? { kind: 'done', words } : { kind: 'refused', reason: changed };
  } catch {
    return { kind: 'refused', reason: 'the editor did not make the change' };
  }
}

const changed = 'the text was changed in the meantime; look again';
const failed = 'Sillwright failed on this text; see Output, Sillwright';

/** Between two findings the server listens: a key that is pressed meanwhile ends the search. */
async function fixesOf(context: ServerContext, { uri, revision, findings }: FixesParams): Promise<FixesAnswer | null> {
  const { plainText } = await import('../../../language/domain/drawing/lettering.ts');
  const fixes: FixesOfFinding[] = [];
  for (const index of findings) {
    await new Promise((resolve) => setTimeout(resolve, 0));
    const analysis = context.analyses.of(uri);
    if (!analysis || revisionOf(analysis) !== revision) return null;
    const finding = analysis.findings[index];
    const found = context.guarded('looking for fixes', [], () =>
      finding?.accepted === undefined ? (finding?.fixes ?? []) : [],
    );
    const place = finding && context.locationOf(analysis, finding.span);
    fixes.push({
      finding: index,
      words: plainText(finding?.message ?? ''),
      rule: finding?.rule ?? '',
      line: place?.uri === uri ? place.range.start.line + 1 : 0,
      fixes: found.map(({ title, trust }) => ({ title, trust })),
    });
  }
  return { revision, fixes };
}

function mendOf(
  context: ServerContext,
  analysis: Analysis,
  { finding: index, fix: fixIndex }: MendParams,
): EditFromPane | string {
  const finding = analysis.findings[index];
  const fix = finding?.accepted === undefined ? finding?.fixes[fixIndex] : undefined;
  if (!fix) return 'this finding has no such fix';
  const edit = workspaceEdit(context, analysis, fix.edits);
  return typeof edit === 'string' ? edit : { label: fix.title, edit, words: `Done: ${fix.title}` };
}
