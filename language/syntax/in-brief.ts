import { withoutSpareRoom } from '../domain/spare-room.ts';
import type { BlockDraft, WorkDraft } from './drafts.ts';
import { lowerBlock } from './lower/block.ts';
import { parseBlock } from './parse.ts';
import type { SheetBlock } from './sheet.ts';

/**
 * What is kept of a block. Of new work, which is most of a designed house, stays what others look at: the rest went into its wall, and
 * is read from the text again when that is made anew. The survey stays, since much rests on its very objects: an edit of the work
 * on a wall leaves them what they are.
 */
export type DraftInBrief = Exclude<BlockDraft, WorkDraft> | WorkInBrief;

export interface WorkInBrief extends Pick<WorkDraft, 'kind' | 'on' | 'questions'> {
  readonly block: SheetBlock;
  /** All that has a mark. */
  readonly marks: readonly string[];
}

export function inBrief(block: SheetBlock, draft: BlockDraft): DraftInBrief {
  if (draft.kind !== 'work') return withoutSpareRoom(draft);
  const { kind, on, questions } = draft;
  const brief = withoutSpareRoom({ kind, on, questions, block, marks: marksIn(draft) });
  wholeWorks.set(brief, draft);
  return brief;
}

function marksIn(work: WorkDraft): readonly string[] {
  const marked = [...work.anchors, ...work.angles, ...work.panels, ...work.ties, ...work.postHardware];
  return marked.map(({ name }) => name.name);
}

/** From when they are read until they are let go. */
const wholeWorks = new WeakMap<WorkInBrief, WorkDraft>();

export function wholeWork(brief: WorkInBrief): WorkDraft {
  const known = wholeWorks.get(brief);
  if (known) return known;
  const { block } = brief;
  const { draft } = lowerBlock(block, parseBlock({ kind: 'block', word: block.word, start: 0, text: block.text }));
  // The same text gives a draft of the same kind.
  const whole = draft as WorkDraft;
  wholeWorks.set(brief, whole);
  return whole;
}

/** Lets go of works when others were asked for since, all but the latest few: whoever edits a wall does so key by key. */
export function createLetGo(): (used: Iterable<WorkInBrief>) => void {
  const latest = new Set<WorkInBrief>();
  return (used) => {
    for (const brief of used) {
      latest.delete(brief);
      latest.add(brief);
    }
    for (const brief of latest) {
      if (latest.size <= mostHeld) break;
      latest.delete(brief);
      wholeWorks.delete(brief);
    }
  };
}
const mostHeld = 8;
