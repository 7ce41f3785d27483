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
