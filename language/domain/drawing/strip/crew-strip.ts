import type { Basis } from '../../documents/basis.ts';
import { cornersOf, depthOfCorner } from '../../fit/corners.ts';
import type { Layout, LengthUnits, Wall } from '../../model/layout.ts';
import { formatInches, formatStation } from '../../units/format-length.ts';
import {
  feet,
  inches,
  inMillimetres,
  type Length,
  larger,
  millimetres,
  minus,
  nanometres,
  plus,
  smaller,
  zero,
} from '../../units/length.ts';
import { clipped, type Strip } from '../clipped.ts';
import { type DrawingScale, type ElevationInput, scaleInWords } from '../drawing-input.ts';
import { endNames, speakerFor } from '../elevation.ts';
import { unblockedStretches } from '../elevation-found.ts';
import type { ElevationFrame } from '../elevation-frame.ts';
import { type FoundLabel, foundLabels } from '../elevation-labels.ts';
import { bodyBox } from '../elevation-new.ts';
import { elevationParts } from '../elevation-parts.ts';
import { foundLaneNodes, placeFoundLabels } from '../found-lane.ts';
import { joistEnds } from '../framing.ts';
import { occupied } from '../free-room.ts';
import { placeInLane } from '../label-lane.ts';
import { lettered, plainText, shortened, textBox, textWidth } from '../lettering.ts';
import { levelExtremes } from '../level-notes.ts';
import { numbered } from '../numbered-findings.ts';
import { type PlacedAnchor, placedAnchor } from '../placed-mark.ts';
import { facing, planAxis } from '../plan-axis.ts';
import {
  type Box,
  boxBetween,
  group,
  line,
  polygon,
  polyline,
  rect,
  type Scene,
  type SceneNode,
  type Shape,
  type Stroke,
  type TextShape,
  walkScene,
  type XY,
} from '../scene.ts';
import { boundsOf } from '../scene-bounds.ts';
import { watermark } from '../sheet-furniture.ts';
import { beforeAnyHole } from '../sheet-lists.ts';
import { wholeLength } from '../shown-part.ts';
import { endFlag, endFlagWidth, TAPE_HEIGHT, tape, tapeCheck, zeroFlag } from '../tape.ts';
import { spokenAnchor } from '../thing-names.ts';
import { capHeights } from '../tokens.ts';
import { shapeOf, type WallShape } from '../wall-shape.ts';
import { cardWords } from './card-words.ts';
import { type CrewCard, crewCard } from './crew-card.ts';
import { type Chunk, type FlowingText, flowingText } from './flowing-text.ts';
import { wallCautions } from './wall-cautions.ts';
import { countOfWork, workBeside } from './work-beside.ts';

/** What lies before a crew at one wall: where to hook the tape, what can hurt them here, and a card for each mark. */

/** Two strips make a sheet of 17 x 11 in, or of A3. */
export const stripSize = (units: LengthUnits): { readonly width: number; readonly height: number } =>
  units === 'metric' ? { width: 420, height: 148.5 } : { width: 431.8, height: 139.7 };

/** More cards than this and each is too narrow for its words. */
const MOST_CARDS = 10;
const FRAME_INSET = 4.5;
const PAD = 2;
const CARD_GAP = 1.4;
const WIDEST_CARD = 60;
const STRING_HEIGHT = 6;
/** From the cautions down to the tape. */
const LEAST_WALL_ROOM = 30;

/** One strip for ten cards or fewer; none for a wall on which nothing is built. */
export function crewStripsOf(input: ElevationInput): readonly Scene[] {
  if (countOfWork(input.wall) === 0) return [];
  const subject = subjectOf(input);
  const count = Math.max(1, Math.ceil(subject.marks.length / MOST_CARDS));
  const each = Math.ceil(subject.marks.length / count);
  return Array.from({ length: count }, (_, index) =>
    drawStrip(subject, { number: index + 1, of: count, marks: subject.marks.slice(index * each, (index + 1) * each) }),
  );
}

