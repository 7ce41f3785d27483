import type { Area } from '../../units/area.ts';
import type { Force } from '../../units/force.ts';
import { pounds } from '../../units/force.ts';
import type { Length } from '../../units/length.ts';
import type { Stress } from '../../units/stress.ts';
import { formula } from '../formula.ts';
import { section } from '../publications.ts';
import type { Input, Trace, Traced } from '../trace.ts';
import { asInput, computed, given } from '../trace.ts';
import { foot, pound, psf, squareFoot } from '../trace-units.ts';

/** One storey: the floor one stands on, and the walls from that floor up to the level above. */
export interface Storey {
  readonly name: string;
  readonly area: Input<Area>;
  /** Of the floor itself. */
  readonly floorWeight: Input<Stress>;
  /** Over the floor area; 10 psf where partitions are not counted one by one (ASCE 7-16 12.7.2). */
  readonly partitionWeight: Input<Stress>;
  readonly wallPerimeter: Input<Length>;
  readonly wallHeight: Input<Length>;
  /** Of the outside walls, over their own area. */
  readonly wallWeight: Input<Stress>;
}
export interface BuildingWeights {
  /** From the first floor up. */
  readonly storeys: readonly Storey[];
  readonly roof: { readonly area: Input<Area>; readonly weight: Input<Stress>; readonly ceilingWeight: Input<Stress> };
  /** The cripple wall below the first floor; absent where joists bear on the sill. Its lower half goes to the ground. */
  readonly cripple?: {
    readonly perimeter: Input<Length>;
    readonly height: Input<Length>;
    readonly weight: Input<Stress>;
  };
}

/** A level where mass is gathered, the lowest first. */
export interface WeightLevel {
  readonly name: string;
  readonly weight: Traced<Force>;
}

/**
 * Effective seismic weight by level, lb: the floor and its partitions, half the walls below and half those above; the
 * top level is ceiling and roof. ASCE 7-16 12.7.2 (from memory). Snow and storage are not in it.
 */
export function seismicWeights(building: BuildingWeights): readonly WeightLevel[] {
  const source = section('ASCE 7-16', '12.7.2', 'from-memory');
  const levels: WeightLevel[] = [];
  let below = building.cripple
    ? halfWall(
        'below',
        'cripple wall below',
        building.cripple.perimeter,
        building.cripple.height,
        building.cripple.weight,
      )
    : given('W_below', 'no wall below', pound, pounds(0));
  for (const storey of building.storeys) {
    const above = halfWall(
      'above',
      `outside walls of ${storey.name}`,
      storey.wallPerimeter,
      storey.wallHeight,
      storey.wallWeight,
    );
    const inputs: readonly Trace[] = [
      asInput('A', `floor area of ${storey.name}`, squareFoot, storey.area),
      asInput('w_floor', 'dead load of the floor', psf, storey.floorWeight),
      asInput('w_part', 'partitions', psf, storey.partitionWeight),
      below,
      above,
    ];
    levels.push({
      name: storey.name,
      weight: computed('W', `seismic weight at ${storey.name}`, pound, floorRule, inputs, source),
    });
    below = { ...above, symbol: 'W_below' };
  }
  const roof: readonly Trace[] = [
    asInput('A', 'roof area, on plan', squareFoot, building.roof.area),
    asInput('w_roof', 'dead load of the roof', psf, building.roof.weight),
    asInput('w_ceil', 'dead load of the ceiling', psf, building.roof.ceilingWeight),
    below,
  ];
  levels.push({ name: 'roof', weight: computed('W', 'seismic weight at the roof', pound, roofRule, roof, source) });
  return levels;
}
const floorRule = formula('A * (w_floor + w_part) + W_below + W_above');
const roofRule = formula('A * (w_roof + w_ceil) + W_below');

function halfWall(
  where: 'below' | 'above',
  name: string,
  perimeter: Input<Length>,
  height: Input<Length>,
  weight: Input<Stress>,
): Traced<Force> {
  const inputs = [
    asInput('L', 'length of the walls', foot, perimeter),
    asInput('h', 'height of the walls', foot, height),
    asInput('w_wall', 'dead load of the walls', psf, weight),
  ];
  return computed(
    `W_${where}`,
    `half of the ${name}`,
    pound,
    halfWallRule,
    inputs,
    section('statics', '', 'published'),
  );
}
const halfWallRule = formula('L * h / 2 * w_wall');

/** Whole-house weight from one number per square foot of ground floor: common practice, no source. */
export function wholeHouseWeight(groundFloor: Input<Area>, weight: Input<Stress>): Traced<Force> {
  const inputs = [
    asInput('A', 'ground-floor area', squareFoot, groundFloor),
    asInput('w', 'weight of the house per square foot of ground floor', psf, weight),
  ];
  return computed(
    'W',
    'seismic weight of the house',
    pound,
    formula('w * A'),
    inputs,
    section('common practice', '', 'common-practice'),
  );
}

/** Total of the levels. */
export function totalWeight(levels: readonly WeightLevel[]): Traced<Force> {
  const parts = levels.map((level, index): Trace => ({ ...level.weight, symbol: `W_${index + 1}` }));
  const rule = formula(parts.length > 0 ? parts.map((part) => part.symbol).join(' + ') : '0');
  return computed('W', 'effective seismic weight', pound, rule, parts, section('ASCE 7-16', '12.7.2', 'from-memory'));
}
