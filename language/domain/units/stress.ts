import type { Area } from './area.ts';
import type { Force } from './force.ts';
import { NEWTONS_PER_POUND, newtons } from './force.ts';
import type { Quantity } from './quantity.ts';

/** A force per area in pascals: strength of a material, and weight per square foot of a floor or roof. */
export type Stress = number & { readonly [stressUnit]: 'pascal' };
declare const stressUnit: unique symbol;

const PASCALS_PER_PSI = NEWTONS_PER_POUND / 0.0254 ** 2;
const PASCALS_PER_PSF = NEWTONS_PER_POUND / 0.3048 ** 2;

export const pascals = (count: number): Stress => count as Stress;
export const megapascals = (count: number): Stress => pascals(count * 1e6);
export const poundsPerSquareInch = (count: number): Stress => pascals(count * PASCALS_PER_PSI);
export const poundsPerSquareFoot = (count: number): Stress => pascals(count * PASCALS_PER_PSF);

export const inMegapascals = (stress: Stress): number => stress / 1e6;
export const inKilopascals = (stress: Stress): number => stress / 1e3;
export const inPoundsPerSquareInch = (stress: Stress): number => stress / PASCALS_PER_PSI;
export const inPoundsPerSquareFoot = (stress: Stress): number => stress / PASCALS_PER_PSF;

/** What a stress adds up to over an area. */
export const forceOver = (stress: Stress, area: Area): Force => newtons(stress * area);

/** `undefined` where the quantity is not a pressure. */
export const stressOf = (quantity: Quantity): Stress | undefined =>
  quantity.dimension === 'pressure' ? pascals(quantity.amount) : undefined;
