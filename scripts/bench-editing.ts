/**
 * One key to the findings, over standard input and output, all checks on: our server beside one that does nothing and beside the
 * parser library's own, on the same text in the same run. Also the start, and the heap after many edits.
 * `node scripts/bench-editing.ts [edits]`
 */
import { type ChildProcess, spawn } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import process from 'node:process';
import { build } from 'esbuild';
import {
  createMessageConnection,
  type MessageConnection,
  StreamMessageReader,
  StreamMessageWriter,
} from 'vscode-jsonrpc/node';
import { houseOf } from '../tests/support/houses/house.ts';
import { buildServer } from './build.ts';

const edits = Number(process.argv[2] ?? 64);
const uri = 'file:///bench/house.sill';
const folder = mkdtempSync(join(tmpdir(), 'sillwright-bench-'));
try {
  const servers = await buildServers();
  for (const lines of [1_000, 10_000]) await benchSize(servers, lines);
  await benchStart(servers);
  await benchHeap(servers);
} finally {
  rmSync(folder, { recursive: true, force: true });
}

interface Servers {
  readonly ours: string;
  readonly idle: string;
  readonly stock: string;
}

async function buildServers(): Promise<Servers> {
  await buildServer(join(folder, 'ours'));
  for (const name of ['idle', 'stock']) {
    await build({
      entryPoints: [join(import.meta.dirname, `baselines/${name}-server.ts`)],
      outfile: join(folder, `${name}.mjs`),
      bundle: true,
      minify: true,
      platform: 'node',
      format: 'esm',
      logLevel: 'error',
      banner: {
        js: "import { createRequire as makeRequire } from 'node:module';\nconst require = makeRequire(import.meta.url);",
      },
    });
  }
  return { ours: join(folder, 'ours/server.mjs'), idle: join(folder, 'idle.mjs'), stock: join(folder, 'stock.mjs') };
}

/** Houses one after the other, their walls renamed apart, until there are so many lines. */
function textOf(lines: number): string {
  const parts: string[] = [];
  let count = 0;
  for (let seed = 1; count < lines; seed += 1) {
    const { text } = houseOf(seed, { design: true });
    const own = text
      .split('\n')
      // One house has one title; the walls of the others are inside walls to it, which changes no work per wall.
      .filter((line) => seed === 1 || !/^(layout|house|seismic|weights|typical|use)\b/.test(line))
      .map((line) =>
        line
          .replace(/^(wall|girder|line|space) ([A-Za-z0-9-]+)/, `$1 H${seed}-$2`)
          .replace(/^work on ([A-Za-z0-9-]+)/, `work on H${seed}-$1`),
      );
    parts.push(...own);
    count += own.length;
  }
  return `${parts.slice(0, lines).join('\n')}\n`;
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

/** Times of one key each, in milliseconds: a digit in the middle of the text, written and taken back. */
async function timesOfEdits(
  { connection, published }: Client,
  text: string,
  count: number,
): Promise<readonly number[]> {
  const opened = published(1);
  void connection.sendNotification('textDocument/didOpen', {
    textDocument: { uri, languageId: 'sillwright', version: 1, text },
  });
  await opened;
  const lines = text.split('\n');
  const isAnchor = /^\s+anchor\s+\S+-\d+\s+\S+\s+at\s+(?=\d)/;
  const middle = lines.findIndex((line, index) => index > lines.length / 2 && isAnchor.test(line));
  const column = isAnchor.exec(lines[middle] ?? '')?.[0].length;
  if (column === undefined) throw new Error('no anchor in the second half of the text');
  const times: number[] = [];
  for (let version = 2; version < count + 2; version += 1) {
    const isBack = version % 2 === 1;
    const range = {
      start: { line: middle, character: column },
      end: { line: middle, character: column + (isBack ? 1 : 0) },
    };
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

async function benchSize(servers: Servers, lines: number): Promise<void> {
  const text = textOf(lines);
  const results = new Map<string, { readonly median: number; readonly p95: number }>();
  for (const [name, server] of Object.entries(servers) as [keyof Servers, string][]) {
    const client = await start(server);
    const times = await timesOfEdits(client, text, name === 'stock' && lines > 5_000 ? 12 : edits);
    client.child.kill();
    results.set(name, { median: share(times.slice(4), 0.5), p95: share(times.slice(4), 0.95) });
  }
  const [ours, idle, stock] = ['ours', 'idle', 'stock'].map((name) => results.get(name));
  if (!ours || !idle || !stock) throw new Error('a server was not measured');
  console.log(`one key to findings, ${lines} lines (median / p95 ms)`);
  console.log(`  does nothing   ${ms(idle.median)} / ${ms(idle.p95)}`);
  console.log(`  stock library  ${ms(stock.median)} / ${ms(stock.p95)}`);
  console.log(
    `  ours           ${ms(ours.median)} / ${ms(ours.p95)}   ${(ours.median / idle.median).toFixed(1)} x the first, the second is ${(stock.median / ours.median).toFixed(0)} x ours`,
  );
}

async function benchStart(servers: Servers): Promise<void> {
  const cache = join(folder, 'compile-cache');
  const once = async (server: string): Promise<number> => {
    process.env.NODE_COMPILE_CACHE = cache;
    const began = performance.now();
    const client = await start(server);
    const time = performance.now() - began;
    await client.connection.sendRequest('shutdown');
    await client.connection.sendNotification('exit');
    await new Promise((resolve) => client.child.once('exit', resolve));
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
async function benchHeap(servers: Servers): Promise<void> {
  const teller = `process.on('SIGUSR2', () => { gc(); console.error(process.memoryUsage().heapUsed); });`;
  const flags = ['--expose-gc', '--import', `data:text/javascript,${encodeURIComponent(teller)}`];
  const client = await start(servers.ours, flags, 'pipe');
  const heap = (): Promise<number> =>
    new Promise((resolve) => {
      client.child.stderr?.once('data', (chunk: Buffer) => resolve(Number(chunk.toString()) / 1e6));
      client.child.kill('SIGUSR2');
    });
  await timesOfEdits(client, textOf(10_000), 64);
  console.log(`heap with 10 000 lines open after 64 edits: ${(await heap()).toFixed(1)} MB`);
  client.child.kill();
}

function share(times: readonly number[], part: number): number {
  const sorted = times.toSorted((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * part))] ?? 0;
}

function ms(time: number): string {
  return time.toFixed(1);
}
