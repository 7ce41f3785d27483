/**
 * One key to the findings, over standard input and output, all checks on: our server beside one that does nothing and beside the
 * parser library's own, on the same text in the same run. Also the start, the heap after many edits, how long a request waits
 * behind an edit, and how long one that is taken back while a text is read for the first time. `steady` edits 5 000 times, at many
 * places, and takes minutes. `node scripts/bench-editing.ts [edits] [--part editing|start|heap|steady|waiting] [--lines N]  [--only ours,idle]
 * [--profile FOLDER]`
 */
import { type ChildProcess, spawn } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import process from 'node:process';
import { parseArgs } from 'node:util';
import { type BuildOptions, build } from 'esbuild';
import {
  CancellationTokenSource,
  createMessageConnection,
  type MessageConnection,
  StreamMessageReader,
  StreamMessageWriter,
} from 'vscode-jsonrpc/node';
import { longHouseOf } from '../tests/support/houses/long-house.ts';
import { buildServer } from './build.ts';
import { modulesOfLibrary } from './library-generator.ts';

const { values: asked, positionals } = parseArgs({
  options: {
    part: { type: 'string', multiple: true, default: ['editing', 'start', 'heap', 'waiting'] },
    lines: { type: 'string', multiple: true, default: ['1000', '10000'] },
    only: { type: 'string', default: 'ours,idle,stock' },
    profile: { type: 'string' },
  },
  allowPositionals: true,
});
const edits = Number(positionals[0] ?? 64);
const uri = 'file:///bench/house.sill';
const folder = mkdtempSync(join(tmpdir(), 'sillwright-bench-'));
try {
  const servers = await buildServers(asked.only.split(','));
  for (const part of asked.part) {
    if (part === 'editing') for (const lines of asked.lines) await benchSize(servers, Number(lines));
    else if (part === 'start') await benchStart(servers);
    else if (part === 'heap') await benchHeap(servers, 64);
    else if (part === 'steady') await benchHeap(servers, 5_000);
    else if (part === 'waiting')
      for (const lines of asked.lines) {
        await benchWaiting(servers, Number(lines));
        await benchTakingBack(servers, Number(lines));
      }
    else throw new Error(`there is no part ${part}`);
  }
} finally {
  rmSync(folder, { recursive: true, force: true });
}

/** Paths; those that were not asked for are missing. */
type Servers = Partial<Record<'ours' | 'idle' | 'stock', string>>;

async function buildServers(names: readonly string[]): Promise<Servers> {
  const servers: Servers = {};
  if (names.includes('ours')) {
    await buildServer(join(folder, 'ours'));
    servers.ours = join(folder, 'ours/server.mjs');
  }
  const baselines = join(import.meta.dirname, 'baselines');
  if (names.includes('idle'))
    servers.idle = await buildBaseline('idle', { entryPoints: [join(baselines, 'idle-server.ts')] });
  if (names.includes('stock')) {
    const { ast, grammar } = await modulesOfLibrary();
    writeFileSync(join(folder, 'ast.ts'), ast);
    writeFileSync(join(folder, 'grammar.ts'), grammar);
    const contents = `import { SillwrightAstReflection } from '${join(folder, 'ast.ts')}';
import { SillwrightGrammar } from '${join(folder, 'grammar.ts')}';
import { startStockServer } from './stock-server.ts';
startStockServer(SillwrightGrammar(), new SillwrightAstReflection());`;
    servers.stock = await buildBaseline('stock', { stdin: { contents, resolveDir: baselines, loader: 'ts' } });
  }
  return servers;
}

async function buildBaseline(name: string, entry: BuildOptions): Promise<string> {
  const outfile = join(folder, `${name}.mjs`);
  await build({
    ...entry,
    outfile,
    ...{ bundle: true, minify: true, platform: 'node', format: 'esm', logLevel: 'error' },
    nodePaths: [join(import.meta.dirname, '../node_modules')],
    banner: {
      js: "import { createRequire as makeRequire } from 'node:module';\nconst require = makeRequire(import.meta.url);",
    },
  });
  return outfile;
}

interface Client {
  readonly connection: MessageConnection;
  readonly child: ChildProcess;
  published(version: number): Promise<void>;
}

