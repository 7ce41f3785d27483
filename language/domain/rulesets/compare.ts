import type { Length } from '../units/length.ts';
import { nanometres, zero } from '../units/length.ts';
import type { Quantity } from '../units/quantity.ts';
import type { Bound, Limit } from './rule-set.ts';

/**
 * Whether a length keeps a bound. Bounds are inclusive: `at-most 48"` holds at 48 in, `under 12'-0"` does not at 12 ft.
 * @param tolerance of the tape: given for spacing, end distances and distances between stations, for nothing else
 */
export function compareLength(bound: Bound, length: Length, tolerance: Length = zero): boolean {
  const { value } = bound;
  // A bare 0 is a length and a number alike.
  if (value.kind === 'number' && value.number === 0) return keeps(bound, length, 0, tolerance);
  if (value.kind !== 'length') return false;
  return keeps(bound, length, value.length, tolerance);
}

export function compareNumber(bound: Bound, number: number): boolean {
  if (bound.value.kind === 'number') return keeps(bound, number, bound.value.number, 0);
  if (bound.value.kind === 'length' && bound.value.length === 0) return keeps(bound, number, 0, 0);
  return false;
}

/** Quantities compare in their base units; one of another dimension keeps no bound. */
export function compareQuantity({ comparison, value }: Bound, { amount, dimension }: Quantity): boolean {
  if (value.kind !== 'quantity' || value.quantity.dimension !== dimension) return false;
  return keeps({ comparison, value }, amount, value.quantity.amount, 0);
}

function keeps(bound: Bound, value: number, limit: number, tolerance: number): boolean {
  switch (bound.comparison) {
    case 'at-least':
      return value >= limit - tolerance;
    case 'over':
      return value > limit - tolerance;
    case 'at-most':
      return value <= limit + tolerance;
    case 'under':
      return value < limit + tolerance;
    case 'is':
      return Math.abs(value - limit) <= tolerance;
  }
}

/** A side of a limit on lengths; `reach` is the last whole nanometre that keeps it. */
export interface LengthBound {
  readonly bound: Bound;
  readonly reach: Length;
}

/** What a length must at least be, where the limit says it. */
export function leastLength(limit: Limit): LengthBound | undefined {
  for (const bound of limit.bounds) {
    const value = lengthOf(bound);
    if (value === undefined) continue;
    if (bound.comparison === 'at-least' || bound.comparison === 'is') return { bound, reach: value };
    if (bound.comparison === 'over') return { bound, reach: nanometres(value + 1) };
  }
  return undefined;
}

/** What a length may at most be, where the limit says it. */
export function mostLength(limit: Limit): LengthBound | undefined {
  for (const bound of limit.bounds) {
    const value = lengthOf(bound);
    if (value === undefined) continue;
    if (bound.comparison === 'at-most' || bound.comparison === 'is') return { bound, reach: value };
    if (bound.comparison === 'under') return { bound, reach: nanometres(value - 1) };
  }
  return undefined;
}

/** How many there must at least be, where the limit says it. */
export function leastCount(limit: Limit): number | undefined {
  for (const { comparison, value } of limit.bounds) {
    if (value.kind !== 'number') continue;
    if (comparison === 'at-least' || comparison === 'is') return Math.ceil(value.number);
    if (comparison === 'over') return Math.floor(value.number) + 1;
  }
  return undefined;
}

/** The value of a bound as a length; a bare 0 is one too. */
export function lengthOf({ value }: Bound): Length | undefined {
  if (value.kind === 'length') return value.length;
  return value.kind === 'number' && value.number === 0 ? zero : undefined;
}
