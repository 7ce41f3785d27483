import type { Length } from '../../units/length.ts';
import { inches } from '../../units/length.ts';
import { section } from '../publications.ts';
import type { Traced } from '../trace.ts';
import { fromTable } from '../trace.ts';
import { factor } from '../trace-units.ts';

/**
 * Specific gravity G assigned to sawn lumber, oven-dry weight and volume. NDS 2018 Table 12.3.3A (from memory).
 * Keys are the words that a layout uses.
 */
export const specificGravities = {
  'red-oak': 0.67,
  'southern-pine': 0.55,
  'douglas-fir': 0.5,
  'douglas-fir-north': 0.49,
  'douglas-fir-south': 0.46,
  'hem-fir': 0.43,
  'spruce-pine-fir': 0.42,
  'redwood-close-grain': 0.44,
  'redwood-open-grain': 0.37,
  'western-woods': 0.36,
} as const satisfies Record<string, number>;
export type Species = keyof typeof specificGravities;

/** `undefined` for a species that the table does not list: nobody knows its strength. */
export function specificGravityOf(species: string): Traced<number> | undefined {
  if (!Object.hasOwn(specificGravities, species)) return undefined;
  const source = section('NDS 2018', 'Table 12.3.3A', 'from-memory');
  return fromTable('G', `specific gravity of ${species}`, factor, specificGravities[species as Species], source);
}

/** When a board was sawn and surfaced: what "2x6" means differs. */
export type LumberEra =
  /** As sawn, before about 1920: a 2x6 is 2 by 6. */
  | 'full-sawn'
  /** American lumber standard of the 1920s to the 1950s, dry and surfaced: 1-5/8 by 5-5/8. */
  | 'old-dressed'
  /** Since the 1964-1970 standard, dry and surfaced: 1-1/2 by 5-1/2. */
  | 'dressed';

export interface LumberSize {
  readonly thick: Length;
  readonly wide: Length;
}

/**
 * True size of a nominal board. A tape always beats this table: it is what to expect where only "2x6" is known.
 * `dressed`: American softwood lumber standard PS 20; the older two: common practice, no source.
 * `undefined` for a size that was not a stock size.
 */
export function lumberSize(nominalThick: number, nominalWide: number, era: LumberEra): LumberSize | undefined {
  const thick = trueInches(nominalThick, era, thickDressed);
  const wide = trueInches(nominalWide, era, wideDressed);
  if (thick === undefined || wide === undefined) return undefined;
  // Timbers (5 in and thicker) lose half an inch each way, whatever their width.
  const timber = nominalThick >= 5 && era !== 'full-sawn';
  return { thick: inches(thick), wide: inches(timber ? nominalWide - 0.5 : wide) };
}

function trueInches(
  nominal: number,
  era: LumberEra,
  dressed: ReadonlyMap<number, readonly [number, number]>,
): number | undefined {
  const sizes = dressed.get(nominal);
  if (!sizes) return undefined;
  if (era === 'full-sawn') return nominal;
  return era === 'dressed' ? sizes[0] : sizes[1];
}

/** Nominal: dressed today, dressed in the 1920s to 1950s. */
const thickDressed: ReadonlyMap<number, readonly [number, number]> = new Map([
  [1, [0.75, 0.78125]],
  [2, [1.5, 1.625]],
  [3, [2.5, 2.625]],
  [4, [3.5, 3.625]],
  [6, [5.5, 5.5]],
  [8, [7.5, 7.5]],
]);
const wideDressed: ReadonlyMap<number, readonly [number, number]> = new Map([
  [2, [1.5, 1.625]],
  [3, [2.5, 2.625]],
  [4, [3.5, 3.625]],
  [6, [5.5, 5.625]],
  [8, [7.25, 7.5]],
  [10, [9.25, 9.5]],
  [12, [11.25, 11.5]],
]);
