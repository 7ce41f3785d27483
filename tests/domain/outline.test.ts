import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { MicroDegrees } from '../../language/domain/model/layout.ts';
import { degrees } from '../../language/domain/model/layout.ts';
import type { Adjusted, TraverseInput } from '../../language/domain/model/outline.ts';
import {
  adjustByLength,
  asArea,
  distanceBetween,
  doubledArea,
  lengthThatCloses,
  offsetOutline,
  outlineArea,
  perimeter,
  traverse,
} from '../../language/domain/model/outline.ts';
import { inSquareFeet } from '../../language/domain/units/area.ts';
import { formatExactStation, formatLength } from '../../language/domain/units/format-length.ts';
import type { Length } from '../../language/domain/units/length.ts';
import { feet, inches, millimetre, nanometres, sixteenth, zero } from '../../language/domain/units/length.ts';
import { demoAdjusted, demoHouse, demoTaped, length, point, rectilinearCorners, wallsOf } from '../support/outlines.ts';

const inFeetAndInches = (lengths: readonly Length[]): string[] =>
  lengths.map((each) => formatExactStation(each, 'feet-inches'));

function corners(input: TraverseInput) {
  const found = traverse(input).corners;
  if (!found) throw new Error('an outline without corners');
  return found;
}

function adjusted(input: TraverseInput, options: Parameters<typeof adjustByLength>[1]): Adjusted {
  const result = adjustByLength(input, options);
  if (result.kind !== 'adjusted') throw new Error(result.reason);
  return result;
}

describe('the outline of the demo house', () => {
  it('has the corners that its walls lead to', () => {
    expect(corners(demoHouse(demoAdjusted))).toEqual([
      point(`0"`, `36'-4"`),
      point(`34'-3"`, `36'-4"`),
      point(`34'-3"`, `24'-1"`),
      point(`28'-2"`, `24'-1"`),
      point(`28'-2"`, `0"`),
      point(`0"`, `0"`),
    ]);
  });

  it('closes with the adjusted lengths, clockwise, with its area, perimeter and diagonal', () => {
    const house = traverse(demoHouse(demoAdjusted));
    expect(house.closing).toEqual({ dx: 0, dy: 0, length: 0, ratio: undefined, closes: true });
    expect(house.winding).toBe('clockwise');
    expect(house.rightAngled).toBe(true);
    const outline = corners(demoHouse(demoAdjusted));
    expect(inSquareFeet(asArea(outlineArea(outline))).toFixed(1)).toBe('1097.9');
    expect(formatLength(perimeter(outline), 'feet-inches')).toBe(`141'-2"`);
    expect(formatLength(perimeter(outline), 'metric')).toBe('43028 mm');
    const diagonal = distanceBetween(point(`0"`, `0"`), point(`28'-2"`, `36'-4"`));
    expect(formatLength(diagonal, 'feet-inches')).toBe(`45'-11 11/16"`);
  });

  it('misses by 3/8 in each way as it was taped: 0.53 in, 1:3195', () => {
    const { closing } = traverse(demoHouse(demoTaped));
    expect(closing).toMatchObject({ dx: length(`3/8"`), dy: length(`3/8"`), ratio: 3195, closes: false });
    expect(((closing?.length ?? 0) / inches(1)).toFixed(2)).toBe('0.53');
  });

  it('closes when the error is spread by length, on marks of the tape', () => {
    const spread = adjusted(demoHouse(demoTaped), { step: sixteenth });
    // x: 6 sixteenths over A, C and E by 3.0, 0.53 and 2.47; y: 6 over B, D and F by 1.01, 1.99 and 3.0.
    expect(inFeetAndInches(spread.lengths)).toEqual([
      `34'-3 1/16"`,
      `12'-3 1/16"`,
      `6'-0 13/16"`,
      `24'-1 1/8"`,
      `28'-2 1/4"`,
      `36'-4 3/16"`,
    ]);
    expect(spread.closing.closes).toBe(true);
  });

  it('keeps the walls that are fixed', () => {
    const spread = adjusted(demoHouse(demoTaped), { step: sixteenth, fixed: new Set([0, 5]) });
    // C and E take 6 sixteenths by 1.06 and 4.94, B and D by 2.02 and 3.98.
    expect(inFeetAndInches(spread.lengths)).toEqual([
      `34'-3 1/4"`,
      `12'-3 1/8"`,
      `6'-0 13/16"`,
      `24'-1 1/4"`,
      `28'-2 7/16"`,
      `36'-4 3/8"`,
    ]);
    expect(spread.closing.closes).toBe(true);
  });

  it('finds the one length that closes it', () => {
    const withoutA = demoHouse(['unknown', ...demoAdjusted.slice(1)]);
    expect(lengthThatCloses(withoutA, 0)).toBe(length(`34'-3"`));
    expect(lengthThatCloses(demoHouse(demoTaped), 0)).toBe(length(`34'-2 7/8"`));
    expect(lengthThatCloses(demoHouse(['unknown', 'unknown', ...demoAdjusted.slice(2)]), 0)).toBeUndefined();
    expect(lengthThatCloses(withoutA, 9)).toBeUndefined();
  });

  it('is drawn as far as lengths are known', () => {
    const house = traverse(demoHouse([...demoAdjusted.slice(0, 2), 'unknown', ...demoAdjusted.slice(3)]));
    expect(house.missing).toEqual([2]);
    expect(house.walls.map((wall) => [wall.from !== undefined, wall.to !== undefined])).toEqual([
      [true, true],
      [true, true],
      [true, false],
      [false, false],
      [false, false],
      [false, false],
    ]);
    expect(house.corners).toBeUndefined();
    expect(house.closing).toBeUndefined();
    expect(house.winding).toBeUndefined();
    expect(adjustByLength(demoHouse(['unknown', ...demoAdjusted.slice(1)]), { step: sixteenth })).toEqual({
      kind: 'cannot-adjust',
      reason: 'a wall has no length yet',
    });
  });

  it('has an inside face of its own', () => {
    const thick = demoAdjusted.map(() => inches(6));
    expect(offsetOutline(corners(demoHouse(demoAdjusted)), thick)).toEqual([
      point(`6"`, `35'-10"`),
      point(`33'-9"`, `35'-10"`),
      point(`33'-9"`, `24'-7"`),
      point(`27'-8"`, `24'-7"`),
      point(`27'-8"`, `6"`),
      point(`6"`, `6"`),
    ]);
  });
});

