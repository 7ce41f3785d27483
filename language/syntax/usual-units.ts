import type { Dimension } from '../domain/units/quantity.ts';

/** A number that lacks its unit, with each unit that a builder would have meant; none where nobody could tell. */
export function withUsualUnits(typed: string, dimension: Dimension): readonly string[] {
  return (usualUnits[dimension] ?? []).map((unit) => `${typed} ${unit}`);
}

const usualUnits: Readonly<Partial<Record<Dimension, readonly string[]>>> = {
  force: ['lb', 'kN'],
  pressure: ['psi', 'MPa'],
  'force-per-length': ['plf', 'kN/m'],
  area: ['sq ft', 'm2'],
  share: ['%'],
  density: ['pcf'],
  moment: ['ft-lb', 'N·m'],
  time: ['min', 'hours'],
};
