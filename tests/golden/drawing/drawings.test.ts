import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { sceneToSvg } from '../../../language/domain/drawing/svg.ts';
import { elevationOf, girderSceneOf, mapleLayout, planOf, read } from '../../domain/drawing/drawn.ts';
import { workHouse } from '../../domain/drawing/work-house.ts';

/** Look at a changed picture before accepting it: `npx vitest run tests/golden/drawing -u`, then open the SVG. */
describe('the drawings of the demo house', () => {
  const maple = mapleLayout();
  const golden = (name: string): string => join(import.meta.dirname, name);

  it.each(['A', 'D', 'E', 'F'])('keep the look of the elevation of wall %s', async (name) => {
    await expect(sceneToSvg(elevationOf(maple, name), { colours: 'paper' })).toMatchFileSnapshot(golden(`maple-elevation-${name}.svg`));
  });

  it('keep the look of the plan', async () => {
    await expect(sceneToSvg(planOf(maple), { colours: 'paper' })).toMatchFileSnapshot(golden('maple-plan.svg'));
  });

  it('keep the look of the girder', async () => {
    const scene = girderSceneOf(maple);
    await expect(sceneToSvg(scene, { colours: 'paper' })).toMatchFileSnapshot(golden('maple-girder-GD.svg'));
  });

  it('keep the look of where an anchor may stand', async () => {
    const scene = elevationOf(maple, 'F', { windows: 'F-10' });
    await expect(sceneToSvg(scene, { colours: 'paper' })).toMatchFileSnapshot(golden('maple-elevation-F-windows.svg'));
  });

  it('keep the look of every kind and state of new work', async () => {
    const everything = read(workHouse);
    await expect(sceneToSvg(elevationOf(everything, 'W'), { colours: 'paper' })).toMatchFileSnapshot(golden('work-elevation-W.svg'));
    await expect(sceneToSvg(girderSceneOf(everything), { colours: 'black-and-white' })).toMatchFileSnapshot(golden('work-girder-GD-black-and-white.svg'));
  });

  it('keep the look in black and white', async () => {
    await expect(sceneToSvg(elevationOf(maple, 'E'), { colours: 'black-and-white' })).toMatchFileSnapshot(golden('maple-elevation-E-black-and-white.svg'));
  });

  it('keep the look of a metric sheet', async () => {
    await expect(sceneToSvg(elevationOf(maple, 'C', { units: 'metric' }), { colours: 'paper' })).toMatchFileSnapshot(golden('maple-elevation-C-metric.svg'));
  });
});
