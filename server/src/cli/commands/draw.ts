import { join, parse } from 'node:path';
import type { Analysis } from '../../../../language/analysis.ts';
import { printable } from '../../../../language/domain/documents/text-layout.ts';
import { drawElevation } from '../../../../language/domain/drawing/elevation.ts';
import { drawGirder } from '../../../../language/domain/drawing/girder.ts';
import { drawPlan } from '../../../../language/domain/drawing/plan.ts';
import type { Scene } from '../../../../language/domain/drawing/scene.ts';
import { sceneToSvg } from '../../../../language/domain/drawing/svg.ts';
import { type ExitCode, exitCodes } from '../exit-codes.ts';
import { letteringOfDrawings } from '../lettering.ts';
import { openLayout } from '../open-layout.ts';
import { printOutput, remindOfErrors } from '../print-output.ts';
import { complain, type Terminal } from '../terminal.ts';

export type View =
  | { readonly kind: 'plan' }
  /** `windows`: the mark of an anchor on it. */
  | { readonly kind: 'wall'; readonly wall: string; readonly windows?: string }
  | { readonly kind: 'girder'; readonly girder: string }
  | CrewView;
/** Of one wall, or of all that have something for them. */
interface CrewView {
  readonly kind: 'strips' | 'sections';
  readonly wall: string | undefined;
}
const isForCrew = (view: View): view is CrewView => view.kind === 'strips' || view.kind === 'sections';

/** What the options of the command line ask for; `undefined` where they ask for nothing. */
export function viewOf(options: {
  readonly plan?: true;
  readonly wall?: string;
  readonly girder?: string;
  readonly windows?: string;
  readonly strips?: true;
  readonly sections?: true;
}): View | undefined {
  const { wall, girder, windows } = options;
  if (options.strips || options.sections) return { kind: options.strips ? 'strips' : 'sections', wall };
  if (girder !== undefined) return { kind: 'girder', girder };
  if (wall !== undefined) return { kind: 'wall', wall, ...(windows === undefined ? {} : { windows }) };
  return options.plan ? { kind: 'plan' } : undefined;
}

/** `draw FILE`: sheets as SVG, true to scale, colours as on paper, with their lettering in them; one file for each sheet. */
export async function draw(
  file: string,
  { view, output }: { readonly view: View | undefined; readonly output: string | undefined },
  terminal: Terminal,
): Promise<ExitCode> {
  if (!view) {
    complain(
      terminal,
      'say what to draw: --plan, --wall NAME, --girder NAME, --strips, --sections, or --sheet SIZE for the whole set.',
    );
    return exitCodes.couldNotRun;
  }
  const opened = openLayout(file);
  if (opened.kind === 'refused') {
    complain(terminal, opened.reason);
    return exitCodes.couldNotRun;
  }
  const { analysis } = opened.layout;
  const scenes = isForCrew(view) ? await crewScenesOf(analysis, view) : sceneOf(analysis, view);
  if (typeof scenes === 'string') {
    complain(terminal, `${file} ${scenes}`);
    return exitCodes.couldNotRun;
  }
  remindOfErrors(opened.layout, terminal);
  const sheets = 'nodes' in scenes ? [scenes] : scenes;
  if (sheets.length > 1 && output === undefined) {
    complain(
      terminal,
      `${file} takes ${sheets.length} sheets: say where to with -o NAME.svg, or draw one --wall NAME.`,
    );
    return exitCodes.couldNotRun;
  }
  for (const [index, sheet] of sheets.entries()) {
    const path = output !== undefined && sheets.length > 1 ? numberedPath(output, index + 1, sheets.length) : output;
    const code = printOutput(
      sceneToSvg(sheet, { colours: 'paper', fonts: letteringOfDrawings() }),
      { output: path, layout: opened.layout },
      terminal,
    );
    if (code !== exitCodes.clean) return code;
  }
  return exitCodes.clean;
}

/** `strips.svg` becomes `strips-2.svg`, and `strips-02.svg` among ten. */
function numberedPath(path: string, number: number, count: number): string {
  const { dir, name, ext } = parse(path);
  return join(dir, `${name}-${String(number).padStart(String(count).length, '0')}${ext}`);
}

/** What a crew takes along: strips two to a sheet, or all sections of the walls on one. A sentence part where there is nothing. */
async function crewScenesOf({ layout, checked, basis }: Analysis, view: CrewView): Promise<readonly Scene[] | string> {
  const wall = view.wall === undefined ? undefined : named(layout.walls, view.wall);
  if (view.wall !== undefined && !wall)
    return layout.walls.length === 0
      ? 'has no wall to draw.'
      : `has no wall ${printable(view.wall)}; ${listOf('wall', layout.walls)}.`;
  const walls = wall ? [wall] : layout.walls;
  if (view.kind === 'sections') {
    if (walls.length === 0) return 'has no wall to draw.';
    const { drawSections } = await import('../../../../language/domain/drawing/section/section-sheet.ts');
    return [drawSections({ layout, checked, basis, walls })];
  }
  const [{ crewStripsOf }, { stripSheetsOf }] = await Promise.all([
    import('../../../../language/domain/drawing/strip/crew-strip.ts'),
    import('../../../../language/domain/drawing/strip/strip-sheets.ts'),
  ]);
  const strips = walls.flatMap((each) => crewStripsOf({ layout, checked, basis, wall: each }));
  if (strips.length > 0) return stripSheetsOf(strips, layout.title.units);
  return wall
    ? `has no work on wall ${printable(wall.name)}: no strip to draw.`
    : 'has no work on any wall: no strip to draw.';
}

/** A sentence part where there is nothing to draw. */
function sceneOf({ layout, checked, basis }: Analysis, view: Exclude<View, CrewView>): Scene | string {
  if (view.kind === 'girder') {
    const girder = named(layout.girders, view.girder);
    if (girder) return drawGirder({ layout, girder, checked, basis });
    return layout.girders.length === 0
      ? 'has no girder to draw.'
      : `has no girder ${printable(view.girder)}; ${listOf('girder', layout.girders)}.`;
  }
  if (layout.walls.length === 0) return 'has no wall to draw.';
  if (view.kind === 'plan') return drawPlan({ layout, checked, basis });
  const wall = named(layout.walls, view.wall);
  if (!wall) return `has no wall ${printable(view.wall)}; ${listOf('wall', layout.walls)}.`;
  if (view.windows === undefined) return drawElevation({ layout, wall, checked, basis });
  const anchor = named(wall.anchors, view.windows);
  if (anchor) return drawElevation({ layout, wall, checked, basis, windows: { anchor } });
  const marks = wall.anchors.length === 0 ? 'it has no new anchor' : listOf('mark', wall.anchors);
  return `has no new anchor ${printable(view.windows)} on wall ${printable(wall.name)}; ${marks}.`;
}

export function named<Thing extends { readonly name: string | undefined }>(
  things: readonly Thing[],
  name: string,
): Thing | undefined {
  return things.find((each) => each.name?.toLowerCase() === name.toLowerCase());
}

const MOST_LISTED = 20;

export function listOf(what: string, things: readonly { readonly name: string | undefined }[]): string {
  const names = things.map((each) => printable(each.name ?? ''));
  const shown = names.length > MOST_LISTED ? `${names.slice(0, MOST_LISTED).join(', ')} and more` : names.join(', ');
  return names.length === 1 ? `its ${what} is ${shown}` : `its ${what}s are ${shown}`;
}
