import type { Length } from '../../units/length.ts';
import { inches } from '../../units/length.ts';
import type { Stress } from '../../units/stress.ts';
import { inPoundsPerSquareInch, poundsPerSquareInch } from '../../units/stress.ts';
import { formula } from '../formula.ts';
import { section } from '../publications.ts';
import type { Input, Outcome, Traced } from '../trace.ts';
import { asInput, computed, fromTable, given, refused } from '../trace.ts';
import { degree, factor, inch, psi } from '../trace-units.ts';

const table = section('NDS 2018', 'Table 12.3.3 and its footnote', 'from-memory');

/**
 * How hard wood presses back on a dowel, F_e in psi, along the grain (angle 0), across it (90) or between.
 * From 1/4 in up the angle counts and `diameter` is the nominal one; thinner dowels feel no grain.
 * Rounded to 50 psi as the table prints it. NDS 2018 12.3.3, 12.3.4 (from memory).
 */
export function woodBearing(dowel: {
  readonly gravity: Input<number>;
  readonly diameter: Input<Length>;
  /** Between the load and the grain, 0 to 90 degrees. */
  readonly angleToGrain: number;
}): Traced<Stress> {
  const G = asInput('G', 'specific gravity', factor, dowel.gravity);
  const D = asInput('D', 'dowel diameter, nominal', inch, dowel.diameter);
  if (D.value < grainMattersFrom) {
    return computed('F_e', 'dowel bearing strength of wood, D under 1/4 in', psi, smallDowel, [G, D], table);
  }
  const along = computed('F_epar', 'dowel bearing strength along the grain', psi, alongGrain, [G], table);
  if (dowel.angleToGrain === 0) return along;
  const across = computed('F_eperp', 'dowel bearing strength across the grain', psi, acrossGrain, [G, D], table);
  if (dowel.angleToGrain === 90) return across;
  return bearingAtAngle(along, across, dowel.angleToGrain);
}

/** Hankinson's rule between the two. NDS 2018 Eq. 12.3-11 (from memory). */
export function bearingAtAngle(along: Input<Stress>, across: Input<Stress>, degrees: number): Traced<Stress> {
  const inputs = [
    asInput('F_epar', 'dowel bearing strength along the grain', psi, along),
    asInput('F_eperp', 'dowel bearing strength across the grain', psi, across),
    given('theta', 'angle between load and grain', degree, degrees),
  ];
  const source = section('NDS 2018', 'Eq. 12.3-11', 'from-memory');
  return computed('F_etheta', 'dowel bearing strength at an angle', psi, hankinson, inputs, source);
}

/** From 1/4 in the table tells the grain directions apart. */
export const grainMattersFrom: Length = inches(0.25);
const smallDowel = formula('round(16600 * G^1.84, 50)');
const alongGrain = formula('round(11200 * G, 50)');
const acrossGrain = formula('round(6100 * G^1.45 / sqrt(D), 50)');
const hankinson = formula('F_epar * F_eperp / (F_epar * sin(theta)^2 + F_eperp * cos(theta)^2)');

/**
 * Dowel bearing of concrete: 7500 psi where f'c is at least 2500 psi. NDS 2018 Table 12E footnote (from memory;
 * the 7500 psi also stands in published university notes). Weaker concrete is refused: the table has no value for it.
 */
export function concreteBearing(strength: Input<Stress>): Outcome<Stress> {
  const fc = asInput("f'_c", 'concrete compressive strength', psi, strength);
  const source = section('NDS 2018', 'Table 12E footnote', 'published');
  if (inPoundsPerSquareInch(fc.value) < 2500 - 1e-6) {
    return refused(
      'the bearing strength of 7,500 psi holds for concrete of 2,500 psi and up; this is weaker, or assumed so',
      source,
    );
  }
  return fromTable('F_e', 'dowel bearing strength of concrete', psi, poundsPerSquareInch(7500), source, [fc]);
}

export type SteelKind = 'hot-rolled' | 'cold-formed';
/** Dowel bearing of a steel plate from its tensile strength: 2.4 Fu / 1.6 or 2.2 Fu / 1.6. NDS 2018 Appendix I.2 (found in university notes). */
export function steelBearing(kind: SteelKind, tensileStrength: Input<Stress>): Traced<Stress> {
  const Fu = asInput('F_u', 'tensile strength of the steel', psi, tensileStrength);
  const source = section('NDS 2018', 'Appendix I.2', 'published');
  const rule = kind === 'hot-rolled' ? hotRolled : coldFormed;
  return computed('F_e', `dowel bearing strength of ${kind} steel`, psi, rule, [Fu], source);
}
const hotRolled = formula('2.4 * F_u / 1.6');
const coldFormed = formula('2.2 * F_u / 1.6');

/** Steels of the printed tables, psi as printed (61,875 is printed 61,850). NDS 2018 Tables 12J-12N footnotes. */
export const tabulatedSteels = {
  A36: { printed: 87_000, section: section('NDS 2018', 'Table 12K footnote, ASTM A36', 'from-memory') },
  'A653 Gr 33': { printed: 61_850, section: section('NDS 2018', 'Table 12K footnote, ASTM A653 Gr 33', 'published') },
} as const;
export function tabulatedSteelBearing(steel: keyof typeof tabulatedSteels): Traced<Stress> {
  const entry = tabulatedSteels[steel];
  return fromTable('F_e', `dowel bearing strength of ${steel}`, psi, poundsPerSquareInch(entry.printed), entry.section);
}
