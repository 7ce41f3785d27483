import {
  type CancellationToken,
  type ClientCapabilities,
  type Connection,
  DidChangeConfigurationNotification,
  type InitializeResult,
  LSPErrorCodes,
  ResponseError,
  TextDocumentSyncKind,
  TextDocuments,
} from 'vscode-languageserver';
import { TextDocument } from 'vscode-languageserver-textdocument';
import type { Analyser, Analysis, FileHost } from '../../language/analysis.ts';
import type { FileId, SourceSpan } from '../../language/domain/model/source.ts';
import { createAnalyses } from './analyses.ts';
import { type FeatureHooks, rangeOf, type ServerContext, type Settings, type Wishes } from './context.ts';
import { editedDocuments } from './edited-document.ts';
import { codeActions } from './features/code-actions.ts';
import { codeLenses } from './features/code-lenses.ts';
import { completion } from './features/completion.ts';
import { diagnostics } from './features/diagnostics.ts';
import { documentLinks } from './features/document-links.ts';
import { documentSymbols } from './features/document-symbols.ts';
import { drawings } from './features/drawings.ts';
import { editsFromPane } from './features/edits-from-pane.ts';
import { folding } from './features/folding.ts';
import { formatting } from './features/formatting.ts';
import { hover } from './features/hover.ts';
import { inlayHints } from './features/inlay-hints.ts';
import { layoutCounts } from './features/layout-state.ts';
import { names } from './features/names.ts';
import { preview } from './features/preview.ts';
import { ruleSets } from './features/rule-sets.ts';
import { schedule } from './features/schedule.ts';
import { selectionRanges } from './features/selection-ranges.ts';
import { semanticTokens } from './features/semantic-tokens.ts';
import { workspaceSymbols } from './features/workspace-symbols.ts';
import { type AskedOf, patientConnection, type Wait } from './patient-connection.ts';
import { createScheduler, inPauses, timeForOnePart } from './scheduler.ts';
import { createWorkspaceFiles, type ReadFromDisk } from './workspace-files.ts';

export interface ServerParts {
  readonly readFromDisk: ReadFromDisk;
  readonly createAnalyser: (host: FileHost) => Analyser;
  /**
   * Frees what the last key left behind. Called in the pauses of typing: else it is done in the midst of every other key, which makes one
   * key in twenty a sixth longer until the pane is drawn.
   */
  readonly freeYoung?: (() => void) | undefined;
  /** Saves memory at the cost of some speed. Called when a long layout is opened: its text and what is known of it take memory enough. */
  readonly keepLittleCode?: () => void;
}

/** Milliseconds from a key on, within which its findings and drawings are mostly out, and no other key is likely. */
const PAUSE = 60;

/** In lines: past any single house. */
const LONG_LAYOUT = 3_000;

const features = [
  // Told first of an analysis: behind the thousand findings of a large house its pane would wait some ten milliseconds in the pipe.
  preview,
  ...[diagnostics, codeActions, hover, completion, inlayHints, codeLenses],
  ...[documentSymbols, workspaceSymbols, names, documentLinks, folding, selectionRanges, semanticTokens, formatting],
  ...[schedule, drawings, editsFromPane, layoutCounts, ruleSets],
];

const defaultSettings: Settings = { showHints: false };

