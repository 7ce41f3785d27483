import {
  commands,
  type Disposable,
  Position,
  Selection,
  type TextDocument,
  TextEditorRevealType,
  Uri,
  ViewColumn,
  type WebviewPanel,
  type WorkspaceConfiguration,
  window,
  workspace,
} from 'vscode';
import { type BaseLanguageClient, State } from 'vscode-languageclient';
import type { PaneChoices } from '../../language/protocol/pane-choices.ts';
import {
  mergeUpdates,
  type PreviewUpdate,
  type RenderMessage,
  readViewMessage,
  type ShowMessage,
} from '../../language/protocol/preview.ts';
import {
  type CursorPlace,
  closePreview,
  cursorMoved,
  openPreview,
  type Place,
  type PlaceParams,
  type PreviewParams,
  placeOfThing,
  previewUpdate,
} from '../../language/protocol/requests.ts';
import { answerEdit, type EditMessage } from './pane-edits.ts';
import { paneHtml } from './pane-html.ts';
import type { PaneMemory } from './pane-memory.ts';
import { createPictures, type Pictures } from './write-picture.ts';

/** The layout panes, at most one for each file. */
export interface LayoutPanes extends Disposable {
  /** Opens the pane of a file beside it, or brings it to the front. */
  show(uri: Uri | undefined): Promise<void>;
  /** The file whose pane is in front. */
  inFront(): Uri | undefined;
  /** Drawn in the pane of their file, which is opened for it. */
  readonly pictures: Pictures;
  settingsChanged(): void;
}

const viewType = 'sillwright.layout';

interface Pane {
  readonly uri: Uri;
  readonly panel: WebviewPanel;
  /** The update that the view is drawing; the next waits, and what waits is merged. */
  inFlight: number | undefined;
  waiting: PreviewUpdate | undefined;
  choices: PaneChoices;
  /** The wall or girder in sight. */
  wall: string;
  isDrawn: boolean;
  /** Who waits until it is drawn, and who waits for a picture, in order. */
  readonly waitingToDraw: (() => void)[];
  readonly wantingPicture: ((picture: Uint8Array | string) => void)[];
}

