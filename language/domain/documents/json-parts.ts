import type { LengthUnits } from '../model/layout.ts';
import { formatStation } from '../units/format-length.ts';
import type { Length } from '../units/length.ts';
import type { Basis } from './basis.ts';

/** Exact, and as a person reads it. */
export function lengthInJson(length: Length, units: LengthUnits): { readonly nm: number; readonly text: string } {
  return { nm: length, text: formatStation(length, units) };
}

export function stationInJson(station: Length | undefined, units: LengthUnits): ReturnType<typeof lengthInJson> | null {
  return station === undefined ? null : lengthInJson(station, units);
}

export function basisInJson({ rules, label, because, stopped, demo, counts, lines }: Basis) {
  return { rules, label, because: because ?? null, stopped, demo, counts, lines };
}
