import { expect, it, vi } from 'vitest';
import type { Diagnostic, Uri } from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { linksToRules } from '../../extension/src/rule-links.ts';
import { diagnostics as feature } from '../../server/src/features/diagnostics.ts';

/** Of the editor's own module only this is asked. */
vi.mock('vscode', () => ({
  Uri: {
    joinPath: ({ path }: { readonly path: string }, ...parts: string[]) => ({ path: [path, ...parts].join('/') }),
  },
}));

it('a finding leads to the page of its rule, and to none where its rule has no page', () => {
  const client = { initializeResult: { capabilities: feature.capabilities } } as BaseLanguageClient;
  const { handleDiagnostics } = linksToRules({ path: '/extension' } as Uri, () => client);
  const file = { path: '/house.sill' } as Uri;
  const shown: Diagnostic[] = [];
  const codes = ['anchorage/gap-too-wide', 'language/duplicate-name', 'internal/more-findings', undefined];
  const sent = codes.map((code) => ({ message: 'as it was', ...(code ? { code } : {}) }) as Diagnostic);
  handleDiagnostics?.(file, sent, (uri, diagnostics) => {
    expect(uri).toBe(file);
    shown.push(...diagnostics);
  });
  expect(shown.map(({ code }) => code)).toEqual([
    { value: 'anchorage/gap-too-wide', target: { path: '/extension/docs/rules/anchorage/gap-too-wide.md' } },
    ...codes.slice(1),
  ]);
});
