import type * as ast from '../../generated/ast.ts';
import type { RecordDraft } from '../drafts.ts';
import type { LowerContext } from './context.ts';

/** One day's events. Where a thing was really put is read by the grammar; the model takes its state from here. */
export function lowerRecord(tree: ast.DayRecord, context: LowerContext): RecordDraft | undefined {
  if (tree.date === undefined) return undefined;
  const events: RecordDraft['events'][number][] = [];
  for (const item of tree.items) {
    if (item.$type !== 'Installed' && item.$type !== 'Omitted' && item.$type !== 'Tested') continue;
    const marks = item.marks.flatMap((_, index) => context.name(item, 'marks', index) ?? []);
    const state = item.$type === 'Installed' ? 'installed' : item.$type === 'Omitted' ? 'omitted' : item.result;
    if (state && marks.length > 0) events.push({ marks, state, source: context.span(item) });
  }
  return { kind: 'record', date: tree.date, events };
}
