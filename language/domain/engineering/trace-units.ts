import type { Area } from '../units/area.ts';
import { inSquareFeet, inSquareInches, squareFeet, squareInches } from '../units/area.ts';
import type { Force, ForcePerLength } from '../units/force.ts';
import { inPounds, inPoundsPerFoot, pounds, poundsPerFoot } from '../units/force.ts';
import type { Length } from '../units/length.ts';
import { inFeet, inInches, NANOMETRES_PER_FOOT, NANOMETRES_PER_INCH, nanometres } from '../units/length.ts';
import type { Moment } from '../units/moment.ts';
import { footPounds, inFootPounds } from '../units/moment.ts';
import type { Stress } from '../units/stress.ts';
import {
  inPoundsPerSquareFoot,
  inPoundsPerSquareInch,
  poundsPerSquareFoot,
  poundsPerSquareInch,
} from '../units/stress.ts';

/**
 * How a branded value enters a formula and leaves it. The formulas are those of American standards, whose constants
 * hold in inches and pounds only; what goes in and comes out may be given in any unit.
 */
export interface TraceUnit<T> {
  readonly label: string;
  readonly from: (value: T) => number;
  readonly to: (number: number) => T;
}

export const inch: TraceUnit<Length> = {
  label: 'in',
  from: inInches,
  to: (number) => lengthOf(number * NANOMETRES_PER_INCH),
};
export const foot: TraceUnit<Length> = {
  label: 'ft',
  from: inFeet,
  to: (number) => lengthOf(number * NANOMETRES_PER_FOOT),
};
/** A spacing by force may come out without end; it stops at nine thousand kilometres, which no wall reaches. */
const lengthOf = (count: number): Length =>
  nanometres(Math.max(-Number.MAX_SAFE_INTEGER, Math.min(Number.MAX_SAFE_INTEGER, Math.round(count))));
export const pound: TraceUnit<Force> = { label: 'lb', from: inPounds, to: pounds };
export const plf: TraceUnit<ForcePerLength> = { label: 'plf', from: inPoundsPerFoot, to: poundsPerFoot };
/** A line load over an inch, as withdrawal tables print it. */
export const poundPerInch: TraceUnit<ForcePerLength> = {
  label: 'lb/in',
  from: (load) => inPoundsPerFoot(load) / 12,
  to: (number) => poundsPerFoot(number * 12),
};
export const psi: TraceUnit<Stress> = { label: 'psi', from: inPoundsPerSquareInch, to: poundsPerSquareInch };
export const psf: TraceUnit<Stress> = { label: 'psf', from: inPoundsPerSquareFoot, to: poundsPerSquareFoot };
export const squareInch: TraceUnit<Area> = { label: 'in²', from: inSquareInches, to: squareInches };
export const squareFoot: TraceUnit<Area> = { label: 'sq ft', from: inSquareFeet, to: squareFeet };
export const footPound: TraceUnit<Moment> = { label: 'ft-lb', from: inFootPounds, to: footPounds };

const plain = (label: string): TraceUnit<number> => ({ label, from: (value) => value, to: (number) => number });
export const factor: TraceUnit<number> = plain('');
export const degree: TraceUnit<number> = plain('deg');
export const second: TraceUnit<number> = plain('s');
/** A spectral acceleration, as a multiple of gravity. */
export const acceleration: TraceUnit<number> = plain('g');
/** Pieces: bolts, threads an inch, fasteners in a row. */
export const count: TraceUnit<number> = plain('');
