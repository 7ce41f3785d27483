import type { Force } from '../../units/force.ts';
import { formula } from '../formula.ts';
import { section } from '../publications.ts';
import type { Input, Traced } from '../trace.ts';
import { asInput, computed } from '../trace.ts';
import { acceleration, factor, pound } from '../trace-units.ts';

export interface AllowableCombinations {
  /** On dead load where it adds: 1 + 0.14 S_DS. */
  readonly deadAdding: Traced<number>;
  /** On dead load where it holds down: 0.6 - 0.14 S_DS. */
  readonly deadResisting: Traced<number>;
  /** On the horizontal earthquake force: 0.7 ρ. */
  readonly earthquake: Traced<number>;
}
/** Factors of the allowable-stress combinations with earthquake. ASCE 7-16 2.4.5 and 12.4.2 (from memory). */
export function allowableCombinations(SDS: Input<number>, redundancy: Input<number>): AllowableCombinations {
  const design = asInput('S_DS', 'design acceleration, short period', acceleration, SDS);
  const rho = asInput('rho', 'redundancy factor', factor, redundancy);
  const source = section('ASCE 7-16', '2.4.5, 12.4.2', 'from-memory');
  return {
    deadAdding: computed('f_D', 'factor on dead load that adds', factor, formula('1 + 0.14 * S_DS'), [design], source),
    deadResisting: computed(
      'f',
      'share of the dead load counted on',
      factor,
      formula('0.6 - 0.14 * S_DS'),
      [design],
      source,
    ),
    earthquake: computed('f_E', 'factor on the earthquake force', factor, formula('0.7 * rho'), [rho], source),
  };
}

/** A strength-level earthquake force at allowable-stress level: 0.7 ρ Q_E. ASCE 7-16 2.4.5 (from memory). */
export function allowableForce(strengthLevel: Input<Force>, redundancy: Input<number>): Traced<Force> {
  const inputs = [
    asInput('rho', 'redundancy factor', factor, redundancy),
    asInput('Q_E', 'earthquake force, strength level', pound, strengthLevel),
  ];
  return computed(
    'V_a',
    'earthquake force, allowable-stress level',
    pound,
    formula('0.7 * rho * Q_E'),
    inputs,
    section('ASCE 7-16', '2.4.5', 'from-memory'),
  );
}
