import { type BuildOptions, build } from 'esbuild';
import { describe, expect, it } from 'vitest';
import { libraryTexts } from '../../language/generated/library.ts';
import { namedTypesOnly, packedTexts } from '../../scripts/bundle-plugins.ts';

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
});
