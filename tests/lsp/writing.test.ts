import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import type {
  CodeLens,
  CompletionItem,
  DocumentLink,
  FoldingRange,
  InlayHint,
  Location,
  SelectionRange,
  SemanticTokens,
  TextEdit,
  WorkspaceEdit,
  WorkspaceSymbol,
} from 'vscode-languageserver-protocol';
import { createAnalyser } from '../../language/analysis.ts';
import { type EditorClient, fileUri, startServerHere } from './editor-client.ts';

const hardware = fileUri('hardware.sill');
const house = fileUri('house.sill');

const hardwareText = `connector bolt-half through-bolt
  demo
  fits headroom at-least 10"
  body 3" wide 3" tall 1/4" thick
  into concrete 1 adhesive-rod size 1/2" x 8" hole 9/16" hole-depth 6" embed 4-1/2"
  capacity along-wall 900 lb

connector angle-8 framing-angle
  demo
  body 8" wide 2" tall
`;
const houseText = `use "hardware.sill"

layout "Example house"
  rules existing-building

house
  storeys 1

wall A "north" length 20'
  foundation thick 8" showing 18" top 0"
  sill A1 2x6 to end set-back 0" headroom 24" corner
  vent V1 5' to 6'-4"
  anchor X1 1/2" at 2'

work on A
  anchor A-1 bolt-half at 0'-10"
  anchor A-2 bolt-half at 8"  right of V1
  anchor A-3 bolt-half at 13'
  anchor A-4 bolt-half at 19'-2"

record 2026-06-10 by "crew"
  installed A-1 as planned
`;

let editor: EditorClient;
beforeAll(async () => {
  editor = await startServerHere({
    readFromDisk: (uri) => (uri === hardware ? { text: hardwareText } : { missing: 'there is no such file' }),
    createAnalyser,
  });
});
afterAll(() => editor.stop());
beforeEach(() => {
  editor.open(hardware, hardwareText);
  editor.open(house, houseText);
});

const ask = <Answer>(method: string, more: object = {}, uri = house): Promise<Answer> =>
  editor.connection.sendRequest<Answer>(`textDocument/${method}`, { textDocument: { uri }, ...more });
/** What is proposed behind a text that is written into the house. */
async function proposed(before: string, typed: string, more: object = {}): Promise<readonly CompletionItem[]> {
  editor.change(house, before, `${before}${typed}`);
  return ask('completion', { position: editor.place(house, `${before}${typed}`, 'end'), ...more });
}
const labels = (items: readonly CompletionItem[]): readonly string[] => items.map(({ label }) => label);
const textAt = (uri: string, { range }: Pick<Location, 'range'>): string => {
  const lines = editor.text(uri).split('\n');
  return (lines[range.start.line] ?? '').slice(range.start.character, range.end.character);
};

