import type { Analysis } from '../../../../language/analysis.ts';
import { printable } from '../../../../language/domain/documents/text-layout.ts';
import { drawElevation } from '../../../../language/domain/drawing/elevation.ts';
import { drawGirder } from '../../../../language/domain/drawing/girder.ts';
import { drawPlan } from '../../../../language/domain/drawing/plan.ts';
import type { Scene } from '../../../../language/domain/drawing/scene.ts';
import { sceneToSvg } from '../../../../language/domain/drawing/svg.ts';
import { type ExitCode, exitCodes } from '../exit-codes.ts';
import { openLayout } from '../open-layout.ts';
import { printOutput, remindOfErrors } from '../print-output.ts';
import { complain, type Terminal } from '../terminal.ts';

export type View =
  | { readonly kind: 'plan' }
  /** `windows`: the mark of an anchor on it. */
  | { readonly kind: 'wall'; readonly wall: string; readonly windows?: string }
  | { readonly kind: 'girder'; readonly girder: string };

/** What the options of the command line ask for; `undefined` where they ask for nothing. */
export function viewOf(options: {
  readonly plan?: true;
  readonly wall?: string;
  readonly girder?: string;
  readonly windows?: string;
}): View | undefined {
  const { wall, girder, windows } = options;
  if (girder !== undefined) return { kind: 'girder', girder };
  if (wall !== undefined) return { kind: 'wall', wall, ...(windows === undefined ? {} : { windows }) };
  return options.plan ? { kind: 'plan' } : undefined;
}

/** `draw FILE`: one sheet as SVG, true to scale, colours as on paper. */
export function draw(
  file: string,
  { view, output }: { readonly view: View | undefined; readonly output: string | undefined },
  terminal: Terminal,
): ExitCode {
  if (!view) {
    complain(terminal, 'say what to draw: --plan, --wall NAME or --girder NAME.');
    return exitCodes.couldNotRun;
  }
  const opened = openLayout(file);
  if (opened.kind === 'refused') {
    complain(terminal, opened.reason);
    return exitCodes.couldNotRun;
  }
  const { analysis } = opened.layout;
  const scene = sceneOf(analysis, view);
  if (typeof scene === 'string') {
    complain(terminal, `${file} ${scene}`);
    return exitCodes.couldNotRun;
  }
  remindOfErrors(opened.layout, terminal);
  return printOutput(sceneToSvg(scene, { colours: 'paper' }), { output, layout: opened.layout }, terminal);
}

/** A sentence part where there is nothing to draw. */
function sceneOf({ layout, checked, basis }: Analysis, view: View): Scene | string {
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

function named<Thing extends { readonly name: string | undefined }>(
  things: readonly Thing[],
  name: string,
): Thing | undefined {
  return things.find((each) => each.name?.toLowerCase() === name.toLowerCase());
}

const MOST_LISTED = 20;

function listOf(what: string, things: readonly { readonly name: string | undefined }[]): string {
  const names = things.map((each) => printable(each.name ?? ''));
  const shown = names.length > MOST_LISTED ? `${names.slice(0, MOST_LISTED).join(', ')} and more` : names.join(', ');
  return names.length === 1 ? `its ${what} is ${shown}` : `its ${what}s are ${shown}`;
}