interface Subject {
  readonly input: ElevationInput;
  readonly units: LengthUnits;
  readonly shape: WallShape;
  readonly marks: readonly PlacedAnchor[];
  readonly ends: { readonly zero: string; readonly far: string };
  readonly lengthText: string;
}
interface Part {
  readonly number: number;
  readonly of: number;
  readonly marks: readonly PlacedAnchor[];
}

function subjectOf(input: ElevationInput): Subject {
  const { layout, wall } = input;
  const units = input.units ?? layout.title.units;
  const shape = shapeOf(wall, layout);
  const marks = [...wall.anchors, ...wall.ties].flatMap((mark): PlacedAnchor[] => {
    const placed = placedAnchor(mark, layout);
    return placed && placed.station >= zero && placed.station <= shape.length ? [placed] : [];
  });
  return {
    input,
    units,
    shape,
    marks: marks.sort((a, b) => a.station - b.station),
    ends: endNames(wall),
    lengthText: shape.lengthKnown ? formatStation(shape.length, units) : 'length not recorded',
  };
}

function drawStrip(subject: Subject, part: Part): Scene {
  const { input, units } = subject;
  const { layout, wall, basis } = input;
  const usual = stripSize(units);
  const inside = { left: FRAME_INSET + PAD, right: usual.width - FRAME_INSET - PAD };
  const room = inside.right - inside.left;

  const foot = flowingText([{ text: basisWords(basis) }], room, 'least');
  const cards = cardsOf(subject, part, room);
  const letterRight = rightOfLetter(wallLetter(plainText(wall.name)));
  const warned = band(subject, letterRight + 3, usual.width);

  // A strip with more to say than half a sheet holds is higher: no caution is dropped, nor the wall drawn too small to read.
  const below = TAPE_HEIGHT + STRING_HEIGHT + cards.height + 1.6 + foot.height + 1.2 + FRAME_INSET;
  const wanted = warned.bottom + LEAST_WALL_ROOM + below;
  const paper = { width: usual.width, height: Math.max(usual.height, Math.ceil(wanted)) };

  // From below: the basis, the cards, the string, the tape; what is left between that and the heading is the wall's.
  const basisTop = paper.height - FRAME_INSET - 1.2 - foot.height;
  const cardsTop = basisTop - 1.6 - cards.height;
  const tapeTop = cardsTop - (part.marks.length > 0 ? STRING_HEIGHT : 3) - TAPE_HEIGHT;
  const drawn = wallOnStrip(subject, part, {
    left: inside.left,
    right: inside.right,
    top: warned.bottom + 1,
    tapeTop,
  });
  const text = `Crew strip of wall ${plainText(wall.name)}${part.of > 1 ? `, ${part.number} of ${part.of}` : ''}`;
  return {
    ...paper,
    title: `${text}, ${plainText(layout.title.name ?? 'untitled layout')}`,
    description: `${text}. ${basis.label}. ${basis.lines.join(' ')}`,
    nodes: [
      ...watermark(basis, boxBetween(inside.left, warned.bottom, inside.right, basisTop)),
      rect(boxBetween(FRAME_INSET, FRAME_INSET, paper.width - FRAME_INSET, paper.height - FRAME_INSET), {
        stroke: { colour: 'ink', pen: 'P1' },
      }),
      ...header(subject, part, drawn, { bottom: warned.bottom, width: paper.width }),
      ...warned.nodes,
      group(drawn.nodes, { role: 'wall', thing: wall.id, name: text }),
      ...hungCards(part, cards, drawn.x, { tapeBottom: tapeTop + TAPE_HEIGHT, top: cardsTop, ...inside }),
      group(foot.nodes(inside.left, basisTop), { role: 'basis' }),
    ],
    regions: {
      heading: boxBetween(FRAME_INSET, FRAME_INSET, paper.width - FRAME_INSET, warned.bottom),
      drawing: boxBetween(FRAME_INSET, warned.bottom, paper.width - FRAME_INSET, tapeTop + TAPE_HEIGHT + 1),
      lists: boxBetween(FRAME_INSET, cardsTop - 0.5, paper.width - FRAME_INSET, paper.height - FRAME_INSET),
    },
  };
}

const basisWords = (basis: Basis): string => `${basis.label}: ${basis.rules}. ${basis.lines.join(' ')}`;

// ---- heading

