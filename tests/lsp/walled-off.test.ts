import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { type SemanticTokens, SemanticTokensBuilder } from 'vscode-languageserver';
import { createAnalyser } from '../../language/analysis.ts';
import { gapTooWide } from '../../language/domain/rules/anchorage/gap-too-wide.ts';
import { type EditorClient, fileUri, startServerHere } from './editor-client.ts';

const example = readFileSync(join(import.meta.dirname, '../../examples/first-wall.sill'), 'utf8');
const house = fileUri('house.sill');

let editor: EditorClient;
beforeEach(async () => {
  editor = await startServerHere({ createAnalyser, readFromDisk: () => ({ missing: 'not here' }) });
});
afterEach(async () => {
  vi.restoreAllMocks();
  await editor.stop();
});

describe('a part of the server that throws', () => {
  it('as a rule is said in the file, and the other rules say what they find', async () => {
    vi.spyOn(gapTooWide, 'check').mockImplementation(() => {
      throw new Error('out of oil');
    });
    editor.open(house, example.replace(`A-1 flat-plate  at 0'-11"`, `A-1 flat-plate  at 0'-2"`));
    const { diagnostics } = await editor.publication(house);
    const broken = diagnostics.find(({ code }) => code === 'internal/rule-crashed');
    expect(broken?.message).toContain('anchorage/gap-too-wide broke off');
    expect(diagnostics.map(({ code }) => code)).toContain('anchorage/end-too-near');
  });

  it('as a feature is said in the log and answers nothing, and the other features answer', async () => {
    editor.open(house, example);
    await editor.publication(house);
    vi.spyOn(SemanticTokensBuilder.prototype, 'build').mockImplementationOnce(() => {
      throw new Error('out of paint');
    });
    const about = { textDocument: { uri: house } };
    const colours = await editor.connection.sendRequest<SemanticTokens>('textDocument/semanticTokens/full', about);
    expect(colours.data).toEqual([]);
    expect(editor.logged.join('\n')).toMatch(/failed while colouring\..*out of paint/s);
    expect((await editor.symbols(house)).map(({ name }) => name)).toContain('wall D');
    const again = await editor.connection.sendRequest<SemanticTokens>('textDocument/semanticTokens/full', about);
    expect(again.data).not.toEqual([]);
  });
});
