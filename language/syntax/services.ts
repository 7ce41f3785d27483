import { createLangiumParser, type Grammar, type LangiumCoreServices, type LangiumParser } from 'langium';
import { SillwrightAstReflection } from '../generated/ast.ts';
import { grammarText } from '../generated/grammar.ts';
import { ExpectationProvider } from './expectation.ts';
import { grammarFromJson } from './grammar-from-json.ts';
import { SheetLexer } from './lexer.ts';
import { lazyLookahead } from './lookahead.ts';
import { SheetTokenBuilder } from './token-builder.ts';
import { SheetValueConverter } from './value-converter.ts';

/** The parser and what belongs to it. */
export interface SheetServices {
  readonly grammar: Grammar;
  readonly lexer: SheetLexer;
  readonly parser: LangiumParser;
}

let cached: SheetServices | undefined;

/** Built at the first call, which takes a tenth of a second, and kept. */
export function sheetServices(): SheetServices {
  cached ??= createSheetServices();
  return cached;
}

/** @param mode `development` also checks the grammar for alternatives that cannot be told apart; needs Node 22. */
export function createSheetServices(mode: 'development' | 'production' = 'production'): SheetServices {
  const grammar = grammarFromJson(grammarText);
  const lexer = new SheetLexer(grammar, new SheetTokenBuilder());
  // All that the parser asks for. The rest of the library (workspace, linking, validation) would only be built to lie idle.
  const needed = {
    Grammar: grammar,
    LanguageMetaData: { languageId: 'sillwright', fileExtensions: ['.sill'], caseInsensitive: true, mode },
    parser: {
      Lexer: lexer,
      ValueConverter: new SheetValueConverter(),
      ParserErrorMessageProvider: new ExpectationProvider(),
      ParserConfig: { maxLookahead: 1, lookaheadStrategy: lazyLookahead() },
    },
    references: {},
    shared: { AstReflection: new SillwrightAstReflection(), profilers: {} },
  };
  return { grammar, lexer, parser: createLangiumParser(needed as unknown as LangiumCoreServices) };
}
