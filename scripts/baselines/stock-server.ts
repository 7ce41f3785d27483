import { type AstReflection, EmptyFileSystem, type Grammar, inject, type Module } from 'langium';
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
import { languageMetaData, parserServices } from './library-services.ts';

/** The parser library's own language server on our grammar, as its generator sets it up; only the tokens are ours. */
export function startStockServer(grammar: Grammar, reflection: AstReflection): void {
  const ours: Module<LangiumServices, PartialLangiumServices & { Grammar: unknown; LanguageMetaData: unknown }> = {
    Grammar: () => grammar,
    LanguageMetaData: () => languageMetaData,
    parser: parserServices,
  };
  const context: DefaultSharedModuleContext = {
    connection: createConnection(ProposedFeatures.all),
    ...EmptyFileSystem,
  };
  const shared = inject(createDefaultSharedModule(context), {
    AstReflection: () => reflection,
  } as Module<LangiumSharedServices, object>) as LangiumSharedServices;
  const services = inject(createDefaultModule({ shared }), ours as Module<LangiumServices, object>) as LangiumServices;
  shared.ServiceRegistry.register(services);
  startLanguageServer(shared);
}
