import { appendFileSync, mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { format } from 'node:util';
import { type Browser, chromium, type FrameLocator, type Locator, type Page } from 'playwright-core';
import { connectHost, type Host } from './host.ts';

export type ThemeName =
  | 'Default Light Modern'
  | 'Default Dark Modern'
  | 'Default High Contrast'
  | 'Default High Contrast Light';

const themeClasses: Readonly<Record<ThemeName, string>> = {
  'Default Light Modern': 'vs',
  'Default Dark Modern': 'vs-dark',
  'Default High Contrast': 'hc-black',
  'Default High Contrast Light': 'hc-light',
};

/** One editor window: what a person can do with keyboard and mouse, and what they can see. */
export interface EditorWindow {
  readonly page: Page;
  /** The editor's own API, for what cannot be seen from outside. */
  readonly host: Host;
  openFile(path: string): Promise<void>;
  runCommand(title: string): Promise<void>;
  /** Puts the caret there; line and column count from 1. */
  goTo(line: number, column?: number): Promise<void>;
  /** The rows of the Problems panel, as a screen reader says them and as they are shown. */
  problems(): Promise<readonly string[]>;
  pressQuickFix(title: RegExp): Promise<void>;
  quickInput(): Locator;
  notification(text: RegExp): Locator;
  /** The content of the preview pane in front. */
  preview(): FrameLocator;
  useTheme(theme: ThemeName): Promise<void>;
  /** A second window on the same folder, as a person has it: no suite runs inside, so it can be reloaded. */
  openPlainWindow(): Promise<PlainWindow>;
  screenshot(name: string): Promise<string>;
}

export interface PlainWindow {
  openFile(name: string): Promise<void>;
  runCommand(title: string): Promise<void>;
  preview(): FrameLocator;
  press(key: string): Promise<void>;
  reload(): Promise<void>;
  close(): Promise<void>;
}

export interface OpenedWindow {
  readonly window: EditorWindow;
  /** Ends the suite inside the editor and says whether it truly reached its end. */
  finish(): Promise<{ readonly reachedEnd: boolean; readonly exitCode: number | undefined }>;
  close(): Promise<void>;
}

export interface OpenOptions {
  readonly url: string;
  readonly chromium: string;
  readonly token: string;
  readonly log: string;
  readonly screenshots: string;
}

const flags = ['--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run'];
const quietFlags = ['--disable-background-networking', '--disable-component-update', '--disable-sync'];

export async function openWindow(options: OpenOptions): Promise<OpenedWindow> {
  const browser: Browser = await chromium.launch({ executablePath: options.chromium, args: [...flags, ...quietFlags] });
  const context = await browser.newContext({ viewport: { width: 1680, height: 1050 }, reducedMotion: 'reduce' });
  await context.grantPermissions(['clipboard-read', 'clipboard-write']);
  const page = await context.newPage();
  page.on('console', (message) => appendFileSync(options.log, `[page] ${message.text()}\n`));

  const spoken: string[] = [];
  const listening = deferred<number>();
  const exited = deferred<number>();
  // The two functions that VS Code's test driver calls in the page.
  await page.exposeFunction('codeAutomationLog', (_type: string, args: unknown[]) => {
    const line = format(...args);
    appendFileSync(options.log, `${line}\n`);
    spoken.push(line);
    const port = /suite listening on (\d+)/.exec(line)?.[1];
    if (port) listening.resolve(Number(port));
  });
  await page.exposeFunction('codeAutomationExit', (code: number) => {
    exited.resolve(code);
    listening.reject(new Error(`the extension host ended (${code}) before the suite listened`));
  });
  await page.goto(options.url);
  await page.locator('.monaco-workbench .part.statusbar').waitFor({ timeout: 60_000 });
  const port = await within(60_000, listening.promise, 'the suite inside the editor did not start');
  const host = connectHost(port, options.token);

  return {
    window: makeWindow(page, host, options.screenshots),
    async finish() {
      const mark = `${options.token}-${Math.random().toString(36).slice(2)}`;
      await host.end(mark);
      const exitCode = await within(20_000, exited.promise, 'the editor did not report the end of the suite');
      // An extension host that dies half-way also reports 0: only the mark proves that the end was reached.
      return { reachedEnd: spoken.some((line) => line.includes(`suite end ${mark}`)), exitCode };
    },
    async close() {
      await context.close();
      await browser.close();
    },
  };
}

function makeWindow(page: Page, host: Host, screenshots: string): EditorWindow {
  const quickInput = (): Locator => quickInputOf(page);

  return {
    page,
    host,
    quickInput,
    runCommand: (title) => runCommand(page, title),
    async openFile(path) {
      const name = path.split('/').pop() ?? path;
      await host.call(async (vscode, wanted) => {
        const [uri] = await vscode.workspace.findFiles(wanted);
        if (!uri) throw new Error(`no file ${wanted} in the workspace`);
        await vscode.window.showTextDocument(uri, { viewColumn: vscode.ViewColumn.One, preview: false });
      }, path);
      await page.locator('.tab.active').filter({ hasText: name }).first().waitFor();
    },
    async goTo(line, column = 1) {
      const isThere = (): Promise<boolean> =>
        host.call((vscode, wanted) => vscode.window.activeTextEditor?.selection.active.line === wanted - 1, line);
      await poll(async () => {
        await openQuickInput(page, 'Control+g', `:${line}:${column}`);
        await page.keyboard.press('Enter');
        await poll(isThere, `the caret on line ${line}`, 2000);
        return true;
      }, `the caret on line ${line}`);
      await page.locator('.editor-instance .monaco-editor.focused').first().waitFor();
    },
    async problems() {
      const rows = page.locator('.markers-panel .monaco-list-row');
      return rows.evaluateAll((found) =>
        found.map((row) => `${row.getAttribute('aria-label') ?? ''} ${row.textContent ?? ''}`),
      );
    },
    async pressQuickFix(title) {
      await poll(async () => {
        await page.keyboard.press('Escape');
        await page.keyboard.press('Control+.');
        const entry = page.locator('.action-widget .monaco-list-row.action').filter({ hasText: title }).first();
        await entry.waitFor({ state: 'visible', timeout: 2000 });
        await entry.click({ timeout: 2000 });
        return true;
      }, `the quick fix ${title}`);
    },
    // A suite under test gets no toasts: what was said is in the list of notifications.
    notification: (text) => page.locator('.notifications-center .monaco-list-row').filter({ hasText: text }).first(),
    preview: () => previewOf(page),
    async useTheme(theme) {
      await host.call(
        (vscode, wanted) =>
          vscode.workspace.getConfiguration().update('workbench.colorTheme', wanted, vscode.ConfigurationTarget.Global),
        theme,
      );
      await page.locator(`.monaco-workbench.${themeClasses[theme]}`).first().waitFor();
    },
    async openPlainWindow() {
      const url = new URL(page.url());
      url.searchParams.delete('payload');
      const plain = await page.context().newPage();
      const isReady = (): Promise<void> => plain.locator('.monaco-workbench .part.statusbar').waitFor();
      // A page behind another one is drawn when it likes.
      await plain.bringToFront();
      await plain.goto(url.toString());
      await isReady();
      return {
        async openFile(name) {
          await plain.locator('.explorer-folders-view .monaco-list-row').filter({ hasText: name }).first().dblclick();
          await plain.locator('.tab.active').filter({ hasText: name }).first().waitFor();
        },
        runCommand: (title) => runCommand(plain, title),
        preview: () => previewOf(plain),
        press: (key) => plain.keyboard.press(key),
        async reload() {
          // The editor's own command: it writes down what is open before it goes.
          const loaded = plain.waitForEvent('load');
          await runCommand(plain, 'Developer: Reload Window');
          await loaded;
          await isReady();
        },
        close: () => plain.close(),
      };
    },
    async screenshot(name) {
      mkdirSync(screenshots, { recursive: true });
      const path = join(screenshots, `${name}.png`);
      await page.screenshot({ path });
      return path;
    },
  };
}

function quickInputOf(page: Page): Locator {
  return page.locator('.quick-input-widget .quick-input-box input');
}

/** The first key may come before the workbench listens: try again until the box is there. */
async function openQuickInput(page: Page, key: string, text: string): Promise<void> {
  const input = quickInputOf(page);
  let isAgain = false;
  await poll(async () => {
    await page.keyboard.press('Escape');
    await page.keyboard.press(key);
    await input.waitFor({ state: 'visible', timeout: 1500 });
    // It may be the box of the key before, which this Escape is about to close: what is written then lands in the layout behind it.
    if (isAgain) await page.waitForTimeout(500);
    isAgain = true;
    if (!(await input.isVisible())) return false;
    // The box may close again under a slow window: better to open it anew than to wait for it.
    await input.fill(text, { timeout: 1500 });
    return (await input.inputValue({ timeout: 1500 })) === text;
  }, `the box for ${text}`);
}

/** The command may come a moment after the extension that offers it: try again until it is in the list. */
async function runCommand(page: Page, title: string): Promise<void> {
  await poll(
    async () => {
      await openQuickInput(page, 'F1', `>${title}`);
      const row = page.locator('.quick-input-list .monaco-list-row').filter({ hasText: title }).first();
      await row.click({ timeout: 2000 });
      return true;
    },
    `the command ${title}`,
    60_000,
  );
}

function previewOf(page: Page): FrameLocator {
  return page.frameLocator('iframe.webview.ready >> nth=0').frameLocator('#active-frame');
}

/** Asks again until the answer is true. A refusal of the page counts as "not yet". */
export async function poll(condition: () => unknown, what: string, milliseconds = 20_000): Promise<void> {
  const end = Date.now() + milliseconds;
  let last: unknown;
  while (Date.now() < end) {
    try {
      if (await condition()) return;
      last = undefined;
    } catch (error) {
      last = error;
    }
    await new Promise((resolve) => setTimeout(resolve, 50));
  }
  throw new Error(`waited ${milliseconds / 1000} s in vain for ${what}${last ? `: ${String(last)}` : ''}`);
}

/** A function that runs in the page, of its element, as text: these files know no page. */
export function inPage<Result>(source: string): (element: unknown) => Result {
  return new Function('element', `return (${source})(element);`) as (element: unknown) => Result;
}

export function within<T>(milliseconds: number, promise: Promise<T>, message: string): Promise<T> {
  return new Promise((resolve, reject) => {
    const timer = setTimeout(() => reject(new Error(message)), milliseconds);
    promise.then(resolve, reject).finally(() => clearTimeout(timer));
  });
}

function deferred<T>(): { promise: Promise<T>; resolve(value: T): void; reject(error: Error): void } {
  let settle: { resolve(value: T): void; reject(error: Error): void } | undefined;
  const promise = new Promise<T>((resolve, reject) => {
    settle = { resolve, reject };
  });
  // Nobody may be waiting yet: a refusal is then read later.
  promise.catch(() => undefined);
  return { promise, resolve: (value) => settle?.resolve(value), reject: (error) => settle?.reject(error) };
}
