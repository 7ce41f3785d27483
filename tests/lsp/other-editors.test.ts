import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterAll, describe, expect, it } from 'vitest';
import { buildCli } from '../../scripts/build.ts';
import { type EditorClient, startRealServer } from './editor-client.ts';

const folder = mkdtempSync(join(tmpdir(), 'sillwright-'));
const built = join(folder, 'cli');
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const example = readFileSync(join(import.meta.dirname, '../../examples/first-wall.sill'), 'utf8');

describe('an editor that starts `sillwright serve --stdio`', () => {
  it('gets findings, a mend, names and a clean end, as docs/other-editors.md says', async () => {
    await buildCli(built);
    const editor: EditorClient = await startRealServer(folder, [join(built, 'sillwright.js'), 'serve', '--stdio']);
    const uri = pathToFileURL(join(folder, 'house.sill')).toString();
    editor.open(uri, example.replace(/^ *anchor +A-3 .*\n/m, ''));
    const { diagnostics } = await editor.publication(uri, (params) =>
      params.diagnostics.some(({ severity }) => severity === 1),
    );
    const error = diagnostics.find(({ severity }) => severity === 1);
    if (!error) throw new Error('there is no error');
    const [mend] = (await editor.codeActions(uri, error.range)).filter(({ edit }) => edit !== undefined);
    if (!mend?.edit) throw new Error('there is no mend');
    editor.apply(mend.edit);
    const after = await editor.publication(uri, (params) => params.version === editor.version(uri));
    expect(after.diagnostics.filter(({ severity }) => severity === 1)).toEqual([]);
    const names = await editor.connection.sendRequest('workspace/symbol', { query: 'A-1' });
    expect(names).toMatchObject([{ name: 'A-1' }]);
    await editor.stop();
  });

  it('is told in one publication what a burst of twenty edits leads to', async () => {
    const editor = await startRealServer(folder);
    const uri = pathToFileURL(join(folder, 'burst.sill')).toString();
    editor.open(uri, example);
    await editor.publication(uri);
    const before = editor.published.length;
    for (let count = 0; count < 20; count += 1) editor.change(uri, 'wall A', `wall A`);
    const last = editor.version(uri);
    await editor.publication(uri, (params) => params.version === last);
    const sent = editor.published.slice(before).filter((params) => params.uri === uri);
    expect(sent.at(-1)?.version).toBe(last);
    expect(sent.length).toBeLessThanOrEqual(2);
    await editor.stop();
  });

  it('is answered of the newest text by a request right behind a burst of edits, before that is published', async () => {
    const editor = await startRealServer(folder);
    const uri = pathToFileURL(join(folder, 'behind.sill')).toString();
    editor.open(uri, example);
    await editor.publication(uri);
    for (let count = 0; count < 20; count += 1)
      editor.change(uri, `wall ${'AB'[count % 2]}`, `wall ${'BA'[count % 2]}`);
    editor.change(uri, 'A-1 flat-plate', 'A-77 flat-plate');
    const names = await editor.connection.sendRequest('workspace/symbol', { query: 'A-77' });
    expect(names).toMatchObject([{ name: 'A-77' }]);
    await editor.publication(uri, (params) => params.version === editor.version(uri));
    const versions = editor.published.filter((params) => params.uri === uri).map((params) => params.version);
    expect(versions.toSorted((a = 0, b = 0) => a - b)).toEqual(versions);
    await editor.stop();
  });
});
