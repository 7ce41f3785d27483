import fc from 'fast-check';
import polygonClipping from 'polygon-clipping';
import { describe, expect, it } from 'vitest';
import { ruleOfThumb } from '../../../language/domain/engineering/demand/rule-of-thumb.ts';
import type { TributaryCase, TributaryLine } from '../../../language/domain/engineering/demand/tributary.ts';
import { resistingLength, tributaryDemand, wallForces } from '../../../language/domain/engineering/demand/tributary.ts';
import type { Outline } from '../../../language/domain/engineering/demand/tributary-strips.ts';
import { given, traceText } from '../../../language/domain/engineering/trace.ts';
import { psf } from '../../../language/domain/engineering/trace-units.ts';
import type { Point } from '../../../language/domain/model/layout.ts';
import { asArea, outlineArea } from '../../../language/domain/model/outline.ts';
import { inSquareFeet, inSquareMetres } from '../../../language/domain/units/area.ts';
import { inPounds, pounds } from '../../../language/domain/units/force.ts';
import { feet, nanometres } from '../../../language/domain/units/length.ts';
import { poundsPerSquareFoot } from '../../../language/domain/units/stress.ts';
import { done } from './support.ts';

const at = (x: number, y: number): Point => ({ x: feet(x), y: feet(y) });
const line = (
  name: string,
  through: Point,
  ...walls: readonly { readonly length: number; readonly angle?: number }[]
): TributaryLine => ({
  name,
  through,
  walls: walls.map((wall, index) => ({
    name: `${name}${index + 1}`,
    length: feet(wall.length),
    angleFromLine: wall.angle ?? 0,
  })),
});
const rectangle = (wide: number, deep: number): Outline => [at(0, 0), at(wide, 0), at(wide, deep), at(0, deep)];
const perLine = (trib: TributaryCase) =>
  Object.fromEntries(done(tributaryDemand(trib)).lines.map((each) => [each.name, inPounds(each.demand.value)]));

