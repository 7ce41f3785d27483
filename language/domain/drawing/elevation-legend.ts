import type { LengthUnits } from '../model/layout.ts';
import {
  type Box,
  boxBetween,
  circle,
  line,
  polygon,
  polyline,
  rect,
  type SceneNode,
  strokes,
  type XY,
} from './scene.ts';
import type { Legend, LegendEntry } from './sheet-lists.ts';
import { hatch } from './strokes.ts';
import {
  bolt,
  chimney,
  coldJoint,
  crackLine,
  doorway,
  type FoundState,
  findingMarker,
  flueLine,
  foundAnchor,
  foundBlock,
  gasLine,
  glazing,
  levelSign,
  markFrame,
  missingBlock,
  pipe,
  powerBox,
  sidePlate,
  softWood,
  splitWood,
  thingInTheWay,
  unknownConnector,
  unknownServiceZone,
  vent,
  warningZone,
} from './symbols.ts';
import {
  blockedStretch,
  bracingPanel,
  flatBlock,
  framingAngle,
  holdDown,
  legalWindow,
  nailer,
  newWasher,
  newWood,
  plannedGhost,
  relocatedThing,
  remediedDefect,
  removedThing,
  removedWood,
  sisterBoard,
  strap,
  unmeasuredStretch,
} from './symbols-of-new-work.ts';

const byHand = { proposed: false, state: 'planned' } as const;
const proposed = { proposed: true, state: 'planned' } as const;
const known = { top: true, bottom: true };

function around([x, y]: XY, width: number, height: number): Box {
  return { x: x - width / 2, y: y - height / 2, width, height };
}

const plate = (centre: XY, state: Parameters<typeof sidePlate>[1]): readonly SceneNode[] => {
  const body = around(centre, 7, 7);
  return [
    sidePlate(
      {
        body,
        step: body.y + 1.9,
        concreteHoles: [
          [body.x + 1.8, body.y + 4.4],
          [body.x + 5.2, body.y + 4.4],
        ],
        sillHoles: [1.2, 2.7, 4.3, 5.8].map((dx): XY => [body.x + dx, body.y + 0.9]),
      },
      state,
    ),
  ];
};
const rod = ([x, y]: XY, state: Parameters<typeof bolt>[1]): readonly SceneNode[] => [
  bolt({ x, sillTop: y - 0.6, foot: y + 4, footKnown: true, washer: 3.2 }, state),
];
const found = ([x, y]: XY, state: Partial<FoundState>): readonly SceneNode[] => [
  foundAnchor(
    { x, sillTop: y - 0.2, foot: y + 4, footKnown: true },
    { credit: 'none', rust: 'none', bent: false, loose: false, removed: false, ...state },
  ),
];
const entry = (caption: string, draw: (centre: XY) => readonly SceneNode[]): LegendEntry => ({ caption, draw });
const foundEntry = (caption: string, state: Partial<FoundState>): LegendEntry =>
  entry(caption, (centre) => found(centre, state));

const tieSample = ([x, y]: XY, state: Parameters<typeof sidePlate>[1]): readonly SceneNode[] => [
  holdDown({ body: around([x, y - 1], 2.4, 5.4), foot: y + 4, footKnown: true, screws: 6 }, state),
];
const panelSample = (centre: XY, state: Parameters<typeof sidePlate>[1]): SceneNode => {
  const { x, y, width, height } = around(centre, 14, 7.4);
  const nails = Array.from({ length: 8 }, (_, index) => index).flatMap((index): XY[] => [
    [x + 0.9 + index * 1.74, y + 0.9],
    [x + 0.9 + index * 1.74, y + height - 0.9],
  ]);
  const ends = [0, 1].flatMap((index): XY[] => [
    [x + 0.9, y + 2.8 + index * 1.8],
    [x + width - 0.9, y + 2.8 + index * 1.8],
  ]);
  return bracingPanel(
    {
      outline: [
        [x, y],
        [x + width, y],
        [x + width, y + height],
        [x, y + height],
      ],
      edgeNails: [...nails, ...ends],
      fieldNails: [],
      ventHoles: [{ at: centre, radius: 1.1 }],
    },
    state,
  );
};

