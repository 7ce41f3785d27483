import { boardInWords } from '../../documents/schedules/panel-table.ts';
import { fastenerSize, sizeInWords } from '../../documents/schedules/words.ts';
import type { LengthUnits } from '../../model/layout.ts';
import { formatInches, formatLength } from '../../units/format-length.ts';
import {
  half,
  inches,
  inMillimetres,
  type Length,
  larger,
  minus,
  negate,
  plus,
  smaller,
  zero,
} from '../../units/length.ts';
import { markEnds } from '../elevation-new.ts';
import { spreadAlong } from '../label-lane.ts';
import { lettered, plainText, textWidth, wrapText } from '../lettering.ts';
import {
  boxBetween,
  circle,
  group,
  line,
  polygon,
  polyline,
  rect,
  type SceneNode,
  type Stroke,
  strokes,
  type XY,
} from '../scene.ts';
import { diagonals, dots, hatch, seededRandom } from '../strokes.ts';
import { type ColourToken, capHeights } from '../tokens.ts';
import { type Drawn, innerEdge, type SectionFacts, studInner, undersideOf } from './section-facts.ts';

/** Where things of a section stand on paper: `across` grows outwards from the inside face, `up` from the top of the concrete. */
interface Frame {
  readonly facts: SectionFacts;
  readonly units: LengthUnits;
  readonly paper: number;
  x(across: Length): number;
  y(up: Length): number;
  readonly bottom: number;
}

interface Label {
  readonly text: string;
  readonly at: XY;
  readonly colour?: ColourToken;
  readonly heavy?: boolean;
}

export interface DrawnSection {
  readonly nodes: readonly SceneNode[];
  readonly width: number;
  readonly height: number;
}

const TITLE_HEIGHT = 12;
const LEFT = 5;
const LABEL_WIDTH = 50;
const LABEL_GAP = 5;
/** In front of the wall, true inches; a longer reach is cut there and says so. */
const FRONT = inches(10);

/** One section, from its upper left corner at 0, 0. */
export function drawSection(
  facts: SectionFacts,
  words: { readonly name: string; readonly marks: readonly string[]; readonly scale: string; readonly seed: string },
  paper: number,
  units: LengthUnits,
): DrawnSection {
  const onPaper = (length: Length): number => inMillimetres(length) * paper;
  const face = facts.sill
    ? larger(facts.stem.thick.length, plus(facts.sill.setBack.length, facts.sill.wide.length))
    : facts.stem.thick.length;
  const upper = plus(undersideOf(facts).length, facts.joist.depth.length);
  const lower = lowestOf(facts);
  const left = LEFT;
  const insideX = left + onPaper(face);
  const top = TITLE_HEIGHT + marksHeight(words.marks) + 3;
  const frame: Frame = {
    facts,
    units,
    paper,
    x: (across) => insideX - onPaper(across),
    y: (up) => top + onPaper(minus(upper, up)),
    bottom: top + onPaper(minus(upper, lower)),
  };
  const labels: Label[] = [];
  const nodes = [
    ...concrete(frame, labels, words.seed),
    ...floor(frame, labels),
    ...crippleWall(frame, labels),
    ...sill(frame, labels),
    ...bracing(frame, labels),
    ...connector(frame, labels),
    ...room(frame, labels),
  ];
  const labelLeft = insideX + onPaper(FRONT) + LABEL_GAP;
  const placed = placeLabels(labels, labelLeft, top - 1);
  const bottom = Math.max(frame.bottom + 11, placed.bottom + 1);
  return {
    width: labelLeft + LABEL_WIDTH,
    height: Math.ceil(bottom),
    nodes: [...title(words), ...nodes, ...stemDimension(frame), ...placed.nodes],
  };
}

