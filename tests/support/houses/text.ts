import { lexBlock } from '../../../language/syntax/lex-block.ts';
import { INCH, MILLIMETRE } from './facts.ts';
import type { Random } from './random.ts';

/** Writes values as people write them: exact, in many spellings. */
export interface Pen {
  length(nanometres: number): string;
  /** With `assume`, `told` or `scaled` before it, now and then. */
  value(nanometres: number): string;
  /** A length, or now and then `unknown`. */
  doubtful(nanometres: number): string;
  station(nanometres: number): string;
  varying(values: readonly [number, number]): string;
}

export function penOf(
  random: Random,
  options: { readonly units: 'feet-inches' | 'metric'; readonly mixed: boolean; readonly plain: boolean },
): Pen {
  const length = (nanometres: number): string => {
    const metric = options.mixed && random.chance(0.25) ? options.units !== 'metric' : options.units === 'metric';
    const sixtyFourths = nanometres / (INCH / 64);
    return metric || !Number.isInteger(sixtyFourths) ? inMetric(random, nanometres) : inFeet(random, sixtyFourths);
  };
  const value = (nanometres: number): string => {
    const quality = options.plain || random.chance(0.93) ? '' : random.pick(['assume ', 'told ', 'scaled ']);
    return `${quality}${length(nanometres)}`;
  };
  return {
    length,
    value,
    doubtful: (nanometres) => (!options.plain && random.chance(0.1) ? 'unknown' : value(nanometres)),
    station: length,
    varying: ([left, right]) => (left === right ? value(left) : `${value(left)} to ${value(right)}`),
  };
}

function inMetric(random: Random, nanometres: number): string {
  const sign = nanometres < 0 ? '-' : '';
  const size = Math.abs(nanometres);
  const decimal = (unit: number, places: number): string => {
    const whole = Math.floor(size / unit);
    const part = String(size % unit)
      .padStart(places, '0')
      .replace(/0+$/, '');
    return part === '' ? String(whole) : `${whole}.${part}`;
  };
  switch (random.integer(0, 7)) {
    case 0:
      return `${sign}${decimal(MILLIMETRE, 6)}mm`;
    case 1:
      return `${sign}${decimal(10 * MILLIMETRE, 7)} cm`;
    case 2:
      return `${sign}${decimal(1000 * MILLIMETRE, 9)} m`;
    default:
      return `${sign}${decimal(MILLIMETRE, 6)} mm`;
  }
}

function inFeet(random: Random, sixtyFourths: number): string {
  const sign = sixtyFourths < 0 ? '-' : '';
  const size = Math.abs(sixtyFourths);
  const feet = Math.floor(size / (12 * 64));
  const inches = Math.floor((size % (12 * 64)) / 64);
  const fraction = reduced(size % 64);
  const allInches = Math.floor(size / 64);
  const bare = (whole: number): string =>
    fraction === '' ? `${whole}"` : whole === 0 ? `${fraction}"` : `${whole}-${fraction}"`;
  if (feet === 0)
    return `${sign}${random.chance(0.3) ? `0'-${inches}${fraction === '' ? '' : ` ${fraction}`}"` : bare(inches)}`;
  switch (random.integer(0, 9)) {
    case 0:
      return `${sign}${bare(allInches)}`;
    case 1:
      return fraction === '' && inches === 0 ? `${sign}${feet}'` : `${sign}${feet}' ${bare(inches)}`;
    case 2:
      return fraction === '' ? `${sign}${feet} ft ${inches} in` : `${sign}${feet}′-${inches} ${fraction}″`;
    case 3:
      return fraction === '' ? `${sign}${size / 64}in` : `${sign}${feet}'-${inches} ${fraction}"`;
    default:
      return `${sign}${feet}'-${inches}${fraction === '' ? '' : ` ${fraction}`}"`;
  }
}

function reduced(parts: number): string {
  if (parts === 0) return '';
  let numerator = parts;
  let denominator = 64;
  while (numerator % 2 === 0) {
    numerator /= 2;
    denominator /= 2;
  }
  return `${numerator}/${denominator}`;
}

/** What is there, with one blank between. */
export const words = (...list: readonly (string | undefined | false)[]): string =>
  list.filter((each) => each !== undefined && each !== false && each !== '').join(' ');

/** Blanks, comments, blank lines and letter case as people leave them. The meaning stays. */
export function untidied(text: string, random: Random): string {
  return text
    .split('\n')
    .flatMap((line) => untidyLine(line, random))
    .join(random.chance(0.1) ? '\r\n' : '\n');
}

function untidyLine(line: string, random: Random): readonly string[] {
  const body = line.trimStart();
  if (body === '') return random.chance(0.2) ? ['', ''] : [''];
  // A line under its heading keeps an indent, whatever its first word.
  const indent = line.startsWith(' ') ? random.pick(['  ', '    ', '\t', ' ']) : '';
  const capital = random.chance(0.04) ? body.charAt(0).toUpperCase() + body.slice(1) : body;
  const comment = random.chance(0.06)
    ? `${random.pick([' ', '   ', '\t'])}// ${random.pick(['seen', 'check: "12 in"?', 'F-8, vent', 'wall A to B'])}`
    : '';
  const before = random.chance(0.03) ? [`  // ${random.pick(['as read aloud', 'second tape', '---'])}`] : [];
  return [...before, `${indent}${widened(capital, random)}${comment}`];
}

/** More blanks where there are some, never inside a token. */
function widened(line: string, random: Random): string {
  let written = '';
  let done = 0;
  for (const token of lexBlock(line).tokens) {
    const gap = line.slice(done, token.start);
    written += gap === ' ' && random.chance(0.15) ? random.pick(['  ', '\t', '     ']) : gap;
    written += token.image;
    done = token.start + token.image.length;
  }
  return written + line.slice(done);
}
