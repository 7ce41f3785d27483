/**
 * A length is a whole count of nanometres: 1/64 in = 396 875 nm and 1 mm = 1 000 000 nm are both exact,
 * so inch and metric readings meet without rounding (1 in = 25.4 mm exactly, NIST SP 811 appendix B.6).
 */
export type Length = number & { readonly [lengthUnit]: 'nanometre' };
declare const lengthUnit: unique symbol;

/** Wraps a whole number of nanometres. @throws RangeError where the count is not a safe whole number. */
export function nanometres(count: number): Length {
  if (!Number.isSafeInteger(count)) throw new RangeError(`not a whole number of nanometres: ${count}`);
  return (count === 0 ? 0 : count) as Length;
}

export const NANOMETRES_PER_INCH = 25_400_000;
export const NANOMETRES_PER_FOOT = 304_800_000;
export const NANOMETRES_PER_MILLIMETRE = 1_000_000;

export const zero: Length = nanometres(0);
/** One sixteenth of an inch: the finest mark of a tape. */
export const sixteenth: Length = nanometres(NANOMETRES_PER_INCH / 16);
export const millimetre: Length = nanometres(NANOMETRES_PER_MILLIMETRE);

/** `inches(9)`, `inches(3.5)`: rounded to the nearest nanometre (exact for every 1/64 in). */
export const inches = (count: number): Length => nanometres(Math.round(count * NANOMETRES_PER_INCH));
export const feet = (count: number): Length => nanometres(Math.round(count * NANOMETRES_PER_FOOT));
export const millimetres = (count: number): Length => nanometres(Math.round(count * NANOMETRES_PER_MILLIMETRE));

/** As a plain number, for drawing and for engineering formulas only: never compare these. */
export const inInches = (length: Length): number => length / NANOMETRES_PER_INCH;
export const inFeet = (length: Length): number => length / NANOMETRES_PER_FOOT;
export const inMillimetres = (length: Length): number => length / NANOMETRES_PER_MILLIMETRE;

export const plus = (a: Length, b: Length): Length => nanometres(a + b);
export const minus = (a: Length, b: Length): Length => nanometres(a - b);
export const negate = (a: Length): Length => nanometres(-a);
export const magnitude = (a: Length): Length => nanometres(Math.abs(a));
export const smaller = (a: Length, b: Length): Length => (a <= b ? a : b);
export const larger = (a: Length, b: Length): Length => (a >= b ? a : b);
/** `a × numerator / denominator`, rounded to the nearest nanometre. */
export function scale(a: Length, numerator: number, denominator = 1): Length {
  return nanometres(Math.round((a * numerator) / denominator));
}
/** Half of a length, rounded down to a whole nanometre. */
export const half = (a: Length): Length => nanometres(Math.floor(a / 2));
export const midpoint = (a: Length, b: Length): Length => nanometres(Math.floor((a + b) / 2));

/** The nearest multiple of `step`; a tie goes up. */
export const roundTo = (a: Length, step: Length): Length => nanometres(Math.round(a / step) * step);
export const roundDownTo = (a: Length, step: Length): Length => nanometres(Math.floor(a / step) * step);
export const roundUpTo = (a: Length, step: Length): Length => nanometres(Math.ceil(a / step) * step);