/** Below the deepest hole and the foot of a plate, and no more: the rest of the stem is like it. */
function lowestOf({ anchor, stem }: SectionFacts): Length {
  const depth = anchor?.depth.length ?? inches(4);
  const body = anchor?.placed.connector?.body?.tall ?? zero;
  const isPlate = anchor !== undefined && markEnds(anchor.placed.connector) === 'square';
  const wanted = plus(isPlate ? larger(body, inches(8)) : depth, inches(2.5));
  return negate(larger(inches(6), smaller(wanted, plus(stem.showing.length, inches(3)))));
}

const words = (value: Drawn, units: LengthUnits): string =>
  value.known ? formatInches(value.length, units) : 'not recorded';

const firm = (known: boolean, colour: ColourToken, pen: Stroke['pen']): Stroke =>
  known ? { colour, pen } : { colour, pen: 'P2', line: 'not-recorded' };

function seen(node: SceneNode, known: boolean): SceneNode {
  return known ? node : group([node], { symbol: 'not-recorded' });
}

// ---- found

function concrete(frame: Frame, labels: Label[], seed: string): readonly SceneNode[] {
  const { facts, units, x, y, bottom } = frame;
  const { thick, showing, grade } = facts.stem;
  const [outer, inner, top] = [x(thick.length), x(zero), y(zero)];
  const ground = y(negate(showing.length));
  const soil = grade === undefined ? undefined : y(negate(grade));
  const groundShown = showing.known && ground < bottom - 1;
  labels.push({
    text: `${facts.material}; outside soil ${grade === undefined ? 'not recorded' : `${formatInches(grade, units)} below its top`}`,
    at: [outer + (inner - outer) * 0.3, bottom - 5],
  });
  labels.push({
    text: showing.known
      ? `showing ${formatLength(showing.length, units)} above the ground inside`
      : 'ground inside not recorded',
    at: [inner + 2, groundShown ? ground : bottom - 2],
    colour: 'ink2',
  });
  return [
    polygon(
      [
        [outer, top],
        [inner, top],
        [inner, bottom],
        [outer, bottom],
      ],
      { fill: 'conc' },
    ),
    texture(outer, inner, top, bottom, seed),
    line([inner, top], [inner, bottom], { colour: 'ink', pen: 'P1' }),
    seen(line([outer, top], [inner, top], firm(thick.known, 'ink', 'P1')), thick.known),
    seen(line([outer, top], [outer, bottom], firm(thick.known, 'ink', 'P1')), thick.known),
    cutLine(outer - 2, inner + 2, bottom),
    ...(groundShown ? [line([inner, ground], [inner + 12, ground], { colour: 'earth', pen: 'P1' })] : []),
    ...(soil !== undefined && soil < bottom - 1
      ? [line([0.5, soil], [outer, soil], { colour: 'earth', pen: 'P1' })]
      : []),
  ];
}

function texture(left: number, right: number, top: number, bottom: number, seed: string): SceneNode {
  const random = seededRandom(seed);
  const points: XY[] = [];
  for (let px = left; px < right; px += 4) {
    for (let py = top; py < bottom; py += 4) {
      const at: XY = [px + random() * 4, py + random() * 4];
      if (at[0] < right - 0.8 && at[1] > top + 0.8 && at[1] < bottom - 0.8) points.push(at);
    }
  }
  return group([{ kind: 'path', steps: dots(points), stroke: { colour: 'ink3', pen: 'dot', ends: 'round' } }], {
    role: 'texture',
    hidden: true,
  });
}

/** A thin line with one zigzag: the thing goes on beyond. */
function cutLine(left: number, right: number, y: number): SceneNode {
  const middle = (left + right) / 2;
  return group(
    [
      polyline(
        [
          [left, y],
          [middle - 1.4, y],
          [middle - 0.7, y - 1.4],
          [middle + 0.7, y + 1.4],
          [middle + 1.4, y],
          [right, y],
        ],
        { stroke: { colour: 'ink2', pen: 'P4' } },
      ),
    ],
    { hidden: true },
  );
}

