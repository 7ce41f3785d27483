import { type CompletionItem, CompletionItemKind, InsertTextFormat } from 'vscode-languageserver';
import type { Analysis } from '../../../language/analysis.ts';
import { printName } from '../../../language/syntax/print/name.ts';
import { type Follower, whatMayFollow } from '../../../language/syntax/what-may-follow.ts';
import { isBlockWord } from '../../../language/syntax/words.ts';
import type { Caret } from './caret.ts';
import { namesFor } from './names-for.ts';
import { stationsFor } from './stations-for.ts';
import { blockTemplates, lineTemplates, type Template } from './templates.ts';

/** What the editor can take, and how it asked. */
export interface Wish {
  readonly snippets: boolean;
  /** By key or by typing a word; after a mere space only what a person could not guess is shown. */
  readonly wasAsked: boolean;
}

/** `insertText` is what stands in place of the word at the caret; without it the label does. */
export function itemsFor(analysis: Analysis, caret: Caret, { snippets, wasAsked }: Wish): readonly CompletionItem[] {
  const followers = whatMayFollow(caret.typed);
  const named = namesAmong(followers, analysis, caret);
  const stations = stationsFor(followers, analysis, caret);
  const guessed = [...stations, ...named];
  if (!wasAsked) return guessed;
  return [
    ...guessed,
    ...lengthsFrom(caret.typed.prefix, followers),
    ...(snippets ? templatesFor(caret) : []),
    ...words(followers),
  ];
}

function namesAmong(followers: readonly Follower[], analysis: Analysis, caret: Caret): readonly CompletionItem[] {
  const places = new Set(followers.filter(({ token }) => token === 'ID' || token === 'RULE_ID').map(placeOf));
  return [...places].flatMap((place) =>
    (namesFor(place, analysis, caret) ?? []).map(
      ({ name, detail }, index): CompletionItem => ({
        label: name,
        detail,
        kind: CompletionItemKind.Reference,
        insertText: place === 'Acceptance.rule' ? name : printName(name),
        sortText: sortText(1, index),
      }),
    ),
  );
}

/** The property that holds what comes next: `NewAnchor.connector`. */
function placeOf({ path }: Follower): string {
  const last = path.at(-1);
  return `${last?.rule ?? ''}.${last?.property ?? ''}`;
}

/** `12` becomes `12"`, `12'` or `12 mm` where a length may stand. */
function lengthsFrom(prefix: string, followers: readonly Follower[]): readonly CompletionItem[] {
  if (!/^\d+$/.test(prefix) || !followers.some(({ token }) => token === 'LENGTH')) return [];
  return [`${prefix}"`, `${prefix}'`, `${prefix} mm`].map((label, index) => ({
    label,
    kind: CompletionItemKind.Unit,
    sortText: sortText(2, index),
  }));
}

function templatesFor({ typed, lineBefore }: Caret): readonly CompletionItem[] {
  if (typed.tokens.length > 0) return [];
  const isAtEdge = !/^\s/.test(lineBefore);
  const here = typed.word && !isAtEdge ? (lineTemplates[typed.word] ?? []) : [];
  return [...here, ...blockTemplates].map(({ label, detail, body }: Template, index) => ({
    label,
    detail,
    kind: CompletionItemKind.Snippet,
    insertText: body,
    insertTextFormat: InsertTextFormat.Snippet,
    sortText: sortText(4, index),
  }));
}

function words(followers: readonly Follower[]): readonly CompletionItem[] {
  const seen = new Set<string>();
  return followers.flatMap(({ token, isKeyword, path }, index): CompletionItem[] => {
    if (!isKeyword || seen.has(token) || !/^[A-Za-z]/.test(token)) return [];
    seen.add(token);
    const isHeading = path.length === 0 && isBlockWord(token);
    return [{ label: token, kind: CompletionItemKind.Keyword, sortText: sortText(isHeading ? 6 : 5, index) }];
  });
}

function sortText(group: number, index: number): string {
  return `${group}${String(index).padStart(4, '0')}`;
}
