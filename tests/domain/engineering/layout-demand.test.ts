import { describe, expect, it } from 'vitest';
import { layoutDemand } from '../../../language/domain/engineering/layout-demand.ts';
import { leaningsOf, traceText } from '../../../language/domain/engineering/trace.ts';
import type { Layout } from '../../../language/domain/model/layout.ts';
import { inSquareFeet } from '../../../language/domain/units/area.ts';
import { inPounds } from '../../../language/domain/units/force.ts';
import { createProjectReader } from '../../../language/syntax/project.ts';
import { exampleHost, readLayout } from '../../support/read-layout.ts';
import { done } from './support.ts';

const plainly = { existingBuildingShare: false };
const maple = createProjectReader(exampleHost).read('maple-surveyed.sill').layout;
const square = (facts: string, more = ''): Layout =>
  readLayout(`layout "Square"
  face outside
house
  storeys 2
${facts}
wall A faces north from (0", 30'-0") length 40'-0"
wall B turn right length 30'-0"
wall C turn right length 40'-0"
wall D turn right length 30'-0"
${more}`).layout;

describe('the demand of the Maple Demo House (invented)', () => {
  const demand = layoutDemand(maple, plainly);

  it('follows from its own file: 80 psf assumed, S_DS 1.00 assumed, R 6.5, over 1,097.9 sq ft', () => {
    const shear = done(demand.baseShear);
    expect(shear.number).toBeCloseTo((0.7 * 1097.9097 * 80) / 6.5, 0);
    expect(leaningsOf(shear).map((trace) => trace.symbol)).toEqual(['S_DS', 'w']);
    expect(traceText(shear)).toContain('A = 1,098 sq ft   ground-floor area, from the outline');
  });

  it('75 percent only where it is chosen', () => {
    const reduced = done(layoutDemand(maple, { existingBuildingShare: true }).baseShear);
    expect(reduced.number / done(demand.baseShear).number).toBeCloseTo(0.75, 9);
    expect(traceText(reduced)).toContain('a stated choice of the designer');
    expect(traceText(done(demand.baseShear))).not.toContain('stated choice');
  });

  it('shows the rule of thumb beside it: 17,567 lb, 8,783 lb a line', () => {
    if ('kind' in demand.comparison) throw new Error(demand.comparison.reason);
    expect(Math.round(inPounds(demand.comparison.total.value))).toBe(17_567);
    expect(Math.round(inPounds(demand.comparison.eachLine.value))).toBe(8783);
  });

  it('goes to the lines of both directions, and closes in each', () => {
    const shear = done(demand.baseShear).number;
    const names = demand.directions.map(({ demand: each }) => done(each).lines.map((line) => line.name));
    expect(names).toEqual([
      ['bump-out-east', 'east', 'west'],
      ['north', 'bump-out-south', 'south'],
    ]);
    for (const { demand: each } of demand.directions) {
      expect(done(each).lines.reduce((sum, line) => sum + line.demand.number, 0)).toBeCloseTo(shear, 6);
    }
  });

  it('without drag struts the six feet of C take the bump-out only, and the long walls the rest', () => {
    const [, eastWest] = demand.directions;
    if (!eastWest) throw new Error('two directions');
    const force = (each: typeof eastWest.demand, name: string) =>
      done(each).lines.find((line) => line.name === name)?.demand.number ?? Number.NaN;
    expect(force(eastWest.withoutDragStruts, 'bump-out-south')).toBeLessThan(
      0.1 * force(eastWest.demand, 'bump-out-south'),
    );
    for (const name of ['north', 'south'])
      expect(force(eastWest.withoutDragStruts, name)).toBeGreaterThan(force(eastWest.demand, name));
    const sum = done(eastWest.withoutDragStruts).lines.reduce((all, line) => all + line.demand.number, 0);
    expect(sum).toBeCloseTo(done(demand.baseShear).number, 6);
  });

  it('the bump-out loads its lines with the one storey that the file states for it', () => {
    const [northSouth] = demand.directions;
    if (!northSouth) throw new Error('two directions');
    const bump = done(northSouth.demand).lines.find((line) => line.name === 'bump-out-east');
    const [ground, upper] = bump?.areas.map(inSquareFeet) ?? [];
    expect(ground).toBeCloseTo(3.0416667 * 12.25, 2);
    expect(upper ?? Number.NaN).toBeLessThan(ground ?? 0);
  });
});