async function start(
  server: string,
  flags: readonly string[] = [],
  errors: 'inherit' | 'pipe' = 'inherit',
): Promise<Client> {
  const child = spawn(process.execPath, [...flags, server, '--stdio'], { stdio: ['pipe', 'pipe', errors] });
  if (!child.stdin || !child.stdout) throw new Error('the server has no streams');
  const connection = createMessageConnection(
    new StreamMessageReader(child.stdout),
    new StreamMessageWriter(child.stdin),
  );
  const waiting = new Map<number, () => void>();
  connection.onNotification('textDocument/publishDiagnostics', ({ version }: { readonly version?: number }) => {
    // The stock server does not say which text it is about; it is sent the next one only when it has answered.
    if (version !== undefined) waiting.get(version)?.();
    else for (const done of waiting.values()) done();
  });
  connection.onRequest(() => null);
  connection.listen();
  await connection.sendRequest('initialize', {
    processId: process.pid,
    rootUri: null,
    workspaceFolders: null,
    capabilities: {},
  });
  await connection.sendNotification('initialized', {});
  return { connection, child, published: (version) => new Promise((resolve) => waiting.set(version, resolve)) };
}

/**
 * Times of one key each, in milliseconds: a digit in the middle of the text, written and taken back. Where it is to happen at many
 * places, the next pair of keys goes to another one.
 */
async function timesOfEdits(
  { connection, published }: Client,
  text: string,
  count: number,
  places: 'one' | 'many' = 'one',
): Promise<readonly number[]> {
  const opened = published(1);
  void connection.sendNotification('textDocument/didOpen', {
    textDocument: { uri, languageId: 'sillwright', version: 1, text },
  });
  await opened;
  const anchors = stationsIn(text);
  const middle = anchors.findIndex(({ line }) => line > text.split('\n').length / 2);
  if (middle < 0) throw new Error('no anchor in the second half of the text');
  const times: number[] = [];
  for (let version = 2; version < count + 2; version += 1) {
    const isBack = version % 2 === 1;
    const next = places === 'many' ? Math.floor(version / 2) * 37 : 0;
    const { line, character } = anchors[(middle + next) % anchors.length] ?? { line: 0, character: 0 };
    const range = { start: { line, character }, end: { line, character: character + (isBack ? 1 : 0) } };
    const done = published(version);
    const began = performance.now();
    void connection.sendNotification('textDocument/didChange', {
      textDocument: { uri, version },
      contentChanges: [{ range, text: isBack ? '' : '1' }],
    });
    await done;
    times.push(performance.now() - began);
    // The next key comes when the hand has moved.
    await new Promise((resolve) => setTimeout(resolve, 5));
  }
  return times;
}

/** Where the stations of new anchors begin. */
function stationsIn(text: string): readonly { readonly line: number; readonly character: number }[] {
  const anchor = /^\s+anchor\s+\S+-\d+\s+\S+\s+at\s+(?=\d)/;
  return text.split('\n').flatMap((each, line) => {
    const character = anchor.exec(each)?.[0].length;
    return character === undefined ? [] : [{ line, character }];
  });
}

async function benchSize(servers: Servers, lines: number): Promise<void> {
  const text = longHouseOf(lines);
  const medians = new Map<string, number>();
  console.log(`one key to findings, ${lines} lines (median / p95 ms)`);
  for (const [name, server] of Object.entries(servers)) {
    const flags = asked.profile && name === 'ours' ? ['--cpu-prof', `--cpu-prof-dir=${asked.profile}`] : [];
    const client = await start(server, flags);
    const times = (await timesOfEdits(client, text, name === 'stock' && lines > 5_000 ? 12 : edits)).slice(4);
    await stop(client);
    medians.set(name, share(times, 0.5));
    console.log(`  ${name.padEnd(6)} ${ms(share(times, 0.5))} / ${ms(share(times, 0.95))}`);
  }
  const [ours, idle, stock] = ['ours', 'idle', 'stock'].map((name) => medians.get(name));
  if (ours && idle) console.log(`  ours is ${(ours / idle).toFixed(1)} x the one that does nothing`);
  if (ours && stock) console.log(`  the parser library's own takes ${(stock / ours).toFixed(0)} x ours`);
}

async function benchStart(servers: Servers): Promise<void> {
  const cache = join(folder, 'compile-cache');
  const once = async (server: string): Promise<number> => {
    process.env.NODE_COMPILE_CACHE = cache;
    const began = performance.now();
    const client = await start(server);
    const time = performance.now() - began;
    await stop(client);
    return time;
  };
  const medians = new Map<string, number>();
  for (const [name, server] of Object.entries(servers)) {
    await once(server);
    const times: number[] = [];
    for (let run = 0; run < 9; run += 1) times.push(await once(server));
    medians.set(name, share(times, 0.5));
  }
  delete process.env.NODE_COMPILE_CACHE;
  const [ours = 0, idle = 0, stock = 0] = ['ours', 'idle', 'stock'].map((name) => medians.get(name) ?? 0);
  console.log(
    `start to the answer of initialize, compile cache, second start and on: ${ms(ours)} ms; does nothing ${ms(idle)}, stock ${ms(stock)}: ${(ours / idle).toFixed(1)} x the one that does nothing`,
  );
}

