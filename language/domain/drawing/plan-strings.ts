import { extentOf } from '../fit/thing-words.ts';
import type { SillPiece } from '../model/layout.ts';
import { knownValue } from '../model/reading.ts';
import { formatLength, formatStation } from '../units/format-length.ts';
import { inches, inMillimetres, type Length, minus, plus, zero } from '../units/length.ts';
import { markEnds } from './elevation-new.ts';
import { type Occupied, occupied } from './free-room.ts';
import { placeLabels } from './label-rows.ts';
import { lettered, plainText, textBox, textWidth } from './lettering.ts';
import { type PlacedAnchor, placedAnchor } from './placed-mark.ts';
import type { TrueXY } from './plan-axis.ts';
import { facesAt, type PlanFrame, type PlanWall } from './plan-frame.ts';
import {
  type Box,
  boxBetween,
  circle,
  group,
  line,
  polygon,
  polyline,
  rect,
  type SceneNode,
  walkScene,
  type XY,
} from './scene.ts';
import { fanHeight } from './strings.ts';
import { markFrame } from './symbols.ts';
import { capHeights } from './tokens.ts';
import { stemAt } from './wall-shape.ts';

/** Outside the house: marks of new anchors, pieces, whole walls. Distances are mm on paper, counted outwards from a face. */

const FRAME_HEIGHT = 3.8;
const FIRST_LANE = 5.5;
const STRING_PITCH = 6.4;
/** A wall that lies deeper in the outline than this has strings of its own, close to it. */
const DEEPEST_SHARED = 60;

interface WallStrings {
  readonly place: PlanWall;
  /** Distance out to the line that its side of the house shares. */
  readonly base: number;
  readonly side: string;
  readonly marks: readonly PlacedMark[];
  readonly marksDepth: number;
  readonly pieces: readonly SillPiece[];
}
interface PlacedMark {
  readonly anchor: PlacedAnchor;
  readonly wanted: number;
  readonly centre: number;
  readonly row: number;
  readonly width: number;
  readonly fan: number;
}

export function planStrings(frame: PlanFrame, places: readonly PlanWall[]): readonly SceneNode[] {
  const strings = sharedSides(frame, places).map(({ place, base, side }) => stringsOf(frame, place, base, side));
  const depths = new Map<string, number>();
  for (const { side, marksDepth } of strings) depths.set(side, Math.max(depths.get(side) ?? 0, marksDepth));
  // Room is looked for about the origin, so that a house takes the same shape wherever it stands on its sheet.
  const taken = occupied();
  const local: PlanFrame = { ...frame, at: ([x, y]) => [x * frame.paper, -y * frame.paper] };
  for (const place of places) for (const band of wallBands(local, place)) taken.take(band);
  const placed = strings.map((string) => ({
    string,
    distances: distancesOf(local, string, depths.get(string.side) ?? 0, taken),
  }));
  return [
    // Leaders run under the frames of other walls.
    ...placed.map(({ string, distances }) => markLeaders(frame, string, distances)),
    ...placed.map(({ string, distances }) => wallStrings(frame, string, distances)),
  ];
}

/** The concrete of a wall and the signs of its steps, in pieces small enough to follow it at any angle. */
function wallBands(frame: PlanFrame, { axis, wall, shape }: PlanWall): readonly Box[] {
  const pieces = Math.max(1, Math.ceil((axis.length * frame.paper) / 6));
  const across = (station: Length, beyond = 0): readonly XY[] => {
    const faces = facesAt(wall, stemAt(shape, station), station);
    return [faces.outer - 2.6 / frame.paper, faces.inner].map((inside) => {
      const [x, y] = axis.at(station, inside);
      return frame.at([x + axis.along[0] * beyond, y + axis.along[1] * beyond]);
    });
  };
  const at = (step: number): Length => ((shape.length * step) / pieces) as Length;
  // Outside the ends of the wall its corner goes on, where walls are known by their inner faces.
  const corner = (station: Length, sign: 1 | -1): Box => {
    const { outer } = facesAt(wall, stemAt(shape, station), station);
    return boxAround([...across(station), ...across(station, sign * Math.max(0, -outer))]);
  };
  return [
    ...Array.from({ length: pieces }, (_, index) => boxAround([...across(at(index)), ...across(at(index + 1))])),
    corner(zero, -1),
    corner(shape.length, 1),
    ...wall.obstructions.flatMap((thing): readonly Box[] => {
      const extent = extentOf(thing);
      if (!extent) return [];
      const { inner } = facesAt(wall, stemAt(shape, extent.from), extent.from);
      const reach = inner + inMillimetres(plus(knownValue(thing.off) ?? zero, knownValue(thing.deep) ?? REACH_INSIDE));
      const ends = [extent.from, extent.to];
      return [boxAround(ends.flatMap((end) => [inner, reach].map((inside) => frame.at(axis.at(end, inside)))))];
    }),
  ];
}

