import process from 'node:process';
import type { Writable } from 'node:stream';
import {
  type Connection,
  createConnection,
  type Diagnostic,
  Emitter,
  type Message,
  type MessageWriter,
  ProposedFeatures,
  type PublishDiagnosticsParams,
  StreamMessageReader,
} from 'vscode-languageserver/node';
import { placesBefore } from '../../language/domain/list-in-runs.ts';

/**
 * The editor at the other end of standard input and output. All findings of a file are sent after every key, and most are the same
 * as before: only the others are written out.
 */
export function stdioConnection(): Connection {
  const reader = new StreamMessageReader(process.stdin);
  const connection = createConnection(ProposedFeatures.all, reader, messageWriter(process.stdout));
  let saidGoodbye = false;
  connection.onShutdown(() => {
    saidGoodbye = true;
  });
  // An editor that is gone asks for nothing more.
  process.stdin.once('close', () => process.exit(saidGoodbye ? 0 : 1));
  return connection;
}

/**
 * Writes each message at once and whole. The library's own writer waits a turn before each and writes heading and message apart,
 * which is half a millisecond of each key.
 */
export function messageWriter(stream: Writable): MessageWriter {
  const errors = new Emitter<[Error, Message | undefined, number | undefined]>();
  const ends = new Emitter<void>();
  const encode = messageEncoder();
  let failures = 0;
  stream.on('error', (error) => errors.fire([error, undefined, undefined]));
  stream.on('close', () => ends.fire());
  return {
    onError: errors.event,
    onClose: ends.event,
    write: (message) =>
      new Promise((resolve, reject) => {
        const { bytes, sent } = encode(message);
        stream.write(bytes, (error) => {
          sent();
          if (!error) return resolve();
          failures += 1;
          errors.fire([error, message, failures]);
          reject(error);
        });
      }),
    end: () => void stream.end(),
    dispose() {
      errors.dispose();
      ends.dispose();
    },
  };
}

/** A message in bytes, with its heading. */
export interface Encoded {
  readonly bytes: Uint8Array;
  /** To be called when they have gone out: until then nothing else may be written in their place. */
  readonly sent: () => void;
}

/** Puts messages into bytes, one after the other. Of the findings of a file, only those are written out that were not in the last. */
export function messageEncoder(): (message: Message) => Encoded {
  const written = new Map<string, Written>();
  return (message) => {
    if (!('method' in message) || message.method !== 'textDocument/publishDiagnostics' || !('params' in message)) {
      const content = Buffer.from(JSON.stringify(message));
      return { bytes: Buffer.concat([headingFor(content.length), content]), sent: () => undefined };
    }
    const { diagnostics, ...about } = message.params as PublishDiagnosticsParams;
    // What stands around the list: `…"diagnostics":[` and `]}}`.
    const around = JSON.stringify({ ...message, params: { ...about, diagnostics: [] } });
    const cut = around.length - ']}}'.length;
    const [front, back] = [Buffer.from(around.slice(0, cut)), Buffer.from(around.slice(cut))];
    const before = written.get(about.uri) ?? nothingWritten;
    const { parts, ends, length } = partsOf(diagnostics, before);
    const content = front.length + length + back.length;
    const heading = headingFor(content);
    const store = storeFor(heading.length + content, before.spare);
    const bytes = joinedIn(store, [heading, front, ...parts, back]);
    if (diagnostics.length === 0) written.delete(about.uri);
    else {
      const list = bytes.subarray(heading.length + front.length, bytes.length - back.length);
      written.set(about.uri, { diagnostics, ends, list, store, spare: before.store });
    }
    const sent = (): void => {
      store.isGoingOut = false;
    };
    return { bytes, sent };
  };
}

const headingFor = (length: number): Buffer => Buffer.from(`Content-Length: ${length}\r\n\r\n`);

/** The list of one file as it went out last. */
interface Written {
  readonly diagnostics: readonly Diagnostic[];
  /** Where each of them ends in the bytes of the list. Between two stands a comma. */
  readonly ends: readonly number[];
  readonly list: Buffer;
  readonly store: Store | undefined;
  /** That of the list before, whose bytes nobody needs once they have gone out. */
  readonly spare: Store | undefined;
}
const nothingWritten: Written = {
  diagnostics: [],
  ends: [],
  list: Buffer.alloc(0),
  store: undefined,
  spare: undefined,
};
const comma = Buffer.from(',');

/** Memory for one message. A list is half a megabyte: the system takes longer to hand out so much anew than we to fill it. */
interface Store {
  readonly bytes: Buffer;
  isGoingOut: boolean;
}

function storeFor(length: number, spare: Store | undefined): Store {
  const isEnough = spare && !spare.isGoingOut && spare.bytes.length >= length;
  const store = isEnough ? spare : { bytes: Buffer.allocUnsafeSlow(length + (length >> 3)), isGoingOut: false };
  store.isGoingOut = true;
  return store;
}

function joinedIn({ bytes }: Store, parts: readonly Uint8Array[]): Buffer {
  let reached = 0;
  for (const part of parts) {
    bytes.set(part, reached);
    reached += part.length;
  }
  return bytes.subarray(0, reached);
}

/** The list in bytes: runs of it that stand in the list before are taken from there. */
function partsOf(
  diagnostics: readonly Diagnostic[],
  before: Written,
): { readonly parts: readonly Uint8Array[]; readonly ends: readonly number[]; readonly length: number } {
  const stoodBefore = placesBefore(before.diagnostics, diagnostics);
  const parts: Uint8Array[] = [];
  const ends: number[] = [];
  let reached = 0;
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
      // Such as stand side by side are turned into bytes together. Of ASCII, each character is one.
      const fresh: string[] = [];
      for (; index < diagnostics.length && (stoodBefore[index] ?? -1) < 0; index += 1) {
        fresh.push(inPlainCharacters(JSON.stringify(diagnostics[index])));
      }
      let end = add(Buffer.from(fresh.join(','), 'latin1'));
      for (const { length } of fresh) {
        end += length;
        ends.push(end);
        end += comma.length;
      }
      continue;
    }
    let to = from;
    for (; index < diagnostics.length && stoodBefore[index] === to; index += 1) to += 1;
    const begin = from === 0 ? 0 : (before.ends[from - 1] ?? 0) + comma.length;
    const moved = add(before.list.subarray(begin, before.ends[to - 1])) - begin;
    for (let each = from; each < to; each += 1) ends.push((before.ends[each] ?? 0) + moved);
  }
  return { parts, ends, length: reached };
}

/**
 * The same JSON in ASCII. A single ′ or ° in a thousand findings has the editor read all of them as two bytes a character, which
 * takes a fifth longer.
 */
function inPlainCharacters(json: string): string {
  return json.replace(/[^\0-\x7f]/g, (each) => `\\u${each.charCodeAt(0).toString(16).padStart(4, '0')}`);
}
