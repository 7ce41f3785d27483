import type {
  ClientCapabilities,
  Connection,
  Location,
  Range,
  ServerCapabilities,
  TextDocuments,
} from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import type { Analysis } from '../../language/analysis.ts';
import type { FileId, SourceSpan } from '../../language/domain/model/source.ts';
import type { Analyses } from './analyses.ts';
import type { EditedDocument } from './edited-document.ts';
import type { WorkspaceFiles } from './workspace-files.ts';

/** What every feature of the server is given. */
export interface ServerContext {
  readonly connection: Connection;
  readonly documents: TextDocuments<EditedDocument>;
  readonly files: WorkspaceFiles;
  readonly analyses: Analyses;
  /** What the editor can do; nothing until it has introduced itself. */
  readonly client: () => ClientCapabilities;
  readonly settings: () => Settings;
  readonly wishes: () => Wishes;
  /** A file as positions: the open document, else one made of the text that was analysed. */
  documentOf(analysis: Analysis, file: FileId): TextDocument;
  locationOf(analysis: Analysis, span: SourceSpan): Location | undefined;
  /**
   * The crash wall: a failure inside a feature is logged and answered with `instead`; it never ends the server nor
   * reaches another feature.
   */
  guarded<Result>(what: string, instead: Result, work: () => Result): Result;
}

/** What the editor asked for when it introduced itself. */
export interface Wishes {
  /** The folder of the rules' pages, without a slash at its end, where findings are to lead there. */
  readonly rulePages: string | undefined;
  /** Whether findings are to carry the thing that is meant and where it stands, in nanometres from station 0. */
  readonly findingData: boolean;
}

/** What a person chose in the editor, under `sillwright.`. */
export interface Settings {
  /** Gaps, lengths and totals shown between the words of a layout. */
  readonly showHints: boolean;
}

/** One thing that the server does for the editor. */
export interface Feature {
  readonly capabilities: Partial<ServerCapabilities>;
  register(context: ServerContext): FeatureHooks | undefined;
}

export interface FeatureHooks {
  /** Roots whose analysis is new, in one pass. Called when no edit waits to be read. */
  analysed?(roots: readonly FileId[]): void;
  closed?(root: FileId): void;
  settingsChanged?(): void;
}

/** The analysis of the file that a request is about, and its document, both of the present text. */
export function presentState(
  context: ServerContext,
  uri: string,
): { readonly analysis: Analysis; readonly document: TextDocument } | undefined {
  const document = context.documents.get(uri);
  const analysis = document && context.analyses.of(uri);
  return document && analysis ? { analysis, document } : undefined;
}

export function rangeOf(document: TextDocument, start: number, end: number): Range {
  return { start: document.positionAt(start), end: document.positionAt(end) };
}