/** Of a thing whose depth nobody measured, and of the leaf of a door. */
const REACH_INSIDE = inches(24);

function boxAround(points: readonly XY[]): Box {
  const xs = points.map(([x]) => x);
  const ys = points.map(([, y]) => y);
  return boxBetween(Math.min(...xs), Math.min(...ys), Math.max(...xs), Math.max(...ys));
}

/** How far out each string of a wall stands: as near as it can without lying on what is there already. */
interface Distances {
  readonly marks: number;
  readonly pieces: number;
  readonly whole: number;
}

const STEP_OUT = 3.2;
/** Past everything on any sheet; what finds no room then stays where it was wanted. */
const MOST_STEPS_OUT = 120;

function distancesOf(frame: PlanFrame, string: WallStrings, marksDepth: number, taken: Occupied): Distances {
  const at = placer(frame, string);
  const find = (wanted: number, draw: (out: number) => readonly SceneNode[]): number => {
    for (let step = 0; step <= MOST_STEPS_OUT; step++) {
      const out = wanted + step * STEP_OUT;
      const boxes = bodiesOf(draw(out));
      if (step < MOST_STEPS_OUT && !boxes.every((box) => taken.isFree(box))) continue;
      for (const box of boxes) taken.take(box);
      return out;
    }
    return wanted;
  };
  const { base } = string;
  const marks = find(base, (out) => string.marks.map((mark) => markNode(mark, string.place.axis, out, at)));
  const afterMarks = marks + Math.max(marksDepth, FIRST_LANE);
  const pieces =
    string.pieces.length > 0 ? find(afterMarks, (out) => [pieceString(frame, string, out, at)]) : afterMarks;
  const afterPieces = string.pieces.length > 0 ? pieces + pieceRows(string.pieces).rows * STRING_PITCH : pieces;
  return { marks, pieces, whole: find(afterPieces + 1.4, (out) => [wholeString(frame, string, out, at)]) };
}

/** What nothing else may lie on: words and frames. Lines may cross each other. */
function bodiesOf(nodes: readonly SceneNode[]): readonly Box[] {
  const boxes: Box[] = [];
  for (const { node } of walkScene(nodes)) {
    if (node.kind === 'text') boxes.push(grown(textBox(node), 0.3));
    if (node.kind === 'rect') boxes.push(grown(node, 0.4));
  }
  // A text lies in its own frame, and the texts of one string clear each other by themselves.
  return boxes;
}

const grown = (box: Box, by: number): Box =>
  boxBetween(box.x - by, box.y - by, box.x + box.width + by, box.y + box.height + by);

/** Walls that look the same way share their strings, unless one lies deep inside or two would lie on each other. */
function sharedSides(
  frame: PlanFrame,
  places: readonly PlanWall[],
): readonly { readonly place: PlanWall; readonly base: number; readonly side: string }[] {
  const corners = places.flatMap((place): TrueXY[] => [place.axis.from, place.axis.to]);
  const sides = new Map<string, { readonly place: PlanWall; readonly base: number }[]>();
  places.forEach((place) => {
    const [ox, oy] = [-place.axis.inward[0], -place.axis.inward[1]];
    const own = place.axis.from[0] * ox + place.axis.from[1] * oy;
    const hull = corners.reduce((most, [x, y]) => Math.max(most, x * ox + y * oy), own);
    const direction = Math.round((Math.atan2(oy, ox) * 180) / Math.PI / 2);
    const base = (hull - own) * frame.paper;
    const key = base > DEEPEST_SHARED ? `own ${place.wall.id}` : `side ${direction} ${Math.round(hull / 50)}`;
    const members = sides.get(key) ?? [];
    members.push({ place, base: base > DEEPEST_SHARED ? 0 : base });
    sides.set(key, members);
  });
  return [...sides].flatMap(([side, members]) => withoutOverlap(frame, side, members));
}