/** Findings look the same on every sheet. */
export const findingLegend: Legend = {
  stop: entry('stop: an engineer is needed', ([x, y]) => [findingMarker('stop', 1, [x, y + 2.6])]),
  error: entry('error', ([x, y]) => [findingMarker('error', 1, [x, y + 2.6])]),
  warning: entry('warning', ([x, y]) => [findingMarker('warning', 1, [x, y + 2.6])]),
  info: entry('info', ([x, y]) => [findingMarker('info', 1, [x, y + 2.6])]),
  accepted: entry('accepted by a person, with a reason', ([x, y]) => [findingMarker('accepted', 1, [x, y + 2.6])]),
};

export function elevationLegend(units: LengthUnits): Legend {
  const legend: Legend = {
    'side-plate-by-hand': entry('side plate, set by hand; a light line: stepped', (centre) => plate(centre, byHand)),
    'side-plate-proposed': entry('side plate, proposed by the tool', (centre) => plate(centre, proposed)),
    'bolt-by-hand': entry('bolt through the sill, set by hand', (centre) => rod(centre, byHand)),
    'bolt-proposed': entry('bolt through the sill, proposed by the tool', (centre) => rod(centre, proposed)),
    'connector-unknown': entry('anchor whose connector is not known', (centre) => [
      unknownConnector(around(centre, 7, 6)),
    ]),
    'hold-down': entry('hold-down, set by hand', (centre) => tieSample(centre, byHand)),
    'hold-down-proposed': entry('hold-down, proposed by the tool', (centre) => tieSample(centre, proposed)),
    strap: entry('strap, set by hand', (centre) => [strap(around(centre, 13, 1.8), byHand)]),
    'strap-proposed': entry('strap, proposed by the tool', (centre) => [strap(around(centre, 13, 1.8), proposed)]),
    panel: entry('bracing panel; nails round its edge at their true spacing', (centre) => [
      panelSample(centre, byHand),
    ]),
    'panel-proposed': entry('bracing panel, proposed by the tool', (centre) => [panelSample(centre, proposed)]),
    nailer: entry('block on the sill behind a panel', (centre) => [nailer(around(centre, 13, 2))]),
    'flat-block': entry('flat block behind a horizontal joint; its height is settled on site', (centre) => [
      flatBlock(around(centre, 13, 3)),
    ]),
    'framing-angle': entry('framing angle, set by hand', ([x, y]) => [framingAngle(x - 5, x + 5, y, false)]),
    'framing-angle-proposed': entry('framing angle, proposed by the tool', ([x, y]) => [
      framingAngle(x - 5, x + 5, y, true),
    ]),
    'added-stud': entry('new stud', (centre) => [newWood(around(centre, 2, 7), false, 'added-stud')]),
    'added-stud-proposed': entry('new stud, proposed by the tool', (centre) => [
      newWood(around(centre, 2, 7), true, 'added-stud'),
    ]),
    'replaced-wood': entry('new joist or stud in the place of an old one', (centre) => [
      newWood(around(centre, 2.4, 7), false, 'replaced-wood'),
    ]),
    'sister-board': entry('new board beside an old sill', (centre) => [sisterBoard(around(centre, 14, 2.4))]),
    'removed-wood': entry('wood that comes out', (centre) => [removedWood(around(centre, 13, 3))]),
    'new-washer': entry('new washer on a found anchor', ([x, y]) => [
      newWasher(x, y + 0.4, 3.4),
      ...found([x, y + 0.6], {}),
    ]),
    issued: entry('bar: issued, stays as it is', (centre) =>
      markFrame(
        'F-1',
        centre,
        { width: 9, height: 4.6 },
        'square',
        { proposed: false, state: 'planned', issued: true },
        'mark',
      ),
    ),
    moved: entry('planned place of what was built elsewhere', (centre) => [plannedGhost(around(centre, 7, 6))]),
    'legal-window': entry('where the chosen anchor may stand', ([x, y]) => [legalWindow(x - 6, x + 6, y - 2.4)]),
    'blocked-stretch': entry('where it may not, and by what', ([x, y]) => [blockedStretch(x - 6, x + 6, y - 2.4)]),
    'unmeasured-stretch': entry('where nobody can tell for want of a measurement', ([x, y]) => [
      unmeasuredStretch(x - 6, x + 6, y - 2.4),
    ]),
    installed: entry('installed', (centre) =>
      markFrame('F-1', centre, { width: 9, height: 4.6 }, 'square', { proposed: false, state: 'installed' }, 'mark'),
    ),
    omitted: entry('omitted', (centre) => [
      sidePlate(
        { body: around(centre, 7, 6), step: undefined, concreteHoles: [], sillHoles: [] },
        { proposed: false, state: 'omitted' },
      ),
    ]),
    failed: entry('failed its test', (centre) =>
      markFrame('F-1', centre, { width: 9, height: 4.6 }, 'square', { proposed: false, state: 'failed' }, 'mark'),
    ),
    'found-anchor': foundEntry('found anchor, no credit', {}),
    'found-anchor-half-credit': foundEntry('found anchor, half credit', { credit: 'half' }),
    'found-anchor-credit': foundEntry('found anchor, full credit', { credit: 'full' }),
    'found-anchor-light-rust': foundEntry('found anchor, light rust', { rust: 'light' }),
    'found-anchor-heavy-rust': foundEntry('found anchor, heavy rust', { rust: 'heavy' }),
    'found-anchor-bent': foundEntry('found anchor, bent', { bent: true }),
    'found-anchor-loose': foundEntry('found anchor, loose', { loose: true }),
    'found-anchor-removed': foundEntry('found anchor that holds nothing: broken, failed, given up, to come out', {
      removed: true,
    }),
    'new-sill': entry('new sill', (centre) => {
      const box = around(centre, 14, 2.6);
      return [
        rect(box, { fill: 'wood', stroke: { colour: 'new', pen: 'P2' } }),
        strokes(hatch(box, 2.4), { colour: 'new', pen: 'P4' }),
      ];
    }),
    joint: entry('joint of two sill pieces: butt, half-lap', ([x, y]) => [
      rect(boxBetween(x - 8, y - 1, x + 8, y + 1), { fill: 'wood', stroke: { colour: 'woodln', pen: 'P3' } }),
      rect(boxBetween(x - 4.3, y - 1, x - 3.7, y + 1), { fill: 'paper', stroke: { colour: 'ink', pen: 'P4' } }),
      polyline(
        [
          [x + 2, y - 1],
          [x + 2, y],
          [x + 5.5, y],
          [x + 5.5, y + 1],
        ],
        { stroke: { colour: 'ink', pen: 'P2' } },
      ),
    ]),
    'soft-wood': entry('soft, rotten or eaten wood', (centre) => [softWood(around(centre, 12, 2))]),
    split: entry('split in the wood', (centre) => [splitWood(around(centre, 12, 2))]),
    crack: entry('crack or spall in the concrete', ([x, y]) => [crackLine(x, y - 4, y + 4, false)]),
    'cold-joint': entry('cold joint', ([x, y]) => [coldJoint(x, y - 4, y + 4)]),
    vent: entry('vent', (centre) => [vent(around(centre, 12, 6), known)]),
    window: entry('window', (centre) => [glazing(around(centre, 11, 7), known)]),
    door: entry('door or hatch', (centre) => [doorway(around(centre, 10, 7), known)]),
    chimney: entry('chimney', (centre) => [chimney(around(centre, 12, 7))]),
    pipe: entry('pipe, stack, conduit or duct', (centre) => [pipe(around(centre, 3, 7), known)]),
    'gas-pipe': entry('gas pipe', ([x, y]) => [gasLine([x - 8, y], [x + 8, y])]),
    power: entry('power panel or meter', (centre) => [powerBox(around(centre, 8, 7), known)]),
    flue: entry('flue', ([x, y]) => [flueLine([x - 8, y], [x + 8, y])]),
    'thing-in-the-way': entry(
      "thing in front of the wall; heavy: in the tool's way; corners only: movable",
      (centre) => [thingInTheWay(around(centre, 11, 6), known, { movable: true })],
    ),
    'warning-zone': entry('no holes: gas or power', (centre) => [warningZone(around(centre, 14, 7), 'power')]),
    'unknown-service': entry('no holes: gas or power, nobody knows which', (centre) => [
      unknownServiceZone(around(centre, 14, 7), 'power'),
    ]),
    'block-found': entry('block found between joists', (centre) => [foundBlock(around(centre, 12, 6))]),
    'block-new': entry('new block', (centre) => [newWood(around(centre, 12, 6), false, 'block-new')]),
    'block-proposed': entry('new block, proposed by the tool', (centre) => [
      newWood(around(centre, 12, 6), true, 'block-new'),
    ]),
    'block-missing': entry('neither rim nor block, and a finding says so', (centre) => [
      missingBlock(around(centre, 12, 6)),
    ]),
    'removed-thing': entry('found thing that comes out', (centre) => [
      thingInTheWay(around(centre, 9, 6), known),
      removedThing(around(centre, 9, 6)),
    ]),
    'relocated-thing': entry('found thing that goes elsewhere', (centre) => [relocatedThing(around(centre, 9, 7))]),
    'remedied-defect': entry('defect that the design sees to', (centre) => [remediedDefect(centre)]),
    'not-recorded': entry('not recorded: nobody measured it', ([x, y]) => [
      line([x - 8, y], [x + 8, y], { colour: 'ink', pen: 'P2', line: 'not-recorded' }),
    ]),
    'outside-soil': entry('soil outside', ([x, y]) => [
      line([x - 8, y], [x + 8, y], { colour: 'earth', pen: 'P4', line: 'hidden' }),
    ]),
    'thickness-change': entry('thickness of the stem changes', ([x, y]) => [
      line([x, y - 4], [x, y + 4], { colour: 'ink2', pen: 'P5', line: 'thickness-change' }),
    ]),
    step: entry('step of the top of concrete', ([x, y]) => [
      polygon(
        [
          [x - 8, y - 1.6],
          [x, y - 1.6],
          [x, y + 2],
          [x + 8, y + 2],
          [x + 8, y + 4],
          [x - 8, y + 4],
        ],
        { fill: 'conc' },
      ),
      line([x, y - 1.6], [x, y + 2], { colour: 'ink', pen: 'P1' }),
    ]),
    level: entry('level, from the datum', ([x, y]) => [
      line([x - 6, y + 1], [x + 6, y + 1], { colour: 'ink3', pen: 'P5' }),
      levelSign([x, y + 1]),
    ]),
    'station-zero': entry('station 0; long tick of the tape', ([x, y]) => [
      line([x - 5.1, y], [x + 8, y], { colour: 'ink3', pen: 'P5' }),
      circle([x - 6, y], 0.9, { fill: 'paper', stroke: { colour: 'ink', pen: 'P5' } }),
    ]),
    ...findingLegend,
  };
  const tapeWords =
    units === 'metric'
      ? 'station 0. Tape: ticks 100, 50, 10 mm; wedge every 400 mm'
      : 'station 0. Tape: ticks 1 foot, 6 in, 1 in; wedge every 16 in';
  const start = legend['station-zero'];
  return start ? { ...legend, 'station-zero': { ...start, caption: tapeWords } } : legend;
}
