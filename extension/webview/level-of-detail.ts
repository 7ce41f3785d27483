/** Nothing on the screen is written smaller. Pixels; the size of the font. */
export const LEAST_TEXT = 11;

/** How fine a drawing is shown: `all` the way to nails and inch ticks, down to dots and bars. */
export type Detail = 'all' | 'most' | 'few' | 'least';
export const details: readonly Detail[] = ['all', 'most', 'few', 'least'];

/** @param pixels for a true inch. */
export function detailOf(pixels: number): Detail {
  if (pixels >= 5) return 'all';
  if (pixels >= 2.5) return 'most';
  return pixels >= 1 ? 'few' : 'least';
}

/**
 * What becomes of a text: shown as it is, made larger where it stands alone, or left out; never written too small.
 *
 * @param pixels size of its font at this scale.
 * @param most how much larger it may become without running into its neighbours; 1: not at all.
 */
export function textAt(pixels: number, most: number): 'as-is' | 'left-out' | { readonly larger: number } {
  if (pixels >= LEAST_TEXT - 1e-6) return 'as-is';
  const larger = LEAST_TEXT / pixels;
  return larger <= most ? { larger } : 'left-out';
}
