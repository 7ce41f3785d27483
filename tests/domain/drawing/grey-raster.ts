import type { PathStep, SceneNode, Shape, Stroke, XY } from '../../../language/domain/drawing/scene.ts';
import { walkScene } from '../../../language/domain/drawing/scene.ts';
import { type ColourToken, colourTokens, lineTypes, pens } from '../../../language/domain/drawing/tokens.ts';

/** A picture of shapes as a copier sees it: luma 0 to 255, row by row. Letters are left out. */
export interface GreyPicture {
  readonly width: number;
  readonly height: number;
  readonly luma: Uint8Array;
}

const PIXELS_PER_MM = 10;

/** Draws what lies within `reach` mm round the origin, in the colours of paper, later shapes over earlier ones. */
export function greyPicture(nodes: readonly SceneNode[], reach: number): GreyPicture {
  const size = Math.round(2 * reach * PIXELS_PER_MM);
  const luma = new Uint8Array(size * size).fill(greyOf('paper'));
  const paint = (covers: (x: number, y: number) => boolean, token: ColourToken): void => {
    const grey = greyOf(token);
    for (let row = 0; row < size; row++)
      for (let column = 0; column < size; column++) {
        const [x, y] = [(column + 0.5) / PIXELS_PER_MM - reach, (row + 0.5) / PIXELS_PER_MM - reach];
        if (covers(x, y)) luma[row * size + column] = grey;
      }
  };
  for (const { node } of walkScene(nodes)) {
    if (node.kind === 'group' || node.kind === 'text') continue;
    const outlines = outlinesOf(node);
    const { fill, stroke } = node.kind === 'line' ? { fill: undefined, stroke: node.stroke } : node;
    if (fill) paint((x, y) => outlines.some((points) => isInside(points, x, y)), fill);
    if (!stroke) continue;
    const half = pens[stroke.pen] / 2;
    const dashes = outlines.flatMap((points) => dashesOf(points, stroke));
    paint((x, y) => dashes.some(([from, to]) => distance([x, y], from, to) <= half), stroke.colour);
  }
  return { width: size, height: size, luma };
}

/** Luma of ITU-R BT.601 (0.299 R + 0.587 G + 0.114 B). */
function greyOf(token: ColourToken): number {
  const [r = 0, g = 0, b = 0] = [1, 3, 5].map((at) => Number.parseInt(colourTokens[token].light.slice(at, at + 2), 16));
  return Math.round(0.299 * r + 0.587 * g + 0.114 * b);
}

/**
 * How much of the ink of two pictures differs, 0 to 1; the second is moved about by up to 0.6 mm to where
 * it is most like the first, so that a mere shift does not count.
 */
export function difference(a: GreyPicture, b: GreyPicture): number {
  const paper = greyOf('paper');
  const most = Math.round(0.6 * PIXELS_PER_MM);
  let least = 1;
  for (let dy = -most; dy <= most; dy += 2)
    for (let dx = -most; dx <= most; dx += 2) {
      let [ink, unlike] = [0, 0];
      for (let y = most; y < a.height - most; y++)
        for (let x = most; x < a.width - most; x++) {
          const one = a.luma[y * a.width + x] ?? paper;
          const other = b.luma[(y + dy) * b.width + x + dx] ?? paper;
          if (paper - one <= SAME_TO_AN_EYE && paper - other <= SAME_TO_AN_EYE) continue;
          ink++;
          if (Math.abs(one - other) > SAME_TO_AN_EYE) unlike++;
        }
      least = Math.min(least, ink === 0 ? 0 : unlike / ink);
    }
  return least;
}

/** A tint that a copier loses is no ink. */
const SAME_TO_AN_EYE = 48;

type DrawnShape = Exclude<Shape, { readonly kind: 'text' }>;

/** Runs of points; curves as short chords. */
function outlinesOf(shape: DrawnShape): readonly (readonly XY[])[] {
  switch (shape.kind) {
    case 'line':
      return [[shape.from, shape.to]];
    case 'polyline':
      return [shape.closed ? closed(shape.points) : shape.points];
    case 'rect': {
      const [right, bottom] = [shape.x + shape.width, shape.y + shape.height];
      return [
        closed([
          [shape.x, shape.y],
          [right, shape.y],
          [right, bottom],
          [shape.x, bottom],
        ]),
      ];
    }
    case 'circle':
      return [closed(arc(shape.centre, shape.radius, 0, 2 * Math.PI))];
    case 'path':
      return runsOf(shape.steps);
  }
}

const closed = (points: readonly XY[]): readonly XY[] => (points[0] ? [...points, points[0]] : points);

function arc([x, y]: XY, radius: number, from: number, to: number): readonly XY[] {
  return Array.from({ length: 25 }, (_, index): XY => {
    const angle = from + ((to - from) * index) / 24;
    return [x + radius * Math.cos(angle), y + radius * Math.sin(angle)];
  });
}

function runsOf(steps: readonly PathStep[]): readonly (readonly XY[])[] {
  const runs: XY[][] = [];
  for (const step of steps) {
    const run = runs[runs.length - 1];
    if (step.to === 'move') runs.push([step.at]);
    else if (step.to === 'line') run?.push(step.at);
    else if (step.to === 'close') {
      if (run?.[0]) run.push(run[0]);
    } else if (step.to === 'arc') {
      // Every arc of a sign is half a circle.
      const start = run?.[run.length - 1];
      if (!run || !start) continue;
      const centre: XY = [(start[0] + step.at[0]) / 2, (start[1] + step.at[1]) / 2];
      const angle = Math.atan2(start[1] - centre[1], start[0] - centre[0]);
      run.push(...arc(centre, step.radius, angle, angle + (step.clockwise ? Math.PI : -Math.PI)));
    }
  }
  return runs;
}

function dashesOf(points: readonly XY[], { line }: Stroke): readonly (readonly [XY, XY])[] {
  const segments = points.slice(1).map((to, index): readonly [XY, XY] => [points[index] ?? to, to]);
  if (!line) return segments;
  const pattern = lineTypes[line];
  const dashes: (readonly [XY, XY])[] = [];
  let [part, left] = [0, pattern[0] ?? 1];
  for (const [from, to] of segments) {
    const length = Math.hypot(to[0] - from[0], to[1] - from[1]);
    const at = (way: number): XY =>
      length === 0
        ? from
        : [from[0] + ((to[0] - from[0]) * way) / length, from[1] + ((to[1] - from[1]) * way) / length];
    for (let way = 0; way < length; ) {
      const step = Math.min(left, length - way);
      if (part % 2 === 0) dashes.push([at(way), at(way + step)]);
      way += step;
      left -= step;
      if (left > 1e-9) continue;
      part = (part + 1) % pattern.length;
      left = pattern[part] ?? 1;
    }
  }
  return dashes;
}

function distance([x, y]: XY, [x1, y1]: XY, [x2, y2]: XY): number {
  const [dx, dy] = [x2 - x1, y2 - y1];
  const square = dx * dx + dy * dy;
  const share = square === 0 ? 0 : Math.min(1, Math.max(0, ((x - x1) * dx + (y - y1) * dy) / square));
  return Math.hypot(x - x1 - share * dx, y - y1 - share * dy);
}

function isInside(points: readonly XY[], x: number, y: number): boolean {
  let inside = false;
  points.forEach(([x1, y1], index) => {
    const [x2, y2] = points[(index + 1) % points.length] ?? [x1, y1];
    if (y1 > y !== y2 > y && x < ((x2 - x1) * (y - y1)) / (y2 - y1) + x1) inside = !inside;
  });
  return inside;
}
