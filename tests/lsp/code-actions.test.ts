import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { soundRow, wallText } from '../rules/support.ts';
import { type EditorClient, startRealServer } from './editor-client.ts';

let folder: string;
let editor: EditorClient;
let files = 0;

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'sillwright-'));
  editor = await startRealServer(folder);
});
afterAll(async () => {
  await editor.stop();
  rmSync(folder, { recursive: true, force: true });
});

async function open(text: string): Promise<string> {
  files += 1;
  const uri = pathToFileURL(join(folder, `house-${files}.sill`)).toString();
  editor.open(uri, text);
  await editor.publication(uri);
  return uri;
}
const onLine = (uri: string, words: string) => {
  const start = editor.place(uri, words, 'end');
  return { start, end: start };
};

/** Two old anchors that are counted for more than they hold. */
const overcounted = wallText({
  anchors: soundRow,
  found: [
    `anchor X1 1/2" at 6'-5" heavy-rust nut none credit full`,
    `anchor X2 1/2" at 10'-0" loose credit half  // under the stair`,
  ],
});

describe('mending all of a kind', () => {
  it('takes back every credit that counts for nothing, in one edit, comments kept', async () => {
    const uri = await open(overcounted);
    const actions = await editor.codeActions(uri, onLine(uri, 'anchor X1'));
    const all = actions.find(({ title }) => title === 'Mend all 2 of anchorage/old-anchor-overcounted');
    expect(actions.map(({ title }) => title)).toContain('Give X1 no credit');
    if (!all?.edit) throw new Error('there must be an edit');
    editor.apply(all.edit);
    expect(editor.text(uri)).toBe(
      overcounted.replace('credit full', 'credit none').replace('credit half', 'credit none'),
    );
  });

  it('is there for saving, for one rule by name, and never without being asked', async () => {
    const uri = await open(overcounted);
    const at = onLine(uri, 'layout');
    const kindsOf = async (only?: readonly string[]) =>
      (await editor.codeActions(uri, at, [], only))
        .map(({ kind }) => kind)
        .filter((kind) => kind?.startsWith('source'));
    expect(await kindsOf(['source.fixAll'])).toEqual(['source.fixAll']);
    expect(await kindsOf(['source.fixAll.sillwright'])).toEqual(['source.fixAll.sillwright']);
    const one = 'source.fixAll.sillwright.anchorage/old-anchor-overcounted';
    expect(await kindsOf([one])).toEqual([one]);
    expect(await kindsOf(['source.fixAll.sillwright.anchorage/gap-too-wide'])).toEqual([]);
    expect(await kindsOf()).toEqual([]);
  });

  it('makes nothing that wants an eye, or that guesses at what was measured', async () => {
    const uri = await open(wallText({ anchors: soundRow.slice(1), house: ['slope assume 5 %'] }));
    expect(await editor.codeActions(uri, onLine(uri, 'layout'), [], ['source.fixAll'])).toEqual([]);
  });
});

describe('changes that nobody needs to be wrong for', () => {
  it('on the heading of a wall its lists can be read from the other end', async () => {
    const uri = await open(
      wallText({ anchors: [`bolt-half 1'-0"`, `bolt-half 4'-0"`], found: [`vent V1 2'-0" to 3'-4"`] }),
    );
    const actions = await editor.codeActions(uri, onLine(uri, 'wall F'), [], ['refactor']);
    const flip = actions.find(({ title }) => title.startsWith('Read the openings'));
    if (!flip?.edit) throw new Error('there must be an edit');
    editor.apply(flip.edit);
    expect(editor.text(uri)).toContain(`vent V1 16'-8" to 18'-0"`);
    const again = await editor.codeActions(uri, onLine(uri, 'wall F'), [], ['refactor']);
    const work = again.find(({ title }) => title.startsWith('Read the new work'));
    if (!work?.edit) throw new Error('there must be an edit');
    editor.apply(work.edit);
    expect(editor.text(uri)).toContain(`anchor F-1 bolt-half at 19'-0"`);
    expect(editor.text(uri)).toContain(`anchor F-2 bolt-half at 16'-0"`);
  });

  it('a board can be cut, and its joint anchored', async () => {
    const uri = await open(
      wallText({ sills: [`F1 to 10'-0"`, 'F2 to end'], anchors: [`1'-0"`, `5'-0"`, `15'-0"`, `19'-0"`] }),
    );
    const actions = await editor.codeActions(uri, onLine(uri, 'sill F1'), [], ['refactor']);
    const cut = actions.find(({ title }) => title.startsWith('End sill F1 at 5'));
    const joint = actions.find(({ title }) => title.startsWith('Add the end anchors at the joint of F1 and F2'));
    if (!cut?.edit || !joint?.edit) throw new Error(actions.map(({ title }) => title).join());
    editor.apply(joint.edit);
    expect(editor.text(uri).match(/^ {2}anchor /gm)).toHaveLength(6);
  });
});