describe('the demand of any house', () => {
  it('a square one: half to each side, both ways', () => {
    const { directions } = layoutDemand(square('seismic\n  coefficient 0.2\nweights\n  whole-house 80 psf'), plainly);
    for (const { demand } of directions) {
      const shares = done(demand).lines.map((line) => Math.round(line.demand.number));
      expect(shares).toEqual([9600, 9600]);
    }
    expect(directions.map(({ walls }) => [...walls.keys()])).toEqual([
      ['A', 'C'],
      ['B', 'D'],
    ]);
  });

  it('upper storeys that the walls state are cut at their stretch', () => {
    const layout = square('seismic\n  coefficient 0.2\nweights\n  whole-house 80 psf');
    const stepped: Layout = {
      ...layout,
      walls: layout.walls.map((wall) => {
        const storeys = (from: number, to: number, count: number) => ({
          stretch: { from: ((wall.length ?? 0) * from) as never, to: ((wall.length ?? 0) * to) as never },
          value: {
            kind: 'known' as const,
            value: count,
            quality: 'measured' as const,
            typed: `${count}`,
            source: wall.source,
          },
        });
        // The west half has two storeys: A runs west to east, C back.
        if (wall.name === 'A') return { ...wall, storeys: [storeys(0, 0.5, 2), storeys(0.5, 1, 1)] };
        if (wall.name === 'B') return { ...wall, storeys: [storeys(0, 1, 1)] };
        if (wall.name === 'C') return { ...wall, storeys: [storeys(0, 0.5, 1), storeys(0.5, 1, 2)] };
        return wall;
      }),
    };
    const { directions } = layoutDemand(stepped, plainly);
    const [, northSouth] = directions;
    if (!northSouth) throw new Error('two directions');
    const shares = Object.fromEntries(
      done(northSouth.demand).lines.map((line) => [line.name, Math.round(line.demand.number)]),
    );
    // 19,200 lb over 1,200 + 600 sq ft: 10.667 lb each. West: 600 + 600, east: 600.
    expect(shares).toEqual({ B: 6400, D: 12_800 });
  });

  it('without one number for the house, from the weights of its parts and a storey height that is marked as assumed', () => {
    const shear = done(
      layoutDemand(
        square('seismic\n  coefficient 0.2\nweights\n  roof 15 psf\n  floor 12 psf\n  exterior-walls 11 psf'),
        plainly,
      ).baseShear,
    );
    // Two floors and a roof of 1,200 sq ft, two storeys of 140 ft of wall 8 ft high.
    expect(shear.number).toBeCloseTo(0.2 * (1200 * 12 * 2 + 1200 * 15 + 2 * 140 * 8 * 11), 0);
    expect(leaningsOf(shear).map((trace) => trace.meaning)).toEqual(['storey height: the file has none']);
  });

  it('says what is missing, and gives no number', () => {
    const reasons = [
      square('weights\n  whole-house 80 psf'),
      square('seismic\n  coefficient 0.2'),
      square('seismic\n  coefficient 0.2\nweights\n  roof 15 psf'),
      square('seismic\n  SDS unknown\nweights\n  whole-house 80 psf'),
      readLayout('layout "Nothing"\n').layout,
      readLayout('layout "Open"\nhouse\n  storeys 1\nwall A faces north from (0", 0") length unknown\n').layout,
      readLayout(
        'layout "Tall"\nhouse\n  storeys unknown\nweights\n  whole-house 50 psf\nwall A faces north from (0", 30\'-0") length 40\'-0"\nwall B turn right length 30\'-0"\nwall C turn right length 40\'-0"\nwall D turn right length 30\'-0"\n',
      ).layout,
    ].map((layout) => {
      const { baseShear } = layoutDemand(layout, plainly);
      return baseShear.kind === 'refused' ? baseShear.reason : 'not refused';
    });
    expect(reasons).toEqual([
      'neither a seismic coefficient nor SDS is given',
      'the weight of the house is not known: no whole-house weight, and none for roof, floor, exterior-walls',
      'the weight of the house is not known: no whole-house weight, and none for floor, exterior-walls',
      'neither a seismic coefficient nor SDS is given',
      'the perimeter walls enclose no area',
      'wall A has no place in plan: its length or turn is missing',
      'the storeys over wall A are not known',
    ]);
  });
});
