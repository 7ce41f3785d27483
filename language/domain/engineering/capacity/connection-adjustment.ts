import type { Area } from '../../units/area.ts';
import type { Force } from '../../units/force.ts';
import type { Length } from '../../units/length.ts';
import { inInches } from '../../units/length.ts';
import type { Stress } from '../../units/stress.ts';
import { formula } from '../formula.ts';
import { section } from '../publications.ts';
import type { Input, Trace, Traced } from '../trace.ts';
import { asInput, computed, fromTable, given, leastOf } from '../trace.ts';
import { count, factor, inch, pound, psi, squareInch } from '../trace-units.ts';

/** Load duration factor C_D by the shortest load. NDS 2018 Table 2.3.2 (from memory). Impact never counts for connections. */
export const loadDurationFactors = {
  permanent: 0.9,
  'ten-years': 1.0,
  'two-months': 1.15,
  'seven-days': 1.25,
  'wind-or-earthquake': 1.6,
  impact: 2.0,
} as const satisfies Record<string, number>;
export type LoadDuration = keyof typeof loadDurationFactors;

export function loadDuration(shortest: LoadDuration): Traced<number> {
  const source = section('NDS 2018', 'Table 2.3.2', 'from-memory');
  return fromTable(
    'C_D',
    `load duration factor, ${shortest.replaceAll('-', ' ')}`,
    factor,
    loadDurationFactors[shortest],
    source,
  );
}

/** How wet the wood is when made and when in use. Wet: over 19 percent. */
export type Moisture = 'dry' | 'wet-in-service' | 'dried-after';
/**
 * Wet service factor C_M for laterally loaded dowels. NDS 2018 Table 11.3.3 (from memory). `dried-after`: put in wet and
 * dried in place; 0.4 unless it is one fastener, one row along the grain, or rows with a splice plate each.
 */
export function wetService(moisture: Moisture, singleRow: boolean): Traced<number> {
  const value = moisture === 'wet-in-service' ? 0.7 : moisture === 'dried-after' && !singleRow ? 0.4 : 1;
  const source = section('NDS 2018', 'Table 11.3.3', 'from-memory');
  return fromTable('C_M', `wet service factor, ${moisture.replaceAll('-', ' ')}`, factor, value, source);
}

/** End grain factor C_eg for lateral load: 0.67. NDS 2018 12.5.2.2 (from memory). */
export const endGrain = (): Traced<number> =>
  fromTable('C_eg', 'end grain factor, lateral', factor, 0.67, section('NDS 2018', '12.5.2.2', 'from-memory'));
/** Toe-nail factor C_tn for lateral load: 0.83. NDS 2018 12.5.4.2 (from memory). */
export const toeNail = (): Traced<number> =>
  fromTable('C_tn', 'toe-nail factor, lateral', factor, 0.83, section('NDS 2018', '12.5.4.2', 'from-memory'));
/** Diaphragm factor C_di for nails that fasten sheathing of a diaphragm: 1.1. NDS 2018 12.5.3 (from memory). */
export const diaphragmNail = (): Traced<number> =>
  fromTable('C_di', 'diaphragm factor', factor, 1.1, section('NDS 2018', '12.5.3', 'from-memory'));

/** Factors that are absent are 1 and are not printed. */
export interface LateralAdjustments {
  readonly loadDuration?: Input<number>;
  readonly wetService?: Input<number>;
  readonly temperature?: Input<number>;
  readonly groupAction?: Input<number>;
  readonly geometry?: Input<number>;
  readonly endGrain?: Input<number>;
  readonly diaphragm?: Input<number>;
  readonly toeNail?: Input<number>;
}