describe('tributary area', () => {
  it('two lines at the sides of a rectangle take half each', () => {
    const shares = perLine({
      direction: 0,
      lines: [line('south', at(0, 0), { length: 40 }), line('north', at(0, 30), { length: 40 })],
      levels: [{ name: 'roof', force: pounds(10_000), outlines: [rectangle(40, 30)] }],
    });
    expect(shares).toEqual({ south: expect.closeTo(5000, 6), north: expect.closeTo(5000, 6) });
  });

  it('a middle line takes what lies halfway to its neighbours, whatever the order of the lines', () => {
    const lines = [
      line('north', at(0, 30), { length: 40 }),
      line('south', at(0, 0), { length: 40 }),
      line('middle', at(0, 12), { length: 20 }),
    ];
    const shares = perLine({
      direction: 0,
      lines,
      levels: [{ name: 'roof', force: pounds(30_000), outlines: [rectangle(40, 30)] }],
    });
    expect(shares).toEqual({
      south: expect.closeTo(6000, 6),
      middle: expect.closeTo(15_000, 6),
      north: expect.closeTo(9000, 6),
    });
  });

  it('lines at one place share by resisting length', () => {
    const lines = [
      line('A', at(0, 0), { length: 30 }),
      line('B', at(35, 0), { length: 10 }),
      line('C', at(0, 30), { length: 40 }),
    ];
    const shares = perLine({
      direction: 0,
      lines,
      levels: [{ name: 'roof', force: pounds(8000), outlines: [rectangle(40, 30)] }],
    });
    expect(shares).toEqual({ A: expect.closeTo(3000, 6), B: expect.closeTo(1000, 6), C: expect.closeTo(4000, 6) });
  });

  it('a one-storey bump-out loads its line with one storey', () => {
    const main = [at(0, 0), at(30, 0), at(30, 40), at(0, 40)];
    const withBump = [at(0, 0), at(30, 0), at(30, 20), at(40, 20), at(40, 40), at(0, 40)];
    const lines = [
      line('west', at(0, 0), { length: 40 }),
      line('east', at(30, 0), { length: 20 }),
      line('bump', at(40, 20), { length: 20 }),
    ];
    const { lines: demands } = done(
      tributaryDemand({
        direction: 90,
        lines,
        levels: [
          { name: 'first floor', force: pounds(14_000), outlines: [withBump] },
          { name: 'roof', force: pounds(12_000), outlines: [main] },
        ],
      }),
    );
    const areas = Object.fromEntries(
      demands.map((each) => [each.name, each.areas.map((area) => Math.round(inSquareFeet(area)))]),
    );
    expect(areas).toEqual({ west: [600, 600], east: [700, 600], bump: [100, 0] });
    expect(inPounds(demands[2]?.demand.value ?? pounds(0))).toBeCloseTo(1000, 6);
  });

  it('a short line between long ones takes the whole width only if something drags the force there', () => {
    // South wall 40 ft, north wall 40 ft, a 10 ft line in the middle at the east end.
    const lines = [
      line('south', at(0, 0), { length: 40 }),
      line('short', at(30, 15), { length: 10 }),
      line('north', at(0, 30), { length: 40 }),
    ];
    const levels = [{ name: 'roof', force: pounds(12_000), outlines: [rectangle(40, 30)] }];
    expect(perLine({ direction: 0, lines, levels })).toEqual({
      south: expect.closeTo(3000, 6),
      short: expect.closeTo(6000, 6),
      north: expect.closeTo(3000, 6),
    });
    const reach = (from: number, to: number) => ({ ends: { from: at(from, 0), to: at(to, 0) } });
    const [south, short, north] = lines;
    if (!south || !short || !north) throw new Error('three lines');
    const beside = [
      { ...south, ...reach(0, 40) },
      { ...short, ...reach(40, 30) },
      { ...north, ...reach(0, 40) },
    ];
    expect(perLine({ direction: 0, lines: beside, levels })).toEqual({
      south: expect.closeTo(5250, 6),
      short: expect.closeTo(1500, 6),
      north: expect.closeTo(5250, 6),
    });
  });

  it('where no line stands beside, all of them share: nothing is lost', () => {
    const south = { ...line('south', at(0, 0), { length: 10 }), ends: { from: at(0, 0), to: at(10, 0) } };
    const north = { ...line('north', at(0, 30), { length: 10 }), ends: { from: at(0, 30), to: at(10, 30) } };
    const levels = [{ name: 'roof', force: pounds(12_000), outlines: [rectangle(40, 30)] }];
    expect(perLine({ direction: 0, lines: [south, north], levels })).toEqual({
      south: expect.closeTo(6000, 6),
      north: expect.closeTo(6000, 6),
    });
  });

  it('refuses a direction without lines and a level without area', () => {
    const levels = [{ name: 'roof', force: pounds(1), outlines: [rectangle(10, 10)] }];
    expect(tributaryDemand({ direction: 0, lines: [], levels })).toMatchObject({ kind: 'refused' });
    const flat = tributaryDemand({
      direction: 0,
      lines: [line('A', at(0, 0), { length: 1 })],
      levels: [{ name: 'attic', force: pounds(1), outlines: [[at(0, 0), at(5, 0)]] }],
    });
    expect(flat).toMatchObject({ kind: 'refused', reason: 'the outline of attic encloses no area' });
  });

  // A star-shaped outline around a centre: any number of corners, any notch, no crossing.
  const outline = fc.array(fc.double({ min: 4, max: 60, noNaN: true }), { minLength: 3, maxLength: 14 }).map(
    (reach): Outline =>
      reach.map((r, index) => {
        const angle = (2 * Math.PI * index) / reach.length;
        return { x: feet(60 + r * Math.cos(angle)), y: feet(60 + r * Math.sin(angle)) };
      }),
  );
  const anyCase = fc.record({
    direction: fc.oneof(fc.constantFrom(0, 90, 45), fc.double({ min: 0, max: 360, noNaN: true })),
    places: fc.array(
      fc.record({
        x: fc.integer({ min: 0, max: 120 }),
        y: fc.integer({ min: 0, max: 120 }),
        length: fc.integer({ min: 0, max: 40 }),
        ends: fc.boolean(),
      }),
      { minLength: 1, maxLength: 7 },
    ),
    outlines: fc.array(outline, { minLength: 1, maxLength: 3 }),
  });
  type AnyCase = typeof anyCase extends fc.Arbitrary<infer T> ? T : never;
  const caseOf = (each: AnyCase): TributaryCase => ({
    direction: each.direction,
    lines: each.places.map((place, index) => ({
      ...line(`L${index}`, at(place.x, place.y), { length: place.length }),
      ...(place.ends
        ? { ends: { from: at(place.x, place.y), to: at(place.x + place.length, place.y + place.length) } }
        : {}),
    })),
    levels: each.outlines.map((polygon, index) => ({
      name: `level ${index}`,
      force: pounds(1000 * (index + 1)),
      outlines: [polygon],
    })),
  });

  it('closes: the lines add up to the force, and the strips to the area, for any outline, lines and direction', () => {
    fc.assert(
      fc.property(anyCase, (each) => {
        const trib = caseOf(each);
        const { lines, total } = done(tributaryDemand(trib));
        const sum = lines.reduce((force, one) => force + inPounds(one.demand.value), 0);
        expect(sum).toBeCloseTo(total.number, 5);
        each.outlines.forEach((polygon, level) => {
          const area = lines.reduce((part, one) => part + inSquareMetres(one.areas[level] ?? (0 as never)), 0);
          expect(area).toBeCloseTo(inSquareMetres(asArea(outlineArea(polygon))), 6);
        });
        for (const one of lines) expect(one.demand.number).toBeGreaterThanOrEqual(-1e-9);
      }),
    );
  });

  it('agrees with a polygon library that cuts the same strips', () => {
    fc.assert(
      fc.property(outline, fc.integer({ min: 0, max: 120 }), fc.integer({ min: 1, max: 60 }), (polygon, y, apart) => {
        const lines = [
          line('a', at(0, y), { length: 1 }),
          line('b', at(0, y + apart), { length: 1 }),
          line('c', at(0, y + 3 * apart), { length: 1 }),
        ];
        const { lines: demands } = done(
          tributaryDemand({ direction: 0, lines, levels: [{ name: 'roof', force: pounds(1), outlines: [polygon] }] }),
        );
        const strip = (from: number, to: number): number => {
          const box: [number, number][] = [
            [-1e3, from],
            [1e3, from],
            [1e3, to],
            [-1e3, to],
          ];
          const ring = polygon.map((corner): [number, number] => [corner.x / 304_800_000, corner.y / 304_800_000]);
          return polygonClipping
            .intersection([ring], [box])
            .flat()
            .reduce((sum, points) => sum + Math.abs(shoelace(points)), 0);
        };
        const cuts = [-1e3, y + apart / 2, y + 2 * apart, 1e3];
        demands.forEach((demand, index) => {
          expect(inSquareFeet(demand.areas[0] ?? (0 as never))).toBeCloseTo(
            strip(cuts[index] ?? 0, cuts[index + 1] ?? 0),
            5,
          );
        });
      }),
    );
  });

  it('turning the house with its lines changes nothing', () => {
    const turn = (point: Point, degrees: number): Point => {
      const [c, s] = [Math.cos((degrees * Math.PI) / 180), Math.sin((degrees * Math.PI) / 180)];
      return {
        x: nanometres(Math.round(c * point.x - s * point.y)),
        y: nanometres(Math.round(s * point.x + c * point.y)),
      };
    };
    fc.assert(
      fc.property(anyCase, fc.double({ min: 0, max: 180, noNaN: true }), (each, degrees) => {
        const straight = caseOf({ ...each, direction: 0 });
        // Lines that nearly coincide may fall on either side of "the same place" once rounded.
        fc.pre(new Set(straight.lines.map((one) => one.through.y)).size === straight.lines.length);
        const turned: TributaryCase = {
          direction: degrees,
          lines: straight.lines.map((one) => ({
            ...one,
            through: turn(one.through, degrees),
            ...(one.ends ? { ends: { from: turn(one.ends.from, degrees), to: turn(one.ends.to, degrees) } } : {}),
          })),
          levels: straight.levels.map((level) => ({
            ...level,
            outlines: level.outlines.map((polygon) => polygon.map((corner) => turn(corner, degrees))),
          })),
        };
        const [before, after] = [perLine(straight), perLine(turned)];
        for (const name of Object.keys(before)) expect(after[name]).toBeCloseTo(before[name] ?? Number.NaN, 3);
      }),
    );
  });
});

