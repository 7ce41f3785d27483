import { extentOf } from '../fit/thing-words.ts';
import type { SillPiece } from '../model/layout.ts';
import { knownValue } from '../model/reading.ts';
import type { Steps } from '../steps.ts';
import { formatLength, formatStation } from '../units/format-length.ts';
import { inches, inMillimetres, type Length, minus, plus, zero } from '../units/length.ts';
import { markEnds } from './elevation-new.ts';
import { alongLine, type Occupied } from './free-room.ts';
import { type Ground, keptOr } from './kept-parts.ts';
import { placeLabels } from './label-rows.ts';
import { lettered, plainText, textBox, textWidth } from './lettering.ts';
import { type PlacedAnchor, placedAnchor } from './placed-mark.ts';
import { placingAfter } from './placing.ts';
import type { TrueXY } from './plan-axis.ts';
import { facesAt, type PlanFrame, type PlanWall } from './plan-frame.ts';
import type { PlanMemory } from './plan-memory.ts';
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
import { stemAt, stepsOf } from './wall-shape.ts';

/**
 * Marks of new anchors, pieces, whole walls: outside the house, and inside their wall where another wall stands too near before it.
 * Distances are mm on paper, counted away from a face.
 */

const FRAME_HEIGHT = 3.8;
const FIRST_LANE = 5.5;
const STRING_PITCH = 6.4;
/** A wall that lies deeper in the outline than this has strings of its own, close to it. */
const DEEPEST_SHARED = 60;

