import type { Analyser, Analysis } from '../../language/analysis.ts';
import type { FileId } from '../../language/domain/model/source.ts';
import type { Steps } from '../../language/domain/steps.ts';
import type { WorkspaceFiles } from './workspace-files.ts';

/** What is known of each house in the editor: one analysis for each open file, made anew only when a text changed. */
export interface Analyses {
  /** Of the text as it is now; what is left of its steps is done at once. `undefined` where it failed; the failure is in the log. */
  of(root: FileId): Analysis | undefined;
  /** Whether it is made of the text as it is now. */
  isMade(root: FileId): boolean;
  /** Goes on with its steps while there is time, with one at the least. Returns whether it is made. */
  goOn(root: FileId, hasTime: () => boolean): boolean;
  /** The text of a file changed, or it came or went: steps that rest on it are dropped. Returns the roots that rest on it. */
  invalidate(file: FileId): readonly FileId[];
  forget(root: FileId): void;
}

interface Entry {
  analysis: Analysis | undefined;
  /** The files that it rests on. One that it asked for before it failed, and its own, wake it again when they change. */
  asked: ReadonlySet<FileId>;
  isMade: boolean;
  running: { readonly steps: Steps<Analysis>; readonly asked: Set<FileId> } | undefined;
}

export function createAnalyses(
  analyser: Analyser,
  files: WorkspaceFiles,
  reportCrash: (what: string, error: unknown) => void,
): Analyses {
  const entries = new Map<FileId, Entry>();

  function entryOf(root: FileId): Entry {
    const entry = entries.get(root) ?? { analysis: undefined, asked: new Set(), isMade: false, running: undefined };
    entries.set(root, entry);
    return entry;
  }

  function goOn(root: FileId, hasTime: () => boolean): boolean {
    const entry = entryOf(root);
    if (entry.isMade) return true;
    const running = entry.running ?? { steps: analyser.analyseInSteps(root), asked: new Set([root]) };
    entry.running = running;
    const { result, asked } = files.recordingReads(() => stepsOf(root, running.steps, hasTime));
    for (const file of asked) running.asked.add(file);
    if (!result) return false;
    entries.set(root, { analysis: result.analysis, asked: running.asked, isMade: true, running: undefined });
    return true;
  }

  /** `undefined` where there was no time to come to the end. */
  function stepsOf(
    root: FileId,
    steps: Steps<Analysis>,
    hasTime: () => boolean,
  ): { readonly analysis: Analysis | undefined } | undefined {
    try {
      do {
        const step = steps.next();
        if (step.done === true) return { analysis: step.value };
      } while (hasTime());
      return undefined;
    } catch (error) {
      reportCrash(`checking ${root}`, error);
      return { analysis: undefined };
    }
  }

  return {
    of(root) {
      goOn(root, () => true);
      return entries.get(root)?.analysis;
    },
    isMade: (root) => entries.get(root)?.isMade === true,
    goOn,
    invalidate(file) {
      const touched: FileId[] = [];
      for (const [root, entry] of entries) {
        if (!entry.asked.has(file) && !entry.running?.asked.has(file)) continue;
        entry.isMade = false;
        entry.running = undefined;
        touched.push(root);
      }
      return touched;
    },
    forget(root) {
      entries.delete(root);
      analyser.forget(root);
    },
  };
}
