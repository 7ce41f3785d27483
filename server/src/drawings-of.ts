import type { Analysis } from '../../language/analysis.ts';
import { drawElevation } from '../../language/domain/drawing/elevation.ts';
import { drawGirder } from '../../language/domain/drawing/girder.ts';
import { drawPlan } from '../../language/domain/drawing/plan.ts';
import type { SheetSizeName } from '../../language/domain/drawing/sheet/sheet-sizes.ts';
import { sheetsOf } from '../../language/domain/drawing/sheet/sheets-of.ts';
import { sceneToSvg } from '../../language/domain/drawing/svg.ts';

/**
 * The plan and the elevation of every wall and girder, as on paper.
 *
 * @param only one of them, by what it shows: `plan`, `wall:F`, `girder:GD`.
 */
export function drawingsOf(
  { layout, checked, basis }: Analysis,
  only?: string,
): readonly { readonly name: string; readonly svg: string }[] {
  const drawings = [
    { of: 'plan', name: 'plan', draw: () => drawPlan({ layout, checked, basis }) },
    ...layout.walls.map((wall) => ({
      of: wall.id,
      name: `wall-${wall.name}`,
      draw: () => drawElevation({ layout, wall, checked, basis }),
    })),
    ...layout.girders.map((girder) => ({
      of: girder.id,
      name: `girder-${girder.name}`,
      draw: () => drawGirder({ layout, girder, checked, basis }),
    })),
  ];
  return drawings
    .filter(({ of }) => only === undefined || of === only)
    .map(({ name, draw }) => ({ name, svg: sceneToSvg(draw(), { colours: 'paper' }) }));
}

/**
 * The printed set: cover, plan, walls and girders, each framed, with its title block.
 *
 * @param only the sheets of one of them; they keep the numbers that they have in the set.
 */
export function printedSheetsOf(
  { layout, checked, basis }: Analysis,
  size: SheetSizeName | 'usual',
  only?: string,
): readonly { readonly name: string; readonly svg: string }[] {
  return sheetsOf({ layout, checked, basis, ...(size === 'usual' ? {} : { size }) })
    .filter(({ of }) => only === undefined || of === only)
    .map(({ name, scene }) => ({ name, svg: sceneToSvg(scene, { colours: 'paper' }) }));
}
