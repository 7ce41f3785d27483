import { joined } from '../domain/list-in-runs.ts';
import type { FileId, FileSpan, SourceMap, SourceSpan } from '../domain/model/source.ts';
import { placeInList } from '../domain/place-in-list.ts';
import type { Steps } from '../domain/steps.ts';
import { finish } from '../domain/steps.ts';
import { libraryTexts } from '../generated/library.ts';
import type { Keeper } from './assemble/keeper.ts';
import { createKeeper } from './assemble/keeper.ts';
import type { AssembledLayout, RunOfBlocks } from './assemble/layout.ts';
import { assembleLayoutInSteps, sortedOut } from './assemble/layout.ts';
import type { Problem } from './problem.ts';
import type { BegunBlocks, Sheet, SheetBlock } from './sheet.ts';
import { readSheetInSteps } from './sheet.ts';
import type { LongText, TextInPieces } from './text-in-pieces.ts';
import { isSameText } from './text-in-pieces.ts';

/** Where texts come from: open editors and a disk, a zip, a test. */
export interface FileHost {
  /** The text of a file, or in words why there is none. */
  read(file: FileId): TextOfFile | { readonly missing: string };
  /** Which file `use "path"` means, or in words why it may not be followed. */
  resolve(from: FileId, path: string): { readonly file: FileId } | { readonly refused: string };
}

export interface TextOfFile {
  readonly text: string;
  /** The same text, where it is one that is being edited. */
  readonly inPieces?: TextInPieces;
}

/** A file with all the files that it uses, read and put together. */
export interface Project extends AssembledLayout {
  readonly main: Sheet;
  /** By file, the main one included. */
  readonly sheets: ReadonlyMap<FileId, Sheet>;
  readonly locate: (span: SourceSpan) => FileSpan | undefined;
}

export interface ProjectReader {
  read(file: FileId): Project;
  /**
   * The same, leaving off after each block and each wall that had to be made anew. What was read before somebody gave up is not
   * read again. Of the same project, only the newest steps may go on.
   */
  readInSteps(file: FileId): Steps<Project>;
  /** Nobody edits the file any more: what was kept of it is let go. */
  forget(file: FileId): void;
}

/** Reads projects again and again, keeping what an edit did not touch. */
export function createProjectReader(host: FileHost): ProjectReader {
  const sheets = new Map<FileId, Sheet>();
  const begun = new Map<FileId, BegunBlocks>();
  const keepers = new Map<FileId, Keeper>();

  function* sheetInSteps(file: FileId, text: LongText): Steps<Sheet> {
    const previous = sheets.get(file);
    if (previous && isSameText(previous.text, text)) return previous;
    const blocks: BegunBlocks = begun.get(file) ?? new Map();
    begun.set(file, blocks);
    const sheet = yield* readSheetInSteps(file, text, previous, blocks);
    sheets.set(file, sheet);
    begun.delete(file);
    return sheet;
  }

  function* readInSteps(file: FileId): Steps<Project> {
    const keeper = keepers.get(file) ?? createKeeper();
    keepers.set(file, keeper);
    keeper.beginRound();
    const project = yield* readProject(file, host, sheetInSteps, keeper);
    keeper.endRound();
    return project;
  }

  return {
    read: (file) => finish(readInSteps(file)),
    readInSteps,
    forget(file) {
      keepers.delete(file);
      sheets.delete(file);
      begun.delete(file);
    },
  };
}

function* readProject(
  file: FileId,
  host: FileHost,
  sheetInSteps: (file: FileId, text: LongText) => Steps<Sheet>,
  keeper: Keeper,
): Steps<Project> {
  const problems: Problem[] = [];
  const inUse = new Map<FileId, Sheet>();
  const open = new Set<FileId>();
  const inOrder: (readonly RunOfBlocks[])[] = [];

  function* visit(sheet: Sheet): Steps<void> {
    inUse.set(sheet.file, sheet);
    open.add(sheet.file);
    const runs = keeper.keepRuns(`blocks of ${sheet.file}`, sheet.blocks, sortedOut);
    for (const { path, pathSource } of joined(runs.map((run) => run.drafts.use))) {
      const say = (code: Problem['code'], message: string): void => {
        problems.push({ code, severity: 'error', message, span: pathSource, related: [], replacements: [] });
      };
      if (libraryTexts.has(path)) continue;
      const target = host.resolve(sheet.file, path);
      if ('refused' in target) {
        say('refused-path', `\`use "${path}"\` may not be followed: ${target.refused}.`);
        continue;
      }
      if (open.has(target.file)) {
        say(
          'circular-use',
          `\`use "${path}"\` leads back to a file that uses this one; take one of the two \`use\` lines out.`,
        );
        continue;
      }
      if (inUse.has(target.file)) continue;
      const answer = host.read(target.file);
      if ('missing' in answer) {
        say('missing-file', `\`use "${path}"\`: ${answer.missing}.`);
        continue;
      }
      yield* visit(yield* sheetInSteps(target.file, answer.inPieces ?? answer.text));
    }
    open.delete(sheet.file);
    inOrder.push(runs);
  }

  const answer = host.read(file);
  const main = yield* sheetInSteps(file, 'text' in answer ? (answer.inPieces ?? answer.text) : '');
  yield* visit(main);

  const blocks = joined(inOrder);
  const locate = (span: SourceSpan): FileSpan | undefined => {
    const sheet = inUse.get(span.block.file);
    const place = sheet && placeInList(sheet.blocks, span.block);
    const start = place === undefined ? undefined : sheet?.starts[place];
    if (start === undefined) return undefined;
    return { file: span.block.file, start: start + span.start, end: start + span.end };
  };
  const sourceMap: SourceMap = { locate };
  const { problems: assemblyProblems, ...assembled } = yield* assembleLayoutInSteps(
    { blocks, builtIn: yield* builtInBlocks(), sourceMap },
    keeper,
  );
  return {
    main,
    sheets: inUse,
    locate,
    ...assembled,
    problems: joined(blocks.map((run) => run.problems)).concat(problems, assemblyProblems),
  };
}

const builtInSheets = new Map<string, readonly SheetBlock[]>();
let builtIn: readonly SheetBlock[] | undefined;

/** The shipped rule sets and hardware, read once. */
function* builtInBlocks(): Steps<readonly SheetBlock[]> {
  if (builtIn) return builtIn;
  for (const [name, text] of libraryTexts) {
    if (builtInSheets.has(name)) continue;
    const { blocks } = yield* readSheetInSteps(`built-in:${name}`, text, undefined, new Map());
    builtInSheets.set(name, blocks);
  }
  builtIn = [...libraryTexts.keys()].flatMap((name) => builtInSheets.get(name) ?? []);
  return builtIn;
}
