/**
 * Bundles what is shipped. `node scripts/build.ts cli` makes dist/cli/sillwright.js; `all` makes dist/extension/ too, the
 * extension as it is packaged; `--check-size` fails where a bundle has outgrown its budget.
 */
import { cpSync, existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join, posix } from 'node:path';
import process from 'node:process';
import { gzipSync } from 'node:zlib';
import { type BuildOptions, build } from 'esbuild';
import { colourTokens, customProperty, type TokenColours } from '../language/domain/drawing/tokens.ts';
import {
  libraryAsOneModule,
  namedTypesOnly,
  packedTexts,
  withoutRulePages,
  withoutUnusedParts,
} from './bundle-plugins.ts';

const root = join(import.meta.dirname, '..');
const dist = join(root, 'dist');
export const extensionFolder = join(dist, 'extension');

const common: BuildOptions = {
  absWorkingDir: root,
  bundle: true,
  minify: true,
  legalComments: 'none',
  logLevel: 'warning',
  charset: 'utf8',
  loader: { '.sill': 'text' },
};
const onNode: BuildOptions = {
  ...common,
  platform: 'node',
  target: 'node20',
};

const inBrowser: BuildOptions = {
  ...common,
  platform: 'browser',
  target: 'chrome120',
};

/** What has the language in it. The editor's client uses other parts of the same libraries. */
const ofLanguage = [withoutUnusedParts, namedTypesOnly, libraryAsOneModule];
const ofLanguageOnNode = [...ofLanguage, packedTexts];

export async function buildCli(folder = join(dist, 'cli')): Promise<void> {
  rmSync(folder, { recursive: true, force: true });
  await build({
    ...onNode,
    plugins: ofLanguageOnNode,
    format: 'esm',
    entryPoints: { sillwright: 'server/src/cli/main.ts' },
    outdir: folder,
    // What one command alone needs is loaded by that command.
    splitting: true,
    chunkNames: 'parts/[name]-[hash]',
    banner: { js: requireForOlderModules },
  });
  copyInto(folder, 'extension/webview', lettering);
}

const lettering = ['fonts/routed-gothic.ttf', 'fonts/routed-gothic-narrow.ttf', 'fonts/OFL.txt'];

/** Libraries in the older module format ask for Node's own modules by `require`. */
const requireForOlderModules =
  "import { createRequire as makeRequire } from 'node:module';\nconst require = makeRequire(import.meta.url);";

/** The language server as it is shipped, into a folder. */
export async function buildServer(outdir: string): Promise<void> {
  const { outputFiles } = await build({
    ...onNode,
    plugins: [...ofLanguageOnNode, withoutRulePages],
    format: 'esm',
    charset: 'ascii',
    entryPoints: { server: 'server/src/main-node.ts' },
    outdir,
    outExtension: { '.js': '.mjs' },
    // Drawings and document writers are loaded when a pane or a schedule is asked for.
    splitting: true,
    chunkNames: 'server/[name]-[hash]',
    banner: { js: requireForOlderModules },
    write: false,
  });
  for (const { path, text } of outputFiles) {
    mkdirSync(dirname(path), { recursive: true });
    writeFileSync(path, inAscii(text));
  }
}

/**
 * One character past Latin-1 makes Node keep a bundle at two bytes a character for as long as the server runs, and patterns, unlike
 * strings, are left as they are by the bundler.
 */
function inAscii(code: string): string {
  return code.replace(/[^\0-\x7f]/g, (each) => `\\u${each.charCodeAt(0).toString(16).padStart(4, '0')}`);
}

export async function buildExtension(): Promise<void> {
  rmSync(extensionFolder, { recursive: true, force: true });
  mkdirSync(join(extensionFolder, 'dist'), { recursive: true });
  const outdir = join(extensionFolder, 'dist');
  await Promise.all([
    buildServer(outdir),
    build({
      ...onNode,
      format: 'cjs',
      external: ['vscode'],
      entryPoints: { extension: 'extension/src/main.ts' },
      outdir,
      outExtension: { '.js': '.cjs' },
    }),
    build({
      ...inBrowser,
      format: 'cjs',
      external: ['vscode'],
      entryPoints: { 'extension-browser': 'extension/src/main-browser.ts' },
      outdir,
    }),
    build({
      ...inBrowser,
      plugins: [...ofLanguage, withoutRulePages],
      format: 'iife',
      entryPoints: { 'server-worker': 'server/src/main-worker.ts' },
      outdir,
    }),
    buildPane(outdir),
  ]);
  const steps = ['new', 'findings', 'draw', 'schedule'].map((step) => `walkthrough/${step}.md`);
  copyInto(extensionFolder, 'extension', steps);
  copyInto(extensionFolder, 'extension', ['package.json', 'language-configuration.json', '.vscodeignore', 'icon.png']);
  copyInto(extensionFolder, '.', ['README.md', 'CHANGELOG.md', 'LICENSE']);
  cpSync(join(root, 'docs/rules'), join(extensionFolder, 'docs/rules'), { recursive: true });
  copyInto(extensionFolder, '.', ['syntaxes/sillwright.tmLanguage.json', 'docs/picture.png']);
}

