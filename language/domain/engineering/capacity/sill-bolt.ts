import type { Force, ForcePerLength } from '../../units/force.ts';
import type { Length } from '../../units/length.ts';
import { inches, inInches } from '../../units/length.ts';
import type { Stress } from '../../units/stress.ts';
import { formula } from '../formula.ts';
import { section } from '../publications.ts';
import type { Input, Outcome, Refused } from '../trace.ts';
import { asInput, computed, isRefused, refused } from '../trace.ts';
import { count, inch, plf, pound } from '../trace-units.ts';
import type { LateralAdjustments } from './connection-adjustment.ts';
import { adjustedLateral, loadDuration } from './connection-adjustment.ts';
import { dowelConnection } from './dowel-connection.ts';
import { bolt } from './fasteners.ts';
import type { YieldLimit } from './yield-limit.ts';

export interface SillBolt {
  readonly diameter: Length;
  readonly sillThick: Input<Length>;
  readonly gravity: Input<number>;
  /** In the concrete; the printed table takes 6 in. */
  readonly embedment: Input<Length>;
  readonly concrete: Input<Stress>;
  /** Along the sill (0) or across it (90). */
  readonly angleToGrain?: number;
}

/** Reference value of a bolt through a sill into concrete, lb. NDS 2018 Table 12E and its equations. */
export function sillBoltReference(sillBolt: SillBolt): YieldLimit | Refused {
  return dowelConnection({
    fastener: bolt(sillBolt.diameter),
    shear: 'single',
    main: { material: 'concrete', length: sillBolt.embedment, strength: sillBolt.concrete },
    side: {
      material: 'wood',
      length: sillBolt.sillThick,
      gravity: sillBolt.gravity,
      angleToGrain: sillBolt.angleToGrain ?? 0,
    },
  });
}

/** Allowable value for earthquake, lb: the reference value × 1.6 and any further factors. */
export function sillBoltCapacity(sillBolt: SillBolt, adjustments: LateralAdjustments = {}): Outcome<Force> {
  const reference = sillBoltReference(sillBolt);
  if (isRefused(reference)) return reference;
  return adjustedLateral(reference, { loadDuration: loadDuration('wind-or-earthquake'), ...adjustments });
}

/** Bolts that a line force needs: V / Z' rounded up. Refused for a bolt without capacity. */
export function neededConnectors(force: Input<Force>, each: Input<Force>): Outcome<number> {
  const V = asInput('V', 'force along the line', pound, force);
  const Z = asInput("Z'", 'capacity of one connection', pound, each);
  if (!(Z.number > 0)) return refused('a connection without capacity carries nothing, however many');
  return computed('n', 'connections needed', count, neededRule, [V, Z], section('statics', '', 'published'));
}
const neededRule = formula("ceil(V / Z')");

/** Widest spacing that a unit shear allows, in: 12 Z' / v. Refused where nothing has to be carried. */
export function widestSpacing(unitShear: Input<ForcePerLength>, each: Input<Force>): Outcome<Length> {
  const v = asInput('v', 'unit shear along the sill', plf, unitShear);
  const Z = asInput("Z'", 'capacity of one connection', pound, each);
  if (!(v.number > 0)) return refused('no shear to carry: force sets no spacing here');
  return computed('s_max', 'widest spacing by force', inch, spacingRule, [Z, v], section('statics', '', 'published'));
}
const spacingRule = formula("12 * Z' / v");

/** Each condition as it stands here; `undefined`: not known, so not met as far as anyone can tell. */
export interface ExemptionCondition {
  readonly condition: string;
  readonly holds: boolean | undefined;
}
export interface SillBoltSituation {
  readonly diameter: Length | undefined;
  readonly embedment: Length | undefined;
  readonly concreteEdge: Length | undefined;
  readonly concreteEnd: Length | undefined;
  /** 2 or 3 for a nominal 2x or 3x sill. */
  readonly sillNominalThick: number | undefined;
  readonly lightFrame: boolean | undefined;
}

/** The numbers of the exemption. IBC 2012-2021 1905.1.8 (the six numbers from memory; title and the tie to the wood table found). */
export const sillBoltExemption = {
  section: section('IBC 2021', '1905.1.8', 'from-memory'),
  capacityFrom: 'NDS Table 12E, parallel to grain',
  greatestDiameter: inches(0.625),
  leastEmbedment: inches(7),
  leastEdge: inches(1.75),
  leastEndDiameters: 15,
  sillNominalThick: [2, 3],
} as const;

/**
 * Conditions under which the wood value parallel to grain governs a sill bolt and the concrete breakout of a thin edge
 * need not be worked out. Met only if every one of them holds; what is not known does not hold.
 */
export function sillBoltExemptionConditions(bolt: SillBoltSituation): readonly ExemptionCondition[] {
  const rule = sillBoltExemption;
  const compare = <T>(value: T | undefined, test: (value: T) => boolean): boolean | undefined =>
    value === undefined ? undefined : test(value);
  const { diameter } = bolt;
  const endHolds =
    diameter === undefined
      ? undefined
      : compare(bolt.concreteEnd, (end) => inInches(end) >= rule.leastEndDiameters * inInches(diameter) - 1e-9);
  return [
    { condition: 'diameter at most 5/8 in', holds: compare(diameter, (value) => value <= rule.greatestDiameter) },
    { condition: 'embedment at least 7 in', holds: compare(bolt.embedment, (value) => value >= rule.leastEmbedment) },
    {
      condition: 'edge distance at least 1-3/4 in',
      holds: compare(bolt.concreteEdge, (value) => value >= rule.leastEdge),
    },
    { condition: 'end distance at least 15 diameters', holds: endHolds },
    { condition: 'sill 2x or 3x', holds: compare(bolt.sillNominalThick, (value) => value === 2 || value === 3) },
    { condition: 'light-frame wall', holds: compare(bolt.lightFrame, (value) => value) },
  ];
}
export const exemptionApplies = (conditions: readonly ExemptionCondition[]): boolean =>
  conditions.every((each) => each.holds === true);
