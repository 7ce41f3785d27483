/**
 * What the parser library's own parser of our grammar takes from us: only the tokens, since the library's way of reading words does not
 * know a keyword in another case, and the values of texts and numbers.
 */
import { createToken, type IToken, Lexer as NoLexer, type TokenType, type TokenTypeDictionary } from 'chevrotain';
import {
  type CstNode,
  DefaultValueConverter,
  type Grammar,
  type GrammarAST,
  type Lexer,
  type LexerResult,
  type TokenBuilder,
  type ValueType,
} from 'langium';
import { terminals } from '../../language/generated/rules.ts';
import { isWord, keywords, mayBeName } from '../../language/syntax/grammar.ts';
import { type Token, tokenize } from '../../language/syntax/lexer.ts';

export const languageMetaData = {
  ...{ languageId: 'sillwright', fileExtensions: ['.sill'], caseInsensitive: true },
  mode: 'production' as const,
};

/** What takes the place of the library's own services, in its words. */
export const parserServices = {
  ParserConfig: () => ({ maxLookahead: 1 }),
  TokenBuilder: () => new TokenKinds(),
  Lexer: () => new OurTokens(),
  ValueConverter: () => new Values(),
};

let kinds: TokenTypeDictionary | undefined;

/** One object for each kind, whoever asks. */
function tokenKinds(): TokenTypeDictionary {
  if (kinds) return kinds;
  const made: Record<string, TokenType> = {};
  for (const [name, pattern] of Object.entries(terminals)) made[name] = createToken({ name, pattern });
  const { ID: id } = made;
  for (const word of keywords()) {
    made[word] = createToken({ name: word, pattern: NoLexer.NA, categories: id && mayBeName(word) ? [id] : [] });
  }
  kinds = made;
  return made;
}

class TokenKinds implements TokenBuilder {
  buildTokens(_grammar: Grammar): TokenTypeDictionary {
    return tokenKinds();
  }
}

class OurTokens implements Lexer {
  readonly definition = tokenKinds();

  tokenize(text: string): LexerResult {
    const { tokens, hidden } = tokenize(text);
    return { tokens: tokens.map(theirs), hidden: hidden.map(theirs), errors: [] };
  }
}

/** Lines and columns are not asked for. */
function theirs({ kind, image, start, end }: Token): IToken {
  const tokenType = tokenKinds()[kind];
  if (!tokenType) throw new Error(`the library has no token ${kind}`);
  return {
    ...{ image, startOffset: start, endOffset: end - 1, startLine: 1, endLine: 1, startColumn: 1, endColumn: 1 },
    ...{ tokenType, tokenTypeIdx: tokenType.tokenTypeIdx ?? 0 },
  };
}

class Values extends DefaultValueConverter {
  protected override runConverter(rule: GrammarAST.AbstractRule, input: string, cstNode: CstNode): ValueType {
    switch (rule.name) {
      case 'ID':
        return isWord(input) ? cstNode.text : input;
      case 'STRING':
        return input.startsWith('“') ? input.slice(1, -1) : input.slice(1, -1).replace(/\\(.)/g, '$1');
      case 'OPEN_STRING':
        return input.slice(1);
      case 'Count':
      case 'Penny':
        return Number.parseFloat(input.replace('−', '-'));
      default:
        return input;
    }
  }
}
