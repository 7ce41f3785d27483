import type { Force } from '../../units/force.ts';
import type { Length } from '../../units/length.ts';
import { formula } from '../formula.ts';
import { section } from '../publications.ts';
import type { Governed, Input, Traced } from '../trace.ts';
import { asInput, computed, fromTable, greatestOf, leastOf, withNotes } from '../trace.ts';
import { acceleration, factor, foot, pound, second } from '../trace-units.ts';
import type { RiskCategory, SiteClass } from './site-coefficients.ts';

/** C_t and x for "all other structural systems", which wood panel walls are. ASCE 7-16 Table 12.8-2 (found). */
export const woodPeriod = { Ct: 0.02, x: 0.75 } as const;

/** Approximate period T_a = C_t h_n^x, s. ASCE 7-16 Eq. 12.8-7. */
export function approximatePeriod(
  height: Input<Length>,
  Ct: number = woodPeriod.Ct,
  x: number = woodPeriod.x,
): Traced<number> {
  const table = section('ASCE 7-16', 'Table 12.8-2', 'published');
  const inputs = [
    asInput('h_n', 'height of the structure above its base', foot, height),
    fromTable('C_t', 'period coefficient', factor, Ct, table),
    fromTable('x', 'period exponent', factor, x, table),
  ];
  return computed(
    'T_a',
    'approximate period',
    second,
    formula('C_t * h_n^x'),
    inputs,
    section('ASCE 7-16', 'Eq. 12.8-7', 'published'),
  );
}

/** R, Ω0 and C_d of bearing-wall light-frame wood panels. ASCE 7-16 Table 12.2-1, A.15 (R found in public permit records). */
export const woodPanelSystem = { R: 6.5, Omega0: 3, Cd: 4 } as const;

/** What 12.8.1.3 asks before S_DS may be capped; `undefined` where it is not known, which is not met. */
export interface CapConditions {
  readonly regular: boolean | undefined;
  readonly storeys: number | undefined;
  readonly period: number | undefined;
  readonly redundancy: number | undefined;
  readonly siteClass: SiteClass | undefined;
  readonly riskCategory: RiskCategory | undefined;
}
export function capApplies(conditions: CapConditions): boolean {
  const { regular, storeys, period, redundancy, siteClass, riskCategory } = conditions;
  return (
    regular === true &&
    storeys !== undefined &&
    storeys <= 5 &&
    period !== undefined &&
    period <= 0.5 &&
    redundancy === 1 &&
    siteClass !== undefined &&
    siteClass !== 'E' &&
    siteClass !== 'F' &&
    (riskCategory === 'I' || riskCategory === 'II')
  );
}
/** S_DS for C_s and E_v of a low, regular building: need not exceed 1.0, nor fall under 0.7 S_DS. ASCE 7-16 12.8.1.3 (from memory; agrees with a public permit record). */
export function cappedAcceleration(SDS: Input<number>, conditions: CapConditions): Traced<number> {
  const source = section('ASCE 7-16', '12.8.1.3', 'from-memory');
  const design = asInput('S_DS', 'design acceleration, short period', acceleration, SDS);
  if (!capApplies(conditions)) return withNotes(design, 'not capped: the conditions of 12.8.1.3 are not all met');
  return computed(
    'S_DS',
    'design acceleration for C_s, capped',
    acceleration,
    formula('min(S_DS, max(1, 0.7 * S_DS))'),
    [design],
    source,
  );
}

