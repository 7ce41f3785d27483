import type { LengthUnits } from '../../model/layout.ts';
import { type DrawingScale, scaleInWords } from '../drawing-input.ts';
import type { Box } from '../scene.ts';

/** Trimmed sheets in mm, the long side across. US sizes: ANSI/ASME Y14.1 A-size multiples and architectural C and D; ISO 5457 and ISO 216 for A1 to A3. */
export interface SheetSize {
  readonly name: SheetSizeName;
  readonly words: string;
  readonly width: number;
  readonly height: number;
  /** Fields of the grid reference along the two sides (ISO 5457, from memory). */
  readonly fields: { readonly across: number; readonly down: number };
  /** Drawings go one step down on it. */
  readonly small: boolean;
  /** What holds more, the nearest first. */
  readonly larger: readonly SheetSizeName[];
}
export const sheetSizeNames = ['24x18', '36x24', '17x11', 'A1', 'A2', 'A3'] as const;
export type SheetSizeName = (typeof sheetSizeNames)[number];

const INCH = 25.4;
const large = { across: 16, down: 12 };
const middle = { across: 12, down: 8 };
const little = { across: 8, down: 6 };

export const sheetSizes: Readonly<Record<SheetSizeName, SheetSize>> = {
  '24x18': size('24x18', '24 x 18 in', 24 * INCH, 18 * INCH, middle, ['36x24']),
  '36x24': size('36x24', '36 x 24 in', 36 * INCH, 24 * INCH, large, []),
  '17x11': size('17x11', '17 x 11 in', 17 * INCH, 11 * INCH, little, ['24x18', '36x24']),
  A1: size('A1', 'ISO A1', 841, 594, large, []),
  A2: size('A2', 'ISO A2', 594, 420, middle, ['A1']),
  A3: size('A3', 'ISO A3', 420, 297, little, ['A2', 'A1']),
};

function size(
  name: SheetSizeName,
  words: string,
  width: number,
  height: number,
  fields: SheetSize['fields'],
  larger: readonly SheetSizeName[],
): SheetSize {
  return { name, words, width, height, fields, small: fields === little, larger };
}

export function defaultSheetSize(units: LengthUnits): SheetSizeName {
  return units === 'metric' ? 'A2' : '24x18';
}

/** In any letters; `undefined` for what is no sheet. */
export function sheetSizeNamed(words: string): SheetSizeName | undefined {
  return sheetSizeNames.find((name) => name.toLowerCase() === words.trim().toLowerCase());
}

/** Margins of the frame: the left one is for binding (ISO 5457). */
const BINDING = 20;
const MARGIN = 10;

export type Paper = Pick<SheetSize, 'width' | 'height' | 'fields' | 'words'>;

/** Inside the frame. */
export function frameOf({ width, height }: Pick<SheetSize, 'width' | 'height'>): Box {
  return { x: BINDING, y: MARGIN, width: width - BINDING - MARGIN, height: height - 2 * MARGIN };
}

/** A sheet of no usual size, as large as what is drawn on it asks. */
export function paperFor(inside: { readonly width: number; readonly height: number }): Paper {
  const width = Math.ceil(inside.width + BINDING + MARGIN);
  const height = Math.ceil(inside.height + 2 * MARGIN);
  const fieldsAlong = (length: number): number => 2 * Math.max(2, Math.min(12, Math.round(length / 100)));
  return {
    width,
    height,
    fields: { across: fieldsAlong(width), down: fieldsAlong(height) },
    words: `${width} x ${height} mm`,
  };
}

export type DrawingKind = 'plan' | 'side';

/** What a kind of drawing is drawn at on a sheet; `halved` so many times where that is too large. */
export function scaleOn(
  kind: DrawingKind,
  units: LengthUnits,
  { small }: Pick<SheetSize, 'small'>,
  halved = 0,
): DrawingScale {
  const usual = { plan: { imperial: 48, metric: 50 }, side: { imperial: 24, metric: 25 } }[kind];
  const ratio = (units === 'metric' ? usual.metric : usual.imperial) * (small ? 2 : 1) * 2 ** halved;
  return { paper: 1 / ratio, words: scaleInWords(ratio, units), reduced: small || halved > 0 };
}
