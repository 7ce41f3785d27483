import type { TokenType, TokenVocabulary } from 'chevrotain';
import { DefaultTokenBuilder, type Grammar, type GrammarAST, type TokenBuilderOptions } from 'langium';
import { reservedWords } from './reserved-words.ts';

/**
 * Tokens of the grammar, with two changes: the lexer never matches a keyword by its letters (it reads a word and looks
 * it up, so a keyword yields to any longer name), and every keyword that is not reserved also counts as an ID.
 */
export class SheetTokenBuilder extends DefaultTokenBuilder {
  override buildTokens(grammar: Grammar, options?: TokenBuilderOptions): TokenVocabulary {
    const tokens = super.buildTokens(grammar, options) as TokenType[];
    const id = tokens.find((token) => token.name === 'ID');
    if (!id) throw new Error('the grammar has no ID token');
    const reserved = new Set(reservedWords);
    for (const token of tokens) {
      if (isWord(token) && !reserved.has(token.name.toLowerCase())) token.CATEGORIES = [id];
    }
    return tokens;
  }

  protected override buildKeywordToken(
    keyword: GrammarAST.Keyword,
    terminalTokens: TokenType[],
    caseInsensitive: boolean,
  ): TokenType {
    if (!startsLikeWord.test(keyword.value)) return super.buildKeywordToken(keyword, terminalTokens, caseInsensitive);
    return { name: keyword.value, PATTERN: neverMatches, START_CHARS_HINT: [], LINE_BREAKS: false };
  }
}

/** A keyword that is spelled like a name; `(`, `)` and `,` are not. */
export function isWord(token: TokenType): boolean {
  return token.PATTERN === neverMatches;
}

const startsLikeWord = /^[A-Za-z]/;
const neverMatches = (): null => null;
