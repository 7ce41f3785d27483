import fc from 'fast-check';
import polygonClipping from 'polygon-clipping';
import type { Point } from '../../language/domain/model/layout.ts';
import { degrees } from '../../language/domain/model/layout.ts';
import type { TraverseInput, TraverseWall } from '../../language/domain/model/outline.ts';
import type { Length } from '../../language/domain/units/length.ts';
import { nanometres, scale, zero } from '../../language/domain/units/length.ts';
import { parseLength } from '../../language/domain/units/parse-length.ts';

/** A length as a person writes it. */
export function length(text: string): Length {
  const parsed = parseLength(text);
  if (parsed.kind !== 'length') throw new Error(`${text} is no length: ${parsed.reason}`);
  return parsed.length;
}

export const point = (x: string, y: string): Point => ({ x: length(x), y: length(y) });

/** The demo house: A, B, C turn right, D turns left at the bump-out, E and F turn right. */
export function demoHouse(lengths: readonly string[]): TraverseInput {
  const turns = [90, 90, 90, -90, 90, 90];
  return {
    start: point(`0"`, `36'-4"`),
    facing: degrees(0),
    walls: turns.map((turn, index): TraverseWall => {
      const text = lengths[index];
      return { turn: degrees(turn), length: text === undefined || text === 'unknown' ? undefined : length(text) };
    }),
  };
}
export const demoTaped = [`34'-3 1/4"`, `12'-3"`, `6'-0 3/4"`, `24'-1"`, `28'-2 1/8"`, `36'-4 3/8"`];
export const demoAdjusted = [`34'-3"`, `12'-3"`, `6'-1"`, `24'-1"`, `28'-2"`, `36'-4"`];

/**
 * Corners of a right-angled outline, clockwise, in multiples of `step`: the union of overlapping rectangles, as
 * polygon-clipping makes it. Only outlines of one piece without a court are given.
 */
export function rectilinearCorners(step: Length): fc.Arbitrary<readonly Point[]> {
  const side = fc.integer({ min: 40, max: 400 });
  const rectangle = fc.record({
    x: fc.integer({ min: 0, max: 300 }),
    y: fc.integer({ min: 0, max: 300 }),
    wide: side,
    tall: side,
  });
  return fc
    .array(rectangle, { minLength: 1, maxLength: 5 })
    .map((rectangles) => {
      const polygons = rectangles.map(({ x, y, wide, tall }): [number, number][][] => [
        [
          [x, y],
          [x + wide, y],
          [x + wide, y + tall],
          [x, y + tall],
        ],
      ]);
      const [first = [], ...rest] = polygons;
      const merged = polygonClipping.union(first, ...rest);
      const ring = merged.length === 1 && merged[0]?.length === 1 ? (merged[0][0] ?? []) : [];
      const open = ring.slice(0, -1).map(([x, y]): Point => ({ x: scale(step, x), y: scale(step, y) }));
      return open.toReversed();
    })
    .filter((corners) => corners.length >= 4);
}

/** The walls that run from corner to corner, the first one facing what it faces in plan. For right-angled outlines. */
export function wallsOf(corners: readonly Point[]): TraverseInput {
  const headings: number[] = [];
  const lengths: Length[] = [];
  for (const [index, corner] of corners.entries()) {
    const next = corners[(index + 1) % corners.length] ?? corner;
    headings.push(headingOf(next.x - corner.x, next.y - corner.y));
    lengths.push(nanometres(Math.abs(next.x - corner.x) + Math.abs(next.y - corner.y)));
  }
  const walls = headings.map((heading, index): TraverseWall => {
    const before = headings.at(index - 1) ?? 0;
    return { length: lengths[index], turn: degrees(((heading - before + 540) % 360) - 180) };
  });
  return { start: corners[0] ?? { x: zero, y: zero }, facing: degrees(((headings[0] ?? 0) + 270) % 360), walls };
}

function headingOf(dx: number, dy: number): number {
  if (dx === 0) return dy > 0 ? 0 : 180;
  return dx > 0 ? 90 : 270;
}
