import { countOf } from '../documents/text-layout.ts';
import { serviceOf } from '../fit/blocked-by-things.ts';
import { extentOf, stretchWords } from '../fit/thing-words.ts';
import type { LengthUnits, Wall } from '../model/layout.ts';
import { knownValue } from '../model/reading.ts';
import { finish, type Steps } from '../steps.ts';
import { formatLength, formatStation } from '../units/format-length.ts';
import {
  feet,
  inMillimetres,
  type Length,
  larger,
  midpoint,
  millimetres,
  minus,
  smaller,
  zero,
} from '../units/length.ts';
import { type DrawingScale, type PlanInput, scaleFor } from './drawing-input.ts';
import { noHoleStretches, noHoleWords } from './elevation-labels.ts';
import { chip } from './finding-lane.ts';
import {
  alongLine,
  firstPlace,
  insideOutline,
  isClearAlong,
  type Occupied,
  placeRoundAbout,
  placeWithin,
} from './free-room.ts';
import { forgetTheRest, keptOr } from './kept-parts.ts';
import { lettered, plainText, textBox, wrapText } from './lettering.ts';
import { type NumberedFinding, numbered } from './numbered-findings.ts';
import { drawnStation, placedAnchor } from './placed-mark.ts';
import { type Placing, placingAfter } from './placing.ts';
import { cornerNames, planAxis, type TrueXY } from './plan-axis.ts';
import { facesAt, interiorPlaces, type PlanFrame, type PlanWall, planWalls } from './plan-frame.ts';
import {
  girderLabels,
  girders,
  type InsideLabel,
  interiorLabels,
  interiorWalls,
  labelNodes,
  labelSize,
  postPlace,
  spaceLabels,
} from './plan-inside.ts';
import { planLegend } from './plan-legend.ts';
import { createPlanMemory, type PlanMemory } from './plan-memory.ts';
import { type PlacedStrings, placeStrings, planStrings } from './plan-strings.ts';
import { planAnchorNodes, planWallNodes, spot } from './plan-walls.ts';
import {
  type Box,
  circle,
  type Group,
  group,
  line,
  polygon,
  type Scene,
  type SceneNode,
  type SymbolName,
  walkScene,
  type XY,
} from './scene.ts';
import { boundsOf } from './scene-bounds.ts';
import { heading, SHEET_MARGIN, watermark } from './sheet-furniture.ts';
import {
  type Block,
  basisBlocks,
  drillBlocks,
  findingBlocks,
  flowBlocks,
  legendBlocks,
  type Paragraph,
  symbolsUsed,
  textBlocks,
} from './sheet-lists.ts';
import type { SideLists } from './side-view.ts';
import { findingMarker, MARKER_HEIGHT, markerWidth } from './symbols.ts';
import { TAPE_HEIGHT, tape, tapeCheck } from './tape.ts';
import { kindWords, type Speaker } from './thing-names.ts';
import { capHeights } from './tokens.ts';
import { stemAt } from './wall-shape.ts';

/** Paper for the house itself; a larger one goes to the next smaller scale. */
const MOST_HOUSE_ON_PAPER = 560;
const COLUMN_WIDTH = 128;
const COLUMN_GAP = 8;
const LEAST_DRAWING_WIDTH = 170;

/**
 * The whole house from above, north up: concrete, sills, openings, things in the way, girders, marks and their strings, findings, legend,
 * basis. What has no place in plan is listed beside it with the reason, and never disappears.
 */
export function drawPlan(input: PlanInput): Scene {
  const { basis } = input;
  const view = planView(input, scaleOnSheet(input));
  const { bounds } = view;
  const drawingWidth = drawingWidthOf(view);
  const blocksFor = (drawn: DrawnHouse): readonly Block[] => {
    const { findings, legend, more, drill } = view.lists(drawn, COLUMN_WIDTH);
    return [...findings, ...legend, ...more, ...drill, ...basisBlocks(basis, COLUMN_WIDTH)];
  };
  const columns = columnsFor(blocksFor(view.draft), Math.max(bounds.height + 34, 190));
  const width = Math.ceil(drawingWidth + 2 * SHEET_MARGIN + columns * (COLUMN_WIDTH + COLUMN_GAP) + 4);
  const head = heading(view.heading, view.remarks, basis, width);
  const top = head.bottom + 6;
  const left = SHEET_MARGIN + (drawingWidth - bounds.width) / 2;
  const at: XY = [left - bounds.x, top - bounds.y];
  const { node: house, drawn, bottom: furnitureBottom } = finish(houseOnSheet(input, view, [SHEET_MARGIN, top], at));
  const listsLeft = SHEET_MARGIN + drawingWidth + COLUMN_GAP;
  const lists = flowBlocks(blocksFor(drawn), {
    x: listsLeft + 4,
    y: top,
    columns,
    columnWidth: COLUMN_WIDTH,
    gap: COLUMN_GAP,
  });
  const bottom = Math.max(furnitureBottom, top + lists.height);
  const height = Math.ceil(bottom + SHEET_MARGIN);

  return {
    width,
    height,
    title: `${view.title}, ${view.house}`,
    description: planDescription(view, basis),
    nodes: [
      ...watermark(basis, { x: SHEET_MARGIN, y: top, width: drawingWidth, height: Math.max(bounds.height, 60) }),
      ...head.nodes,
      house,
      group([line([listsLeft, top], [listsLeft, bottom], { colour: 'ink', pen: 'P4' })], { role: 'list' }),
      ...lists.nodes,
    ],
    regions: {
      heading: { x: 0, y: 0, width, height: head.bottom },
      drawing: { x: SHEET_MARGIN, y: head.bottom + 2, width: drawingWidth, height: furnitureBottom - 2 - head.bottom },
      lists: { x: listsLeft, y: top, width: width - listsLeft, height: bottom - top },
    },
  };
}

