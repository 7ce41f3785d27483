/** The parser library's own language server on our grammar, as its generator sets it up; only the tokens are ours. */
import { EmptyFileSystem, inject, type Module } from 'langium';
import {
  createDefaultModule,
  createDefaultSharedModule,
  type DefaultSharedModuleContext,
  type LangiumServices,
  type LangiumSharedServices,
  type PartialLangiumServices,
  startLanguageServer,
} from 'langium/lsp';
import { createConnection, ProposedFeatures } from 'vscode-languageserver/node';
import { SillwrightAstReflection } from '../../language/generated/ast.ts';
import { grammarText } from '../../language/generated/grammar.ts';
import { grammarFromJson } from '../../language/syntax/grammar-from-json.ts';
import { SheetLexer } from '../../language/syntax/lexer.ts';
import { SheetTokenBuilder } from '../../language/syntax/token-builder.ts';
import { SheetValueConverter } from '../../language/syntax/value-converter.ts';

const grammar = grammarFromJson(grammarText);
const ours: Module<LangiumServices, PartialLangiumServices & { Grammar: unknown; LanguageMetaData: unknown }> = {
  Grammar: () => grammar,
  LanguageMetaData: () => ({
    languageId: 'sillwright',
    fileExtensions: ['.sill'],
    caseInsensitive: true,
    mode: 'production' as const,
  }),
  parser: {
    ParserConfig: () => ({ maxLookahead: 1 }),
    TokenBuilder: () => new SheetTokenBuilder(),
    Lexer: () => new SheetLexer(grammar, new SheetTokenBuilder()),
    ValueConverter: () => new SheetValueConverter(),
  },
};
const context: DefaultSharedModuleContext = { connection: createConnection(ProposedFeatures.all), ...EmptyFileSystem };
const shared = inject(createDefaultSharedModule(context), {
  AstReflection: () => new SillwrightAstReflection(),
} as Module<LangiumSharedServices, object>) as LangiumSharedServices;
const services = inject(createDefaultModule({ shared }), ours as Module<LangiumServices, object>) as LangiumServices;
shared.ServiceRegistry.register(services);
startLanguageServer(shared);
