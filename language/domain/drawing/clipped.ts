import { textBox } from './lettering.ts';
import {
  type Box,
  group,
  type PathShape,
  polyline,
  type SceneNode,
  type Shape,
  type Stroke,
  type XY,
} from './scene.ts';
import { boundsOf } from './scene-bounds.ts';

/** A strip of a drawing, upright unless it lies along the other axis; an open side goes on without end. */
export interface Strip {
  readonly from: number;
  readonly to: number;
  /** The axis that it is cut on. */
  readonly along?: 'x' | 'y';
}

/** What of a place the strip is about, and the extent of a box there. */
const axisOf = ({ along }: Strip): 0 | 1 => (along === 'y' ? 1 : 0);
const extentOn = (box: Box, strip: Strip): readonly [number, number] =>
  strip.along === 'y' ? [box.y, box.y + box.height] : [box.x, box.x + box.width];
const isIn = (point: XY, strip: Strip): boolean => {
  const value = point[axisOf(strip)];
  return value >= strip.from && value <= strip.to;
};

/**
 * What of a drawing lies in a strip, as plain shapes, so that every form that a drawing leaves in shows the same. Outlines end
 * where they are cut, fills reach the edge; letters and round signs are never cut: they are in or out.
 */
export function clipped(nodes: readonly SceneNode[], strip: Strip): readonly SceneNode[] {
  return nodes.flatMap((node): readonly SceneNode[] => {
    if (node.kind !== 'group') return clippedShape(node, strip);
    const { kind: _, nodes: members, ...what } = node;
    const kept = clipped(members, strip);
    return kept.length === 0 ? [] : [group(kept, what)];
  });
}

function clippedShape(shape: Shape, strip: Strip): readonly SceneNode[] {
  const bounds = boundsOf([shape]);
  if (!bounds) return [];
  const [start, end] = extentOn(bounds, strip);
  if (start > strip.to || end < strip.from) return [];
  if (start >= strip.from && end <= strip.to) return [shape];
  switch (shape.kind) {
    case 'line': {
      const part = segmentIn(shape.from, shape.to, strip);
      return part ? [{ ...shape, from: part[0], to: part[1] }] : [];
    }
    case 'polyline':
      return cutOutline(shape.points, shape.closed, shape, strip);
    case 'rect':
      return cutOutline(cornersOf(shape), true, shape, strip);
    case 'circle':
      return isIn(shape.centre, strip) ? [shape] : [];
    case 'path':
      return cutPath(shape, strip);
    case 'text': {
      const [first, last] = extentOn(textBox(shape), strip);
      return first >= strip.from && last <= strip.to ? [shape] : [];
    }
  }
}

function cornersOf({ x, y, width, height }: Box): readonly XY[] {
  return [
    [x, y],
    [x + width, y],
    [x + width, y + height],
    [x, y + height],
  ];
}

type Drawn = { readonly stroke?: Stroke; readonly fill?: Extract<Shape, { kind: 'rect' }>['fill'] };

function cutOutline(
  points: readonly XY[],
  closed: boolean,
  { stroke, fill }: Drawn,
  strip: Strip,
): readonly SceneNode[] {
  const nodes: SceneNode[] = [];
  if (fill) {
    const inside = cutPolygon(points, strip);
    if (inside.length > 2) nodes.push({ kind: 'polyline', points: inside, closed: true, fill });
  }
  if (stroke)
    for (const run of runsIn(closed ? closedUp(points) : points, strip)) nodes.push(polyline(run, { stroke }));
  return nodes;
}

const closedUp = (points: readonly XY[]): readonly XY[] => [...points, ...points.slice(0, 1)];

/** Sutherland and Hodgman's clip, against the two sides of the strip. */
function cutPolygon(points: readonly XY[], strip: Strip): readonly XY[] {
  const axis = axisOf(strip);
  const against = (corners: readonly XY[], side: number, isInside: (value: number) => boolean): readonly XY[] =>
    corners.flatMap((corner, index): readonly XY[] => {
      const before = corners[(index + corners.length - 1) % corners.length] ?? corner;
      const inside = isInside(corner[axis]);
      const crossing = inside === isInside(before[axis]) ? [] : [crossingAt(before, corner, side, axis)];
      return inside ? [...crossing, corner] : crossing;
    });
  const rest = Number.isFinite(strip.from) ? against(points, strip.from, (value) => value >= strip.from) : points;
  return Number.isFinite(strip.to) ? against(rest, strip.to, (value) => value <= strip.to) : rest;
}

function crossingAt(a: XY, b: XY, side: number, axis: 0 | 1): XY {
  const other = axis === 0 ? 1 : 0;
  const run = b[axis] - a[axis];
  const across = run === 0 ? a[other] : a[other] + ((side - a[axis]) / run) * (b[other] - a[other]);
  return axis === 0 ? [side, across] : [across, side];
}

function segmentIn(a: XY, b: XY, strip: Strip): readonly [XY, XY] | undefined {
  const axis = axisOf(strip);
  const isForward = a[axis] <= b[axis];
  const [first, last] = isForward ? [a, b] : [b, a];
  if (last[axis] < strip.from || first[axis] > strip.to) return undefined;
  const from = first[axis] < strip.from ? crossingAt(first, last, strip.from, axis) : first;
  const to = last[axis] > strip.to ? crossingAt(first, last, strip.to, axis) : last;
  return isForward ? [from, to] : [to, from];
}

/** The stretches of an outline that lie in the strip, each in one piece. */
function runsIn(points: readonly XY[], strip: Strip): readonly (readonly XY[])[] {
  const runs: XY[][] = [];
  let run: XY[] = [];
  const end = (): void => {
    if (run.length > 1) runs.push(run);
    run = [];
  };
  for (let index = 1; index < points.length; index++) {
    const [from, to] = [points[index - 1], points[index]];
    const part = from && to && segmentIn(from, to, strip);
    if (!part) {
      end();
      continue;
    }
    if (run.length === 0 || part[0] !== from) {
      end();
      run = [part[0]];
    }
    run.push(part[1]);
    if (part[1] !== to) end();
  }
  end();
  return runs;
}

/** Straight strokes are cut, arcs stay whole or go; a filled path is a sign, and stays where its middle is in. */
function cutPath(path: PathShape, strip: Strip): readonly SceneNode[] {
  if (path.fill) {
    const bounds = boundsOf([path]);
    const middle: XY = bounds ? [bounds.x + bounds.width / 2, bounds.y + bounds.height / 2] : [0, 0];
    return bounds && isIn(middle, strip) ? [path] : [];
  }
  const steps: PathShape['steps'][number][] = [];
  let at: XY | undefined;
  let start: XY | undefined;
  let drawnTo: XY | undefined;
  const stroke = (from: XY, to: XY): void => {
    const part = segmentIn(from, to, strip);
    if (!part) return;
    if (drawnTo !== part[0]) steps.push({ to: 'move', at: part[0] });
    steps.push({ to: 'line', at: part[1] });
    drawnTo = part[1];
  };
  for (const step of path.steps) {
    if (step.to === 'close') {
      if (at && start) stroke(at, start);
      at = start;
      continue;
    }
    if (step.to === 'move') start = step.at;
    else if (at && step.to === 'line') stroke(at, step.at);
    else if (at && step.to === 'arc' && isIn(at, strip) && isIn(step.at, strip)) {
      if (drawnTo !== at) steps.push({ to: 'move', at });
      steps.push(step);
      drawnTo = step.at;
    }
    at = step.at;
  }
  return steps.length === 0 ? [] : [{ ...path, steps }];
}
