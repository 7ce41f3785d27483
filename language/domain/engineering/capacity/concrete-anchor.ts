import type { Area } from '../../units/area.ts';
import type { Force } from '../../units/force.ts';
import type { Length } from '../../units/length.ts';
import { inInches, zero } from '../../units/length.ts';
import type { Stress } from '../../units/stress.ts';
import { formula } from '../formula.ts';
import type { Section } from '../publications.ts';
import { section } from '../publications.ts';
import type { Governed, Input, Outcome, Refused, Trace, Traced } from '../trace.ts';
import { asInput, bare, computed, fromTable, given, leastOf, refused } from '../trace.ts';
import { count, factor, inch, pound, psi, squareInch } from '../trace-units.ts';

/*
 * Strength of one anchor in concrete by ACI 318-19 chapter 17 (318-14 has the same equations under 17.4 and 17.5).
 * All from memory; the shear breakout equations agree with published worked examples (see the tests).
 * Nominal strengths, lb; multiply by a resistance factor and compare with strength-level loads.
 */
const aci = (place: string): Section => section('ACI 318-19', place, 'from-memory');

export type AnchorInstallation = 'cast-in' | 'post-installed';

/** Threads an inch of the coarse series. ASME B1.1 (from memory). */
export const coarseThreads = [
  { diameter: 0.25, threads: 20 },
  { diameter: 0.3125, threads: 18 },
  { diameter: 0.375, threads: 16 },
  { diameter: 0.5, threads: 13 },
  { diameter: 0.625, threads: 11 },
  { diameter: 0.75, threads: 10 },
  { diameter: 0.875, threads: 9 },
  { diameter: 1, threads: 8 },
] as const;

/** Effective area of a threaded rod, in², to the three decimals that thread tables print. Refused for a size outside the coarse series. */
export function threadArea(diameter: Input<Length>): Outcome<Area> {
  const da = asInput('d_a', 'anchor diameter', inch, diameter);
  const source = section('ASME B1.1', 'tensile stress area', 'from-memory');
  const size = coarseThreads.find((each) => Math.abs(each.diameter - da.number) < 1e-6);
  if (!size) return refused(`no coarse thread of ${inInches(da.value)} in is listed`, source);
  const threads = fromTable(
    'n_t',
    'threads an inch',
    count,
    size.threads,
    section('ASME B1.1', 'coarse series', 'from-memory'),
  );
  return computed('A_se', 'effective area of the thread', squareInch, threadRule, [da, threads], source);
}
const threadRule = formula('round(3.14159265 / 4 * (d_a - 0.9743 / n_t)^2, 0.001)');

/** Steel strength that may be used: f_uta, at most 1.9 f_ya and 125,000 psi. ACI 318-19 17.6.1.2. */
export function usableSteelStrength(tensile: Input<Stress>, yieldStrength: Input<Stress>): Traced<Stress> {
  const inputs = [
    asInput('f_u', 'tensile strength of the anchor steel', psi, tensile),
    asInput('f_ya', 'yield strength of the anchor steel', psi, yieldStrength),
  ];
  return computed('f_uta', 'usable tensile strength', psi, usableRule, inputs, aci('17.6.1.2'));
}
const usableRule = formula('min(f_u, 1.9 * f_ya, 125000)');

/** N_sa = A_se f_uta. ACI 318-19 17.6.1.2. */
export function steelTension(area: Input<Area>, usable: Input<Stress>): Traced<Force> {
  return computed(
    'N_sa',
    'steel strength in tension',
    pound,
    formula('A_se * f_uta'),
    steelInputs(area, usable),
    aci('Eq. 17.6.1.2'),
  );
}

