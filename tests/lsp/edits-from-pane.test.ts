import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, describe, expect, it } from 'vitest';
import type { ApplyWorkspaceEditParams, ApplyWorkspaceEditResult } from 'vscode-languageserver-protocol';
import { createAnalyser } from '../../language/analysis.ts';
import { inches, millimetres, nanometres, sixteenth } from '../../language/domain/units/length.ts';
import type { ConnectorMoves, EditAnswer, MovesAnswer } from '../../language/protocol/moves.ts';
import type { FixesAnswer, PreviewUpdate } from '../../language/protocol/preview.ts';
import {
  fixesRequest,
  mendRequest,
  moveRequest,
  movesRequest,
  openPreview,
  previewUpdate,
} from '../../language/protocol/requests.ts';
import { type EditorClient, fileUri, startServerHere } from './editor-client.ts';

const example = (name: string): string => readFileSync(join(import.meta.dirname, '../../examples', name), 'utf8');
const firstWall = example('first-wall.sill');
const uri = fileUri('house.sill');

let editor: EditorClient;
/** Every change that the server asked the editor to make. */
let applied: ApplyWorkspaceEditParams[] = [];
afterEach(async () => {
  await editor.stop();
});

async function start(text: string, files: Readonly<Record<string, string>> = {}): Promise<void> {
  editor = await startServerHere({
    readFromDisk: (file) => {
      const content = Object.entries(files).find(([name]) => file.endsWith(`/${name}`))?.[1];
      return content === undefined ? { missing: 'nothing on disk' } : { text: content };
    },
    createAnalyser,
  });
  applied = [];
  editor.connection.onRequest('workspace/applyEdit', (asked: ApplyWorkspaceEditParams): ApplyWorkspaceEditResult => {
    applied.push(asked);
    try {
      editor.apply(asked.edit);
      return { applied: true };
    } catch {
      return { applied: false };
    }
  });
  editor.open(uri, text);
}

const moves = (thing: string): Promise<MovesAnswer> => editor.connection.sendRequest(movesRequest, { uri, thing });
async function heldOf(thing: string): Promise<{ readonly revision: number; readonly moves: ConnectorMoves }> {
  const answer = await moves(thing);
  if (answer.kind !== 'moves') throw new Error(answer.reason);
  return answer;
}
const move = (thing: string, station: number, revision: number): Promise<EditAnswer> =>
  editor.connection.sendRequest(moveRequest, { uri, thing, station, revision });
async function dragged(thing: string, station: number): Promise<EditAnswer> {
  const { revision } = await heldOf(thing);
  return move(thing, station, revision);
}
const lineOf = (mark: string): string =>
  editor
    .text(uri)
    .split('\n')
    .find((line) => new RegExp(`anchor +${mark} `).test(line)) ?? '';
const withLine = (mark: string, line: string): string =>
  firstWall.replace(new RegExp(`^ *anchor +${mark} .*$`, 'm'), line);