function shoelace(points: readonly (readonly [number, number])[]): number {
  return points.reduce((sum, [x, y], index) => {
    const [nextX, nextY] = points[(index + 1) % points.length] ?? [x, y];
    return sum + (x * nextY - nextX * y) / 2;
  }, 0);
}

describe('a wall at an angle', () => {
  it('counts by the cosine: 10 ft at 60 degrees is 5 ft of line', () => {
    expect(resistingLength(line('bay', at(0, 0), { length: 10, angle: 60 }, { length: 6 }).walls).number).toBeCloseTo(
      11,
      9,
    );
    expect(resistingLength(line('cross', at(0, 0), { length: 10, angle: 90 }).walls).number).toBeCloseTo(0, 9);
  });

  it('the walls’ forces along the line add up to the line’s force', () => {
    const wall = fc.record({
      length: fc.double({ min: 1, max: 40, noNaN: true }),
      angle: fc.double({ min: -80, max: 80, noNaN: true }),
    });
    fc.assert(
      fc.property(fc.array(wall, { minLength: 1, maxLength: 5 }), (walls) => {
        const { walls: placed } = line('A', at(0, 0), ...walls);
        const forces = wallForces(pounds(9000), placed);
        if ('kind' in forces) throw new Error(forces.reason);
        const along = forces.reduce(
          (sum, force, index) => sum + force.number * Math.cos(((walls[index]?.angle ?? 0) * Math.PI) / 180),
          0,
        );
        expect(along).toBeCloseTo(9000, 4);
      }),
    );
    expect(wallForces(pounds(1), [])).toMatchObject({ kind: 'refused' });
  });
});