export type AnchorShape = 'headed-stud' | 'headed-bolt' | 'hooked-bolt' | 'post-installed';
/** V_sa: A_se f_uta for headed studs, 0.6 of it for bolts and post-installed anchors; 0.8 of that on a grout pad. ACI 318-19 17.7.1. */
export function steelShear(
  area: Input<Area>,
  usable: Input<Stress>,
  shape: AnchorShape,
  groutPad = false,
): Traced<Force> {
  const stud = shape === 'headed-stud';
  const rule = formula(`${groutPad ? '0.8 * ' : ''}${stud ? '' : '0.6 * '}A_se * f_uta`);
  const inputs = steelInputs(area, usable);
  return computed(
    'V_sa',
    'steel strength in shear',
    pound,
    rule,
    inputs,
    aci(groutPad ? '17.7.1.2.1' : stud ? 'Eq. 17.7.1.2a' : 'Eq. 17.7.1.2b'),
  );
}
const steelInputs = (area: Input<Area>, usable: Input<Stress>): readonly Trace[] => [
  asInput('A_se', 'effective area of the anchor', squareInch, area),
  asInput('f_uta', 'usable tensile strength', psi, usable),
];

/** Distances from the anchor's centre to the edges of the concrete; absent: too far to matter. */
export interface EdgeDistances {
  readonly left?: Length;
  readonly right?: Length;
  readonly front?: Length;
  readonly back?: Length;
}

export interface TensionBreakout {
  readonly embedment: Input<Length>;
  readonly concrete: Input<Stress>;
  readonly edges: EdgeDistances;
  readonly installation: AnchorInstallation;
  readonly cracked: boolean;
  /** 1 for normal-weight concrete. */
  readonly lightweight?: number;
  /** Splitting distance of a post-installed anchor in uncracked concrete without bars, from its report. */
  readonly criticalEdge?: Length;
}
export interface TensionBreakoutResult {
  readonly basic: Traced<Force>;
  readonly fullArea: Traced<Area>;
  readonly strength: Traced<Force>;
}

/**
 * Concrete breakout in tension of one anchor, N_cb = (A_Nc / A_Nco) ψ_ed ψ_c ψ_cp N_b. ACI 318-19 17.6.2.
 * With three or four edges nearer than 1.5 h_ef the embedment counts only as far as those edges let it (17.6.2.1.2).
 */
export function tensionBreakout(anchor: TensionBreakout): TensionBreakoutResult | Refused {
  const deep = asInput('h_ef', 'effective embedment', inch, anchor.embedment);
  if (deep.value <= zero) return refused('an anchor without embedment holds nothing', aci('17.6.2'));
  const edges = [anchor.edges.left, anchor.edges.right, anchor.edges.front, anchor.edges.back].filter(
    (edge) => edge !== undefined,
  );
  if (edges.some((edge) => edge <= zero))
    return refused('the anchor stands at or beyond the edge of the concrete', aci('17.6.2'));
  const hef = countedEmbedment(deep, edges);
  const fc = asInput("f'_c", 'concrete compressive strength', psi, anchor.concrete);
  const lambda = given('lambda', 'lightweight factor', factor, anchor.lightweight ?? 1);
  const kc = fromTable(
    'k_c',
    anchor.installation,
    factor,
    anchor.installation === 'cast-in' ? 24 : 17,
    aci('17.6.2.2.1'),
  );
  const basic = basicBreakout(hef, fc, lambda, kc, anchor.installation);
  const fullArea = computed(
    'A_Nco',
    'breakout area far from edges',
    squareInch,
    breakout.fullArea,
    [hef],
    aci('Eq. 17.6.2.1.4'),
  );
  const reach = (symbol: string, edge: Length | undefined): Traced<Length> => {
    if (edge === undefined)
      return computed(symbol, 'breakout reach, no edge near', inch, breakout.freeReach, [hef], aci('17.6.2.1'));
    const distance = given('c', 'edge distance', inch, edge);
    return computed(symbol, 'breakout reach to an edge', inch, breakout.edgeReach, [distance, hef], aci('17.6.2.1'));
  };
  const reaches = [
    reach('c_left', anchor.edges.left),
    reach('c_right', anchor.edges.right),
    reach('c_front', anchor.edges.front),
    reach('c_back', anchor.edges.back),
  ];
  const area = computed('A_Nc', 'breakout area here', squareInch, breakout.area, reaches, aci('17.6.2.1'));
  const nearest = nearestOf(edges);
  const edgeFactor =
    nearest === undefined
      ? fromTable('psi_ed', 'edge factor, no edge near', factor, 1, aci('17.6.2.4'))
      : computed(
          'psi_ed',
          'edge factor',
          factor,
          breakout.edge,
          [given('c_min', 'nearest edge', inch, nearest), hef],
          aci('17.6.2.4'),
        );
  const crackFactor = fromTable(
    'psi_c',
    anchor.cracked ? 'cracked concrete' : 'uncracked concrete',
    factor,
    anchor.cracked ? 1 : anchor.installation === 'cast-in' ? 1.25 : 1.4,
    aci('17.6.2.5'),
  );
  const inputs = [area, fullArea, edgeFactor, crackFactor, splittingFactor(anchor, hef, nearest), basic];
  const strength = computed(
    'N_cb',
    'concrete breakout strength in tension',
    pound,
    breakout.strength,
    inputs,
    aci('Eq. 17.6.2.1a'),
  );
  return { basic, fullArea, strength };
}

