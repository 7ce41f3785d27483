import type { Analysis } from '../../language/analysis.ts';
import { drawElevation } from '../../language/domain/drawing/elevation.ts';
import { drawGirder } from '../../language/domain/drawing/girder.ts';
import { drawPlan } from '../../language/domain/drawing/plan.ts';
import { sceneToSvg } from '../../language/domain/drawing/svg.ts';

/** The plan and the elevation of every wall and girder, as on paper. */
export function drawingsOf({
  layout,
  checked,
  basis,
}: Analysis): readonly { readonly name: string; readonly svg: string }[] {
  return [
    { name: 'plan', svg: sceneToSvg(drawPlan({ layout, checked, basis }), { colours: 'paper' }) },
    ...layout.walls.map((wall) => ({
      name: `wall-${wall.name}`,
      svg: sceneToSvg(drawElevation({ layout, wall, checked, basis }), { colours: 'paper' }),
    })),
    ...layout.girders.map((girder) => ({
      name: `girder-${girder.name}`,
      svg: sceneToSvg(drawGirder({ layout, girder, checked, basis }), { colours: 'paper' }),
    })),
  ];
}