/** A board that is cut: heavy edge, and a cross for one that runs along the wall. */
function cutBoard(box: ReturnType<typeof boxBetween>, known: boolean, isNew = false): readonly SceneNode[] {
  const stroke: Stroke = isNew ? { colour: 'new', pen: 'P2' } : firm(known, 'woodln', 'P2');
  return [
    seen(rect(box, { fill: 'wood', stroke }), known || isNew),
    isNew
      ? group([strokes(hatch(box, 2.4), { colour: 'new', pen: 'P4' })], { symbol: 'new-sill' })
      : strokes(diagonals(box), { colour: 'woodln', pen: 'P5' }),
  ];
}

function sill({ facts, units, x, y }: Frame, labels: Label[]): readonly SceneNode[] {
  const { sill: board } = facts;
  if (!board) {
    labels.push({ text: 'no sill board here', at: [x(zero) - 3, y(zero)], heavy: true });
    return [];
  }
  const { piece, thick, wide, setBack } = board;
  const box = boxBetween(x(plus(setBack.length, wide.length)), y(thick.length), x(setBack.length), y(zero));
  const known = thick.known && wide.known && setBack.known;
  const size =
    thick.known && wide.known
      ? `${formatInches(thick.length, units)} x ${formatInches(wide.length, units)}`
      : 'size not recorded';
  labels.push({
    text: `${piece.layer === 'design' ? 'new ' : ''}sill ${plainText(piece.name)}, ${size}${piece.double ? ' (two boards)' : ''}`,
    at: [box.x + box.width * 0.82, box.y + box.height * 0.5],
  });
  const dimensionY = y(zero) + 2.6;
  labels.push({
    text: setBack.known ? `set-back ${formatInches(setBack.length, units)}` : 'SET-BACK NOT RECORDED',
    at: [(x(zero) + x(setBack.length)) / 2, setBack.length === zero ? y(zero) : dimensionY],
    heavy: true,
  });
  return [
    group(cutBoard(box, known, piece.layer === 'design'), { thing: piece.id }),
    ...(setBack.known && setBack.length !== zero ? dimension(x(setBack.length), x(zero), dimensionY) : []),
  ];
}

/** A short dimension with a tick at each end; its value is a label. */
function dimension(from: number, to: number, y: number): readonly SceneNode[] {
  const tick = (px: number): readonly [XY, XY] => [
    [px - 0.8, y + 0.8],
    [px + 0.8, y - 0.8],
  ];
  return [
    line([Math.min(from, to) - 1.2, y], [Math.max(from, to) + 1.2, y], { colour: 'ink3', pen: 'P5' }),
    strokes([tick(from), tick(to)], { colour: 'ink', pen: 'P3' }),
  ];
}

function upright(px: number, from: number, to: number): readonly SceneNode[] {
  const tick = (py: number): readonly [XY, XY] => [
    [px - 0.8, py + 0.8],
    [px + 0.8, py - 0.8],
  ];
  return [
    line([px, Math.min(from, to)], [px, Math.max(from, to)], { colour: 'ink3', pen: 'P5' }),
    strokes([tick(from), tick(to)], { colour: 'ink', pen: 'P3' }),
  ];
}

function crippleWall({ facts, units, x, y }: Frame, labels: Label[]): readonly SceneNode[] {
  const { cripple, sill: board } = facts;
  if (!cripple) return [];
  const { height, studWide, ledge, plates } = cripple;
  const inner = studInner(facts);
  const outer = plus(inner, studWide.length);
  const foot = board?.thick.length ?? zero;
  const plateCount = plates ?? 2;
  const plateThick = inches(1.5);
  const plateFoot = minus(height.length, inches(1.5 * plateCount));
  const known = studWide.known && ledge.known && height.known;
  const stud = boxBetween(x(outer), y(plateFoot), x(inner), y(foot));
  labels.push({
    text: `cripple stud ${sizeInWords(cripple.cripple.studSize, units) || 'size not recorded'}; ledge ${words(ledge, units)}`,
    at: [stud.x + stud.width * 0.7, stud.y + stud.height * 0.3],
  });
  labels.push({
    text:
      plates === undefined
        ? 'top plates not recorded'
        : `${plates === 2 ? 'double' : 'single'} plate, underside of joists ${height.known ? `${formatLength(height.length, units)} over concrete` : 'not recorded'}`,
    at: [x(plus(inner, half(studWide.length))), y(minus(height.length, inches(0.75)))],
  });
  return [
    seen(rect(stud, { fill: 'wood', stroke: firm(known, 'woodln', 'P4') }), known),
    ...Array.from({ length: plateCount }, (_, index) => {
      const low = plus(plateFoot, inches(1.5 * index));
      return cutBoard(
        boxBetween(x(outer), y(plus(low, plateThick)), x(inner), y(low)),
        plates !== undefined && studWide.known && ledge.known && height.known,
      );
    }).flat(),
  ];
}

