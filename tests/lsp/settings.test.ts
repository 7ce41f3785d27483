import { expect, it } from 'vitest';
import { createAnalyser } from '../../language/analysis.ts';
import { startServerHere } from './editor-client.ts';

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
