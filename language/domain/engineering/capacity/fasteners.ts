import type { Length } from '../../units/length.ts';
import { inches, inInches } from '../../units/length.ts';
import type { Stress } from '../../units/stress.ts';
import { poundsPerSquareInch } from '../../units/stress.ts';
import type { Section } from '../publications.ts';
import { section } from '../publications.ts';
import type { Traced } from '../trace.ts';
import { fromTable } from '../trace.ts';
import { psi } from '../trace-units.ts';

/** A dowel-type fastener as the yield equations need it. */
export interface DowelFastener {
  readonly kind: 'bolt' | 'lag-screw' | 'wood-screw' | 'nail';
  /** `1/2 in bolt`, `No. 10 wood screw`, `8d common nail`. */
  readonly label: string;
  readonly nominal: Length;
  /** What bears on the wood: the shank of bolts and nails, the root where threads bear. NDS 2018 12.3.7. */
  readonly bearing: Length;
  readonly bendingYield: Traced<Stress>;
  /** Length of the tapered tip; half of it does not count as bearing. Zero for bolts. */
  readonly tip: Length;
  /** Under the head; `undefined` where it is not standard. */
  readonly long: Length | undefined;
  readonly section: Section;
}

/** Full-body bolt, shank in the shear plane. */
export function bolt(diameter: Length): DowelFastener {
  return {
    kind: 'bolt',
    label: `${inInches(diameter)} in bolt`,
    nominal: diameter,
    bearing: diameter,
    bendingYield: bendingYield('bolt', diameter),
    tip: inches(0),
    long: undefined,
    section: section('NDS 2018', '12.1.3', 'from-memory'),
  };
}

/** `undefined` for a size that Table L2 does not list. */
export function lagScrew(diameter: Length): DowelFastener | undefined {
  const size = lagScrews.find((each) => inches(each.nominal) === diameter);
  if (!size) return undefined;
  return {
    kind: 'lag-screw',
    label: `${size.label} in lag screw`,
    nominal: diameter,
    bearing: inches(size.root),
    bendingYield: bendingYield('lag-screw', diameter),
    tip: inches(size.tip),
    long: undefined,
    section: section('NDS 2018', 'Table L2', 'from-memory'),
  };
}

/** `undefined` for a number that Table L3 does not list. */
export function woodScrew(number: number): DowelFastener | undefined {
  const size = woodScrews.find((each) => each.number === number);
  if (!size) return undefined;
  return {
    kind: 'wood-screw',
    label: `No. ${number} wood screw`,
    nominal: inches(size.nominal),
    bearing: inches(size.root),
    bendingYield: bendingYield('wood-screw', inches(size.nominal)),
    tip: inches(2 * size.nominal),
    long: undefined,
    section: section('NDS 2018', 'Table L3', 'from-memory'),
  };
}

export type NailStyle = 'common' | 'box' | 'sinker';
/** `undefined` for a nail that Table L4 does not list. */
export function nail(style: NailStyle, penny: number): DowelFastener | undefined {
  const size = nails.find((each) => each.style === style && each.penny === penny);
  if (!size) return undefined;
  return {
    kind: 'nail',
    label: `${penny}d ${style} nail`,
    nominal: inches(size.diameter),
    bearing: inches(size.diameter),
    bendingYield: bendingYield('nail', inches(size.diameter)),
    tip: inches(2 * size.diameter),
    long: inches(size.long),
    section: section('NDS 2018', 'Table L4', 'from-memory'),
  };
}

/**
 * Bending yield strength F_yb for the diameter. NDS 2018 Table I1 (from memory; the lag values agree with published
 * rows of Table 12K). Nails and screws thicker than 3/8 in take the last value.
 */
export function bendingYield(kind: DowelFastener['kind'], nominal: Length): Traced<Stress> {
  const strength =
    kind === 'bolt'
      ? boltYieldPsi
      : (yieldSteps[kind === 'lag-screw' ? 'lag-screw' : 'small'].find((step) => inInches(nominal) <= step.upTo + 1e-9)
          ?.psi ?? boltYieldPsi);
  const source = section('NDS 2018', 'Table I1', 'from-memory');
  return fromTable('F_yb', 'dowel bending yield strength', psi, poundsPerSquareInch(strength), source);
}