const HEADER_HEIGHT = 14;
const LEAST_LETTER_BOX = 21;
const LETTER_BOX_ROOM = 70;

/** Wall letter, where to hook the tape, and what holds before any hole. */
function header(
  subject: Subject,
  part: Part,
  drawn: ScaleOnStrip,
  { bottom, width: paperWidth }: { readonly bottom: number; readonly width: number },
): readonly SceneNode[] {
  const { wall } = subject.input;
  const top = FRAME_INSET;
  const letter = wallLetter(plainText(wall.name));
  const letterRight = rightOfLetter(letter);
  const left = letterRight + 3;
  const cautionsLeft = Math.max(paperWidth * 0.47, left + 120);
  const width = cautionsLeft - 3 - left;
  const title = [
    wall.label === undefined ? `WALL ${plainText(wall.name)}` : plainText(wall.label).toUpperCase(),
    ...(part.of > 1 ? [`STRIP ${part.number} OF ${part.of}`] : []),
  ].join('   ');
  const face = textWidth(title, 'block-heading', 'regular') > width / 2 ? 'narrow' : 'regular';
  const titleText = shortened(title, width * 0.6, 'block-heading', face);
  const sheet = flowingText(
    [{ text: sheetWords(subject, drawn), colour: 'ink2' }],
    width - textWidth(titleText, 'block-heading', face) - 4,
    'least',
  );
  const hook = flowingText(
    hookWords(subject).map((text): Chunk => ({ text, newLine: true })),
    width,
    'label',
  );
  return [
    group(
      [
        rect(boxBetween(FRAME_INSET, top, letterRight, bottom), { fill: 'ink' }),
        letter.shape([(FRAME_INSET + letterRight) / 2, (top + bottom) / 2 + letter.capHeight * 0.42]),
        lettered(titleText, [left, top + 1.2 + capHeights['block-heading']], {
          size: 'block-heading',
          face,
          heavy: true,
        }),
        ...sheet.nodes(left + textWidth(titleText, 'block-heading', face) + 4, top + 0.8),
        ...hook.nodes(left, top + 1.2 + capHeights['block-heading'] + 1.5),
      ],
      { role: 'heading' },
    ),
    group(beforeHoles(cautionsLeft, top, paperWidth - FRAME_INSET), { role: 'legend' }),
    line([letterRight, top + HEADER_HEIGHT], [paperWidth - FRAME_INSET, top + HEADER_HEIGHT], {
      colour: 'ink',
      pen: 'P2',
    }),
  ];
}

interface ScaleOnStrip {
  readonly scale: DrawingScale;
  readonly isCut: boolean;
}

/** Which papers it belongs to, and what the tape must measure on it. */
function sheetWords({ input: { layout }, units }: Subject, { scale, isCut }: ScaleOnStrip): string {
  return [
    plainText(layout.title.name ?? 'untitled layout'),
    ...issueWords(layout),
    `scale ${scale.words}${scale.reduced ? ', reduced' : ''}; print at 100 %: ${tapeCheck(units, scale.paper)}`,
    ...(isCut ? ['wall cut at the zigzags'] : []),
  ].join('; ');
}

const rightOfLetter = ({ width }: { readonly width: number }): number =>
  FRAME_INSET + Math.max(LEAST_LETTER_BOX, width + 7);

function wallLetter(name: string): {
  readonly width: number;
  readonly capHeight: number;
  shape(at: XY): TextShape;
} {
  const natural = textWidth(name, 'strip-wall', 'regular');
  const share = Math.min(1, LETTER_BOX_ROOM / Math.max(natural, 1));
  const capHeight = capHeights['strip-wall'] * share;
  const width = natural * share;
  return {
    width,
    capHeight,
    shape: (at) => ({
      ...lettered(name, at, { size: 'strip-wall', face: 'regular', anchor: 'middle', colour: 'paper', heavy: true }),
      capHeight,
      width,
    }),
  };
}

