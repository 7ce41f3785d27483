import type {
  CircleShape,
  Group,
  LineShape,
  PathShape,
  PathStep,
  PolylineShape,
  RectShape,
  Shape,
  Stroke,
  TextShape,
  XY,
} from './scene.ts';

/**
 * Whether two shapes look the same. Each field is named, which a key in a large drawing is told by: to go through the fields of what is
 * given takes five times as long. A test holds the names to the types.
 */
export function isSameShape(a: Shape, b: Shape): boolean {
  if (a === b) return true;
  switch (a.kind) {
    case 'line':
      return b.kind === 'line' && isSameLine(a, b);
    case 'polyline':
      return b.kind === 'polyline' && isSamePolyline(a, b);
    case 'rect':
      return b.kind === 'rect' && isSameRect(a, b);
    case 'circle':
      return b.kind === 'circle' && isSameCircle(a, b);
    case 'path':
      return b.kind === 'path' && isSamePath(a, b);
    case 'text':
      return b.kind === 'text' && isSameText(a, b);
  }
}

/** Whether two groups say the same of themselves, whatever is in them. */
export function isSameGroup(a: Group, b: Group): boolean {
  return (
    a.thing === b.thing && a.role === b.role && a.name === b.name && a.hidden === b.hidden && a.symbol === b.symbol
  );
}

const isSameLine = (a: LineShape, b: LineShape): boolean =>
  isSamePoint(a.from, b.from) && isSamePoint(a.to, b.to) && isSameStroke(a.stroke, b.stroke);

const isSamePolyline = (a: PolylineShape, b: PolylineShape): boolean =>
  a.closed === b.closed &&
  a.points.length === b.points.length &&
  a.fill === b.fill &&
  isSameStroke(a.stroke, b.stroke) &&
  a.points.every((point, index) => isSamePoint(point, b.points[index]));

const isSameRect = (a: RectShape, b: RectShape): boolean =>
  a.x === b.x &&
  a.y === b.y &&
  a.width === b.width &&
  a.height === b.height &&
  a.rounded === b.rounded &&
  a.fill === b.fill &&
  isSameStroke(a.stroke, b.stroke);

const isSameCircle = (a: CircleShape, b: CircleShape): boolean =>
  a.radius === b.radius && a.fill === b.fill && isSamePoint(a.centre, b.centre) && isSameStroke(a.stroke, b.stroke);

const isSamePath = (a: PathShape, b: PathShape): boolean =>
  a.steps.length === b.steps.length &&
  a.fill === b.fill &&
  isSameStroke(a.stroke, b.stroke) &&
  a.steps.every((step, index) => isSameStep(step, b.steps[index]));

function isSameStep(a: PathStep, b: PathStep | undefined): boolean {
  if (a === b) return true;
  if (a.to !== b?.to) return false;
  if (a.to === 'close' || b.to === 'close') return true;
  if (!isSamePoint(a.at, b.at)) return false;
  return a.to !== 'arc' || b.to !== 'arc' || (a.radius === b.radius && a.clockwise === b.clockwise);
}

const isSameText = (a: TextShape, b: TextShape): boolean =>
  a.text === b.text &&
  isSamePoint(a.at, b.at) &&
  a.anchor === b.anchor &&
  a.size === b.size &&
  a.capHeight === b.capHeight &&
  a.face === b.face &&
  a.colour === b.colour &&
  a.heavy === b.heavy &&
  a.halo === b.halo &&
  a.struck === b.struck &&
  a.turned === b.turned &&
  a.width === b.width;

const isSamePoint = (a: XY, b: XY | undefined): boolean =>
  a === b || (b !== undefined && a[0] === b[0] && a[1] === b[1]);

const isSameStroke = (a: Stroke | undefined, b: Stroke | undefined): boolean =>
  a === b ||
  (a !== undefined &&
    b !== undefined &&
    a.colour === b.colour &&
    a.pen === b.pen &&
    a.line === b.line &&
    a.ends === b.ends);
