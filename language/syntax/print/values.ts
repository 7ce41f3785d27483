import type { LengthUnits, Point, Size, Stretch } from '../../domain/model/layout.ts';
import type { Profile, ProfilePoint, Quality, Reading } from '../../domain/model/reading.ts';
import { withEnds } from '../../domain/model/reading.ts';
import type { SourceSpan } from '../../domain/model/source.ts';
import { formatExact, formatExactStation } from '../../domain/units/format-length.ts';
import type { Length } from '../../domain/units/length.ts';
import {
  half,
  minus,
  NANOMETRES_PER_INCH,
  NANOMETRES_PER_MILLIMETRE,
  plus,
  sixteenth,
} from '../../domain/units/length.ts';
import type { Money } from '../../domain/units/money.ts';
import { formatMoney } from '../../domain/units/money.ts';
import { nominalSize } from '../../domain/units/nominal-size.ts';
import { parseLength } from '../../domain/units/parse-length.ts';
import { parseQuantity } from '../../domain/units/parse-quantity.ts';
import type { Quantity } from '../../domain/units/quantity.ts';
import { inUnit } from '../../domain/units/quantity.ts';
import { profileOver, withLevel, withPoint } from '../assemble/stretches.ts';
import { lineOf } from './words.ts';

/** Values as they stand in a file: what was typed where it says the very value, else the shortest exact spelling. */

export function printLength(length: Length, units: LengthUnits): string {
  return formatExact(length, units);
}

/** A place along a wall or girder; the right end has its own word. */
export function printStation(station: Length | undefined, units: LengthUnits, end?: Length): string {
  if (station === undefined) return 'unknown';
  return station === end ? 'end' : formatExactStation(station, units);
}

export function printPoint({ x, y }: Point, units: LengthUnits): string {
  return `(${formatExact(x, units)}, ${formatExact(y, units)})`;
}

export function printReading(reading: Reading<Length>, units: LengthUnits): string {
  if (reading.kind === 'unknown') return 'unknown';
  const parsed = parseLength(reading.typed);
  const saysIt = parsed.kind === 'length' && parsed.length === reading.value;
  return lineOf(qualityWords[reading.quality], saysIt ? reading.typed : formatExact(reading.value, units));
}

export function printCount(reading: Reading<number>): string {
  if (reading.kind === 'unknown') return 'unknown';
  return lineOf(qualityWords[reading.quality], String(reading.value));
}

export function printQuantityReading(reading: Reading<Quantity>): string {
  if (reading.kind === 'unknown') return 'unknown';
  const parsed = parseQuantity(reading.typed);
  const saysIt = parsed?.dimension === reading.value.dimension && parsed.amount === reading.value.amount;
  return lineOf(qualityWords[reading.quality], saysIt ? reading.typed : printQuantity(reading.value));
}

const qualityWords: Readonly<Record<Quality, string | undefined>> = {
  measured: undefined,
  scaled: 'scaled',
  told: 'told',
  assumed: 'assume',
};

/** In its own unit, with as many digits as give the very amount back. */
export function printQuantity(quantity: Quantity): string {
  const value = inUnit(quantity, quantity.unit) ?? quantity.amount;
  for (const digits of [12, 15, 16, 17]) {
    const text = decimal(Number(value.toPrecision(digits)), quantity.unit);
    if (parseQuantity(text)?.amount === quantity.amount) return text;
  }
  return decimal(value, quantity.unit);
}

function decimal(value: number, unit: string): string {
  const number = value.toLocaleString('en-US', { useGrouping: false, maximumFractionDigits: 20 });
  return unit === '' || unit === '°' ? `${number}${unit}` : `${number} ${unit}`;
}

export function printMoney(money: Money): string {
  return formatMoney(money);
}

/** A word and its value, or nothing. */
export function keyed(key: string, reading: Reading<Length> | undefined, units: LengthUnits): string | undefined {
  return reading && lineOf(key, printReading(reading, units));
}

export function printSize(size: Size | undefined, units: LengthUnits): string | undefined {
  if (!size) return undefined;
  if (size.nominal !== undefined && nominalSize(size.nominal)) return size.nominal;
  const { thick, wide, long } = size;
  if (thick.kind === 'unknown' && wide.kind === 'unknown' && !long) return 'size unknown';
  return `size ${[thick, wide, ...(long ? [long] : [])].map((side) => printReading(side, units)).join(' x ')}`;
}

// ---- places

/** `to X` where it begins at the end of the stretch before, else `A to B`. */
export function printStretch(stretch: Stretch, units: LengthUnits, end: Length | undefined, before?: Length): string {
  const to = printStation(stretch.to, units, end);
  return stretch.from === before ? `to ${to}` : `${printStation(stretch.from, units)} to ${to}`;
}

/** Of a thing in the way or a defect: a stretch, one station, or a middle and a width where an edge is off the wall. */
export function printPlace(stretch: Stretch | undefined, units: LengthUnits, end: Length | undefined): string {
  if (!stretch) return 'at unknown';
  if (stretch.from === stretch.to) return `at ${printStation(stretch.from, units, end)}`;
  const offTheWall = stretch.from < -sixteenth || (end !== undefined && stretch.to > end + sixteenth);
  return offTheWall ? printPlaces([stretch], units, end) : printStretch(stretch, units, end);
}

/** `at S, S wide W`, for things of one width. */
export function printPlaces(stretches: readonly Stretch[], units: LengthUnits, end: Length | undefined): string {
  const [first] = stretches;
  const width = first && minus(first.to, first.from);
  const middles = stretches.map(({ from, to }) => printStation(plus(from, half(minus(to, from))), units, end));
  return lineOf('at', middles.join(', '), width ? `wide ${formatExact(width, units)}` : undefined);
}

