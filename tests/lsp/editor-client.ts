import { type ChildProcess, spawn } from 'node:child_process';
import { join } from 'node:path';
import { PassThrough, type Readable, type Writable } from 'node:stream';
import { pathToFileURL } from 'node:url';
import { createConnection } from 'vscode-languageserver/node';
import {
  type ClientCapabilities,
  type CodeAction,
  createProtocolConnection,
  type Diagnostic,
  type DocumentSymbol,
  type Hover,
  type Position,
  type ProtocolConnection,
  type PublishDiagnosticsParams,
  type Range,
  type RegistrationParams,
  StreamMessageReader,
  StreamMessageWriter,
  type TextEdit,
  type WorkspaceEdit,
} from 'vscode-languageserver-protocol/node';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { type ServerParts, startServer } from '../../server/src/start.ts';

/** An editor at the other end of the connection: keeps its texts, and everything that the server said. */
export interface EditorClient {
  readonly connection: ProtocolConnection;
  /** Every publication, in order. */
  readonly published: readonly PublishDiagnosticsParams[];
  /** What the server wrote to its log. */
  readonly logged: readonly string[];
  /** Methods that the server asked to be told of. */
  readonly registered: readonly string[];
  open(uri: string, text: string, version?: number): void;
  /** Replaces the first occurrence of a text; returns the new version. */
  change(uri: string, from: string, to: string): number;
  close(uri: string): void;
  /** Notifications in one piece, as they arrive when the server was busy meanwhile. They are not applied to the texts here. */
  sendAtOnce(notifications: readonly { readonly method: string; readonly params: unknown }[]): void;
  text(uri: string): string;
  version(uri: string): number;
  /** The first publication for this file, made already or yet to come, that fits. */
  publication(uri: string, fits?: (params: PublishDiagnosticsParams) => boolean): Promise<PublishDiagnosticsParams>;
  codeActions(
    uri: string,
    range: Range,
    diagnostics?: readonly Diagnostic[],
    only?: readonly string[],
  ): Promise<readonly CodeAction[]>;
  hover(uri: string, position: Position): Promise<Hover | null>;
  symbols(uri: string): Promise<readonly DocumentSymbol[]>;
  format(uri: string): Promise<readonly TextEdit[]>;
  /** Applies an edit to the open texts, as an editor does; refuses one that is for another version. */
  apply(edit: WorkspaceEdit): void;
  /** The position of the first occurrence, or of the place after it. */
  place(uri: string, text: string, at?: 'start' | 'end'): Position;
  /** Chooses settings, as a person does under `sillwright.`. */
  set(chosen: Readonly<Record<string, unknown>>): Promise<void>;
  stop(): Promise<void>;
}

export const workspace = '/house';
export const fileUri = (name: string): string => pathToFileURL(join(workspace, name)).toString();

const main = join(import.meta.dirname, '../../server/src/main-node.ts');
const fromSource: readonly string[] = ['--disable-warning=ExperimentalWarning', main, '--stdio'];

/** The server as it is shipped to an editor, in a process of its own, over stdio. */
export async function startRealServer(folder: string, words: readonly string[] = fromSource): Promise<EditorClient> {
  const child: ChildProcess = spawn(process.execPath, words, {
    stdio: ['pipe', 'pipe', 'pipe'],
  });
  if (!child.stdout || !child.stdin || !child.stderr) throw new Error('the server has no streams');
  let trouble = '';
  child.stderr.on('data', (chunk: Buffer) => {
    trouble += chunk.toString();
  });
  const ended = new Promise<void>((resolve) => child.on('exit', () => resolve()));
  const client = await connect(child.stdout, child.stdin, pathToFileURL(folder).toString());
  return {
    ...client,
    async stop() {
      await client.stop();
      await ended;
      if (trouble !== '') throw new Error(`the server wrote to its error stream:\n${trouble}`);
    },
  };
}

/** The same server in this process, with parts of the test's choice. */
export async function startServerHere(
  parts: ServerParts,
  capabilities?: ClientCapabilities,
  wishes?: object,
): Promise<EditorClient> {
  const toServer = new PassThrough();
  const toClient = new PassThrough();
  startServer(createConnection(new StreamMessageReader(toServer), new StreamMessageWriter(toClient)), parts);
  return connect(toClient, toServer, pathToFileURL(workspace).toString(), capabilities, wishes);
}

/** What the editor says that it can do, unless a test says otherwise. */
const usual: ClientCapabilities = {
  textDocument: {
    publishDiagnostics: { relatedInformation: true, codeDescriptionSupport: true, versionSupport: true },
    codeAction: { codeActionLiteralSupport: { codeActionKind: { valueSet: ['quickfix', 'source'] } } },
    completion: { completionItem: { snippetSupport: true } },
  },
  workspace: { configuration: true, inlayHint: { refreshSupport: true } },
};