function withoutOverlap(
  frame: PlanFrame,
  side: string,
  members: readonly { readonly place: PlanWall; readonly base: number }[],
) {
  const spans = members
    .map((member) => {
      const { from, along, length } = member.place.axis;
      const reference = members[0]?.place.axis.along ?? along;
      const start = (from[0] * reference[0] + from[1] * reference[1]) * frame.paper;
      const end = start + length * frame.paper * (along[0] * reference[0] + along[1] * reference[1]);
      return { member, low: Math.min(start, end), high: Math.max(start, end) };
    })
    .sort((a, b) => a.member.base - b.member.base || a.low - b.low);
  const kept: { low: number; high: number }[] = [];
  return spans.map(({ member, low, high }) => {
    const isFree = kept.every((other) => high <= other.low + 1 || low >= other.high - 1);
    if (!isFree) return { place: member.place, base: 0, side: `own ${member.place.wall.id}` };
    kept.push({ low, high });
    return { ...member, side };
  });
}

function stringsOf(frame: PlanFrame, place: PlanWall, base: number, side: string): WallStrings {
  const { wall, axis } = place;
  const [ax, ay] = [Math.abs(axis.along[0]), Math.abs(axis.along[1])];
  const placed = [...wall.anchors, ...wall.ties]
    .flatMap((anchor) => placedAnchor(anchor, frame.layout) ?? [])
    .filter(({ station }) => station >= zero && station <= place.shape.length)
    .sort((a, b) => a.station - b.station);
  const items = placed.map((anchor) => {
    const width = planFrameWidth(plainText(anchor.name));
    const ticked = anchor.state === 'installed' || anchor.state === 'failed' ? 2.6 : 0;
    return {
      anchor,
      width,
      // Frames stay level whatever way the wall runs: along it they take what they show of themselves.
      extent: (width + ticked) * ax + (FRAME_HEIGHT + (ticked > 0 ? 1.4 : 0)) * ay,
      wanted: alongWall(frame, place, anchor.station),
    };
  });
  const lane = placeLabels(
    items.map(({ wanted, extent }) => ({ wanted, width: extent, priority: 0 })),
    { from: -6, to: axis.length * frame.paper + 6, gap: 1 },
    9,
  );
  const deepest = items.reduce((most, { width }) => Math.max(most, width * ay + FRAME_HEIGHT * ax), 0);
  const fan = fanHeight(lane.shift);
  const marks = items.map(({ anchor, width, wanted }, index) => ({
    anchor,
    width,
    wanted,
    centre: lane.centres[index] ?? wanted,
    row: lane.rows[index] ?? 0,
    fan,
  }));
  const whole = wall.pieces.length === 1 && wall.pieces[0]?.from === zero && wall.pieces[0]?.to === place.shape.length;
  return {
    place,
    base,
    side,
    marks,
    marksDepth: marks.length === 0 ? 0 : FIRST_LANE + fan + lane.rowCount * (deepest + 1.6) + 1.4,
    pieces: whole ? [] : [...wall.pieces].sort((a, b) => a.from - b.from || a.to - b.to),
  };
}

const planFrameWidth = (mark: string): number => Math.max(6, textWidth(mark, 'plan-mark', 'regular') + 3);

function alongWall(frame: PlanFrame, place: PlanWall, station: Length): number {
  const length = inMillimetres(place.wall.length ?? place.shape.length);
  return length === 0 ? 0 : (inMillimetres(station) / length) * place.axis.length * frame.paper;
}

function placer(frame: PlanFrame, { place: { axis } }: WallStrings): At {
  return (along, out) =>
    frame.at([
      axis.from[0] + (axis.along[0] * along - axis.inward[0] * out) / frame.paper,
      axis.from[1] + (axis.along[1] * along - axis.inward[1] * out) / frame.paper,
    ]);
}