const boltYieldPsi = 45_000;
/** By nominal diameter, inches, upper limit included. */
export const yieldSteps = {
  'lag-screw': [
    { upTo: 0.25, psi: 70_000 },
    { upTo: 0.3125, psi: 60_000 },
    { upTo: Number.POSITIVE_INFINITY, psi: 45_000 },
  ],
  small: [
    { upTo: 0.142, psi: 100_000 },
    { upTo: 0.177, psi: 90_000 },
    { upTo: 0.236, psi: 80_000 },
    { upTo: 0.273, psi: 70_000 },
    { upTo: 0.344, psi: 60_000 },
    { upTo: Number.POSITIVE_INFINITY, psi: 45_000 },
  ],
} as const;

/** NDS 2018 Table L2, inches: root diameter and length of the tapered tip (from memory). */
export const lagScrews = [
  { label: '1/4', nominal: 0.25, root: 0.173, tip: 0.15625 },
  { label: '5/16', nominal: 0.3125, root: 0.227, tip: 0.1875 },
  { label: '3/8', nominal: 0.375, root: 0.265, tip: 0.21875 },
  { label: '7/16', nominal: 0.4375, root: 0.328, tip: 0.28125 },
  { label: '1/2', nominal: 0.5, root: 0.371, tip: 0.3125 },
  { label: '5/8', nominal: 0.625, root: 0.471, tip: 0.40625 },
  { label: '3/4', nominal: 0.75, root: 0.579, tip: 0.5 },
] as const;

/** NDS 2018 Table L3, inches (from memory). */
export const woodScrews = [
  { number: 6, nominal: 0.138, root: 0.113 },
  { number: 7, nominal: 0.151, root: 0.122 },
  { number: 8, nominal: 0.164, root: 0.131 },
  { number: 9, nominal: 0.177, root: 0.142 },
  { number: 10, nominal: 0.19, root: 0.152 },
  { number: 12, nominal: 0.216, root: 0.171 },
  { number: 14, nominal: 0.242, root: 0.196 },
  { number: 16, nominal: 0.268, root: 0.209 },
  { number: 18, nominal: 0.294, root: 0.232 },
  { number: 20, nominal: 0.32, root: 0.255 },
  { number: 24, nominal: 0.372, root: 0.298 },
] as const;

/** NDS 2018 Table L4, inches (from memory). */
export const nails: readonly {
  readonly style: NailStyle;
  readonly penny: number;
  readonly diameter: number;
  readonly long: number;
}[] = [
  { style: 'common', penny: 6, diameter: 0.113, long: 2 },
  { style: 'common', penny: 8, diameter: 0.131, long: 2.5 },
  { style: 'common', penny: 10, diameter: 0.148, long: 3 },
  { style: 'common', penny: 12, diameter: 0.148, long: 3.25 },
  { style: 'common', penny: 16, diameter: 0.162, long: 3.5 },
  { style: 'common', penny: 20, diameter: 0.192, long: 4 },
  { style: 'box', penny: 6, diameter: 0.099, long: 2 },
  { style: 'box', penny: 8, diameter: 0.113, long: 2.5 },
  { style: 'box', penny: 10, diameter: 0.128, long: 3 },
  { style: 'box', penny: 12, diameter: 0.128, long: 3.25 },
  { style: 'box', penny: 16, diameter: 0.135, long: 3.5 },
  { style: 'sinker', penny: 6, diameter: 0.092, long: 1.875 },
  { style: 'sinker', penny: 8, diameter: 0.113, long: 2.375 },
  { style: 'sinker', penny: 10, diameter: 0.12, long: 2.875 },
  { style: 'sinker', penny: 12, diameter: 0.135, long: 3.125 },
  { style: 'sinker', penny: 16, diameter: 0.148, long: 3.25 },
];
