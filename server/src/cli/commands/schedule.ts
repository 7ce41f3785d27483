import type { ScheduleName } from '../../../../language/domain/documents/schedules/table.ts';
import { type ScheduleForm, writeSchedule } from '../../../../language/domain/documents/write-schedule.ts';
import { type ExitCode, exitCodes } from '../exit-codes.ts';
import { linesIn, openLayout } from '../open-layout.ts';
import { printOutput, remindOfErrors } from '../print-output.ts';
import { complain, type Terminal } from '../terminal.ts';

export interface ScheduleOptions {
  readonly format: ScheduleForm;
  /** `undefined`: all of them, in CSV the connectors. */
  readonly of: readonly ScheduleName[] | undefined;
  readonly output: string | undefined;
}

/** `schedule FILE`: everything new that the design has, one row each. */
export function schedule(file: string, { format, of, output }: ScheduleOptions, terminal: Terminal): ExitCode {
  const opened = openLayout(file);
  if (opened.kind === 'refused') {
    complain(terminal, opened.reason);
    return exitCodes.couldNotRun;
  }
  const { analysis } = opened.layout;
  const text = writeSchedule(analysis.layout, analysis.checked, linesIn(analysis), { form: format, only: of });
  remindOfErrors(opened.layout, terminal);
  return printOutput(text, { output, layout: opened.layout }, terminal);
}
