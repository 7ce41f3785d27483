import { rememberingTexts } from '../recent-texts.ts';
import { formatExact } from './format-length.ts';
import type { Length } from './length.ts';
import { feet, nanometres, negate, roundTo, sixteenth } from './length.ts';

/** What a person meant by a length. Any text gives an answer; nothing throws. */
export type LengthParse = ReadLength | BareNumber | NotALength;

export interface ReadLength {
  readonly kind: 'length';
  readonly length: Length;
  /** False where the text says less than a nanometre, as `1/3"` does: `length` is then the nearest one. */
  readonly exact: boolean;
  /** A multiple of 1/64 in or of 1 mm: a mark that a tape has. */
  readonly onTape: boolean;
  /** Why the text should be looked at again, though it can be read: `1/3" is not on a tape`. */
  readonly doubt?: string;
  /** What to write instead, the likeliest first. Only with a doubt. */
  readonly suggestions?: readonly string[];
}

/** A number that lacks its unit. */
export interface BareNumber {
  readonly kind: 'bare';
  readonly reason: string;
  /** The same number with each unit that it could have, the likeliest first: `12"`, `12'`, `12 mm`. */
  readonly suggestions: readonly string[];
}

export interface NotALength {
  readonly kind: 'bad';
  readonly reason: string;
  readonly suggestions?: readonly string[];
}

/**
 * Reads `3'-4 1/2"`, `3' 4-1/2`, `3-1/2"` (three and a half inches), `3½"`, `40.5in`, `12 ft 3 in`, `1067 mm`, `1.067m`,
 * with straight, curly, prime or doubled quotes and any dash. A sign is that of the whole: `-2'-4 3/8"`.
 * Whole-number arithmetic throughout; 1 in = 25.4 mm exactly (NIST SP 811, appendix B.6). Time is linear in the text.
 */
export const parseLength: (text: string) => LengthParse = rememberingTexts(readLength);

function readLength(text: string): LengthParse {
  const scanned = scan(text);
  if (scanned.length === 0) return bad('no length here: write one such as 3\'-4 1/2" or 1029 mm');
  if (scanned.some(isDecimalComma)) return decimalComma(text);
  const first = scanned[0];
  const signed = first?.kind === '-' || first?.kind === '+';
  const tokens = signed ? scanned.slice(1) : scanned;
  const quantity: Signed = { sign: first?.kind === '-' ? '-' : '', text, tokens };
  return tokens.length > MOST_TOKENS ? notRead(quantity) : readUnsigned(quantity);
}

/** No length of a house, and few enough that sums and squares of them stay exact: 10 000 ft. */
export const LONGEST_LENGTH: Length = feet(10_000);

interface Signed {
  readonly sign: '-' | '';
  readonly text: string;
  /** Without the sign. */
  readonly tokens: readonly Token[];
}

function readUnsigned(quantity: Signed): LengthParse {
  const number = readNumber(quantity.tokens, 0);
  if (!number) return notRead(quantity);
  const next = quantity.tokens[number.end];
  if (!next) return withoutUnit(quantity, number);
  switch (next.kind) {
    case 'foot':
      return readFeet(quantity, number);
    case 'inch':
      return readInches(quantity, number);
    case 'metric':
      return readMetric(quantity, number, next);
    case '-':
    case 'digits':
    case 'vulgar':
      return readLoose(quantity, number);
    default:
      return notRead(quantity);
  }
}

/** `12'`, `12.5'`, and all that goes on with inches. */
function readFeet(quantity: Signed, feet: MixedNumber): LengthParse {
  const { tokens } = quantity;
  let at = feet.end + 1;
  if (at === tokens.length) return readFeetAlone(quantity, feet);
  if (feet.shape !== 'whole') {
    return bad(`${shown(quantity.text)} gives parts of a foot and then inches: write whole feet before inches`);
  }
  if (tokens[at]?.kind === '-') at += 1;
  const inches = readNumber(tokens, at);
  if (!inches) return notRead(quantity);
  const end = tokens[inches.end]?.kind === 'inch' ? inches.end + 1 : inches.end;
  if (end !== tokens.length) return notRead(quantity);
  return finish(quantity, plus(times(feet.value, FOOT), times(inches.value, INCH)), doubtfulInches(inches, true));
}

