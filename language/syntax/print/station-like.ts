import type { LengthUnits } from '../../domain/model/layout.ts';
import { formatExact, formatExactStation } from '../../domain/units/format-length.ts';
import { type Length, minus, NANOMETRES_PER_MILLIMETRE, plus, zero } from '../../domain/units/length.ts';
import { parseLength } from '../../domain/units/parse-length.ts';

/** A station as it is written now, and the place that those words mean. */
export interface WrittenStation {
  readonly words: string;
  readonly station: Length;
}

/**
 * Another station in the words of the one that it replaces: from the same end or the same edge, in the same unit, with the
 * same signs. Where these words cannot say it (the far side of the thing that they measure from), it is written from the left.
 */
export function stationLike({ words, station: before }: WrittenStation, station: Length, units: LengthUnits): string {
  const [, amount = '', rest = ''] = /^(.*?)(\s+(?:from\s+right|(?:left|right)\s+of\s.*))?$/is.exec(words.trim()) ?? [];
  const quality = /^(?:assume|scaled|told)\s+/i.exec(amount)?.[0] ?? '';
  const typed = amount.slice(quality.length);
  const read = parseLength(typed);
  const plain = (): string => formatExactStation(station, units);
  if (read.kind !== 'length') return plain();
  if (rest === '') return lengthLike(typed, station, units);
  const grows = /^\s+right\s+of/i.test(rest) ? 1 : -1;
  const moved = grows === 1 ? minus(station, before) : minus(before, station);
  const distance = plus(read.length, moved);
  return distance < zero ? plain() : `${quality}${lengthLike(typed, distance, units)}${rest}`;
}

/** Whether a station is written in millimetres, centimetres or metres: then it is moved by whole millimetres. */
export function unitsOfWords(words: string, units: LengthUnits): LengthUnits {
  if (METRIC.test(words)) return 'metric';
  return /\d\s*(?:'|"|[’”′″]|ft\b|in\b)/i.test(words) ? 'feet-inches' : units;
}

const METRIC = /\d(\s*)(mm|cm|m)\b/i;
const METRIC_UNITS: Readonly<Record<string, number>> = { mm: 1, cm: 10, m: 1000 };
const FEET_AND_INCHES = /^\d+(\s?(?:['’′]|ft))([\s-]*)\d+(?:([\s-])\d+\s*[/⁄]\s*\d+)?(\s?(?:["”″]|''|in))$/i;

function lengthLike(typed: string, length: Length, units: LengthUnits): string {
  const metric = METRIC.exec(typed);
  if (metric) return inMetric(length, metric[1] ?? ' ', metric[2] ?? 'mm');
  if (!/['’′]|ft/i.test(typed) && units === 'feet-inches') return inInches(typed, length);
  const canonical = formatExactStation(length, 'feet-inches');
  const parts = /^(-?\d+)'-(\d+)(?: (\d+\/\d+))?"$/.exec(canonical);
  const signs = FEET_AND_INCHES.exec(typed.trim());
  if (!parts || !signs) return canonical;
  const [, feet, inches, fraction] = parts;
  const [, foot, between, beforeFraction = ' ', inch] = signs;
  return `${feet}${foot}${between}${inches}${fraction === undefined ? '' : `${beforeFraction}${fraction}`}${inch}`;
}

/** Below a foot and above it, as `40-1/2"` and `6"` are. */
function inInches(typed: string, length: Length): string {
  const canonical = formatExactStation(length, 'feet-inches');
  const parts = /^(-?)(\d+)'-(\d+)(?: (\d+\/\d+))?"$/.exec(canonical);
  if (!parts || !/["”″]|''|in\b/i.test(typed)) return parts ? canonical : formatExact(length, 'feet-inches');
  const [, sign, feet, inches, fraction] = parts;
  const whole = Number(feet) * 12 + Number(inches);
  const mark = /(\s?(?:["”″]|''|in))\s*$/i.exec(typed)?.[1] ?? '"';
  if (fraction === undefined) return `${sign}${whole}${mark}`;
  return whole === 0 ? `${sign}${fraction}${mark}` : `${sign}${whole}-${fraction}${mark}`;
}

function inMetric(length: Length, blank: string, unit: string): string {
  const size = (METRIC_UNITS[unit.toLowerCase()] ?? 1) * NANOMETRES_PER_MILLIMETRE;
  const whole = Math.floor(Math.abs(length) / size);
  const decimals = String(Math.abs(length) % size)
    .padStart(String(size).length - 1, '0')
    .replace(/0+$/, '');
  return `${length < 0 ? '-' : ''}${whole}${decimals === '' ? '' : `.${decimals}`}${blank}${unit}`;
}