/**
 * The same house for a pane, which has heading, lists and basis of its own. In steps, to be left off where the text has changed
 * meanwhile: of a large house it is long work. The house stands at the same place whatever is drawn round it, so that what did not change
 * is where it was; `regions` says where to look.
 */
export function* planOfPane(input: PlanInput, memory: PlanMemory = createPlanMemory()): Steps<Scene> {
  const { basis } = input;
  const view = yield* planViewInSteps(input, scaleOnSheet(input), memory);
  const { bounds } = view;
  const width = drawingWidthOf(view);
  const corner: XY = [bounds.x - (width - bounds.width) / 2, bounds.y];
  const { node: house, bottom } = yield* houseOnSheet(input, view, corner, [0, 0]);
  forgetTheRest(memory);
  return {
    width,
    height: bottom + 2 - corner[1],
    title: `${view.title}, ${view.house}`,
    description: planDescription(view, basis),
    nodes: [...watermark(basis, { x: corner[0], y: corner[1], width, height: Math.max(bounds.height, 60) }), house],
    regions: { drawing: { x: corner[0], y: corner[1] - 4, width, height: bottom + 2 - corner[1] } },
  };
}

function scaleOnSheet(input: PlanInput): PlanViewOptions {
  const { layout } = input;
  const units = input.units ?? layout.title.units;
  const corners = cornersOf(input, planWalls(layout));
  const scale = scaleFor({ imperial: 48, metric: 50 }, units, largestSpan(corners), MOST_HOUSE_ON_PAPER);
  return { scale, whyReduced: scale.reduced ? 'reduced: the house is too large for the usual one' : undefined };
}

const drawingWidthOf = ({ bounds }: PlanView): number => Math.max(LEAST_DRAWING_WIDTH, bounds.width + 8);

/** With scale bar and north arrow below it. @param corner upper left of what it takes, where it is drawn `at` its place */
function* houseOnSheet(
  input: PlanInput,
  view: PlanView,
  [left, top]: XY,
  at: XY,
): Steps<{ readonly node: SceneNode; readonly drawn: DrawnHouse; readonly bottom: number }> {
  const { bounds, scale } = view;
  const units = input.units ?? input.layout.title.units;
  const drawingWidth = drawingWidthOf(view);
  const { nodes: house, unnamed } = yield* view.drawInSteps(at);
  const furnitureTop = top + Math.max(bounds.height, 60) + 8;
  const nodes = [
    ...house,
    ...scaleBar([left + 4, furnitureTop + 4], units, scale),
    ...northArrow([left + drawingWidth - 16, furnitureTop + 6]),
    ...(unnamed.length > 0 ? [chip(`+${unnamed.length} in the list`, left + drawingWidth - 34, furnitureTop + 4)] : []),
  ];
  return {
    node: group(nodes, { role: 'wall', name: view.name }),
    drawn: { nodes, unnamed },
    bottom: furnitureTop + 22,
  };
}

/** The house from above, before it has a place on paper. */
export interface PlanView {
  readonly heading: string;
  readonly remarks: readonly string[];
  readonly title: string;
  readonly house: string;
  /** Said aloud. */
  readonly name: string;
  /** What it takes on paper when it is drawn at the origin; without what stands inside anyway. */
  readonly bounds: Box;
  readonly draft: DrawnHouse;
  readonly scale: DrawingScale;
  draw(at: XY): DrawnHouse;
  drawInSteps(at: XY): Steps<DrawnHouse>;
  lists(drawn: DrawnHouse, columnWidth: number): SideLists;
}

export interface PlanViewOptions {
  readonly scale: DrawingScale;
  readonly whyReduced?: string | undefined;
}

export function planView(input: PlanInput, options: PlanViewOptions): PlanView {
  return finish(planViewInSteps(input, options));
}

function* planViewInSteps(
  input: PlanInput,
  { scale, whyReduced }: PlanViewOptions,
  memory: PlanMemory = createPlanMemory(),
): Steps<PlanView> {
  const { layout, checked } = input;
  const units = input.units ?? layout.title.units;
  const places = planWalls(layout);
  const findings = numbered(checked.findings);
  const house = plainText(layout.title.name ?? 'untitled layout');
  const counts = `${places.length} walls in plan, ${layout.walls.reduce((sum, wall) => sum + wall.anchors.length, 0)} new anchors, ${findings.length} findings`;
  const strings = yield* placeStrings({ layout, units, paper: scale.paper }, places, memory);
  const drawAt = (at: XY | undefined): Steps<DrawnHouse> =>
    drawHouse({ input, units, scale, places, strings, findings, memory }, at);
  const draft = yield* drawAt(undefined);
  return {
    heading: 'FOUNDATION PLAN',
    remarks: [
      `${house}. Seen from above, north up. Scale ${scale.words}${whyReduced === undefined ? '' : `, ${whyReduced}`}. Each wall is read from its own left end, standing inside: the ring marks station 0. Plan positions use adjusted lengths; stations stay with the tape.`,
    ],
    title: 'Foundation plan',
    house,
    name: `plan, ${counts}`,
    bounds: boundsOf(draft.nodes) ?? { x: 0, y: 0, width: 0, height: 0 },
    draft,
    scale,
    draw: (at) => finish(drawAt(at)),
    drawInSteps: drawAt,
    lists: ({ nodes, unnamed }, columnWidth) =>
      listBlocks(input, units, scale, findings, places, nodes, unnamed, columnWidth),
  };
}