describe('a connector that is taken hold of in the pane', () => {
  it('is answered at once with its windows, its neighbours and its best place', async () => {
    await start(firstWall);
    const { moves: held } = await heldOf('A/anchor:A-2');
    expect(held).toMatchObject({ mark: 'A-2', station: inches(64), step: sixteenth, units: 'feet-inches' });
    const [board] = held.boards;
    expect(board?.others.map(({ name }) => name)).toEqual(['A-1', 'A-3', 'A-4']);
    expect(board?.others[0]).toMatchObject({ station: inches(11), most: inches(72) });
    expect(board?.clear).toEqual([
      { from: inches(10), to: inches(67) },
      { from: inches(93), to: inches(182) },
    ]);
    expect(board?.kept).toEqual([{ from: inches(56), to: inches(67) }]);
    expect(board?.best).toEqual([inches(61.5)]);
    expect(board?.blocked.flatMap(({ words }) => words)).toContain('vent V1 6\'-0" to 7\'-4"');
  });

  it('is written back as one change of its station and of nothing else', async () => {
    await start(withLine('A-2', '  anchor  A-2 flat-plate  at 5\'-4" note "by the vent"  // measured twice'));
    const before = editor.text(uri);
    const answer = await dragged('A/anchor:A-2', inches(66.9375));
    expect(answer).toEqual({ kind: 'done', words: 'A-2 moved to 5\'-6 15/16".' });
    expect(editor.text(uri)).toBe(before.replace('at 5\'-4" note', 'at 5\'-6 15/16" note'));
    // One change of one text: one undo takes it back.
    expect(applied).toHaveLength(1);
    expect(applied[0]?.label).toBe('Move A-2 to 5\'-6 15/16"');
    expect(applied[0]?.edit.documentChanges).toHaveLength(1);
    expect(applied[0]?.edit.documentChanges?.[0]).toMatchObject({
      textDocument: { uri, version: 1 },
      edits: [{ newText: expect.stringContaining('6 15/16') }],
    });
  });

  it('keeps the words that its station is written in', async () => {
    for (const [written, station, expected] of [
      [`10'-8" from right`, inches(66), `10'-6" from right`],
      [`8" left of V1`, inches(66), `6" left of V1`],
      [`64"`, inches(66.5), `66-1/2"`],
      ['1626 mm', millimetres(1700), '1700 mm'],
      ['1.626 m', millimetres(1700), '1.7 m'],
    ] as const) {
      await start(withLine('A-2', `  anchor  A-2 flat-plate  at ${written}  // here`));
      expect((await dragged('A/anchor:A-2', station)).kind).toBe('done');
      expect(lineOf('A-2')).toMatch(new RegExp(`at ${expected.replace(/[.]/g, '\\.')} +// here$`));
      expect((await heldOf('A/anchor:A-2')).moves.station).toBe(station);
      await editor.stop();
    }
    // Past the vent its words cannot be kept.
    await start(withLine('A-2', '  anchor  A-2 flat-plate  at 8" left of V1'));
    expect((await dragged('A/anchor:A-2', inches(96))).kind).toBe('done');
    expect(lineOf('A-2')).toMatch(/at 8'-0"$/);
  });

  it('goes by millimetres in a metric layout', async () => {
    await start(
      firstWall
        .replace(/units +feet-inches/, 'units metric')
        .replace(`A-2 flat-plate  at 5'-4"`, 'A-2 flat-plate  at 1626 mm'),
    );
    const { moves: held } = await heldOf('A/anchor:A-2');
    expect(held).toMatchObject({ units: 'metric', stationUnits: 'metric', step: millimetres(1) });
    expect(await dragged('A/anchor:A-2', millimetres(1600))).toEqual({ kind: 'done', words: 'A-2 moved to 1600 mm.' });
    expect(lineOf('A-2')).toMatch(/at 1600 mm$/);
  });

  it('stays a proposal, and that is said', async () => {
    await start(withLine('A-2', '  anchor  A-2 flat-plate  at 5\'-4" proposed'));
    expect(await dragged('A/anchor:A-2', inches(66))).toEqual({
      kind: 'done',
      words: 'A-2 moved to 5\'-6". It is still a proposal: laying out may move it.',
    });
    expect(lineOf('A-2')).toMatch(/at 5'-6" proposed$/);
  });

  it('is said to stand near gas, and what comes before the drill', async () => {
    await start(firstWall.replace('  vent V1 6\'-0" to 7\'-4"', '  gas-pipe G1 6\'-0" to 6\'-1" off 0"'));
    const { moves: held } = await heldOf('A/anchor:A-2');
    expect(held.boards[0]?.services.length).toBeGreaterThan(0);
    const answer = await dragged('A/anchor:A-2', inches(58));
    expect(answer).toMatchObject({
      kind: 'done',
      words: expect.stringMatching(/Near gas or power: locate and expose both sides first\.$/),
    });
    expect(await dragged('A/anchor:A-2', inches(20))).toEqual({ kind: 'done', words: 'A-2 moved to 1\'-8".' });
  });

  it('is not moved by what was asked for on another text', async () => {
    await start(firstWall);
    const { revision } = await heldOf('A/anchor:A-2');
    editor.change(uri, 'anchor  A-3 flat-plate  at 10\'-8"', 'anchor  A-3 flat-plate  at 10\'-9"');
    const now = editor.text(uri);
    expect(await move('A/anchor:A-2', inches(66), revision)).toEqual({
      kind: 'refused',
      reason: 'the text was changed in the meantime; look again',
    });
    expect(editor.text(uri)).toBe(now);
    expect(applied).toEqual([]);
  });

  it('is not moved where the editor has another text by the time it is asked', async () => {
    await start(firstWall);
    const { revision } = await heldOf('A/anchor:A-2');
    editor.connection.onRequest('workspace/applyEdit', () => ({ applied: false }));
    expect(await move('A/anchor:A-2', inches(66), revision)).toMatchObject({ kind: 'refused' });
    expect(editor.text(uri)).toBe(firstWall);
  });

  it('stays where it is when it is issued, installed, left out, found or one of a line, and says why', async () => {
    await start(example('maple-designed.sill'), { 'maple-surveyed.sill': example('maple-surveyed.sill') });
    const reasonFor = async (thing: string): Promise<string> => {
      const answer = await moves(thing);
      if (answer.kind === 'moves') throw new Error(`${thing} may be moved`);
      const refused = await move(thing, inches(66), answer.revision);
      expect(refused).toEqual({ kind: 'refused', reason: answer.reason });
      return answer.reason;
    };
    expect(await reasonFor('F/anchor:F-11')).toMatch(/is on issue 2, which has left the office/);
    expect(await reasonFor('F/anchor:F-5')).toMatch(/is installed/);
    expect(await reasonFor('F/anchor:F-4')).toMatch(/was left out/);
    expect(await reasonFor('A/hold-down:A-H1')).toMatch(/goes with its post/);
    expect(await reasonFor('F/angles:F-A1')).toMatch(/one line of framing angles/);
    expect(await reasonFor('F/sill:F1')).toMatch(/only connectors of the design/);
    expect(applied).toEqual([]);
    // Where an issued one could stand is known all the same.
    expect((await moves('F/anchor:F-11')).moves?.boards.length).toBe(3);
  });

  it('is not put beyond the wall, nor where it stands already', async () => {
    await start(firstWall);
    expect(await dragged('A/anchor:A-2', inches(400))).toMatchObject({
      kind: 'refused',
      reason: expect.stringMatching(/beyond/),
    });
    expect(await dragged('A/anchor:A-2', nanometres(-1))).toMatchObject({ kind: 'refused' });
    expect(await dragged('A/anchor:A-2', inches(64))).toMatchObject({
      kind: 'refused',
      reason: expect.stringMatching(/already/),
    });
    expect(applied).toEqual([]);
  });
});

describe('a finding that is mended from the pane', () => {
  const lacking = firstWall.replace(/^ *anchor +A-3 .*\n/m, '');

  async function shown(): Promise<PreviewUpdate> {
    const update = new Promise<PreviewUpdate>((resolve) => editor.connection.onNotification(previewUpdate, resolve));
    void editor.connection.sendNotification(openPreview, { uri, cursor: { uri, ...editor.place(uri, 'anchor  A-2') } });
    return update;
  }
  const fixesOf = (revision: number, findings: readonly number[]): Promise<FixesAnswer | null> =>
    editor.connection.sendRequest(fixesRequest, { uri, revision, findings });
  const mend = (revision: number, finding: number, fix: number): Promise<EditAnswer> =>
    editor.connection.sendRequest(mendRequest, { uri, revision, finding, fix });

  it('has the fixes of the lightbulb, by their titles and with their trust', async () => {
    await start(lacking);
    const { parts } = await shown();
    const lines = parts.findings?.lines ?? [];
    const revision = parts.findings?.revision ?? 0;
    expect(lines.map(({ number, rule }) => `${number} ${rule}`)).toEqual(['1 anchorage/gap-too-wide']);
    const [line] = lines;
    const answer = await fixesOf(revision, [line?.finding ?? -1]);
    const [found] = answer?.fixes ?? [];
    const at = editor.place(uri, 'anchor  A-2');
    const offered = await editor.codeActions(uri, { start: at, end: at });
    const titles = offered.filter(({ kind }) => kind === 'quickfix').map(({ title }) => title);
    expect(found?.fixes.map(({ title }) => title)).toEqual(titles);
    expect(found?.fixes.length).toBeGreaterThan(0);
    expect(found?.fixes.map(({ trust }) => trust)).toEqual(found?.fixes.map(() => 'review'));
  });

  it('is mended by one change, and not twice', async () => {
    await start(lacking);
    const { parts } = await shown();
    const revision = parts.findings?.revision ?? 0;
    const finding = parts.findings?.lines[0]?.finding ?? -1;
    const [found] = (await fixesOf(revision, [finding]))?.fixes ?? [];
    const title = found?.fixes[0]?.title ?? '';
    expect(await mend(revision, finding, 0)).toEqual({ kind: 'done', words: `Done: ${title}` });
    expect(applied.map(({ label, edit }) => [label, edit.documentChanges?.length])).toEqual([[title, 1]]);
    expect(editor.text(uri)).toMatch(/anchor +A-5 flat-plate +at 10'-2 1\/2" +proposed/);
    // The text is another one now.
    expect(await mend(revision, finding, 0)).toMatchObject({
      kind: 'refused',
      reason: expect.stringMatching(/changed/),
    });
    expect(await fixesOf(revision, [finding])).toBeNull();
    expect(applied).toHaveLength(1);
  });

  it('is not mended by a fix that it has not', async () => {
    await start(lacking);
    const { parts } = await shown();
    const revision = parts.findings?.revision ?? 0;
    for (const [finding, fix] of [
      [parts.findings?.lines[0]?.finding ?? -1, 99],
      [9999, 0],
      [-1, 0],
    ] as const) {
      expect(await mend(revision, finding, fix)).toEqual({ kind: 'refused', reason: 'this finding has no such fix' });
    }
    expect(await fixesOf(revision, [9999])).toEqual({
      revision,
      fixes: [{ finding: 9999, words: '', rule: '', line: 0, fixes: [] }],
    });
    expect(applied).toEqual([]);
  });
});
