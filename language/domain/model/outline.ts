import type { Area } from '../units/area.ts';
import { squareMetres } from '../units/area.ts';
import type { Length } from '../units/length.ts';
import { nanometres } from '../units/length.ts';
import type { MicroDegrees, Point } from './layout.ts';

/**
 * The footprint as it is taped: from the first wall's left end, wall by wall, each turned from the one before.
 * What the tape says never closes exactly; the error is computed here and never hidden.
 */
export interface TraverseInput {
  /** Left end of the first wall. */
  readonly start: Point;
  /** What you look at from inside, facing the first wall: north 0, east 90, clockwise. The wall runs to your right. */
  readonly facing: MicroDegrees;
  readonly walls: readonly TraverseWall[];
}
export interface TraverseWall {
  /** `undefined`: not known. */
  readonly length: Length | undefined;
  /** To the right from the wall before; of the first wall, from the last. */
  readonly turn: MicroDegrees;
}

export interface Traverse {
  /** In the order given. */
  readonly walls: readonly TraversedWall[];
  /** Left ends of all walls: the outline, open end not repeated. `undefined` where one cannot be told. */
  readonly corners: readonly Point[] | undefined;
  /** `undefined` where a length is missing: nothing can be said. */
  readonly closing: ClosingError | undefined;
  /** Seen from above. `undefined` where it cannot be told, or the outline holds no area. */
  readonly winding: 'clockwise' | 'counter-clockwise' | undefined;
  /** Every wall stands square to, or in line with, the first. */
  readonly rightAngled: boolean;
  /** Indexes of the walls without a length. */
  readonly missing: readonly number[];
}
export interface TraversedWall {
  /** `undefined` after a wall of unknown length. */
  readonly from: Point | undefined;
  readonly to: Point | undefined;
  /** The way the wall runs from its left end: north 0, east 90. */
  readonly heading: MicroDegrees;
}

/** From the first wall's left end to the last wall's right end, which should be the same point. */
export interface ClosingError {
  readonly dx: Length;
  readonly dy: Length;
  readonly length: Length;
  /** `n` of the ratio 1 : n to the way walked, as surveyors state it; `undefined` where there is no error. */
  readonly ratio: number | undefined;
  /** No error but what rounding to whole nanometres leaves on walls at an angle. */
  readonly closes: boolean;
}

/** Total: any input gives an answer. Right angles are exact, whatever the first wall faces. */
export function traverse(input: TraverseInput): Traverse {
  const headings = relativeHeadings(input.walls);
  const firstRuns = input.facing + RIGHT_ANGLE;
  const toPlan = planFrame(input.start, firstRuns);
  const walls: TraversedWall[] = [];
  let here: Local | undefined = { ahead: 0, right: 0 };
  let walked = 0;
  for (const [index, { length }] of input.walls.entries()) {
    const heading = headings[index] ?? 0;
    const next: Local | undefined = here && length !== undefined ? move(here, length, heading) : undefined;
    walls.push({ from: toPlan(here), to: toPlan(next), heading: normal(firstRuns + heading) });
    walked += Math.abs(length ?? 0);
    here = next;
  }
  const rightAngled = headings.every((heading) => heading % RIGHT_ANGLE === 0);
  const corners = everyPoint(walls.map((wall) => wall.from));
  const end = walls[walls.length - 1]?.to;
  return {
    walls,
    corners: end ? corners : undefined,
    closing: here && end ? closingError(input.start, end, walked, rightAngled ? 0 : walls.length) : undefined,
    winding: corners && end ? windingOf(corners) : undefined,
    rightAngled,
    missing: input.walls.flatMap((wall, index) => (wall.length === undefined ? [index] : [])),
  };
}

/** Twice the area inside, in square nanometres, exactly; positive where the corners run counter-clockwise. */
export function doubledArea(corners: readonly Point[]): bigint {
  let sum = 0n;
  let before = corners[corners.length - 1];
  for (const corner of corners) {
    if (before) sum += BigInt(before.x) * BigInt(corner.y) - BigInt(corner.x) * BigInt(before.y);
    before = corner;
  }
  return sum;
}

