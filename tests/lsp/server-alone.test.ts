import { afterEach, describe, expect, it, vi } from 'vitest';
import { CancellationTokenSource, LSPErrorCodes, type PublishDiagnosticsParams } from 'vscode-languageserver-protocol';
import type { ServerParts } from '../../server/src/start.ts';
import { type EditorClient, fileUri, startServerHere } from './editor-client.ts';
import { createFakeAnalyser } from './fake-analyser.ts';

const main = fileUri('main.sill');
const other = fileUri('other.sill');
let client: EditorClient | undefined;
const analysed: string[] = [];
/** Texts that a step of their analysis was made of. */
const stepped: string[] = [];
const disk = new Map<string, string>();

async function start(wishes?: object, more: Partial<ServerParts> = {}): Promise<EditorClient> {
  analysed.length = 0;
  stepped.length = 0;
  disk.clear();
  const parts: ServerParts = {
    ...more,
    createAnalyser: (host) =>
      createFakeAnalyser(
        host,
        (_file, text) => void analysed.push(text),
        (_file, text) => {
          stepped.push(text);
          takeAMillisecond();
        },
      ),
    readFromDisk: (uri) => {
      const text = disk.get(uri);
      return text === undefined ? { missing: 'there is no such file' } : { text };
    },
  };
  client = await startServerHere(parts, undefined, wishes);
  return client;
}

function takeAMillisecond(): void {
  const end = performance.now() + 1;
  while (performance.now() < end);
}

async function steps(count: number): Promise<void> {
  while (stepped.length < count) await new Promise((resolve) => setImmediate(resolve));
}

afterEach(async () => {
  await client?.stop();
  client = undefined;
});

const ranges = (params: { diagnostics: readonly { range: unknown }[] }): unknown[] =>
  params.diagnostics.map((one) => one.range);
const at = (line: number, from: number, to: number): unknown => ({
  start: { line, character: from },
  end: { line, character: to },
});

describe('what is published', () => {
  it('carries the version of the text that it is about', async () => {
    const editor = await start();
    editor.open(main, 'all good\nbad', 7);
    const first = await editor.publication(main);
    expect(first.version).toBe(7);
    expect(ranges(first)).toEqual([at(1, 0, 3)]);
    const version = editor.change(main, 'bad', 'fine');
    expect((await editor.publication(main, (params) => params.version === version)).diagnostics).toEqual([]);
  });

  it('counts characters as UTF-16, as an editor does, behind an emoji', async () => {
    const editor = await start();
    editor.open(main, '🏠🏠 bad');
    expect(ranges(await editor.publication(main))).toEqual([at(0, 5, 8)]);
  });

  it('holds each wrong place with its rule, and for tools that ask for it with the thing that is meant', async () => {
    const editor = await start();
    editor.open(main, 'bad');
    const [diagnostic] = (await editor.publication(main)).diagnostics;
    expect(diagnostic).toMatchObject({ code: 'language/bad', source: 'sillwright', severity: 1 });
    expect(diagnostic).not.toHaveProperty('data');
    await editor.stop();

    const tool = await start({ findingData: true });
    tool.open(main, 'bad');
    expect((await tool.publication(main)).diagnostics).toMatchObject([{ data: { thing: 'wall:A' } }]);
  });

  it('is of the version that it names, also where an edit comes while a long list is being placed', async () => {
    const editor = await start();
    const files = [main, other];
    for (const file of files) editor.open(file, 'bad '.repeat(3_000), 1);
    for (let edit = 0; edit < 80; edit += 1) {
      for (let turn = 0; turn < edit % 16; turn += 1) await new Promise((resolve) => setImmediate(resolve));
      for (const file of files) editor.change(file, 'bad ', 'bad bad ');
    }
    for (const file of files) await editor.publication(file, ({ version }) => version === 81);
    expect(editor.published.length).toBeGreaterThan(1);
    for (const { version = 0, diagnostics } of editor.published)
      expect(diagnostics.at(-1)?.message).toContain(`${2_000 + version - 1} more findings`);
  });

  it('is the worst thousand of one file and a word about the rest, as editors show no more', async () => {
    const editor = await start();
    editor.open(main, `${'meh '.repeat(600)}${'bad '.repeat(700)}meh`);
    const { diagnostics } = await editor.publication(main);
    const codes = diagnostics.map(({ code }) => code);
    expect(codes.filter((code) => code === 'language/bad')).toHaveLength(700);
    expect(codes.slice(0, 300)).toEqual(Array(300).fill('language/meh'));
    expect(codes).toHaveLength(1_001);
    expect(diagnostics.at(-1)).toMatchObject({
      code: 'internal/more-findings',
      message: expect.stringContaining('301 more findings are not listed here'),
    });
  });
});

