import { findingLegend } from './elevation-legend.ts';
import { circle, group, line, polygon, rect, type SceneNode, strokes, type XY } from './scene.ts';
import type { Legend, LegendEntry } from './sheet-lists.ts';
import { cross, diagonals, hatch } from './strokes.ts';
import {
  anglesPlan,
  boltPlan,
  chimney,
  type FoundState,
  flueLine,
  foundAnchorPlan,
  gasLine,
  ghostPlan,
  holdDownPlan,
  markFrame,
  padPlan,
  panelPlan,
  platePlan,
  postPlatesPlan,
  relocatedPlan,
  removedPlan,
  shoredPlan,
  unknownPlan,
  unknownServiceZone,
  warningZone,
} from './symbols.ts';
import {
  addedStudPlan,
  type Corners,
  coldJointPlan,
  crackPlan,
  flatBlockPlan,
  newWasherPlan,
  powerBoxPlan,
  removedBoardPlan,
  softWoodPlan,
  splitPlan,
  strapPlan,
  thingPlan,
} from './symbols-in-plan.ts';
import { remediedDefect } from './symbols-of-new-work.ts';

const entry = (caption: string, draw: (centre: XY) => readonly SceneNode[]): LegendEntry => ({ caption, draw });
const found = (caption: string, state: Partial<FoundState>): LegendEntry =>
  entry(caption, (centre) => [
    foundAnchorPlan(centre, { credit: 'none', rust: 'none', bent: false, loose: false, removed: false, ...state }),
  ]);
const byHand = { proposed: false, state: 'planned' } as const;
const proposed = { proposed: true, state: 'planned' } as const;

function bar([x, y]: XY): readonly [XY, XY, XY, XY] {
  return [
    [x - 4.5, y - 0.6],
    [x + 4.5, y - 0.6],
    [x + 4.5, y + 0.6],
    [x - 4.5, y + 0.6],
  ];
}

function sample([x, y]: XY, width: number, height: number): Corners {
  const [left, right, top, bottom] = [x - width / 2, x + width / 2, y - height / 2, y + height / 2];
  return [
    [left, top],
    [right, top],
    [right, bottom],
    [left, bottom],
  ];
}

function postSample([x, y]: XY, colour: 'ink' | 'new'): SceneNode {
  const box = { x: x - 1.4, y: y - 1.4, width: 2.8, height: 2.8 };
  return group([
    rect(box, { fill: 'paper', stroke: { colour, pen: colour === 'new' ? 'P2' : 'P3' } }),
    strokes(diagonals(box), { colour, pen: 'P5' }),
  ]);
}

function platesSample(
  [x, y]: XY,
  part: 'cap' | 'base',
  state: Parameters<typeof postPlatesPlan>[2],
): readonly SceneNode[] {
  const bar: readonly [XY, XY] =
    part === 'cap'
      ? [
          [x - 2.2, y - 2.1],
          [x + 2.2, y - 2.1],
        ]
      : [
          [x + 2.2, y - 2.1],
          [x + 2.2, y + 2.1],
        ];
  return [postSample([x, y], 'ink'), postPlatesPlan([bar], part, state)];
}

