import { join, parse } from 'node:path';
import type { Analysis } from '../../../../language/analysis.ts';
import { printable } from '../../../../language/domain/documents/text-layout.ts';
import type { SheetSizeName } from '../../../../language/domain/drawing/sheet/sheet-sizes.ts';
import { type Sheet, sheetsOf } from '../../../../language/domain/drawing/sheet/sheets-of.ts';
import { sceneToSvg } from '../../../../language/domain/drawing/svg.ts';
import { type ExitCode, exitCodes } from '../exit-codes.ts';
import { letteringOfDrawings } from '../lettering.ts';
import { openLayout } from '../open-layout.ts';
import { printOutput, remindOfErrors } from '../print-output.ts';
import { complain, type Terminal } from '../terminal.ts';
import { listOf, named, type View } from './draw.ts';

/** `draw FILE --sheet SIZE`: the printed set, or the sheets of one wall, girder or plan out of it; a file for each sheet. */
export function drawSheets(
  file: string,
  {
    size,
    view,
    output,
  }: { readonly size: SheetSizeName; readonly view: View | undefined; readonly output: string | undefined },
  terminal: Terminal,
): ExitCode {
  const opened = openLayout(file);
  if (opened.kind === 'refused') {
    complain(terminal, opened.reason);
    return exitCodes.couldNotRun;
  }
  const { analysis } = opened.layout;
  const of = thingOf(analysis, view);
  if (typeof of === 'object') {
    complain(terminal, `${file} ${of.why}`);
    return exitCodes.couldNotRun;
  }
  const { layout, checked, basis } = analysis;
  const all = sheetsOf({ layout, checked, basis, size });
  const sheets = all.flatMap((sheet, index) =>
    of === undefined || sheet.of === of ? [{ sheet, number: index + 1 }] : [],
  );
  if (sheets.length > 1 && output === undefined) {
    complain(terminal, `${file} takes ${sheets.length} sheets: say where to with -o NAME.svg.`);
    return exitCodes.couldNotRun;
  }
  remindOfErrors(opened.layout, terminal);
  for (const { sheet, number } of sheets) {
    const path = output === undefined || sheets.length === 1 ? output : pathOf(output, sheet, number, all.length);
    const svg = sceneToSvg(sheet.scene, { colours: 'paper', fonts: letteringOfDrawings() });
    const code = printOutput(svg, { output: path, layout: opened.layout }, terminal);
    if (code !== exitCodes.clean) return code;
  }
  return exitCodes.clean;
}

/** Which sheets of the set; `undefined`: all. */
function thingOf({ layout }: Analysis, view: View | undefined): string | undefined | { readonly why: string } {
  if (layout.walls.length === 0) return { why: 'has no wall to draw.' };
  if (view?.kind === 'plan') return 'plan';
  if (view?.kind === 'wall') {
    const wall = named(layout.walls, view.wall);
    return wall?.id ?? { why: `has no wall ${printable(view.wall)}; ${listOf('wall', layout.walls)}.` };
  }
  if (view?.kind === 'girder') {
    if (layout.girders.length === 0) return { why: 'has no girder to draw.' };
    const girder = named(layout.girders, view.girder);
    return girder?.id ?? { why: `has no girder ${printable(view.girder)}; ${listOf('girder', layout.girders)}.` };
  }
  return undefined;
}

/** `house.svg` becomes `house-03-wall-A.svg`: in order on disk as in the set, whatever walls are called. */
function pathOf(output: string, { name }: Sheet, number: number, count: number): string {
  const { dir, name: base, ext } = parse(output);
  const digits = String(number).padStart(String(count).length, '0');
  return join(dir, `${base}-${digits}-${name.replace(/[^\p{L}\p{N}._-]+/gu, '_').slice(0, 80)}${ext}`);
}
