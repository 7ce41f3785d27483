import type { Analyser, Analysis } from '../../language/analysis.ts';
import type { FileId } from '../../language/domain/model/source.ts';
import type { WorkspaceFiles } from './workspace-files.ts';

/** What is known of each house in the editor: one analysis for each open file, made anew only when a text changed. */
export interface Analyses {
  /** Of the text as it is now. `undefined` where the analysis itself failed; the failure is in the log. */
  of(root: FileId): Analysis | undefined;
  /** The text of a file changed, or it came or went. Returns the roots that rest on it. */
  invalidate(file: FileId): readonly FileId[];
  forget(root: FileId): void;
}

interface Entry {
  analysis: Analysis | undefined;
  asked: ReadonlySet<FileId>;
  fresh: boolean;
}

export function createAnalyses(
  analyser: Analyser,
  files: WorkspaceFiles,
  reportCrash: (what: string, error: unknown) => void,
): Analyses {
  const entries = new Map<FileId, Entry>();

  function analyse(root: FileId): Entry {
    const { result, asked } = files.recordingReads(() => {
      try {
        return analyser.analyse(root);
      } catch (error) {
        reportCrash(`checking ${root}`, error);
        return undefined;
      }
    });
    // A file that the analysis asked for before it failed, and its own, wake it again when they change.
    return { analysis: result, asked: new Set([...asked, root]), fresh: true };
  }

  return {
    of(root) {
      let entry = entries.get(root);
      if (!entry?.fresh) {
        entry = analyse(root);
        entries.set(root, entry);
      }
      return entry.analysis;
    },
    invalidate(file) {
      const touched: FileId[] = [];
      for (const [root, entry] of entries) {
        if (!entry.asked.has(file)) continue;
        entry.fresh = false;
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
