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

/**
 * The editor at the other end of standard input and output. All findings of a file are sent after every key, and most are the same
 * as before: each is written out once.
 */
export function stdioConnection(): Connection {
  const reader = new StreamMessageReader(process.stdin);
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

function encoded(message: Message): Uint8Array {
  if (!('method' in message) || message.method !== 'textDocument/publishDiagnostics' || !('params' in message)) {
    return Buffer.from(JSON.stringify(message));
  }
  const { diagnostics, ...about } = message.params as PublishDiagnosticsParams;
  // What stands around the list: `…"diagnostics":[` and `]}}`.
  const around = JSON.stringify({ ...message, params: { ...about, diagnostics: [] } });
  const cut = around.length - ']}}'.length;
  const parts: Uint8Array[] = [Buffer.from(around.slice(0, cut))];
  for (const [index, diagnostic] of diagnostics.entries()) {
    if (index > 0) parts.push(comma);
    parts.push(encodedDiagnostic(diagnostic));
  }
  parts.push(Buffer.from(around.slice(cut)));
  return Buffer.concat(parts);
}

const comma = Buffer.from(',');
const known = new WeakMap<Diagnostic, Uint8Array>();

function encodedDiagnostic(diagnostic: Diagnostic): Uint8Array {
  const before = known.get(diagnostic);
  if (before) return before;
  const bytes = Buffer.from(JSON.stringify(diagnostic));
  known.set(diagnostic, bytes);
  return bytes;
}