const breakout = {
  fullArea: formula('9 * h_ef^2'),
  freeReach: formula('1.5 * h_ef'),
  edgeReach: formula('min(c, 1.5 * h_ef)'),
  area: formula('(c_left + c_right) * (c_front + c_back)'),
  edge: formula('min(1, 0.7 + 0.3 * c_min / (1.5 * h_ef))'),
  strength: formula('A_Nc / A_Nco * psi_ed * psi_c * psi_cp * N_b'),
  basic: formula("k_c * lambda * sqrt(f'_c) * h_ef^1.5"),
  deep: formula("16 * lambda * sqrt(f'_c) * h_ef^(5 / 3)"),
  splitting: formula('max(c_min, 1.5 * h_ef) / c_ac'),
  narrow: formula('c_max / 1.5'),
};
const nearestOf = (edges: readonly Length[]): Length | undefined =>
  edges.length === 0 ? undefined : (Math.min(...edges) as Length);

/** Cast-in anchors 11 to 25 in deep may take the power 5/3 (17.6.2.2.3). */
function basicBreakout(
  hef: Traced<Length>,
  fc: Traced<Stress>,
  lambda: Traced<number>,
  kc: Traced<number>,
  installation: AnchorInstallation,
): Traced<Force> {
  const usual = computed(
    'N_b',
    'basic breakout strength',
    pound,
    breakout.basic,
    [kc, lambda, fc, hef],
    aci('Eq. 17.6.2.2.1'),
  );
  if (installation !== 'cast-in' || hef.number < 11 || hef.number > 25) return usual;
  return computed(
    'N_b',
    'basic breakout strength, 11 to 25 in deep',
    pound,
    breakout.deep,
    [lambda, fc, hef],
    aci('Eq. 17.6.2.2.3'),
  );
}

/** 17.6.2.1.2, for one anchor. */
function countedEmbedment(deep: Traced<Length>, edges: readonly Length[]): Traced<Length> {
  const near = edges.filter((edge) => inInches(edge) < 1.5 * deep.number);
  if (near.length < 3) return deep;
  const widest = given('c_max', 'widest of the near edges', inch, Math.max(...near) as Length);
  return computed(
    'h_ef',
    'embedment counted between three near edges',
    inch,
    breakout.narrow,
    [widest],
    aci('17.6.2.1.2'),
  );
}