function wallStrings(frame: PlanFrame, string: WallStrings, distances: Distances): SceneNode {
  const { axis, wall } = string.place;
  const at = placer(frame, string);
  return group(
    [
      ...string.marks.map((mark) => markNode(mark, axis, distances.marks, at)),
      ...(string.pieces.length > 0 ? [pieceString(frame, string, distances.pieces, at)] : []),
      wholeString(frame, string, distances.whole, at),
    ],
    { role: 'dimension', thing: wall.id, hidden: true },
  );
}

type At = (along: number, out: number) => XY;

function markLeaders(frame: PlanFrame, string: WallStrings, { marks: base }: Distances): SceneNode {
  const { axis } = string.place;
  const at = placer(frame, string);
  return group(
    string.marks.map((mark) => {
      const { centre, wanted, fan } = mark;
      const { near } = markPlace(mark, axis, base);
      const path: readonly XY[] =
        Math.abs(centre - wanted) < 0.02
          ? [at(wanted, 1.2), at(centre, near)]
          : [at(wanted, 1.2), at(wanted, base + FIRST_LANE), at(centre, base + FIRST_LANE + fan), at(centre, near)];
      return group([polyline(path, { stroke: { colour: 'ink3', pen: 'hair' } })], { thing: mark.anchor.id });
    }),
    { role: 'leader', hidden: true },
  );
}

/** Where the frame of a mark begins, and how far it reaches outwards. */
function markPlace(
  { row, width, fan }: PlacedMark,
  axis: PlanWall['axis'],
  base: number,
): { readonly near: number; readonly depth: number } {
  const [ax, ay] = [Math.abs(axis.along[0]), Math.abs(axis.along[1])];
  const depth = width * ay + FRAME_HEIGHT * ax;
  return { near: base + FIRST_LANE + fan + row * (depth + 1.6), depth };
}

function markNode(mark: PlacedMark, axis: PlanWall['axis'], base: number, at: At): SceneNode {
  const { anchor, centre, width } = mark;
  const { near, depth } = markPlace(mark, axis, base);
  const middle = at(centre, near + depth / 2);
  return group(
    [
      group(
        [
          ...markFrame(
            plainText(anchor.name),
            middle,
            { width, height: FRAME_HEIGHT },
            markEnds(anchor.connector),
            anchor,
            'plan-mark',
          ),
        ],
        { role: 'mark' },
      ),
    ],
    { thing: anchor.id },
  );
}

/** Lapped boards take turns in two rows. */
function pieceRows(pieces: readonly SillPiece[]): { readonly rows: number; readonly rowOf: readonly number[] } {
  const reached: Length[] = [];
  const rowOf = pieces.map((piece) => {
    let row = reached.findIndex((end) => end <= piece.from);
    if (row < 0) row = reached.length;
    reached[row] = piece.to;
    return row;
  });
  return { rows: reached.length, rowOf };
}

function pieceString(frame: PlanFrame, { place, pieces, base }: WallStrings, out: number, at: At): SceneNode {
  const { rowOf } = pieceRows(pieces);
  const nodes = pieces.flatMap((piece, index): readonly SceneNode[] => {
    const y = out + (rowOf[index] ?? 0) * STRING_PITCH;
    const [from, to] = [alongWall(frame, place, piece.from), alongWall(frame, place, piece.to)];
    const room = to - from - 2;
    const length = formatLength(minus(piece.to, piece.from), frame.units);
    const name = plainText(piece.name);
    const text = [`${name}  ${length}`, length, name].find((words) => textWidth(words, 'detail') <= room);
    return [
      line(at(from, y), at(to, y), { colour: 'ink3', pen: 'P5' }),
      ...[from, to].flatMap((end) => [
        line(at(end, Math.max(base, 1.2) + 1), at(end, y + 1.4), { colour: 'ink3', pen: 'hair' }),
        line(tilted(at, end, y, -1), tilted(at, end, y, 1), { colour: 'ink', pen: 'P3' }),
      ]),
      ...(text === undefined ? [] : [alongText(text, (from + to) / 2, y, place, at, 'detail', 'ink2')]),
    ];
  });
  return group(nodes);
}

