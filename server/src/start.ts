import {
  type ClientCapabilities,
  type Connection,
  type InitializeResult,
  TextDocumentSyncKind,
  TextDocuments,
} from 'vscode-languageserver';
import { TextDocument } from 'vscode-languageserver-textdocument';
import type { Analyser, Analysis, FileHost } from '../../language/analysis.ts';
import type { FileId, SourceSpan } from '../../language/domain/model/source.ts';
import { createAnalyses } from './analyses.ts';
import { type FeatureHooks, rangeOf, type ServerContext, type Settings } from './context.ts';
import { codeActions } from './features/code-actions.ts';
import { codeLenses } from './features/code-lenses.ts';
import { completion } from './features/completion.ts';
import { diagnostics } from './features/diagnostics.ts';
import { documentLinks } from './features/document-links.ts';
import { documentSymbols } from './features/document-symbols.ts';
import { drawings } from './features/drawings.ts';
import { folding } from './features/folding.ts';
import { formatting } from './features/formatting.ts';
import { hover } from './features/hover.ts';
import { inlayHints } from './features/inlay-hints.ts';
import { layoutCounts } from './features/layout-state.ts';
import { names } from './features/names.ts';
import { preview } from './features/preview.ts';
import { schedule } from './features/schedule.ts';
import { selectionRanges } from './features/selection-ranges.ts';
import { semanticTokens } from './features/semantic-tokens.ts';
import { workspaceSymbols } from './features/workspace-symbols.ts';
import { createScheduler } from './scheduler.ts';
import { createWorkspaceFiles, type ReadFromDisk } from './workspace-files.ts';

export interface ServerParts {
  readonly readFromDisk: ReadFromDisk;
  readonly createAnalyser: (host: FileHost) => Analyser;
}

const features = [
  ...[diagnostics, codeActions, hover, completion, inlayHints, codeLenses],
  ...[documentSymbols, workspaceSymbols, names, documentLinks, folding, selectionRanges, semanticTokens, formatting],
  ...[schedule, drawings, preview, layoutCounts],
];

const defaultSettings: Settings = { showHints: false };

/** Serves one editor over a connection, whatever carries it. */
export function startServer(connection: Connection, parts: ServerParts): void {
  const documents = new TextDocuments(TextDocument);
  const files = createWorkspaceFiles((uri) => documents.get(uri), parts.readFromDisk);
  const analyses = createAnalyses(parts.createAnalyser(files), files, reportCrash);
  const context: ServerContext = {
    connection,
    documents,
    files,
    analyses,
    client: () => client,
    settings: () => settings,
    rulePages: () => rulePages,
    documentOf,
    locationOf,
    guarded,
  };
  let client: ClientCapabilities = {};
  let settings = defaultSettings;
  let rulePages: string | undefined;
  const hooks: FeatureHooks[] = [];
  const waiting = new Set<FileId>();
  /** Used files that are not open, as the analysis read them. */
  const unopened = new WeakMap<Analysis, Map<FileId, TextDocument>>();
  const scheduler = createScheduler(analyseWaiting);

  let foldersMayChange = false;
  connection.onInitialize((params): InitializeResult => {
    client = params.capabilities;
    rulePages = rulePagesFrom(params.initializationOptions);
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

  documents.onDidOpen(({ document }) => waiting.add(document.uri));
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
  }

  function analyseWaiting(): void {
    const roots = [...waiting];
    waiting.clear();
    for (const root of roots) analyses.of(root);
    for (const hook of hooks) guarded('telling the editor', undefined, () => hook.analysed?.(roots));
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

function settingsFrom(given: unknown): Settings {
  if (typeof given !== 'object' || given === null || !('showHints' in given)) return defaultSettings;
  return { showHints: given.showHints === true };
}

function rulePagesFrom(given: unknown): string | undefined {
  if (typeof given !== 'object' || given === null || !('rulePages' in given)) return undefined;
  return typeof given.rulePages === 'string' ? given.rulePages.replace(/\/$/, '') : undefined;
}
