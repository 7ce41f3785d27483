import { polygonArea, polygonLength } from 'd3-polygon';
import fc from 'fast-check';
import polygonClipping from 'polygon-clipping';
import { describe, expect, it } from 'vitest';
import type { MicroDegrees, Point } from '../../language/domain/model/layout.ts';
import { degrees } from '../../language/domain/model/layout.ts';
import { asArea, outlineArea, perimeter, traverse } from '../../language/domain/model/outline.ts';
import { inSquareFeet } from '../../language/domain/units/area.ts';
import { feet, inFeet, inInches, millimetre, nanometres, sixteenth } from '../../language/domain/units/length.ts';
import { rectilinearCorners } from '../support/outlines.ts';

const ring = (corners: readonly Point[]): [number, number][] => corners.map(({ x, y }) => [inInches(x), inInches(y)]);

/** To a millionth part: the libraries reckon in floating point. */
function expectClose(ours: number, theirs: number): void {
  expect(Math.abs(ours - theirs)).toBeLessThanOrEqual(1e-6 * Math.max(1, Math.abs(theirs)));
}

describe('outlines against d3-polygon', () => {
  it('agree in area and perimeter, right-angled', () => {
    fc.assert(
      fc.property(fc.constantFrom(sixteenth, millimetre).chain(rectilinearCorners), (corners) => {
        const squareInches = inSquareFeet(asArea(outlineArea(corners))) * 144;
        expectClose(squareInches, Math.abs(polygonArea(ring(corners))));
        expectClose(inInches(perimeter(corners)), polygonLength(ring(corners)));
      }),
    );
  });

  it('agree in area and perimeter, at any angle', () => {
    const spoke = fc.record({
      angle: fc.integer({ min: 0, max: 359 }),
      out: fc.integer({ min: 1_000_000_000, max: 12_000_000_000 }),
    });
    fc.assert(
      fc.property(fc.uniqueArray(spoke, { selector: (each) => each.angle, minLength: 3, maxLength: 12 }), (spokes) => {
        const corners = spokes
          .toSorted((a, b) => b.angle - a.angle)
          .map(({ angle, out }) => ({
            x: nanometres(Math.round(out * Math.cos((angle * Math.PI) / 180))),
            y: nanometres(Math.round(out * Math.sin((angle * Math.PI) / 180))),
          }));
        expectClose(inSquareFeet(asArea(outlineArea(corners))) * 144, Math.abs(polygonArea(ring(corners))));
        expectClose(inInches(perimeter(corners)), polygonLength(ring(corners)));
      }),
    );
  });
});

describe('outlines against polygon-clipping', () => {
  it('have the area of the pieces that a grid cuts them into', () => {
    fc.assert(
      fc.property(rectilinearCorners(sixteenth), (corners) => {
        const outline: [number, number][][] = [ring(corners)];
        let pieces = 0;
        for (const left of [0, 15, 30]) {
          const strip: [number, number][][] = [
            [
              [left, -1],
              [left + 15, -1],
              [left + 15, 100],
              [left, 100],
            ],
          ];
          for (const polygon of polygonClipping.intersection(outline, strip)) {
            for (const [index, each] of polygon.entries())
              pieces += (index === 0 ? 1 : -1) * Math.abs(polygonArea(each));
          }
        }
        expectClose(inSquareFeet(asArea(outlineArea(corners))) * 144, pieces);
      }),
    );
  });
});

