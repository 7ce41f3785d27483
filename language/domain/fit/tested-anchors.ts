import type { FoundAnchor, Layout, Wall } from '../model/layout.ts';
import type { DayRecord } from '../model/record.ts';

/** Whether the record says that an old anchor passed a test, and none after it that it failed one. */
export function passedTest(layout: Layout, wall: Wall, anchor: FoundAnchor): boolean {
  if (anchor.name === undefined) return false;
  const results = resultsOfTests(layout.record);
  const result = results.get(`${wall.name}.${anchor.name}`.toLowerCase()) ?? results.get(anchor.name.toLowerCase());
  return result === 'passed';
}

/** The old anchors of a wall that passed a test, by name: what checks of the wall rest on of the record. */
export function provenIn(layout: Layout, wall: Wall): string {
  const { record } = layout;
  if (record.length === 0 || wall.foundAnchors.length === 0) return '';
  const before = knownOnWalls.get(wall);
  if (before?.record === record) return before.proven;
  const proven = wall.foundAnchors.flatMap((each) => (passedTest(layout, wall, each) ? [each.name] : [])).join(' ');
  knownOnWalls.set(wall, { record, proven });
  return proven;
}

const knownOnWalls = new WeakMap<Wall, { readonly record: readonly DayRecord[]; readonly proven: string }>();

const known = new WeakMap<readonly DayRecord[], ReadonlyMap<string, 'passed' | 'failed'>>();

function resultsOfTests(record: readonly DayRecord[]): ReadonlyMap<string, 'passed' | 'failed'> {
  const before = known.get(record);
  if (before) return before;
  const results = new Map<string, 'passed' | 'failed'>();
  for (const event of record.flatMap((day) => day.events)) {
    if (event.kind !== 'tested' || !event.result) continue;
    for (const mark of event.marks) results.set(mark.name.toLowerCase(), event.result);
  }
  known.set(record, results);
  return results;
}
