import type { Force } from './force.ts';
import { NEWTONS_PER_POUND } from './force.ts';
import type { Length } from './length.ts';
import { inMillimetres } from './length.ts';

/** A moment of force (overturning, bending, torque) in newton metres. */
export type Moment = number & { readonly [momentUnit]: 'newton-metre' };
declare const momentUnit: unique symbol;

const NEWTON_METRES_PER_FOOT_POUND = NEWTONS_PER_POUND * 0.3048;

export const newtonMetres = (count: number): Moment => count as Moment;
export const footPounds = (count: number): Moment => newtonMetres(count * NEWTON_METRES_PER_FOOT_POUND);
export const inchPounds = (count: number): Moment => footPounds(count / 12);

export const inNewtonMetres = (moment: Moment): number => moment;
export const inFootPounds = (moment: Moment): number => moment / NEWTON_METRES_PER_FOOT_POUND;
export const inInchPounds = (moment: Moment): number => inFootPounds(moment) * 12;

export const momentOf = (force: Force, arm: Length): Moment => newtonMetres((force * inMillimetres(arm)) / 1000);
