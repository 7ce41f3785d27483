import type { LengthUnits } from '../model/layout.ts';
import { type Length, NANOMETRES_PER_INCH, NANOMETRES_PER_MILLIMETRE } from '../units/length.ts';

/** A length in full words, to 1/16 in or 1 mm: `28 feet 4 and 1/2 inches`, `1 foot`, `8636 millimetres`. */
export function spokenLength(length: Length, units: LengthUnits): string {
  const sign = length < 0 ? 'minus ' : '';
  if (units === 'metric') {
    const count = Math.round(Math.abs(length) / NANOMETRES_PER_MILLIMETRE);
    return `${count === 0 ? '' : sign}${count} ${count === 1 ? 'millimetre' : 'millimetres'}`;
  }
  const sixteenths = Math.round(Math.abs(length) / (NANOMETRES_PER_INCH / 16));
  const feet = Math.floor(sixteenths / 192);
  const words = [
    ...(feet > 0 ? [`${feet} ${feet === 1 ? 'foot' : 'feet'}`] : []),
    ...(sixteenths % 192 > 0 || feet === 0 ? [spokenInches(sixteenths % 192)] : []),
  ];
  return (sixteenths === 0 ? '' : sign) + words.join(' ');
}

function spokenInches(sixteenths: number): string {
  const whole = Math.floor(sixteenths / 16);
  let numerator = sixteenths % 16;
  let denominator = 16;
  while (numerator > 0 && numerator % 2 === 0) {
    numerator /= 2;
    denominator /= 2;
  }
  if (numerator === 0) return `${whole} ${whole === 1 ? 'inch' : 'inches'}`;
  const fraction = `${numerator}/${denominator}`;
  return whole === 0 ? `${fraction} inch` : `${whole} and ${fraction} inches`;
}

export type Compass = 'north' | 'north-east' | 'east' | 'south-east' | 'south' | 'south-west' | 'west' | 'north-west';

/** The nearest of eight, for a direction in plan: x east, y north. */
export function compassOf(x: number, y: number): Compass {
  const eighths = Math.round(Math.atan2(x, y) / (Math.PI / 4));
  return compass[(eighths + 8) % 8] ?? 'north';
}
const compass: readonly Compass[] = [
  'north',
  'north-east',
  'east',
  'south-east',
  'south',
  'south-west',
  'west',
  'north-west',
];

/** `SW` for `south-west`. */
export function compassLetters(direction: Compass): string {
  return direction
    .split('-')
    .map((word) => word.charAt(0).toUpperCase())
    .join('');
}
