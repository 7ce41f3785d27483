import { storeysOver } from '../fit/storeys.ts';
import type { Layout, Point, ResistanceLine, Wall } from '../model/layout.ts';
import { asArea, distanceBetween, outlineArea, perimeter } from '../model/outline.ts';
import type { Known, Reading } from '../model/reading.ts';
import type { Area } from '../units/area.ts';
import type { Force } from '../units/force.ts';
import type { Length } from '../units/length.ts';
import { feet, nanometres, zero } from '../units/length.ts';
import type { Quantity } from '../units/quantity.ts';
import type { Stress } from '../units/stress.ts';
import { poundsPerSquareFoot, stressOf } from '../units/stress.ts';
import { baseShear, existingBuildingShear, responseCoefficient, woodPanelSystem } from './demand/base-shear.ts';
import { allowableForce } from './demand/load-combinations.ts';
import type { RuleOfThumb } from './demand/rule-of-thumb.ts';
import { ruleOfThumb } from './demand/rule-of-thumb.ts';
import { seismicWeights, totalWeight, wholeHouseWeight } from './demand/seismic-weight.ts';
import type { LineWall, TributaryDemand, TributaryLevel, TributaryLine } from './demand/tributary.ts';
import { tributaryDemand, wallForces } from './demand/tributary.ts';
import { formula } from './formula.ts';
import { section } from './publications.ts';
import type { Outcome, Refused, Traced } from './trace.ts';
import { computed, fromTable, given, isRefused, refused } from './trace.ts';
import { acceleration, factor, foot, pound, psf, squareFoot } from './trace-units.ts';

export interface DemandChoices {
  /** Take 75 percent of the new-building base shear, as the existing-house chapter lets an engineered alternative do. */
  readonly existingBuildingShare: boolean;
}

export interface LayoutDemand {
  /** Whole house, allowable-stress level. */
  readonly baseShear: Outcome<Force>;
  /** Two at right angles; a direction in which no line runs is refused. */
  readonly directions: readonly DirectionDemand[];
  /** Shown beside the worked demand, never instead of it. */
  readonly comparison: RuleOfThumb | Refused;
}
export interface DirectionDemand {
  /** Of the lines and the force, degrees from east. */
  readonly degrees: number;
  /** Each line takes its strip across the whole width: something must drag the force to a short one. */
  readonly demand: TributaryDemand | Refused;
  /** The same force where nothing does: each line takes what lies beside itself. The larger of the two counts. */
  readonly withoutDragStruts: TributaryDemand | Refused;
  /** By line: the force of `demand` along each of its walls, in the order of its walls. */
  readonly walls: ReadonlyMap<string, readonly Traced<Force>[] | Refused>;
}

/**
 * Earthquake demand of a house from its file: weight from the outline and the weights that it states, base shear from its
 * coefficient or from S_DS and R, shares of the lines by tributary area, storey by storey. What is missing is refused with
 * its name; what is assumed stays marked in the traces.
 */
export function layoutDemand(layout: Layout, choices: DemandChoices): LayoutDemand {
  const house = readHouse(layout);
  if (isRefused(house)) return { baseShear: house, directions: [], comparison: house };
  const shear = shearOf(layout, house, choices);
  return {
    baseShear: shear,
    directions: isRefused(shear) ? [] : directionsOf(layout, house, shear),
    comparison: comparisonOf(layout, house),
  };
}

/** The base shear alone. The lines share it by the plan, whatever the house weighs: their shares need no second look. */
export function houseBaseShear(layout: Layout, choices: DemandChoices): Outcome<Force> {
  const house = readHouse(layout);
  return isRefused(house) ? house : shearOf(layout, house, choices);
}

/** What all of it starts from: the closed outline and how many storeys stand over each part of it. */
interface HousePlan {
  readonly walls: readonly PlacedWall[];
  readonly area: Area;
  readonly around: Length;
  /** The ground floor first; each upper storey by its own outline. */
  readonly outlines: readonly (readonly Point[])[];
}
interface PlacedWall {
  readonly wall: Wall;
  readonly from: Point;
  readonly to: Point;
}