export function planDescription({ name }: Pick<PlanView, 'name'>, basis: PlanInput['basis']): string {
  return `Plan of the foundation seen from above, north up: ${name.replace('plan, ', '')}. ${basis.label}. ${basis.lines.join(' ')}`;
}

function cornersOf({ layout }: PlanInput, places: readonly PlanWall[]): readonly TrueXY[] {
  return [
    ...places.flatMap(({ axis }): TrueXY[] => [axis.from, axis.to]),
    ...layout.walls.flatMap((wall): TrueXY[] => {
      const axis = wall.role === 'interior' ? planAxis(wall) : undefined;
      return axis ? [axis.from, axis.to] : [];
    }),
  ];
}

function largestSpan(corners: readonly TrueXY[]): number {
  const span = (index: 0 | 1): number => {
    const first = corners[0]?.[index] ?? 0;
    const [least, most] = corners.reduce(
      ([low, high], corner) => [Math.min(low, corner[index]), Math.max(high, corner[index])],
      [first, first],
    );
    return (most ?? 0) - (least ?? 0);
  };
  return Math.max(span(0), span(1));
}

function columnsFor(blocks: readonly Block[], height: number): number {
  for (let columns = 1; columns < 8; columns++) {
    const flowed = flowBlocks(blocks, { x: 0, y: 0, columns, columnWidth: COLUMN_WIDTH, gap: COLUMN_GAP });
    if (flowed.height <= height) return columns;
  }
  return 8;
}

export interface DrawnHouse {
  readonly nodes: readonly SceneNode[];
  /** Names that found no room in the drawing: they stand in the list. */
  readonly unnamed: readonly string[];
}

interface House {
  readonly input: PlanInput;
  readonly units: LengthUnits;
  readonly scale: DrawingScale;
  readonly places: readonly PlanWall[];
  readonly strings: PlacedStrings;
  readonly findings: readonly NumberedFinding[];
  readonly memory: PlanMemory;
}

function* drawHouse(house: House, place: XY | undefined): Steps<DrawnHouse> {
  const { input, units, scale, places, findings, memory } = house;
  const { layout } = input;
  const origin = place ?? [0, 0];
  const frame: PlanFrame = {
    layout,
    units,
    paper: scale.paper,
    at: ([x, y]) => [origin[0] + x * scale.paper, origin[1] - y * scale.paper],
  };
  const sheet = [units, scale.paper, ...origin];
  const interior = layout.walls.filter((wall) => wall.role === 'interior');
  const findingsOn = new Map<string, number>();
  for (const { finding } of findings) {
    if (finding.thing !== undefined) findingsOn.set(finding.thing, (findingsOn.get(finding.thing) ?? 0) + 1);
  }
  const drawnWall = (place: PlanWall, draw: typeof perimeterWall): DrawnWall => {
    const { wall, before, after } = place;
    // The shape of a wall hangs on the wall and on the house.
    const inputs = [wall, before?.wall, after?.wall, layout.house, draw, ...sheet];
    return keptOr(memory, `drawn ${wall.id}`, inputs, { layout, findingsOn }, (ground) =>
      draw({ ...frame, layout: ground.layout }, place, ground.findingsOn),
    );
  };
  const walls: DrawnWall[] = [];
  for (const place of places) {
    walls.push(drawnWall(place, perimeterWall));
    yield;
  }
  const insideWalls = interiorPlaces(layout);
  const innerWalls = insideWalls.map((place) => drawnWall(place, innerWall));
  // Walls inside the house end at the perimeter: its concrete lies over them.
  const lines = interiorWalls(frame, interior);
  const inside = [...girders(frame, layout.girders), ...innerWalls.map(({ node }) => node)];
  const strings = planStrings(frame, house.strings, memory, sheet);
  const wallNodes = walls.map(({ node }) => node);
  if (!place) return { nodes: [...lines, ...wallNodes, ...inside, ...strings], unnamed: [] };
  const outline = places.map((place) => frame.at(place.axis.from));
  const placing = placingAfter(memory.labels);
  const isInside = insideOutline(outline);
  const among = boundsOf(strings);
  const anywhere = placing.occupied();
  const taken: Occupied = { take: anywhere.take, isFree: (box) => isInside(box) && anywhere.isFree(box) };
  const room: Room = {
    placing,
    taken,
    amongStrings: { take: anywhere.take, isFree: (box) => isIn(box, among) && anywhere.isFree(box) },
    words: placing.occupied(),
    leaders: placing.occupied(),
    within: outline.join(' '),
    among: JSON.stringify(among),
  };
  for (const { bands } of walls) for (const box of bands) taken.take(box);
  for (const node of strings) for (const box of boxesOfString(node)) taken.take(box);
  for (const box of boxesOf([...lines, ...inside])) taken.take(box);
  yield;
  for (const { reaching } of walls) {
    for (const box of reaching) taken.take(box);
    yield;
  }
  // Marks of new work and stretches without holes are never dropped: they choose their place first.
  const marks = yield* placedLabels(
    [
      ...walls.flatMap(({ zones }) => zones),
      ...[...walls, ...innerWalls].flatMap(({ panels }) => panels),
      ...innerWalls.flatMap(({ marks }) => marks),
    ],
    room,
  );
  const markers = yield* markerNodes(frame, [...places, ...insideWalls], layout.girders, findings, room);
  const labels = yield* placedLabels(
    [
      ...walls.flatMap(({ things }) => things),
      ...girderLabels(frame, layout.girders),
      ...interiorLabels(frame, interior),
      ...spaceLabels(frame, layout.spaces),
    ],
    room,
  );
  placing.end();
  return {
    nodes: [...lines, ...wallNodes, ...inside, ...strings, ...marks.nodes, ...labels.nodes, ...markers],
    unnamed: labels.unnamed,
  };
}