/** What the layout tells of station 0; what it does not tell is said too. */
function hookWords({ input: { layout, wall }, ends, units, lengthText }: Subject): readonly string[] {
  const axis = planAxis(wall);
  const stand = axis ? `Stand inside, face ${facing(axis)}.` : 'Stand inside, face the wall.';
  const from = axis ? `the left end, ${ends.zero}` : 'the left end';
  const to = axis ? ` to the ${ends.far}` : '';
  return [`${stand} Hook the tape at ${from} = 0; it runs right${to}, ${lengthText}.`, zeroWords(layout, wall, units)];
}

function zeroWords(layout: Layout, wall: Wall, units: LengthUnits): string {
  if (wall.role === 'interior') return 'What the tape hooks on is not recorded.';
  if (wall.face === 'inside') return '0 is the inside corner.';
  const corner = cornersOf(layout, wall).left;
  const depth = corner && corner.turn > 0 ? depthOfCorner(wall, 'left', corner) : undefined;
  if (!corner || !depth || depth.kind === 'lacking' || depth.depth === zero)
    return '0 is the OUTSIDE face of the corner; what the inside corner reads is not recorded.';
  const neighbour = plainText(corner.neighbour.name);
  return `0 is the OUTSIDE face of the corner: the inside corner must read ${formatInches(depth.depth, units)} (wall ${neighbour} is that thick).`;
}

function issueWords({ issues }: Layout): readonly string[] {
  const latest = issues[issues.length - 1];
  if (!latest) return [];
  const number = latest.number === undefined ? 'issue' : `issue ${latest.number}`;
  return [latest.date === undefined ? number : `${number} of ${latest.date}`];
}

function beforeHoles(left: number, top: number, right: number): readonly SceneNode[] {
  const title = 'BEFORE ANY HOLE';
  const titleWidth = textWidth(title, 'label', 'regular');
  const textLeft = left + 2 + titleWidth + 2.5;
  const text = flowingText(
    [
      { text: beforeAnyHole.join(' ') },
      { text: 'Slide: one mark alone, before its hole. Bar or stone hit: stop, go by "bad hole".', heavy: true },
    ],
    right - 2 - textLeft,
    'detail',
  );
  return [
    line([left, top], [left, top + HEADER_HEIGHT], { colour: 'ink', pen: 'P3' }),
    lettered(title, [left + 2, top + 1.4 + capHeights.label], { size: 'label', face: 'regular', heavy: true }),
    ...text.nodes(textLeft, top + 1.3),
  ];
}

/** The strip of a set for the engineer, then what is to be feared on this wall, and the work that needs no card. */
function band(
  { input, shape, units, marks }: Subject,
  left: number,
  paperWidth: number,
): { readonly nodes: readonly SceneNode[]; readonly bottom: number } {
  const { layout, wall, checked, basis } = input;
  const right = paperWidth - FRAME_INSET;
  const nodes: SceneNode[] = [];
  let y = FRAME_INSET + HEADER_HEIGHT;
  if (basis.label === "for engineer's review") {
    const because = basis.because === undefined ? '' : plainText(basis.because);
    const text = flowingText(
      [
        { text: "FOR ENGINEER'S REVIEW: drill nothing before the engineer has answered.", colour: 'stop', heavy: true },
        { text: because },
      ],
      right - left - PAD,
      'label',
    );
    nodes.push(...text.nodes(left, y + 1.2));
    y += text.height + 1.2;
    nodes.push(line([left - 3, y], [right, y], { colour: 'stop', pen: 'P1' }));
  }
  const cautions: readonly Chunk[] = [
    { text: 'ON THIS WALL', heavy: true },
    ...wallCautions({ layout, wall, shape, checked, basis, units }).map(
      ({ text, colour, heavy }): Chunk => ({ text, colour, heavy }),
    ),
  ];
  const work: readonly Chunk[] = [
    { text: 'OTHER WORK', heavy: true },
    ...workBeside(wall, marks, units).map(
      ({ text, box, thing }): Chunk => ({
        text,
        thing,
        box: box === undefined ? undefined : box === 'planned' ? 'open' : box === 'installed' ? 'ticked' : 'crossed',
      }),
    ),
  ];
  const columns = sideBySide(work.length > 1 ? [cautions, work] : [cautions], right - left - PAD);
  let x = left;
  for (const { text, width } of columns) {
    nodes.push(...text.nodes(x, y + 1.3));
    x += width + COLUMN_GAP;
    if (x < right - PAD) {
      const middle = x - COLUMN_GAP / 2;
      const height = Math.max(...columns.map((column) => column.text.height));
      nodes.push(line([middle, y + 0.8], [middle, y + height + 1], { colour: 'ink', pen: 'P5' }));
    }
  }
  y += Math.max(...columns.map((column) => column.text.height)) + 1.3;
  nodes.push(line([left - 3, y], [right, y], { colour: 'ink', pen: 'P4' }));
  return { nodes: [group(nodes, { role: 'list' })], bottom: y };
}