/** A 45 degree tick across a string. */
function tilted(at: At, along: number, out: number, side: 1 | -1): XY {
  return at(along + side * 0.9, out + side * 0.9);
}

/** Text along the wall, over its string, the right way up from below or from the right. */
function alongText(
  text: string,
  along: number,
  out: number,
  place: PlanWall,
  at: At,
  size: 'detail' | 'label',
  colour: 'ink' | 'ink2',
): SceneNode {
  const { angle, flipped } = directionOf(place);
  const turned = flipped ? angle + (angle > 0 ? -180 : 180) : angle;
  // Outwards is up for a text that runs with the wall, and down for one that is turned round.
  return lettered(text, at(along, out + (flipped ? -0.9 : 0.9)), {
    size,
    anchor: 'middle',
    colour,
    halo: true,
    ...(Math.abs(turned) < 0.01 ? {} : { turned }),
  });
}

/** On paper; a text along a wall that runs to the left is turned round, so that outwards is down for it. */
function directionOf({ axis: { along } }: PlanWall): { readonly angle: number; readonly flipped: boolean } {
  const angle = (Math.atan2(-along[1], along[0]) * 180) / Math.PI;
  return { angle, flipped: angle > 89.999 || angle < -90.001 };
}

/** Ring at station 0, arrow at the far end, the wall's letter in its circle, its length. */
function wholeString(frame: PlanFrame, { place, base }: WallStrings, out: number, at: At): SceneNode {
  const { axis, wall } = place;
  const length = axis.length * frame.paper;
  const name = plainText(wall.name);
  // The plan is drawn to the adjusted length.
  const known = knownValue(wall.adjusted) ?? wall.length;
  const text = known === undefined ? 'length not recorded' : formatStation(known, frame.units);
  const letterWidth = Math.max(9, textWidth(name, 'block-heading', 'regular') + 5);
  const [ax, ay] = [Math.abs(axis.along[0]), Math.abs(axis.along[1])];
  // The letter is upright: along the wall it takes what it shows of itself.
  const letterExtent = letterWidth * ax + 9 * ay;
  const textExtent = textWidth(text, 'label');
  const together = letterExtent + 2 + textExtent;
  const fits = together + 8 <= length;
  const letterAt = fits ? length / 2 - together / 2 + letterExtent / 2 : length / 2;
  const letterOut = fits ? out : out + 1.5 + (letterWidth * ay + 9 * ax) / 2;
  const [cx, cy] = at(letterAt, letterOut);
  const arrow = (tip: number, back: number): SceneNode =>
    polygon([at(tip, out), at(back, out - 0.9), at(back, out + 0.9)], { fill: 'ink' });
  const ends = [0, length].map((end) =>
    line(at(end, Math.max(base, 1.2) + 1), at(end, out + 1.6), { colour: 'ink3', pen: 'hair' }),
  );
  const beyondLetter = out + 3 + letterWidth * ay + 9 * ax;
  const textOut = fits ? out : beyondLetter + (directionOf(place).flipped ? capHeights.label + 1.8 : 0);
  return group([
    ...ends,
    line(at(0.9, out), at(length, out), { colour: 'ink2', pen: 'P5' }),
    group(
      [circle(at(0, out), 0.9, { fill: 'paper', stroke: { colour: 'ink', pen: 'P4' } }), arrow(length, length - 2.6)],
      { symbol: 'station-zero' },
    ),
    rect(
      { x: cx - letterWidth / 2, y: cy - 4.5, width: letterWidth, height: 9 },
      { fill: 'paper', stroke: { colour: 'ink', pen: 'P2' }, rounded: 4.5 },
    ),
    lettered(name, [cx, cy + capHeights['block-heading'] / 2], {
      size: 'block-heading',
      face: 'regular',
      anchor: 'middle',
    }),
    alongText(
      text,
      fits ? letterAt + letterExtent / 2 + 2 + textExtent / 2 : length / 2,
      textOut,
      place,
      at,
      'label',
      'ink',
    ),
  ]);
}
