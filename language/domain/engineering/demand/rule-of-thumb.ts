import type { Area } from '../../units/area.ts';
import type { Force } from '../../units/force.ts';
import type { Stress } from '../../units/stress.ts';
import { formula } from '../formula.ts';
import { section } from '../publications.ts';
import type { Input, Traced } from '../trace.ts';
import { asInput, computed, given } from '../trace.ts';
import { count, factor, pound, psf, squareFoot } from '../trace-units.ts';

export interface RuleOfThumb {
  readonly label: 'contractor’s rule of thumb, for comparison only';
  readonly total: Traced<Force>;
  readonly eachLine: Traced<Force>;
}
/**
 * What many contractors reckon: coefficient × weight per square foot × ground-floor area, half to each of two lines.
 * Common practice, no source; it knows nothing of the plan and is shown beside the worked demand, never instead of it.
 */
export function ruleOfThumb(coefficient: Input<number>, weight: Input<Stress>, groundFloor: Input<Area>): RuleOfThumb {
  const practice = section('common practice', '', 'common-practice');
  const inputs = [
    asInput('c', 'seismic coefficient, allowable-stress level', factor, coefficient),
    asInput('w', 'weight of the house per square foot of ground floor', psf, weight),
    asInput('A', 'ground-floor area', squareFoot, groundFloor),
  ];
  const total = computed('V', 'whole house, rule of thumb', pound, formula('c * w * A'), inputs, practice);
  const lines = given('n_l', 'lines that share it', count, 2);
  const eachLine = computed(
    'V_line',
    'each of two lines, rule of thumb',
    pound,
    formula('V / n_l'),
    [total, lines],
    practice,
  );
  return { label: 'contractor’s rule of thumb, for comparison only', total, eachLine };
}