function readFeetAlone(quantity: Signed, feet: MixedNumber): LengthParse {
  const value = times(feet.value, FOOT);
  if (feet.shape !== 'decimal' || isTooLong(value) || isWhole(value, SIXTEENTH)) return finish(quantity, value, []);
  // 12.3' is 12'-3 5/8", and often a slip for 12'-3".
  const meant = writtenOut(quantity, value);
  const [whole = '', decimals = ''] = feet.text.split('.');
  const slip = /^([1-9]|1[01])$/.test(decimals) ? [`${quantity.sign}${whole}'-${decimals}"`] : [];
  const doubt = `${shown(quantity.text)} is ${meant}: parts of a foot in decimals are not on this tape`;
  return finish(quantity, value, [doubt], [meant, ...slip]);
}

function readInches(quantity: Signed, inches: MixedNumber): LengthParse {
  if (inches.end + 1 !== quantity.tokens.length) return notRead(quantity);
  return finish(quantity, times(inches.value, INCH), doubtfulInches(inches, false));
}

function readMetric(quantity: Signed, number: MixedNumber, unit: Token): LengthParse {
  if (number.end + 1 !== quantity.tokens.length) return notRead(quantity);
  if (number.fraction) return bad(`${shown(quantity.text)}: metric lengths are read with decimals, not with fractions`);
  return finish(quantity, times(number.value, unit.nanometres), []);
}

/** Two numbers and no foot mark: `3-4 1/2`, jotted for 3'-4 1/2". */
function readLoose(quantity: Signed, feet: MixedNumber): LengthParse {
  const { tokens, text } = quantity;
  const dashed = tokens[feet.end]?.kind === '-';
  const inches = readNumber(tokens, dashed ? feet.end + 1 : feet.end);
  if (!inches || feet.shape !== 'whole') return notRead(quantity);
  const marked = tokens[inches.end]?.kind === 'inch';
  if (inches.end + (marked ? 1 : 0) !== tokens.length) return notRead(quantity);

  const value = plus(times(feet.value, FOOT), times(inches.value, INCH));
  if (value.over === 0n) return zeroUnderFraction(text);
  if (isTooLong(value)) return tooLong(text);
  const meant = writtenOut(quantity, value);
  if (marked && !inches.fraction) {
    const fraction = isPartOfInch(feet, inches) ? [`${quantity.sign}${feet.text}/${inches.text}"`] : [];
    return bad(`${shown(text)} may be ${meant} or a fraction of an inch: write the one that was read`, [
      meant,
      ...fraction,
    ]);
  }
  if (!dashed || !isUnder(inches.value, 12n)) {
    return {
      kind: 'bare',
      reason: `${shown(text)} has no foot mark: write ${meant} if that was read`,
      suggestions: [meant],
    };
  }
  return finish(quantity, value, [`no foot mark: taken for ${meant}`], [meant]);
}

/** `3-4"` could be a slip for 3/4". */
function isPartOfInch(numerator: MixedNumber, denominator: MixedNumber): boolean {
  const over = Number(denominator.text);
  return TAPE_PARTS.has(over) && Number(numerator.text) < over;
}

function withoutUnit(quantity: Signed, number: MixedNumber): LengthParse {
  if (number.value.over === 0n) return zeroUnderFraction(quantity.text);
  if (number.value.count === 0n) return finish(quantity, number.value, []);
  if (isTooLong(times(number.value, FOOT))) return tooLong(quantity.text);
  if (number.text.length > MOST_SHOWN) return notRead(quantity);
  const typed = `${quantity.sign}${number.text}`;
  if (number.fraction) {
    const onTape = doubtfulInches(number, false).length === 0;
    const inches = onTape ? `${typed}"` : writtenOut(quantity, times(number.value, INCH));
    const reason = `${shown(quantity.text)} has no inch mark: write ${inches} if inches were read`;
    return { kind: 'bare', reason, suggestions: [inches] };
  }
  const [inches, feet, millimetres] = [`${typed}"`, `${typed}'`, `${typed} mm`];
  // Parts of a foot that no tape shows would only be questioned again.
  const either = isWhole(times(number.value, FOOT), SIXTEENTH) ? [inches, feet] : [inches];
  // A number that big was hardly read off an inch tape.
  const suggestions = isOver(number.value, 400n) ? [millimetres, ...either] : [...either, millimetres];
  return { kind: 'bare', reason: `${shown(quantity.text)} what? Write inches, feet or millimetres`, suggestions };
}

