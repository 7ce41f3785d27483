import type { Quantity } from './quantity.ts';
import { inUnit } from './quantity.ts';

/** In the unit as written, without the dust of conversion: `2500 psi`, `45°`, `25 %`, `1.5`. */
export function formatQuantity(quantity: Quantity): string {
  return formatQuantityIn(quantity, quantity.unit, 12) ?? '';
}

/** In another unit of its dimension, to `digits` significant figures: `2002 psi`. `undefined` for any other unit. */
export function formatQuantityIn(quantity: Quantity, unit: string, digits = 4): string | undefined {
  const value = inUnit(quantity, unit);
  if (value === undefined) return undefined;
  const text = plainNumber(Number(value.toPrecision(digits)));
  return unit === '' || unit === '°' ? `${text}${unit}` : `${text} ${unit}`;
}

/** Never `1e-7`, never `-0`. */
function plainNumber(value: number): string {
  if (value === 0) return '0';
  return value.toLocaleString('en-US', { useGrouping: false, maximumFractionDigits: 20 });
}
