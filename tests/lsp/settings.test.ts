import { expect, it } from 'vitest';
import type { Diagnostic, PublishDiagnosticsClientCapabilities } from 'vscode-languageserver-protocol';
import { createAnalyser } from '../../language/analysis.ts';
import { fileUri, startServerHere } from './editor-client.ts';

const parts = { createAnalyser, readFromDisk: () => ({ missing: 'there is no such file' }) };

it('an editor that tells of new settings only where it is asked to is asked to', async () => {
  const editor = await startServerHere(parts, {
    workspace: { configuration: true, didChangeConfiguration: { dynamicRegistration: true } },
  });
  // Behind it in the same stream: when this is answered, the registration has been asked for.
  await editor.connection.sendRequest('workspace/symbol', { query: '' });
  expect(editor.registered).toEqual(['workspace/didChangeConfiguration']);
  await editor.stop();

  const other = await startServerHere(parts, { workspace: { configuration: true } });
  await other.connection.sendRequest('workspace/symbol', { query: '' });
  expect(other.registered).toEqual([]);
  await other.stop();
});

it('an editor that shows no places beside a finding and follows no link of one is sent neither', async () => {
  const text = 'layout "Two of one name"\nwall A 10\'\nwall A 12\'\n';
  const wishes = { rulePages: 'file:///pages' };
  const published = async (
    publishDiagnostics: PublishDiagnosticsClientCapabilities,
  ): Promise<readonly Diagnostic[]> => {
    const editor = await startServerHere(parts, { textDocument: { publishDiagnostics } }, wishes);
    editor.open(fileUri('two.sill'), text);
    const { diagnostics } = await editor.publication(fileUri('two.sill'));
    await editor.stop();
    return diagnostics;
  };
  const all = await published({ relatedInformation: true, codeDescriptionSupport: true });
  expect(all.some(({ relatedInformation }) => relatedInformation !== undefined)).toBe(true);
  expect(all.some(({ codeDescription }) => codeDescription !== undefined)).toBe(true);
  const plain = all.map(({ relatedInformation, codeDescription, ...rest }) => rest);
  expect(await published({})).toEqual(plain);
});
