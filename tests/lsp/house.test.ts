import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { PublishDiagnosticsParams } from 'vscode-languageserver-protocol';
import { svgOf } from '../../language/protocol/picture.ts';
import {
  applyUpdate,
  type DrawingPart,
  type PreviewState,
  type PreviewUpdate,
} from '../../language/protocol/preview.ts';
import {
  cursorMoved,
  openPreview,
  type Place,
  placeOfThing,
  previewUpdate,
  type ScheduleAnswer,
  scheduleRequest,
} from '../../language/protocol/requests.ts';
import { type EditorClient, startRealServer } from './editor-client.ts';

const whole = readFileSync(join(import.meta.dirname, '../../examples/first-wall.sill'), 'utf8');
/** Without the anchor in the middle of wall A. */
const lacking = whole.replace(/^ *anchor +A-3 .*\n/m, '');

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

const svgIn = ({ picture }: DrawingPart): string => (picture ? svgOf(picture) : '');

/** Opens a text as a file of its own. */
function open(text: string): string {
  files += 1;
  const uri = pathToFileURL(join(folder, `house-${files}.sill`)).toString();
  editor.open(uri, text);
  return uri;
}
const errorsOf = (params: PublishDiagnosticsParams): PublishDiagnosticsParams['diagnostics'] =>
  params.diagnostics.filter(({ severity }) => severity === 1);

