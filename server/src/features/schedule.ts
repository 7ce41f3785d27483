import {
  type ScheduleAnswer,
  type ScheduleParams,
  scheduleFormats,
  scheduleRequest,
} from '../../../language/protocol/requests.ts';
import type { Feature, ServerContext } from '../context.ts';

/** The schedules of the text as it stands, saved or not. */
export const schedule: Feature = {
  capabilities: {},
  register(context) {
    context.connection.onRequest<ScheduleAnswer, void>(scheduleRequest, (params: ScheduleParams) =>
      scheduleAnswer(context, params),
    );
    return undefined;
  },
};

const failed: ScheduleAnswer = {
  kind: 'refused',
  reason: 'Sillwright failed on this text; see Output, Sillwright.',
};

async function scheduleAnswer(context: ServerContext, { uri, format, of }: ScheduleParams): Promise<ScheduleAnswer> {
  if (!scheduleFormats.includes(format)) return { kind: 'refused', reason: `There is no format ${String(format)}.` };
  // The writers are loaded by the first who asks: checking as one types has no use for them.
  const { scheduleText } = await import('../schedule-text.ts');
  return context.guarded('writing the schedule', failed, () => {
    const analysis = context.analyses.of(uri);
    if (!analysis) return failed;
    const text = scheduleText(context, analysis, { format, of });
    if (text === undefined) return { kind: 'refused', reason: `There is no schedule ${String(of)}.` };
    return { kind: 'schedule', text, version: context.documents.get(uri)?.version ?? -1 };
  });
}