describe('related places', () => {
  const counted = ({ diagnostics }: PublishDiagnosticsParams, word: string, leads: boolean): number =>
    diagnostics.filter((one) => one.code === `language/${word}` && (one.relatedInformation !== undefined) === leads)
      .length;

  it('are those of all findings, and where there are very many those of errors', async () => {
    const editor = await start();
    editor.open(main, 'bad '.repeat(250) + 'meh '.repeat(250));
    const few = await editor.publication(main);
    expect([counted(few, 'bad', true), counted(few, 'meh', true)]).toEqual([250, 250]);
    const version = editor.change(main, 'bad ', 'bad bad ');
    const many = await editor.publication(main, (params) => params.version === version);
    expect([counted(many, 'bad', true), counted(many, 'meh', false)]).toEqual([251, 250]);
    const back = editor.change(main, 'bad bad ', 'bad ');
    const again = await editor.publication(main, (params) => params.version === back);
    expect([counted(again, 'bad', true), counted(again, 'meh', true)]).toEqual([250, 250]);
  });
});

describe('a long layout', () => {
  it('has the server keep little code, a house does not', async () => {
    const keepLittleCode = vi.fn();
    const editor = await start(undefined, { keepLittleCode });
    editor.open(main, 'wall\n'.repeat(2_000));
    await editor.publication(main);
    expect(keepLittleCode).not.toHaveBeenCalled();
    editor.open(other, 'wall\n'.repeat(5_000));
    await editor.publication(other);
    expect(keepLittleCode).toHaveBeenCalledOnce();
  });
});

describe('a burst of twenty edits', () => {
  it('is answered for the newest text, never out of order, and with far fewer analyses than edits', async () => {
    const editor = await start();
    editor.open(main, 'start');
    await editor.publication(main);
    analysed.length = 0;
    let version = 1;
    for (let edit = 1; edit <= 20; edit += 1)
      version = editor.change(main, edit === 1 ? 'start' : `bad ${edit - 1}.`, `bad ${edit}.`);
    const last = await editor.publication(main, (params) => params.version === version);
    expect(last.diagnostics).toHaveLength(1);
    const versions = editor.published.filter((params) => params.uri === main).map((params) => params.version ?? -1);
    expect(versions).toEqual([...versions].sort((a, b) => a - b));
    expect(versions.at(-1)).toBe(version);
    expect(analysed.at(-1)).toBe('bad 20.');
    expect(analysed.length).toBeLessThan(10);
  });

  it('that arrives at once is published once', async () => {
    const editor = await start();
    editor.open(main, 'bad');
    await editor.publication(main);
    const changes = Array.from({ length: 20 }, (_, edit) => ({
      textDocument: { uri: main, version: edit + 2 },
      contentChanges: [{ range: { start: { line: 0, character: 0 }, end: { line: 0, character: 0 } }, text: 'bad ' }],
    }));
    editor.sendAtOnce(changes.map((params) => ({ method: 'textDocument/didChange', params })));
    const last = await editor.publication(main, (params) => params.version === 21);
    expect(last.diagnostics).toHaveLength(21);
    expect(editor.published.filter((params) => params.uri === main).map((params) => params.version)).toEqual([1, 21]);
  });

  it('answers a request in the middle of it from the text as it then is', async () => {
    const editor = await start();
    editor.open(main, 'start');
    editor.change(main, 'start', 'bad');
    // Nothing is known of this text yet: the request may not be answered from the text before.
    await editor.codeActions(main, { start: { line: 0, character: 0 }, end: { line: 0, character: 0 } });
    expect(analysed).toContain('bad');
  });
});

