import type { Force } from '../../units/force.ts';
import type { Length } from '../../units/length.ts';
import { inInches } from '../../units/length.ts';
import type { Stress } from '../../units/stress.ts';
import { formula } from '../formula.ts';
import { section } from '../publications.ts';
import type { Governed, Input, Trace, Traced } from '../trace.ts';
import { asInput, computed, given, leastOf, named } from '../trace.ts';
import { degree, factor, inch, pound, psi } from '../trace-units.ts';

/** How a dowel gives way: crushing of one member (I), rotating (II), one hinge in the dowel (III), two (IV). */
export type YieldMode = 'Im' | 'Is' | 'II' | 'IIIm' | 'IIIs' | 'IV';

export interface YieldLimitCase {
  readonly shear: 'single' | 'double';
  /** Bearing diameter: the shank, or the root where threads bear. */
  readonly diameter: Input<Length>;
  /** Nominal diameter where it differs: a 1/4 in lag screw has a root under 1/4 in and its own reduction. */
  readonly nominal?: Length;
  readonly mainLength: Input<Length>;
  /** Of one side member. */
  readonly sideLength: Input<Length>;
  readonly mainBearing: Input<Stress>;
  readonly sideBearing: Input<Stress>;
  readonly bendingYield: Input<Stress>;
  /** Largest angle between load and grain of any wood member, degrees. */
  readonly angleToGrain: number;
}

export interface YieldLimit extends Governed<Force> {
  readonly mode: YieldMode;
  /** Every mode's value; double shear has neither II nor IIIm. */
  readonly modes: ReadonlyMap<YieldMode, Traced<Force>>;
}

/**
 * Reference lateral design value Z of one dowel-type fastener, lb, the smallest of its yield modes.
 * NDS 2018 Eq. 12.3-1 to 12.3-10, reduction terms of Table 12.3.1B (from memory; that lag screws with a thin root take
 * K_D of the root agrees with published rows of Table 12K).
 * All lengths must be above zero.
 */
export function yieldLimit(dowel: YieldLimitCase): YieldLimit {
  const D = asInput('D', 'bearing diameter of the dowel', inch, dowel.diameter);
  const lm = asInput('l_m', 'bearing length in the main member', inch, dowel.mainLength);
  const ls = asInput('l_s', 'bearing length in a side member', inch, dowel.sideLength);
  const Fem = asInput('F_em', 'dowel bearing strength of the main member', psi, dowel.mainBearing);
  const Fes = asInput('F_es', 'dowel bearing strength of the side member', psi, dowel.sideBearing);
  const Fyb = asInput('F_yb', 'dowel bending yield strength', psi, dowel.bendingYield);
  const Re = computed('R_e', 'ratio of bearing strengths', factor, formulas.Re, [Fem, Fes], equations);
  const Rt = computed('R_t', 'ratio of bearing lengths', factor, formulas.Rt, [lm, ls], equations);
  const reduction = reductionTerms(D, dowel.nominal, dowel.angleToGrain);
  const double = dowel.shear === 'double';

  const ofMode = (mode: YieldMode, inputs: readonly Trace[]): Traced<Force> => {
    const { rule, place, group } = double ? (doubleShear[mode] ?? singleShear[mode]) : singleShear[mode];
    const source = section('NDS 2018', `Eq. ${place}`, 'from-memory');
    return computed(`Z_${mode}`, `yield mode ${mode}`, pound, rule, [...inputs, reduction[group]], source);
  };
  const k3 = computed('k_3', 'coefficient of mode IIIs', factor, formulas.k3, [Re, Fyb, D, Fem, ls], equations);
  const first = ofMode('Im', [D, lm, Fem]);
  const modes = new Map<YieldMode, Traced<Force>>([['Im', first]]);
  modes.set('Is', ofMode('Is', [D, ls, Fes]));
  if (!double) {
    const k1 = computed('k_1', 'coefficient of mode II', factor, formulas.k1, [Re, Rt], equations);
    const k2 = computed('k_2', 'coefficient of mode IIIm', factor, formulas.k2, [Re, Fyb, D, Fem, lm], equations);
    modes.set('II', ofMode('II', [k1, D, ls, Fes]));
    modes.set('IIIm', ofMode('IIIm', [k2, D, lm, Fem, Re]));
  }
  modes.set('IIIs', ofMode('IIIs', [k3, D, ls, Fem, Re]));
  modes.set('IV', ofMode('IV', [D, Fem, Fyb, Re]));

  const [, ...others] = modes.values();
  const Z = leastOf('Z', `reference lateral design value, ${dowel.shear} shear`, pound, [first, ...others], equations);
  return { ...Z, mode: Z.governing.symbol.slice(2) as YieldMode, modes };
}