/** Adjusted lateral design value Z' in allowable-stress terms. NDS 2018 Table 11.3.1 (from memory). */
export function adjustedLateral(reference: Input<Force>, adjustments: LateralAdjustments): Traced<Force> {
  const Z = asInput('Z', 'reference lateral design value', pound, reference);
  const factors: Trace[] = [];
  for (const [key, symbol, meaning] of adjustmentOrder) {
    const value = adjustments[key];
    if (value !== undefined) factors.push(asInput(symbol, meaning, factor, value));
  }
  const rule = formula(['Z', ...factors.map((each) => each.symbol)].join(' * '));
  return computed(
    "Z'",
    'adjusted lateral design value',
    pound,
    rule,
    [Z, ...factors],
    section('NDS 2018', 'Table 11.3.1', 'from-memory'),
  );
}
const adjustmentOrder: readonly (readonly [keyof LateralAdjustments, string, string])[] = [
  ['loadDuration', 'C_D', 'load duration factor'],
  ['wetService', 'C_M', 'wet service factor'],
  ['temperature', 'C_t', 'temperature factor'],
  ['groupAction', 'C_g', 'group action factor'],
  ['geometry', 'C_Delta', 'geometry factor'],
  ['endGrain', 'C_eg', 'end grain factor'],
  ['diaphragm', 'C_di', 'diaphragm factor'],
  ['toeNail', 'C_tn', 'toe-nail factor'],
];

export interface FastenerRow {
  readonly diameter: Input<Length>;
  /** Fasteners in one row along the load. */
  readonly inRow: number;
  /** Centre to centre in the row. */
  readonly spacing: Input<Length>;
  readonly sideMaterial: 'wood' | 'metal';
  readonly mainElasticity: Input<Stress>;
  readonly sideElasticity: Input<Stress>;
  readonly mainArea: Input<Area>;
  /** Sum over the side members. */
  readonly sideArea: Input<Area>;
}

/**
 * Group action factor C_g for a row of dowels of 1/4 in and up; thinner ones share alike and take 1.
 * NDS 2018 Eq. 11.3-1 (from memory).
 */
export function groupAction(row: FastenerRow): Traced<number> {
  const source = section('NDS 2018', 'Eq. 11.3-1', 'from-memory');
  const D = asInput('D', 'dowel diameter, nominal', inch, row.diameter);
  if (inInches(D.value) < 0.25 || row.inRow < 2) {
    const note = row.inRow < 2 ? 'one fastener in the row' : 'D under 1/4 in';
    return fromTable('C_g', 'group action factor', factor, 1, source, [], [note]);
  }
  const s = asInput('s', 'spacing in the row', inch, row.spacing);
  const Em = asInput('E_m', 'modulus of elasticity, main member', psi, row.mainElasticity);
  const Es = asInput('E_s', 'modulus of elasticity, side members', psi, row.sideElasticity);
  const Am = asInput('A_m', 'gross area, main member', squareInch, row.mainArea);
  const As = asInput('A_s', 'gross area, side members together', squareInch, row.sideArea);
  const n = given('n', 'fasteners in the row', count, row.inRow);
  const gamma = computed(
    'gamma',
    'load-slip modulus, lb/in',
    factor,
    row.sideMaterial === 'wood' ? slipInWood : slipInMetal,
    [D],
    source,
  );
  const REA = computed('R_EA', 'stiffness ratio of the members', factor, stiffnessRatio, [Es, As, Em, Am], source);
  const u = computed('u', 'slip parameter', factor, slipParameter, [gamma, s, Em, Am, Es, As], source);
  const m = computed('m', 'slip root', factor, slipRoot, [u], source);
  return computed('C_g', 'group action factor', factor, groupRule, [m, n, REA], source);
}
const slipInWood = formula('180000 * D^1.5');
const slipInMetal = formula('270000 * D^1.5');
const stiffnessRatio = formula('min(E_s * A_s / (E_m * A_m), E_m * A_m / (E_s * A_s))');
const slipParameter = formula('1 + gamma * s / 2 * (1 / (E_m * A_m) + 1 / (E_s * A_s))');
const slipRoot = formula('u - sqrt(u^2 - 1)');
const groupRule = formula(
  'm * (1 - m^(2 * n)) / (n * ((1 + R_EA * m^n) * (1 + m) - 1 + m^(2 * n))) * (1 + R_EA) / (1 - m)',
);