/** Area inside the outline in whole square nanometres (a half is dropped), by the surveyor's coordinate method. */
export function outlineArea(corners: readonly Point[]): bigint {
  const doubled = doubledArea(corners);
  return (doubled < 0n ? -doubled : doubled) / 2n;
}

/** Exact square nanometres as an area to reckon with. */
export const asArea = (squareNanometres: bigint): Area => squareMetres(Number(squareNanometres) / 1e18);

/** The way round, back to the first corner; each side to the nearest nanometre. Never more than 9000 km. */
export function perimeter(corners: readonly Point[]): Length {
  let sum = 0;
  let before = corners[corners.length - 1];
  for (const corner of corners) {
    if (before) sum += distanceBetween(before, corner);
    before = corner;
  }
  return nanometres(Math.min(sum, Number.MAX_SAFE_INTEGER));
}

/** To the nearest nanometre. */
export function distanceBetween(a: Point, b: Point): Length {
  return hypotenuse(a.x - b.x, a.y - b.y);
}

export type Adjustment = Adjusted | CannotAdjust;
export interface Adjusted {
  readonly kind: 'adjusted';
  /** In the order of the walls. */
  readonly lengths: readonly Length[];
  /** What is left: nothing on a right-angled outline; on others what rounding to the step leaves. */
  readonly closing: ClosingError;
}
export interface CannotAdjust {
  readonly kind: 'cannot-adjust';
  /** In words, to follow "cannot be spread:". */
  readonly reason: string;
}

/**
 * Spreads the closing error over the walls in proportion to their length, on marks of `step` (1/16 in or 1 mm).
 * The compass (Bowditch) rule (Ghilani and Wolf, Elementary Surveying, chapter 10) would turn the walls a little. Here
 * corners keep their angles and only lengths change, since it is lengths that were taped: Crandall's method (Mahun, Open
 * Access Surveying Library, Traverse Computations, chapter K). On a right-angled outline each direction's
 * error is shared out by length among the walls that run in it.
 *
 * Walls in `fixed` keep their length, as do those of a direction without error. A right-angled outline closes exactly;
 * where a kept wall is off the step, the longest other wall of its direction takes the odd rest.
 */
export function adjustByLength(
  input: TraverseInput,
  options: { readonly step: Length; readonly fixed?: ReadonlySet<number> },
): Adjustment {
  const taped = traverse(input);
  const lengths = everyLength(input.walls);
  if (!lengths) return cannot('a wall has no length yet');
  if (!taped.closing) return cannot('the walls run off the map');
  if (taped.closing.closes) return { kind: 'adjusted', lengths, closing: taped.closing };
  const adjusted = taped.rightAngled
    ? adjustSquare(input, lengths, options.step, options.fixed ?? new Set())
    : adjustAngled(input, lengths, options.step, options.fixed ?? new Set());
  if (!Array.isArray(adjusted)) return adjusted;
  if (adjusted.some((length, index) => !(length > 0 && length <= FARTHEST) && length !== lengths[index])) {
    return cannot('it is as long as a wall: one was misread, or turns the other way');
  }
  const closed = adjusted.map((length) => nanometres(length));
  const closing = traverse(withLengths(input, closed)).closing;
  return closing ? { kind: 'adjusted', lengths: closed, closing } : cannot('the walls run off the map');
}

/**
 * The length of the one wall at `index` that brings the outline nearest to closing, its own length left aside.
 * `undefined` where another length is missing or the wall would have to run backwards.
 */
export function lengthThatCloses(input: TraverseInput, index: number): Length | undefined {
  const without = traverse({
    ...input,
    walls: input.walls.map((wall, at) => (at === index ? { ...wall, length: nanometres(0) } : wall)),
  });
  const wall = without.walls[index];
  if (!wall || !without.closing) return undefined;
  // A thousand metres are enough to give the direction to a nanometre in a house.
  const reach = 1e12;
  const along = vector(reach, wall.heading);
  const { dx, dy } = without.closing;
  const length = Math.round(-(dx * along.right + dy * along.ahead) / reach);
  return length > 0 && length <= FARTHEST ? nanometres(length) : undefined;
}

