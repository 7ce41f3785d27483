import type { Analysis } from '../../language/analysis.ts';
import { scheduleOf } from '../../language/domain/documents/schedule.ts';
import {
  type FindLine,
  scheduleToCsv,
  scheduleToJson,
  scheduleToText,
} from '../../language/domain/documents/write-schedule.ts';
import type { ScheduleFormat } from '../../language/protocol/requests.ts';
import type { ServerContext } from './context.ts';

/** The schedule in one of its forms. */
export function scheduleText(context: ServerContext, analysis: Analysis, format: ScheduleFormat): string {
  return writers[format](scheduleOf(analysis.layout, analysis.checked), findLine(context, analysis));
}

const writers = { text: scheduleToText, csv: scheduleToCsv, json: scheduleToJson } as const satisfies Record<
  ScheduleFormat,
  unknown
>;

/** Files by their name alone: a schedule goes to other people. */
function findLine(context: ServerContext, analysis: Analysis): FindLine {
  return (span) => {
    const place = analysis.locate(span);
    if (!place) return undefined;
    const line = context.documentOf(analysis, place.file).positionAt(place.start).line + 1;
    return { file: decodeURIComponent(place.file.split('/').pop() ?? ''), line };
  };
}
