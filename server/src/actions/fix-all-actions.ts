import { type CodeAction, CodeActionKind, type Range, type WorkspaceEdit } from 'vscode-languageserver';
import { type Analysis, createAnalyser } from '../../../language/analysis.ts';
import type { FileId } from '../../../language/domain/model/source.ts';
import type { RuleId } from '../../../language/domain/rules/finding.ts';
import { mendAnalysis } from '../../../language/mend.ts';
import { rangeOf, type ServerContext } from '../context.ts';
import { fixAllKind } from './kinds.ts';

/**
 * Every mend that keeps the meaning, in one edit. Worked out only when somebody asks for such actions; a kind with a rule behind
 * it mends that rule alone.
 */
export function fixAllActions(
  context: ServerContext,
  analysis: Analysis,
  uri: string,
  only: readonly string[] | undefined,
): readonly CodeAction[] {
  const asked = (only ?? []).filter((kind) => fixAllKind.startsWith(kind) || kind.startsWith(`${fixAllKind}.`));
  return asked.flatMap((kind) => {
    const rule = kind.startsWith(`${fixAllKind}.`) ? kind.slice(fixAllKind.length + 1) : undefined;
    const mended = mendSafely(context, analysis, uri, rule === undefined ? [] : [rule]);
    if (!mended) return [];
    const what = rule === undefined ? 'all that keeps the meaning' : `all of ${rule}`;
    return [{ title: `Mend ${what} (${mended.count})`, kind, edit: mended.edit }];
  });
}

/** For a finding with a safe mend, where it is not the only one of its kind. */
export function mendAllOfKind(
  context: ServerContext,
  analysis: Analysis,
  uri: string,
  rule: RuleId,
): CodeAction | undefined {
  const others = analysis.findings.filter((each) => each.rule === rule && each.accepted === undefined);
  if (others.length < 2) return undefined;
  const mended = mendSafely(context, analysis, uri, [rule]);
  if (!mended || mended.count < 2) return undefined;
  return { title: `Mend all ${mended.count} of ${rule}`, kind: CodeActionKind.QuickFix, edit: mended.edit };
}

function mendSafely(
  context: ServerContext,
  analysis: Analysis,
  uri: string,
  rules: readonly string[],
): { readonly edit: WorkspaceEdit; readonly count: number } | undefined {
  const replaced = new Map<FileId, string>();
  const analyser = createAnalyser({
    read: (file) => {
      const text = replaced.get(file) ?? analysis.textOf(file);
      return text === undefined ? context.files.read(file) : { text };
    },
    resolve: (from, path) => context.files.resolve(from, path),
  });
  const texts = {
    replaceText: (file: FileId, text: string) => void replaced.set(file, text),
    analyse: (file: FileId) => analyser.analyse(file),
  };
  const { analysis: after, mends } = mendAnalysis(texts, analysis, { rules, trust: 'safe' });
  if (mends.length === 0) return undefined;
  const document = context.documentOf(analysis, uri);
  const { start, end, text } = difference(analysis.text, after.text);
  const edits = [{ range: rangeOf(document, start, end) satisfies Range, newText: text }];
  const textDocument = { uri, version: context.documents.get(uri)?.version ?? null };
  return { edit: { documentChanges: [{ textDocument, edits }] }, count: mends.length };
}

/** The one stretch in which two texts differ. */
function difference(before: string, after: string): { start: number; end: number; text: string } {
  const shorter = Math.min(before.length, after.length);
  let head = 0;
  while (head < shorter && before[head] === after[head]) head += 1;
  let tail = 0;
  while (tail < shorter - head && before[before.length - 1 - tail] === after[after.length - 1 - tail]) tail += 1;
  return { start: head, end: before.length - tail, text: after.slice(head, after.length - tail) };
}