const COLUMN_GAP = 6;

/** The share of the width at which two columns are least high. */
function sideBySide(
  columns: readonly (readonly Chunk[])[],
  room: number,
): readonly { readonly text: FlowingText; readonly width: number }[] {
  const [first, second] = columns;
  if (!first) return [];
  if (!second) return [{ text: flowingText(first, room, 'detail'), width: room }];
  const widths = room - COLUMN_GAP;
  const tries = [0.5, 0.4, 0.6, 0.3, 0.7].map((share) => {
    const one = { text: flowingText(first, widths * share, 'detail'), width: widths * share };
    const other = { text: flowingText(second, widths * (1 - share), 'detail'), width: widths * (1 - share) };
    return { columns: [one, other], height: Math.max(one.text.height, other.text.height) };
  });
  return tries.reduce((best, each) => (each.height < best.height - 1e-6 ? each : best)).columns;
}

// ---- cards

interface Cards {
  readonly width: number;
  readonly height: number;
  readonly cards: readonly CrewCard[];
}

function cardsOf({ input, units }: Subject, { marks }: Part, room: number): Cards {
  const { layout, wall, checked } = input;
  if (marks.length === 0) return { width: 0, height: 0, cards: [] };
  const width = Math.min(WIDEST_CARD, (room - (marks.length - 1) * CARD_GAP) / marks.length);
  const speaker = speakerFor(wall, units, numbered(checked.findings.filter((finding) => finding.wall === wall.name)));
  const cards = marks.map((placed) =>
    crewCard(
      placed,
      cardWords({ layout, wall, units, findings: checked.findings }, placed),
      `card of ${spokenAnchor(placed, wall, speaker)}`,
      width,
      units,
    ),
  );
  return { width, height: Math.max(...cards.map((card) => card.height)), cards };
}

/** Each card hangs on a string from its station; order is kept, so that no two strings cross. */
function hungCards(
  { marks }: Part,
  { width, height, cards }: Cards,
  x: (station: Length) => number,
  at: { readonly tapeBottom: number; readonly top: number; readonly left: number; readonly right: number },
): readonly SceneNode[] {
  const wanted = marks.map(({ station }) => ({ wanted: x(station), width }));
  const centres =
    placeInLane(wanted, { from: at.left, to: at.right, gap: CARD_GAP }) ?? wanted.map((each) => each.wanted);
  return marks.flatMap((placed, index): readonly SceneNode[] => {
    const station = x(placed.station);
    const centre = centres[index] ?? station;
    const card = cards[index];
    const stroke: Stroke = { colour: 'ink', pen: 'P4', ...(placed.state === 'omitted' ? { line: 'omitted' } : {}) };
    return [
      group(
        [
          polygon(
            [
              [station, at.tapeBottom + 0.2],
              [station - 1.1, at.tapeBottom + 2],
              [station + 1.1, at.tapeBottom + 2],
            ],
            { fill: 'ink' },
          ),
          polyline(
            [
              [station, at.tapeBottom + 2],
              [centre, at.top - 0.9],
              [centre, at.top],
            ],
            { stroke },
          ),
        ],
        { role: 'leader', hidden: true },
      ),
      ...(card ? [card.draw([centre - width / 2, at.top], height)] : []),
    ];
  });
}

// ---- the wall

interface StripRoom {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly tapeTop: number;
}

/** Height is dear on a strip: labels rather move than take a second row. */
const FARTHEST_LABEL = 36;
const ZERO_FLAG = 11.5;
const ABOVE_TAPE = 2;
/** Where the wall is longer than this, the next smaller scale. */
const LONGEST_AT_FULL_SCALE = feet(40);

