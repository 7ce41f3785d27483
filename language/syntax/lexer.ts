import type { IToken, TokenType, TokenTypeDictionary } from 'chevrotain';
import { type Grammar, GrammarAST, type Lexer, type LexerResult } from 'langium';
import { SillwrightTerminals } from '../generated/ast.ts';
import { isWord, type SheetTokenBuilder } from './token-builder.ts';

/**
 * Reads words, numbers and texts; `grammar/tokens.langium` says what is what. A word is read whole and then looked up
 * among the keywords, so a keyword is known in any case and yields to a longer name.
 *
 * Langium's own lexer tries a pattern for each of the 400 keywords, and takes longer to get ready than the whole language
 * may take to start.
 */
export class SheetLexer implements Lexer {
  readonly definition: TokenTypeDictionary;
  /** By spelling in lower case. */
  private readonly keywords: ReadonlyMap<string, TokenType>;
  private readonly hiddenKinds: ReadonlySet<string>;
  private prepared: readonly IToken[] | undefined;

  constructor(grammar: Grammar, tokenBuilder: SheetTokenBuilder) {
    const definition = tokenBuilder.buildTokens(grammar);
    this.definition = definition;
    const keywords = Object.values(definition).filter(({ name }) => !Object.hasOwn(SillwrightTerminals, name));
    this.keywords = new Map(keywords.map((keyword) => [keyword.name.toLowerCase(), keyword]));
    const hidden = grammar.rules.filter((rule) => GrammarAST.isTerminalRule(rule) && rule.hidden);
    this.hiddenKinds = new Set(hidden.map(({ name }) => name));
  }

  /** Makes the next `tokenize` give these tokens, so that one line can be parsed with offsets from its block. */
  prepare(tokens: readonly IToken[]): void {
    this.prepared = tokens;
  }

  /** Reads any text: what is no part of the language becomes a hidden `STRAY`. Blanks are left out. */
  tokenize(text: string): LexerResult {
    if (this.prepared) {
      const tokens = [...this.prepared];
      this.prepared = undefined;
      return { tokens, hidden: [], errors: [] };
    }
    const tokens: IToken[] = [];
    const hidden: IToken[] = [];
    const place: Place = { line: 1, lineStart: 0 };
    for (let offset = 0; offset < text.length; ) {
      const { name, end } = terminalAt(text, offset);
      if (name !== 'BLANK') {
        const token = this.tokenOf(name, text.slice(offset, end), offset, place);
        if (name === 'CARRY_ON') dropLineBreaks(tokens);
        (this.hiddenKinds.has(name) ? hidden : tokens).push(token);
      }
      if (name === 'NL' || name === 'CARRY_ON') {
        place.line++;
        place.lineStart = offset + (text.startsWith('\r\n', offset) ? 2 : 1);
      }
      offset = end;
    }
    return { tokens, hidden, errors: [] };
  }

  private tokenOf(name: string, typed: string, start: number, place: Place): IToken {
    const keyword = name === 'ID' || name === 'MARK' ? this.keywords.get(typed.toLowerCase()) : undefined;
    const tokenType = keyword ?? kindNamed(this.definition, name);
    const end = start + typed.length;
    return {
      // The tree holds a keyword as the grammar spells it; names and messages take their letters from the text.
      image: keyword && isWord(keyword.name) ? keyword.name : typed,
      payload: typed,
      startOffset: start,
      endOffset: end - 1,
      startLine: place.line,
      endLine: place.line,
      startColumn: start - place.lineStart + 1,
      endColumn: end - place.lineStart,
      tokenType,
      tokenTypeIdx: tokenType.tokenTypeIdx ?? 0,
    };
  }
}

/** A token as it stands in the text. */
export function typedText(token: IToken): string {
  return typeof token.payload === 'string' ? token.payload : token.image;
}

/** Both count as the parser library counts: the line from 1, the offset from 0. */
interface Place {
  line: number;
  lineStart: number;
}

function kindNamed(definition: TokenTypeDictionary, name: string): TokenType {
  const kind = definition[name];
  if (!kind) throw new Error(`the grammar has no token ${name}`);
  return kind;
}

/** A `+` takes back the ends of the line above it and of the blank and comment lines between. */
function dropLineBreaks(tokens: IToken[]): void {
  while (tokens.at(-1)?.tokenType.name === 'NL') tokens.pop();
}

// ---------- one pattern for all terminals ----------

/** The terminals in the order of the grammar, then the keywords that are no words; each with its group in `anyTerminal`. */
const terminals: readonly { readonly name: string; readonly pattern: string; readonly group: number }[] = numbered([
  ...Object.entries(SillwrightTerminals).map(([name, { source }]) => ({ name, pattern: source })),
  { name: 'MARK', pattern: '[(),]' },
]);
const anyTerminal = new RegExp(terminals.map(({ pattern }) => `(${pattern})`).join('|'), 'y');

function terminalAt(text: string, offset: number): { readonly name: string; readonly end: number } {
  anyTerminal.lastIndex = offset;
  const match = anyTerminal.exec(text);
  const terminal = match && terminals.find(({ group }) => match[group] !== undefined);
  return terminal ? { name: terminal.name, end: anyTerminal.lastIndex } : { name: 'STRAY', end: offset + 1 };
}

function numbered<T extends { readonly pattern: string }>(
  patterns: readonly T[],
): readonly (T & { readonly group: number })[] {
  let group = 1;
  return patterns.map((each) => {
    const own = { ...each, group };
    group += 1 + groupsIn(each.pattern);
    return own;
  });
}

function groupsIn(pattern: string): number {
  return (new RegExp(`${pattern}|`).exec('')?.length ?? 1) - 1;
}
