import type { Length } from './length.ts';
import { inFeet, inMillimetres } from './length.ts';
import type { Quantity } from './quantity.ts';

/** A force in newtons. One pound-force is exactly 4.448 221 615 260 5 N (NIST SP 811 appendix B.8). */
export type Force = number & { readonly [forceUnit]: 'newton' };
declare const forceUnit: unique symbol;

/** A force spread along a line, in newtons per metre. */
export type ForcePerLength = number & { readonly [forcePerLengthUnit]: 'newton-per-metre' };
declare const forcePerLengthUnit: unique symbol;

export const NEWTONS_PER_POUND = 4.4482216152605;
const METRES_PER_FOOT = 0.3048;

export const newtons = (count: number): Force => count as Force;
export const kilonewtons = (count: number): Force => newtons(count * 1000);
export const pounds = (count: number): Force => newtons(count * NEWTONS_PER_POUND);
export const kips = (count: number): Force => pounds(count * 1000);

export const inNewtons = (force: Force): number => force;
export const inKilonewtons = (force: Force): number => force / 1000;
export const inPounds = (force: Force): number => force / NEWTONS_PER_POUND;
export const inKips = (force: Force): number => inPounds(force) / 1000;

export const newtonsPerMetre = (count: number): ForcePerLength => count as ForcePerLength;
export const poundsPerFoot = (count: number): ForcePerLength =>
  newtonsPerMetre((count * NEWTONS_PER_POUND) / METRES_PER_FOOT);
export const inNewtonsPerMetre = (load: ForcePerLength): number => load;
export const inPoundsPerFoot = (load: ForcePerLength): number => (load * METRES_PER_FOOT) / NEWTONS_PER_POUND;

export const noForce: Force = newtons(0);
export const sumOfForces = (forces: Iterable<Force>): Force => {
  let sum = 0;
  for (const force of forces) sum += force;
  return newtons(sum);
};
/** What a line load adds up to over a length. */
export const forceAlong = (load: ForcePerLength, length: Length): Force =>
  newtons((load * inMillimetres(length)) / 1000);
/** A force spread evenly over a length; `Infinity` over no length. */
export const spreadAlong = (force: Force, length: Length): ForcePerLength =>
  poundsPerFoot(inPounds(force) / inFeet(length));

/** `undefined` where the quantity is not a force. */
export const forceOf = (quantity: Quantity): Force | undefined =>
  quantity.dimension === 'force' ? newtons(quantity.amount) : undefined;