/** The page of the pane, with its style and its lettering. */
export async function buildPane(outdir: string): Promise<void> {
  await build({
    ...inBrowser,
    format: 'esm',
    entryPoints: { webview: 'extension/webview/main.ts' },
    outdir,
    define: { LEAST_CONTRAST: JSON.stringify(leastContrast()) },
  });
  const css = themeCss() + readFileSync(join(root, 'extension/webview/style.css'), 'utf8');
  writeFileSync(join(outdir, 'webview.css'), css);
  copyInto(outdir, 'extension/webview', lettering);
}

function copyInto(folder: string, from: string, names: readonly string[]): void {
  for (const name of names) {
    const source = join(root, from, name);
    if (!existsSync(source)) throw new Error(`${join(from, name)} is missing, and the extension is packaged with it`);
    cpSync(source, join(folder, name));
  }
}

/** The drawings' tokens as custom properties of the pane, one set for each kind of theme. */
function themeCss(): string {
  const themes: readonly (readonly [selector: string, colour: (token: TokenColours) => string])[] = [
    ['body', (token) => token.light],
    ['body.vscode-dark', (token) => token.dark],
    ['body.vscode-high-contrast', (token) => token.highContrast],
    ['body.vscode-high-contrast-light', (token) => token.highContrastLight],
  ];
  const rules = themes.map(([selector, colour]) => {
    const lines = tokens().map(([name, token]) => {
      const editor = token.editorColour === undefined ? undefined : `--vscode-${token.editorColour}`;
      // In high contrast the editor's own line highlight and selection fills would hide what they lie under.
      const own = colour(token);
      return `  ${name}: ${editor && own !== 'none' ? `var(${editor}, ${own})` : own};`;
    });
    return `${selector} {\n${lines.join('\n')}\n}`;
  });
  return `/* From the drawings' tokens. */\n${rules.join('\n')}\n`;
}

/** WCAG 2.2, success criteria 1.4.3 (text) and 1.4.11 (lines). */
function leastContrast(): Readonly<Record<string, number>> {
  const needed: Partial<Record<TokenColours['use'], number>> = { text: 4.5, line: 3 };
  return Object.fromEntries(tokens().flatMap(([name, { use }]) => (needed[use] ? [[name, needed[use]]] : [])));
}

function tokens(): readonly (readonly [name: string, token: TokenColours])[] {
  return (Object.keys(colourTokens) as (keyof typeof colourTokens)[]).map((name) => [
    customProperty(name),
    colourTokens[name],
  ]);
}

interface Budget {
  readonly what: string;
  readonly files: readonly string[];
  /** In kB of 1000 bytes. */
  readonly minified?: number;
  readonly gzip?: number;
}

/** True where every bundle keeps to its budget; says so either way. */
export function checkSizes(): boolean {
  const folder = join(extensionFolder, 'dist');
  const server = loadedAtStart(folder, 'server.mjs');
  const budgets: readonly Budget[] = [
    { what: 'server, as it starts', files: server, minified: 690, gzip: 222 },
    {
      what: 'server, with drawings, writers and forces',
      files: ['server.mjs', ...chunksOf(folder)],
      minified: 1220,
      gzip: 427,
    },
    { what: 'extension', files: ['extension.cjs'], minified: 500 },
    { what: 'pane', files: ['webview.js', 'webview.css'], gzip: 60 },
  ];
  return budgets.map((budget) => checkSize(folder, budget)).every(Boolean);
}

function checkSize(folder: string, { what, files, minified, gzip }: Budget): boolean {
  const contents = files.map((file) => readFileSync(join(folder, file)));
  const size = contents.reduce((sum, bytes) => sum + bytes.length, 0) / 1000;
  const packed = contents.reduce((sum, bytes) => sum + gzipSync(bytes).length, 0) / 1000;
  const kept = size <= (minified ?? Number.POSITIVE_INFINITY) && packed <= (gzip ?? Number.POSITIVE_INFINITY);
  const limit = [minified && `${minified} kB minified`, gzip && `${gzip} kB gzip`].filter(Boolean).join(', ');
  const sizes = `${size.toFixed(0)} kB minified, ${packed.toFixed(0)} kB gzip`;
  console.log(`${kept ? 'ok       ' : 'TOO LARGE'} ${what}: ${sizes} (at most ${limit})`);
  return kept;
}

function chunksOf(folder: string): readonly string[] {
  return readdirSync(join(folder, 'server')).map((name) => `server/${name}`);
}

/** A bundle with what it imports outright, and not what it asks for later. */
function loadedAtStart(folder: string, entry: string): readonly string[] {
  const loaded = new Set([entry]);
  for (const file of loaded) {
    const text = readFileSync(join(folder, file), 'utf8');
    for (const [, path] of text.matchAll(/(?:from|import)"(\.[^"]+)"/g)) {
      loaded.add(posix.join(posix.dirname(file), path ?? ''));
    }
  }
  return [...loaded];
}

if (import.meta.main) {
  const [target] = process.argv.slice(2).filter((argument) => !argument.startsWith('--'));
  if (target !== 'cli' && target !== 'all') {
    console.error('Say what to build: node scripts/build.ts cli|all [--check-size]');
    process.exit(2);
  }
  await buildCli();
  if (target === 'all') await buildExtension();
  if (process.argv.includes('--check-size') && !checkSizes()) process.exitCode = 1;
}