describe('a traverse at any angle', () => {
  it('agrees with a chain of complex numbers to a nanometre a wall', () => {
    const wall = fc.record({
      length: fc.integer({ min: 0, max: 20_000_000_000 }),
      turn: fc.integer({ min: -180_000_000, max: 180_000_000 }),
    });
    fc.assert(
      fc.property(
        fc.array(wall, { minLength: 1, maxLength: 20 }),
        fc.integer({ min: 0, max: 359_999_999 }),
        (walls, facing) => {
          const run = traverse({
            start: { x: nanometres(0), y: nanometres(0) },
            facing: facing as MicroDegrees,
            walls: walls.map((each) => ({ length: nanometres(each.length), turn: each.turn as MicroDegrees })),
          });
          let [x, y, heading] = [0, 0, facing + 90_000_000];
          for (const [index, each] of walls.entries()) {
            if (index > 0) heading += each.turn;
            x += each.length * Math.sin((heading / 1e6) * (Math.PI / 180));
            y += each.length * Math.cos((heading / 1e6) * (Math.PI / 180));
            const to = run.walls[index]?.to;
            // Each wall rounds once in the first wall's frame; turning that into plan rounds twice more.
            expect(Math.abs((to?.x ?? Number.NaN) - x)).toBeLessThanOrEqual(index + 3);
            expect(Math.abs((to?.y ?? Number.NaN) - y)).toBeLessThanOrEqual(index + 3);
          }
        },
      ),
    );
  });
});

/**
 * A worked class example of six courses ("Sample Traverse Computations", public on Scribd, document 279716815; the same
 * courses stand in Davis, Foote, Anderson and Mikhail, Surveying: Theory and Practice, from memory). Feet.
 */
describe('a published traverse', () => {
  const courses = [
    { bearing: 5 + 30 / 60, distance: 495.85 },
    { bearing: 46 + 2 / 60, distance: 850.62 },
    { bearing: 180 - (67 + 38 / 60), distance: 855.45 },
    { bearing: 180 - (12 + 25 / 60), distance: 1020.87 },
    { bearing: 180 + (83 + 44 / 60), distance: 1117.26 },
    { bearing: 360 - (55 + 9 / 60), distance: 660.08 },
  ];
  const run = traverse({
    start: { x: nanometres(0), y: nanometres(0) },
    facing: degrees((courses[0]?.bearing ?? 0) - 90),
    walls: courses.map((course, index) => ({
      length: feet(course.distance),
      turn: degrees(course.bearing - (courses[index - 1]?.bearing ?? 0)),
    })),
  });

  it.each([
    [0, 47.5251, 493.5672],
    [1, 612.2285, 590.5342],
    [2, 791.0924, -325.5265],
    [3, 219.5069, -996.9916],
    [4, -1110.584, -121.9557],
    [5, -541.6952, 377.1895],
  ])('has departure and latitude of course %i', (index, departure, latitude) => {
    const course = run.walls[index];
    if (!course?.from || !course.to) throw new Error('every course has its ends');
    expect(inFeet(nanometres(course.to.x - course.from.x))).toBeCloseTo(departure, 3);
    expect(inFeet(nanometres(course.to.y - course.from.y))).toBeCloseTo(latitude, 3);
  });

  it('has the closing error that the example states', () => {
    if (!run.closing) throw new Error('every length is known');
    expect(inFeet(run.closing.dx)).toBeCloseTo(18.0737, 3);
    expect(inFeet(run.closing.dy)).toBeCloseTo(16.8171, 3);
    expect(inFeet(run.closing.length)).toBeCloseTo(24.6876, 3);
    // 5000.13 ft / 24.6876 ft = 202.5; the example states it rounded, 1/200.
    expect(run.closing.ratio).toBe(203);
    expect(run.winding).toBe('clockwise');
  });

  it('has the area that the example finds by double meridian distances after its adjustment', () => {
    const balanced = [
      [491.8995, 45.7328],
      [587.6733, 609.1538],
      [-328.4036, 788.0003],
      [-1000.4252, 215.8168],
      [-125.7134, -1114.6225],
      [374.9694, -544.0812],
    ] as const;
    let [north, east] = [0, 0];
    const corners = balanced.map(([latitude, departure]): Point => {
      north += latitude;
      east += departure;
      return { x: feet(east), y: feet(north) };
    });
    // Its corners are printed to four decimals: half of the last one along 5000 ft is 0.25 sq ft.
    expect(Math.abs(inSquareFeet(asArea(outlineArea(corners))) - 1_715_250.0494)).toBeLessThan(0.25);
  });
});