export const planLegend: Legend = {
  'stem-wall': entry('foundation wall, sill on it', ([x, y]) => [
    rect({ x: x - 8, y: y - 1.8, width: 16, height: 3.6 }, { fill: 'conc' }),
    rect({ x: x - 8, y: y - 1.2, width: 16, height: 2.6 }, { fill: 'wood', stroke: { colour: 'woodln', pen: 'P5' } }),
    line([x - 8, y - 1.8], [x + 8, y - 1.8], { colour: 'ink', pen: 'P1' }),
    line([x - 8, y + 1.8], [x + 8, y + 1.8], { colour: 'ink', pen: 'P3' }),
  ]),
  'new-sill': entry('new sill', ([x, y]) => {
    const box = { x: x - 7, y: y - 1.3, width: 14, height: 2.6 };
    return [
      rect(box, { fill: 'wood', stroke: { colour: 'new', pen: 'P2' } }),
      strokes(hatch(box, 2.4), { colour: 'new', pen: 'P4' }),
    ];
  }),
  'sister-board': entry('new board beside an old sill', ([x, y]) => [
    strokes(hatch({ x: x - 7, y: y - 1.3, width: 14, height: 2.6 }, 1.2), { colour: 'new', pen: 'P5' }),
  ]),
  'side-plate-by-hand': entry('side plate, set by hand', (centre) => [platePlan(bar(centre), byHand)]),
  'side-plate-proposed': entry('side plate, proposed by the tool', (centre) => [platePlan(bar(centre), proposed)]),
  'bolt-by-hand': entry('bolt through the sill, set by hand', (centre) => [boltPlan(centre, byHand)]),
  'bolt-proposed': entry('bolt through the sill, proposed by the tool', (centre) => [boltPlan(centre, proposed)]),
  'connector-unknown': entry('anchor whose connector is not known', (centre) => [unknownPlan(centre)]),
  'hold-down': entry('hold-down, set by hand', (centre) => [holdDownPlan(centre, byHand)]),
  'hold-down-proposed': entry('hold-down, proposed by the tool', (centre) => [holdDownPlan(centre, proposed)]),
  panel: entry('bracing panel', ([x, y]) => [panelPlan([x - 7, y], [x + 7, y], byHand)]),
  'panel-proposed': entry('bracing panel, proposed by the tool', ([x, y]) => [
    panelPlan([x - 7, y], [x + 7, y], proposed),
  ]),
  'framing-angle': entry('framing angles', ([x, y]) => [
    anglesPlan(
      [-4, -2, 0, 2, 4].map((dx) => [
        [x + dx, y - 0.6],
        [x + dx, y + 0.6],
      ]),
    ),
  ]),
  moved: entry('planned place of what was built elsewhere', ([x, y]) => [
    ghostPlan([
      [x - 4, y - 1],
      [x + 4, y - 1],
      [x + 4, y + 1],
      [x - 4, y + 1],
    ]),
  ]),
  issued: entry('bar: issued, stays as it is', (centre) =>
    markFrame(
      'F-1',
      centre,
      { width: 8, height: 3.8 },
      'square',
      { proposed: false, state: 'planned', issued: true },
      'plan-mark',
    ),
  ),
  'removed-thing': entry('found thing that comes out', (centre) => [removedPlan(centre)]),
  'relocated-thing': entry('found thing that goes elsewhere', (centre) => [relocatedPlan(centre)]),
  installed: entry('installed', (centre) =>
    markFrame('F-1', centre, { width: 8, height: 3.8 }, 'square', { proposed: false, state: 'installed' }, 'plan-mark'),
  ),
  omitted: entry('omitted', (centre) => [boltPlan(centre, { proposed: false, state: 'omitted' })]),
  failed: entry('failed its test', (centre) =>
    markFrame('F-1', centre, { width: 8, height: 3.8 }, 'square', { proposed: false, state: 'failed' }, 'plan-mark'),
  ),
  'found-anchor': found('found anchor, no credit', {}),
  'found-anchor-half-credit': found('found anchor, half credit', { credit: 'half' }),
  'found-anchor-credit': found('found anchor, full credit', { credit: 'full' }),
  'found-anchor-light-rust': found('found anchor, light rust', { rust: 'light' }),
  'found-anchor-heavy-rust': found('found anchor, heavy rust', { rust: 'heavy' }),
  'found-anchor-bent': found('found anchor, bent', { bent: true }),
  'found-anchor-loose': found('found anchor, loose', { loose: true }),
  'found-anchor-removed': found('found anchor that holds nothing: broken, failed, given up, to come out', {
    removed: true,
  }),
  vent: entry('vent', ([x, y]) => [
    strokes(
      [
        [
          [x - 6, y - 1.6],
          [x + 6, y - 1.6],
        ],
        [
          [x - 6, y + 1.6],
          [x + 6, y + 1.6],
        ],
        ...[-4, -2, 0, 2, 4].map((dx): readonly [XY, XY] => [
          [x + dx - 0.7, y + 1.6],
          [x + dx + 0.7, y - 1.6],
        ]),
      ],
      { colour: 'ink2', pen: 'P4' },
    ),
  ]),
  window: entry('window', ([x, y]) => [
    strokes(
      [-1.6, -0.4, 0.4, 1.6].map((dy): readonly [XY, XY] => [
        [x - 6, y + dy],
        [x + 6, y + dy],
      ]),
      { colour: 'ink2', pen: 'P4' },
    ),
  ]),
  door: entry('door or hatch', ([x, y]) => [
    strokes(
      [
        [
          [x - 5, y + 2],
          [x - 5, y],
        ],
        [
          [x + 5, y + 2],
          [x + 5, y],
        ],
      ],
      { colour: 'ink', pen: 'P2' },
    ),
    line([x - 5, y + 2], [x, y - 3.5], { colour: 'ink', pen: 'P2' }),
  ]),
  chimney: entry('chimney', ([x, y]) => [chimney({ x: x - 5, y: y - 3, width: 10, height: 6 })]),
  step: entry('step of the top of concrete, points down', ([x, y]) => [
    line([x, y - 3.5], [x, y + 3.5], { colour: 'ink', pen: 'P1' }),
    polygon(
      [
        [x + 4, y - 2],
        [x + 1, y - 3.5],
        [x + 1, y - 0.5],
      ],
      { fill: 'ink' },
    ),
  ]),
  'cold-joint': entry('cold joint in the concrete', ([x, y]) => [coldJointPlan([x, y - 3], [x, y + 3])]),
  crack: entry('crack or spall in the concrete', ([x, y]) => [crackPlan([x, y - 3], [x, y + 3], false)]),
  'soft-wood': entry('soft, rotten or eaten sill', (centre) => [softWoodPlan(sample(centre, 12, 2.8))]),
  split: entry('split in the sill', (centre) => [splitPlan(sample(centre, 12, 2.8))]),
  'remedied-defect': entry('defect that the design sees to', (centre) => [remediedDefect(centre)]),
  'new-washer': entry('new washer on a found anchor', (centre) => [
    newWasherPlan(centre),
    foundAnchorPlan(centre, { credit: 'none', rust: 'none', bent: false, loose: false, removed: false }),
  ]),
  'removed-wood': entry('sill board that comes out', (centre) => [removedBoardPlan(sample(centre, 13, 2.8))]),
  'added-stud': entry('new stud', (centre) => [addedStudPlan(sample(centre, 1.4, 2.4), false)]),
  'added-stud-proposed': entry('new stud, proposed by the tool', (centre) => [
    addedStudPlan(sample(centre, 1.4, 2.4), true),
  ]),
  'flat-block': entry('flat block behind a panel', ([x, y]) => [flatBlockPlan([x - 7, y], [x + 7, y])]),
  strap: entry('strap, set by hand', (centre) => [strapPlan(sample(centre, 9, 1), byHand)]),
  'strap-proposed': entry('strap, proposed by the tool', (centre) => [strapPlan(sample(centre, 9, 1), proposed)]),
  'thickness-change': entry('thickness of the stem changes', ([x, y]) => [
    line([x, y - 4], [x, y + 4], { colour: 'ink2', pen: 'P5', line: 'thickness-change' }),
  ]),
  pipe: entry('pipe, stack, conduit or duct', ([x, y]) => [
    circle([x, y], 1.6, { fill: 'paper', stroke: { colour: 'water', pen: 'P3' } }),
    strokes(cross([x, y], 1.1), { colour: 'water', pen: 'P5' }),
  ]),
  'gas-pipe': entry('gas pipe', ([x, y]) => [gasLine([x - 8, y], [x + 8, y])]),
  power: entry('power panel or meter', (centre) => [powerBoxPlan(sample(centre, 8, 3.4))]),
  flue: entry('flue', ([x, y]) => [flueLine([x - 8, y], [x + 8, y])]),
  'thing-in-the-way': entry('thing in front of the wall; corners only: movable', (centre) => [
    thingPlan(sample(centre, 10, 5), true, true),
  ]),
  'unknown-service': entry('no holes: gas or power, nobody knows which', ([x, y]) => [
    unknownServiceZone({ x: x - 7, y: y - 3.5, width: 14, height: 7 }, 'power'),
  ]),
  'warning-zone': entry('no holes: gas or power', ([x, y]) => [
    warningZone({ x: x - 7, y: y - 3.5, width: 14, height: 7 }, 'power'),
  ]),
  girder: entry('girder', ([x, y]) => [
    line([x - 8, y - 1.4], [x + 8, y - 1.4], { colour: 'woodln', pen: 'P4', line: 'hidden' }),
    line([x - 8, y + 1.4], [x + 8, y + 1.4], { colour: 'woodln', pen: 'P4', line: 'hidden' }),
    line([x - 8, y], [x + 8, y], { colour: 'ink3', pen: 'P5', line: 'chain' }),
  ]),
  post: entry('post found', (centre) => [postSample(centre, 'ink')]),
  'new-post': entry('new post in the place of an old one', (centre) => [postSample(centre, 'new')]),
  'post-cap': entry('post cap, one side; two bars: both', (centre) => platesSample(centre, 'cap', byHand)),
  'post-cap-proposed': entry('post cap, proposed by the tool', (centre) => platesSample(centre, 'cap', proposed)),
  'post-base': entry('post base', (centre) => platesSample(centre, 'base', byHand)),
  'post-base-proposed': entry('post base, proposed by the tool', (centre) => platesSample(centre, 'base', proposed)),
  'new-pad': entry('new footing', ([x, y]) => [
    padPlan([
      [x - 3, y - 3],
      [x + 3, y - 3],
      [x + 3, y + 3],
      [x - 3, y + 3],
    ]),
    postSample([x, y], 'ink'),
  ]),
  shored: entry('shored while work goes on', ([x, y]) => [
    postSample([x, y], 'ink'),
    shoredPlan(
      [
        [x - 3.6, y - 3],
        [x + 3.6, y - 3],
      ],
      [
        [x - 3.6, y + 3],
        [x + 3.6, y + 3],
      ],
    ),
  ]),
  'interior-wall': entry('wall inside the house', ([x, y]) => [
    line([x - 8, y - 1.6], [x + 8, y - 1.6], { colour: 'ink', pen: 'P3' }),
    line([x - 8, y + 1.6], [x + 8, y + 1.6], { colour: 'ink', pen: 'P4' }),
  ]),
  'not-recorded': entry('not recorded: nobody measured it', ([x, y]) => [
    line([x - 8, y], [x + 8, y], { colour: 'ink', pen: 'P2', line: 'not-recorded' }),
  ]),
  'station-zero': entry('ring: station 0 of a wall; arrow: its far end', ([x, y]) => [
    line([x - 6, y], [x + 7, y], { colour: 'ink2', pen: 'P5' }),
    circle([x - 7, y], 0.9, { fill: 'paper', stroke: { colour: 'ink', pen: 'P4' } }),
    polygon(
      [
        [x + 8, y],
        [x + 5.6, y - 0.8],
        [x + 5.6, y + 0.8],
      ],
      { fill: 'ink' },
    ),
  ]),
  ...findingLegend,
};
