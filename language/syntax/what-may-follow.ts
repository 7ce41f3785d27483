import { isOptional, isRepeated, mayBeName, ruleNamed } from './grammar.ts';
import type { GrammarPart } from './grammar-parts.ts';
import { lexBlock, splitLines } from './lex-block.ts';
import type { Token } from './lexer.ts';
import { type BlockWord, blocks, blockWords } from './words.ts';

/** One thing that the grammar can read next. */
export interface Follower {
  /** A keyword as spelled, or the name of a kind of token: `ID`, `LENGTH`, `STRING`. */
  readonly token: string;
  readonly isKeyword: boolean;
  /** Where it would go in the tree, outermost first: `NewAnchor.at`, then `Station.distance`, then `Measured.amount`. */
  readonly path: readonly GrammarPlace[];
}
export interface GrammarPlace {
  readonly rule: string;
  readonly property: string | undefined;
}

export interface TypedSoFar {
  /** Of the block that the caret is in; `undefined` above the first heading. */
  readonly word: BlockWord | undefined;
  /** Complete words of the line before the caret, without the one that is being typed. */
  readonly tokens: readonly Token[];
  /** The part of a word that stands before the caret. */
  readonly prefix: string;
  readonly isHeading: boolean;
}

/**
 * What stands on the caret's line before it; `undefined` inside a comment or a text.
 *
 * @param blockText from the block's heading to the caret.
 */
export function typedBefore(blockText: string, word: BlockWord | undefined): TypedSoFar | undefined {
  const prefix = /[^\s,(]*$/.exec(blockText)?.[0] ?? '';
  const { tokens, hidden } = lexBlock(blockText.slice(0, blockText.length - prefix.length));
  if (/["“]/.test(prefix) && !/^\d/.test(prefix)) return undefined;
  if (tokens.at(-1)?.kind === 'OPEN_STRING') return undefined;
  const comment = hidden.findLast((token) => token.kind === 'COMMENT');
  if (prefix.startsWith('//') || (comment && !/[\r\n]/.test(blockText.slice(comment.start)))) return undefined;
  const lines = splitLines(tokens);
  const isNewLine = tokens.length === 0 || tokens.at(-1)?.kind === 'NL';
  const line = isNewLine ? [] : (lines.at(-1) ?? []);
  return { word, tokens: line, prefix, isHeading: word !== undefined && lines.length === 1 && !isNewLine };
}

/** Everything that may stand next on the line. */
export function whatMayFollow({ word, tokens, isHeading }: TypedSoFar): readonly Follower[] {
  if (tokens.length === 0) {
    const headings = blockWords.map((each): Follower => ({ token: each, isKeyword: true, path: [] }));
    const lineRule = word && blocks[word].lineRule;
    return lineRule ? [...followersOf([lineRule], []), ...headings] : headings;
  }
  if (word === undefined) return [];
  const { rule, lineRule } = blocks[word];
  if (isHeading) return followersOf([rule], tokens);
  // Facts may stand side by side: after each whole one, the next begins.
  return lineRule ? followersOf([lineRule], tokens) : [];
}

/** Walks the rules along the tokens, and collects what could come where these end. */
function followersOf(ruleNames: readonly string[], tokens: readonly Token[]): readonly Follower[] {
  const found = new Map<string, Follower>();
  let steps = 0;

  const collect = (token: string, isKeyword: boolean, path: readonly GrammarPlace[]): void => {
    const key = [token, ...path.map((place) => `${place.rule}.${place.property ?? ''}`)].join(' ');
    found.set(key, { token, isKeyword, path });
  };

  type Next = (at: number) => void;
  const walk = (part: GrammarPart, at: number, path: readonly GrammarPlace[], next: Next): void => {
    if (++steps > mostSteps) return;
    if (isOptional(part)) next(at);
    const again: Next = isRepeated(part)
      ? (after) => {
          if (after === at) return;
          next(after);
          walkOnce(part, after, path, again);
        }
      : next;
    walkOnce(part, at, path, again);
  };
  const walkOnce = (part: GrammarPart, at: number, path: readonly GrammarPlace[], next: Next): void => {
    if (part.kind === 'word') take(part.word, true, at, path, next);
    else if (part.kind === 'token') take(part.token, false, at, path, next);
    else if (part.kind === 'property') walk(part.part, at, withProperty(path, part.property), next);
    else if (part.kind === 'all') walkAll(part.parts, at, path, next);
    else if (part.kind === 'either') for (const each of part.parts) walk(each, at, path, next);
    else if (part.kind === 'call') {
      const rule = ruleNamed(part.rule);
      // A fragment writes into the node of its caller, a name or a text into its property.
      const own = rule.kind === 'node' ? [...path, { rule: rule.name, property: undefined }] : path;
      walk(rule.body, at, own, next);
    } else next(at);
  };
  const walkAll = (parts: readonly GrammarPart[], at: number, path: readonly GrammarPlace[], next: Next): void => {
    const [first, ...rest] = parts;
    if (!first) next(at);
    else walk(first, at, path, (after) => walkAll(rest, after, path, next));
  };
  const take = (token: string, isKeyword: boolean, at: number, path: readonly GrammarPlace[], next: Next): void => {
    const given = tokens[at];
    if (!given) collect(token, isKeyword, path);
    else if (isOf(given, token)) next(at + 1);
  };

  for (const name of ruleNames) {
    walk(ruleNamed(name).body, 0, [{ rule: name, property: undefined }], () => {});
  }
  return [...found.values()];
}

/** A line of a rule without end stops here; a line of the language takes some hundreds. */
const mostSteps = 20_000;

function isOf({ kind }: Token, name: string): boolean {
  return kind === name || (name === 'ID' && mayBeName(kind));
}

function withProperty(path: readonly GrammarPlace[], property: string): readonly GrammarPlace[] {
  const last = path.at(-1);
  return last ? [...path.slice(0, -1), { ...last, property }] : path;
}
