import type { Force } from './force.ts';
import { newtons } from './force.ts';

/** A mass in kilograms. One pound is exactly 0.453 592 37 kg (NIST SP 811 appendix B.8). */
export type Mass = number & { readonly [massUnit]: 'kilogram' };
declare const massUnit: unique symbol;

const KILOGRAMS_PER_POUND_MASS = 0.45359237;
/** Standard gravity, m/s² (NIST SP 811 appendix B.8). */
const STANDARD_GRAVITY = 9.80665;

export const kilograms = (count: number): Mass => count as Mass;
export const poundsOfMass = (count: number): Mass => kilograms(count * KILOGRAMS_PER_POUND_MASS);
export const inPoundsOfMass = (mass: Mass): number => mass / KILOGRAMS_PER_POUND_MASS;

/** One pound of mass weighs one pound-force. */
export const weightOf = (mass: Mass): Force => newtons(mass * STANDARD_GRAVITY);
export const massOf = (weight: Force): Mass => kilograms(weight / STANDARD_GRAVITY);