interface WallStrings extends Member {
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

/** The strings of every wall, each with its place beside it; the same wherever the house stands on its sheet. */
export type PlacedStrings = readonly { readonly string: WallStrings; readonly lanes: Lanes }[];

export function* placeStrings(
  frame: Omit<PlanFrame, 'at'>,
  places: readonly PlanWall[],
  memory: PlanMemory,
): Steps<PlacedStrings> {
  // Room is looked for about the origin.
  const local: PlanFrame = { ...frame, at: ([x, y]) => [x * frame.paper, -y * frame.paper] };
  const sheet = [frame.paper, frame.units, frame.layout.house];
  const ground: Ground = { layout: frame.layout, findingsOn: new Map() };
  const members = sharedSides(local, places, memory);
  yield;
  const strings: WallStrings[] = [];
  for (const member of members) {
    const { place, base, side, isShared, room, indoors } = member;
    const inputs = [place.wall, base, side, isShared, room, indoors, ...sheet];
    strings.push(
      keptOr(memory, `strings ${place.wall.id}`, inputs, ground, ({ layout }) =>
        stringsOf({ ...local, layout }, member),
      ),
    );
    yield;
  }
  const depths = new Map<string, number>();
  for (const { side, marksDepth } of strings) depths.set(side, Math.max(depths.get(side) ?? 0, marksDepth));
  const placing = placingAfter(memory.strings);
  const room: Room = { walls: placing.occupied(), bodies: placing.occupied(), lines: placing.occupied() };
  for (const place of places) {
    const bands = keptOr(memory, `bands ${place.wall.id}`, [place.wall, ...sheet], ground, ({ layout }) =>
      wallBands({ ...local, layout }, place),
    );
    for (const band of bands) room.walls.take(band);
    yield;
  }
  // In a narrow court the short walls have least choice.
  const inTurn = [...strings].sort((a, b) => Number(a.isShared) - Number(b.isShared) || turnOf(a) - turnOf(b));
  const lanes = new Map<WallStrings, Lanes>();
  for (const string of inTurn) {
    const depth = depths.get(string.side) ?? 0;
    const found = placing.turn(string.place.wall.id, [string, depth], (): Lanes => {
      const marks = marksLane(local, string, room);
      return { marks, ...otherLanes(local, string, marks, depth, room) };
    });
    lanes.set(string, found);
    yield;
  }
  placing.end();
  return strings.flatMap((string) => {
    const found = lanes.get(string);
    return found ? [{ string, lanes: found }] : [];
  });
}

/** @param sheet what the place of the house on its sheet hangs on */
export function planStrings(
  frame: PlanFrame,
  placed: PlacedStrings,
  memory: PlanMemory,
  sheet: readonly unknown[],
): readonly SceneNode[] {
  const ground: Ground = { layout: frame.layout, findingsOn: new Map() };
  const drawn = placed.map(({ string, lanes }) =>
    keptOr(memory, `drawn strings ${string.place.wall.id}`, [string, lanes, ...sheet], ground, ({ layout }) => {
      const seen = { ...frame, layout };
      return {
        leaders: markLeaders(seen, string, lanes.marks),
        extensions: extensionLines(seen, string, lanes),
        strings: wallStrings(seen, string, lanes),
      };
    }),
  );
  return [
    // Leaders and extension lines run under the frames of other walls.
    ...drawn.map(({ leaders }) => leaders),
    ...drawn.map(({ extensions }) => extensions),
    ...drawn.map(({ strings }) => strings),
  ];
}

const turnOf = ({ isShared, place }: WallStrings): number => (isShared ? 0 : place.axis.length);

/** What words and frames may not lie on; of that, strings keep off other words and frames. */
interface Room {
  readonly walls: Occupied;
  readonly bodies: Occupied;
  readonly lines: Occupied;
}

/** The concrete of a wall and the signs of its steps, in pieces small enough to follow it at any angle. */
function wallBands(frame: PlanFrame, { axis, wall, shape }: PlanWall): readonly Box[] {
  const pieces = Math.max(1, Math.ceil((axis.length * frame.paper) / 6));
  const across = (station: Length, beyond = 0): readonly XY[] => {
    const faces = facesAt(wall, stemAt(shape, station), station);
    return [faces.outer - 0.8 / frame.paper, faces.inner].map((inside) => {
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
    // The triangle of a step stands outside.
    ...stepsOf(shape).map(({ station }) => {
      const [x, y] = axis.at(station, facesAt(wall, stemAt(shape, station), station).outer - 2.4 / frame.paper);
      const [left, top] = frame.at([x, y]);
      return boxBetween(left - 3.6, top - 3.6, left + 3.6, top + 3.6);
    }),
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

/** Where one string of a wall stands: mm on paper from the outer face outwards, or from the inner face into the house. */
interface Lane {
  readonly out: number;
  readonly side: 'outside' | 'inside';
}
interface Lanes {
  readonly marks: Lane;
  readonly pieces: Lane;
  readonly whole: Lane;
}

interface Try {
  readonly lane: Lane;
  readonly within: number;
}

const STEP_OUT = 3.2;
/** Past everything on any sheet; what finds no room then stays where it was wanted. */
const MOST_STEPS_OUT = 120;
/** Further into a house nobody looks for the strings of a wall. */
const MOST_STEPS_IN = 16;

/** As near as it can stand without lying on what is there already; in a court too narrow for it, inside its wall. */
function stand(
  frame: PlanFrame,
  string: WallStrings,
  room: Room,
  wanted: Readonly<Record<Lane['side'], number>>,
  draw: (lane: Lane) => readonly SceneNode[],
): Lane {
  const outside = (from: number, to: number): readonly Try[] => {
    const tries: Try[] = [];
    for (let out = from; out < Math.min(to, wanted.outside + MOST_STEPS_OUT * STEP_OUT); out += STEP_OUT)
      tries.push({ lane: { out, side: 'outside' }, within: to });
    return tries;
  };
  const inside = (steps: number, within: number): readonly Try[] =>
    Array.from(
      { length: string.room === Number.POSITIVE_INFINITY ? 0 : steps },
      (_, step): Try => ({ lane: { out: wanted.inside + step * STEP_OUT, side: 'inside' }, within }),
    );
  const tries = [
    // Of a court each of two walls has its half; what finds no room inside either may take of the other's.
    ...outside(wanted.outside, string.room / 2),
    ...inside(MOST_STEPS_IN, string.indoors),
    ...outside(wanted.outside, string.room),
    // A house too full for it: past the next wall.
    ...inside(MOST_STEPS_OUT, Number.POSITIVE_INFINITY),
  ];
  const drawn = new Map<Lane['side'], StringBodies>();
  for (const { lane, within } of tries) {
    const first = drawn.get(lane.side) ?? bodiesOf(frame, string, draw({ ...lane, out: wanted[lane.side] }), lane.side);
    drawn.set(lane.side, first);
    const out = lane.out - wanted[lane.side];
    if (first.farthest + out > within) continue;
    const by: XY = [first.outwards[0] * out, first.outwards[1] * out];
    const isClear = (box: Box): boolean => {
      const there = movedBy(box, by);
      return room.walls.isFree(there) && room.bodies.isFree(there) && room.lines.isFree(there);
    };
    if (!first.bodies.every(isClear) || !first.lines.every((box) => room.bodies.isFree(movedBy(box, by)))) continue;
    for (const box of first.bodies) room.bodies.take(movedBy(box, by));
    for (const box of first.lines) room.lines.take(movedBy(box, by));
    return lane;
  }
  return { out: wanted.outside, side: 'outside' };
}

function marksLane(frame: PlanFrame, string: WallStrings, room: Room): Lane {
  return stand(frame, string, room, { outside: string.base, inside: 0 }, (lane) =>
    string.marks.map((mark) => markNode(mark, string.place.axis, lane.out, placer(frame, string, lane))),
  );
}

function otherLanes(
  frame: PlanFrame,
  string: WallStrings,
  marks: Lane,
  marksDepth: number,
  room: Room,
): Omit<Lanes, 'marks'> {
  const { base } = string;
  const marksTake = Math.max(marksDepth, FIRST_LANE);
  const afterMarks = {
    outside: marks.side === 'outside' ? marks.out + marksTake : base + FIRST_LANE,
    inside: marks.side === 'inside' ? marks.out + marksTake : FIRST_LANE,
  };
  const rows = pieceRows(string.pieces).rows * STRING_PITCH;
  const pieces =
    rows === 0 ? marks : stand(frame, string, room, afterMarks, (lane) => [pieceString(frame, string, lane)]);
  const beyond = (side: Lane['side']): number =>
    (rows > 0 && pieces.side === side ? pieces.out + rows : afterMarks[side]) + 1.4;
  const wanted = { outside: beyond('outside'), inside: beyond('inside') };
  return { pieces, whole: stand(frame, string, room, wanted, (lane) => [wholeString(frame, string, lane)]) };
}

/**
 * What a string covers in its first lane. In the next ones it is the same a little further out: it is drawn once for all of them, which
 * in a crowded house is a hundred times less.
 */
interface StringBodies {
  /** Words and frames. */
  readonly bodies: readonly Box[];
  /** The string itself, in short parts. */
  readonly lines: readonly Box[];
  /** How far before its wall the middle of the outermost body stands. */
  readonly farthest: number;
  /** One millimetre further from the wall, on paper. */
  readonly outwards: XY;
}

/** Texts of one string clear each other by themselves. `frame` stands about the origin. */
function bodiesOf(
  { paper }: PlanFrame,
  string: WallStrings,
  nodes: readonly SceneNode[],
  side: Lane['side'],
): StringBodies {
  const { from, inward } = string.place.axis;
  const outwards: XY = side === 'outside' ? [-inward[0], inward[1]] : [inward[0], -inward[1]];
  const bodies: Box[] = [];
  const lines: Box[] = [];
  for (const { node } of walkScene(nodes)) {
    if (node.kind === 'text') bodies.push(grown(textBox(node), 0.3));
    if (node.kind === 'rect') bodies.push(grown(node, 0.4));
    if (node.kind === 'line') lines.push(...alongLine(node.from, node.to).map((part) => grown(part, -0.7)));
  }
  const away = ({ x, y, width, height }: Box): number =>
    (x + width / 2 - from[0] * paper) * outwards[0] + (y + height / 2 + from[1] * paper) * outwards[1];
  return { bodies, lines, farthest: Math.max(Number.NEGATIVE_INFINITY, ...bodies.map(away)), outwards };
}

const movedBy = ({ x, y, width, height }: Box, [dx, dy]: XY): Box => ({ x: x + dx, y: y + dy, width, height });

const grown = (box: Box, by: number): Box =>
  boxBetween(box.x - by, box.y - by, box.x + box.width + by, box.y + box.height + by);

interface Member {
  readonly place: PlanWall;
  readonly base: number;
  readonly side: string;
  readonly isShared: boolean;
  /** How far out the next wall stands, on paper; a wall that faces no other has all the room there is. */
  readonly room: number;
  /** How far the next wall stands on the inner side. */
  readonly indoors: number;
}

/** Walls that look the same way share their strings, unless one lies deep inside, faces another or two would lie on each other. */
function sharedSides(frame: PlanFrame, places: readonly PlanWall[], memory: PlanMemory): readonly Member[] {
  // Every wall is held against every other: only where one of them stands elsewhere than before.
  const where = places.flatMap(({ axis: { from, to }, wall, shape }) => {
    const { inner, outer } = facesAt(wall, stemAt(shape, zero), zero);
    return [wall.id, ...from, ...to, inner, outer];
  });
  const ground: Ground = { layout: frame.layout, findingsOn: new Map() };
  const sides = keptOr(memory, 'sides', [frame.paper, ...where], ground, () => sidesOf(frame, places));
  return sides.flatMap(({ index, ...side }) => {
    const place = places[index];
    return place ? [{ ...side, place }] : [];
  });
}

type SideOfWall = Omit<Member, 'place'> & { readonly index: number };

function sidesOf(frame: PlanFrame, places: readonly PlanWall[]): readonly SideOfWall[] {
  const indexOf = new Map(places.map((place, index) => [place, index]));
  const corners = places.flatMap((place): TrueXY[] => [place.axis.from, place.axis.to]);
  const sides = new Map<string, Member[]>();
  for (const place of places) {
    const [ox, oy] = [-place.axis.inward[0], -place.axis.inward[1]];
    const own = place.axis.from[0] * ox + place.axis.from[1] * oy;
    const hull = corners.reduce((most, [x, y]) => Math.max(most, x * ox + y * oy), own);
    const direction = Math.round((Math.atan2(oy, ox) * 180) / Math.PI / 2);
    const base = (hull - own) * frame.paper;
    const room = roomTo(place, places, 'outside') * frame.paper;
    const indoors = roomTo(place, places, 'inside') * frame.paper;
    const isShared = base <= DEEPEST_SHARED && room === Number.POSITIVE_INFINITY;
    const key = isShared ? `side ${direction} ${Math.round(hull / 50)}` : `own ${place.wall.id}`;
    const members = sides.get(key) ?? [];
    members.push({ place, base: isShared ? base : 0, side: key, isShared, room, indoors });
    sides.set(key, members);
  }
  return [...sides.values()]
    .flatMap((members) => withoutOverlap(frame, members))
    .map(({ place, ...side }) => ({ ...side, index: indexOf.get(place) ?? -1 }));
}

/** True mm from a wall's own line to the nearest wall on one side of it, face to line. */
function roomTo({ axis, wall }: PlanWall, places: readonly PlanWall[], side: Lane['side']): number {
  const sign = side === 'outside' ? -1 : 1;
  let nearest = Number.POSITIVE_INFINITY;
  for (const other of places) {
    if (other.wall === wall) continue;
    const ends = [other.axis.from, other.axis.to].map(([x, y]) => {
      const [dx, dy] = [x - axis.from[0], y - axis.from[1]];
      return {
        along: dx * axis.along[0] + dy * axis.along[1],
        away: sign * (dx * axis.inward[0] + dy * axis.inward[1]),
      };
    });
    const [start, end] = [...ends].sort((a, b) => a.along - b.along);
    if (!start || !end) continue;
    const [low, high] = [Math.max(start.along, CORNER), Math.min(end.along, axis.length - CORNER)];
    if (high <= low) continue;
    const away = (along: number): number =>
      start.away + ((end.away - start.away) * (along - start.along)) / Math.max(end.along - start.along, 1e-9);
    const faces = facesAt(other.wall, stemAt(other.shape, zero), zero);
    const clear = Math.min(away(low), away(high)) - (side === 'outside' ? -faces.outer : faces.inner);
    if (clear > CORNER) nearest = Math.min(nearest, clear);
  }
  return nearest;
}

/** True mm: nearer to its ends a wall only meets its neighbours. */
const CORNER = 300;

function withoutOverlap(frame: PlanFrame, members: readonly Member[]): readonly Member[] {
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
    if (!isFree) return { ...member, base: 0, side: `own ${member.place.wall.id}`, isShared: false };
    kept.push({ low, high });
    return member;
  });
}

function stringsOf(frame: PlanFrame, member: Member): WallStrings {
  const { place } = member;
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
  // In a court, and inside, marks stay between the walls that meet this one.
  const faces = facesAt(wall, stemAt(place.shape, zero), zero);
  const beyond = member.room === Number.POSITIVE_INFINITY ? 6 : -(faces.inner - faces.outer) * frame.paper - 1.2;
  const lane = placeLabels(
    items.map(({ wanted, extent }) => ({ wanted, width: extent, priority: 0 })),
    { from: -beyond, to: axis.length * frame.paper + beyond, gap: 1 },
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
    ...member,
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

/** Points of a string, by mm on paper along its wall and away from the wall. */
function placer(frame: PlanFrame, { place: { axis, wall, shape } }: WallStrings, { side }: Lane): At {
  const { inner } = facesAt(wall, stemAt(shape, zero), zero);
  // Outside counts from the wall's own line, so that walls of one side share theirs.
  const away = (out: number): number => (side === 'outside' ? -out / frame.paper : inner + out / frame.paper);
  return (along, out) =>
    frame.at([
      axis.from[0] + (axis.along[0] * along) / frame.paper + axis.inward[0] * away(out),
      axis.from[1] + (axis.along[1] * along) / frame.paper + axis.inward[1] * away(out),
    ]);
}

function wallStrings(frame: PlanFrame, string: WallStrings, lanes: Lanes): SceneNode {
  const { axis, wall } = string.place;
  const at = placer(frame, string, lanes.marks);
  return group(
    [
      ...string.marks.map((mark) => markNode(mark, axis, lanes.marks.out, at)),
      ...(string.pieces.length > 0 ? [pieceString(frame, string, lanes.pieces)] : []),
      wholeString(frame, string, lanes.whole),
    ],
    { role: 'dimension', thing: wall.id, hidden: true },
  );
}

/** From the wall to its strings. */
function extensionLines(frame: PlanFrame, string: WallStrings, { pieces, whole }: Lanes): SceneNode {
  const { place, base } = string;
  const length = place.axis.length * frame.paper;
  const { rowOf } = pieceRows(string.pieces);
  const ends = [
    ...string.pieces.flatMap((piece, index) =>
      [piece.from, piece.to].map((station) => ({
        along: alongWall(frame, place, station),
        lane: pieces,
        reach: pieces.out + (rowOf[index] ?? 0) * STRING_PITCH + 1.4,
      })),
    ),
    ...[0, length].map((along) => ({ along, lane: whole, reach: whole.out + 1.6 })),
  ];
  return group(
    ends.map(({ along, lane, reach }) => {
      const at = placer(frame, string, lane);
      const near = (lane.side === 'outside' ? Math.max(base, 1.2) : 1.2) + 1;
      return line(at(along, near), at(along, reach), { colour: 'ink3', pen: 'hair' });
    }),
    { role: 'leader', hidden: true },
  );
}

type At = (along: number, out: number) => XY;

function markLeaders(frame: PlanFrame, string: WallStrings, lane: Lane): SceneNode {
  const { axis } = string.place;
  const at = placer(frame, string, lane);
  const base = lane.out;
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

function pieceString(frame: PlanFrame, string: WallStrings, lane: Lane): SceneNode {
  const { place, pieces } = string;
  const at = placer(frame, string, lane);
  const { rowOf } = pieceRows(pieces);
  const nodes = pieces.flatMap((piece, index): readonly SceneNode[] => {
    const y = lane.out + (rowOf[index] ?? 0) * STRING_PITCH;
    const [from, to] = [alongWall(frame, place, piece.from), alongWall(frame, place, piece.to)];
    const room = to - from - 2;
    const length = formatLength(minus(piece.to, piece.from), frame.units);
    const name = plainText(piece.name);
    const text = [`${name}  ${length}`, length, name].find((words) => textWidth(words, 'detail') <= room);
    return [
      line(at(from, y), at(to, y), { colour: 'ink3', pen: 'P5' }),
      ...[from, to].map((end) => line(tilted(at, end, y, -1), tilted(at, end, y, 1), { colour: 'ink', pen: 'P3' })),
      ...(text === undefined ? [] : [alongText(text, (from + to) / 2, y, string, lane, at, 'detail', 'ink2')]),
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
  { place }: WallStrings,
  { side }: Lane,
  at: At,
  size: 'detail' | 'label',
  colour: 'ink' | 'ink2',
): SceneNode {
  const { angle, flipped } = directionOf(place);
  const turned = flipped ? angle + (angle > 0 ? -180 : 180) : angle;
  // Outwards is up for a text that runs with the wall, and down for one that is turned round; inside the house it is the other way.
  return lettered(text, at(along, out + (flipped === (side === 'outside') ? -0.9 : 0.9)), {
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
function wholeString(frame: PlanFrame, string: WallStrings, lane: Lane): SceneNode {
  const { place } = string;
  const { axis, wall } = place;
  const { out } = lane;
  const at = placer(frame, string, lane);
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
  // Inside, the walls that meet this one take of its length.
  const faces = facesAt(wall, stemAt(place.shape, zero), zero);
  const taken = lane.side === 'inside' ? 2 * (faces.inner - faces.outer) * frame.paper : 0;
  const fits = together + 8 + taken <= length;
  const letterAt = fits ? length / 2 - together / 2 + letterExtent / 2 : length / 2;
  const letterOut = fits ? out : out + 1.5 + (letterWidth * ay + 9 * ax) / 2;
  const [cx, cy] = at(letterAt, letterOut);
  const arrow = (tip: number, back: number): SceneNode =>
    polygon([at(tip, out), at(back, out - 0.9), at(back, out + 0.9)], { fill: 'ink' });
  const beyondLetter = out + 3 + letterWidth * ay + 9 * ax;
  const downwards = directionOf(place).flipped === (lane.side === 'outside');
  const textOut = fits ? out : beyondLetter + (downwards ? capHeights.label + 1.8 : 0);
  return group([
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
      string,
      lane,
      at,
      'label',
      'ink',
    ),
  ]);
}