// ---- what varies along a stretch

/** `2"`, or `2" to 1-3/4"` from the left end to the right one. */
export function printVarying(
  key: string,
  profile: Profile | undefined,
  stretch: Stretch,
  units: LengthUnits,
): string | undefined {
  if (!profile) return undefined;
  const { first, last } = takeApart(profile, stretch);
  return lineOf(
    key,
    printReading(first, units),
    sameReading(first, last) ? undefined : `to ${printReading(last, units)}`,
  );
}

/** What was read between the ends, each as it stands behind its value: `7" at 3'-0"`, `7" from 4'-0" to 6'-0"`. */
export function printReadingsBetween(
  key: string,
  profile: Profile | undefined,
  stretch: Stretch,
  units: LengthUnits,
  end: Length | undefined,
): readonly string[] {
  if (!profile) return [];
  return takeApart(profile, stretch).readings.map(({ value, where }) =>
    lineOf(
      key,
      printReading(value, units),
      where.from === where.to
        ? `at ${printStation(where.from, units, end)}`
        : `from ${printStation(where.from, units, end)} to ${printStation(where.to, units, end)}`,
    ),
  );
}

/** One value over a stretch, or at one station. */
interface SpotReading {
  readonly value: Reading<Length>;
  readonly where: Stretch;
}
interface ProfileParts {
  readonly first: Reading<Length>;
  readonly last: Reading<Length>;
  readonly readings: readonly SpotReading[];
}

/**
 * Values at the ends and readings between them that make a profile, to the nanometre. Levels are found again from the steps of one
 * nanometre at their ends; where that does not give the profile back, each of its points is a reading.
 */
function takeApart(profile: Profile, stretch: Stretch): ProfileParts {
  const inside = pointsWithin(profile, stretch);
  const first = (inside[0] ?? profile.points[0])?.value ?? { kind: 'unknown', source: nowhere };
  const last = (inside[inside.length - 1] ?? profile.points[profile.points.length - 1])?.value ?? first;
  const spots = inside
    .filter(({ station }) => station > stretch.from && station < stretch.to)
    .map(({ station, value }): SpotReading => ({ value, where: { from: station, to: station } }));
  const byPoint: ProfileParts = { first, last, readings: spots };
  const levels = levelsOf(profile);
  if (levels.length === 0) return byPoint;
  const isFree = ({ where: { from } }: SpotReading): boolean =>
    !levels.some(({ where }) => from >= where.from - 1 && from <= where.to + 1);
  // A level that reaches an end leaves the value below it one nanometre outside.
  const outside = (station: number): Reading<Length> | undefined =>
    profile.points.find((point) => point.station === station)?.value;
  const byLevel: ProfileParts = {
    first: outside(stretch.from - 1) ?? first,
    last: outside(stretch.to + 1) ?? last,
    readings: [...levels, ...spots.filter(isFree)].sort((a, b) => a.where.from - b.where.from),
  };
  return gives(byLevel, profile, stretch) ? byLevel : byPoint;
}
const nowhere: SourceSpan = { block: { file: '', key: '' }, start: 0, end: 0 };

function levelsOf({ points }: Profile): readonly SpotReading[] {
  const levels: SpotReading[] = [];
  for (let index = 0; index < points.length - 1; index += 1) {
    const before = points[index];
    const first = points[index + 1];
    if (!before || !first || first.station - before.station !== 1 || !isWritten(first.station)) continue;
    let last = index + 1;
    while (last < points.length - 1 && sameReading(first.value, points[last + 1]?.value)) last += 1;
    const end = points[last];
    const after = points[last + 1];
    if (!end || !after || after.station - end.station !== 1 || last === index + 1) continue;
    // Where another level begins one nanometre further on, this one was read up to it.
    const to = isWritten(end.station) ? end.station : after.station;
    levels.push({ value: first.value, where: { from: first.station, to } });
    index = last - 1;
  }
  return levels;
}

/** On a tape or in whole micrometres, as people write; one nanometre beside a place that is written is none. */
const isWritten = (station: Length): boolean =>
  station % (NANOMETRES_PER_INCH / 64) === 0 || station % (NANOMETRES_PER_MILLIMETRE / 1000) === 0;

/** Whether the readings, laid over the values at the ends, give the profile back. */
function gives({ first, last, readings }: ProfileParts, profile: Profile, stretch: Stretch): boolean {
  let made = profileOver({ first, last }, stretch);
  if (readings.length > 0) made = withEnds(made, stretch);
  for (const { value, where } of readings) {
    if (where.from < stretch.from || where.to > stretch.to) return false;
    made = where.from === where.to ? withPoint(made, { station: where.from, value }) : withLevel(made, where, value);
  }
  const wanted = pointsWithin(profile, stretch);
  const got = made ? pointsWithin(made, stretch) : [];
  return (
    got.length === wanted.length &&
    wanted.every((point, index) => {
      const other = got[index];
      return other?.station === point.station && sameReading(other.value, point.value);
    })
  );
}

function pointsWithin({ points }: Profile, stretch: Stretch): readonly ProfilePoint[] {
  return points.filter(({ station }) => station >= stretch.from && station <= stretch.to);
}

function sameReading(a: Reading<Length>, b: Reading<Length> | undefined): boolean {
  if (a.kind === 'unknown' || !b || b.kind === 'unknown') return a.kind === b?.kind;
  return a.value === b.value && a.quality === b.quality;
}