describe('while a line is typed', () => {
  const lastAnchor = `anchor A-4 bolt-half at 19'-2"`;

  it('the next free mark is proposed where a mark belongs', async () => {
    expect(labels(await proposed(lastAnchor, '\n  anchor '))[0]).toBe('A-5');
  });

  it('connectors that fit on the wall come first, with the boards that they fit on', async () => {
    const items = await proposed(lastAnchor, '\n  anchor A-5 ');
    expect(items[0]).toMatchObject({ label: 'bolt-half', detail: expect.stringContaining('fits on A1') });
    expect(labels(items)).not.toContain('angle-8');
  });

  it('framing angles are proposed for angles, and no bolt', async () => {
    expect(labels(await proposed(lastAnchor, '\n  angles A-A1 '))).toEqual(['angle-8']);
  });

  it('things of the wall are proposed behind `right of`', async () => {
    expect(labels(await proposed(lastAnchor, `\n  anchor A-5 bolt-half at 7" right of `))).toEqual(['V1', 'X1']);
  });

  it('clear places for that connector are proposed where its station belongs', async () => {
    editor.change(house, `  anchor A-3 bolt-half at 13'\n`, '');
    const items = await proposed(lastAnchor, '\n  anchor A-5 bolt-half at ');
    expect(items[0]?.detail).toBe('clear on A1');
    // 0'-10" to 7'-0" is wider than 6 ft, and 7'-0" to 19'-2" wants more than one between.
    expect(labels(items).filter((label) => /^[1-4]'-/.test(label))).toHaveLength(1);
    expect(labels(items).filter((label) => /^1[0-4]'-/.test(label)).length).toBeGreaterThan(0);
  });

  it('the three ways to say a length are proposed for a bare number', async () => {
    expect(labels(await proposed(lastAnchor, '\n  anchor A-5 bolt-half at 12')).slice(-3)).not.toContain('12');
    expect(labels(await proposed(lastAnchor, '\n  anchor A-5 bolt-half at 12'))).toEqual(
      expect.arrayContaining(['12"', `12'`, '12 mm']),
    );
  });

  it('marks that are not built yet are proposed to the record', async () => {
    expect(labels(await proposed('installed A-1 as planned', '\n  installed '))).toEqual(['A-2', 'A-3', 'A-4']);
  });

  it('the words that may follow are proposed when asked for, and not after a mere space', async () => {
    const line = `\n  anchor A-5 bolt-half at 15' `;
    expect(labels(await proposed(lastAnchor, line))).toEqual(expect.arrayContaining(['proposed', 'embed', 'note']));
    const afterSpace = { context: { triggerKind: 2, triggerCharacter: ' ' } };
    expect(await proposed(lastAnchor, line, afterSpace)).toEqual([]);
  });

  it('whole blocks are proposed on an empty line at the edge', async () => {
    const items = await proposed('installed A-1 as planned\n', '\n');
    expect(labels(items)).toEqual(expect.arrayContaining(['wall …', 'record …', 'wall', 'work']));
  });

  it('nothing is proposed inside a text or a comment', async () => {
    expect(await proposed(lastAnchor, ' note "an')).toEqual([]);
    expect(await proposed(lastAnchor, ' // an')).toEqual([]);
  });

  it('what is accepted replaces the half word before the caret', async () => {
    const [item] = await proposed(lastAnchor, '\n  anchor A-5 bol');
    expect(item?.textEdit).toMatchObject({
      newText: 'bolt-half',
      range: { start: { character: 13 }, end: { character: 16 } },
    });
  });

  it('the line that was left is formatted', async () => {
    editor.change(house, lastAnchor, `${lastAnchor}\n  ANCHOR   A-5  bolt-half  at  15'\n`);
    const position = editor.place(house, `15'\n`, 'end');
    const edits = await ask<readonly TextEdit[]>('onTypeFormatting', {
      position,
      ch: '\n',
      options: { tabSize: 2, insertSpaces: true },
    });
    editor.apply({
      documentChanges: [{ textDocument: { uri: house, version: editor.version(house) }, edits: [...edits] }],
    });
    expect(editor.text(house)).toMatch(/^ {2}anchor +A-5 +bolt-half +at 15'$/m);
    expect(editor.text(house)).not.toContain('ANCHOR');
  });
});

describe('a name', () => {
  it('leads to its declaration in another file', async () => {
    const at = await ask<Location>('definition', { position: editor.place(house, 'bolt-half at 13') });
    expect(at.uri).toBe(hardware);
    expect(textAt(hardware, at)).toBe('bolt-half');
  });

  it('of a thing leads to the line of its wall', async () => {
    const at = await ask<Location>('definition', { position: editor.place(house, 'V1\n  anchor A-3') });
    expect(textAt(house, at)).toBe('V1');
    expect(at.range.start.line).toBe(houseText.split('\n').findIndex((line) => line.includes('vent V1')));
  });

  it('is found wherever it is said, in every file', async () => {
    const uses = await ask<readonly Location[]>(
      'references',
      { position: editor.place(hardware, 'bolt-half'), context: { includeDeclaration: true } },
      hardware,
    );
    expect(uses.map(({ uri }) => uri)).toEqual([hardware, house, house, house, house]);
  });

  it('is renamed in every file, and put in quotes where it needs them', async () => {
    const edit = await ask<WorkspaceEdit>(
      'rename',
      { position: editor.place(hardware, 'bolt-half'), newName: 'half inch bolt' },
      hardware,
    );
    editor.apply(edit);
    expect(editor.text(hardware)).toContain('connector "half inch bolt" through-bolt');
    expect(editor.text(house).match(/"half inch bolt"/g)).toHaveLength(4);
    expect(editor.text(house)).not.toContain('bolt-half');
  });

  it('of a wall is renamed in `work on` too', async () => {
    editor.apply(await ask<WorkspaceEdit>('rename', { position: editor.place(house, 'A "north"'), newName: 'North' }));
    expect(editor.text(house)).toContain('wall North "north"');
    expect(editor.text(house)).toContain('work on North');
    expect(editor.text(house)).toContain('anchor A-1');
  });

  it('that is taken already is refused, with the reason', async () => {
    const rename = ask('rename', { position: editor.place(house, 'A-3 bolt'), newName: 'A-2' });
    await expect(rename).rejects.toThrow('There is a mark called A-2 already');
  });

  it('that stands in the record keeps its mark', async () => {
    const rename = ask('prepareRename', { position: editor.place(house, 'A-1 bolt') });
    await expect(rename).rejects.toThrow('stands in the record of 2026-06-10');
  });

  it('is found in the workspace by any part of it', async () => {
    const found = await editor.connection.sendRequest<readonly WorkspaceSymbol[]>('workspace/symbol', { query: 'a-' });
    expect(found.map(({ name }) => name)).toEqual(['A-1', 'A-2', 'A-3', 'A-4']);
  });

  it('is coloured by what it names', async () => {
    const { data } = await ask<SemanticTokens>('semanticTokens/full');
    // wall A, sill A1, vent V1, anchor X1; work on A; four marks with their connectors and one `of`; one mark in the record; two rule and use names
    expect(data.length % 5).toBe(0);
    expect(data.slice(0, 5)).toEqual([3, 8, 'existing-building'.length, 2, 0]);
    expect(data.length / 5).toBe(1 + 4 + 1 + 8 + 1 + 1);
  });
});

describe('beside the text', () => {
  it('a finding leads to the page of its rule, where the editor brought the pages', async () => {
    const linked = fileUri('linked.sill');
    editor.open(linked, houseText.replace(`at 19'-2"`, `at 19'-8"`));
    const { diagnostics } = await editor.publication(linked);
    const tooNear = diagnostics.find(({ code }) => code === 'anchorage/end-too-near');
    expect(tooNear?.codeDescription?.href).toBe('file:///pages/anchorage/end-too-near.md');
  });

  it('each block folds to its heading', async () => {
    const folds = await ask<readonly FoldingRange[]>('foldingRange');
    const lines = houseText.split('\n');
    expect(folds.map(({ startLine, endLine }) => [lines[startLine], lines[endLine]])).toEqual([
      ['layout "Example house"', '  rules existing-building'],
      ['house', '  storeys 1'],
      [`wall A "north" length 20'`, `  anchor X1 1/2" at 2'`],
      ['work on A', `  anchor A-4 bolt-half at 19'-2"`],
      ['record 2026-06-10 by "crew"', '  installed A-1 as planned'],
    ]);
  });

  it('the selection grows from word to line to block to file', async () => {
    const [selection] = await ask<readonly SelectionRange[]>('selectionRange', {
      positions: [editor.place(house, 'V1 5')],
    });
    const texts: string[] = [];
    for (let each = selection; each; each = each.parent) {
      const lines = editor
        .text(house)
        .split('\n')
        .slice(each.range.start.line, each.range.end.line + 1);
      texts.push(
        lines.length === 1
          ? (lines[0] ?? '').slice(each.range.start.character, each.range.end.character)
          : `${lines.length} lines`,
      );
    }
    expect(texts).toEqual(['V1', `vent V1 5' to 6'-4"`, '5 lines', `${houseText.split('\n').length} lines`]);
  });

  it('a used file opens with a click', async () => {
    expect(await ask<readonly DocumentLink[]>('documentLink')).toMatchObject([{ target: hardware }]);
  });

  it('a line over each wall counts its anchors, boards and errors', async () => {
    const [lens] = await ask<readonly CodeLens[]>('codeLens');
    expect(lens?.command).toMatchObject({ command: 'sillwright.showLayout' });
    expect(lens?.command?.title).toMatch(/^4 anchors, 1 installed · .* · \d+ errors?$/);
  });

  it('hints stay away until they are wanted, and then tell gaps and lengths', async () => {
    const range = { start: { line: 0, character: 0 }, end: { line: 99, character: 0 } };
    expect(await ask<readonly InlayHint[]>('inlayHint', { range })).toEqual([]);
    await editor.set({ showHints: true });
    const hints = await ask<readonly InlayHint[]>('inlayHint', { range });
    expect(hints.map(({ label }) => label)).toEqual(expect.arrayContaining(['4 new anchors', `20'-0"`, `→ 6'-2"`]));
    await editor.set({});
  });
});
