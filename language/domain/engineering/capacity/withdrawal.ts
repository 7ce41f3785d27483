import type { Force, ForcePerLength } from '../../units/force.ts';
import type { Length } from '../../units/length.ts';
import { formula } from '../formula.ts';
import { section } from '../publications.ts';
import type { Input, Traced } from '../trace.ts';
import { asInput, computed, fromTable } from '../trace.ts';
import { factor, inch, pound, poundPerInch } from '../trace-units.ts';

export type WithdrawnFastener = 'lag-screw' | 'wood-screw' | 'nail';

/**
 * Reference withdrawal value W of one fastener in side grain, lb per inch of thread (nail: of penetration) in the main
 * member. NDS 2018 Eq. 12.2-1 lag screws, 12.2-2 wood screws, 12.2-3 plain-shank nails (from memory). D is nominal.
 */
export function withdrawal(
  kind: WithdrawnFastener,
  gravity: Input<number>,
  diameter: Input<Length>,
): Traced<ForcePerLength> {
  const G = asInput('G', 'specific gravity', factor, gravity);
  const D = asInput('D', 'fastener diameter, nominal', inch, diameter);
  const { rule, place } = rules[kind];
  return computed(
    'W',
    `withdrawal value of a ${kind.replace('-', ' ')}`,
    poundPerInch,
    rule,
    [G, D],
    section('NDS 2018', place, 'from-memory'),
  );
}
const rules = {
  'lag-screw': { rule: formula('1800 * G^1.5 * D^0.75'), place: 'Eq. 12.2-1' },
  'wood-screw': { rule: formula('2850 * G^2 * D'), place: 'Eq. 12.2-2' },
  nail: { rule: formula('1380 * G^2.5 * D'), place: 'Eq. 12.2-3' },
} as const;

/** Adjusted withdrawal capacity, lb: W p_t with load duration, and 0.75 for lag screws in end grain. NDS 2018 12.2.1.4, Table 11.3.1 (from memory). */
export function adjustedWithdrawal(
  reference: Input<ForcePerLength>,
  threadIn: Input<Length>,
  loadDuration: Input<number>,
  lagInEndGrain = false,
): Traced<Force> {
  const inputs = [
    asInput('W', 'withdrawal value', poundPerInch, reference),
    asInput('p_t', 'thread in the main member, without the tip', inch, threadIn),
    asInput('C_D', 'load duration factor', factor, loadDuration),
    fromTable(
      'C_eg',
      'end grain factor, withdrawal',
      factor,
      lagInEndGrain ? 0.75 : 1,
      section('NDS 2018', '12.2.1.4', 'from-memory'),
    ),
  ];
  return computed(
    "W'",
    'adjusted withdrawal capacity',
    pound,
    capacity,
    inputs,
    section('NDS 2018', 'Table 11.3.1', 'from-memory'),
  );
}
const capacity = formula('W * p_t * C_D * C_eg');