function finish(
  quantity: Signed,
  value: Ratio,
  doubts: readonly string[],
  suggestions: readonly string[] = [],
): LengthParse {
  if (value.over === 0n) return zeroUnderFraction(quantity.text);
  if (isTooLong(value)) return tooLong(quantity.text);
  const magnitude = (2n * value.count + value.over) / (2n * value.over);
  const length = nanometres(Number(quantity.sign === '-' ? -magnitude : magnitude));
  const read: ReadLength = {
    kind: 'length',
    length,
    exact: magnitude * value.over === value.count,
    onTape: length % SIXTY_FOURTH === 0 || length % MILLIMETRE === 0,
  };
  if (doubts.length === 0) return read;
  const nearest = formatExact(nearestMark(length), 'feet-inches');
  return { ...read, doubt: doubts.join('; '), suggestions: suggestions.length > 0 ? suggestions : [nearest] };
}

/** The nearest 1/16 in that is not nothing. */
function nearestMark(length: Length): Length {
  const mark = roundTo(length, sixteenth);
  if (mark !== 0 || length === 0) return mark;
  return length < 0 ? negate(sixteenth) : sixteenth;
}

/** What no tape shows, though it has a meaning. */
function doubtfulInches(inches: MixedNumber, afterFeet: boolean): string[] {
  const doubts: string[] = [];
  const { fraction, value } = inches;
  if (value.over === 0n) return doubts;
  if (fraction) {
    const text = shown(`${fraction.count}/${fraction.over}"`);
    if (fraction.count === fraction.over) doubts.push(`${text} is a whole inch`);
    if (fraction.count > fraction.over) doubts.push(`${text} is more than a whole inch`);
    if (!TAPE_PARTS.has(Number(fraction.over))) doubts.push(`${text} is not on a tape`);
  }
  if (afterFeet && !isUnder(value, 12n)) doubts.push(`${shown(inches.text)}" after the feet is a foot or more`);
  return doubts;
}

/** To the nearest 1/16 in; the value is known to be short enough and to have a meaning. */
function writtenOut(quantity: Signed, value: Ratio): string {
  const magnitude = roundTo(nanometres(Number(value.count / value.over)), sixteenth);
  return `${magnitude === 0 ? '' : quantity.sign}${formatExact(magnitude, 'feet-inches')}`;
}

// ---- words

const bad = (reason: string, suggestions?: readonly string[]): NotALength =>
  suggestions ? { kind: 'bad', reason, suggestions } : { kind: 'bad', reason };

function notRead({ text, tokens }: Signed): NotALength {
  const last = tokens[tokens.length - 1];
  if (last?.kind === '-' || last?.kind === '/') return bad(`${shown(text)} is half typed: the last number is missing`);
  const word = tokens.find((token) => token.kind === 'word');
  if (word && tokens.length > 1) {
    return bad(`${shown(word.text)} is no unit of length here: write feet, inches, mm, cm or m`);
  }
  return bad(`${shown(text)} is no length: write one such as 3'-4 1/2" or 1029 mm`);
}

const tooLong = (text: string): NotALength => bad(`${shown(text)} is longer than 10 000 ft: no house is`);

const zeroUnderFraction = (text: string): NotALength => bad(`${shown(text)} has 0 under the fraction bar`);

/** `1,067 m`: a comma between two numbers. */
function isDecimalComma(token: Token, at: number, tokens: readonly Token[]): boolean {
  return token.kind === ',' && tokens[at - 1]?.kind === 'digits' && tokens[at + 1]?.kind === 'digits';
}

function decimalComma(text: string): NotALength {
  const reason = `${shown(text)} has a comma: decimals take a point, thousands nothing`;
  if (text.length > MOST_SHOWN) return bad(reason);
  const trimmed = text.trim();
  const meant = [trimmed.replace(',', '.'), trimmed.replaceAll(',', '')].filter((way) => {
    const parsed = parseLength(way);
    return parsed.kind === 'length' && parsed.doubt === undefined;
  });
  return meant.length > 0 ? bad(reason, meant) : bad(reason);
}

const MOST_SHOWN = 32;

