import type { Analysis } from '../../language/analysis.ts';
import type { FindLine } from '../../language/domain/documents/schedules/table.ts';
import type { ServerContext } from './context.ts';

/** Files by their name alone: a schedule goes to other people. */
export function findLineIn(context: ServerContext, analysis: Analysis): FindLine {
  return (span) => {
    const place = analysis.locate(span);
    if (!place) return undefined;
    const line = context.documentOf(analysis, place.file).positionAt(place.start).line + 1;
    return { file: decodeURIComponent(place.file.split('/').pop() ?? ''), line };
  };
}
