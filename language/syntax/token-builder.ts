import { createToken, Lexer, type TokenType, type TokenTypeDictionary } from 'chevrotain';
import { type Grammar, GrammarAST, type TokenBuilder } from 'langium';
import { SillwrightTerminals } from '../generated/ast.ts';
import { elementsOf, parserRulesOf } from './grammar-elements.ts';
import { reservedWords } from './reserved-words.ts';

/**
 * The kinds of tokens: the terminals of the grammar in their order, then the keywords. Every keyword that is not reserved
 * also counts as an ID, so that it may be a name.
 */
export class SheetTokenBuilder implements TokenBuilder {
  buildTokens(grammar: Grammar): TokenTypeDictionary {
    const tokens: Record<string, TokenType> = {};
    for (const [name, pattern] of Object.entries(SillwrightTerminals)) tokens[name] = createToken({ name, pattern });
    const { ID: id } = tokens;
    if (!id) throw new Error('the grammar has no ID');
    const reserved = new Set(reservedWords);
    for (const word of keywordsOf(grammar)) {
      // The lexer knows keywords by looking words up, not by patterns.
      const mayBeName = isWord(word) && !reserved.has(word.toLowerCase());
      tokens[word] = createToken({ name: word, pattern: Lexer.NA, categories: mayBeName ? [id] : [] });
    }
    return tokens;
  }
}

/** Whether a keyword is spelled like a name; `(`, `)` and `,` are not. */
export function isWord(keyword: string): boolean {
  return /^[A-Za-z]/.test(keyword);
}

export function keywordsOf(grammar: Grammar): ReadonlySet<string> {
  const words = new Set<string>();
  for (const { definition } of parserRulesOf(grammar)) {
    for (const element of elementsOf(definition)) if (GrammarAST.isKeyword(element)) words.add(element.value);
  }
  return words;
}