/** A server that says its heap on its error stream when it is asked by a signal. */
async function benchHeap({ ours }: Servers, count: number): Promise<void> {
  if (!ours) return;
  const teller = `process.on('SIGUSR2', () => { gc(); console.error(process.memoryUsage().heapUsed); });`;
  const flags = ['--expose-gc', '--import', `data:text/javascript,${encodeURIComponent(teller)}`];
  const client = await start(ours, flags, 'pipe');
  const heap = (): Promise<string> =>
    new Promise((resolve) => {
      client.child.stderr?.once('data', (chunk: Buffer) => resolve((Number(chunk.toString()) / 1e6).toFixed(1)));
      client.child.kill('SIGUSR2');
    });
  const text = longHouseOf(10_000);
  const heaps: string[] = [];
  for (let done = 0; done < count; done += Math.min(count, 1_000)) {
    await timesOfEdits(client, text, Math.min(count, 1_000), count > 1_000 ? 'many' : 'one');
    heaps.push(await heap());
    await client.connection.sendNotification('textDocument/didClose', { textDocument: { uri } });
  }
  console.log(`heap with 10 000 lines open after ${count} edits: ${heaps.join(', ')} MB`);
  client.child.kill();
}

/** How long a request waits that comes right behind an edit: it is answered of the new text. */
async function benchWaiting({ ours }: Servers, lines: number): Promise<void> {
  if (!ours) return;
  const client = await start(ours);
  const text = longHouseOf(lines);
  await timesOfEdits(client, text, 24);
  const waits: number[] = [];
  for (let version = 100; version < 130; version += 1) {
    const done = client.published(version);
    const range = { start: { line: lines, character: 0 }, end: { line: lines, character: 0 } };
    const began = performance.now();
    void client.connection.sendNotification('textDocument/didChange', {
      textDocument: { uri, version },
      contentChanges: [{ range, text: ' ' }],
    });
    await client.connection.sendRequest('textDocument/hover', {
      textDocument: { uri },
      position: { line: 1, character: 4 },
    });
    waits.push(performance.now() - began);
    await done;
  }
  client.child.kill();
  console.log(`request right behind an edit, ${lines} lines: ${ms(share(waits, 0.5))} / ${ms(share(waits, 0.95))} ms`);
}

/** How long it takes until a request is answered that is taken back while a text is read for the first time. */
async function benchTakingBack({ ours, idle }: Servers, lines: number): Promise<void> {
  const text = longHouseOf(lines);
  const told: string[] = [];
  for (const server of [ours, idle]) {
    if (!server) continue;
    const waits: number[] = [];
    // Each time in a server of its own, where nothing is warm.
    for (let run = 0; run < 4; run += 1) {
      const { connection, child, published } = await start(server);
      let isRead = false;
      void published(1).then(() => {
        isRead = true;
      });
      void connection.sendNotification('textDocument/didOpen', {
        textDocument: { uri, languageId: 'sillwright', version: 1, text },
      });
      for (let request = 0; request < 24 && (server === idle || !isRead); request += 1) {
        const source = new CancellationTokenSource();
        const params = { textDocument: { uri }, position: { line: 1, character: 4 } };
        const answer = connection.sendRequest('textDocument/hover', params, source.token).then(
          () => server === idle,
          () => true,
        );
        await new Promise((resolve) => setTimeout(resolve, 3));
        const began = performance.now();
        source.cancel();
        // What was answered before it was taken back tells nothing.
        if (await answer) waits.push(performance.now() - began);
        await new Promise((resolve) => setTimeout(resolve, 20));
      }
      child.kill();
    }
    const name = server === idle ? 'does nothing' : 'ours';
    told.push(`${name} ${ms(share(waits, 0.5))} / ${ms(share(waits, 0.95))} ms (${waits.length} requests)`);
  }
  console.log(`request taken back during the first reading, ${lines} lines: ${told.join('; ')}`);
}

async function stop({ connection, child }: Client): Promise<void> {
  await connection.sendRequest('shutdown');
  await connection.sendNotification('exit');
  await new Promise((resolve) => child.once('exit', resolve));
}

function share(times: readonly number[], part: number): number {
  const sorted = times.toSorted((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * part))] ?? 0;
}

function ms(time: number): string {
  return time.toFixed(1);
}