/** Where the wood over the sill stands outside: over the studs where there are some, else over the sill. */
function outerOf({ facts }: Frame): Length {
  const { cripple, sill: board, stem } = facts;
  if (cripple) return plus(studInner(facts), cripple.studWide.length);
  return board ? plus(board.setBack.length, board.wide.length) : stem.thick.length;
}

function floor(frame: Frame, labels: Label[]): readonly SceneNode[] {
  const { facts, units, x, y } = frame;
  const { joist, rim } = facts;
  const underside = undersideOf(facts);
  const [low, high] = [y(underside.length), y(plus(underside.length, joist.depth.length))];
  const outer = outerOf(frame);
  const size =
    joist.depth.known && joist.thick.known
      ? `${formatInches(joist.thick.length, units)} x ${formatInches(joist.depth.length, units)}`
      : 'size not recorded';
  const nodes: SceneNode[] = [];
  const known = joist.recorded && joist.depth.known && underside.known;
  if (joist.run === 'parallel') {
    const box = boxBetween(x(outer), high, x(minus(outer, joist.thick.length)), low);
    nodes.push(...cutBoard(box, known));
    labels.push({ text: `joist along the wall, ${size}`, at: [box.x + box.width * 0.6, high + (low - high) * 0.4] });
  } else {
    const rimThick = rim === 'absent' ? zero : inches(1.5);
    const right = x(negate(inches(6)));
    const box = boxBetween(x(minus(outer, rimThick)), high, right, low);
    const isKnown = known && joist.run === 'into';
    nodes.push(
      rect(box, { fill: 'wood' }),
      // Open at the right: it goes on.
      ...[high, low].map((py) => seen(line([box.x, py], [right, py], firm(isKnown, 'woodln', 'P3')), isKnown)),
      strokes(
        [0.33, 0.68].map((share): readonly [XY, XY] => [
          [box.x + 2, high + (low - high) * share],
          [right - 2, high + (low - high) * share],
        ]),
        { colour: 'woodln', pen: 'P5' },
      ),
    );
    labels.push({
      text: joist.run === 'into' ? `joist ends on the wall, ${size}` : 'joists not recorded',
      at: [right - 4, high + (low - high) * 0.5],
    });
  }
  if (rim !== 'absent' && joist.run !== 'parallel') {
    const isSeen = rim === 'seen';
    const box = boxBetween(x(outer), high, x(minus(outer, inches(1.5))), low);
    nodes.push(...cutBoard(box, isSeen && known));
    labels.push({
      text: isSeen ? 'rim' : `rim ${rim === 'unseen' ? 'not seen' : 'not recorded'}`,
      at: [box.x + box.width / 2, high + (low - high) * 0.15],
    });
  }
  return nodes;
}

// ---- new