/** The text as a message may quote it: one line, never endless. */
function shown(text: string): string {
  const short = text.length > MOST_SHOWN ? `${text.slice(0, MOST_SHOWN)}…` : text;
  return short.replace(/\s+/g, ' ').trim();
}

// ---- numbers

/** `count / over`, never negative. `over` 0 stands for a fraction that cannot be. */
interface Ratio {
  readonly count: bigint;
  readonly over: bigint;
}
interface MixedNumber {
  readonly value: Ratio;
  readonly shape: 'whole' | 'decimal' | 'fraction';
  readonly fraction: Ratio | undefined;
  /** As a person would write it: `3-1/2`, `12.5`. */
  readonly text: string;
  /** The token after it. */
  readonly end: number;
}

const times = (ratio: Ratio, factor: bigint): Ratio => ({ count: ratio.count * factor, over: ratio.over });
const plus = (a: Ratio, b: Ratio): Ratio => ({ count: a.count * b.over + b.count * a.over, over: a.over * b.over });
const isUnder = (ratio: Ratio, limit: bigint): boolean => ratio.count < limit * ratio.over;
const isOver = (ratio: Ratio, limit: bigint): boolean => ratio.count > limit * ratio.over;
const isWhole = (value: Ratio, step: bigint): boolean => value.count % (value.over * step) === 0n;
const isTooLong = (value: Ratio): boolean => isOver(value, BigInt(LONGEST_LENGTH));

/** `3`, `3.5`, `1/2`, `½`, `3 1/2`, `3-1/2`, `3½`, `3-½`. */
function readNumber(tokens: readonly Token[], start: number): MixedNumber | undefined {
  const first = tokens[start];
  const alone = readFraction(tokens, start);
  if (alone) return { value: alone.ratio, shape: 'fraction', fraction: alone.ratio, text: alone.text, end: alone.end };
  if (first?.kind !== 'digits') return undefined;
  if (first.decimals !== '') {
    return { value: decimal(first), shape: 'decimal', fraction: undefined, text: first.text, end: start + 1 };
  }
  const dashed = tokens[start + 1]?.kind === '-';
  const part = readFraction(tokens, start + (dashed ? 2 : 1));
  const whole = decimal(first);
  if (!part) return { value: whole, shape: 'whole', fraction: undefined, text: first.text, end: start + 1 };
  const text = `${first.text}-${part.text}`;
  return { value: plus(whole, part.ratio), shape: 'fraction', fraction: part.ratio, text, end: part.end };
}

function readFraction(
  tokens: readonly Token[],
  start: number,
): { ratio: Ratio; text: string; end: number } | undefined {
  const first = tokens[start];
  if (first?.kind === 'vulgar') {
    const [count, over] = VULGAR.get(first.text) ?? [1, 1];
    return { ratio: { count: BigInt(count), over: BigInt(over) }, text: `${count}/${over}`, end: start + 1 };
  }
  if (first?.kind !== 'digits' || tokens[start + 1]?.kind !== '/') return undefined;
  const last = tokens[start + 2];
  if (last?.kind !== 'digits') return undefined;
  if (first.decimals !== '' || last.decimals !== '') return undefined;
  const ratio = { count: decimal(first).count, over: decimal(last).count };
  return { ratio, text: `${first.text}/${last.text}`, end: start + 3 };
}

/** Digits past these change nothing but whether the number is exact or too long: big-number arithmetic stays cheap. */
const MOST_DIGITS = 40;

function decimal(token: Token): Ratio {
  const whole = token.whole.length > MOST_DIGITS ? '9'.repeat(MOST_DIGITS) : token.whole;
  const cut = token.decimals.slice(0, MOST_DIGITS);
  const decimals = /[1-9]/.test(token.decimals.slice(MOST_DIGITS)) ? `${cut}1` : cut;
  if (decimals === '') return { count: BigInt(whole), over: 1n };
  return { count: BigInt(`${whole}${decimals}`), over: 10n ** BigInt(decimals.length) };
}

// ---- tokens

interface Token {
  readonly kind: 'digits' | 'vulgar' | '/' | '-' | '+' | ',' | 'foot' | 'inch' | 'metric' | 'word' | 'other';
  readonly text: string;
  /** Of digits: before the point, without leading zeros, and after it. */
  readonly whole: string;
  readonly decimals: string;
  /** Of a metric unit. */
  readonly nanometres: bigint;
}