interface Levels {
  readonly upper: Length;
  readonly lower: Length;
}

function wallOnStrip(
  subject: Subject,
  part: Part,
  room: StripRoom,
): {
  readonly nodes: readonly SceneNode[];
  readonly scale: DrawingScale;
  readonly isCut: boolean;
  x(station: Length): number;
} {
  const { input, shape, units, lengthText, ends } = subject;
  const { wall, layout } = input;
  const flags = { left: ZERO_FLAG, right: endFlagWidth(lengthText) + 0.5 };
  const widest = room.right - room.left - flags.left - flags.right;
  const whole = levelExtremes(wall, shape, wall.joists.length > 0);
  const wanted = levelsWanted(subject);
  const labels = labelsOf(subject);
  const bottom = room.tapeTop - ABOVE_TAPE;
  const wallLength = inMillimetres(shape.length);

  const at = (ratio: number) => {
    const width = wallLength / ratio;
    const left = room.left + flags.left + Math.max(0, widest - width) / 2;
    const x = (station: Length): number => left + inMillimetres(station) / ratio;
    const lane = placeFoundLabels(labels, x, { from: room.left, to: room.right }, FARTHEST_LABEL);
    const laneTop = lane.dropped > 0 ? room.top + 4 : room.top;
    const height = bottom - (laneTop + lane.height + 0.8);
    return { width, left, x, lane, height, trueHeight: nanometres(Math.floor(height * ratio * 1e6)) };
  };
  const ratios = ratiosOf(units, shape.length);
  const fits = (ratio: number): boolean => {
    const { width, trueHeight } = at(ratio);
    return width <= widest + 0.01 && trueHeight >= minus(wanted.upper, wanted.lower);
  };
  const ratio = ratios.find(fits) ?? ratios[ratios.length - 1] ?? 1;
  const { left, x, lane, trueHeight } = at(ratio);
  const levels = levelsShown({ upper: whole.highest, lower: whole.lowest }, wanted, trueHeight);
  const scale: DrawingScale = {
    paper: 1 / ratio,
    words: scaleInWords(ratio, units),
    reduced: ratio !== ratios[0],
  };
  const frame: ElevationFrame = {
    layout,
    wall,
    units,
    shape,
    speaker: speakerFor(wall, units, []),
    paper: scale.paper,
    left,
    right: x(shape.length),
    shown: wholeLength,
    highest: whole.highest,
    lowest: whole.lowest,
    x,
    y: (level) => bottom - inMillimetres(minus(level, levels.lower)) * scale.paper,
  };
  const band: Strip = { along: 'y', from: frame.y(levels.upper) - 0.01, to: bottom + 0.01 };
  const cut = { top: whole.highest > levels.upper, bottom: whole.lowest < levels.lower };
  const drawing = elevation(subject, frame, {
    along: 'y',
    from: cut.top ? band.from : Number.NEGATIVE_INFINITY,
    to: cut.bottom ? band.to : room.tapeTop,
  });
  const clamped = labels.map(
    (label): FoundLabel => ({
      ...label,
      target: (on) => {
        const [tx, ty] = label.target(on);
        return [tx, Math.min(Math.max(ty, band.from + 0.6), bottom - 0.6)];
      },
    }),
  );
  const right = frame.right;
  const nameBaseline = room.tapeTop - 2.2;
  const corner = (text: string, width: number): string =>
    textWidth(text, 'detail') <= width ? text : text.replace(' corner', '').replace(' end', '');
  return {
    x,
    scale,
    isCut: cut.top || cut.bottom,
    nodes: [
      ...drawing,
      ...(cut.top ? [cutLine(frame, band.from)] : []),
      ...(cut.bottom ? [cutLine(frame, bottom)] : []),
      group(
        subject.marks.map((placed) =>
          line([x(placed.station), bottom], [x(placed.station), room.tapeTop], {
            colour: 'ink3',
            pen: part.marks.includes(placed) ? 'P5' : 'hair',
          }),
        ),
        { role: 'leader', hidden: true },
      ),
      tape([left, room.tapeTop], shape.length, units, scale.paper),
      zeroFlag([left, room.tapeTop]),
      endFlag([right, room.tapeTop], lengthText),
      lettered(corner(ends.zero, left - 1.5 - room.left), [left - 1.5, nameBaseline], {
        size: 'detail',
        anchor: 'end',
      }),
      lettered(corner(ends.far, room.right - right - 1.5), [right + 1.5, nameBaseline], { size: 'detail' }),
      ...foundLaneNodes(frame, clamped, lane, band.from - 0.4 - lane.height, room.right),
      ...panelNames(subject, frame, drawing, band),
    ],
  };
}

