import type { Analysis } from '../../../../language/analysis.ts';
import { printable } from '../../../../language/domain/documents/text-layout.ts';
import { drawElevation } from '../../../../language/domain/drawing/elevation.ts';
import { drawPlan } from '../../../../language/domain/drawing/plan.ts';
import type { Scene } from '../../../../language/domain/drawing/scene.ts';
import { sceneToSvg } from '../../../../language/domain/drawing/svg.ts';
import { type ExitCode, exitCodes } from '../exit-codes.ts';
import { openLayout } from '../open-layout.ts';
import { printOutput, remindOfErrors } from '../print-output.ts';
import { complain, type Terminal } from '../terminal.ts';

export type View = { readonly kind: 'plan' } | { readonly kind: 'wall'; readonly wall: string };

/** `draw FILE`: one sheet as SVG, true to scale, colours as on paper. */
export function draw(
  file: string,
  { view, output }: { readonly view: View | undefined; readonly output: string | undefined },
  terminal: Terminal,
): ExitCode {
  if (!view) {
    complain(terminal, 'say what to draw: --plan, or --wall NAME.');
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
  if (layout.walls.length === 0) return 'has no wall to draw.';
  if (view.kind === 'plan') return drawPlan({ layout, checked, basis });
  const wall = layout.walls.find((each) => each.name.toLowerCase() === view.wall.toLowerCase());
  if (wall) return drawElevation({ layout, wall, checked, basis });
  const names = layout.walls.map((each) => printable(each.name));
  const shown = names.length > 20 ? `${names.slice(0, 20).join(', ')} and more` : names.join(', ');
  return `has no wall ${printable(view.wall)}; its walls are ${shown}.`;
}