const FOOT = 304_800_000n;
const INCH = 25_400_000n;
const MILLIMETRE = 1_000_000;
const SIXTEENTH = 1_587_500n;
const SIXTY_FOURTH = 396_875;
const TAPE_PARTS: ReadonlySet<number> = new Set([2, 4, 8, 16, 32, 64]);

/** `3'-4-1/2"` has ten with its sign; past that there is no need to look. */
const MOST_TOKENS = 10;

/** Blanks, a number, decimals alone, a word, a doubled mark, any other character. */
const TOKEN = /\s+|(\d+)(?:\.(\d+))?|\.(\d+)|([A-Za-z]+)\.?|(['′’‘ʹ´`]{2})|(.)/suy;

const MARKS: ReadonlyMap<string, Token['kind']> = new Map(
  (
    [
      ['foot', "'′’‘ʹʼ´`"],
      ['inch', '"″”“ʺ'],
      ['-', '-‐‑‒–—―−﹣-'],
      ['/', '/⁄∕'],
      ['vulgar', '½¼¾⅛⅜⅝⅞⅓⅔⅙⅚⅕⅖⅗⅘⅐⅑⅒'],
      ['+', '+'],
      [',', ','],
    ] as const
  ).flatMap(([kind, marks]) => [...marks].map((mark): [string, Token['kind']] => [mark, kind])),
);

type UnitWord = Pick<Token, 'kind' | 'nanometres'>;
const WORDS: ReadonlyMap<string, UnitWord> = new Map([
  ...named(['ft', 'foot', 'feet'], 'foot', FOOT),
  ...named(['in', 'inch', 'inches'], 'inch', INCH),
  ...named(['mm', 'millimetre', 'millimetres', 'millimeter', 'millimeters'], 'metric', 1_000_000n),
  ...named(['cm', 'centimetre', 'centimetres', 'centimeter', 'centimeters'], 'metric', 10_000_000n),
  ...named(['m', 'metre', 'metres', 'meter', 'meters'], 'metric', 1_000_000_000n),
]);

function named(words: readonly string[], kind: Token['kind'], nanometres: bigint): [string, UnitWord][] {
  return words.map((word) => [word, { kind, nanometres }]);
}

const VULGAR: ReadonlyMap<string, readonly [count: number, over: number]> = new Map([
  ['½', [1, 2]],
  ['¼', [1, 4]],
  ['¾', [3, 4]],
  ['⅛', [1, 8]],
  ['⅜', [3, 8]],
  ['⅝', [5, 8]],
  ['⅞', [7, 8]],
  ['⅓', [1, 3]],
  ['⅔', [2, 3]],
  ['⅙', [1, 6]],
  ['⅚', [5, 6]],
  ['⅕', [1, 5]],
  ['⅖', [2, 5]],
  ['⅗', [3, 5]],
  ['⅘', [4, 5]],
  ['⅐', [1, 7]],
  ['⅑', [1, 9]],
  ['⅒', [1, 10]],
]);

/** Reads a few tokens more than any length has, then stops: the rest cannot make it a length. */
function scan(text: string): Token[] {
  const tokens: Token[] = [];
  TOKEN.lastIndex = 0;
  while (tokens.length <= MOST_TOKENS + 1) {
    const match = TOKEN.exec(text);
    if (!match) break;
    const [all, whole, decimals = '', decimalsAlone, word, doubled, mark] = match;
    if (whole !== undefined) tokens.push(digits(all, whole.replace(/^0+(?=\d)/, ''), decimals));
    else if (decimalsAlone !== undefined) tokens.push(digits(`0${all}`, '0', decimalsAlone));
    else if (word !== undefined) tokens.push(wordToken(word));
    else if (doubled !== undefined) tokens.push(token('inch', doubled));
    else if (mark !== undefined) tokens.push(token(MARKS.get(mark) ?? 'other', mark));
  }
  return tokens;
}

const token = (kind: Token['kind'], text: string, nanometres = 0n): Token => ({
  kind,
  text,
  whole: '',
  decimals: '',
  nanometres,
});

const digits = (text: string, whole: string, decimals: string): Token => ({
  kind: 'digits',
  text,
  whole,
  decimals,
  nanometres: 0n,
});

function wordToken(word: string): Token {
  const known = WORDS.get(word.toLowerCase());
  return token(known?.kind ?? 'word', word, known?.nanometres);
}
