import type { PointFacts } from './facts.ts';
import { FOOT, INCH, MILLIMETRE } from './facts.ts';
import type { Random } from './random.ts';

export interface Edge {
  /** Compass degrees of the run, north 0, clockwise. */
  readonly heading: number;
  readonly length: number;
}
export interface Outline {
  readonly start: PointFacts;
  /** In walking order, clockwise seen from above. */
  readonly edges: readonly Edge[];
  /** Degrees to the right from the edge before. */
  readonly turns: readonly number[];
  /** Left ends. */
  readonly vertices: readonly PointFacts[];
  /** A rectangle inside the outline, in plan. */
  readonly core: { readonly from: PointFacts; readonly to: PointFacts };
}

/**
 * Rectangles, L and T shapes, recesses and bump-outs, bays with corners of 45°; all on a grid of 1 in or 10 mm. Only the oblique sides of a
 * bay are rounded to the tape, so that its outline closes within 1/8 in.
 */
export function randomOutline(random: Random, units: 'feet-inches' | 'metric'): Outline {
  const step = units === 'metric' ? 10 * MILLIMETRE : INCH;
  const on = (feet: number): number => Math.round((feet * FOOT) / step) * step;
  const between = (least: number, most: number): number => on(random.integer(least * 4, most * 4) / 4);
  const wide = between(20, 44);
  const deep = between(18, 40);
  const sides: Edge[][] = [
    [{ heading: 90, length: wide }],
    [{ heading: 180, length: deep }],
    [{ heading: 270, length: wide }],
    [{ heading: 0, length: deep }],
  ];
  // Shapes go at least 6 ft deep at most: what lies 7 ft inside every side stays inside the house.
  let changes = random.pick([0, 0, 1, 1, 2, 3]);
  for (const [index, side] of sides.entries()) {
    const [only] = side;
    if (changes === 0 || !only || only.length < 20 * FOOT || random.chance(0.4)) continue;
    changes -= 1;
    sides[index] = random.pick([bumpOut, recess, bay])(only, random, on, units);
  }
  const edges = sides.flat();
  const cut = random.integer(0, 5);
  const cornered = cut < 4 && sides.every((side) => side.length === 1) ? cutCorner(edges, cut, random, on) : edges;
  return placed(cornered, random, on);
}

type Shape = (side: Edge, random: Random, on: (feet: number) => number, units: 'feet-inches' | 'metric') => Edge[];

const bumpOut: Shape = (side, random, on) => jog(side, random, on, -90);
const recess: Shape = (side, random, on) => jog(side, random, on, 90);

function jog({ heading, length }: Edge, random: Random, on: (feet: number) => number, turn: 90 | -90): Edge[] {
  const deep = on(random.integer(4, 6));
  const before = on(random.integer(4, 6));
  const wide = on(random.integer(5, 7));
  return [
    { heading, length: before },
    { heading: heading + turn, length: deep },
    { heading, length: wide },
    { heading: heading - turn, length: deep },
    { heading, length: length - before - wide },
  ];
}

/** A bay window's wall: out at 45°, along, and back. */
const bay: Shape = ({ heading, length }, random, on, units) => {
  const roomy = length >= 24 * FOOT;
  const deep = on(roomy ? random.integer(3, 4) : 3);
  const tape = units === 'metric' ? MILLIMETRE : INCH / 16;
  const oblique = Math.round((deep * Math.SQRT2) / tape) * tape;
  const before = on(random.integer(4, 5));
  const front = on(roomy ? random.integer(4, 6) : 4);
  return [
    { heading, length: before },
    { heading: heading - 45, length: oblique },
    { heading, length: front },
    { heading: heading + 45, length: oblique },
    { heading, length: length - before - front - 2 * deep },
  ];
};

/** An L: one corner moves in. */
function cutCorner(edges: readonly Edge[], corner: number, random: Random, on: (feet: number) => number): Edge[] {
  const along = on(random.integer(5, 8));
  const across = on(random.integer(5, 8));
  return edges.flatMap((edge, index): Edge[] => {
    const next = edges[(index + 1) % 4];
    if (index === corner && next) {
      const shortened = { ...edge, length: edge.length - along };
      return [shortened, { heading: edge.heading + 90, length: across }, { heading: edge.heading, length: along }];
    }
    return index === (corner + 1) % 4 ? [{ ...edge, length: edge.length - across }] : [edge];
  });
}

function placed(edges: readonly Edge[], random: Random, on: (feet: number) => number): Outline {
  const start = random.chance(0.6) ? { x: 0, y: 0 } : { x: on(random.integer(-10, 40)), y: on(random.integer(0, 60)) };
  // Whoever begins at another corner, or draws the sheet with another side up, measures the same house.
  const spin = random.chance(0.7) ? 0 : random.pick([90, 180, 270]);
  return outlineOf(
    edges.map((edge) => ({ ...edge, heading: edge.heading + spin })),
    start,
  );
}

/** Of edges that come back to where they began. */
export function outlineOf(edges: readonly Edge[], start: PointFacts): Outline {
  const turned = edges.map((edge) => ({ ...edge, heading: (edge.heading + 720) % 360 }));
  const vertices: PointFacts[] = [];
  let here = { x: start.x, y: start.y };
  for (const { heading, length } of turned) {
    vertices.push({ x: Math.round(here.x), y: Math.round(here.y) });
    const radians = (heading * Math.PI) / 180;
    here = { x: here.x + length * Math.sin(radians), y: here.y + length * Math.cos(radians) };
  }
  const turns = turned.map(({ heading }, index) => {
    const before = turned.at(index - 1)?.heading ?? heading;
    return ((heading - before + 540) % 360) - 180;
  });
  return { start, edges: turned, turns, vertices, core: coreOf(vertices) };
}

/** The bounding box less 9 ft on every side; where that leaves nothing, a point in the middle. */
function coreOf(vertices: readonly PointFacts[]): Outline['core'] {
  const inner = (values: readonly number[]): readonly [number, number] => {
    const least = Math.min(...values);
    const most = Math.max(...values);
    const inset = Math.min(9 * FOOT, Math.floor((most - least) / (4 * INCH)) * INCH);
    return [least + inset, most - inset];
  };
  const [left, right] = inner(vertices.map(({ x }) => x));
  const [bottom, top] = inner(vertices.map(({ y }) => y));
  return { from: { x: left, y: bottom }, to: { x: right, y: top } };
}
