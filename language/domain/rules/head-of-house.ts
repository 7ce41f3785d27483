import type { Layout } from '../model/layout.ts';
import type { SourceSpan } from '../model/source.ts';

/** Where a finding about the house stands in the text; a file without title or walls has no house to speak of. */
export function headOf(layout: Layout): SourceSpan | undefined {
  return layout.title.source ?? layout.house.source ?? layout.walls[0]?.nameSource;
}