/** Serves one editor over a connection, whatever carries it. */
export function startServer(connection: Connection, parts: ServerParts): void {
  const documents = new TextDocuments(editedDocuments);
  const files = createWorkspaceFiles((uri) => documents.get(uri), parts.readFromDisk);
  const analyses = createAnalyses(parts.createAnalyser(files), files, reportCrash);
  const context: ServerContext = {
    connection: patientConnection(connection, untilMade),
    documents,
    files,
    analyses,
    client: () => client,
    settings: () => settings,
    wishes: () => wishes,
    documentOf,
    locationOf,
    guarded,
  };
  let client: ClientCapabilities = {};
  let settings = defaultSettings;
  let wishes: Wishes = { rulePages: undefined, findingData: false };
  const hooks: FeatureHooks[] = [];
  const waiting = new Set<FileId>();
  /** Used files that are not open, as the analysis read them. */
  const unopened = new WeakMap<Analysis, Map<FileId, TextDocument>>();
  /** Analysed, and the editor is not told yet. */
  const made = new Set<FileId>();
  const scheduler = createScheduler(analyseWaiting, () => waiting.size + made.size > 0);
  const held = new Set<HeldRequest>();
  const freeSoon = parts.freeYoung && inPauses(parts.freeYoung, PAUSE);

  let foldersMayChange = false;
  connection.onInitialize((params): InitializeResult => {
    client = params.capabilities;
    wishes = wishesFrom(params.initializationOptions);
    foldersMayChange = params.capabilities.workspace?.workspaceFolders === true;
    files.setFolders((params.workspaceFolders ?? []).map((folder) => folder.uri));
    return {
      serverInfo: { name: 'Sillwright' },
      capabilities: Object.assign(
        { textDocumentSync: { openClose: true, change: TextDocumentSyncKind.Incremental } },
        { workspace: { workspaceFolders: { supported: true, changeNotifications: true } } },
        ...features.map((feature) => feature.capabilities),
      ),
    };
  });
  connection.onInitialized(() => {
    void readSettings();
    // Some editors tell of new settings only where they are asked to.
    if (client.workspace?.didChangeConfiguration?.dynamicRegistration === true)
      void connection.client.register(DidChangeConfigurationNotification.type, { section: 'sillwright' });
    if (!foldersMayChange) return;
    connection.workspace.onDidChangeWorkspaceFolders(async () => {
      const folders = (await connection.workspace.getWorkspaceFolders()) ?? [];
      files.setFolders(folders.map((folder) => folder.uri));
      for (const document of documents.all()) textChanged(document.uri);
    });
  });
  connection.onDidChangeConfiguration(() => void readSettings());
  for (const feature of features) {
    const added = feature.register(context);
    if (added) hooks.push(added);
  }

  documents.onDidOpen(({ document }) => {
    if (document.lineCount > LONG_LAYOUT) parts.keepLittleCode?.();
    waiting.add(document.uri);
  });
  documents.onDidChangeContent(({ document }) => textChanged(document.uri));
  documents.onDidClose(({ document }) => {
    analyses.forget(document.uri);
    waiting.delete(document.uri);
    for (const hook of hooks) guarded('closing a file', undefined, () => hook.closed?.(document.uri));
    textChanged(document.uri);
  });
  connection.onDidChangeWatchedFiles(({ changes }) => {
    for (const { uri } of changes) if (!documents.get(uri)) textChanged(uri);
  });
  documents.listen(connection);
  connection.listen();

  async function readSettings(): Promise<void> {
    if (client.workspace?.configuration !== true) return;
    const given: unknown = await connection.workspace.getConfiguration('sillwright');
    settings = settingsFrom(given);
    for (const hook of hooks) guarded('taking new settings', undefined, () => hook.settingsChanged?.());
  }

  function textChanged(file: FileId): void {
    for (const root of analyses.invalidate(file)) waiting.add(root);
    scheduler.request();
    freeSoon?.();
  }

  /** As much as fits into one part: edits that come meanwhile are read before the next, and make what was begun stale. */
  function analyseWaiting(): void {
    const hasTime = timeForOnePart();
    tellOfMade();
    for (const root of waiting) {
      if (!hasTime() || !analyses.goOn(root, hasTime)) break;
      waiting.delete(root);
      made.add(root);
    }
    // Behind a long analysis telling is a part of its own.
    if (hasTime()) tellOfMade();
    answerHeld();
  }

  function tellOfMade(): void {
    // One that was edited meanwhile is analysed again.
    const roots = [...made].filter((root) => analyses.isMade(root));
    made.clear();
    if (roots.length === 0) return;
    for (const hook of hooks) guarded('telling the editor', undefined, () => hook.analysed?.(roots));
  }

  /** Until what is asked about is analysed; mostly it is. */
  function untilMade(asked: AskedOf, token: CancellationToken): Wait | undefined {
    const { file } = asked;
    const document = documents.get(file);
    if (!document || analyses.isMade(file)) return undefined;
    const takenBack = new ResponseError(LSPErrorCodes.RequestCancelled, 'The request was taken back.');
    // Of one that came together with its request, the library says nothing later.
    if (token.isCancellationRequested) return Promise.resolve(takenBack);
    return new Promise((resolve) => {
      const request: HeldRequest = { ...asked, version: document.version, end: resolve };
      held.add(request);
      token.onCancellationRequested(() => {
        if (held.delete(request)) resolve(takenBack);
      });
      waiting.add(file);
      scheduler.request();
    });
  }

  function answerHeld(): void {
    for (const request of held) {
      const document = documents.get(request.file);
      const moved = request.ofPlace && document !== undefined && document.version !== request.version;
      if (!moved && document && !analyses.isMade(request.file)) continue;
      held.delete(request);
      request.end(
        moved ? new ResponseError(LSPErrorCodes.ContentModified, 'The text was edited meanwhile.') : undefined,
      );
    }
  }

  function documentOf(analysis: Analysis, file: FileId): TextDocument {
    const open = documents.get(file);
    if (open) return open;
    const made = unopened.get(analysis) ?? new Map<FileId, TextDocument>();
    unopened.set(analysis, made);
    const document = made.get(file) ?? TextDocument.create(file, 'sillwright', 0, analysis.textOf(file) ?? '');
    made.set(file, document);
    return document;
  }

  function locationOf(analysis: Analysis, span: SourceSpan): ReturnType<ServerContext['locationOf']> {
    const place = analysis.locate(span);
    return place && { uri: place.file, range: rangeOf(documentOf(analysis, place.file), place.start, place.end) };
  }

  function guarded<Result>(what: string, instead: Result, work: () => Result): Result {
    try {
      return work();
    } catch (error) {
      reportCrash(what, error);
      return instead;
    }
  }

  function reportCrash(what: string, error: unknown): void {
    const detail = error instanceof Error ? (error.stack ?? error.message) : String(error);
    connection.console.error(
      `Sillwright failed while ${what}. This is a defect of Sillwright, not of your file.\n${detail}`,
    );
  }
}

interface HeldRequest extends AskedOf {
  readonly version: number;
  readonly end: (instead: ResponseError<void> | undefined) => void;
}

function settingsFrom(given: unknown): Settings {
  if (typeof given !== 'object' || given === null || !('showHints' in given)) return defaultSettings;
  return { showHints: given.showHints === true };
}

function wishesFrom(given: unknown): Wishes {
  const { rulePages, findingData } = (given ?? {}) as Readonly<Record<string, unknown>>;
  return {
    rulePages: typeof rulePages === 'string' ? rulePages.replace(/\/$/, '') : undefined,
    findingData: findingData === true,
  };
}