describe('a traverse', () => {
  it('runs to the right of what the first wall faces', () => {
    const to = (facing: number) =>
      traverse({ start: point('0', '0'), facing: degrees(facing), walls: [{ length: feet(10), turn: degrees(90) }] })
        .walls[0];
    expect(to(0)).toMatchObject({ to: point(`10'`, '0'), heading: degrees(90) });
    expect(to(90)).toMatchObject({ to: point('0', `-10'`), heading: degrees(180) });
    expect(to(180)).toMatchObject({ to: point(`-10'`, '0'), heading: degrees(270) });
    expect(to(270)).toMatchObject({ to: point('0', `10'`), heading: degrees(0) });
    expect(to(-90)).toMatchObject({ to: point('0', `10'`), heading: degrees(0) });
    // Facing 350°, the wall runs 80° from north.
    const skewed = to(350);
    expect(skewed?.heading).toBe(degrees(80));
    expect(skewed?.to?.x).toBe(Math.round(feet(10) * Math.sin((80 * Math.PI) / 180)));
    expect(skewed?.to?.y).toBe(Math.round(feet(10) * Math.cos((80 * Math.PI) / 180)));
  });

  it('takes no notice of the first wall`s own turn, which belongs to the last corner', () => {
    const house = demoHouse(demoAdjusted);
    const other = {
      ...house,
      walls: house.walls.map((wall, index) => (index === 0 ? { ...wall, turn: degrees(0) } : wall)),
    };
    expect(traverse(other)).toEqual(traverse(house));
  });

  it('says when the outline was walked the other way', () => {
    const walls = demoHouse(demoAdjusted).walls.map((wall) => ({ ...wall, turn: degrees(-90) }));
    const box = {
      start: point('0', '0'),
      facing: degrees(180),
      walls: walls.slice(0, 4).map((wall) => ({ ...wall, length: feet(10) })),
    };
    expect(traverse(box).winding).toBe('counter-clockwise');
    expect(doubledArea(corners(box))).toBe(2n * BigInt(feet(10)) * BigInt(feet(10)));
  });

  it('is exact in right angles whatever the house faces', () => {
    fc.assert(
      fc.property(
        rectilinearCorners(sixteenth),
        fc.integer({ min: -400_000_000, max: 400_000_000 }),
        (outline, facing) => {
          const square = wallsOf(outline);
          expect(traverse(square).corners).toEqual(outline);
          const turned = traverse({ ...square, facing: facing as MicroDegrees });
          expect(turned.closing).toMatchObject({ dx: 0, dy: 0, closes: true, ratio: undefined });
          expect(turned.rightAngled).toBe(true);
          expect(turned.winding).toBe('clockwise');
        },
      ),
    );
  });

  it('closes exactly at any angle where opposite walls are alike', () => {
    const wall = fc.record({
      long: fc.integer({ min: 1_000_000, max: 10_000_000_000 }),
      angle: fc.integer({ min: 1, max: 179_999_999 }),
    });
    fc.assert(
      fc.property(
        fc.array(wall, { minLength: 2, maxLength: 6 }),
        fc.integer({ min: 0, max: 359_999_999 }),
        (sides, facing) => {
          const half = sides.toSorted((a, b) => a.angle - b.angle);
          const headings = [...half.map((side) => side.angle), ...half.map((side) => side.angle + 180_000_000)];
          const walls = headings.map((heading, index) => ({
            length: nanometres(half[index % half.length]?.long ?? 0),
            turn: (heading - (headings[index - 1] ?? heading)) as MicroDegrees,
          }));
          const { closing } = traverse({ start: point('0', '0'), facing: facing as MicroDegrees, walls });
          expect(closing).toMatchObject({ dx: 0, dy: 0, closes: true });
        },
      ),
    );
  });

  it('answers for no walls, for walls without length, and for walls off the map', () => {
    const nothing = traverse({ start: point('0', '0'), facing: degrees(0), walls: [] });
    expect(nothing).toMatchObject({ walls: [], corners: undefined, closing: undefined, missing: [] });
    const pointlike = traverse({
      start: point('0', '0'),
      facing: degrees(0),
      walls: [{ length: zero, turn: degrees(90) }],
    });
    expect(pointlike).toMatchObject({ winding: undefined, closing: { length: 0, closes: true } });
    const far = { length: nanometres(Number.MAX_SAFE_INTEGER), turn: degrees(90) };
    const lost = { start: point('0', '0'), facing: degrees(10), walls: [far, far, far] };
    expect(traverse(lost)).toMatchObject({ corners: undefined, closing: undefined, missing: [] });
    expect(adjustByLength(lost, { step: sixteenth })).toMatchObject({ kind: 'cannot-adjust' });
    expect(adjustByLength({ ...lost, walls: [] }, { step: sixteenth })).toMatchObject({ kind: 'cannot-adjust' });
  });
});