/** A wall as it is drawn, with the room that it takes and the labels that it asks for. */
interface DrawnWall {
  readonly node: Group;
  readonly bands: readonly Box[];
  /** What of it stands out into the house. */
  readonly reaching: readonly Box[];
  readonly zones: readonly InsideLabel[];
  readonly panels: readonly InsideLabel[];
  readonly things: readonly InsideLabel[];
  readonly marks: readonly InsideLabel[];
}

function perimeterWall(frame: PlanFrame, place: PlanWall, findingsOn: ReadonlyMap<string, number>): DrawnWall {
  const { wall, axis } = place;
  const speaker: Speaker = { units: frame.units, findingsOn, zeroEnd: `the ${cornerNames(axis).zero} corner` };
  const name = `wall ${plainText(wall.name)}${wall.label === undefined ? '' : `, ${plainText(wall.label)}`}`;
  const nodes = [...planWallNodes(frame, place, speaker), ...planAnchorNodes(frame, place, speaker)];
  return {
    node: group(nodes, { thing: wall.id, role: 'wall', name }),
    bands: wallBands(frame, place),
    reaching: nodes.flatMap((node) =>
      node.kind === 'group' && (node.role === 'thing' || node.hidden) && standsOut(node) ? boxesOf(node.nodes) : [],
    ),
    zones: zoneLabels(frame, place),
    panels: panelLabels(frame, place),
    things: obstructionLabels(frame, place),
    marks: [],
  };
}

function innerWall(frame: PlanFrame, place: PlanWall, findingsOn: ReadonlyMap<string, number>): DrawnWall {
  const speaker: Speaker = { units: frame.units, findingsOn, zeroEnd: `the ${cornerNames(place.axis).zero} end` };
  return {
    node: group(planAnchorNodes(frame, place, speaker)),
    ...{ bands: [], reaching: [], zones: [], things: [] },
    panels: panelLabels(frame, place),
    marks: insideMarks(frame, place),
  };
}

const isIn = (box: Box, area: Box | undefined): boolean =>
  area !== undefined &&
  box.x >= area.x &&
  box.y >= area.y &&
  box.x + box.width <= area.x + area.width &&
  box.y + box.height <= area.y + area.height;

/** What is taken on the sheet; of that, what a leader must not cross. */
interface Room {
  readonly placing: Placing;
  readonly taken: Occupied;
  /** Outside the house too, as far out as its strings go: for what must be shown and finds no room inside. */
  readonly amongStrings: Occupied;
  readonly words: Occupied;
  readonly leaders: Occupied;
  /** What `taken` and `amongStrings` hang on besides what is taken. */
  readonly within: string;
  readonly among: string;
}

/** Where a leader starts, others may: several things may start at one place. */
const SHARED_PARTS = 1;
function leaderParts(from: XY, to: XY): readonly Box[] {
  return alongLine(from, to).slice(SHARED_PARTS);
}

/** Ways that a leader may take: across nothing, or at least across no word. */
function clearWays({ words, leaders }: Room): readonly ((from: XY, to: XY) => boolean)[] {
  const crossesNoWord = (from: XY, to: XY): boolean => isClearAlong(from, to, words);
  return [(from, to) => crossesNoWord(from, to) && isClearAlong(from, to, leaders, SHARED_PARTS), crossesNoWord];
}

/** Leaves of doors, pipes and appliances reach into the house; concrete, sills and anchors are taken with their wall. */
function standsOut(node: Group): boolean {
  if (node.symbol) return reachesIn.has(node.symbol);
  for (const { node: inner } of walkScene(node.nodes))
    if (inner.kind === 'group' && inner.symbol) return reachesIn.has(inner.symbol);
  return false;
}
const reachesIn: ReadonlySet<SymbolName> = new Set([
  'door',
  'chimney',
  'pipe',
  'gas-pipe',
  'power',
  'flue',
  'thing-in-the-way',
  'not-recorded',
  'panel',
  'panel-proposed',
  'warning-zone',
  'unknown-service',
  'remedied-defect',
  'flat-block',
  'step',
]);

/** Bands of concrete, in pieces small enough to follow a wall at any angle. */
function wallBands(frame: PlanFrame, place: PlanWall): readonly Box[] {
  const { axis, shape } = place;
  const pieces = Math.max(1, Math.ceil((axis.length * frame.paper) / 8));
  return Array.from({ length: pieces }, (_, index) => {
    const ends = [index, index + 1].map((step) => ((shape.length * step) / pieces) as Length);
    const points = ends.flatMap((station): XY[] => {
      const faces = facesAt(place.wall, stemAt(shape, station), station);
      return [spot(frame, axis, station, faces.outer), spot(frame, axis, station, faces.inner + 60)];
    });
    return around(points, 0.4);
  });
}

/** Words and frames of the strings of a wall, and what of them stands inside it: strings that found no room outside. */
function boxesOfString(node: SceneNode): readonly Box[] {
  const known = stringBoxes.get(node);
  if (known) return known;
  const boxes: Box[] = [];
  for (const { node: part } of walkScene([node])) {
    if (part.kind === 'text') boxes.push(textBox(part));
    if (part.kind === 'rect')
      boxes.push({ x: part.x - 0.4, y: part.y - 0.4, width: part.width + 0.8, height: part.height + 0.8 });
    if (part.kind === 'circle' || (part.kind === 'line' && part.stroke.pen === 'P5')) addBoxes(part, boxes);
  }
  stringBoxes.set(node, boxes);
  return boxes;
}
const stringBoxes = new WeakMap<SceneNode, readonly Box[]>();

