import { withEdits } from '../fixes/apply-in-memory.ts';
import type { Layout, Wall } from '../model/layout.ts';
import type { RawFinding, WallChecked } from './check-wall.ts';
import { checkWall } from './check-wall.ts';
import type { Fix } from './finding.ts';

/** More than these nobody reads. */
const MOST_FIXES = 5;

/**
 * The fixes that a rule proposes, without those that would leave their finding, make a new error, or only hide the matter
 * behind a missing limit or measurement: each is tried on the layout in memory and the wall checked again.
 */
export function verifiedFixes(layout: Layout, wall: Wall, raw: RawFinding): readonly Fix[] {
  let proposed: readonly Fix[];
  try {
    proposed = raw.propose?.(layout) ?? [];
  } catch {
    // Our mistake: the finding stands, and nothing half worked out is offered.
    return [];
  }
  if (proposed.length === 0) return [];
  const before = checkWall(layout, wall);
  const helpful: Fix[] = [];
  for (const fix of proposed) {
    if (helpful.length === MOST_FIXES) break;
    if (helps(layout, wall, raw, before, fix)) helpful.push(fix);
  }
  return helpful;
}

function helps(layout: Layout, wall: Wall, raw: RawFinding, before: WallChecked, fix: Fix): boolean {
  const edited = withEdits(layout, fix.edits);
  const editedWall = edited.walls.find((each) => each.id === wall.id);
  // Nothing changed in the model: such an edit can't be told to help.
  if (!editedWall || editedWall === wall) return false;
  const after = checkWall(edited, editedWall);
  if (after.findings.some((each) => each.identity === raw.identity)) return false;
  return (
    adds(before.findings.filter(isError), after.findings.filter(isError), (each) => each.identity) === false &&
    adds(before.notChecked, after.notChecked, (each) => `${each.rule} ${each.wants}`) === false &&
    adds(before.openQuestions, after.openQuestions, (each) => `${each.rule} ${each.question.subject}`) === false &&
    after.crashes.length <= before.crashes.length
  );
}

const isError = ({ finding }: RawFinding): boolean => finding.severity === 'error' || finding.severity === 'stop';

function adds<Item>(before: readonly Item[], after: readonly Item[], identity: (item: Item) => string): boolean {
  const known = new Set(before.map(identity));
  return after.some((each) => !known.has(identity(each)));
}
