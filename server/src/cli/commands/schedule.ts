import { scheduleOf } from '../../../../language/domain/documents/schedule.ts';
import type { FindLine } from '../../../../language/domain/documents/write-schedule.ts';
import { scheduleToCsv, scheduleToJson, scheduleToText } from '../../../../language/domain/documents/write-schedule.ts';
import { type ExitCode, exitCodes } from '../exit-codes.ts';
import { openLayout, placesIn } from '../open-layout.ts';
import { printOutput, remindOfErrors } from '../print-output.ts';
import { complain, type Terminal } from '../terminal.ts';

const writers = { text: scheduleToText, csv: scheduleToCsv, json: scheduleToJson };

/** `schedule FILE`: every connector of the design, one row each. */
export function schedule(
  file: string,
  { format, output }: { readonly format: 'text' | 'csv' | 'json'; readonly output: string | undefined },
  terminal: Terminal,
): ExitCode {
  const opened = openLayout(file);
  if (opened.kind === 'refused') {
    complain(terminal, opened.reason);
    return exitCodes.couldNotRun;
  }
  const { analysis } = opened.layout;
  const placeOf = placesIn(analysis);
  const findLine: FindLine = (span) => {
    const place = placeOf(span);
    return place && { file: place.file, line: place.range.start.line + 1 };
  };
  const text = writers[format](scheduleOf(analysis.layout, analysis.checked), findLine);
  remindOfErrors(opened.layout, terminal);
  return printOutput(text, { output, layout: opened.layout }, terminal);
}