/**
 * The same outline on the other face of its walls: wall `i` runs from corner `i` and is `thick[i]` thick, its other
 * face to the right (inside, where corners run clockwise). A change of thickness along one line gives two corners.
 * `undefined` for an outline that is not right-angled.
 */
export function offsetOutline(corners: readonly Point[], thick: readonly Length[]): readonly Point[] | undefined {
  const faces = corners.map((corner, index): Face | undefined => {
    const next = corners[(index + 1) % corners.length];
    if (!next) return undefined;
    const inward = thick[index] ?? 0;
    if (corner.y === next.y && corner.x !== next.x)
      return { axis: 'y', at: corner.y + (next.x > corner.x ? -inward : inward) };
    if (corner.x === next.x && corner.y !== next.y)
      return { axis: 'x', at: corner.x + (next.y > corner.y ? inward : -inward) };
    return undefined;
  });
  const moved: Point[] = [];
  for (const [index, corner] of corners.entries()) {
    const before = faces[(index + faces.length - 1) % faces.length];
    const after = faces[index];
    if (!before || !after) return undefined;
    if (before.axis !== after.axis) moved.push(pointOn(before, after));
    else if (before.at === after.at)
      moved.push(pointOn(before, { axis: other(before.axis), at: corner[other(before.axis)] }));
    else {
      const jog: Face = { axis: other(before.axis), at: corner[other(before.axis)] };
      moved.push(pointOn(before, jog), pointOn(jog, after));
    }
  }
  return moved;
}

// ---- directions

const RIGHT_ANGLE = 90_000_000;
const FULL_TURN = 4 * RIGHT_ANGLE;

/** Seen from the first wall's left end, looking along it. */
interface Local {
  readonly ahead: number;
  readonly right: number;
}

const normal = (angle: number): MicroDegrees => (((angle % FULL_TURN) + FULL_TURN) % FULL_TURN) as MicroDegrees;

/** Clockwise from the way the first wall runs. */
function relativeHeadings(walls: readonly TraverseWall[]): readonly MicroDegrees[] {
  let heading = normal(0);
  return walls.map((wall, index) => {
    if (index > 0) heading = normal(heading + wall.turn);
    return heading;
  });
}

/** Past 1100 km a point is off the map: sums and differences of the rest stay exact whole nanometres. */
const FARTHEST = 2 ** 50;
const onMap = (a: number, b: number): boolean => Math.abs(a) <= FARTHEST && Math.abs(b) <= FARTHEST;

/** `undefined` where the outline runs off the map. */
function move(from: Local, length: number, heading: number): Local | undefined {
  const by = vector(length, heading);
  const ahead = from.ahead + by.ahead;
  const right = from.right + by.right;
  return onMap(ahead, right) ? { ahead, right } : undefined;
}

/**
 * `length` along a heading, in whole nanometres. Quarter turns are taken out first, so that right angles are exact and
 * opposite walls cancel exactly at any angle.
 */
function vector(length: number, heading: number): Local {
  const quarters = Math.floor(heading / RIGHT_ANGLE) % 4;
  const rest = heading % RIGHT_ANGLE;
  const ahead = rest === 0 ? length : Math.round(length * cosine(rest));
  const right = rest === 0 ? 0 : Math.round(length * cosine(RIGHT_ANGLE - rest));
  if (quarters === 1) return { ahead: -right, right: ahead };
  if (quarters === 2) return { ahead: -ahead, right: -right };
  if (quarters === 3) return { ahead: right, right: -ahead };
  return { ahead, right };
}

/** Of an angle from 0° to 90°, alike for both walls of a corner that halves a right angle. */
function cosine(angle: number): number {
  const radians = (millionths: number): number => (millionths / 1_000_000) * (Math.PI / 180);
  return angle <= RIGHT_ANGLE / 2 ? Math.cos(radians(angle)) : Math.sin(radians(RIGHT_ANGLE - angle));
}

