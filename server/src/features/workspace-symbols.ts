import { SymbolKind, type WorkspaceSymbol } from 'vscode-languageserver';
import type { FileId } from '../../../language/domain/model/source.ts';
import { type Feature, rangeOf } from '../context.ts';
import { namesInFile } from '../name-places.ts';

/** Every declared name of the open houses, found by any part of it. */
export const workspaceSymbols: Feature = {
  capabilities: { workspaceSymbolProvider: true },
  register(context) {
    context.connection.onWorkspaceSymbol(({ query }) =>
      context.guarded<WorkspaceSymbol[]>('looking for names', [], () => {
        const wanted = query.toLowerCase();
        const seen = new Set<FileId>();
        const symbols: WorkspaceSymbol[] = [];
        for (const { uri: root } of context.documents.all()) {
          const analysis = context.analyses.of(root);
          for (const file of analysis?.files ?? []) {
            if (!analysis || seen.has(file)) continue;
            seen.add(file);
            for (const { role, kinds, name, owner, start, end } of namesInFile(analysis, file)) {
              if (role !== 'declares' || !name.toLowerCase().includes(wanted)) continue;
              const [kind = 'thing'] = kinds;
              const range = rangeOf(context.documentOf(analysis, file), start, end);
              const containerName = owner === undefined ? kind : `${kind} on ${owner}`;
              symbols.push({ name, kind: symbolKinds[kind], containerName, location: { uri: file, range } });
              if (symbols.length === mostSymbols) return symbols;
            }
          }
        }
        return symbols;
      }),
    );
    return undefined;
  },
};

/** More than anybody reads. */
const mostSymbols = 500;

const symbolKinds = {
  wall: SymbolKind.Class,
  girder: SymbolKind.Class,
  line: SymbolKind.Interface,
  space: SymbolKind.Namespace,
  connector: SymbolKind.Struct,
  'rule set': SymbolKind.Package,
  'price list': SymbolKind.Package,
  mark: SymbolKind.Event,
  thing: SymbolKind.Object,
} as const;
