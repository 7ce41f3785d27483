import type { Length } from '../../units/length.ts';
import { inches, inInches, minus, scale, zero } from '../../units/length.ts';
import type { Stress } from '../../units/stress.ts';
import { formula } from '../formula.ts';
import { section } from '../publications.ts';
import type { Input, Outcome, Refused } from '../trace.ts';
import { asInput, bare, computed, given, isRefused, refused, withNotes } from '../trace.ts';
import { inch } from '../trace-units.ts';
import type { SteelKind } from './dowel-bearing.ts';
import { concreteBearing, steelBearing, tabulatedSteelBearing, woodBearing } from './dowel-bearing.ts';
import type { DowelFastener } from './fasteners.ts';
import type { YieldLimit } from './yield-limit.ts';
import { yieldLimit } from './yield-limit.ts';

export type ConnectedMember =
  | {
      readonly material: 'wood';
      readonly gravity: Input<number>;
      /** Thickness, or for a fastener that ends in it, how deep it goes (tip included). */
      readonly length: Input<Length>;
      /** Between load and grain, 0 to 90 degrees. */
      readonly angleToGrain: number;
    }
  | { readonly material: 'steel'; readonly length: Input<Length>; readonly steel: 'A36' | 'A653 Gr 33' }
  | {
      readonly material: 'steel';
      readonly length: Input<Length>;
      readonly kind: SteelKind;
      readonly tensileStrength: Input<Stress>;
    }
  | { readonly material: 'concrete'; readonly length: Input<Length>; readonly strength: Input<Stress> };

export interface DowelConnection {
  readonly fastener: DowelFastener;
  readonly shear: 'single' | 'double';
  /** The member that holds the point, or the middle one. */
  readonly main: ConnectedMember;
  /** The member (each member, in double shear) under the head. */
  readonly side: ConnectedMember;
}

/**
 * Reference lateral design value of one fastener between wood and wood, steel or concrete.
 * NDS 2018 chapter 12: bearing 12.3.3-12.3.5, diameter 12.3.7, least penetration 12.1.4-12.1.6 (from memory).
 * Refused: no wood in it, a dowel thicker than 1 in, a length of nothing, too little penetration, concrete under 2500 psi.
 */
export function dowelConnection(connection: DowelConnection): YieldLimit | Refused {
  const { fastener, main, side } = connection;
  const chapter = section('NDS 2018', 'chapter 12', 'from-memory');
  if (main.material !== 'wood' && side.material !== 'wood')
    return refused('no wood in this connection: the yield limits are for wood', chapter);
  if (inInches(fastener.nominal) > 1) return refused('the yield limits hold for dowels up to 1 in', chapter);
  if (bare(main.length) <= zero || bare(side.length) <= zero)
    return refused('a member of no thickness holds nothing', chapter);
  const mainBearing = bearingOf(main, fastener.nominal);
  if (isRefused(mainBearing)) return mainBearing;
  const sideBearing = bearingOf(side, fastener.nominal);
  if (isRefused(sideBearing)) return sideBearing;
  const mainLength = bearingLength(connection);
  if (isRefused(mainLength)) return mainLength;
  const angles = [main, side].map((member) => (member.material === 'wood' ? member.angleToGrain : 0));
  const limit = yieldLimit({
    shear: connection.shear,
    diameter: given('D', `bearing diameter of the ${fastener.label}`, inch, fastener.bearing, {
      section: fastener.section,
    }),
    nominal: fastener.nominal,
    mainLength,
    sideLength: side.length,
    mainBearing,
    sideBearing,
    bendingYield: fastener.bendingYield,
    angleToGrain: Math.max(...angles),
  });
  return withNotes(limit, fastener.label);
}

function bearingOf(member: ConnectedMember, nominal: Length): Outcome<Stress> {
  switch (member.material) {
    case 'wood':
      return woodBearing({ gravity: member.gravity, diameter: nominal, angleToGrain: member.angleToGrain });
    case 'concrete':
      return concreteBearing(member.strength);
    case 'steel':
      return 'steel' in member
        ? tabulatedSteelBearing(member.steel)
        : steelBearing(member.kind, member.tensileStrength);
  }
}

/**
 * What bears in the main member: a bolt all the way, a screw or nail without half its tip unless it goes 10 D deep.
 * NDS 2018 12.3.5 (from memory). Least penetration: lag screws 4 D without the tip; screws and nails 6 D with it.
 */
function bearingLength(connection: DowelConnection): Outcome<Length> {
  const { fastener, main } = connection;
  if (fastener.kind === 'bolt' || connection.shear === 'double' || main.material !== 'wood') {
    return asInput('l_m', 'bearing length in the main member', inch, main.length);
  }
  const p = asInput('p', 'penetration into the main member', inch, main.length);
  const E = given('E', 'length of the tapered tip', inch, fastener.tip, { section: fastener.section });
  const least = leastPenetration(fastener);
  const counted = fastener.kind === 'lag-screw' ? minus(p.value, fastener.tip) : p.value;
  const source = section('NDS 2018', fastener.kind === 'lag-screw' ? '12.1.4.6' : '12.1.5.6, 12.1.6.5', 'from-memory');
  if (counted < least) {
    return refused(
      `${fastener.label} goes ${inInches(counted)} in into the main member; it needs ${inInches(least)} in`,
      source,
    );
  }
  const deep = inInches(p.value) >= 10 * inInches(fastener.nominal) - 1e-9;
  return computed(
    'l_m',
    'bearing length in the main member',
    inch,
    deep ? whole : withoutHalfTip,
    [p, E],
    section('NDS 2018', '12.3.5', 'from-memory'),
  );
}
const whole = formula('p');
const withoutHalfTip = formula('p - E / 2');

/** Lag screws 4 D, wood screws and nails 6 D. NDS 2018 12.1.4.6, 12.1.5.6, 12.1.6.5 (also in a published FAQ of the standard's authors). */
export function leastPenetration(fastener: DowelFastener): Length {
  switch (fastener.kind) {
    case 'bolt':
      return inches(0);
    case 'lag-screw':
      return scale(fastener.nominal, 4);
    case 'wood-screw':
    case 'nail':
      return scale(fastener.nominal, 6);
  }
}