describe('a text that takes long to read', () => {
  const long = 'long '.repeat(120);
  const start0 = { line: 0, character: 0 };
  const hover = { textDocument: { uri: main }, position: start0 };

  it('does not keep a request from being taken back', async () => {
    const editor = await start();
    editor.open(main, long);
    const source = new CancellationTokenSource();
    const answer = editor.connection.sendRequest('textDocument/hover', hover, source.token);
    await steps(20);
    source.cancel();
    await expect(answer).rejects.toMatchObject({ code: LSPErrorCodes.RequestCancelled });
    expect(analysed).toEqual([]);
    await editor.publication(main);
    expect(analysed).toEqual([long]);
  });

  it('does not hold a request that is taken back in the same breath', async () => {
    const editor = await start();
    editor.open(main, long);
    await steps(20);
    const source = new CancellationTokenSource();
    const answer = editor.connection.sendRequest('textDocument/hover', hover, source.token);
    source.cancel();
    await expect(answer).rejects.toMatchObject({ code: LSPErrorCodes.RequestCancelled });
    expect(analysed).toEqual([]);
    await editor.publication(main);
  });

  it('is read once for what is asked meanwhile, and all of it is answered', async () => {
    const editor = await start();
    editor.open(main, long);
    await steps(10);
    const [symbols, hovered] = await Promise.all([editor.symbols(main), editor.hover(main, start0)]);
    expect([symbols, hovered]).toEqual([[], null]);
    expect(analysed).toEqual([long]);
    expect(stepped).toHaveLength(120);
  });

  it('lets what needs no reading through at once', async () => {
    const editor = await start();
    editor.open(main, long);
    await editor.connection.sendRequest('textDocument/foldingRange', { textDocument: { uri: main } });
    expect(analysed).toEqual([]);
    await editor.publication(main);
  });

  it('is left for the text that an edit makes of it, and nothing is said of the old one', async () => {
    const editor = await start();
    editor.open(main, `${long}good`);
    await steps(10);
    const answer = editor.connection.sendRequest('textDocument/hover', hover);
    await steps(30);
    const version = editor.change(main, 'good', 'bad');
    // The place that was asked about may have moved.
    await expect(answer).rejects.toMatchObject({ code: LSPErrorCodes.ContentModified });
    const said = await editor.publication(main);
    expect(said).toMatchObject({ version, diagnostics: [{ code: 'language/bad' }] });
    expect(analysed).toEqual([`${long}bad`]);
    expect(editor.published.filter((params) => params.uri === main)).toHaveLength(1);
  });

  it('holds up no other file for good, and is forgotten when it is closed', async () => {
    const editor = await start();
    editor.open(main, long);
    await steps(10);
    const answer = editor.hover(main, start0);
    editor.open(other, 'bad');
    editor.close(main);
    expect(await answer).toBeNull();
    expect((await editor.publication(other)).diagnostics).toHaveLength(1);
    expect(analysed).toEqual(['bad']);
  });
});

describe('closing a file', () => {
  it('takes back what was said of it', async () => {
    const editor = await start();
    editor.open(main, 'bad');
    await editor.publication(main, (params) => params.diagnostics.length === 1);
    editor.close(main);
    const cleared = await editor.publication(main, (params) => params.diagnostics.length === 0);
    expect(cleared.version).toBeUndefined();
  });
});

