import type { ThingEdit } from '../fixes/edit.ts';
import type { Layout } from '../model/layout.ts';
import type { Fix } from './finding.ts';
import type { RunResult } from './run-rule.ts';

/** More than these nobody reads. */
const MOST_FIXES = 5;

/** What a layout becomes by edits; `undefined` where they cannot be written, or the text with them cannot be read. */
export type Edited = (layout: Layout, edits: readonly ThingEdit[]) => Layout | undefined;

/** What the rules say of the part of the house that a finding is about; all that is wrong there, and nothing where it is gone. */
export type CheckAgain = (layout: Layout) => RunResult | undefined;

/**
 * The fixes that a rule proposes, without those that would leave their finding, make a new error, or only hide the matter
 * behind a missing limit or measurement: each is tried on the layout, and its part of the house checked again.
 */
export function verifiedFixes(
  layout: Layout,
  raw: RunResult['findings'][number],
  edited: Edited,
  check: CheckAgain,
): readonly Fix[] {
  let proposed: readonly Fix[];
  try {
    proposed = raw.propose?.(layout) ?? [];
  } catch {
    // Our mistake: the finding stands, and nothing half worked out is offered.
    return [];
  }
  if (proposed.length === 0) return [];
  const before = check(layout);
  if (!before) return [];
  const helpful: Fix[] = [];
  for (const fix of proposed) {
    if (helpful.length === MOST_FIXES) break;
    const changed = edited(layout, fix.edits);
    const after = changed && check(changed);
    // Nothing changed in the model: such an edit can't be told to help.
    if (after && after !== before && helps(fix, raw, before, after)) helpful.push(fix);
  }
  return helpful;
}

function helps(
  { admits = false }: Fix,
  raw: RunResult['findings'][number],
  before: RunResult,
  after: RunResult,
): boolean {
  if (after.findings.some((each) => each.identity === raw.identity)) return false;
  return (
    adds(before.findings.filter(isError), after.findings.filter(isError), (each) => each.identity) === false &&
    (admits || adds(before.notChecked, after.notChecked, (each) => `${each.rule} ${each.wants}`) === false) &&
    adds(before.openQuestions, after.openQuestions, (each) => `${each.rule} ${each.question.subject}`) === false &&
    after.crashes.length <= before.crashes.length
  );
}

const isError = ({ finding }: RunResult['findings'][number]): boolean =>
  finding.severity === 'error' || finding.severity === 'stop';

function adds<Item>(before: readonly Item[], after: readonly Item[], identity: (item: Item) => string): boolean {
  const known = new Set(before.map(identity));
  return after.some((each) => !known.has(identity(each)));
}