function boxesOf(nodes: readonly SceneNode[]): readonly Box[] {
  const boxes: Box[] = [];
  for (const { node } of walkScene(nodes)) addBoxes(node, boxes);
  return boxes;
}

function addBoxes(node: SceneNode, boxes: Box[]): void {
  if (node.kind === 'line') {
    // A long line is taken piece by piece.
    const [[x1, y1], [x2, y2]] = [node.from, node.to];
    const pieces = Math.max(1, Math.ceil(Math.hypot(x2 - x1, y2 - y1) / 8));
    for (let index = 0; index < pieces; index++) {
      const at = (step: number): XY => [x1 + ((x2 - x1) * step) / pieces, y1 + ((y2 - y1) * step) / pieces];
      boxes.push(around([at(index), at(index + 1)], 0.3));
    }
  }
  if (node.kind === 'polyline') boxes.push(around(node.points, 0.3));
  if (node.kind === 'circle') {
    const [x, y] = node.centre;
    boxes.push({ x: x - node.radius, y: y - node.radius, width: 2 * node.radius, height: 2 * node.radius });
  }
  if (node.kind === 'path' && node.stroke?.pen === 'P2') {
    for (let index = 1; index < node.steps.length; index += 2) {
      const [from, to] = [node.steps[index - 1], node.steps[index]];
      if (from && to && from.to !== 'close' && to.to !== 'close')
        addBoxes({ kind: 'line', from: from.at, to: to.at, stroke: node.stroke }, boxes);
    }
  }
}

function around(points: readonly XY[], margin: number): Box {
  let [left, top, right, bottom] = [
    Number.POSITIVE_INFINITY,
    Number.POSITIVE_INFINITY,
    Number.NEGATIVE_INFINITY,
    Number.NEGATIVE_INFINITY,
  ];
  for (const [x, y] of points) {
    left = Math.min(left, x);
    top = Math.min(top, y);
    right = Math.max(right, x);
    bottom = Math.max(bottom, y);
  }
  return { x: left - margin, y: top - margin, width: right - left + 2 * margin, height: bottom - top + 2 * margin };
}

// ---- labels and markers within the outline

function obstructionLabels(frame: PlanFrame, place: PlanWall): readonly InsideLabel[] {
  return place.wall.obstructions.flatMap((thing): InsideLabel[] => {
    const extent = extentOf(thing);
    if (!extent || extent.from > place.shape.length || extent.to < zero) return [];
    const middle = midpoint(larger(extent.from, zero), smaller(extent.to, place.shape.length));
    const faces = facesAt(place.wall, stemAt(place.shape, middle), middle);
    const off = inMillimetres(knownValue(thing.off) ?? zero);
    const service: 'gas' | 'power' | undefined =
      thing.kind === 'gas-pipe'
        ? 'gas'
        : thing.kind === 'electrical-panel' || thing.kind === 'conduit' || thing.kind === 'meter'
          ? 'power'
          : undefined;
    const name = [thing.name === undefined ? '' : plainText(thing.name), kindWords(thing.kind)]
      .filter(Boolean)
      .join(' ');
    return [
      {
        thing: thing.id,
        lines: [{ text: name, size: 'label', colour: service ?? 'ink' }],
        at: spot(frame, place.axis, middle, faces.inner + off + 100),
        reach: 2.6,
        priority: 1,
      },
    ];
  });
}

/** Mm on paper: about half of what the words of a zone take in one line. */
const NARROW = 26;

/** Where no hole may go, and why, at each stretch. */
function zoneLabels(frame: PlanFrame, place: PlanWall): readonly InsideLabel[] {
  return noHoleStretches({ wall: place.wall, layout: frame.layout, shape: place.shape }).map((zone): InsideLabel => {
    const middle = midpoint(zone.from, zone.to);
    const faces = facesAt(place.wall, stemAt(place.shape, middle), middle);
    const off = inMillimetres(knownValue(zone.thing.off) ?? zero);
    const { where, why } = noHoleWords(zone, frame.units);
    const colour = zone.reason === 'gas' ? 'gas' : 'power';
    const lines: InsideLabel['lines'] = [
      { text: where, size: 'label', colour, heavy: true },
      { text: `${why}:`, size: 'detail', colour },
      { text: 'locate and expose both sides first', size: 'detail', colour },
    ];
    return {
      thing: zone.thing.id,
      lines,
      narrower: lines.flatMap((each) => wrapText(each.text, NARROW, each.size).map((text) => ({ ...each, text }))),
      at: spot(frame, place.axis, middle, faces.inner + off + 100),
      reach: 2.6,
      priority: 0,
      never: 'dropped',
    };
  });
}

/** Beside its bar. */
function panelLabels(frame: PlanFrame, place: PlanWall): readonly InsideLabel[] {
  return place.wall.panels.flatMap((panel): InsideLabel[] => {
    const { stretch } = panel;
    if (!stretch || stretch.from > place.shape.length || stretch.to < zero) return [];
    const middle = midpoint(larger(stretch.from, zero), smaller(stretch.to, place.shape.length));
    const faces = facesAt(place.wall, stemAt(place.shape, middle), middle);
    const length = formatLength(minus(stretch.to, stretch.from), frame.units);
    return [
      {
        thing: panel.id,
        lines: [
          {
            text: `${plainText(panel.name)}  ${length}${panel.state === 'omitted' ? ' omitted' : ''}`,
            size: 'detail',
            colour: panel.state === 'omitted' ? 'ink2' : 'panel',
          },
        ],
        at: spot(frame, place.axis, middle, faces.inner + 90),
        reach: 1.4,
        priority: 1,
        never: 'dropped',
      },
    ];
  });
}