function bracing({ facts, units, x, y }: Frame, labels: Label[]): readonly SceneNode[] {
  const { panel, cripple, sill: board } = facts;
  if (!panel || !cripple) return [];
  const inner = studInner(facts);
  const top = y(cripple.height.length);
  const foot = board?.thick.length ?? zero;
  const face = boxBetween(x(inner), top, x(minus(inner, panel.thick.length)), y(foot));
  labels.push({
    text: `panel ${plainText(panel.panel.name)}, ${boardInWords(panel.panel, units)}`,
    at: [face.x + face.width / 2, top + (y(foot) - top) * 0.55],
    colour: 'panel',
  });
  const nodes: SceneNode[] = [
    rect(face, {
      fill: 'panelfill',
      stroke: { colour: 'panel', pen: 'P2', ...(panel.thick.known ? {} : { line: 'not-recorded' }) },
    }),
  ];
  if (panel.nailer > zero && facts.anchor?.placed.connector?.kind !== 'hold-down') {
    const block = boxBetween(x(plus(inner, inches(3.5))), y(plus(foot, panel.nailer)), x(inner), y(foot));
    nodes.push(
      rect(block, { fill: 'wood', stroke: { colour: 'new', pen: 'P2' } }),
      strokes(hatch(block, 2.4), { colour: 'new', pen: 'P5' }),
    );
    labels.push({
      text: `nailer ${formatInches(panel.nailer, units)} on the sill, between the studs`,
      at: [block.x + block.width * 0.9, block.y + block.height * 0.5],
      colour: 'new',
    });
  }
  return nodes;
}

function connector(frame: Frame, labels: Label[]): readonly SceneNode[] {
  const { facts, units } = frame;
  const { anchor } = facts;
  if (!anchor) return [];
  const { connector: kind } = anchor.placed;
  const name = plainText(kind?.name ?? anchor.placed.anchor.connectorName ?? 'no connector named');
  if (!kind) {
    labels.push({ text: `${name}: not described`, at: [frame.x(zero), frame.y(zero)], colour: 'new', heavy: true });
    return [];
  }
  const fastener = kind.fasteners.find(({ member }) => member === 'concrete');
  if (!fastener) {
    labels.push({ text: `${name}: nothing into the concrete`, at: [frame.x(zero), frame.y(zero)], colour: 'new' });
    return [];
  }
  const what = `${name}: ${fastenerSize(fastener, units)} ${fastener.kind.replaceAll('-', ' ')}`;
  const built = anchor.placed.anchor.asBuilt?.embed?.kind === 'known';
  const deep = !anchor.depth.known
    ? 'DEPTH NOT KNOWN'
    : built
      ? `embedded ${formatInches(anchor.depth.length, units)} as built`
      : `${formatInches(anchor.depth.length, units)} deep in concrete${drillWords(anchor, units)}`;
  return kind.kind === 'through-bolt' || kind.kind === 'hold-down'
    ? rod(frame, labels, what, deep)
    : plate(frame, labels, what, deep);
}

/** What the crew sets its bit to. */
function drillWords({ drilling }: NonNullable<SectionFacts['anchor']>, units: LengthUnits): string {
  if (!drilling) return '';
  const bit = drilling.bit === undefined ? 'bit not given' : `${formatInches(drilling.bit, units)} bit`;
  if (drilling.way === 'into-face') return `, ${bit}`;
  const depth = drilling.depth === undefined ? 'depth not known' : formatInches(drilling.depth, units);
  return `: ${bit}, ${depth} from top of ${drilling.measuredFrom}`;
}