describe('a house in the editor', () => {
  it('that is whole has no error', async () => {
    const said = await editor.publication(open(whole));
    expect(said.version).toBe(1);
    expect(errorsOf(said)).toEqual([]);
  });

  it('that lacks an anchor gets the error, its mend, and no error after it', async () => {
    const uri = open(lacking);
    const said = await editor.publication(uri);
    const [error] = errorsOf(said);
    expect(error?.source).toBe('sillwright');
    expect(error?.code).toMatch(/^anchorage\//);
    if (!error) throw new Error('there must be an error');

    const actions = await editor.codeActions(uri, error.range, [error]);
    const mend = actions.find(({ title }) => title.startsWith('Add A-5'));
    expect(mend?.kind).toBe('quickfix');
    expect(mend?.diagnostics?.[0]?.code).toBe(error.code);
    if (!mend?.edit) throw new Error('there must be a mend with an edit');
    const before = editor.text(uri);
    editor.apply(mend.edit);
    const after = await editor.publication(uri, (params) => params.version === 2);
    expect(errorsOf(after)).toEqual([]);
    for (const line of before.split('\n')) expect(editor.text(uri)).toContain(line);
    expect(editor.text(uri).match(/^ *anchor /gm)).toHaveLength((before.match(/^ *anchor /gm) ?? []).length + 1);
  });

  it('is mended on the text as it is, not as it was when the finding was sent', async () => {
    const uri = open(lacking);
    const [error] = errorsOf(await editor.publication(uri));
    if (!error) throw new Error('there must be an error');
    editor.change(uri, 'layout ', '// a new first line\nlayout ');
    const range = {
      start: { ...error.range.start, line: error.range.start.line + 1 },
      end: { ...error.range.end, line: error.range.end.line + 1 },
    };
    const [mend] = await editor.codeActions(uri, range, [error]);
    if (!mend?.edit) throw new Error('there must be a mend with an edit');
    // It refuses an edit for another version than the one in the editor.
    editor.apply(mend.edit);
    expect(errorsOf(await editor.publication(uri, (params) => params.version === 3))).toEqual([]);
  });

  it('offers no mend where nothing is wrong', async () => {
    const uri = open(whole);
    const all = { start: { line: 0, character: 0 }, end: editor.place(uri, 'work on D', 'end') };
    const titles = (await editor.codeActions(uri, all)).filter(({ diagnostics }) => diagnostics?.[0]?.severity === 1);
    expect(titles).toEqual([]);
  });

  it('tells on hover what an anchor is and what a finding rests on', async () => {
    const uri = open(lacking);
    const [error] = errorsOf(await editor.publication(uri));
    if (!error) throw new Error('there must be an error');
    const finding = await editor.hover(uri, error.range.start);
    expect(JSON.stringify(finding?.contents)).toContain(String(error.code));
    expect(JSON.stringify(finding?.contents)).toContain('Source:');
    const anchor = await editor.hover(uri, editor.place(uri, 'anchor  A-2', 'end'));
    expect(JSON.stringify(anchor?.contents)).toMatch(/A\\\\-2.*1626 mm/s);
    expect(await editor.hover(uri, { line: 0, character: 3 })).toBeNull();
  });

  it('is outlined wall by wall, with ranges that hold what is below them', async () => {
    const uri = open(whole);
    const symbols = await editor.symbols(uri);
    expect(symbols.map(({ name }) => name)).toEqual(
      expect.arrayContaining(['First house', 'wall A', 'wall D', 'work on A', 'work on D']),
    );
    const work = symbols.find(({ name }) => name === 'work on D');
    expect(work?.children?.map(({ name }) => name)).toEqual(
      ['D-1', 'D-2', 'D-3', 'D-4', 'D-5', 'D-6'].map((mark) => `anchor ${mark}`),
    );
    for (const symbol of symbols) {
      for (const child of symbol.children ?? []) {
        expect(child.range.start.line).toBeGreaterThanOrEqual(symbol.range.start.line);
        expect(child.range.end.line).toBeLessThanOrEqual(symbol.range.end.line);
      }
    }
  });

  it('is formatted line by line, and a formatted one not at all', async () => {
    const untidy = whole.replace('  anchor  A-2 flat-plate', 'Anchor A-2     flat-plate');
    const uri = open(untidy);
    const edits = await editor.format(uri);
    const line = untidy.split('\n').findIndex((text) => text.startsWith('Anchor'));
    expect(edits.map(({ range }) => range.start.line)).toContain(line);
    editor.apply({ documentChanges: [{ textDocument: { uri, version: 1 }, edits: [...edits] }] });
    expect(editor.text(uri)).toContain('  anchor  A-2 ');
    expect(editor.text(uri).match(/\/\/.*/g)?.length).toBe(whole.match(/\/\/.*/g)?.length);
    expect(await editor.format(uri)).toEqual([]);
  });

  it('counts characters as UTF-16 behind an emoji, in findings and in edits', async () => {
    const uri = open(lacking.replace('wall A "north"', 'wall A "north 🏠🏠"'));
    const said = await editor.publication(uri);
    const heading = editor
      .text(uri)
      .split('\n')
      .findIndex((line) => line.startsWith('wall A'));
    for (const { range } of said.diagnostics) {
      const line = editor.text(uri).split('\n')[range.end.line] ?? '';
      expect(range.end.character).toBeLessThanOrEqual(line.length);
    }
    const symbols = await editor.symbols(uri);
    const wall = symbols.find(({ name }) => name === 'wall A');
    expect(wall?.selectionRange.start).toEqual({ line: heading, character: 0 });
    const [error] = errorsOf(said);
    const [mend] = error ? await editor.codeActions(uri, error.range) : [];
    if (!mend?.edit) throw new Error('there must be a mend with an edit');
    editor.apply(mend.edit);
    expect(editor.text(uri)).toContain('"north 🏠🏠"');
    expect(errorsOf(await editor.publication(uri, (params) => params.version === 2))).toEqual([]);
  });

  it('with lines that cannot be read gets findings at them and keeps the rest', async () => {
    const uri = open(whole.replace('anchor  A-2 flat-plate  at 5\'-4"', "anchor  A-2 flat-plate  at 5'-"));
    const said = await editor.publication(uri);
    const line = editor
      .text(uri)
      .split('\n')
      .findIndex((text) => text.includes('A-2'));
    expect(
      said.diagnostics.some(({ code, range }) => String(code).startsWith('language/') && range.start.line === line),
    ).toBe(true);
    expect((await editor.symbols(uri)).map(({ name }) => name)).toContain('wall D');
  });
});

describe('the schedule', () => {
  it('is that of the text in the editor, in each of its forms', async () => {
    const uri = open(whole.replace('A-2 flat-plate', 'A-22 flat-plate'));
    for (const format of ['text', 'csv', 'json'] as const) {
      const answer = await editor.connection.sendRequest<ScheduleAnswer>(scheduleRequest, { uri, format });
      expect(answer.kind).toBe('schedule');
      expect(answer.kind === 'schedule' && answer.text).toContain('A-22');
      expect(answer.kind === 'schedule' && answer.text).toContain('it does not show that the house is safe');
    }
  });

  it('of a file that is not open is read from the disk', async () => {
    const path = join(folder, 'on-disk.sill');
    writeFileSync(path, whole);
    const uri = pathToFileURL(path).toString();
    const answer = await editor.connection.sendRequest<ScheduleAnswer>(scheduleRequest, { uri, format: 'json' });
    expect(answer.kind === 'schedule' && answer.text).toContain('D-6');
  });

  it('in a form that there is not is refused with a reason', async () => {
    const answer = await editor.connection.sendRequest<ScheduleAnswer>(scheduleRequest, {
      uri: open(whole),
      format: 'pdf',
    });
    expect(answer.kind).toBe('refused');
  });
});

describe('the feed of the pane', () => {
  const updates: PreviewUpdate[] = [];
  const waiting = new Set<() => void>();
  beforeAll(() => {
    editor.connection.onNotification(previewUpdate, (update: PreviewUpdate) => {
      updates.push(update);
      for (const look of waiting) look();
    });
  });

  /** The state of the pane once it fits: made of the updates so far and of those to come. */
  function stateOf(uri: string, fits: (state: PreviewState) => boolean): Promise<PreviewState> {
    return new Promise((resolve) => {
      const look = (): void => {
        let state: PreviewState | undefined;
        for (const update of updates.filter((each) => each.uri === uri)) {
          const next = applyUpdate(state, update);
          if (typeof next === 'object') state = next;
        }
        if (!state || !fits(state)) return;
        waiting.delete(look);
        resolve(state);
      };
      waiting.add(look);
      look();
    });
  }
  const cursorOn = (uri: string, text: string): { uri: string; cursor: object } => ({
    uri,
    cursor: { uri, ...editor.place(uri, text) },
  });

  it('starts with everything: plan, elevation, schedule, counts and caution', async () => {
    const uri = open(whole);
    void editor.connection.sendNotification(openPreview, cursorOn(uri, 'anchor  A-2'));
    const { parts, version } = await stateOf(uri, ({ parts }) => !parts.notice.planIsDue);
    expect(version).toBe(1);
    expect(parts.header).toMatchObject({ house: 'First house', wall: 'Wall A north', mark: 'A-2' });
    expect(parts.header.counts.errors).toBe(0);
    for (const wall of 'ABCD') expect(svgIn(parts.plan)).toContain(`data-thing="wall:${wall}"`);
    expect(svgIn(parts.elevation)).toContain('data-thing="A/anchor:A-2"');
    expect(svgIn(parts.elevation)).not.toContain('D-5');
    expect(parts.schedule.sections[0]?.rows.map(({ cells }) => cells[0])).toEqual(['A-1', 'A-2', 'A-3', 'A-4']);
    expect(parts.footer.always).toContain('it does not show that the house is safe');
    expect(parts.focus).toMatchObject({ mark: 'A-2', thing: 'A/anchor:A-2', wall: 'wall:A' });
    expect(parts.focus.range?.parts.some(({ kind }) => kind === 'clear')).toBe(true);
  });

  it('follows the cursor to another wall with a patch of what changed', async () => {
    const uri = open(whole);
    void editor.connection.sendNotification(openPreview, cursorOn(uri, 'anchor  A-2'));
    await stateOf(uri, () => true);
    void editor.connection.sendNotification(cursorMoved, cursorOn(uri, 'anchor  D-5'));
    const { parts } = await stateOf(uri, (state) => state.parts.focus.thing === 'D/anchor:D-5');
    expect(svgIn(parts.elevation)).toContain('data-thing="D/anchor:D-5"');
    const last = updates.filter((each) => each.uri === uri).at(-1);
    expect(last?.kind).toBe('patch');
    expect(Object.keys(last?.parts ?? {})).not.toContain('footer');
  });

  it('keeps the last good drawing with a notice while the line under the cursor is half typed', async () => {
    const uri = open(whole);
    void editor.connection.sendNotification(openPreview, cursorOn(uri, 'anchor  A-2'));
    const before = await stateOf(uri, () => true);
    editor.change(uri, 'A-2 flat-plate  at 5\'-4"', "A-2 flat-plate  at 5'-");
    const half = await stateOf(uri, (state) => state.version === 2);
    expect(half.parts.notice.text).toMatch(/^Line \d+ is half typed/);
    expect(half.parts.elevation).toEqual(before.parts.elevation);
    editor.change(uri, "A-2 flat-plate  at 5'-", 'A-2 flat-plate  at 5\'-0"');
    const after = await stateOf(uri, (state) => state.version === 3 && state.parts.notice.text === undefined);
    expect(after.parts.schedule.sections[0]?.rows[1]?.cells[1]).toBe('5\'-0"');
  });

  it('says where a thing stands in the text', async () => {
    const uri = open(whole);
    const place = await editor.connection.sendRequest<Place | null>(placeOfThing, { uri, thing: 'D/anchor:D-5' });
    expect(place?.uri).toBe(uri);
    expect(place?.version).toBe(1);
    expect(whole.split('\n')[place?.start.line ?? -1]).toContain('D-5');
    expect(await editor.connection.sendRequest(placeOfThing, { uri, thing: 'D/anchor:D-99' })).toBeNull();
  });

  it('shows a name with markup in it as the text that it is', async () => {
    const uri = open(whole.replace('"First house"', '"<script>alert(1)</script> & <b>"'));
    void editor.connection.sendNotification(openPreview, cursorOn(uri, 'anchor  A-2'));
    const { parts } = await stateOf(uri, ({ parts: { notice } }) => !notice.planIsDue);
    expect(parts.header.house).toBe('<script>alert(1)</script> & <b>');
    expect(svgIn(parts.plan) + svgIn(parts.elevation)).not.toMatch(/<script|<b>/);
  });
});
