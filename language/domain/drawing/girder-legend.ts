import { findingLegend } from './elevation-legend.ts';
import { type Box, circle, group, line, rect, type SceneNode, strokes, type XY } from './scene.ts';
import type { Legend, LegendEntry } from './sheet-lists.ts';
import { diagonals } from './strokes.ts';
import { levelSign, markFrame, unknownConnector } from './symbols.ts';
import { beamSplice, pier, postPlate, removedThing, removedWood, shoring } from './symbols-of-new-work.ts';

const entry = (caption: string, draw: (centre: XY) => readonly SceneNode[]): LegendEntry => ({ caption, draw });
const around = ([x, y]: XY, width: number, height: number): Box => ({
  x: x - width / 2,
  y: y - height / 2,
  width,
  height,
});
const byHand = { proposed: false, state: 'planned' } as const;
const proposed = { proposed: true, state: 'planned' } as const;
const frameWith = (state: Parameters<typeof markFrame>[4]) => (centre: XY) =>
  markFrame('GD-1', centre, { width: 11, height: 4.6 }, 'square', state, 'mark');

function postSample(centre: XY, lean = 0): readonly SceneNode[] {
  const box = around(centre, 3, 7.4);
  return [
    rect(box, { fill: 'paper', stroke: { colour: 'ink', pen: 'P2' } }),
    strokes(diagonals(box), { colour: 'ink2', pen: 'P5' }),
    ...(lean === 0
      ? []
      : [
          line([centre[0] + lean, box.y - 0.4], [centre[0] + lean, box.y + box.height + 0.4], {
            colour: 'defect',
            pen: 'P4',
            line: 'chain',
          }),
        ]),
  ];
}

export const girderLegend: Legend = {
  girder: entry('girder, with its axis', (centre) => [
    rect(around(centre, 16, 4), { fill: 'wood', stroke: { colour: 'woodln', pen: 'P2' } }),
    line([centre[0] - 8, centre[1]], [centre[0] + 8, centre[1]], { colour: 'ink3', pen: 'P5', line: 'chain' }),
  ]),
  splice: entry('splice of the girder', ([x, y]) => [
    rect(around([x, y], 14, 4), { fill: 'wood', stroke: { colour: 'woodln', pen: 'P2' } }),
    beamSplice(x, y - 2, y + 2),
  ]),
  post: entry('post found', (centre) => postSample(centre)),
  leaning: entry('post that leans; chain line: plumb', (centre) => postSample(centre, 0.6)),
  pier: entry('footing, size not recorded', (centre) => [pier(around(centre, 10, 5), false)]),
  'new-pad': entry('new footing', (centre) => [pier(around(centre, 10, 5), true)]),
  'new-post': entry('new post in the place of an old one', (centre) => {
    const box = around(centre, 3, 7.4);
    return [
      rect(box, { fill: 'wood', stroke: { colour: 'new', pen: 'P2' } }),
      line([box.x, box.y + box.height], [box.x + box.width, box.y], { colour: 'new', pen: 'P3' }),
    ];
  }),
  'removed-wood': entry('wood that comes out', (centre) => [removedWood(around(centre, 3, 7.4))]),
  'removed-thing': entry('crossed: it comes out', (centre) => [removedThing(around(centre, 5, 6))]),
  shored: entry('shored while work goes on', ([x, y]) => [...postSample([x, y]), shoring(x, y - 3.4, y + 3.6, 1.5)]),
  'post-cap': entry('post cap; doubled edge: both sides', (centre) => [
    postPlate(around(centre, 5, 5), 'cap', byHand, true),
  ]),
  'post-cap-proposed': entry('post cap, proposed by the tool', (centre) => [
    postPlate(around(centre, 5, 5), 'cap', proposed, false),
  ]),
  'post-base': entry('post base', (centre) => [postPlate(around(centre, 5, 4), 'base', byHand, false)]),
  'post-base-proposed': entry('post base, proposed by the tool', (centre) => [
    postPlate(around(centre, 5, 4), 'base', proposed, false),
  ]),
  'connector-unknown': entry('hardware whose connector is not known', (centre) => [
    unknownConnector(around(centre, 6, 5)),
  ]),
  issued: entry('bar: issued, stays as it is', frameWith({ ...byHand, issued: true })),
  installed: entry('installed', frameWith({ proposed: false, state: 'installed' })),
  omitted: entry('omitted', (centre) => [
    postPlate(around(centre, 6, 5), 'cap', { proposed: false, state: 'omitted' }, false),
  ]),
  failed: entry('failed its test', frameWith({ proposed: false, state: 'failed' })),
  'not-recorded': entry('not recorded: nobody measured it', ([x, y]) => [
    line([x - 8, y], [x + 8, y], { colour: 'ink', pen: 'P2', line: 'not-recorded' }),
  ]),
  level: entry('level, from the datum', ([x, y]) => [
    line([x - 6, y + 1], [x + 6, y + 1], { colour: 'ink3', pen: 'P5' }),
    levelSign([x, y + 1]),
  ]),
  'station-zero': entry('station 0', ([x, y]) => [
    group([
      line([x - 5.1, y], [x + 8, y], { colour: 'ink3', pen: 'P5' }),
      circle([x - 6, y], 0.9, { fill: 'paper', stroke: { colour: 'ink', pen: 'P5' } }),
    ]),
  ]),
  ...findingLegend,
};
