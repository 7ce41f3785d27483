import type { Stretch } from '../model/layout.ts';
import { type Length, larger, smaller } from '../units/length.ts';

/** What of a wall or girder a drawing shows where it is cut for its paper; an end that is not cut is absent. */
export interface ShownPart {
  readonly from?: Length;
  readonly to?: Length;
}
export const wholeLength: ShownPart = {};

export function isShown({ from, to }: ShownPart, station: Length): boolean {
  return (from === undefined || station >= from) && (to === undefined || station <= to);
}

/** What of a stretch shows; `undefined` for none of it. */
export function shownOf(part: ShownPart, stretch: Stretch): Stretch | undefined {
  const from = part.from === undefined ? stretch.from : larger(part.from, stretch.from);
  const to = part.to === undefined ? stretch.to : smaller(part.to, stretch.to);
  return to < from ? undefined : { from, to };
}
