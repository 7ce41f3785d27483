import {
  createDefaultCoreModule,
  createDefaultSharedCoreModule,
  EmptyFileSystem,
  inject,
  type LangiumCoreServices,
  type LangiumSharedCoreServices,
  type LanguageMetaData,
  type Module,
  type PartialLangiumCoreServices,
} from 'langium';
import {
  SillwrightGeneratedModule,
  SillwrightGeneratedSharedModule,
  SillwrightLanguageMetaData,
  SillwrightParserConfig,
} from '../generated/module.ts';
import { ExpectationProvider } from './expectation.ts';
import { SheetLexer } from './lexer.ts';
import { lazyLookahead } from './lookahead.ts';
import { SheetTokenBuilder } from './token-builder.ts';
import { SheetValueConverter } from './value-converter.ts';

let cached: LangiumCoreServices | undefined;

/** The parser and what belongs to it; built at the first call, which takes a tenth of a second, and kept. */
export function sheetServices(): LangiumCoreServices {
  cached ??= createSheetServices();
  return cached;
}

/** @param mode `development` also checks the grammar for alternatives that cannot be told apart; needs Node 22. */
export function createSheetServices(mode: LanguageMetaData['mode'] = 'production'): LangiumCoreServices {
  const shared: LangiumSharedCoreServices = inject(
    createDefaultSharedCoreModule(EmptyFileSystem),
    SillwrightGeneratedSharedModule,
  );
  const services = inject(createDefaultCoreModule({ shared }), SillwrightGeneratedModule, sheetModule, withMode(mode));
  shared.ServiceRegistry.register(services);
  return services;
}

const sheetModule: Module<LangiumCoreServices, PartialLangiumCoreServices> = {
  parser: {
    Lexer: (services) => new SheetLexer(services),
    TokenBuilder: () => new SheetTokenBuilder(),
    ValueConverter: () => new SheetValueConverter(),
    ParserErrorMessageProvider: () => new ExpectationProvider(),
    ParserConfig: () => ({ ...SillwrightParserConfig, lookaheadStrategy: lazyLookahead() }),
  },
};

function withMode(mode: LanguageMetaData['mode']): Module<LangiumCoreServices, PartialLangiumCoreServices> {
  return { LanguageMetaData: () => ({ ...SillwrightLanguageMetaData, mode }) };
}