describe('spreading the closing error by length', () => {
  /** A right-angled outline whose walls were each misread by up to `most` steps. */
  const misread = (step: Length, most: number) =>
    rectilinearCorners(nanometres(step * 16)).chain((outline) => {
      const true_ = wallsOf(outline);
      const errors = fc.array(fc.integer({ min: -most, max: most }), {
        minLength: outline.length,
        maxLength: outline.length,
      });
      return errors.map((slips) => ({
        ...true_,
        walls: true_.walls.map((wall, index) => ({
          ...wall,
          length: nanometres((wall.length ?? 0) + (slips[index] ?? 0) * step),
        })),
      }));
    });

  for (const [name, step] of [
    ['1/16 in', sixteenth],
    ['1 mm', millimetre],
  ] as const) {
    it(`closes a right-angled outline exactly on marks of ${name}, each wall within a mark of its share`, () => {
      fc.assert(
        fc.property(misread(step, 8), (input) => {
          const { closing } = traverse(input);
          const spread = adjusted(input, { step });
          expect(spread.closing).toMatchObject({ dx: 0, dy: 0, closes: true });
          const headings = traverse(input).walls.map((wall) => wall.heading / 90_000_000);
          for (const [index, { length: taped }] of input.walls.entries()) {
            const heading = headings[index] ?? 0;
            const sameWay = input.walls.filter((_, at) => (headings[at] ?? 0) % 2 === heading % 2);
            const total = sameWay.reduce((sum, wall) => sum + (wall.length ?? 0), 0);
            const error = heading % 2 === 1 ? (closing?.dx ?? 0) : (closing?.dy ?? 0);
            const sign = heading === 0 || heading === 1 ? 1 : -1;
            const ideal = (taped ?? 0) - (sign * error * (taped ?? 0)) / total;
            const now = spread.lengths[index] ?? 0;
            expect(now % step).toBe(0);
            expect(Math.abs(now - ideal)).toBeLessThan(step);
          }
        }),
      );
    });
  }

  it('leaves fixed walls alone, and closes if each direction has a wall that may change', () => {
    fc.assert(
      fc.property(misread(sixteenth, 8), fc.infiniteStream(fc.boolean()), (input, choices) => {
        const headings = traverse(input).walls.map((wall) => wall.heading);
        const free = new Set(
          [0, 90].map((axis) => headings.findIndex((heading) => heading % 180_000_000 === axis * 1_000_000)),
        );
        const fixed = new Set([...input.walls.keys()].filter((index) => !free.has(index) && choices.next().value));
        const result = adjustByLength(input, { step: sixteenth, fixed });
        if (result.kind !== 'adjusted') throw new Error(result.reason);
        for (const index of fixed) expect(result.lengths[index]).toBe(input.walls[index]?.length);
        expect(result.closing.closes).toBe(true);
      }),
    );
  });

  it('closes exactly even where a fixed wall is on no mark, and puts the odd rest on one wall of its direction', () => {
    const odd = demoHouse([`10440.5 mm`, ...demoTaped.slice(1)]);
    const spread = adjusted(odd, { step: sixteenth, fixed: new Set([0]) });
    expect(spread.closing.closes).toBe(true);
    const offMarks = spread.lengths.flatMap((each, index) => (each % sixteenth === 0 ? [] : [index]));
    // A as it was fixed; E is the longest wall that runs against it.
    expect(offMarks).toEqual([0, 4]);
  });

  it('changes nothing where nothing is wrong', () => {
    fc.assert(
      fc.property(rectilinearCorners(millimetre), (outline) => {
        const input = wallsOf(outline);
        expect(adjusted(input, { step: sixteenth }).lengths).toEqual(input.walls.map((wall) => wall.length));
      }),
    );
    const spread = adjusted(demoHouse(demoTaped), { step: sixteenth });
    const again = {
      ...demoHouse(demoTaped),
      walls: demoHouse(demoTaped).walls.map((wall, at) => ({ ...wall, length: spread.lengths[at] })),
    };
    expect(adjusted(again, { step: sixteenth }).lengths).toEqual(spread.lengths);
  });

  it('refuses what spreading cannot mend', () => {
    const fixed = new Set([0, 2, 4]);
    expect(adjustByLength(demoHouse(demoTaped), { step: sixteenth, fixed })).toEqual({
      kind: 'cannot-adjust',
      reason: 'every wall that runs that way is kept',
    });
    // C turned the wrong way: the error is twice its length, and B, D, F cannot mend x.
    const house = demoHouse(demoTaped);
    const oneWay = { ...house, walls: house.walls.slice(0, 1) };
    expect(adjustByLength(oneWay, { step: sixteenth })).toMatchObject({ kind: 'cannot-adjust' });
  });

  it('on walls at an angle agrees with an independent least-squares solution to a mark, and closes to two marks', () => {
    const side = fc.record({ long: fc.integer({ min: 100, max: 400 }), slip: fc.integer({ min: -8, max: 8 }) });
    fc.assert(
      fc.property(fc.array(side, { minLength: 3, maxLength: 4 }), fc.integer({ min: 20, max: 70 }), (sides, angle) => {
        const half = sides
          .map((each, index) => ({ ...each, heading: (angle + index * 37) % 180 }))
          .toSorted((a, b) => a.heading - b.heading);
        const all = [...half, ...half.map((each) => ({ ...each, heading: each.heading + 180, slip: -each.slip }))];
        const walls = all.map((each, index) => ({
          length: nanometres((each.long * 16 + each.slip) * sixteenth),
          turn: degrees(each.heading - (all[index - 1]?.heading ?? each.heading)),
        }));
        const input = { start: point('0', '0'), facing: degrees(0), walls };
        const taped = traverse(input);
        if (taped.closing?.closes) return;
        const spread = adjusted(input, { step: sixteenth });
        const ideal = leastSquares(
          walls.map((wall) => wall.length),
          taped.walls.map((wall) => wall.heading / 1_000_000),
        );
        for (const [index, expected] of ideal.entries()) {
          expect(Math.abs((spread.lengths[index] ?? 0) - expected)).toBeLessThan(sixteenth + 10);
          expect((spread.lengths[index] ?? 0) % sixteenth).toBe(0);
        }
        expect(spread.closing.length).toBeLessThanOrEqual(2 * sixteenth);
      }),
    );
  });

  /** Least sum of (change² / length) that closes: Kaczmarz's projections, which share no formula with the code. */
  function leastSquares(lengths: readonly number[], headings: readonly number[]): number[] {
    const rows = [Math.sin, Math.cos].map((axis) =>
      headings.map((heading, at) => axis((heading * Math.PI) / 180) * Math.sqrt(lengths[at] ?? 0)),
    );
    const wanted = [Math.sin, Math.cos].map(
      (axis) => -headings.reduce((sum, heading, at) => sum + (lengths[at] ?? 0) * axis((heading * Math.PI) / 180), 0),
    );
    let changes = lengths.map(() => 0);
    for (let round = 0; round < 2000; round += 1) {
      const row = rows[round % 2] ?? [];
      const miss = (wanted[round % 2] ?? 0) - row.reduce((sum, each, at) => sum + each * (changes[at] ?? 0), 0);
      const size = row.reduce((sum, each) => sum + each * each, 0);
      changes = changes.map((change, at) => change + ((row[at] ?? 0) * miss) / size);
    }
    return lengths.map((each, at) => each + (changes[at] ?? 0) * Math.sqrt(each));
  }
});

