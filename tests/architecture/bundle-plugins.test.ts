import { type BuildOptions, build } from 'esbuild';
import { describe, expect, it } from 'vitest';
import { libraryTexts } from '../../language/generated/library.ts';
import { libraryAsOneModule, namedTypesOnly, packedTexts, withoutUnusedParts } from '../../scripts/bundle-plugins.ts';

const root = `${import.meta.dirname}/../..`;

/** What a module is once it has gone through the plugins of the server's bundle. */
async function bundled<Module>(contents: string, options: BuildOptions): Promise<Module> {
  const { outputFiles } = await build({
    ...{ stdin: { contents, resolveDir: root }, absWorkingDir: root, bundle: true, write: false },
    ...{ format: 'esm', platform: 'node', logLevel: 'silent' },
    ...options,
  });
  const code = Buffer.from(outputFiles?.[0]?.contents ?? []).toString('base64');
  return (await import(/* @vite-ignore */ `data:text/javascript;base64,${code}`)) as Module;
}

describe('what the bundle of the server packs smaller', () => {
  it('is the same library', async () => {
    const small = await bundled<{ readonly libraryTexts: ReadonlyMap<string, string> }>(
      `export { libraryTexts } from './language/generated/library.ts';`,
      { plugins: [packedTexts] },
    );
    expect(small.libraryTexts).toEqual(libraryTexts);
  });

  it('keeps the kinds that the server names, and leaves the others out', async () => {
    const types = await bundled<Readonly<Record<string, unknown>>>(
      `export * from './node_modules/vscode-languageserver-types/lib/esm/main.js';`,
      { plugins: [namedTypesOnly] },
    );
    expect(types.SymbolKind).toMatchObject({ File: 1, Class: 5 });
    expect(types.DiagnosticSeverity).toMatchObject({ Error: 1, Warning: 2 });
    expect(Object.keys(types)).not.toContain('InlineCompletionItem');
  });

  it('gives the parts of the protocol that the server takes, each as the library has it', async () => {
    type Parts = typeof import('vscode-languageserver/node');
    const banner = {
      js: `import { createRequire } from 'node:module'; const require = createRequire('${root}/x.js');`,
    };
    const small = await bundled<Parts>(
      `export { createConnection, ProposedFeatures } from 'vscode-languageserver/node';
       export { LSPErrorCodes, SymbolKind, TextDocuments } from 'vscode-languageserver';`,
      { plugins: [withoutUnusedParts, libraryAsOneModule], banner },
    );
    const library: Parts = await import('vscode-languageserver/node');
    expect(small.LSPErrorCodes).toEqual(library.LSPErrorCodes);
    expect(small.SymbolKind).toEqual(library.SymbolKind);
    expect(small.ProposedFeatures).toEqual(library.ProposedFeatures);
    expect(new small.TextDocuments({ create: expect.fail, update: expect.fail }).all()).toEqual([]);
    expect(small.createConnection).toBeTypeOf('function');
  });
});
