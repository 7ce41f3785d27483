import process from 'node:process';
import {
  type Connection,
  createConnection,
  type Diagnostic,
  type Message,
  ProposedFeatures,
  type PublishDiagnosticsParams,
  StreamMessageReader,
  StreamMessageWriter,
} from 'vscode-languageserver/node';
import { placesBefore } from '../../language/domain/list-in-runs.ts';

/**
 * The editor at the other end of standard input and output. All findings of a file are sent after every key, and most are the same
 * as before: only the others are written out.
 */
export function stdioConnection(): Connection {
  const reader = new StreamMessageReader(process.stdin);
  const encoded = messageEncoder();
  const writer = new StreamMessageWriter(process.stdout, {
    charset: 'utf-8',
    contentTypeEncoder: { name: 'application/json', encode: async (message) => encoded(message) },
  });
  const connection = createConnection(ProposedFeatures.all, reader, writer);
  let saidGoodbye = false;
  connection.onShutdown(() => {
    saidGoodbye = true;
  });
  // An editor that is gone asks for nothing more.
  process.stdin.once('close', () => process.exit(saidGoodbye ? 0 : 1));
  return connection;
}

/** Puts messages into bytes, one after the other. Of the findings of a file, only those are written out that were not in the last. */
export function messageEncoder(): (message: Message) => Uint8Array {
  const written = new Map<string, Written>();
  return (message) => {
    if (!('method' in message) || message.method !== 'textDocument/publishDiagnostics' || !('params' in message)) {
      return Buffer.from(JSON.stringify(message));
    }
    const { diagnostics, ...about } = message.params as PublishDiagnosticsParams;
    // What stands around the list: `…"diagnostics":[` and `]}}`.
    const around = JSON.stringify({ ...message, params: { ...about, diagnostics: [] } });
    const cut = around.length - ']}}'.length;
    const head = Buffer.from(around.slice(0, cut));
    const { parts, ends } = partsOf(diagnostics, written.get(about.uri) ?? nothingWritten, head.length);
    const bytes = Buffer.concat([head, ...parts, Buffer.from(around.slice(cut))]);
    if (diagnostics.length === 0) written.delete(about.uri);
    else written.set(about.uri, { diagnostics, start: head.length, ends, bytes });
    return bytes;
  };
}

/** The list of one file as it went out last. */
interface Written {
  readonly diagnostics: readonly Diagnostic[];
  /** Where the first of them begins in the bytes. */
  readonly start: number;
  /** Where each of them ends. Between two stands a comma. */
  readonly ends: readonly number[];
  readonly bytes: Buffer;
}
const nothingWritten: Written = { diagnostics: [], start: 0, ends: [], bytes: Buffer.alloc(0) };
const comma = Buffer.from(',');

/** The list in bytes: runs of it that stand in the list before are taken from there. */
function partsOf(
  diagnostics: readonly Diagnostic[],
  before: Written,
  start: number,
): { readonly parts: readonly Uint8Array[]; readonly ends: readonly number[] } {
  const stoodBefore = placesBefore(before.diagnostics, diagnostics);
  const parts: Uint8Array[] = [];
  const ends: number[] = [];
  let reached = start;
  /** Returns where it begins. */
  const add = (bytes: Uint8Array): number => {
    if (parts.length > 0) {
      parts.push(comma);
      reached += 1;
    }
    parts.push(bytes);
    reached += bytes.length;
    return reached - bytes.length;
  };
  for (let index = 0; index < diagnostics.length; ) {
    const from = stoodBefore[index] ?? -1;
    if (from < 0) {
      add(Buffer.from(JSON.stringify(diagnostics[index])));
      ends.push(reached);
      index += 1;
      continue;
    }
    let to = from;
    for (; index < diagnostics.length && stoodBefore[index] === to; index += 1) to += 1;
    const begin = from === 0 ? before.start : (before.ends[from - 1] ?? 0) + comma.length;
    const moved = add(before.bytes.subarray(begin, before.ends[to - 1])) - begin;
    for (let each = from; each < to; each += 1) ends.push((before.ends[each] ?? 0) + moved);
  }
  return { parts, ends };
}