export function createLayoutPanes(extension: Uri, client: BaseLanguageClient, memory: PaneMemory): LayoutPanes {
  const panes = new Map<string, Pane>();
  const pictures = createPictures(extension, client, render);
  let lastCursor: CursorPlace | undefined;

  function adopt(uri: Uri, panel: WebviewPanel): void {
    const key = uri.toString();
    const choices = memory.choicesFor(uri);
    const pane: Pane = {
      ...{ uri, panel, choices, inFlight: undefined, waiting: undefined },
      ...{ wall: '', isDrawn: false, waitingToDraw: [], wantingPicture: [] },
    };
    panes.set(key, pane);
    panel.webview.options = { enableScripts: true, localResourceRoots: [Uri.joinPath(extension, 'dist')] };
    panel.webview.onDidReceiveMessage((message: unknown) => answer(pane, message));
    panel.onDidChangeViewState(() => {
      if (panel.visible) return;
      // A page out of sight is thrown away.
      pane.isDrawn = false;
      for (const done of pane.wantingPicture.splice(0)) done('The pane was put out of sight.');
      void client.sendNotification(closePreview, paramsOf(pane));
    });
    panel.onDidDispose(() => {
      panes.delete(key);
      for (const done of pane.wantingPicture.splice(0)) done('The pane was closed.');
      void client.sendNotification(closePreview, paramsOf(pane));
    });
    // The view asks for its first state when it is ready, and again whenever the editor has thrown it away.
    panel.webview.html = paneHtml(extension, panel.webview, { layout: key, choices });
  }

  function paramsOf(pane: Pane): PreviewParams {
    const { units } = pane.choices;
    return { uri: pane.uri.toString(), cursor: lastCursor, units };
  }

  function answer(pane: Pane, message: unknown): void {
    const read = readViewMessage(message);
    switch (read?.type) {
      case 'resync':
        pane.inFlight = undefined;
        pane.waiting = undefined;
        pane.wall = read.wall ?? pane.wall;
        void client.sendNotification(openPreview, { ...paramsOf(pane), look: pane.wall });
        break;
      case 'shown':
        pane.isDrawn = true;
        for (const done of pane.waitingToDraw.splice(0)) done();
        if (read.sequence !== pane.inFlight) break;
        pane.inFlight = undefined;
        if (pane.waiting) post(pane, pane.waiting);
        break;
      case 'select':
        if (settings().get('clickMovesCursor', true)) void goToThing(client, pane.uri, read.thing);
        break;
      case 'look':
        void client.sendNotification(cursorMoved, { ...paramsOf(pane), look: read.thing });
        break;
      case 'leave':
        void backToText(pane.uri);
        break;
      case 'choose': {
        const isOther = pane.choices.units !== read.choices.units;
        pane.choices = read.choices;
        memory.keep(pane.uri, read.choices);
        if (isOther) void client.sendNotification(openPreview, paramsOf(pane));
        break;
      }
      case 'write':
        void commands.executeCommand(
          read.what === 'drawings' ? 'sillwright.writeDrawings' : 'sillwright.writeSchedule',
          { uri: pane.uri.toString() },
        );
        break;
      case 'write-picture':
        void pictures.write({
          layout: pane.uri,
          of: read.of === 'plan' ? 'plan' : pane.wall,
          form: read.form,
          units: pane.choices.units,
        });
        break;
      case 'moves':
      case 'move':
      case 'fixes':
      case 'mend':
        void passOn(pane, read);
        break;
      case 'rendered':
        pane.wantingPicture.shift()?.(read.picture);
        break;
    }
  }

  async function passOn(pane: Pane, message: EditMessage): Promise<void> {
    const answered = await answerEdit(client, { uri: pane.uri.toString(), units: pane.choices.units }, message);
    if (answered && panes.get(pane.uri.toString()) === pane) void pane.panel.webview.postMessage(answered);
  }

  function post(pane: Pane, update: PreviewUpdate): void {
    pane.waiting = undefined;
    pane.inFlight = update.sequence;
    pane.wall = update.parts.elevation?.wall ?? pane.wall;
    const message: ShowMessage = { type: 'update', update };
    void pane.panel.webview.postMessage(message);
  }

  async function show(uri: Uri): Promise<Pane | undefined> {
    const known = panes.get(uri.toString());
    if (known) known.panel.reveal(undefined, true);
    else {
      const title = `Layout: ${uri.path.split('/').pop()}`;
      adopt(uri, window.createWebviewPanel(viewType, title, { viewColumn: ViewColumn.Beside, preserveFocus: true }));
    }
    return panes.get(uri.toString());
  }

  async function render(layout: Uri, svg: string, dotsPerInch: number): Promise<Uint8Array | string> {
    const pane = await show(layout);
    if (!pane) return 'There is no pane to draw it in.';
    if (!pane.isDrawn) await new Promise<void>((resolve) => pane.waitingToDraw.push(resolve));
    return new Promise((resolve) => {
      pane.wantingPicture.push(resolve);
      const message: RenderMessage = { type: 'render', svg, dotsPerInch };
      void pane.panel.webview.postMessage(message);
    });
  }

  function cursorIs(document: TextDocument, line: number, character: number): void {
    if (document.languageId !== 'sillwright' || !settings().get('followCursor', true)) return;
    lastCursor = { uri: document.uri.toString(), line, character };
    for (const pane of panes.values()) {
      if (pane.panel.visible) void client.sendNotification(cursorMoved, paramsOf(pane));
    }
  }

  const subscriptions: Disposable[] = [
    client.onNotification(previewUpdate, (update: PreviewUpdate) => {
      const pane = panes.get(Uri.parse(update.uri).toString());
      if (!pane) return;
      if (pane.inFlight === undefined || update.kind === 'full') post(pane, update);
      else pane.waiting = mergeUpdates(pane.waiting, update);
    }),
    client.onDidChangeState(({ newState }) => {
      if (newState !== State.Running) return;
      for (const pane of panes.values()) answer(pane, { type: 'resync' });
    }),
    window.onDidChangeTextEditorSelection(({ textEditor, selections }) => {
      const at = selections[0]?.active;
      if (at) cursorIs(textEditor.document, at.line, at.character);
    }),
    window.onDidChangeActiveTextEditor((editor) => {
      if (editor) cursorIs(editor.document, editor.selection.active.line, editor.selection.active.character);
    }),
    window.registerWebviewPanelSerializer(viewType, {
      async deserializeWebviewPanel(panel: WebviewPanel, state: unknown) {
        const uri = uriOfState(state);
        if (uri && !panes.has(uri.toString())) adopt(uri, panel);
        else panel.dispose();
      },
    }),
  ];
  const editor = window.activeTextEditor;
  if (editor) cursorIs(editor.document, editor.selection.active.line, editor.selection.active.character);

  return {
    async show(given) {
      const document = given ? await workspace.openTextDocument(given) : window.activeTextEditor?.document;
      if (document?.languageId !== 'sillwright') {
        void window.showErrorMessage('Open a .sill file first: the pane shows the layout in front.');
        return;
      }
      await show(document.uri);
    },
    pictures,
    inFront: () => [...panes.values()].find(({ panel }) => panel.active)?.uri,
    settingsChanged() {
      const active = window.activeTextEditor;
      if (active) cursorIs(active.document, active.selection.active.line, active.selection.active.character);
    },
    dispose() {
      for (const subscription of subscriptions) subscription.dispose();
      for (const { panel } of [...panes.values()]) panel.dispose();
    },
  };
}

async function goToThing(client: BaseLanguageClient, layout: Uri, thing: string): Promise<void> {
  const params: PlaceParams = { uri: layout.toString(), thing };
  let place = await client.sendRequest<Place | null>(placeOfThing, params);
  if (!place) return;
  const document = await workspace.openTextDocument(Uri.parse(place.uri));
  // The text may have changed while the question was on its way.
  if (place.version !== undefined && place.version !== document.version) {
    place = await client.sendRequest<Place | null>(placeOfThing, params);
    if (!place) return;
  }
  const editor = await window.showTextDocument(document, { viewColumn: columnOf(document.uri) });
  const at = new Position(place.start.line, place.start.character);
  editor.selection = new Selection(at, at);
  editor.revealRange(editor.selection, TextEditorRevealType.InCenterIfOutsideViewport);
}

async function backToText(layout: Uri): Promise<void> {
  await window.showTextDocument(layout, { viewColumn: columnOf(layout) });
}

/** Where the file is in sight, else the first column. */
function columnOf(uri: Uri): ViewColumn {
  const shown = window.visibleTextEditors.find((editor) => editor.document.uri.toString() === uri.toString());
  return shown?.viewColumn ?? ViewColumn.One;
}

function uriOfState(state: unknown): Uri | undefined {
  const uri = typeof state === 'object' && state !== null && 'uri' in state ? state.uri : undefined;
  return typeof uri === 'string' ? Uri.parse(uri) : undefined;
}

function settings(): WorkspaceConfiguration {
  return workspace.getConfiguration('sillwright.layout');
}
