import type { Length } from './length.ts';
import { inches } from './length.ts';

/** True size of a board or timber, the smaller dimension first. */
export interface DressedSize {
  readonly thick: Length;
  readonly wide: Length;
}

/**
 * The dressed size that the trade calls `2x6`, in either order and with any cross between.
 * American Softwood Lumber Standard PS 20, table 3 (from memory; it agrees with published size tables): boards and
 * dimension lumber dry, timbers of 5 in and more green. Lumber sawn before about 1925 is fuller: measure it.
 * `undefined` for what the table does not have.
 */
export function nominalSize(text: string): DressedSize | undefined {
  const [, first, second] = /^(\d{1,2})[ \t]*[xX×][ \t]*(\d{1,2})$/.exec(text.trim()) ?? [];
  if (first === undefined || second === undefined) return undefined;
  const thick = Math.min(Number(first), Number(second));
  const wide = Math.max(Number(first), Number(second));
  if (thick >= 5) {
    return wide <= WIDEST_TIMBER ? { thick: inches(thick - 1 / 2), wide: inches(wide - 1 / 2) } : undefined;
  }
  const dressedThick = THICKNESSES.get(thick);
  if (dressedThick === undefined || wide < 2 || wide > WIDEST_BOARD) return undefined;
  return { thick: inches(dressedThick), wide: inches(wide < 8 ? wide - 1 / 2 : wide - 3 / 4) };
}

/** Inches, of nominal inches: boards and dimension lumber. */
const THICKNESSES: ReadonlyMap<number, number> = new Map([
  [1, 3 / 4],
  [2, 1 + 1 / 2],
  [3, 2 + 1 / 2],
  [4, 3 + 1 / 2],
]);
const WIDEST_BOARD = 16;
const WIDEST_TIMBER = 24;
