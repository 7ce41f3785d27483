import type { Force } from '../../units/force.ts';
import type { Length } from '../../units/length.ts';
import { formula } from '../formula.ts';
import { section } from '../publications.ts';
import type { Input, Trace, Traced } from '../trace.ts';
import { asInput, computed, given } from '../trace.ts';
import { factor, foot, pound, second } from '../trace-units.ts';

/** k = 1 up to 0.5 s, 2 from 2.5 s, a straight line between. ASCE 7-16 12.8.3 (from memory). */
export function distributionExponent(period: Input<number>): Traced<number> {
  const T = asInput('T', 'period', second, period);
  return computed(
    'k',
    'exponent on height',
    factor,
    formula('min(2, max(1, 1 + (T - 0.5) / 2))'),
    [T],
    section('ASCE 7-16', '12.8.3', 'from-memory'),
  );
}

export interface DistributedLevel {
  readonly name: string;
  readonly weight: Input<Force>;
  /** Above the base: the top of the foundation. */
  readonly height: Input<Length>;
}
export interface LevelForce {
  readonly name: string;
  readonly share: Traced<number>;
  readonly force: Traced<Force>;
}
/** Base shear to the levels, F_x = C_vx V with C_vx = w h^k / Σ w h^k. ASCE 7-16 Eq. 12.8-11, 12.8-12. The forces add up to V. */
export function verticalDistribution(
  shear: Input<Force>,
  levels: readonly DistributedLevel[],
  exponent: Input<number>,
): readonly LevelForce[] {
  const k = asInput('k', 'exponent on height', factor, exponent);
  const V = asInput('V', 'base shear', pound, shear);
  const sum = levels.reduce((total, level) => {
    const w = asInput('w_x', '', pound, level.weight);
    const h = asInput('h_x', '', foot, level.height);
    return total + w.number * h.number ** k.number;
  }, 0);
  const sumWh = given('sumWh', 'sum over the levels', factor, sum);
  return levels.map((level) => {
    const inputs: readonly Trace[] = [
      asInput('w_x', `weight at ${level.name}`, pound, level.weight),
      asInput('h_x', `height of ${level.name}`, foot, level.height),
      k,
      sumWh,
    ];
    const share = computed(
      'C_vx',
      `share of ${level.name}`,
      factor,
      formula('w_x * h_x^k / sumWh'),
      inputs,
      section('ASCE 7-16', 'Eq. 12.8-12', 'published'),
    );
    return { name: level.name, share, force: levelForce(share, V, level.name) };
  });
}

/** F_x = C_vx V. ASCE 7-16 Eq. 12.8-11. */
export function levelForce(share: Input<number>, shear: Input<Force>, name: string): Traced<Force> {
  const inputs = [asInput('C_vx', 'share of the level', factor, share), asInput('V', 'base shear', pound, shear)];
  return computed(
    'F_x',
    `earthquake force at ${name}`,
    pound,
    formula('C_vx * V'),
    inputs,
    section('ASCE 7-16', 'Eq. 12.8-11', 'published'),
  );
}