function ratiosOf(units: LengthUnits, length: Length): readonly number[] {
  const isLong = length > LONGEST_AT_FULL_SCALE;
  if (units === 'metric') return isLong ? [50, 100, 200, 400] : [40, 50, 100, 200, 400];
  return isLong ? [48, 96, 192, 384] : [32, 48, 96, 192, 384];
}

/** What a crew must see: from the joists' underside down to the foot of the deepest rod. */
function levelsWanted({ input: { wall, layout }, shape, marks, units }: Subject): Levels {
  let upper: Length | undefined;
  let lower: Length | undefined;
  const reach = (high: Length, low: Length): void => {
    upper = upper === undefined ? high : larger(upper, high);
    lower = lower === undefined ? low : smaller(lower, low);
  };
  const margin = inches(0.5);
  for (const stem of shape.stems) {
    for (const { level } of stem.joistUnderside) reach(plus(level, margin), minus(level, margin));
    for (const { level } of stem.top) reach(level, minus(level, inches(3)));
  }
  const trueFrame: ElevationFrame = {
    layout,
    wall,
    units,
    shape,
    speaker: speakerFor(wall, units, []),
    paper: 1,
    left: 0,
    right: inMillimetres(shape.length),
    shown: wholeLength,
    highest: upper ?? zero,
    lowest: lower ?? zero,
    x: inMillimetres,
    y: (level) => -inMillimetres(level),
  };
  for (const placed of marks) {
    const body = bodyBox(trueFrame, placed, placed.station);
    const foot = millimetres(-(body.y + body.height));
    reach(foot, minus(foot, inches(0.5)));
  }
  return { upper: upper ?? zero, lower: lower ?? zero };
}

/** All of it where there is room; else what is wanted, and of the rest first what lies below. */
function levelsShown(whole: Levels, wanted: Levels, room: Length): Levels {
  const spare = larger(zero, minus(room, minus(wanted.upper, wanted.lower)));
  const below = smaller(spare, larger(zero, minus(wanted.lower, whole.lower)));
  const above = smaller(minus(spare, below), larger(zero, minus(whole.upper, wanted.upper)));
  return { upper: plus(wanted.upper, above), lower: minus(wanted.lower, below) };
}

/** What stands where on the wall, without its second lines: the hazards are said in words above. */
function labelsOf({ input: { wall, layout }, shape, units }: Subject): readonly FoundLabel[] {
  const placed = wall.foundAnchors.filter(
    ({ station }) => station !== undefined && station >= zero && station <= shape.length,
  );
  return foundLabels({ wall, layout, shape, units, shown: wholeLength }, placed).map((label) => ({
    ...label,
    second: undefined,
  }));
}

function elevation({ input, marks }: Subject, frame: ElevationFrame, band: Strip): readonly SceneNode[] {
  const { wall } = input;
  const found = wall.foundAnchors.filter(
    ({ station }) => station !== undefined && station >= zero && station <= frame.shape.length,
  );
  return clipped(
    elevationParts(frame, {
      joists: joistEnds(wall, frame.shape.length),
      unblocked: unblockedStretches(input.checked.findings.filter((finding) => finding.wall === wall.name)),
      anchors: marks,
      foundAnchors: found,
      tapeTop: band.to,
    }),
    band,
  );
}