/** From the first wall's own frame to plan: x east, y north. The same local point always gives the same plan point. */
function planFrame(start: Point, firstRuns: number): (local: Local | undefined) => Point | undefined {
  const heading = normal(firstRuns);
  return (local) => {
    if (!local) return undefined;
    const along = vector(local.ahead, heading);
    const across = vector(local.right, normal(heading + RIGHT_ANGLE));
    // A heading is clockwise from north: its "ahead" is north and its "right" is east.
    const x = start.x + along.right + across.right;
    const y = start.y + along.ahead + across.ahead;
    return onMap(x, y) ? { x: nanometres(x), y: nanometres(y) } : undefined;
  };
}

function everyPoint(points: readonly (Point | undefined)[]): readonly Point[] | undefined {
  const known = points.filter((point) => point !== undefined);
  return known.length === points.length && known.length > 0 ? known : undefined;
}

function everyLength(walls: readonly TraverseWall[]): readonly Length[] | undefined {
  const known = walls.map((wall) => wall.length).filter((length) => length !== undefined);
  return known.length === walls.length && known.length > 0 ? known : undefined;
}

function closingError(start: Point, end: Point, walked: number, roundings: number): ClosingError {
  const dx = nanometres(end.x - start.x);
  const dy = nanometres(end.y - start.y);
  const length = hypotenuse(dx, dy);
  const ratio = length === 0 ? undefined : Math.round(walked / length);
  return { dx, dy, length, ratio, closes: length <= roundings };
}

function windingOf(corners: readonly Point[]): Traverse['winding'] {
  const doubled = doubledArea(corners);
  if (doubled === 0n) return undefined;
  return doubled < 0n ? 'clockwise' : 'counter-clockwise';
}

function hypotenuse(dx: number, dy: number): Length {
  if (dx === 0 || dy === 0) return nanometres(Math.abs(dx + dy));
  // Four times the square, so that the root's last bit tells which whole nanometre is nearest.
  const doubledRoot = squareRoot(4n * (BigInt(dx) * BigInt(dx) + BigInt(dy) * BigInt(dy)));
  return nanometres(Number((doubledRoot + 1n) / 2n));
}

/** Rounded down, by Newton's method on whole numbers. */
function squareRoot(square: bigint): bigint {
  if (square < 2n) return square;
  let root = 1n << BigInt(Math.ceil(square.toString(2).length / 2));
  for (;;) {
    const next = (root + square / root) / 2n;
    if (next >= root) return root;
    root = next;
  }
}

// ---- spreading the error

const cannot = (reason: string): CannotAdjust => ({ kind: 'cannot-adjust', reason });

function withLengths(input: TraverseInput, lengths: readonly Length[]): TraverseInput {
  return { ...input, walls: input.walls.map((wall, index) => ({ ...wall, length: lengths[index] })) };
}

/** One direction after the other; whole-number arithmetic, so that the sum comes out exactly. */
function adjustSquare(
  input: TraverseInput,
  lengths: readonly Length[],
  step: Length,
  fixed: ReadonlySet<number>,
): number[] | CannotAdjust {
  const adjusted: number[] = [...lengths];
  const headings = relativeHeadings(input.walls);
  for (const axis of [0, RIGHT_ANGLE]) {
    const along = lengths.flatMap((length, index): Share[] => {
      const heading = headings[index] ?? 0;
      if (heading % (2 * RIGHT_ANGLE) !== axis) return [];
      return [{ index, length: BigInt(length), sign: heading === axis ? 1n : -1n }];
    });
    const error = along.reduce((sum, wall) => sum + wall.sign * wall.length, 0n);
    if (error === 0n) continue;
    const free = along.filter((wall) => !fixed.has(wall.index) && wall.length > 0n);
    if (free.length === 0) return cannot('every wall that runs that way is kept');
    for (const [index, length] of shareOut(free, error, BigInt(step))) adjusted[index] = Number(length);
  }
  return adjusted;
}

interface Share {
  readonly index: number;
  readonly length: bigint;
  /** Whether the wall runs with its direction or against it. */
  readonly sign: bigint;
}

/**
 * Takes `error` out of the signed sum of the walls. Each gets its share by length, rounded down to a step; the steps
 * that are then left over go to the walls that lost most by rounding (the method of largest remainders).
 */