function rod(frame: Frame, labels: Label[], what: string, deep: string): readonly SceneNode[] {
  const { facts, units, x, y } = frame;
  const { anchor, sill: board, panel } = facts;
  if (!anchor) return [];
  const across = plus(innerEdge(facts), anchor.offset.length);
  const px = x(across);
  const { connector: kind } = anchor.placed;
  const isBolt = kind?.kind === 'through-bolt';
  const seat = plus(board?.thick.length ?? zero, isBolt ? (panel?.nailer ?? zero) : zero);
  const foot = y(negate(anchor.depth.length));
  const washer = isBolt ? inMillimetres(kind.body?.tall ?? inches(2)) * frame.paper : 3.4;
  const under = y(seat);
  labels.push(
    { text: what, at: [px, under - 2.6], colour: 'new', heavy: true },
    { text: deep, at: [px + 2.2, (y(zero) + foot) / 2], colour: 'new', heavy: true },
    {
      text: anchor.offset.known
        ? `${formatInches(anchor.offset.length, units)} from inner edge of sill`
        : 'place across the sill not known',
      at: [px, y(zero) + 5.2],
      colour: 'new',
    },
  );
  return [
    group(
      [
        line([px, under - 4.2], [px, foot], {
          colour: 'new',
          pen: 'rod',
          ...(anchor.depth.known && anchor.offset.known ? {} : { line: 'not-recorded' }),
        }),
        line([px - 1.3, foot], [px + 1.3, foot], { colour: 'new', pen: 'P1' }),
        rect(boxBetween(px - washer / 2, under - 0.8, px + washer / 2, under), { fill: 'new' }),
        rect(boxBetween(px - 1.3, under - 2.8, px + 1.3, under - 0.8), { fill: 'new' }),
      ],
      { thing: anchor.placed.id },
    ),
    ...(isBolt ? [] : bracket(frame, labels, px, seat)),
    ...upright(px + 2.2, y(zero), foot),
    ...dimension(px, x(innerEdge(facts)), y(zero) + 5.2),
  ];
}

/** Of a hold-down: how far it stands off its stud is no field of the hardware file. */
function bracket({ facts, units, y, paper }: Frame, labels: Label[], px: number, seat: Length): readonly SceneNode[] {
  const tall = facts.anchor?.placed.connector?.body?.tall;
  if (tall === undefined) return [];
  const [low, high] = [y(plus(seat, inches(1))), y(plus(seat, plus(tall, inches(1))))];
  const reach = inMillimetres(inches(1.25)) * paper;
  labels.push({
    text: `bracket ${formatInches(tall, units)} tall on its stud; its depth is not given`,
    at: [px + reach * 0.6, high + (low - high) * 0.4],
    colour: 'new',
  });
  return [
    group(
      [
        rect(boxBetween(px - reach, high, px + reach, low), {
          stroke: { colour: 'new', pen: 'P2', line: 'not-recorded' },
        }),
      ],
      {
        symbol: 'not-recorded',
      },
    ),
  ];
}

/** A plate on the face: against the edge of the board, over its set-back, and down the concrete. */
function plate(frame: Frame, labels: Label[], what: string, deep: string): readonly SceneNode[] {
  const { facts, x, y } = frame;
  const { anchor, sill: board } = facts;
  const kind = anchor?.placed.connector;
  if (!anchor || !kind) return [];
  const thick = kind.body?.thick ?? inches(0.25);
  const tall = kind.body?.tall ?? inches(9);
  const edge = innerEdge(facts);
  const high = minus(board?.thick.length ?? zero, kind.drop ?? zero);
  const low = minus(high, tall);
  const t = (across: Length): number => x(minus(across, thick));
  // A flat plate that is shimmed off the sill stands on the concrete's face all the way up.
  const upper = kind.kind === 'stepped-side-plate' ? edge : zero;
  const outline: readonly XY[] = [
    [x(upper), y(high)],
    [t(upper), y(high)],
    [t(upper), y(thick)],
    [t(zero), y(thick)],
    [t(zero), y(low)],
    [x(zero), y(low)],
    [x(zero), y(zero)],
    [x(upper), y(zero)],
  ];
  const given = kind.holes.filter(({ member }) => member === 'concrete').flatMap(({ points }) => points);
  const middle = minus(high, half(tall));
  const holeUp = given[0] ? plus(middle, given[0].y) : minus(half(low), inches(0.5));
  const holeY = y(holeUp);
  const end = x(anchor.depth.length);
  const lag = kind.fasteners.find(({ member }) => member === 'sill');
  const lagY = y(half(high));
  labels.push(
    { text: what, at: [t(zero) + 1.6, holeY], colour: 'new', heavy: true },
    { text: deep, at: [(x(zero) + end) / 2, holeY + 3], colour: 'new', heavy: true },
  );
  if (lag) {
    labels.push({
      text: `${fastenerSize(lag, frame.units)} ${lag.kind.replaceAll('-', ' ')} into the sill`,
      at: [t(upper) + 1, lagY],
      colour: 'new',
    });
  }
  return [
    group(
      [
        line([x(zero) + 0.6, holeY], [end, holeY], {
          colour: 'new',
          pen: 'rod',
          ...(anchor.depth.known ? {} : { line: 'not-recorded' }),
        }),
        rect(boxBetween(t(zero), holeY - 1.2, t(zero) + 1.6, holeY + 1.2), { fill: 'new' }),
        ...(lag?.long === undefined
          ? []
          : [
              line([t(upper) + 0.9, lagY], [x(minus(plus(upper, lag.long), thick)), lagY], {
                colour: 'new',
                pen: 'P2',
              }),
            ]),
        polygon(outline, { fill: 'new', stroke: { colour: 'new', pen: 'P4' } }),
      ],
      { thing: anchor.placed.id },
    ),
    ...dimension(x(zero), end, holeY + 3),
  ];
}