function readHouse(layout: Layout): HousePlan | Refused {
  const walls: PlacedWall[] = [];
  for (const wall of layout.walls.filter((each) => each.role === 'perimeter')) {
    if (!wall.plan) return refused(`wall ${wall.name} has no place in plan: its length or turn is missing`);
    walls.push({ wall, ...wall.plan });
  }
  const corners = walls.map((each) => each.from);
  const area = asArea(outlineArea(corners));
  if (!(area > 0)) return refused('the perimeter walls enclose no area');
  const outlines = storeyOutlines(layout, walls);
  return isRefused(outlines) ? outlines : { walls, area, around: perimeter(corners), outlines };
}

/** Perimeter stretches with at least so many storeys, joined straight where lower parts lie between them. */
function storeyOutlines(layout: Layout, walls: readonly PlacedWall[]): HousePlan['outlines'] | Refused {
  const stretches: { readonly storeys: number; readonly from: Point; readonly to: Point }[] = [];
  for (const { wall, from, to } of walls) {
    const length = wall.length ?? zero;
    const marks = [zero, ...wall.storeys.flatMap((each) => [each.stretch.from, each.stretch.to]), length]
      .filter((station) => station >= zero && station <= length)
      .toSorted((a, b) => a - b);
    for (const [index, start] of marks.entries()) {
      const end = marks[index + 1];
      if (end === undefined || end === start) continue;
      const middle = nanometres(Math.floor((start + end) / 2));
      const [above] = storeysOver(layout, wall, { from: middle, to: middle });
      const storeys = known(above)?.value;
      if (storeys === undefined) return refused(`the storeys over wall ${wall.name} are not known`);
      stretches.push({ storeys, from: between(from, to, start, length), to: between(from, to, end, length) });
    }
  }
  const most = Math.max(1, ...stretches.map((stretch) => Math.floor(stretch.storeys)));
  const ground = walls.map((each) => each.from);
  const upper = Array.from({ length: Math.min(most, MOST_STOREYS) - 1 }, (_, index) =>
    stretches.filter((stretch) => stretch.storeys >= index + 2).flatMap((stretch) => [stretch.from, stretch.to]),
  );
  return [ground, ...upper.filter((corners) => outlineArea(corners) > 0n)];
}
/** No wood house stands higher; a slip of the keyboard shall not cost time. */
const MOST_STOREYS = 6;

function between(from: Point, to: Point, station: Length, length: Length): Point {
  const at = (a: Length, b: Length): Length => nanometres(Math.round(a + ((b - a) * station) / length));
  return { x: at(from.x, to.x), y: at(from.y, to.y) };
}

function shearOf(layout: Layout, house: HousePlan, choices: DemandChoices): Outcome<Force> {
  const weight = weightOf(layout, house);
  if (isRefused(weight)) return weight;
  const coefficient = known(layout.house.seismic.get('coefficient'));
  if (coefficient) {
    const c = given('c', 'seismic coefficient, allowable-stress level', factor, coefficient.value.amount, {
      quality: coefficient.quality,
    });
    return computed(
      'V',
      'base shear, allowable-stress level',
      pound,
      formula('c * W'),
      [c, weight],
      section('common practice', '', 'common-practice'),
    );
  }
  const SDS = known(layout.house.seismic.get('SDS'));
  if (!SDS) return refused('neither a seismic coefficient nor SDS is given');
  const R = known(layout.house.seismic.get('R'));
  const importance = known(layout.house.seismic.get('importance'));
  const { fromSDS } = responseCoefficient({
    SDS: given('S_DS', 'design acceleration, short period', acceleration, SDS.value.amount, { quality: SDS.quality }),
    // A low wood house is too stiff for the upper limits of C_s; they are left out by an S_D1 without end.
    SD1: Number.MAX_VALUE,
    period: 0.5,
    longPeriod: 1,
    R: R
      ? given('R', 'response modification coefficient', factor, R.value.amount, { quality: R.quality })
      : fromTable(
          'R',
          'wood panel bearing walls',
          factor,
          woodPanelSystem.R,
          section('ASCE 7-16', 'Table 12.2-1, A.15', 'published'),
        ),
    importance: importance
      ? given('I_e', 'importance factor', factor, importance.value.amount, { quality: importance.quality })
      : 1,
  });
  const strength = baseShear(fromSDS, weight);
  return allowableForce(choices.existingBuildingShare ? existingBuildingShear(strength) : strength, 1);
}