describe('a file that is used', () => {
  it('is read from the disk while it is not open, and its findings stand on its own page', async () => {
    const editor = await start();
    disk.set(other, 'one\ntwo bad');
    editor.open(main, 'use other.sill');
    expect(ranges(await editor.publication(other))).toEqual([at(1, 4, 7)]);
    expect((await editor.publication(main)).diagnostics).toEqual([]);
  });

  it('counts as the editor has it once it is open, saved or not', async () => {
    const editor = await start();
    disk.set(other, 'bad');
    editor.open(main, 'use other.sill');
    await editor.publication(other, (params) => params.diagnostics.length === 1);
    editor.open(other, 'good now');
    const now = await editor.publication(other, (params) => params.version === 1);
    expect(now.diagnostics).toEqual([]);
  });

  it('wakes its users when it changes, and a fault that two houses share is shown once', async () => {
    const editor = await start();
    const second = fileUri('second.sill');
    editor.open(other, 'good');
    editor.open(main, 'use other.sill');
    editor.open(second, 'use other.sill');
    await editor.publication(second);
    const version = editor.change(other, 'good', 'bad');
    const said = await editor.publication(other, (params) => params.version === version);
    expect(said.diagnostics).toHaveLength(1);
    // Closing one of its users leaves what the file itself and the other say.
    editor.close(main);
    await editor.publication(main, (params) => params.version === undefined);
    const last = editor.published.filter((params) => params.uri === other).at(-1);
    expect(last?.diagnostics).toHaveLength(1);
  });

  it('that was missing is found when it comes', async () => {
    const editor = await start();
    editor.open(main, 'use other.sill');
    await editor.publication(main);
    disk.set(other, 'bad');
    void editor.connection.sendNotification('workspace/didChangeWatchedFiles', { changes: [{ uri: other, type: 1 }] });
    expect((await editor.publication(other)).diagnostics).toHaveLength(1);
  });

  it('outside the workspace is refused', async () => {
    const editor = await start();
    const outside = 'file:///etc/secret.sill';
    disk.set(outside, 'bad');
    editor.open(main, 'use ../etc/secret.sill\nuse /etc/secret.sill\nuse file:///etc/secret.sill');
    await editor.publication(main);
    expect(editor.published.map((params) => params.uri)).not.toContain(outside);
  });
});

describe('a defect of ours', () => {
  it('is said in the file and in the log, and the next text is checked as ever', async () => {
    const editor = await start();
    editor.open(main, 'explode');
    const [said] = (await editor.publication(main)).diagnostics;
    expect(said).toMatchObject({ code: 'internal/not-checked', severity: 1 });
    expect(editor.logged.join('\n')).toContain('a defect of ours');
    const version = editor.change(main, 'explode', 'bad');
    const after = await editor.publication(main, (params) => params.version === version);
    expect(after.diagnostics.map((one) => one.code)).toEqual(['language/bad']);
  });

  it('in one file leaves the others alone', async () => {
    const editor = await start();
    editor.open(main, 'explode');
    editor.open(other, 'bad');
    expect((await editor.publication(other)).diagnostics.map((one) => one.code)).toEqual(['language/bad']);
    expect(await editor.hover(main, { line: 0, character: 0 })).toBeNull();
    expect(await editor.symbols(main)).toEqual([]);
  });
});

describe('what a key left behind', () => {
  it('is freed when the hand pauses, once for keys that come close together', async () => {
    let freed = 0;
    let pause: (() => void) | undefined;
    const freeYoung = (): void => {
      freed += 1;
      pause?.();
    };
    const paused = (): Promise<void> => new Promise((resolve) => (pause = resolve));
    const editor = await start(undefined, { freeYoung });
    const first = paused();
    editor.open(main, 'bad');
    await first;
    const second = paused();
    editor.change(main, 'bad', 'bad bad');
    editor.change(main, 'bad bad', 'bad');
    editor.change(main, 'bad', 'fine');
    await second;
    expect(freed).toBe(2);
  });
});
