import type { IToken, TokenType } from 'chevrotain';
import { DefaultLexer, type LangiumCoreServices, type LexerResult } from 'langium';
import { isWord } from './token-builder.ts';

/** Reads words, numbers and texts; see `grammar/tokens.langium` for what is what. */
export class SheetLexer extends DefaultLexer {
  private readonly keywords = new Map<string, TokenType>();
  private prepared: readonly IToken[] | undefined;

  constructor(services: LangiumCoreServices) {
    super(services);
    for (const token of Object.values(this.definition)) {
      if (isWord(token)) this.keywords.set(token.name.toLowerCase(), token);
    }
  }

  /** Makes the next `tokenize` give these tokens, so that one line can be parsed with offsets from its block. */
  prepare(tokens: readonly IToken[]): void {
    this.prepared = tokens;
  }

  override tokenize(text: string): LexerResult {
    const prepared = this.prepared;
    if (prepared) {
      this.prepared = undefined;
      return { tokens: [...prepared], hidden: [], errors: [] };
    }
    const result = super.tokenize(text);
    return { ...result, tokens: this.finish(result.tokens, result.hidden) };
  }

  /** Turns words into keywords, and takes away the line breaks before a `+`. */
  private finish(tokens: readonly IToken[], hidden: readonly IToken[]): IToken[] {
    const carriedOn = hidden.filter((token) => token.tokenType.name === 'CARRY_ON');
    const finished: IToken[] = [];
    let next = 0;
    for (const token of tokens) {
      for (let plus = carriedOn[next]; plus && plus.startOffset < token.startOffset; plus = carriedOn[++next]) {
        while (finished.at(-1)?.tokenType.name === 'NL') finished.pop();
      }
      if (token.tokenType.name === 'ID') this.nameKeyword(token);
      finished.push(token);
    }
    return finished;
  }

  private nameKeyword(token: IToken): void {
    const keyword = this.keywords.get(token.image.toLowerCase());
    if (!keyword) return;
    token.tokenType = keyword;
    if (keyword.tokenTypeIdx !== undefined) token.tokenTypeIdx = keyword.tokenTypeIdx;
    // The tree holds the keyword as the grammar spells it; names and messages take their letters from the text.
    token.payload = token.image;
    token.image = keyword.name;
  }
}

/** A token as it stands in the text. */
export function typedText(token: IToken): string {
  return typeof token.payload === 'string' ? token.payload : token.image;
}