function weightOf(layout: Layout, house: HousePlan): Outcome<Force> {
  const area = given('A', 'ground-floor area, from the outline', squareFoot, house.area);
  const whole = pressure(layout, 'whole-house', 'w', 'weight of the house per square foot of ground floor');
  if (whole) return wholeHouseWeight(area, whole);
  const missing = ['roof', 'floor', 'exterior-walls'].filter((part) => !pressure(layout, part, 'w', part));
  if (missing.length > 0)
    return refused(`the weight of the house is not known: no whole-house weight, and none for ${missing.join(', ')}`);
  const part = (key: string): Traced<Stress> =>
    pressure(layout, key, 'w', `weight of ${key.replace('-', ' ')}`) ??
    given('w', `no ${key.replace('-', ' ')}`, psf, poundsPerSquareFoot(0));
  const height = given('h', 'storey height: the file has none', foot, feet(8), { quality: 'assumed' });
  const storeys = house.outlines.map((corners, index) => ({
    name: index === 0 ? 'first floor' : `storey ${index + 1}`,
    area: given('A', 'area of the storey', squareFoot, asArea(outlineArea(corners))),
    floorWeight:
      index === 0 ? part('floor') : (pressure(layout, 'upper-floor', 'w', 'weight of upper floor') ?? part('floor')),
    partitionWeight: part('partitions'),
    wallPerimeter: given('L', 'perimeter of the storey', foot, perimeter(corners)),
    wallHeight: height,
    wallWeight: part('exterior-walls'),
  }));
  return totalWeight(seismicWeights({ storeys, roof: { area, weight: part('roof'), ceilingWeight: part('ceiling') } }));
}

function comparisonOf(layout: Layout, house: HousePlan): RuleOfThumb | Refused {
  const whole = pressure(layout, 'whole-house', 'w', 'weight of the house per square foot of ground floor');
  if (!whole) return refused('the rule of thumb wants one weight per square foot of ground floor');
  const coefficient = known(layout.house.seismic.get('coefficient'));
  const c = coefficient
    ? given('c', 'seismic coefficient', factor, coefficient.value.amount, { quality: coefficient.quality })
    : given('c', 'seismic coefficient of the rule of thumb', factor, 0.2, {
        section: section('common practice', '', 'common-practice'),
      });
  return ruleOfThumb(c, whole, given('A', 'ground-floor area, from the outline', squareFoot, house.area));
}

/** Each storey takes the share of its floor area: where two storeys stand, twice the force of one. */
function levelsOf(house: HousePlan, shear: Traced<Force>): readonly TributaryLevel[] {
  const areas = house.outlines.map((corners) => asArea(outlineArea(corners)));
  const total = given(
    'A_all',
    'floor area of all storeys',
    squareFoot,
    areas.reduce((sum, each) => (sum + each) as Area),
  );
  return house.outlines.map((corners, index) => {
    const area = given('A', `floor area of storey ${index + 1}`, squareFoot, asArea(outlineArea(corners)));
    const share = computed(
      'F',
      `share of storey ${index + 1}`,
      pound,
      formula('V * A / A_all'),
      [{ ...shear, symbol: 'V' }, area, total],
      section('statics', '', 'published'),
    );
    return { name: `storey ${index + 1}`, force: share, outlines: [corners] };
  });
}

function directionsOf(layout: Layout, house: HousePlan, shear: Traced<Force>): readonly DirectionDemand[] {
  const lines = linesOf(layout, house);
  const levels = levelsOf(house, shear);
  const longest = house.walls.reduce((a, b) => (lengthOf(b) > lengthOf(a) ? b : a));
  const first = bearing(longest);
  return [first, (first + 90) % 180].map((degrees): DirectionDemand => {
    const here = lines.filter((line) => line.direction(first) === degrees);
    const placed = here.map(
      (line): TributaryLine => ({ name: line.name, through: line.through, walls: line.wallsAlong(degrees) }),
    );
    const demand = tributaryDemand({ direction: degrees, lines: placed, levels });
    const short = here.map((line, index) => ({
      name: line.name,
      through: line.through,
      walls: [],
      ...placed[index],
      ends: line.ends(degrees),
    }));
    const withoutDragStruts = tributaryDemand({ direction: degrees, lines: short, levels });
    const walls = new Map<string, readonly Traced<Force>[] | Refused>();
    if (!isRefused(demand)) {
      for (const [index, line] of demand.lines.entries())
        walls.set(line.name, wallForces(line.demand, placed[index]?.walls ?? []));
    }
    return { degrees, demand, withoutDragStruts, walls };
  });
}

