import type { LengthUnits } from '../model/layout.ts';
import { inFeet, inMillimetres, type Length } from '../units/length.ts';
import { lettered, textWidth } from './lettering.ts';
import type { SceneNode, XY } from './scene.ts';
import { group, polygon, rect, strokes } from './scene.ts';
import { capHeights } from './tokens.ts';

export const TAPE_HEIGHT = 4.6;

/**
 * A drawn tape, true to scale: station axis, scale bar and print check in one. Inch tapes: long tick a foot, mid tick
 * 6 in, short tick an inch, wedge every 16 in. Metric: 100, 50 and 10 mm, wedge every 400.
 *
 * @param paper mm on paper of one true mm.
 */
export function tape(at: XY, length: Length, units: LengthUnits, paper: number): SceneNode {
  const [x0, y0] = at;
  const marks = units === 'metric' ? metricMarks : inchMarks;
  const total = inMillimetres(length);
  const width = total * paper;
  const bottom = y0 + TAPE_HEIGHT;
  // A tick every half a millimetre is the finest that a printer and an eye keep apart.
  const fine = Math.max(marks.step, coarsest(marks, paper));
  const room = textWidth(marks.number(total), 'least', 'regular') + 1.6;
  let numbered = marks.numbered;
  while (numbered * paper < room) numbered *= 2;
  const longTicks: (readonly [XY, XY])[] = [];
  const shortTicks: (readonly [XY, XY])[] = [];
  const count = Math.floor(total / fine + 1e-9);
  for (let index = 1; index <= count; index++) {
    const distance = index * fine;
    const x = x0 + distance * paper;
    const isLong = multipleOf(distance, marks.long);
    // A long tick without a number would run through the number of the one before.
    const height = isLong
      ? multipleOf(distance, numbered)
        ? TAPE_HEIGHT
        : 2.6
      : multipleOf(distance, marks.middle)
        ? 2
        : 1;
    (isLong ? longTicks : shortTicks).push([
      [x, y0],
      [x, y0 + height],
    ]);
  }
  const wedges: SceneNode[] = [];
  if (marks.wedge * paper >= 4) {
    for (let index = 1; index * marks.wedge <= total + 1e-6; index++) {
      const x = x0 + index * marks.wedge * paper;
      wedges.push(
        polygon(
          [
            [x - 0.75, y0],
            [x + 0.75, y0],
            [x, y0 + 1.5],
          ],
          { fill: 'ink' },
        ),
      );
    }
  }
  const numbers: SceneNode[] = [];
  for (let index = 0; index * numbered < total - 1e-6; index++) {
    const distance = index * numbered;
    const left = x0 + distance * paper + 0.7;
    const text = marks.number(distance);
    if (left + textWidth(text, 'least', 'regular') > x0 + width - 0.3) break;
    numbers.push(lettered(text, [left, bottom - 0.75], { size: 'least', face: 'regular' }));
  }
  return group(
    [
      rect({ x: x0, y: y0, width, height: TAPE_HEIGHT }, { fill: 'paper', stroke: { colour: 'ink', pen: 'P3' } }),
      strokes(shortTicks, { colour: 'ink', pen: 'hair' }),
      strokes(longTicks, { colour: 'ink', pen: 'P5' }),
      ...wedges,
      ...numbers,
    ],
    { role: 'tape', hidden: true },
  );
}

/** Solid, with a swallow's tail: where the tape is hooked. Its point is at `at`, the tape's upper left corner. */
export function zeroFlag([x, y]: XY): SceneNode {
  const height = TAPE_HEIGHT + 1.6;
  const top = y - 0.8;
  return group(
    [
      polygon(
        [
          [x, top],
          [x - 11, top],
          [x - 9, top + height / 2],
          [x - 11, top + height],
          [x, top + height],
        ],
        { fill: 'ink', stroke: { colour: 'ink', pen: 'P3' } },
      ),
      lettered('0', [x - 4.2, top + height / 2 + capHeights.flag / 2], {
        size: 'flag',
        face: 'regular',
        anchor: 'middle',
        colour: 'paper',
        heavy: true,
      }),
    ],
    { role: 'tape' },
  );
}

export function endFlagWidth(text: string): number {
  return textWidth(text, 'flag', 'regular') + 7;
}

/** Open, with the wall's length; hooked on the tape's right end. */
export function endFlag([x, y]: XY, text: string): SceneNode {
  const height = TAPE_HEIGHT + 1.6;
  const top = y - 0.8;
  const width = endFlagWidth(text);
  return group(
    [
      polygon(
        [
          [x, top],
          [x + width, top],
          [x + width - 2, top + height / 2],
          [x + width, top + height],
          [x, top + height],
        ],
        { fill: 'paper', stroke: { colour: 'ink', pen: 'P3' } },
      ),
      lettered(text, [x + 2.2, top + height / 2 + capHeights.flag / 2], { size: 'flag', face: 'regular' }),
    ],
    { role: 'tape' },
  );
}

/** One foot, or a metre, in words and on this paper: what a ruler must show on a print. */
export function tapeCheck(units: LengthUnits, paper: number): string {
  return units === 'metric' ? `one metre = ${trimmed(1000 * paper)} mm` : `one foot = ${trimmed(304.8 * paper)} mm`;
}

const trimmed = (value: number): string => String(Math.round(value * 100) / 100);

interface TapeMarks {
  /** All in true mm. */
  readonly step: number;
  readonly middle: number;
  readonly long: number;
  readonly wedge: number;
  readonly numbered: number;
  number(distance: number): string;
}
const inchMarks: TapeMarks = {
  step: 25.4,
  middle: 152.4,
  long: 304.8,
  wedge: 406.4,
  numbered: 304.8,
  number: (distance) => String(Math.round(inFeet((distance * 1e6) as Length))),
};
const metricMarks: TapeMarks = {
  step: 10,
  middle: 50,
  long: 100,
  wedge: 400,
  numbered: 500,
  number: (distance) => String(Math.round(distance)),
};

function coarsest(marks: TapeMarks, paper: number): number {
  const least = 0.38;
  if (marks.step * paper >= least) return marks.step;
  if (marks.middle * paper >= least) return marks.middle;
  let step = marks.long;
  while (step * paper < least) step *= 2;
  return step;
}

function multipleOf(distance: number, step: number): boolean {
  return Math.abs(distance / step - Math.round(distance / step)) < 1e-6;
}
