import {
  type CalculationOptions,
  type CalculationSheet,
  calculationSheet,
} from '../../../../language/domain/documents/calculation-sheet.ts';
import { printable } from '../../../../language/domain/documents/text-layout.ts';
import {
  calculationSheetToJson,
  calculationSheetToText,
} from '../../../../language/domain/documents/write-calculation-sheet.ts';
import { type ExitCode, exitCodes } from '../exit-codes.ts';
import { openLayout } from '../open-layout.ts';
import { printOutput, remindOfErrors } from '../print-output.ts';
import { complain, type Terminal } from '../terminal.ts';

export type CalculationFormat = 'text' | 'json' | 'html';
export interface CalcOptions extends CalculationOptions {
  readonly format: CalculationFormat;
  readonly output?: string;
}

/** `calc FILE`: demand of each line beside the capacity that is counted, with the work shown. */
export async function calc(
  file: string,
  { format, output, ...options }: CalcOptions,
  terminal: Terminal,
): Promise<ExitCode> {
  const opened = openLayout(file);
  if (opened.kind === 'refused') {
    complain(terminal, opened.reason);
    return exitCodes.couldNotRun;
  }
  const { layout, checked, basis } = opened.layout.analysis;
  const sheet = calculationSheet(layout, checked, basis, options);
  if (sheet.lines.length === 0) {
    complain(terminal, `${file} ${noLine(sheet, options.line)}`);
    return exitCodes.couldNotRun;
  }
  const text = await written(sheet, format);
  remindOfErrors(opened.layout, terminal);
  return printOutput(text, { output, layout: opened.layout }, terminal);
}

async function written(sheet: CalculationSheet, format: CalculationFormat): Promise<string> {
  if (format === 'text') return calculationSheetToText(sheet);
  if (format === 'json') return calculationSheetToJson(sheet);
  // The typesetter is as large as the rest of the command: only a page needs it.
  const [{ calculationSheetToHtml }, { typesetMath }] = await Promise.all([
    import('../../../../language/domain/documents/calculation-sheet-html.ts'),
    import('../typeset-math.ts'),
  ]);
  return calculationSheetToHtml(sheet, typesetMath);
}

function noLine({ lineNames }: CalculationSheet, wanted: string | undefined): string {
  if (lineNames.length === 0 || wanted === undefined) return 'has no line of resistance: no wall stands in it.';
  const names = lineNames.map(printable);
  const shown = names.length > 20 ? `${names.slice(0, 20).join(', ')} and more` : names.join(', ');
  return `has no line ${printable(wanted)}; its lines are ${shown}.`;
}