function shareOut(walls: readonly Share[], error: bigint, step: bigint): ReadonlyMap<number, bigint> {
  const total = walls.reduce((sum, wall) => sum + wall.length, 0n);
  const unit = total * step;
  const shares = walls.map((wall) => {
    const ideal = wall.sign * wall.length * total - error * wall.length;
    const steps = floorDivide(ideal, unit);
    return { ...wall, steps, lost: ideal - steps * unit };
  });
  const target = walls.reduce((sum, wall) => sum + wall.sign * wall.length, 0n) - error;
  let left = target - step * shares.reduce((sum, share) => sum + share.steps, 0n);
  const signed = new Map(shares.map((share) => [share.index, share.steps * step]));
  const give = (index: number, amount: bigint): void => {
    signed.set(index, (signed.get(index) ?? 0n) + amount);
    left -= amount;
  };
  for (const share of shares.toSorted(
    (a, b) => compare(b.lost, a.lost) || compare(b.length, a.length) || a.index - b.index,
  )) {
    if (left < step) break;
    give(share.index, step);
  }
  const longest = walls.reduce((best, wall) => (wall.length > best.length ? wall : best));
  if (left !== 0n) give(longest.index, left);
  return new Map(shares.map((share) => [share.index, share.sign * (signed.get(share.index) ?? 0n)]));
}

const compare = (a: bigint, b: bigint): number => (a < b ? -1 : a > b ? 1 : 0);

function floorDivide(a: bigint, b: bigint): bigint {
  const quotient = a / b;
  return a % b < 0n ? quotient - 1n : quotient;
}

/** Corrections `length × (direction · k)`, least in the sum of their squares over the lengths; `k` from two equations. */
function adjustAngled(
  input: TraverseInput,
  lengths: readonly Length[],
  step: Length,
  fixed: ReadonlySet<number>,
): number[] | CannotAdjust {
  const directions = relativeHeadings(input.walls).map((heading) => unitVector(heading));
  let [aa, ar, rr, errorAhead, errorRight] = [0, 0, 0, 0, 0];
  for (const [index, { ahead, right }] of directions.entries()) {
    const length = lengths[index] ?? 0;
    errorAhead += length * ahead;
    errorRight += length * right;
    if (fixed.has(index)) continue;
    aa += length * ahead * ahead;
    ar += length * ahead * right;
    rr += length * right * right;
  }
  const determinant = aa * rr - ar * ar;
  if (determinant <= 1e-9 * (aa + rr) * (aa + rr)) return cannot('the walls that may change all run one way');
  const kAhead = (ar * errorRight - rr * errorAhead) / determinant;
  const kRight = (ar * errorAhead - aa * errorRight) / determinant;

  // Each length is rounded up or down, whichever leaves less of what rounding has left open so far.
  let open: Local = { ahead: 0, right: 0 };
  return lengths.map((length, index) => {
    const direction = directions[index];
    if (!direction || fixed.has(index)) return length;
    const ideal = length * (1 + direction.ahead * kAhead + direction.right * kRight);
    const choices = [Math.floor(ideal / step) * step, Math.ceil(ideal / step) * step].map((rounded) => ({
      rounded,
      ahead: open.ahead + (rounded - ideal) * direction.ahead,
      right: open.right + (rounded - ideal) * direction.right,
    }));
    const best = choices.reduce((a, b) => (Math.hypot(b.ahead, b.right) < Math.hypot(a.ahead, a.right) ? b : a));
    open = best;
    return best.rounded;
  });
}

function unitVector(heading: number): Local {
  const reach = 1e15;
  const { ahead, right } = vector(reach, heading);
  return { ahead: ahead / reach, right: right / reach };
}

// ---- faces

/** A wall's face: the line `x = at` or `y = at`. */
interface Face {
  readonly axis: 'x' | 'y';
  readonly at: number;
}

const other = (axis: Face['axis']): Face['axis'] => (axis === 'x' ? 'y' : 'x');

function pointOn(a: Face, b: Face): Point {
  const [x, y] = a.axis === 'x' ? [a.at, b.at] : [b.at, a.at];
  return { x: nanometres(x), y: nanometres(y) };
}
