import { squareFeet, squareInches } from './area.ts';
import { kips, pounds, poundsPerFoot } from './force.ts';
import { kilograms, poundsOfMass, weightOf } from './mass.ts';
import { footPounds } from './moment.ts';
import { poundsPerSquareFoot, poundsPerSquareInch } from './stress.ts';

/** A number with a unit that is not a length: pressure, force, area, share, angle … as written, and in its base unit. */
export interface Quantity {
  readonly dimension: Dimension;
  /** In the base unit of its dimension. */
  readonly amount: number;
  /** As written, without its number: `psi`, `%`, `lb`. */
  readonly unit: string;
}

/** Base units: Pa, N, N/m, m², 1 (a share of one), degree, kg/m³, kg, N·m, minute. */
export type Dimension =
  | 'pressure'
  | 'force'
  | 'force-per-length'
  | 'area'
  | 'share'
  | 'angle'
  | 'density'
  | 'mass'
  | 'moment'
  | 'time'
  | 'number';

/** One unit: a value in it, times `times` and divided by `per`, is in the base unit of its dimension. */
export interface QuantityUnit {
  readonly dimension: Dimension;
  readonly times: number;
  readonly per: number;
}

/**
 * Every unit that the language reads, as it is written. Factors are those of the units' own modules (NIST SP 811,
 * appendix B.8). `kg/m2` on a drawing is a load: the weight of that mass, as SP 811 has it for kgf/m².
 */
export const QUANTITY_UNITS: ReadonlyMap<string, QuantityUnit> = new Map([
  unit('psi', 'pressure', poundsPerSquareInch(1)),
  unit('ksi', 'pressure', poundsPerSquareInch(1000)),
  unit('psf', 'pressure', poundsPerSquareFoot(1)),
  unit('kPa', 'pressure', 1000),
  unit('MPa', 'pressure', 1_000_000),
  unit('kg/m2', 'pressure', weightOf(kilograms(1))),
  unit('kg/m²', 'pressure', weightOf(kilograms(1))),
  unit('lb', 'force', pounds(1)),
  unit('lbs', 'force', pounds(1)),
  unit('kip', 'force', kips(1)),
  unit('kips', 'force', kips(1)),
  unit('N', 'force', 1),
  unit('kN', 'force', 1000),
  unit('plf', 'force-per-length', poundsPerFoot(1)),
  unit('kN/m', 'force-per-length', 1000),
  unit('sq ft', 'area', squareFeet(1)),
  unit('sq in', 'area', squareInches(1)),
  unit('m2', 'area', 1),
  unit('m²', 'area', 1),
  unit('pcf', 'density', poundsOfMass(1), 0.3048 ** 3),
  unit('kg', 'mass', 1),
  unit('ft-lb', 'moment', footPounds(1)),
  unit('N·m', 'moment', 1),
  unit('N-m', 'moment', 1),
  unit('min', 'time', 1),
  unit('hour', 'time', 60),
  unit('hours', 'time', 60),
  unit('%', 'share', 1, 100),
  unit('°', 'angle', 1),
  unit('deg', 'angle', 1),
  unit('', 'number', 1),
]);

function unit(name: string, dimension: Dimension, times: number, per = 1): [string, QuantityUnit] {
  return [name, { dimension, times, per }];
}

/** `quantityOf(2500, 'psi')`. `undefined` for a unit that is not in `QUANTITY_UNITS`. */
export function quantityOf(value: number, unitName: string): Quantity | undefined {
  const known = QUANTITY_UNITS.get(unitName);
  return known && { dimension: known.dimension, amount: (value * known.times) / known.per, unit: unitName };
}

/** The plain number in a unit: 13.8 MPa is about 2001.5 `psi`. `undefined` for a unit of another dimension. */
export function inUnit(quantity: Quantity, unitName: string): number | undefined {
  const known = QUANTITY_UNITS.get(unitName);
  return known?.dimension === quantity.dimension ? (quantity.amount * known.per) / known.times : undefined;
}