describe('the inside face', () => {
  it('holds the area that the walls leave: less the perimeter times the thickness, and four corners back', () => {
    fc.assert(
      fc.property(rectilinearCorners(inches(1)), fc.integer({ min: 1, max: 10 }), (outline, thick) => {
        const wall = inches(thick);
        const inside = offsetOutline(
          outline,
          outline.map(() => wall),
        );
        if (!inside) throw new Error('a right-angled outline has an inside face');
        const t = BigInt(wall);
        expect(doubledArea(inside)).toBe(doubledArea(outline) + 2n * (BigInt(perimeter(outline)) * t - 4n * t * t));
      }),
    );
  });

  it('jogs where the thickness changes along one line', () => {
    const wall = [point('0', `10'`), point(`5'`, `10'`), point(`20'`, `10'`), point(`20'`, '0'), point('0', '0')];
    const thick = [inches(6), inches(8), inches(6), inches(6), inches(6)];
    expect(offsetOutline(wall, thick)).toEqual([
      point(`6"`, `9'-6"`),
      point(`5'`, `9'-6"`),
      point(`5'`, `9'-4"`),
      point(`19'-6"`, `9'-4"`),
      point(`19'-6"`, `6"`),
      point(`6"`, `6"`),
    ]);
  });

  it('is not made up for walls at an angle', () => {
    expect(
      offsetOutline([point('0', '0'), point(`5'`, `5'`), point(`9'`, '0')], [inches(6), inches(6), inches(6)]),
    ).toBeUndefined();
  });
});