/** The wall goes on beyond: a thin line with zigzags, as ISO 128 draws the end of an interrupted view. */
function cutLine({ left, right }: ElevationFrame, y: number): SceneNode {
  const points: XY[] = [[left - 2, y]];
  for (let x = left + 20; x < right - 10; x += 60) {
    points.push([x, y], [x + 0.7, y - 1.4], [x + 2.1, y + 1.4], [x + 2.8, y]);
  }
  points.push([right + 2, y]);
  return group([polyline(points, { stroke: { colour: 'ink2', pen: 'P4' } })], { hidden: true });
}

/** Along a panel: its middle first, then further and further from it. */
const NAME_PLACES = Array.from(
  { length: 19 },
  (_, index) => 0.5 + Math.ceil(index / 2) * (index % 2 === 0 ? 0.05 : -0.05),
);

/** Names in their panels where nothing else stands; all of them stand in the list above. */
function panelNames(
  { input: { wall }, shape }: Subject,
  frame: ElevationFrame,
  drawing: readonly SceneNode[],
  band: Strip,
): readonly SceneNode[] {
  const taken = occupied();
  for (const { node, within } of walkScene(drawing)) {
    if (node.kind === 'text') taken.take(textBox(node));
    const ventHole = node.kind === 'circle' ? boundsOf([node]) : undefined;
    if (ventHole) taken.take(ventHole);
    if (node.kind === 'group') {
      const bounds = node.role === 'thing' && !isBackground(wall, node.thing) ? boundsOf(node.nodes) : undefined;
      if (bounds) taken.take(bounds);
    } else if (!within.some(({ thing }) => thing !== undefined && isPanel(wall, thing)))
      for (const box of heavyEdges(node)) taken.take(box);
  }
  for (const stem of shape.stems.slice(1))
    taken.take(boxBetween(frame.x(stem.from) - 0.6, band.from, frame.x(stem.from) + 0.6, band.to));
  return wall.panels.flatMap((panel): readonly SceneNode[] => {
    if (!panel.stretch || panel.state === 'omitted') return [];
    const outline = boundsOf(drawing.filter((node) => node.kind === 'group' && node.thing === panel.id));
    const text = plainText(panel.name);
    const half = textWidth(text, 'label', 'regular') / 2;
    if (!outline || outline.width < 2 * half + 3 || outline.height < 6) return [];
    // Over the block behind a joint in the middle of its height, and between the holes for air.
    const y = outline.y + outline.height * (panel.flatBlock || panel.flatBlocked ? 0.36 : 0.5) + capHeights.label / 2;
    const centres = NAME_PLACES.map((share) => outline.x + outline.width * share);
    const centre = centres.find((x) => {
      const box: Box = boxBetween(x - half - 1, y - capHeights.label - 1, x + half + 1, y + 1);
      return box.x > outline.x + 1 && box.x + box.width < outline.x + outline.width - 1 && taken.isFree(box);
    });
    return centre === undefined
      ? []
      : [
          group(
            [
              lettered(text, [centre, y], {
                size: 'label',
                face: 'regular',
                anchor: 'middle',
                colour: 'panel',
                halo: true,
                heavy: false,
              }),
            ],
            { thing: panel.id, hidden: true },
          ),
        ];
  });
}

/** Found and new wood runs behind every panel; its name may stand on it. */
function isBackground(wall: Wall, thing: string | undefined): boolean {
  return (
    thing === undefined ||
    isPanel(wall, thing) ||
    [wall.foundation, wall.cripples, wall.rims, wall.joists, wall.angles, wall.blocking, wall.pieces].some((things) =>
      things.some(({ id }) => id === thing),
    )
  );
}

const isPanel = (wall: Wall, thing: string): boolean => wall.panels.some(({ id }) => id === thing);

/** Where a heavy line would run through letters. */
function heavyEdges(shape: Shape): readonly Box[] {
  const pen = shape.kind === 'text' ? undefined : shape.stroke?.pen;
  if (pen !== 'P1' && pen !== 'P2') return [];
  const bounds = boundsOf([shape]);
  if (!bounds) return [];
  if (shape.kind !== 'rect') return [bounds];
  const { x, y, width, height } = bounds;
  return [
    { x, y, width, height: 0.1 },
    { x, y: y + height, width, height: 0.1 },
    { x, y, width: 0.1, height },
    { x: x + width, y, width: 0.1, height },
  ];
}
