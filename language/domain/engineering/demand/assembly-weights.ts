import type { Stress } from '../../units/stress.ts';
import { poundsPerSquareFoot } from '../../units/stress.ts';
import { formula } from '../formula.ts';
import type { Section } from '../publications.ts';
import { section } from '../publications.ts';
import type { Trace, Traced } from '../trace.ts';
import { computed, fromTable, given } from '../trace.ts';
import { psf } from '../trace-units.ts';

/** Weight of a layer or part of a building, per square foot of its own area. */
export interface LayerWeight {
  readonly name: string;
  readonly psf: number;
  /** As the source prints it beside, where it does. */
  readonly kilonewtonsPerSquareMetre?: number;
  readonly section: Section;
}

const found = section('ASCE 7-10', 'Table C3-1', 'published');
const remembered = section('ASCE 7-16', 'Table C3.1-1a', 'from-memory');
const layer = (name: string, weight: number, metric: number): LayerWeight => ({
  name,
  psf: weight,
  kilonewtonsPerSquareMetre: metric,
  section: found,
});

/**
 * Minimum design dead loads. ASCE 7-05 and 7-10 Table C3-1, read in public copies; the last rows ASCE 7-16 Table C3.1-1a
 * from memory. In the source the two columns of the 3 in decking disagree (8 psf is 0.38 kN/m²).
 */
export const layerWeights: readonly LayerWeight[] = [
  layer('asphalt shingles', 2, 0.1),
  layer('wood shingles', 3, 0.14),
  layer('cement tile', 16, 0.77),
  layer('clay tile, spanish', 19, 0.91),
  layer('clay tile, roman', 12, 0.57),
  layer('gypsum sheathing 1/2 in', 2, 0.1),
  layer('plaster on wood lath (ceiling)', 8, 0.38),
  layer('plaster on tile or concrete', 5, 0.24),
  layer('fiberboard 1/2 in', 0.75, 0.04),
  layer('decking 2 in douglas fir', 5, 0.24),
  layer('decking 3 in douglas fir', 8, 0.35),
  layer('copper or tin', 1, 0.05),
  layer('wood studs 2x4 unplastered', 4, 0.19),
  layer('wood studs 2x4 plastered one side', 12, 0.57),
  layer('wood studs 2x4 plastered two sides', 20, 0.96),
  layer('windows, glass, frame and sash', 8, 0.38),
  layer('mechanical duct allowance', 4, 0.19),
  { name: 'exterior stud wall 2x4 at 16 in, half-inch gypsum, insulated, siding', psf: 11, section: remembered },
  { name: 'exterior stud wall 2x6 at 16 in, half-inch gypsum, insulated, siding', psf: 12, section: remembered },
  { name: 'stucco 7/8 in', psf: 10, section: remembered },
  { name: 'hardwood floor 7/8 in', psf: 4, section: remembered },
  { name: 'gypsum board, each 1/8 in', psf: 0.55, section: remembered },
  { name: 'plywood, each 1/8 in', psf: 0.4, section: remembered },
];

/** `undefined` for a layer that the tables do not list. */
export function layerWeight(name: string): Traced<Stress> | undefined {
  const listed = layerWeights.find((each) => each.name === name);
  return listed && fromTable('w', listed.name, psf, poundsPerSquareFoot(listed.psf), listed.section);
}

/** One part of an assembly: a listed layer's trace, or a number of one's own. */
export interface AssemblyPart {
  readonly name: string;
  readonly weight: Stress | Traced<Stress>;
}
/** Weight of a roof, floor or wall from its parts, psf. */
export function assemblyWeight(name: string, parts: readonly AssemblyPart[]): Traced<Stress> {
  const layers = parts.map((part, index): Trace => {
    const symbol = `w_${index + 1}`;
    return typeof part.weight === 'object' ? { ...part.weight, symbol } : given(symbol, part.name, psf, part.weight);
  });
  const rule = formula(layers.length > 0 ? layers.map((each) => each.symbol).join(' + ') : '0');
  return computed('w', `dead load of ${name}`, psf, rule, layers, section('statics', '', 'published'));
}

/** Design loads that a permit record for new houses in western Washington, 2024, prints (read from a scan in which numbers and labels are detached): a point of comparison, psf. */
export const permitRecordLoads = { roofDead: 15, floorDead: 12, floorLive: 40, roofSnow: 25 } as const;
