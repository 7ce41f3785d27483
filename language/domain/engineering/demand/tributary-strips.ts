import type { Point } from '../../model/layout.ts';

/** A closed outline, its corners in order; the last joins the first. */
export type Outline = readonly Point[];

/** A line as the strips need it. */
export interface StripLine {
  /** Any point of it. */
  readonly through: Point;
  /** Where it takes only what lies beside it. */
  readonly ends?: { readonly from: Point; readonly to: Point };
  /** Its share among lines at the same place is in proportion to this. */
  readonly weight: number;
}
/** Which part of the plan belongs to which line: slices across the lines, and in each the strips between them. */
export interface StripPlan {
  readonly frame: Frame;
  readonly lines: number;
  readonly slices: readonly Slice[];
}
interface Slice {
  /** Along the lines, m. */
  readonly from: number;
  readonly to: number;
  readonly strips: readonly Strip[];
}
interface Strip {
  readonly line: number;
  /** Across the lines, m. */
  readonly from: number;
  readonly to: number;
  /** Of the strip, where several lines stand at the same place. */
  readonly share: number;
}

/** Strips that reach halfway to the neighbouring lines, the outer ones to the edge; slice by slice where lines have ends. */
export function stripPlan(direction: number, lines: readonly StripLine[]): StripPlan {
  const frame = frameOf(direction);
  const placed = lines.map((line, index): PlacedLine => {
    const ends = line.ends && [place(line.ends.from, frame).along, place(line.ends.to, frame).along];
    return {
      index,
      across: place(line.through, frame).across,
      from: ends ? Math.min(...ends) : Number.NEGATIVE_INFINITY,
      to: ends ? Math.max(...ends) : Number.POSITIVE_INFINITY,
      weight: line.weight,
    };
  });
  placed.sort((a, b) => a.across - b.across || a.index - b.index);
  const cuts = [...new Set(placed.flatMap((line) => [line.from, line.to]).filter(Number.isFinite))].toSorted(
    (a, b) => a - b,
  );
  const marks = [Number.NEGATIVE_INFINITY, ...cuts, Number.POSITIVE_INFINITY];
  const slices = marks.slice(1).map((to, index): Slice => {
    const from = marks[index] ?? Number.NEGATIVE_INFINITY;
    const beside = placed.filter((line) => line.from <= from && line.to >= to);
    return { from, to, strips: stripsBetween(beside.length > 0 ? beside : placed) };
  });
  return { frame, lines: lines.length, slices };
}

/** Square metres of an area that each line takes, in the order of the lines, and the whole. The parts add up to the whole. */
export function stripAreas(
  plan: StripPlan,
  outlines: readonly Outline[],
): { readonly byLine: readonly number[]; readonly total: number } {
  const shapes = outlines.map((outline) => outline.map((point) => place(point, plan.frame)));
  const byLine = Array.from({ length: plan.lines }, () => 0);
  for (const shape of shapes) {
    for (const slice of plan.slices) {
      const from = clipped(shape, 'along', slice.from);
      const to = clipped(shape, 'along', slice.to);
      const below = (cut: number): number => areaOf(clipped(to, 'across', cut)) - areaOf(clipped(from, 'across', cut));
      for (const strip of slice.strips) {
        byLine[strip.line] = (byLine[strip.line] ?? 0) + strip.share * (below(strip.to) - below(strip.from));
      }
    }
  }
  return { byLine, total: shapes.reduce((sum, shape) => sum + areaOf(shape), 0) };
}

interface PlacedLine {
  readonly index: number;
  readonly across: number;
  readonly from: number;
  readonly to: number;
  readonly weight: number;
}

/** A tenth of a millimetre: lines nearer than this stand at the same place. */
const SAME_PLACE = 1e-4;
/** Of lines in order of their place across. */
function stripsBetween(lines: readonly PlacedLine[]): readonly Strip[] {
  const groups: PlacedLine[][] = [];
  for (const line of lines) {
    const group = groups.at(-1);
    const first = group?.[0];
    if (group && first && line.across - first.across < SAME_PLACE) group.push(line);
    else groups.push([line]);
  }
  return groups.flatMap((group, index) => {
    const here = group[0]?.across ?? 0;
    const left = groups[index - 1]?.[0]?.across;
    const right = groups[index + 1]?.[0]?.across;
    const together = group.reduce((sum, line) => sum + line.weight, 0);
    return group.map(
      (line): Strip => ({
        line: line.index,
        from: left === undefined ? Number.NEGATIVE_INFINITY : (left + here) / 2,
        to: right === undefined ? Number.POSITIVE_INFINITY : (here + right) / 2,
        share: together > 0 ? line.weight / together : 1 / group.length,
      }),
    );
  });
}

/** Unit vectors along the lines and across them. */
interface Frame {
  readonly x: number;
  readonly y: number;
}
interface Place {
  readonly along: number;
  readonly across: number;
}
const METRES_PER_NANOMETRE = 1e-9;
function frameOf(direction: number): Frame {
  // Whole quarter turns give whole numbers, so that a rectangular house is cut exactly.
  const turned = ((direction % 180) + 180) % 180;
  if (turned === 0) return { x: 1, y: 0 };
  if (turned === 90) return { x: 0, y: 1 };
  const radians = (direction * Math.PI) / 180;
  return { x: Math.cos(radians), y: Math.sin(radians) };
}
const place = (point: Point, frame: Frame): Place => ({
  along: (point.x * frame.x + point.y * frame.y) * METRES_PER_NANOMETRE,
  across: (point.y * frame.x - point.x * frame.y) * METRES_PER_NANOMETRE,
});

/** What lies at or below a cut: each edge is clipped, and what the cut adds to a notched outline encloses nothing. */
function clipped(shape: readonly Place[], axis: keyof Place, cut: number): readonly Place[] {
  if (cut === Number.POSITIVE_INFINITY) return shape;
  const kept: Place[] = [];
  for (const [index, corner] of shape.entries()) {
    const next = shape[(index + 1) % shape.length] ?? corner;
    const inside = corner[axis] <= cut;
    if (inside) kept.push(corner);
    if (inside === next[axis] <= cut) continue;
    const part = (cut - corner[axis]) / (next[axis] - corner[axis]);
    kept.push({
      along: corner.along + part * (next.along - corner.along),
      across: corner.across + part * (next.across - corner.across),
    });
  }
  return kept;
}

function areaOf(shape: readonly Place[]): number {
  const origin = shape[0];
  if (!origin) return 0;
  let doubled = 0;
  for (const [index, corner] of shape.entries()) {
    const next = shape[(index + 1) % shape.length] ?? corner;
    doubled +=
      (corner.along - origin.along) * (next.across - origin.across) -
      (next.along - origin.along) * (corner.across - origin.across);
  }
  return Math.abs(doubled) / 2;
}