function splittingFactor(anchor: TensionBreakout, hef: Traced<Length>, nearest: Length | undefined): Trace {
  const none = fromTable('psi_cp', 'splitting factor', factor, 1, aci('17.6.2.6'));
  if (anchor.cracked || anchor.installation === 'cast-in' || anchor.criticalEdge === undefined) return none;
  if (nearest === undefined || nearest >= anchor.criticalEdge) return none;
  const inputs = [
    given('c_min', 'nearest edge', inch, nearest),
    hef,
    given('c_ac', 'critical edge distance', inch, anchor.criticalEdge),
  ];
  return computed('psi_cp', 'splitting factor', factor, breakout.splitting, inputs, aci('17.6.2.6'));
}

/** Pullout of a headed anchor, 8 A_brg f'c; 1.4 times that in uncracked concrete. ACI 318-19 17.6.3. */
export function headPullout(bearing: Input<Area>, concrete: Input<Stress>, cracked: boolean): Traced<Force> {
  const inputs = [
    asInput('A_brg', 'bearing area of the head', squareInch, bearing),
    asInput("f'_c", 'concrete compressive strength', psi, concrete),
    pulloutCrack(cracked),
  ];
  return computed(
    'N_pn',
    'pullout strength of the head',
    pound,
    formula("psi_cP * 8 * A_brg * f'_c"),
    inputs,
    aci('Eq. 17.6.3.2.2a'),
  );
}

/** Pullout of a hooked bolt, 0.9 f'c e_h d_a for a hook of 3 to 4.5 d_a; refused outside that. ACI 318-19 17.6.3. */
export function hookPullout(
  diameter: Input<Length>,
  hook: Input<Length>,
  concrete: Input<Stress>,
  cracked: boolean,
): Outcome<Force> {
  const da = asInput('d_a', 'anchor diameter', inch, diameter);
  const eh = asInput('e_h', 'inside length of the hook', inch, hook);
  const source = aci('Eq. 17.6.3.2.2b');
  const diameters = eh.number / da.number;
  if (!(diameters >= 3 - 1e-9 && diameters <= 4.5 + 1e-9)) {
    return refused(`the hook is ${diameters.toFixed(2)} diameters long; the equation holds from 3 to 4.5`, source);
  }
  const inputs = [asInput("f'_c", 'concrete compressive strength', psi, concrete), eh, da, pulloutCrack(cracked)];
  return computed(
    'N_pn',
    'pullout strength of the hook',
    pound,
    formula("psi_cP * 0.9 * f'_c * e_h * d_a"),
    inputs,
    source,
  );
}
const pulloutCrack = (cracked: boolean): Trace =>
  fromTable('psi_cP', cracked ? 'cracked concrete' : 'uncracked concrete', factor, cracked ? 1 : 1.4, aci('17.6.3.3'));

/** Side-face blowout of a deep headed anchor near an edge (h_ef over 2.5 c_a1), 160 c_a1 √A_brg λ √f'c; `undefined` where it need not be looked at. ACI 318-19 17.6.4. */
export function sideFaceBlowout(
  embedment: Input<Length>,
  edge: Input<Length>,
  bearing: Input<Area>,
  concrete: Input<Stress>,
  lightweight = 1,
): Traced<Force> | undefined {
  if (inInches(bare(embedment)) <= 2.5 * inInches(bare(edge))) return undefined;
  const inputs = [
    asInput('c_a1', 'distance to the edge', inch, edge),
    asInput('A_brg', 'bearing area of the head', squareInch, bearing),
    given('lambda', 'lightweight factor', factor, lightweight),
    asInput("f'_c", 'concrete compressive strength', psi, concrete),
  ];
  return computed(
    'N_sb',
    'side-face blowout strength',
    pound,
    formula("160 * c_a1 * sqrt(A_brg) * lambda * sqrt(f'_c)"),
    inputs,
    aci('Eq. 17.6.4.1'),
  );
}