/** Marks of walls inside the house stand beside them: there is no outside for strings. */
function insideMarks(frame: PlanFrame, place: PlanWall): readonly InsideLabel[] {
  return [...place.wall.anchors, ...place.wall.ties].flatMap((anchor): InsideLabel[] => {
    const placed = placedAnchor(anchor, frame.layout);
    if (!placed || placed.station < zero || placed.station > place.shape.length) return [];
    return [
      {
        thing: anchor.id,
        lines: [{ text: plainText(anchor.name), size: 'plan-mark', colour: 'new', regular: true }],
        at: spot(frame, place.axis, placed.station, 60),
        reach: 1.6,
        priority: 0,
        never: 'dropped',
      },
    ];
  });
}

function* placedLabels(labels: readonly InsideLabel[], room: Room): Steps<DrawnHouse> {
  const ordered = labels
    .map((label, index) => ({ label, index }))
    .sort((a, b) => a.label.priority - b.label.priority || a.index - b.index);
  const unnamed: string[] = [];
  const nodes: SceneNode[] = [];
  for (const { label } of ordered) {
    const { at, reach, within: area, never, thing, lines } = label;
    const inputs = [
      ...[...at, reach, never, area?.x, area?.y, area?.width, area?.height, room.within],
      // Only what must be shown goes out of the house.
      never ? room.among : '',
      ...lines.flatMap(({ text, size, colour, heavy, regular }) => [text, size, colour, heavy, regular]),
    ];
    const placed = room.placing.turn(`label ${thing}`, inputs, () => placedLabel(label, room));
    // A plan too full for a name keeps the thing; the list names it.
    if (placed) for (const node of placed) nodes.push(node);
    else unnamed.push(lines.map(({ text }) => text).join(', '));
    yield;
  }
  return { nodes, unnamed };
}

function placedLabel(label: InsideLabel, room: Room): readonly SceneNode[] | undefined {
  const { taken, amongStrings, words, leaders } = room;
  const leaderTo = (box: Box): XY | undefined => {
    const [x, y] = label.at;
    const nearest: XY = [
      Math.min(Math.max(x, box.x), box.x + box.width),
      Math.min(Math.max(y, box.y), box.y + box.height),
    ];
    return Math.hypot(nearest[0] - x, nearest[1] - y) > label.reach + 2 ? nearest : undefined;
  };
  const ways = clearWays(room).map((isClear) => (box: Box): boolean => {
    const end = leaderTo(box);
    return !end || isClear(label.at, end);
  });
  const { box, lines } = label.within
    ? { lines: label.lines, box: placeWithin(label.within, labelSize(label), taken) }
    : roundAbout(label, [taken, amongStrings], ways);
  if (!box) return undefined;
  taken.take(box);
  words.take(box);
  const end = label.within ? undefined : leaderTo(box);
  if (end) {
    for (const part of alongLine(label.at, end)) taken.take(part);
    for (const part of leaderParts(label.at, end)) leaders.take(part);
  }
  return [
    ...(end ? [group([line(label.at, end, { colour: 'ink3', pen: 'P5' })], { role: 'leader', hidden: true })] : []),
    group(labelNodes({ ...label, lines }, box.x, box.y), {
      role: 'found-label',
      hidden: true,
      ...(label.thing === undefined ? {} : { thing: label.thing }),
    }),
  ];
}

/**
 * What must be shown and finds no room as it is takes shorter lines, then goes out of the house, and at last takes the nearest place
 * whatever is there.
 */
function roundAbout(
  label: InsideLabel,
  rooms: readonly Occupied[],
  ways: readonly ((box: Box) => boolean)[],
): { readonly lines: InsideLabel['lines']; readonly box: Box | undefined } {
  const { at, reach, never, lines } = label;
  const shapes = [lines, ...(label.narrower ? [label.narrower] : [])].map((each) => ({
    lines: each,
    about: { at, reach, ...labelSize({ ...label, lines: each }), ...(never ? { never } : {}) },
  }));
  for (const taken of never ? rooms : rooms.slice(0, 1)) {
    for (const shape of shapes) {
      const box = firstPlace(shape.about, taken, ways) ?? (never && placeRoundAbout(shape.about, taken));
      if (box) return { lines: shape.lines, box };
    }
  }
  const last = shapes.at(-1);
  if (!never || !last) return { lines, box: undefined };
  const { width, height } = last.about;
  return { lines: last.lines, box: { x: at[0] + 1, y: at[1] - height / 2, width, height } };
}

function* markerNodes(
  frame: PlanFrame,
  places: readonly PlanWall[],
  allGirders: PlanInput['layout']['girders'],
  findings: readonly NumberedFinding[],
  room: Room,
): Steps<readonly SceneNode[]> {
  const byWall = new Map(places.map((place) => [place.wall.name, place]));
  const posts = new Map<string, TrueXY>();
  for (const girder of allGirders) {
    for (const post of girder.posts) {
      const place = postPlace(girder, post);
      if (place) for (const id of [post.id, ...post.hardware.map((piece) => piece.id)]) posts.set(id, place);
    }
  }
  const nodes: SceneNode[] = [];
  for (const entry of findings) {
    const at = markerPlace(frame, byWall, posts, entry);
    if (!at) continue;
    const { finding, number, kind } = entry;
    const width = markerWidth(number);
    const isNeeded = kind === 'stop' || kind === 'error';
    const name = `finding ${finding.rule} ${finding.thing}`;
    const box = room.placing.turn(name, [...at, width, isNeeded, room.within], () =>
      placedMarker(at, width, isNeeded, room),
    );
    if (box) {
      const [middle, foot] = [box.x + box.width / 2, box.y + box.height];
      nodes.push(
        group([line(at, [middle, box.y + box.height / 2], { colour: 'ink3', pen: 'P5' })], {
          role: 'leader',
          hidden: true,
        }),
        group([findingMarker(kind, number, [middle, foot - 0.3])], {
          role: 'finding',
          name: `finding ${number}, ${kind}: ${plainText(finding.message)}`,
          ...(finding.thing === undefined ? {} : { thing: finding.thing }),
        }),
      );
    }
    yield;
  }
  return nodes;
}

