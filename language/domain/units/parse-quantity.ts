import type { Quantity } from './quantity.ts';
import { QUANTITY_UNITS, quantityOf } from './quantity.ts';

/**
 * Reads `2500 psi`, `45°`, `25 %`, `-5.5kN/m`, or a plain number (dimension `number`). Units in any case, where that
 * leaves no doubt. `undefined` for anything else, lengths and money too. Time is linear in the text.
 */
export function parseQuantity(text: string): Quantity | undefined {
  const { sign, digits, unit = '' } = WRITTEN.exec(text.trim())?.groups ?? {};
  if (digits === undefined || digits.length > MOST_DIGITS) return undefined;
  const name = unitNamed(unit);
  if (name === undefined) return undefined;
  const magnitude = Number(digits);
  return quantityOf(sign === '-' || sign === '−' ? -magnitude || 0 : magnitude, name);
}

/** As many as a number holds exactly. */
const MOST_DIGITS = 16;

const WRITTEN = /^(?<sign>[-−+]?)(?<digits>\d+(?:\.\d+)?)(?<unit>[^\d.].*)?$/su;

function unitNamed(written: string): string | undefined {
  const spaced = written.trim().replace(/[ \t]+/g, ' ');
  return QUANTITY_UNITS.has(spaced) ? spaced : UNITS_IN_SMALL_LETTERS.get(spaced.toLowerCase());
}

/** Phones write `Psi` and `KN`. None of our units differ by case alone. */
const UNITS_IN_SMALL_LETTERS: ReadonlyMap<string, string> = new Map(
  [...QUANTITY_UNITS.keys()].map((name) => [name.toLowerCase(), name]),
);
