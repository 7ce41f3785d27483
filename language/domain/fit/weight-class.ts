import type { Layout } from '../model/layout.ts';
import { knownValue } from '../model/reading.ts';
import type { ConditionFact } from '../rulesets/limit-for.ts';
import { inUnit } from '../units/quantity.ts';

const PLASTER: ReadonlySet<string> = new Set(['stucco', 'plaster', 'cement-plaster']);
const TILE: ReadonlySet<string> = new Set(['tile', 'clay-tile', 'concrete-tile', 'tiles', 'clay-tiles', 'slate']);
/** Table A304.3.1 of the existing-building appendix, from memory: a tile roof of more than this counts as heavy. */
const HEAVY_ROOF_PSF = 6;

/**
 * Whether the house is of the heavy class, as limits ask with `for … heavy`: walls of cement plaster together with a clay or
 * concrete tile roof of more than 6 psf. `undefined`: it is not.
 */
export function heavyFact({ house }: Layout): ConditionFact | undefined {
  const siding = house.words.get('siding')?.map((word) => word.toLowerCase());
  const roof = house.words.get('roof')?.map((word) => word.toLowerCase());
  const plaster = answerOf(siding, PLASTER);
  const weight = knownValue(house.weights.get('roof'));
  const psf = weight && inUnit(weight, 'psf');
  const tile =
    answerOf(roof, TILE) === 'yes' && psf !== undefined && psf <= HEAVY_ROOF_PSF ? 'no' : answerOf(roof, TILE);
  if (plaster === 'no' || tile === 'no') return undefined;
  if (plaster === 'yes' && tile === 'yes') return { kind: 'holds' };
  const wants = [...(plaster === 'yes' ? [] : ['wall finish']), ...(tile === 'yes' ? [] : ['kind of roof'])];
  return { kind: 'unknown', wants: wants.join(', ') };
}

function answerOf(words: readonly string[] | undefined, wanted: ReadonlySet<string>): 'yes' | 'no' | 'unknown' {
  if (!words || words.includes('unknown')) return 'unknown';
  return words.some((word) => wanted.has(word)) ? 'yes' : 'no';
}