/** Whether an edge bar holds a shear cone together. */
export type EdgeCondition = 'uncracked' | 'cracked-no-bar' | 'cracked-bar';
export interface ShearBreakout {
  readonly diameter: Input<Length>;
  readonly embedment: Input<Length>;
  readonly concrete: Input<Stress>;
  /** Toward the edge that the cone breaks out of. */
  readonly edge: Input<Length>;
  /** Along the edge to the ends of the concrete, either side; absent: far. */
  readonly alongLeft?: Length;
  readonly alongRight?: Length;
  /** Depth of the concrete; absent: deep. */
  readonly depth?: Length;
  readonly condition: EdgeCondition;
  readonly lightweight?: number;
}
export interface ShearBreakoutResult {
  readonly loadLength: Traced<Length>;
  readonly basicByDiameter: Traced<Force>;
  readonly basicByEdge: Traced<Force>;
  readonly basic: Governed<Force>;
  readonly areaRatio: Traced<number>;
  readonly edgeFactor: Traced<number>;
  readonly depthFactor: Traced<number>;
  /** Toward the edge. */
  readonly perpendicular: Traced<Force>;
  /** Along the edge: twice the value toward it, without the edge factor (17.7.2.1c). */
  readonly parallel: Traced<Force>;
}

/**
 * Concrete breakout in shear of one anchor near an edge, V_cb = (A_Vc / A_Vco) ψ_ed ψ_c ψ_h V_b. ACI 318-19 17.7.2.
 * In a thin strip with ends close on both sides the edge distance counts only as far as 17.7.2.1.2 lets it.
 */
export function shearBreakout(anchor: ShearBreakout): ShearBreakoutResult | Refused {
  const da = asInput('d_a', 'anchor diameter', inch, anchor.diameter);
  const hef = asInput('h_ef', 'effective embedment', inch, anchor.embedment);
  const fc = asInput("f'_c", 'concrete compressive strength', psi, anchor.concrete);
  const lambda = given('lambda', 'lightweight factor', factor, anchor.lightweight ?? 1);
  const edge = asInput('c_a1', 'distance to the edge', inch, anchor.edge);
  const sides = [anchor.alongLeft, anchor.alongRight].filter((side) => side !== undefined);
  if ([edge.value, ...sides].some((distance) => distance <= zero)) {
    return refused('the anchor stands at or beyond the edge of the concrete', aci('17.7.2'));
  }
  if (hef.value <= zero || da.value <= zero)
    return refused('an anchor without embedment or diameter holds nothing', aci('17.7.2'));
  const ca1 = countedEdge(edge, anchor);
  const loadLength = computed(
    'l_e',
    'load-bearing length in shear',
    inch,
    shear.loadLength,
    [hef, da],
    aci('17.7.2.2.1'),
  );
  const basicByDiameter = computed(
    'V_b1',
    'basic strength by diameter',
    pound,
    shear.byDiameter,
    [loadLength, da, lambda, fc, ca1],
    aci('Eq. 17.7.2.2.1a'),
  );
  const basicByEdge = computed(
    'V_b2',
    'basic strength by edge',
    pound,
    shear.byEdge,
    [lambda, fc, ca1],
    aci('Eq. 17.7.2.2.1b'),
  );
  const basic = leastOf(
    'V_b',
    'basic breakout strength in shear',
    pound,
    [basicByDiameter, basicByEdge],
    aci('17.7.2.2'),
  );

  const reach = (symbol: string, side: Length | undefined): Traced<Length> => {
    if (side === undefined)
      return computed(symbol, 'reach along the edge, no end near', inch, shear.freeReach, [ca1], aci('17.7.2.1'));
    return computed(
      symbol,
      'reach along the edge',
      inch,
      shear.sideReach,
      [given('c', 'distance to an end', inch, side), ca1],
      aci('17.7.2.1'),
    );
  };
  const depth = anchor.depth === undefined ? undefined : given('h_a', 'depth of the concrete', inch, anchor.depth);
  const down =
    depth === undefined
      ? computed('c_down', 'reach down, deep concrete', inch, shear.freeReach, [ca1], aci('17.7.2.1'))
      : computed('c_down', 'reach down', inch, shear.depthReach, [depth, ca1], aci('17.7.2.1'));
  const reaches = [reach('c_left', anchor.alongLeft), reach('c_right', anchor.alongRight), down];
  const areaHere = computed('A_Vc', 'breakout area here', squareInch, shear.area, reaches, aci('17.7.2.1'));
  const areaFull = computed(
    'A_Vco',
    'breakout area, deep and far from ends',
    squareInch,
    shear.fullArea,
    [ca1],
    aci('Eq. 17.7.2.1.3'),
  );
  const areaRatio = computed(
    'R_A',
    'breakout area ratio',
    factor,
    formula('A_Vc / A_Vco'),
    [areaHere, areaFull],
    aci('17.7.2.1'),
  );

  const nearest = nearestOf(sides);
  const edgeFactor =
    nearest === undefined
      ? fromTable('psi_ed', 'end factor, no end near', factor, 1, aci('17.7.2.4'))
      : computed(
          'psi_ed',
          'end factor',
          factor,
          shear.end,
          [given('c_a2', 'nearest end', inch, nearest), ca1],
          aci('17.7.2.4'),
        );
  const condition = fromTable(
    'psi_c',
    edgeConditions[anchor.condition].meaning,
    factor,
    edgeConditions[anchor.condition].value,
    aci('17.7.2.5'),
  );
  const depthFactor =
    depth === undefined
      ? fromTable('psi_h', 'depth factor, deep concrete', factor, 1, aci('17.7.2.6'))
      : computed('psi_h', 'depth factor', factor, shear.thin, [ca1, depth], aci('Eq. 17.7.2.6.1'));

  const common = [areaRatio, condition, depthFactor, basic];
  const perpendicular = computed(
    'V_cb',
    'breakout strength toward the edge',
    pound,
    shear.strength,
    [...common, edgeFactor],
    aci('Eq. 17.7.2.1a'),
  );
  const parallel = computed(
    'V_cbp',
    'breakout strength along the edge',
    pound,
    shear.alongEdge,
    common,
    aci('17.7.2.1c'),
  );
  return {
    loadLength,
    basicByDiameter,
    basicByEdge,
    basic,
    areaRatio,
    edgeFactor,
    depthFactor,
    perpendicular,
    parallel,
  };
}

