import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, describe, expect, it } from 'vitest';
import type { ClientCapabilities, CodeAction, Range } from 'vscode-languageserver-protocol';
import { createAnalyser } from '../../language/analysis.ts';
import { type EditorClient, fileUri, startServerHere } from './editor-client.ts';

const firstWall = readFileSync(join(import.meta.dirname, '../../examples/first-wall.sill'), 'utf8');
const bare = firstWall.slice(0, firstWall.indexOf('// The design'));
const surveyed = readFileSync(join(import.meta.dirname, '../../examples/maple-surveyed.sill'), 'utf8');
const uri = fileUri('house.sill');

let editor: EditorClient;
afterEach(async () => {
  await editor.stop();
});

async function start(text: string, capabilities: ClientCapabilities = canWait): Promise<void> {
  editor = await startServerHere(
    { readFromDisk: () => ({ missing: 'nothing on disk' }), createAnalyser },
    capabilities,
  );
  editor.open(uri, text);
}

/** An editor that works an action out when it is picked, and shows a difference before it is made. */
const canWait: ClientCapabilities = {
  workspace: { workspaceEdit: { documentChanges: true, changeAnnotationSupport: { groupsOnLabel: true } } },
  textDocument: {
    codeAction: {
      codeActionLiteralSupport: { codeActionKind: { valueSet: ['quickfix', 'refactor'] } },
      resolveSupport: { properties: ['edit'] },
      dataSupport: true,
    },
  },
};

const caretAt = (text: string): Range => {
  const position = editor.place(uri, text);
  return { start: position, end: position };
};
const layOuts = async (text: string): Promise<readonly CodeAction[]> =>
  (await editor.codeActions(uri, caretAt(text))).filter(({ title }) => title.startsWith('Lay out'));
const resolve = (action: CodeAction): Promise<CodeAction> =>
  editor.connection.sendRequest<CodeAction>('codeAction/resolve', action);
const pick = async (text: string, title: string): Promise<CodeAction> => {
  const action = (await layOuts(text)).find((each) => each.title === title);
  if (!action) throw new Error(`${title} is not offered`);
  return resolve(action);
};

describe('laying out in the editor', () => {
  it('is offered for the board, the wall and the house that the caret is on', async () => {
    await start(bare);
    expect((await layOuts('sill A1')).map(({ title }) => title)).toEqual(['Lay out sill A1', 'Lay out wall A']);
    expect((await layOuts('wall D "west"')).map(({ title }) => title)).toEqual(['Lay out wall D', 'Lay out the house']);
    expect((await layOuts('vent V1')).map(({ title }) => title)).toEqual([]);
    for (const action of await layOuts('wall A "north"')) {
      expect(action.kind).toBe('refactor.rewrite');
    }
  });

  it('is worked out when it is picked, as one edit that is shown first', async () => {
    await start(bare);
    const [listed] = await layOuts('sill A1');
    expect(listed?.edit).toBeUndefined();
    const action = await pick('wall A "north"', 'Lay out the house');
    if (!action.edit) throw new Error('an edit is expected');
    expect(action.edit.documentChanges).toHaveLength(1);
    expect(Object.values(action.edit.changeAnnotations ?? {})).toEqual([
      expect.objectContaining({ label: 'Lay out the house', needsConfirmation: true }),
    ]);
    editor.apply(action.edit);
    const after = await editor.publication(uri, ({ version }) => version === 2);
    expect(after.diagnostics.filter(({ severity }) => severity === 1)).toEqual([]);
    expect(editor.text(uri)).toMatch(/anchor +A-1 +flat-plate +at 0'-11" +proposed/);
  });

  it('lays out one board and leaves the others alone', async () => {
    await start(bare);
    const action = await pick('sill    D2', 'Lay out sill D2');
    if (!action.edit) throw new Error('an edit is expected');
    editor.apply(action.edit);
    expect(editor.text(uri).match(/^ {2}anchor .*$/gm)?.length).toBe(3);
    expect(editor.text(uri)).not.toContain('work on A');
  });

  it('says in a message what cannot be laid out, and why', async () => {
    await start(surveyed);
    const said = new Promise<string>((done) => {
      // As a question without answers, or as a bare message.
      editor.connection.onRequest('window/showMessageRequest', ({ message }: { readonly message: string }) => {
        done(message);
        return null;
      });
      editor.connection.onNotification('window/showMessage', ({ message }: { readonly message: string }) =>
        done(message),
      );
    });
    const action = await pick('sill    E1', 'Lay out sill E1');
    expect(action.edit).toBeUndefined();
    expect(await said).toMatch(/^Sill E1 has no placement: no place in its left end window.*A way out: /);
  });

  it('comes with its edit for an editor that cannot wait', async () => {
    await start(bare, { textDocument: {} });
    const [piece] = await layOuts('sill A1');
    expect(piece?.edit?.documentChanges).toHaveLength(1);
    expect(piece?.edit?.changeAnnotations).toBeUndefined();
  });

  it('tells on hover how far an anchor may slide and what to do when its hole fails', async () => {
    await start(firstWall);
    const hover = await editor.hover(uri, editor.place(uri, 'anchor  A-2', 'end'));
    const text = JSON.stringify(hover?.contents).replaceAll('\\', '');
    expect(text).toMatch(/may slide alone: .* left, .* right/);
    expect(text).toMatch(/if its hole fails: (next|stop|\d)/);
  });
});
