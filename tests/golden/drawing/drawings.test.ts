import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { drawSections } from '../../../language/domain/drawing/section/section-sheet.ts';
import { crewStripsOf } from '../../../language/domain/drawing/strip/crew-strip.ts';
import { stripSheetsOf } from '../../../language/domain/drawing/strip/strip-sheets.ts';
import { sheetsOf } from '../../../language/domain/drawing/sheet/sheets-of.ts';
import { sceneToSvg } from '../../../language/domain/drawing/svg.ts';
import { elevationOf, girderSceneOf, mapleLayout, nothingFound, planOf, read, testBasis, wallOf } from '../../domain/drawing/drawn.ts';
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

  it.each(['A', 'F'])('keep the look of the crew strips of wall %s', async (name) => {
    const strips = crewStripsOf({ layout: maple, wall: wallOf(maple, name), checked: nothingFound, basis: testBasis });
    const [sheet] = stripSheetsOf(strips, 'feet-inches').map((scene) => sceneToSvg(scene, { colours: 'paper' }));
    await expect(sheet).toMatchFileSnapshot(golden(`maple-strip-${name}.svg`));
  });

  it('keep the look of the sections of a wall', async () => {
    const scene = drawSections({ layout: maple, walls: [wallOf(maple, 'F')], checked: nothingFound, basis: testBasis });
    await expect(sceneToSvg(scene, { colours: 'paper' })).toMatchFileSnapshot(golden('maple-section-F.svg'));
  });

  it('keep the look of a metric sheet', async () => {
    await expect(sceneToSvg(elevationOf(maple, 'C', { units: 'metric' }), { colours: 'paper' })).toMatchFileSnapshot(golden('maple-elevation-C-metric.svg'));
  });

  it('keep the look of the cover and of a part of a wall among the printed sheets', async () => {
    const sheets = sheetsOf({ layout: maple, checked: nothingFound, basis: testBasis, size: '17x11' });
    for (const name of ['cover', 'wall-F-part-2']) {
      const scene = sheets.find((sheet) => sheet.name === name)?.scene;
      if (!scene) throw new Error(`no sheet ${name}`);
      await expect(sceneToSvg(scene, { colours: 'paper' })).toMatchFileSnapshot(golden(`maple-sheet-${name}-17x11.svg`));
    }
  });
});