function placedMarker(at: XY, width: number, isNeeded: boolean, room: Room): Box | undefined {
  const { taken, words, leaders } = room;
  const about = {
    at,
    width: width + 0.6,
    height: MARKER_HEIGHT + 0.6,
    reach: 1,
    ...(isNeeded ? { never: 'dropped' as const } : {}),
  };
  const middleOf = ({ x, y, width: wide, height: tall }: Box): XY => [x + wide / 2, y + tall / 2];
  const ways = clearWays(room).map(
    (isClear) =>
      (box: Box): boolean =>
        isClear(at, middleOf(box)),
  );
  const box =
    firstPlace(about, taken, ways) ??
    placeRoundAbout(about, taken) ??
    // A house too full for it: over its place, on whatever is there.
    (isNeeded
      ? { x: at[0] - about.width / 2, y: at[1] - about.height, width: about.width, height: about.height }
      : undefined);
  if (!box) return undefined;
  taken.take(box);
  words.take(box);
  for (const part of leaderParts(at, middleOf(box))) leaders.take(part);
  return box;
}

/** Just inside the wall where it is, at its post; a finding of the whole house stands in the list only. */
function markerPlace(
  frame: PlanFrame,
  byWall: ReadonlyMap<string, PlanWall>,
  posts: ReadonlyMap<string, TrueXY>,
  { finding }: NumberedFinding,
): XY | undefined {
  const post = finding.thing === undefined ? undefined : posts.get(finding.thing);
  if (post) return frame.at(post);
  const place = finding.wall === undefined ? undefined : byWall.get(finding.wall);
  if (!place || finding.station === undefined || finding.station < zero || finding.station > place.shape.length)
    return undefined;
  const to = finding.stationTo === undefined ? finding.station : smaller(finding.stationTo, place.shape.length);
  const middle = midpoint(finding.station, to);
  const faces = facesAt(place.wall, stemAt(place.shape, middle), middle);
  return spot(frame, place.axis, middle, faces.inner + 60);
}

// ---- beside the house

export function scaleBar(at: XY, units: LengthUnits, scale: DrawingScale): readonly SceneNode[] {
  const room = 88 / scale.paper;
  const step = units === 'metric' ? 1000 : 304.8;
  const count = Math.max(1, Math.floor(room / step));
  const length = units === 'metric' ? millimetres(1000 * count) : feet(count);
  const width = inMillimetres(length) * scale.paper;
  return [
    tape(at, length, units, scale.paper),
    lettered(
      `${units === 'metric' ? 'mm' : 'feet'}.  ${scale.words}`,
      [at[0] + width + 3, at[1] + TAPE_HEIGHT / 2 + capHeights.label / 2],
      { size: 'label' },
    ),
    lettered(
      `${tapeCheck(units, scale.paper)}`,
      [at[0] + width + 3, at[1] + TAPE_HEIGHT / 2 + capHeights.label / 2 + 4.4],
      { size: 'detail', colour: 'ink2' },
    ),
  ];
}

export function northArrow([x, y]: XY): readonly SceneNode[] {
  const radius = 9;
  const centre: XY = [x, y + radius];
  return [
    group(
      [
        circle(centre, radius, { stroke: { colour: 'ink', pen: 'P3' } }),
        polygon(
          [
            [x, y - 1.5],
            [x + 3, centre[1] + 5.5],
            [x, centre[1] + 3.4],
          ],
          { fill: 'ink', stroke: { colour: 'ink', pen: 'P5' } },
        ),
        polygon(
          [
            [x, y - 1.5],
            [x - 3, centre[1] + 5.5],
            [x, centre[1] + 3.4],
          ],
          { fill: 'paper', stroke: { colour: 'ink', pen: 'P5' } },
        ),
        lettered('N', [x, y - 3], { size: 'block-heading', face: 'regular', anchor: 'middle' }),
      ],
      { name: 'north is up' },
    ),
  ];
}

function listBlocks(
  input: PlanInput,
  units: LengthUnits,
  scale: DrawingScale,
  findings: readonly NumberedFinding[],
  places: readonly PlanWall[],
  house: readonly SceneNode[],
  unnamed: readonly string[],
  columnWidth: number,
): SideLists {
  const { layout, checked } = input;
  const list = findingBlocks('Findings of the house', findings, checked.notChecked, columnWidth);
  const used = symbolsUsed([...house, ...list.flatMap((block) => block.draw([0, 0]))]);
  const missing = withoutPlace(input, units, [...places, ...interiorPlaces(layout)]);
  const walls = layout.walls.map((wall) => wallLine(wall, units));
  const services = serviceParagraphs(input, units);
  return {
    findings: list,
    legend: legendBlocks(planLegend, used, columnWidth),
    more: [
      ...(services.length > 0 ? textBlocks('Services, not cleared', services, columnWidth, 'list') : []),
      ...(missing.length > 0
        ? textBlocks(
            'Without a place in plan',
            missing.map((text) => ({ text, size: 'label' })),
            columnWidth,
            'list',
          )
        : []),
      ...(unnamed.length > 0
        ? textBlocks(
            'No room for their names in the drawing',
            unnamed.map((text) => ({ text, size: 'detail' })),
            columnWidth,
            'list',
          )
        : []),
      ...(walls.length > 0
        ? textBlocks(
            'Walls',
            walls.map((text) => ({ text, size: 'detail' })),
            columnWidth,
            'list',
          )
        : []),
    ],
    drill: drillBlocks(columnWidth, [
      `Scale ${scale.words}: ${tapeCheck(units, scale.paper)} on this sheet. Print at 100 %.`,
    ]),
  };
}