export interface ResponseCase {
  readonly SDS: Input<number>;
  readonly SD1: Input<number>;
  /** Matters from 0.6 up. Absent: not known, and the near-fault minimum is not looked at. */
  readonly S1?: Input<number>;
  readonly period: Input<number>;
  /** Long-period transition, s. */
  readonly longPeriod: Input<number>;
  readonly R: Input<number>;
  readonly importance: Input<number>;
}
export interface ResponseCoefficient {
  readonly Cs: Governed<number>;
  readonly fromSDS: Traced<number>;
  /** Upper limit for T up to T_L, and the one beyond; which counts depends on T. */
  readonly upperShort: Traced<number>;
  readonly upperLong: Traced<number>;
  readonly lower: Traced<number>;
}
/** Seismic response coefficient C_s with its limits. ASCE 7-16 Eq. 12.8-2 to 12.8-6. */
export function responseCoefficient(response: ResponseCase): ResponseCoefficient {
  const SDS = asInput('S_DS', 'design acceleration, short period', acceleration, response.SDS);
  const SD1 = asInput('S_D1', 'design acceleration, one second', acceleration, response.SD1);
  const T = asInput('T', 'period', second, response.period);
  const TL = asInput('T_L', 'long-period transition', second, response.longPeriod);
  const R = asInput('R', 'response modification coefficient', factor, response.R);
  const Ie = asInput('I_e', 'importance factor', factor, response.importance);
  const eq = (place: string) => section('ASCE 7-16', place, 'published');
  const fromSDS = computed(
    'C_s1',
    'response coefficient from S_DS',
    factor,
    rules.fromSDS,
    [SDS, R, Ie],
    eq('Eq. 12.8-2'),
  );
  const upperShort = computed('C_s2', 'upper limit', factor, rules.upperShort, [SD1, T, R, Ie], eq('Eq. 12.8-3'));
  const upperLong = computed(
    'C_s3',
    'upper limit, long periods',
    factor,
    rules.upperLong,
    [SD1, TL, T, R, Ie],
    eq('Eq. 12.8-4'),
  );
  const least = computed('C_s4', 'lower limit', factor, rules.lower, [SDS, Ie], eq('Eq. 12.8-5'));
  const S1 =
    response.S1 === undefined
      ? undefined
      : asInput('S_1', 'mapped acceleration, one second', acceleration, response.S1);
  const lower =
    S1 !== undefined && S1.number >= 0.6
      ? greatestOf(
          'C_smin',
          'lower limit',
          factor,
          [least, computed('C_s5', 'lower limit near a fault', factor, rules.nearFault, [S1, R, Ie], eq('Eq. 12.8-6'))],
          eq('12.8.1.1'),
        )
      : least;
  const limited = leastOf(
    'C_smax',
    'response coefficient, upper limits applied',
    factor,
    [fromSDS, T.number <= TL.number ? upperShort : upperLong],
    eq('12.8.1.1'),
  );
  const Cs = greatestOf('C_s', 'seismic response coefficient', factor, [limited, lower], eq('12.8.1.1'));
  return { Cs, fromSDS, upperShort, upperLong, lower };
}
const rules = {
  fromSDS: formula('S_DS / (R / I_e)'),
  upperShort: formula('S_D1 / (T * R / I_e)'),
  upperLong: formula('S_D1 * T_L / (T^2 * R / I_e)'),
  lower: formula('max(0.044 * S_DS * I_e, 0.01)'),
  nearFault: formula('0.5 * S_1 / (R / I_e)'),
};

/** V = C_s W, strength level. ASCE 7-16 Eq. 12.8-1. */
export function baseShear(Cs: Input<number>, weight: Input<Force>): Traced<Force> {
  const inputs = [
    asInput('C_s', 'seismic response coefficient', factor, Cs),
    asInput('W', 'effective seismic weight', pound, weight),
  ];
  return computed(
    'V',
    'seismic base shear, strength level',
    pound,
    formula('C_s * W'),
    inputs,
    section('ASCE 7-16', 'Eq. 12.8-1', 'published'),
  );
}

/** Share of the new-building base shear for an engineered alternative in the existing-house chapter. IEBC A301.3 (from memory; the same share was found in A403.3). */
export const existingBuildingShare = { share: 0.75, section: section('IEBC A3', 'A301.3', 'from-memory') } as const;
/** Base shear reduced to 75 percent: a choice that the designer states, never a default. */
export function existingBuildingShear(shear: Input<Force>): Traced<Force> {
  const inputs = [
    asInput('V', 'base shear as for a new building', pound, shear),
    fromTable(
      'r_E',
      'share for an existing building',
      factor,
      existingBuildingShare.share,
      existingBuildingShare.section,
    ),
  ];
  return computed(
    'V_E',
    'base shear, existing building',
    pound,
    formula('r_E * V'),
    inputs,
    existingBuildingShare.section,
    ['a stated choice of the designer'],
  );
}

/** 1997 UBC: V/W = 2.5 C_a I / R with C_a = 0.44 N_a on soil S_D in zone 4. UBC 1997 1630.2, Table 16-Q (recalled): the basis of an older regional plan set. */
export function uniformCodeCoefficient(
  nearSource: Input<number>,
  importance: Input<number>,
  R: Input<number>,
): Traced<number> {
  const source = section('UBC 1997', '1630.2', 'recalled');
  const Na = asInput('N_a', 'near-source factor', factor, nearSource);
  const Ca = computed(
    'C_a',
    'seismic coefficient, soil S_D, zone 4',
    factor,
    formula('0.44 * N_a'),
    [Na],
    section('UBC 1997', 'Table 16-Q', 'recalled'),
  );
  const inputs = [
    Ca,
    asInput('I', 'importance factor', factor, importance),
    asInput('R', 'response coefficient', factor, R),
  ];
  return computed(
    'V/W',
    'base shear over weight, strength level',
    factor,
    formula('2.5 * C_a * I / R'),
    inputs,
    source,
  );
}
/** The same at allowable-stress level: over 1.4. UBC 1997 1612.3 (recalled). */
export function uniformCodeAllowable(coefficient: Traced<number>): Traced<number> {
  const input = { ...coefficient, symbol: 'v_u' };
  return computed(
    'v_a',
    'base shear over weight, allowable-stress level',
    factor,
    formula('v_u / 1.4'),
    [input],
    section('UBC 1997', '1612.3', 'recalled'),
  );
}
