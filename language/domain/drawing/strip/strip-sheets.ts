import type { LengthUnits } from '../../model/layout.ts';
import { moved } from '../moved.ts';
import { line, type Scene, type SceneNode } from '../scene.ts';
import { stripSize } from './crew-strip.ts';

/** Strips on the paper that they are cut from: two to a sheet of 17 x 11 in, or of A3. One that is higher takes more of it. */
export function stripSheetsOf(strips: readonly Scene[], units: LengthUnits): readonly Scene[] {
  const { width, height } = stripSize(units);
  const sheets: Scene[][] = [];
  let used = Number.POSITIVE_INFINITY;
  for (const strip of strips) {
    if (used + strip.height > 2 * height) {
      sheets.push([]);
      used = 0;
    }
    sheets[sheets.length - 1]?.push(strip);
    used += strip.height;
  }
  return sheets.map((members) => {
    const nodes: SceneNode[] = [];
    let top = 0;
    for (const strip of members) {
      nodes.push(...moved(strip.nodes, [0, top]));
      top += strip.height;
      // Where the sheet is cut.
      if (top < 2 * height)
        nodes.push(line([0, top], [width, top], { colour: 'ink3', pen: 'hair', line: 'zone-edge' }));
    }
    return {
      width,
      height: Math.max(2 * height, top),
      title: members.map(({ title }) => title).join('; '),
      description: members.map(({ description }) => description).join(' '),
      nodes,
      regions: {},
    };
  });
}