// ---- room for the tool

/** Headroom over the sill, or room in front of the wall, beside what the drill asks for. */
function room(frame: Frame, labels: Label[]): readonly SceneNode[] {
  const { facts, units, x, y } = frame;
  const { anchor, toolReach, headroom, sill: board } = facts;
  const seat = board?.thick.length ?? zero;
  const tool: Stroke = { colour: 'ink2', pen: 'P4', line: 'ghost' };
  const wide = inches(1.5);
  const isPlate = anchor !== undefined && markEnds(anchor.placed.connector) === 'square';
  const headX = x(negate(inches(2)));
  const nodes: SceneNode[] = [];
  if (headroom === undefined) labels.push({ text: 'head-room not recorded', at: [headX, y(seat) - 4], heavy: true });
  else {
    labels.push({
      text: `head-room ${formatInches(headroom, units)} over the sill`,
      at: [headX, (y(seat) + y(plus(seat, headroom))) / 2],
      heavy: true,
    });
    nodes.push(...upright(headX, y(seat), y(plus(seat, headroom))));
  }
  if (!anchor || toolReach === undefined) return nodes;
  const right = anchor.placed.anchor.rightAngleDrill ? 'right-angle drill' : 'drill and bit';
  if (isPlate) {
    const reach = smaller(toolReach, FRONT);
    const isCut = toolReach > FRONT;
    const low = minus(seat, kindTall(facts));
    const py = y(half(low));
    const end = x(negate(reach));
    const box = boxBetween(x(zero) + 4, py - 4, end, py + 4);
    nodes.push(
      isCut
        ? polyline(
            [
              [box.x + box.width, box.y],
              [box.x, box.y],
              [box.x, box.y + box.height],
              [box.x + box.width, box.y + box.height],
            ],
            { stroke: tool },
          )
        : rect(box, { stroke: tool }),
    );
    labels.push({
      text: `${right}: ${formatInches(toolReach, units)} clear in front${isCut ? ' (goes on)' : ''}`,
      at: [end - 2, py + 4],
      colour: 'ink2',
    });
    return nodes;
  }
  const px = x(plus(innerEdge(facts), anchor.offset.length));
  const reach = inMillimetres(wide) * frame.paper;
  const top = y(plus(seat, toolReach));
  nodes.push(
    rect(boxBetween(px - reach, top, px + reach, y(seat)), { stroke: tool }),
    circle([px, top], 0.5, { fill: 'ink2' }),
  );
  labels.push({
    text: `${right}: ${formatInches(toolReach, units)} over the sill`,
    at: [px, top],
    colour: 'ink2',
    ...(headroom !== undefined && headroom < toolReach ? { heavy: true } : {}),
  });
  return nodes;
}