const shear = {
  loadLength: formula('min(h_ef, 8 * d_a)'),
  byDiameter: formula("7 * (l_e / d_a)^0.2 * sqrt(d_a) * lambda * sqrt(f'_c) * c_a1^1.5"),
  byEdge: formula("9 * lambda * sqrt(f'_c) * c_a1^1.5"),
  freeReach: formula('1.5 * c_a1'),
  sideReach: formula('min(c, 1.5 * c_a1)'),
  depthReach: formula('min(h_a, 1.5 * c_a1)'),
  area: formula('(c_left + c_right) * c_down'),
  fullArea: formula('4.5 * c_a1^2'),
  end: formula('min(1, 0.7 + 0.3 * c_a2 / (1.5 * c_a1))'),
  thin: formula('max(1, sqrt(1.5 * c_a1 / h_a))'),
  strength: formula('R_A * psi_ed * psi_c * psi_h * V_b'),
  alongEdge: formula('2 * R_A * psi_c * psi_h * V_b'),
  counted: formula('max(c_a2, h_a) / 1.5'),
};
/** Crack factor of shear breakout. ACI 318-19 17.7.2.5. */
export const edgeConditions: Readonly<Record<EdgeCondition, { readonly value: number; readonly meaning: string }>> = {
  uncracked: { value: 1.4, meaning: 'uncracked concrete' },
  'cracked-no-bar': { value: 1, meaning: 'cracked concrete, no edge bar' },
  'cracked-bar': { value: 1.2, meaning: 'cracked concrete, edge bar No. 4 or larger' },
};

