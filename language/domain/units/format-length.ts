import type { LengthUnits } from '../model/layout.ts';
import type { Length } from './length.ts';
import { NANOMETRES_PER_INCH, NANOMETRES_PER_MILLIMETRE } from './length.ts';

/**
 * A length as a person reads it, to 1/16 in or 1 mm: `3-1/2"` below a foot, `3'-4 1/2"` from a foot up, `1067 mm`.
 * A tie rounds away from zero. Rounded text is for reading only: write files with `formatExact`.
 */
export function formatLength(length: Length, units: LengthUnits): string {
  if (units === 'metric') return wholeMillimetres(length);
  const sixteenths = countOf(length, SIXTEENTH);
  return signOf(length, sixteenths) + (sixteenths < 12 * 16 ? bareInches(sixteenths, 16) : feetInches(sixteenths, 16));
}

/** A station or level: always with feet, `0'-10"`, so that a column of them reads down the tape. */
export function formatStation(length: Length, units: LengthUnits): string {
  if (units === 'metric') return wholeMillimetres(length);
  const sixteenths = countOf(length, SIXTEENTH);
  return signOf(length, sixteenths) + feetInches(sixteenths, 16);
}

/** A size or cut that the trade says in inches whatever its length: `25-1/8"`, `48"`. */
export function formatInches(length: Length, units: LengthUnits): string {
  if (units === 'metric') return wholeMillimetres(length);
  const sixteenths = countOf(length, SIXTEENTH);
  return signOf(length, sixteenths) + bareInches(sixteenths, 16);
}

/** For a hover or a schedule that serves both crews: `3'-4 1/2" (1029 mm)`. */
export function formatBoth(length: Length): string {
  return `${formatLength(length, 'feet-inches')} (${formatLength(length, 'metric')})`;
}

/**
 * For writing into a file: `parseLength` gives back exactly this length. What is not on an inch tape (a multiple of
 * 1/64 in) is written in millimetres with as many decimals as it takes.
 */
export function formatExact(length: Length, units: LengthUnits): string {
  const sixtyFourths = exactSixtyFourths(length, units);
  if (sixtyFourths === undefined) return exactMillimetres(length);
  return (
    signOf(length, sixtyFourths) +
    (sixtyFourths < 12 * 64 ? bareInches(sixtyFourths, 64) : feetInches(sixtyFourths, 64))
  );
}

/** As `formatExact`, always with feet where it is on an inch tape. */
export function formatExactStation(length: Length, units: LengthUnits): string {
  const sixtyFourths = exactSixtyFourths(length, units);
  if (sixtyFourths === undefined) return exactMillimetres(length);
  return signOf(length, sixtyFourths) + feetInches(sixtyFourths, 64);
}

const SIXTEENTH = NANOMETRES_PER_INCH / 16;
const SIXTY_FOURTH = NANOMETRES_PER_INCH / 64;

/** How many steps long, without its sign, to the nearest. */
function countOf(length: Length, step: number): number {
  return Math.round(Math.abs(length) / step);
}

/** What rounds to nothing has no sign. */
function signOf(length: Length, count: number): string {
  return length < 0 && count > 0 ? '-' : '';
}

function exactSixtyFourths(length: Length, units: LengthUnits): number | undefined {
  if (units === 'metric' || length % SIXTY_FOURTH !== 0) return undefined;
  return Math.abs(length) / SIXTY_FOURTH;
}

/** `parts` to an inch; hyphen before the fraction, as bare inches are written. */
function bareInches(count: number, parts: number): string {
  const whole = Math.floor(count / parts);
  const fraction = reduced(count % parts, parts);
  if (fraction === '') return `${whole}"`;
  return whole === 0 ? `${fraction}"` : `${whole}-${fraction}"`;
}

/** Space before the fraction: `3'-4 1/2"`, `3'-0 1/2"`. */
function feetInches(count: number, parts: number): string {
  const foot = 12 * parts;
  const inches = count % foot;
  const fraction = reduced(inches % parts, parts);
  return `${Math.floor(count / foot)}'-${Math.floor(inches / parts)}${fraction === '' ? '' : ` ${fraction}`}"`;
}

/** `8` of `16` is `1/2`; nothing is the empty text. */
function reduced(count: number, parts: number): string {
  if (count === 0) return '';
  let numerator = count;
  let denominator = parts;
  while (numerator % 2 === 0) {
    numerator /= 2;
    denominator /= 2;
  }
  return `${numerator}/${denominator}`;
}

function wholeMillimetres(length: Length): string {
  const count = countOf(length, NANOMETRES_PER_MILLIMETRE);
  return `${signOf(length, count)}${count} mm`;
}

function exactMillimetres(length: Length): string {
  const nanometres = Math.abs(length);
  const whole = Math.floor(nanometres / NANOMETRES_PER_MILLIMETRE);
  const decimals = String(nanometres % NANOMETRES_PER_MILLIMETRE)
    .padStart(6, '0')
    .replace(/0+$/, '');
  return `${length < 0 ? '-' : ''}${whole}${decimals === '' ? '' : `.${decimals}`} mm`;
}