interface PlacedLine {
  readonly name: string;
  /** Of its longest wall. */
  readonly bearing: number;
  readonly through: Point;
  /** Which of the two directions it resists: the nearer one; at 45 degrees the first. */
  readonly direction: (first: number) => number;
  readonly wallsAlong: (degrees: number) => readonly LineWall[];
  /** Its farthest corners that way. */
  readonly ends: (degrees: number) => { readonly from: Point; readonly to: Point };
}
/** The named lines that resist, and each perimeter wall that no line names. A line exempt from everything resists nothing. */
function linesOf(layout: Layout, house: HousePlan): readonly PlacedLine[] {
  const interior = layout.walls
    .filter((wall) => wall.role === 'interior')
    .flatMap((wall) => (wall.plan ? [{ wall, ...wall.plan }] : []));
  const byName = new Map([...house.walls, ...interior].map((each) => [each.wall.name.toLowerCase(), each]));
  const taken = new Set(layout.lines.flatMap((line) => line.walls.map((wall) => wall.name.toLowerCase())));
  const named = layout.lines.filter(resists).map((line) => ({
    name: line.name,
    walls: line.walls.flatMap((wall) => byName.get(wall.name.toLowerCase()) ?? []),
  }));
  const alone = house.walls
    .filter((each) => !taken.has(each.wall.name.toLowerCase()))
    .map((each) => ({ name: each.wall.name, walls: [each] }));
  return [...named, ...alone].flatMap((line) => {
    const [first, ...others] = line.walls;
    if (!first) return [];
    const longest = others.reduce((a, b) => (lengthOf(b) > lengthOf(a) ? b : a), first);
    const lineBearing = bearing(longest);
    return [
      {
        name: line.name,
        bearing: lineBearing,
        through: between(longest.from, longest.to, nanometres(1), nanometres(2)),
        direction: (firstDirection: number) =>
          Math.abs(turnBetween(lineBearing, firstDirection)) <= 45 ? firstDirection : (firstDirection + 90) % 180,
        wallsAlong: (degrees: number) =>
          line.walls.map((each) => ({
            name: each.wall.name,
            length: lengthOf(each),
            angleFromLine: turnBetween(bearing(each), degrees),
          })),
        ends: (degrees: number) => {
          const along = (point: Point): number =>
            point.x * Math.cos((degrees * Math.PI) / 180) + point.y * Math.sin((degrees * Math.PI) / 180);
          const corners = line.walls.flatMap((each) => [each.from, each.to]).toSorted((a, b) => along(a) - along(b));
          return { from: corners[0] ?? longest.from, to: corners.at(-1) ?? longest.to };
        },
      },
    ];
  });
}
const resists = (line: ResistanceLine): boolean => line.exempt?.from !== 'all';
const lengthOf = (wall: PlacedWall): Length => distanceBetween(wall.from, wall.to);

/** Degrees from east, 0 up to 180: a line has no ends to tell apart. Right angles come out whole. */
function bearing({ from, to }: PlacedWall): number {
  if (from.y === to.y) return 0;
  if (from.x === to.x) return 90;
  const degrees = (Math.atan2(to.y - from.y, to.x - from.x) * 180) / Math.PI;
  return ((degrees % 180) + 180) % 180;
}
/** From one bearing to another, -90 up to 90. */
function turnBetween(a: number, b: number): number {
  const turn = (((a - b) % 180) + 180) % 180;
  return turn > 90 ? turn - 180 : turn;
}

function known<T>(reading: Reading<T> | undefined): Known<T> | undefined {
  return reading?.kind === 'known' ? reading : undefined;
}
function pressure(layout: Layout, key: string, symbol: string, meaning: string): Traced<Stress> | undefined {
  const reading: Known<Quantity> | undefined = known(layout.house.weights.get(key));
  const stress = reading && stressOf(reading.value);
  return reading && stress !== undefined
    ? given(symbol, meaning, psf, stress, { quality: reading.quality })
    : undefined;
}