/** 17.7.2.1.2: both ends and the depth nearer than 1.5 c_a1. */
function countedEdge(edge: Traced<Length>, anchor: ShearBreakout): Traced<Length> {
  const { alongLeft: left, alongRight: right, depth } = anchor;
  const near = 1.5 * inInches(edge.value);
  if (left === undefined || right === undefined || depth === undefined) return edge;
  if (inInches(left) >= near || inInches(right) >= near || inInches(depth) >= near) return edge;
  const inputs = [
    given('c_a2', 'wider end distance', inch, Math.max(left, right) as Length),
    given('h_a', 'depth of the concrete', inch, depth),
  ];
  return computed(
    'c_a1',
    'edge distance counted in a narrow, thin strip',
    inch,
    shear.counted,
    inputs,
    aci('17.7.2.1.2'),
  );
}

/** Pryout V_cp = k_cp N_cb; k_cp 1 below 2.5 in of embedment, 2 from there. ACI 318-19 17.7.3. */
export function pryout(
  embedment: Input<Length>,
  tensionBreakoutStrength: Input<Force>,
): { readonly coefficient: Traced<number>; readonly strength: Traced<Force> } {
  const hef = asInput('h_ef', 'effective embedment', inch, embedment);
  const coefficient = fromTable('k_cp', 'pryout coefficient', factor, hef.number < 2.5 ? 1 : 2, aci('17.7.3.1'), [hef]);
  const Ncb = asInput('N_cb', 'concrete breakout strength in tension', pound, tensionBreakoutStrength);
  return {
    coefficient,
    strength: computed(
      'V_cp',
      'pryout strength',
      pound,
      formula('k_cp * N_cb'),
      [coefficient, Ncb],
      aci('Eq. 17.7.3.1a'),
    ),
  };
}

export type AnchorLimit = 'steel-tension' | 'steel-shear' | 'concrete-tension' | 'concrete-shear';
export interface ReductionCase {
  readonly limit: AnchorLimit;
  readonly ductileSteel: boolean;
  /** Bars that tie the cone to the member. */
  readonly supplementaryBars: boolean;
  readonly installation: AnchorInstallation;
  /** Reliability class of a post-installed anchor from its report; 1 is the most reliable. */
  readonly category?: 1 | 2 | 3;
}
/** Resistance factor φ. ACI 318-19 Tables 17.5.3a to c (from memory). */
export function resistanceFactor(use: ReductionCase): Traced<number> {
  const steel = use.limit === 'steel-tension' ? [0.75, 0.65] : [0.65, 0.6];
  const value = use.limit.startsWith('steel') ? steel[use.ductileSteel ? 0 : 1] : concreteFactor(use);
  return fromTable(
    'phi',
    `resistance factor, ${use.limit.replace('-', ' in ')}`,
    factor,
    value ?? 0,
    aci('Table 17.5.3'),
  );
}
function concreteFactor(use: ReductionCase): number {
  if (use.installation === 'cast-in' || use.limit === 'concrete-shear') return use.supplementaryBars ? 0.75 : 0.7;
  const byCategory = use.supplementaryBars ? ([0.75, 0.65, 0.55] as const) : ([0.65, 0.55, 0.45] as const);
  return byCategory[(use.category ?? 3) - 1] ?? 0.45;
}

/** Where earthquake is over 20 percent of the factored load in design category C to F: 0.75 on concrete limits in tension, none on shear. ACI 318-19 17.10.5.4. */
export const earthquakeFactors = { concreteTension: 0.75, shear: 1, section: aci('17.10.5.4') } as const;

/** φ R, times the earthquake factor where it applies. */
export function designStrength(
  nominal: Traced<Force>,
  phi: Input<number>,
  earthquakeFactor: Input<number> = 1,
): Traced<Force> {
  const inputs = [
    asInput('phi', 'resistance factor', factor, phi),
    asInput('psi_E', 'earthquake factor', factor, earthquakeFactor, { section: earthquakeFactors.section }),
    nominal,
  ];
  const rule = formula(`phi * psi_E * ${nominal.symbol}`);
  return computed(`phi${nominal.symbol}`, `design value of the ${nominal.meaning}`, pound, rule, inputs, aci('17.5.2'));
}

