import type { FileId, FileSpan, SourceMap, SourceSpan } from '../domain/model/source.ts';
import { libraryTexts } from '../generated/library.ts';
import type { Keeper } from './assemble/keeper.ts';
import { createKeeper } from './assemble/keeper.ts';
import type { AssembledLayout } from './assemble/layout.ts';
import { assembleLayout } from './assemble/layout.ts';
import type { Problem } from './problem.ts';
import type { Sheet, SheetBlock } from './sheet.ts';
import { readSheet } from './sheet.ts';

/** Where texts come from: open editors and a disk, a zip, a test. */
export interface FileHost {
  /** The text of a file, or in words why there is none. */
  read(file: FileId): { readonly text: string } | { readonly missing: string };
  /** Which file `use "path"` means, or in words why it may not be followed. */
  resolve(from: FileId, path: string): { readonly file: FileId } | { readonly refused: string };
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
  /** Nobody edits the file any more: what was kept of it is let go. */
  forget(file: FileId): void;
}

/** Reads projects again and again, keeping what an edit did not touch. */
export function createProjectReader(host: FileHost): ProjectReader {
  const sheets = new Map<FileId, Sheet>();
  const keepers = new Map<FileId, Keeper>();

  const sheetOf = (file: FileId, text: string): Sheet => {
    const previous = sheets.get(file);
    if (previous && previous.text === text) return previous;
    const sheet = readSheet(file, text, previous);
    sheets.set(file, sheet);
    return sheet;
  };

  return {
    read(file) {
      const keeper = keepers.get(file) ?? createKeeper();
      keepers.set(file, keeper);
      const project = readProject(file, host, sheetOf, keeper);
      keeper.endRound();
      return project;
    },
    forget(file) {
      keepers.delete(file);
      sheets.delete(file);
    },
  };
}

function readProject(
  file: FileId,
  host: FileHost,
  sheetOf: (file: FileId, text: string) => Sheet,
  keeper: Keeper,
): Project {
  const problems: Problem[] = [];
  const inUse = new Map<FileId, Sheet>();
  const open = new Set<FileId>();
  const ordered: SheetBlock[] = [];

  const visit = (sheet: Sheet): void => {
    inUse.set(sheet.file, sheet);
    open.add(sheet.file);
    for (const block of sheet.blocks) {
      if (block.draft.kind !== 'use') continue;
      const { path, pathSource } = block.draft;
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
      visit(sheetOf(target.file, answer.text));
    }
    open.delete(sheet.file);
    // One by one: as arguments of one call, the blocks of a long file would fill the stack.
    for (const block of sheet.blocks) ordered.push(block);
  };

  const answer = host.read(file);
  const main = sheetOf(file, 'text' in answer ? answer.text : '');
  visit(main);

  const locate = (span: SourceSpan): FileSpan | undefined => {
    const place = inUse.get(span.block.file)?.places.get(span.block);
    if (place === undefined) return undefined;
    return { file: span.block.file, start: place + span.start, end: place + span.end };
  };
  const sourceMap: SourceMap = { locate };
  const { problems: assemblyProblems, ...assembled } = assembleLayout(
    { blocks: ordered, builtIn: builtInBlocks(), sourceMap },
    keeper,
  );
  return {
    main,
    sheets: inUse,
    locate,
    ...assembled,
    problems: [...ordered.flatMap((block) => block.problems), ...problems, ...assemblyProblems],
  };
}

let builtIn: readonly SheetBlock[] | undefined;
/** The shipped rule sets and hardware, read once. */
function builtInBlocks(): readonly SheetBlock[] {
  builtIn ??= [...libraryTexts].flatMap(([name, text]) => readSheet(`built-in:${name}`, text).blocks);
  return builtIn;
}