async function connect(
  from: Readable,
  to: Writable,
  folder: string,
  capabilities: ClientCapabilities = usual,
  wishes: object = { rulePages: 'file:///pages/' },
): Promise<EditorClient> {
  const connection = createProtocolConnection(new StreamMessageReader(from), new StreamMessageWriter(to));
  const documents = new Map<string, TextDocument>();
  const published: PublishDiagnosticsParams[] = [];
  const logged: string[] = [];
  const registered: string[] = [];
  const waiting = new Set<() => void>();
  let settings: Readonly<Record<string, unknown>> = {};
  let taken = (): void => {};
  connection.onNotification('textDocument/publishDiagnostics', (params: PublishDiagnosticsParams) => {
    published.push(params);
    for (const look of waiting) look();
  });
  connection.onNotification(
    'window/logMessage',
    (params: { readonly message: string }) => void logged.push(params.message),
  );
  connection.onRequest('client/registerCapability', ({ registrations }: RegistrationParams) => {
    registered.push(...registrations.map(({ method }) => method));
    return null;
  });
  connection.onRequest('workspace/configuration', ({ items }: { readonly items: readonly unknown[] }) =>
    items.map(() => settings),
  );
  // The server asks for its hints to be shown anew once it has taken the settings.
  connection.onRequest('workspace/inlayHint/refresh', () => {
    taken();
    return null;
  });
  connection.listen();
  await connection.sendRequest('initialize', {
    processId: process.pid,
    rootUri: folder,
    workspaceFolders: [{ uri: folder, name: 'house' }],
    initializationOptions: wishes,
    capabilities,
  });
  await connection.sendNotification('initialized', {});

  function document(uri: string): TextDocument {
    const found = documents.get(uri);
    if (!found) throw new Error(`${uri} is not open`);
    return found;
  }
  function update(uri: string, edits: readonly TextEdit[]): number {
    const before = document(uri);
    // An editor sends the changes of one version so that each is for the text after those before it: from the end.
    const changes = [...edits]
      .sort((a, b) => before.offsetAt(b.range.start) - before.offsetAt(a.range.start))
      .map(({ range, newText }) => ({ range, text: newText }));
    const version = before.version + 1;
    const after = TextDocument.create(uri, 'sillwright', version, TextDocument.applyEdits(before, [...edits]));
    documents.set(uri, after);
    void connection.sendNotification('textDocument/didChange', {
      textDocument: { uri, version },
      contentChanges: changes,
    });
    return version;
  }

  return {
    connection,
    published,
    logged,
    registered,
    open(uri, text, version = 1) {
      documents.set(uri, TextDocument.create(uri, 'sillwright', version, text));
      const textDocument = { uri, languageId: 'sillwright', version, text };
      void connection.sendNotification('textDocument/didOpen', { textDocument });
    },
    change(uri, from, to) {
      const start = document(uri).getText().indexOf(from);
      if (start < 0) throw new Error(`${from} is not in ${uri}`);
      const range = {
        start: document(uri).positionAt(start),
        end: document(uri).positionAt(start + from.length),
      };
      return update(uri, [{ range, newText: to }]);
    },
    close(uri) {
      documents.delete(uri);
      void connection.sendNotification('textDocument/didClose', { textDocument: { uri } });
    },
    sendAtOnce(notifications) {
      const messages = notifications.map((each) => {
        const content = JSON.stringify({ jsonrpc: '2.0', ...each });
        return `Content-Length: ${Buffer.byteLength(content)}\r\n\r\n${content}`;
      });
      to.write(messages.join(''));
    },
    text: (uri) => document(uri).getText(),
    version: (uri) => document(uri).version,
    publication(uri, fits = () => true) {
      return new Promise((resolve) => {
        const look = (): void => {
          const found = published.find((params) => params.uri === uri && fits(params));
          if (!found) return;
          waiting.delete(look);
          resolve(found);
        };
        waiting.add(look);
        look();
      });
    },
    codeActions: async (uri, range, diagnostics = [], only) =>
      (await connection.sendRequest<CodeAction[] | null>('textDocument/codeAction', {
        textDocument: { uri },
        range,
        context: { diagnostics, ...(only ? { only } : {}) },
      })) ?? [],
    hover: (uri, position) =>
      connection.sendRequest<Hover | null>('textDocument/hover', { textDocument: { uri }, position }),
    symbols: async (uri) =>
      (await connection.sendRequest<DocumentSymbol[] | null>('textDocument/documentSymbol', {
        textDocument: { uri },
      })) ?? [],
    format: async (uri) =>
      (await connection.sendRequest<TextEdit[] | null>('textDocument/formatting', {
        textDocument: { uri },
        options: { tabSize: 2, insertSpaces: true },
      })) ?? [],
    apply(edit) {
      for (const change of edit.documentChanges ?? []) {
        if (!('textDocument' in change)) throw new Error('only changes of text are expected');
        const { uri, version } = change.textDocument;
        if (version !== null && version !== document(uri).version)
          throw new Error(`the edit is for version ${version}`);
        update(uri, change.edits as TextEdit[]);
      }
    },
    place(uri, text, at = 'start') {
      const start = document(uri).getText().indexOf(text);
      if (start < 0) throw new Error(`${text} is not in ${uri}`);
      return document(uri).positionAt(at === 'start' ? start : start + text.length);
    },
    async set(chosen) {
      settings = chosen;
      const isTaken = new Promise<void>((resolve) => {
        taken = resolve;
      });
      await connection.sendNotification('workspace/didChangeConfiguration', { settings: {} });
      await isTaken;
    },
    async stop() {
      await connection.sendRequest('shutdown');
      await connection.sendNotification('exit');
      connection.dispose();
    },
  };
}