export type EndLoad = 'parallel-tension' | 'parallel-compression' | 'perpendicular';
export interface DowelPlacement {
  readonly diameter: Input<Length>;
  readonly wood: 'softwood' | 'hardwood';
  readonly load: EndLoad;
  /** Centre to the end of the board; absent: not near an end. */
  readonly endDistance?: Input<Length>;
  /** Centre to centre along the row; absent: one alone. */
  readonly spacing?: Input<Length>;
}
/** `too-close`: under the least that the standard allows at any strength. */
export interface Placement {
  readonly factor: Traced<number>;
  readonly tooClose: readonly string[];
}

/**
 * Geometry factor C_Delta for dowels of 1/4 in and up: what is there over what full value wants, the smallest governs.
 * NDS 2018 Tables 12.5.1A, 12.5.1B (from memory). Edge distances do not reduce: see {@link leastEdgeDistance}.
 * Under 1/4 in it is 1 (12.5.1.1).
 */
export function geometryFactor(placement: DowelPlacement): Placement {
  const D = asInput('D', 'dowel diameter, nominal', inch, placement.diameter);
  const full = fromTable('C_Delta', 'geometry factor', factor, 1, section('NDS 2018', '12.5.1', 'from-memory'), [D]);
  if (inInches(D.value) < 0.25) return { factor: full, tooClose: [] };
  const tooClose: string[] = [];
  const parts: Traced<number>[] = [];
  const consider = (
    symbol: string,
    what: string,
    distance: Input<Length> | undefined,
    wanted: { readonly full: number; readonly least: number },
    place: string,
  ): void => {
    if (distance === undefined) return;
    const there = asInput(symbol, what, inch, distance);
    const inDiameters = inInches(there.value) / inInches(D.value);
    if (inDiameters < wanted.least - 1e-9)
      tooClose.push(`${what} is ${round3(inDiameters)} D, the least is ${wanted.least} D`);
    const rule = formula(`min(1, ${symbol} / (${wanted.full} * D))`);
    parts.push(
      computed(
        `C_Delta${symbol}`,
        `geometry factor, ${what}`,
        factor,
        rule,
        [there, D],
        section('NDS 2018', place, 'from-memory'),
      ),
    );
  };
  consider('e', 'end distance', placement.endDistance, endDistances[placement.load][placement.wood], 'Table 12.5.1A');
  consider('s', 'spacing in a row', placement.spacing, rowSpacing, 'Table 12.5.1B');
  const [first, ...others] = parts;
  if (!first) return { factor: full, tooClose };
  const governing = leastOf(
    'C_Delta',
    'geometry factor',
    factor,
    [first, ...others],
    section('NDS 2018', '12.5.1', 'from-memory'),
  );
  return { factor: governing, tooClose };
}
const round3 = (value: number): number => Math.round(value * 1000) / 1000;

/** In diameters: for the full value, and the least (half value). */
const endDistances: Readonly<
  Record<EndLoad, Readonly<Record<'softwood' | 'hardwood', { readonly full: number; readonly least: number }>>>
> = {
  'parallel-tension': { softwood: { full: 7, least: 3.5 }, hardwood: { full: 5, least: 2.5 } },
  'parallel-compression': { softwood: { full: 4, least: 2 }, hardwood: { full: 4, least: 2 } },
  perpendicular: { softwood: { full: 4, least: 2 }, hardwood: { full: 4, least: 2 } },
};
const rowSpacing = { full: 4, least: 3 } as const;

/**
 * Least edge distance: 1.5 D along the grain (more for slender dowels in several rows, not treated here), 4 D at an edge
 * that the load presses on, 1.5 D at the other. NDS 2018 Table 12.5.1C (from memory).
 */
export function leastEdgeDistance(diameter: Input<Length>, edge: 'parallel' | 'loaded' | 'unloaded'): Traced<Length> {
  const D = asInput('D', 'dowel diameter, nominal', inch, diameter);
  const source = section('NDS 2018', 'Table 12.5.1C', 'from-memory');
  return computed(
    'e_min',
    `least edge distance, ${edge}`,
    inch,
    edge === 'loaded' ? fourDiameters : oneAndAHalfDiameters,
    [D],
    source,
  );
}
const fourDiameters = formula('4 * D');
const oneAndAHalfDiameters = formula('1.5 * D');