const kindTall = ({ anchor }: SectionFacts): Length => anchor?.placed.connector?.body?.tall ?? inches(9);

// ---- words

function stemDimension({ facts, units, x, bottom }: Frame): readonly SceneNode[] {
  const { thick } = facts.stem;
  const y = bottom + 4.6;
  const text = thick.known ? formatInches(thick.length, units) : 'thickness not recorded';
  const [outer, inner] = [x(thick.length), x(zero)];
  const width = textWidth(text, 'label');
  // A text wider than the stem stands from its outer face on.
  const at: XY =
    width < inner - outer
      ? [(outer + inner) / 2, y + 1.4 + capHeights.label]
      : [Math.max(1 + width / 2, (outer + inner) / 2), y + 1.4 + capHeights.label];
  return [
    ...[outer, inner].map((px) => line([px, bottom + 1.6], [px, y + 1.2], { colour: 'ink3', pen: 'hair' })),
    ...dimension(outer, inner, y),
    lettered(text, at, { size: 'label', anchor: 'middle', heavy: !thick.known }),
  ];
}

const MARKS_WIDTH = LABEL_WIDTH + 60;
const marksText = (marks: readonly string[]): readonly string[] =>
  marks.length === 0 ? ['no new work here'] : wrapText(marks.map(plainText).join(', '), MARKS_WIDTH, 'label');
const marksHeight = (marks: readonly string[]): number => marksText(marks).length * 3.8;

function title({
  name,
  marks,
  scale,
}: {
  readonly name: string;
  readonly marks: readonly string[];
  readonly scale: string;
}): readonly SceneNode[] {
  return [
    lettered(name, [0, capHeights['block-heading']], { size: 'block-heading', face: 'regular', heavy: true }),
    lettered(scale, [0, capHeights['block-heading'] + 1.8 + capHeights.detail], { size: 'detail', colour: 'ink2' }),
    ...marksText(marks).map((text, index) =>
      lettered(text, [0, 8.6 + capHeights.label + index * 3.8], {
        size: 'label',
        colour: marks.length === 0 ? 'ink2' : 'new',
      }),
    ),
  ];
}

/** Down the inside, in the order of the things; each tied to its place. */
function placeLabels(
  labels: readonly Label[],
  left: number,
  top: number,
): { readonly nodes: readonly SceneNode[]; readonly bottom: number } {
  const pitch = capHeights.label * 1.45;
  const sorted = [...labels]
    .sort((a, b) => a.at[1] - b.at[1] || b.at[0] - a.at[0])
    .map((label) => ({ ...label, lines: wrapText(label.text, LABEL_WIDTH - 1, 'label') }));
  const height = (index: number): number => (sorted[index]?.lines.length ?? 1) * pitch + 1.4;
  const apart = sorted.slice(1).map((_, index) => (height(index) + height(index + 1)) / 2);
  const wanted = sorted.map(({ at }) => at[1]);
  const centres = spreadAlong(wanted, apart, { from: top + height(0) / 2, to: Number.POSITIVE_INFINITY }) ?? wanted;
  let bottom = top;
  const nodes = sorted.flatMap(({ lines, at, colour, heavy }, index): readonly SceneNode[] => {
    const centre = centres[index] ?? at[1];
    const first = centre - ((lines.length - 1) * pitch) / 2 + capHeights.label / 2;
    bottom = Math.max(bottom, first + (lines.length - 1) * pitch);
    return [
      group(
        [
          polyline([at, [left - 3.4, centre], [left - 0.8, centre]], { stroke: { colour: 'ink3', pen: 'P5' } }),
          circle(at, 0.4, { fill: 'ink2' }),
        ],
        { role: 'leader', hidden: true },
      ),
      ...lines.map((text, row) =>
        lettered(text, [left, first + row * pitch], {
          size: 'label',
          ...(colour ? { colour } : {}),
          ...(heavy ? { heavy } : {}),
        }),
      ),
    ];
  });
  return { nodes, bottom };
}
