import type { Force, ForcePerLength } from '../../units/force.ts';
import { noForce } from '../../units/force.ts';
import type { Length } from '../../units/length.ts';
import { zero } from '../../units/length.ts';
import type { Moment } from '../../units/moment.ts';
import { formula } from '../formula.ts';
import { section } from '../publications.ts';
import type { Input, Refused, Traced } from '../trace.ts';
import { asInput, computed, given, refused } from '../trace.ts';
import { factor, foot, footPound, plf, pound } from '../trace-units.ts';

export interface OverturningPanel {
  /** Shear at the top of the panel, allowable-stress level. */
  readonly shear: Input<Force>;
  readonly height: Input<Length>;
  readonly length: Input<Length>;
  /** Between the hold-down and the middle of the compression post. */
  readonly arm: Input<Length>;
  /** Dead load along the top. */
  readonly deadLoad: Input<ForcePerLength>;
  /** Share of the dead load that may be counted on: 0.6, or 0.6 - 0.14 S_DS. */
  readonly deadFactor: Input<number>;
  /** Dead loads at one place, each with its arm from the compression end. */
  readonly pointLoads?: readonly { readonly load: Force; readonly arm: Length }[];
}
export interface Overturning {
  readonly unitShear: Traced<ForcePerLength>;
  readonly overturning: Traced<Moment>;
  readonly resisting: Traced<Moment>;
  /** Negative: the dead load holds the panel down. */
  readonly tension: Traced<Force>;
  readonly compression: Traced<Force>;
  readonly uplift: boolean;
}

/**
 * End tension and compression of a segmented panel from the equilibrium of its free body, with the counted share of the
 * dead load. SDPWS 4.3.6.1.1, 4.3.6.4.2; ASCE 7-16 2.4.5 for the dead-load share (from memory).
 * The dead load's own arm is half the panel, as hand calculations take it.
 */
export function overturning(panel: OverturningPanel): Overturning | Refused {
  const source = section('SDPWS 2015', '4.3.6.1.1', 'from-memory');
  const statics = section('statics', '', 'published');
  const V = asInput('V', 'shear at the top of the panel', pound, panel.shear);
  const h = asInput('h', 'height of the panel', foot, panel.height);
  const b = asInput('b', 'length of the panel', foot, panel.length);
  const a = asInput('a', 'arm between hold-down and compression post', foot, panel.arm);
  const w = asInput('w', 'dead load along the top', plf, panel.deadLoad);
  const f = asInput('f', 'share of the dead load counted on', factor, panel.deadFactor);
  if (b.value <= zero || a.value <= zero)
    return refused('a panel of no length, or no arm, resists no overturning', source);
  const points = panel.pointLoads ?? [];
  const sumP = given(
    'sumP',
    'dead loads at one place, together',
    pound,
    points.reduce((sum, each) => (sum + each.load) as Force, noForce),
  );
  const pointMoment = points.reduce((sum, each) => sum + pound.from(each.load) * foot.from(each.arm), 0);
  const sumPx = given('sumPx', 'their moment', footPound, footPound.to(pointMoment));

  const unitShear = computed('v', 'unit shear', plf, rules.unitShear, [V, b], statics);
  const overturningMoment = computed('M_OT', 'overturning moment', footPound, rules.overturning, [V, h], source);
  const resisting = computed('M_R', 'moment of the dead load', footPound, rules.resisting, [f, w, b, sumPx], statics);
  const tension = computed(
    'T',
    'tension at the hold-down',
    pound,
    rules.tension,
    [overturningMoment, resisting, a],
    source,
  );
  const compression = computed(
    'C',
    'compression at the other end',
    pound,
    rules.compression,
    [tension, f, w, b, sumP],
    statics,
  );
  return { unitShear, overturning: overturningMoment, resisting, tension, compression, uplift: tension.number > 0 };
}
const rules = {
  unitShear: formula('V / b'),
  overturning: formula('V * h'),
  resisting: formula('f * (w * b^2 / 2 + sumPx)'),
  tension: formula('(M_OT - M_R) / a'),
  compression: formula('T + f * (w * b + sumP)'),
};

/** Arm of a hold-down: panel length less the hold-down's distance from its end and half the compression post. */
export function holdDownArm(
  length: Input<Length>,
  holdDownFromEnd: Input<Length>,
  compressionPost: Input<Length>,
): Traced<Length> {
  const inputs = [
    asInput('b', 'length of the panel', foot, length),
    asInput('e', 'hold-down centre from its end of the panel', foot, holdDownFromEnd),
    asInput('p', 'width of the compression post', foot, compressionPost),
  ];
  return computed(
    'a',
    'arm between hold-down and compression post',
    foot,
    armRule,
    inputs,
    section('statics', '', 'published'),
  );
}
const armRule = formula('b - e - p / 2');