type ReductionGroup = 'crushing' | 'rotating' | 'bending';

/**
 * R_d by group of modes. NDS 2018 Table 12.3.1B (from memory): 4, 3.6 and 3.2 times K_theta from 1/4 in up to 1 in;
 * K_D below; K_D K_theta for a nominal 1/4 in and up whose root is thinner.
 */
function reductionTerms(
  D: Traced<Length>,
  nominal: Length | undefined,
  angleToGrain: number,
): Readonly<Record<ReductionGroup, Trace>> {
  const theta = given('theta', 'largest angle of load to grain', degree, angleToGrain);
  const Ktheta = computed('K_theta', 'angle-to-grain coefficient', factor, formulas.Ktheta, [theta], table);
  if (inInches(D.value) >= 0.25) {
    const term = (base: number): Trace => {
      const rule = formula(`${base} * K_theta`);
      return computed('R_d', 'reduction term', factor, rule, [Ktheta], table);
    };
    return { crushing: term(4), rotating: term(3.6), bending: term(3.2) };
  }
  const KD = diameterCoefficient(D);
  const thinRoot = nominal !== undefined && inInches(nominal) >= 0.25;
  const Rd = thinRoot
    ? computed('R_d', 'reduction term, root under 1/4 in', factor, formulas.thinRoot, [KD, Ktheta], table)
    : named('R_d', 'reduction term', KD);
  return { crushing: Rd, rotating: Rd, bending: Rd };
}

/** K_D for dowels under 1/4 in: 2.2 up to 0.17 in, then 10 D + 0.5. NDS 2018 Table 12.3.1B (from memory). */
export function diameterCoefficient(diameter: Input<Length>): Traced<number> {
  const D = asInput('D', 'bearing diameter of the dowel', inch, diameter);
  return computed(
    'K_D',
    'diameter coefficient',
    factor,
    inInches(D.value) <= 0.17 ? formulas.KDthin : formulas.KD,
    [D],
    table,
  );
}

const table = section('NDS 2018', 'Table 12.3.1B', 'from-memory');
const equations = section('NDS 2018', 'Table 12.3.1A', 'from-memory');
const formulas = {
  Re: formula('F_em / F_es'),
  Rt: formula('l_m / l_s'),
  k1: formula('(sqrt(R_e + 2 * R_e^2 * (1 + R_t + R_t^2) + R_t^2 * R_e^3) - R_e * (1 + R_t)) / (1 + R_e)'),
  k2: formula('sqrt(2 * (1 + R_e) + 2 * F_yb * (1 + 2 * R_e) * D^2 / (3 * F_em * l_m^2)) - 1'),
  k3: formula('sqrt(2 * (1 + R_e) / R_e + 2 * F_yb * (2 + R_e) * D^2 / (3 * F_em * l_s^2)) - 1'),
  Ktheta: formula('1 + 0.25 * theta / 90'),
  KD: formula('10 * D + 0.5'),
  KDthin: formula('2.2'),
  thinRoot: formula('K_D * K_theta'),
};
interface ModeEquation {
  readonly rule: ReturnType<typeof formula>;
  readonly place: string;
  readonly group: ReductionGroup;
}
const singleShear: Readonly<Record<YieldMode, ModeEquation>> = {
  Im: { rule: formula('D * l_m * F_em / R_d'), place: '12.3-1', group: 'crushing' },
  Is: { rule: formula('D * l_s * F_es / R_d'), place: '12.3-2', group: 'crushing' },
  II: { rule: formula('k_1 * D * l_s * F_es / R_d'), place: '12.3-3', group: 'rotating' },
  IIIm: { rule: formula('k_2 * D * l_m * F_em / ((1 + 2 * R_e) * R_d)'), place: '12.3-4', group: 'bending' },
  IIIs: { rule: formula('k_3 * D * l_s * F_em / ((2 + R_e) * R_d)'), place: '12.3-5', group: 'bending' },
  IV: { rule: formula('D^2 / R_d * sqrt(2 * F_em * F_yb / (3 * (1 + R_e)))'), place: '12.3-6', group: 'bending' },
};
const doubleShear: Partial<Record<YieldMode, ModeEquation>> = {
  Im: { ...singleShear.Im, place: '12.3-7' },
  Is: { rule: formula('2 * D * l_s * F_es / R_d'), place: '12.3-8', group: 'crushing' },
  IIIs: { rule: formula('2 * k_3 * D * l_s * F_em / ((2 + R_e) * R_d)'), place: '12.3-9', group: 'bending' },
  IV: { rule: formula('2 * D^2 / R_d * sqrt(2 * F_em * F_yb / (3 * (1 + R_e)))'), place: '12.3-10', group: 'bending' },
};