// The demo house: invented. Corners from its taped and closed walls, lines as its survey names them.
describe('the Maple Demo House', () => {
  const ftIn = (f: number, i: number) => feet(f + i / 12);
  const corner = (x: readonly [number, number], y: readonly [number, number]): Point => ({
    x: ftIn(...x),
    y: ftIn(...y),
  });
  const outline: Outline = [
    corner([0, 0], [36, 4]),
    corner([34, 3], [36, 4]),
    corner([34, 3], [24, 1]),
    corner([28, 2], [24, 1]),
    corner([28, 2], [0, 0]),
    corner([0, 0], [0, 0]),
  ];
  const area = asArea(outlineArea(outline));

  it('covers 1,097.9 sq ft', () => {
    expect(inSquareFeet(area)).toBeCloseTo(1097.9, 1);
  });

  it('by the contractor’s rule of thumb: 0.2 × 80 psf × 1,097.9 sq ft = 17,567 lb, 8,783 lb a line, labelled as a comparison', () => {
    const weight = given('w', 'weight', psf, poundsPerSquareFoot(80), { quality: 'assumed' });
    const thumb = ruleOfThumb(0.2, weight, area);
    expect(Math.round(inPounds(thumb.total.value))).toBe(17_567);
    expect(Math.round(inPounds(thumb.eachLine.value))).toBe(8783);
    expect(thumb.label).toContain('comparison only');
    expect(traceText(thumb.eachLine)).toContain('V = c × w × A = 0.2 × 80 × 1,098 = 17,567 lb');
    expect(traceText(thumb.eachLine)).toContain('common practice, no source');
  });

  it('by tributary area the bump-out carries its own weight, and the lines still add up', () => {
    const force = ruleOfThumb(0.2, poundsPerSquareFoot(80), area).total;
    const levels = [{ name: 'house', force, outlines: [outline] }];
    const northSouth = perLine({
      direction: 90,
      lines: [
        line('F', at(0, 0), { length: 36.33 }),
        { ...line('D', at(0, 0), { length: 24.08 }), through: corner([28, 2], [0, 0]) },
        { ...line('B', at(0, 0), { length: 12.25 }), through: corner([34, 3], [24, 1]) },
      ],
      levels,
    });
    // By hand, sq ft: F 14.0833 × 36.3333; B (34.25 - 31.2083) × 12.25; D the rest; 16 lb each.
    expect(northSouth.F).toBeCloseTo(14.083333 * 36.333333 * 16, 1);
    expect(northSouth.B).toBeCloseTo(3.0416667 * 12.25 * 16, 1);
    expect(northSouth.D).toBeCloseTo((1097.909722 - 14.083333 * 36.333333 - 3.0416667 * 12.25) * 16, 1);
    expect(Object.values(northSouth).reduce((sum, each) => sum + each, 0)).toBeCloseTo(17_566.56, 1);
  });
});
