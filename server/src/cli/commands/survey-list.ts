import { surveyListOf } from '../../../../language/domain/documents/survey-list.ts';
import {
  surveyListToCsv,
  surveyListToJson,
  surveyListToText,
} from '../../../../language/domain/documents/write-survey-list.ts';
import { type ExitCode, exitCodes } from '../exit-codes.ts';
import { linesIn, openLayout } from '../open-layout.ts';
import { printOutput, remindOfErrors } from '../print-output.ts';
import { complain, type Terminal } from '../terminal.ts';

const writers = { text: surveyListToText, csv: surveyListToCsv, json: surveyListToJson };

/** `survey-list FILE`: what to measure, confirm and ask on the next visit, wall by wall. */
export function surveyList(
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
  const text = writers[format](surveyListOf(analysis.layout, analysis.checked), linesIn(analysis));
  remindOfErrors(opened.layout, terminal);
  return printOutput(text, { output, layout: opened.layout }, terminal);
}
