import type { Length } from './length.ts';
import { NANOMETRES_PER_MILLIMETRE } from './length.ts';
import type { Quantity } from './quantity.ts';

/** An area in square metres: square nanometres overflow a double, so areas are not exact as lengths are. */
export type Area = number & { readonly [areaUnit]: 'square-metre' };
declare const areaUnit: unique symbol;

const SQUARE_METRES_PER_SQUARE_FOOT = 0.3048 ** 2;
const SQUARE_METRES_PER_SQUARE_INCH = 0.0254 ** 2;
const NANOMETRES_PER_METRE = NANOMETRES_PER_MILLIMETRE * 1000;

export const squareMetres = (count: number): Area => count as Area;
export const squareMillimetres = (count: number): Area => squareMetres(count / 1e6);
export const squareFeet = (count: number): Area => squareMetres(count * SQUARE_METRES_PER_SQUARE_FOOT);
export const squareInches = (count: number): Area => squareMetres(count * SQUARE_METRES_PER_SQUARE_INCH);

export const inSquareMetres = (area: Area): number => area;
export const inSquareMillimetres = (area: Area): number => area * 1e6;
export const inSquareFeet = (area: Area): number => area / SQUARE_METRES_PER_SQUARE_FOOT;
export const inSquareInches = (area: Area): number => area / SQUARE_METRES_PER_SQUARE_INCH;

export const rectangle = (wide: Length, tall: Length): Area =>
  squareMetres((wide / NANOMETRES_PER_METRE) * (tall / NANOMETRES_PER_METRE));

/** `undefined` where the quantity is not an area. */
export const areaOf = (quantity: Quantity): Area | undefined =>
  quantity.dimension === 'area' ? squareMetres(quantity.amount) : undefined;
