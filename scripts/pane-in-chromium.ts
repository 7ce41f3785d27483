/**
 * The built pane in a headless Chromium outside the editor, fed by the built server: what a bench measures and a person looks at.
 * The page has a stand-in for the editor's own interface and nothing else that the editor has not.
 */
import { type ChildProcess, spawn } from 'node:child_process';
import { existsSync, mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import process from 'node:process';
import { pathToFileURL } from 'node:url';
import { type Browser, chromium, type Page } from 'playwright-core';
import {
  createMessageConnection,
  type MessageConnection,
  StreamMessageReader,
  StreamMessageWriter,
} from 'vscode-jsonrpc/node';
import { serverFlags } from '../extension/src/server-flags.ts';
import type { PreviewUpdate } from '../language/protocol/preview.ts';
import { type CursorPlace, cursorMoved, openPreview, previewUpdate } from '../language/protocol/requests.ts';
import { buildPane, buildServer } from './build.ts';

export interface PaneInChromium {
  readonly page: Page;
  /** Of the updates that came of the last change, in bytes. */
  lastSize(): number;
  /** Resolves when what the server makes of it is on the screen; to the milliseconds that each step took. */
  change(range: TextRange, text: string, isPlanAwaited?: boolean): Promise<Steps>;
  moveTo(line: number, character?: number): Promise<Steps>;
  close(): Promise<void>;
}
export interface TextRange {
  readonly start: { readonly line: number; readonly character: number };
  readonly end: { readonly line: number; readonly character: number };
}
/** In milliseconds from the key on. */
export interface Steps {
  readonly updated: number;
  /** All but the plan, which follows where it changed. */
  readonly drawn: number;
  readonly planDrawn: number;
}

export type Theme = 'vscode-light' | 'vscode-dark' | 'vscode-high-contrast' | 'vscode-high-contrast-light';

export interface PaneOptions {
  readonly text: string;
  readonly folder: string;
  readonly viewport: { readonly width: number; readonly height: number };
  readonly theme?: Theme;
  /** Beside the layout, by name: files that it uses. */
  readonly beside?: Readonly<Record<string, string>>;
}

/** The page and its module lie in a folder. */
const flags = ['--no-sandbox', '--disable-gpu', '--allow-file-access-from-files'];
const chromiumPaths = [
  process.env.CHROMIUM,
  ...['chromium', 'chromium-browser', 'google-chrome', 'google-chrome-stable'].map((name) => `/usr/bin/${name}`),
];

/** `undefined` where there is none on this machine. */
export function findChromium(): string | undefined {
  return chromiumPaths.find((path): path is string => path !== undefined && path !== '' && existsSync(path));
}

export async function buildParts(folder: string): Promise<void> {
  await Promise.all([buildServer(folder), buildPane(folder)]);
}

export async function openPane(executablePath: string, options: PaneOptions): Promise<PaneInChromium> {
  const { folder, text } = options;
  const uri = pathToFileURL(join(folder, 'house.sill')).toString();
  for (const [name, content] of Object.entries(options.beside ?? {})) writeFileSync(join(folder, name), content);
  const browser: Browser = await chromium.launch({ executablePath, args: flags });
  const context = await browser.newContext({ viewport: options.viewport, reducedMotion: 'reduce' });
  const page = await context.newPage();
  page.on('pageerror', (error) => console.error(`the page failed: ${error.stack ?? error.message}`));
  const heard = new Map<string, () => void>();
  await page.exposeFunction('fromPane', (type: string, sequence: number | undefined) => {
    heard.get(`${type} ${sequence ?? ''}`.trim())?.();
  });
  mkdirSync(folder, { recursive: true });
  writeFileSync(join(folder, 'page.html'), pageOf(uri, options.theme ?? 'vscode-dark'));

  const { child, connection } = startServer(join(folder, 'server.mjs'));
  await connection.sendRequest('initialize', { processId: process.pid, rootUri: null, capabilities: {} });
  await connection.sendNotification('initialized', {});
  const textDocument = { uri, languageId: 'sillwright', version: 1, text };
  void connection.sendNotification('textDocument/didOpen', { textDocument });

  let version = 1;
  let size = 0;
  let planIsDue = false;
  const shown: { readonly version: number; readonly updated: number; readonly drawn: number }[] = [];
  let wake: (() => void) | undefined;
  // As in the editor: each update is drawn when it comes, whoever waits for it.
  let drawing = Promise.resolve();
  connection.onNotification(previewUpdate, (update: PreviewUpdate) => {
    const updated = performance.now();
    drawing = drawing.then(async () => {
      const message = JSON.stringify(JSON.stringify({ type: 'update', update }));
      size += message.length;
      // Through the page's own clock: from the message to the end of the frame that shows it.
      const took = (await page.evaluate(`window.showUpdate(JSON.parse(${message}))`)) as number;
      planIsDue = update.parts.notice?.planIsDue ?? planIsDue;
      shown.push({ version: update.version, updated, drawn: updated + took });
      wake?.();
    });
  });
  let cursor: CursorPlace = { uri, line: 0, character: 0 };

  async function after(send: () => void, isPlanAwaited = true): Promise<Steps> {
    const began = performance.now();
    const wanted = version;
    size = 0;
    shown.length = 0;
    send();
    // The plan of the text before may come on the way.
    const ofThisText = (): typeof shown => shown.filter((each) => each.version >= wanted);
    while (ofThisText().length === 0 || (planIsDue && isPlanAwaited))
      await new Promise<void>((resolve) => {
        wake = resolve;
      });
    const [first, last] = [ofThisText().at(0), ofThisText().at(-1)];
    const since = (time: number | undefined): number => (time ?? began) - began;
    return { updated: since(first?.updated), drawn: since(first?.drawn), planDrawn: since(last?.drawn) };
  }
  const wait = new Promise<void>((resolve) => heard.set('resync', resolve));
  await page.goto(pathToFileURL(join(folder, 'page.html')).toString());
  await wait;
  await after(() => void connection.sendNotification(openPreview, { uri, cursor }));
  return {
    page,
    lastSize: () => size,
    change(range, inserted, isPlanAwaited = true) {
      version += 1;
      const send = (): void => {
        void connection.sendNotification('textDocument/didChange', {
          textDocument: { uri, version },
          contentChanges: [{ range, text: inserted }],
        });
      };
      return after(send, isPlanAwaited);
    },
    moveTo(line, character = 0) {
      cursor = { uri, line, character };
      return after(() => void connection.sendNotification(cursorMoved, { uri, cursor }));
    },
    async close() {
      child.kill();
      await browser.close();
    },
  };
}

function startServer(path: string): { readonly child: ChildProcess; readonly connection: MessageConnection } {
  const child = spawn(process.execPath, [...serverFlags, path, '--stdio'], { stdio: ['pipe', 'pipe', 'inherit'] });
  if (!child.stdin || !child.stdout) throw new Error('the server has no streams');
  const reader = new StreamMessageReader(child.stdout);
  const connection = createMessageConnection(reader, new StreamMessageWriter(child.stdin));
  connection.onRequest(() => null);
  connection.listen();
  return { child, connection };
}

function pageOf(layout: string, theme: Theme): string {
  return `<!DOCTYPE html>
<html lang="en"><head><meta charset="utf-8"><link rel="stylesheet" href="webview.css"><title>Layout</title>
<script>
  let kept;
  let shown;
  window.acquireVsCodeApi = () => ({
    getState: () => kept,
    setState: (state) => { kept = state; },
    postMessage: (message) => {
      if (message.type === 'shown') shown?.(message.sequence);
      else window.fromPane(message.type, undefined);
    },
  });
  const nextFrame = window.requestAnimationFrame.bind(window);
  let isInFrame = false;
  window.requestAnimationFrame = (work) => nextFrame((time) => {
    isInFrame = true;
    work(time);
    isInFrame = false;
  });
  // Resolves to the milliseconds until the end of the frame that shows it: what is posted in a frame is heard when it is painted.
  window.showUpdate = (message) => new Promise((resolve) => {
    const began = performance.now();
    const channel = new MessageChannel();
    channel.port1.onmessage = () => resolve(performance.now() - began);
    const paint = () => channel.port2.postMessage(undefined);
    shown = () => isInFrame ? paint() : nextFrame(paint);
    window.postMessage(message, '*');
  });
</script></head>
<body class="${theme}" data-layout="${layout}"><main id="pane" aria-busy="true"></main>
<script type="module" src="webview.js"></script></body></html>`;
}
