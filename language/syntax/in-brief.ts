import type { NameReference } from '../domain/model/layout.ts';
import { withoutSpareRoom } from '../domain/spare-room.ts';
import type { BlockDraft, GirderDraft, WallDraft, WorkDraft } from './drafts.ts';
import { lowerBlock } from './lower/block.ts';
import { parseBlock } from './parse.ts';
import type { SheetBlock } from './sheet.ts';

/**
 * What is kept of a block. A house has hundreds of walls and works, whose drafts weigh as much as the walls that are made of them and
 * are asked for again only when one of them is made anew: of these stays what others look at, and the rest is read from the text again.
 */
export type DraftInBrief = Exclude<BlockDraft, WallDraft | WorkDraft> | WallInBrief | WorkInBrief;

/** What other walls rest on is the same object however often the rest is read again: work on a wall leaves its neighbours alone. */
type SeenOfWall = Pick<
  WallDraft,
  'kind' | 'name' | 'nameSource' | 'taped' | 'adjusted' | 'turn' | 'faces' | 'from' | 'to' | 'interior'
>;

export interface WallInBrief extends SeenOfWall {
  readonly block: SheetBlock;
  readonly names: readonly string[];
}

export interface WorkInBrief extends Pick<WorkDraft, 'kind' | 'on' | 'questions'> {
  readonly block: SheetBlock;
  /** Its marks. */
  readonly names: readonly string[];
}

export function inBrief(block: SheetBlock, draft: BlockDraft): DraftInBrief {
  if (draft.kind === 'wall') {
    const brief = { ...seenOfWall(draft), block, names: namesIn(draft) };
    wholeDrafts.set(brief, draft);
    return brief;
  }
  if (draft.kind === 'work') {
    const { kind, on, questions } = draft;
    const brief = { kind, on, questions, block, names: namesIn(draft) };
    wholeDrafts.set(brief, draft);
    return brief;
  }
  return withoutSpareRoom(draft);
}

/** From when they are read until they are let go. */
const wholeDrafts = new WeakMap<WallInBrief | WorkInBrief, BlockDraft>();

/** The same text gives a draft of the same kind, whose places are in the very same block. */
export const wholeWall = (brief: WallInBrief): WallDraft =>
  wholeOf(brief, (again) => ({ ...(again as WallDraft), ...seenOfWall(brief) }));
export const wholeWork = (brief: WorkInBrief): WorkDraft => wholeOf(brief, (again) => again as WorkDraft);

function wholeOf<Draft extends WallDraft | WorkDraft>(
  brief: WallInBrief | WorkInBrief,
  asBefore: (again: BlockDraft) => Draft,
): Draft {
  const known = wholeDrafts.get(brief);
  if (known) return known as Draft;
  const { block } = brief;
  const { draft } = lowerBlock(block, parseBlock({ kind: 'block', word: block.word, start: 0, text: block.text }));
  const whole = asBefore(draft);
  wholeDrafts.set(brief, whole);
  return whole;
}

function seenOfWall(wall: SeenOfWall): SeenOfWall {
  const { kind, name, nameSource, taped, adjusted, turn, faces, from, to, interior } = wall;
  return { kind, name, nameSource, taped, adjusted, turn, faces, from, to, interior };
}

/** Lets go of drafts when others were asked for since, all but the latest few: whoever edits a wall does so key by key. */
export function createLetGo(): (used: Iterable<WallInBrief | WorkInBrief>) => void {
  const latest = new Set<WallInBrief | WorkInBrief>();
  return (used) => {
    for (const brief of used) {
      latest.delete(brief);
      latest.add(brief);
    }
    for (const brief of latest) {
      if (latest.size <= mostHeld) break;
      latest.delete(brief);
      wholeDrafts.delete(brief);
    }
  };
}
const mostHeld = 8;

/** Of all that the record may speak of by name. */
export function namesIn(draft: WallDraft | GirderDraft | WorkDraft): readonly string[] {
  const names = namedIn(draft).flatMap(({ name }) => (name ? [name.name] : []));
  return names.length === 0 ? noNames : names.slice();
}
const noNames: readonly string[] = [];

function namedIn(draft: WallDraft | GirderDraft | WorkDraft): readonly { readonly name?: NameReference | undefined }[] {
  switch (draft.kind) {
    case 'work':
      return [...draft.anchors, ...draft.angles, ...draft.panels, ...draft.ties, ...draft.postHardware];
    case 'wall':
      return [...draft.foundAnchors, ...draft.sills, ...draft.obstructions, ...draft.defects];
    case 'girder':
      return draft.posts;
  }
}