export interface Interaction {
  readonly tensionRatio: Traced<number>;
  readonly shearRatio: Traced<number>;
  /** At most 1 where the anchor carries both. */
  readonly utilisation: Traced<number>;
}
/** Tension and shear together: either alone where the other is at most 0.2, else their sum over 1.2. ACI 318-19 17.8. */
export function interaction(
  tension: Input<Force>,
  tensionStrength: Input<Force>,
  shearForce: Input<Force>,
  shearStrength: Input<Force>,
): Interaction {
  const tensionRatio = computed(
    'r_N',
    'tension over its strength',
    factor,
    formula('N_u / phiN_n'),
    [
      asInput('N_u', 'factored tension', pound, tension),
      asInput('phiN_n', 'design strength in tension', pound, tensionStrength),
    ],
    aci('17.5.2'),
  );
  const shearRatio = computed(
    'r_V',
    'shear over its strength',
    factor,
    formula('V_u / phiV_n'),
    [
      asInput('V_u', 'factored shear', pound, shearForce),
      asInput('phiV_n', 'design strength in shear', pound, shearStrength),
    ],
    aci('17.5.2'),
  );
  const alone = tensionRatio.number <= 0.2 || shearRatio.number <= 0.2;
  const rule = alone ? formula('max(r_N, r_V)') : formula('max(r_N, r_V, (r_N + r_V) / 1.2)');
  const place = alone ? '17.8.1, 17.8.2' : 'Eq. 17.8.3';
  return {
    tensionRatio,
    shearRatio,
    utilisation: computed('r', 'tension and shear together', factor, rule, [tensionRatio, shearRatio], aci(place)),
  };
}

export type AnchorType = 'cast-in' | 'adhesive' | 'undercut' | 'torque-controlled' | 'displacement-controlled';
export interface LeastDistances {
  readonly spacing: Traced<Length>;
  /** Absent: the cover rules of the concrete chapter hold instead. */
  readonly edge: Traced<Length> | undefined;
}
/**
 * Least spacing 4 d_a for cast-in anchors that are not torqued, else 6 d_a; least edge 6 d_a torqued cast-in, adhesive and
 * undercut, 8 d_a torque-controlled, 10 d_a displacement-controlled, unless its report says other. ACI 318-19 17.9.2.
 */
export function leastDistances(diameter: Input<Length>, type: AnchorType, torqued: boolean): LeastDistances {
  const da = asInput('d_a', 'anchor diameter', inch, diameter);
  const times = (symbol: string, meaning: string, multiple: number): Traced<Length> =>
    computed(symbol, meaning, inch, formula(`${multiple} * d_a`), [da], aci('17.9.2'));
  const spacing = times('s_min', 'least spacing', type === 'cast-in' && !torqued ? 4 : 6);
  if (type === 'cast-in' && !torqued) return { spacing, edge: undefined };
  const multiple = type === 'displacement-controlled' ? 10 : type === 'torque-controlled' ? 8 : 6;
  return { spacing, edge: times('c_amin', 'least edge distance', multiple) };
}

/** Strength-level capacity as an allowable one for earthquake alone: over 1.4, the reverse of the 0.7 on E. ASCE 7-16 2.4.5 (from memory). */
export function allowableFromStrength(design: Input<Force>): Traced<Force> {
  const source = section('ASCE 7-16', '2.4.5, 0.7 E', 'from-memory');
  return computed(
    'R_a',
    'allowable value, earthquake alone',
    pound,
    formula('0.7 * phiR_n'),
    [asInput('phiR_n', 'design strength', pound, design)],
    source,
  );
}
