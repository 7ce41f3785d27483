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
  newBlock,
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
        concreteTop: body.y + 1.9,
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
    'side-plate-by-hand': entry('side plate, set by hand', (centre) => plate(centre, byHand)),
    'side-plate-proposed': entry('side plate, proposed by the tool', (centre) => plate(centre, proposed)),
    'bolt-by-hand': entry('bolt through the sill, set by hand', (centre) => rod(centre, byHand)),
    'bolt-proposed': entry('bolt through the sill, proposed by the tool', (centre) => rod(centre, proposed)),
    'connector-unknown': entry('anchor whose connector is not known', (centre) => [
      unknownConnector(around(centre, 7, 6)),
    ]),
    installed: entry('installed', (centre) =>
      markFrame('F-1', centre, { width: 9, height: 4.6 }, 'square', { proposed: false, state: 'installed' }, 'mark'),
    ),
    omitted: entry('omitted', (centre) => [
      sidePlate(
        { body: around(centre, 7, 6), concreteTop: undefined, concreteHoles: [], sillHoles: [] },
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
    'found-anchor-removed': foundEntry('found anchor, broken or removed', { removed: true }),
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
    'thing-in-the-way': entry('thing in front of the wall; corners only: movable', (centre) => [
      thingInTheWay(around(centre, 11, 6), known, true),
    ]),
    'warning-zone': entry('no holes: gas or power', (centre) => [warningZone(around(centre, 14, 7), 'power')]),
    'unknown-service': entry('no holes: gas or power, nobody knows which', (centre) => [
      unknownServiceZone(around(centre, 14, 7), 'power'),
    ]),
    'block-found': entry('block found between joists', (centre) => [foundBlock(around(centre, 12, 6))]),
    'block-new': entry('new block', (centre) => [newBlock(around(centre, 12, 6))]),
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