/** Never left to whether a label found room. */
function serviceParagraphs({ layout }: PlanInput, units: LengthUnits): readonly Paragraph[] {
  return layout.walls.flatMap((wall) =>
    wall.obstructions.filter(serviceOf).map((thing): Paragraph => {
      const extent = extentOf(thing);
      const place = extent ? stretchWords(extent, units) : 'place not known';
      const name = [thing.name === undefined ? '' : plainText(thing.name), kindWords(thing.kind)]
        .filter(Boolean)
        .join(' ');
      return {
        text: `Wall ${plainText(wall.name)}: ${name}, ${place}. Locate and expose both sides first.`,
        size: 'label',
      };
    }),
  );
}

function wallLine(wall: Wall, units: LengthUnits): string {
  const [taped, adjusted] = [knownValue(wall.taped), knownValue(wall.adjusted)];
  const lengths = [
    ...(taped === undefined ? [] : [`${formatStation(taped, units)}${adjusted === undefined ? '' : ' taped'}`]),
    ...(adjusted === undefined ? [] : [`${formatStation(adjusted, units)} adjusted`]),
    ...(wall.length === undefined ? ['length not recorded'] : []),
  ];
  const label = wall.label === undefined ? '' : ` ${plainText(wall.label)}`;
  const omitted = wall.anchors.filter((anchor) => anchor.state === 'omitted').length;
  const proposed = wall.anchors.filter((anchor) => anchor.proposed && anchor.state === 'planned').length;
  const detail = [...(proposed > 0 ? [`${proposed} proposed`] : []), ...(omitted > 0 ? [`${omitted} omitted`] : [])];
  const facts = [
    ...lengths,
    countOf(wall.pieces.length, 'sill piece'),
    ...(wall.panels.length > 0 ? [countOf(wall.panels.length, 'panel')] : []),
    ...(wall.ties.length > 0 ? [countOf(wall.ties.length, 'tie')] : []),
    `${countOf(wall.anchors.length, 'new anchor')}${detail.length > 0 ? ` (${detail.join(', ')})` : ''}`,
    `${wall.foundAnchors.length} found`,
    ...(wall.noWork ? [`no work: ${plainText(wall.noWork.reason)}`] : []),
  ];
  return `${plainText(wall.name)}${label}: ${facts.join(', ')}`;
}

/** Named with the reason: nothing disappears from a plan. */
function withoutPlace({ layout }: PlanInput, units: LengthUnits, places: readonly PlanWall[]): readonly string[] {
  const placed = new Set(places.map((place) => place.wall.id));
  const isOff = (place: PlanWall, station: Length | undefined): boolean =>
    station === undefined || station < zero || station > place.shape.length;
  const why = (station: Length | undefined): string =>
    station === undefined ? 'no station' : `${formatStation(station, units)} is off the wall`;
  return [
    ...layout.walls
      .filter((wall) => !placed.has(wall.id) && !planAxis(wall))
      .map((wall) => {
        const marks = wall.anchors.map((anchor) => plainText(anchor.name));
        const reason =
          wall.length === undefined
            ? 'its length is not recorded'
            : 'a wall before it has no length, or its ends are not given';
        return `Wall ${plainText(wall.name)}: ${reason}${marks.length > 0 ? `. Marks on it: ${marks.join(', ')}` : ''}`;
      }),
    ...places.flatMap((place) =>
      [...place.wall.anchors, ...place.wall.ties]
        .filter((anchor) => isOff(place, drawnStation(anchor)))
        .map(
          (anchor) => `${plainText(anchor.name)} on wall ${plainText(place.wall.name)}: ${why(drawnStation(anchor))}`,
        ),
    ),
    ...places.flatMap((place) =>
      place.wall.panels
        .filter(({ stretch }) => !stretch || stretch.from > place.shape.length || stretch.to < zero)
        .map(
          (panel) =>
            `Panel ${plainText(panel.name)} on wall ${plainText(place.wall.name)}: ${panel.stretch ? why(panel.stretch.from) : 'no place'}`,
        ),
    ),
    ...places.flatMap((place) =>
      [...place.wall.obstructions, ...place.wall.defects]
        .filter((thing) => !thing.stretch || thing.stretch.from > place.shape.length || thing.stretch.to < zero)
        .map(
          (thing) =>
            `${kindWords(thing.kind)} ${plainText(thing.name ?? '')} on wall ${plainText(place.wall.name)}: ${why(thing.stretch?.from)}`,
        ),
    ),
    ...places.flatMap((place) =>
      place.wall.foundAnchors
        .filter((anchor) => isOff(place, anchor.station))
        .map(
          (anchor) =>
            `found anchor ${plainText(anchor.name ?? '')} on wall ${plainText(place.wall.name)}: ${why(anchor.station)}`,
        ),
    ),
    ...layout.girders.flatMap((girder) => [
      ...(girder.from && girder.to ? [] : [`Girder ${plainText(girder.name)}: its ends are not given`]),
      ...girder.posts
        .filter((post) => post.station === undefined)
        .map((post) => `Post ${plainText(post.name ?? '')} of girder ${plainText(girder.name)}: no station`),
    ]),
    ...layout.spaces
      .filter((space) => !space.from || !space.to)
      .map((space) => `Space ${plainText(space.name)}: its corners are not given`),
  ];
}
