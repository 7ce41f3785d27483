import type { Analysis } from '../../language/analysis.ts';
import { type ScheduleName, scheduleNames } from '../../language/domain/documents/schedules/table.ts';
import { writeSchedule } from '../../language/domain/documents/write-schedule.ts';
import type { ScheduleFormat } from '../../language/protocol/requests.ts';
import type { ServerContext } from './context.ts';
import { findLineIn } from './find-line.ts';

/** The schedules in one of their forms; `undefined` where one is asked for that there is not. */
export function scheduleText(
  context: ServerContext,
  analysis: Analysis,
  { format, of }: { readonly format: ScheduleFormat; readonly of: readonly string[] | undefined },
): string | undefined {
  const only = of && readNames(of);
  if (of && !only) return undefined;
  return writeSchedule(analysis.layout, analysis.checked, findLineIn(context, analysis), { form: format, only });
}

function readNames(of: readonly string[]): readonly ScheduleName[] | undefined {
  const names = scheduleNames.filter((name) => of.includes('all') || of.includes(name));
  return of.every((word) => word === 'all' || scheduleNames.some((name) => name === word)) ? names : undefined;
}
