import type { Connector, Fastener } from '../../hardware/connector.ts';
import type { AddedHardware } from '../../model/design.ts';
import type { LengthUnits, Size } from '../../model/layout.ts';
import type { Reading } from '../../model/reading.ts';
import { formatInches, formatLength } from '../../units/format-length.ts';
import type { Length } from '../../units/length.ts';

/** How schedules say hardware, wood and readings. What nobody wrote down is the empty text, what nobody knows `unknown`. */

export function readingInWords(reading: Reading<Length> | Length | undefined, units: LengthUnits): string {
  if (reading === undefined) return '';
  if (typeof reading === 'number') return formatInches(reading, units);
  return reading.kind === 'unknown' ? 'unknown' : formatInches(reading.value, units);
}

/** In feet from a foot up. */
export function heightInWords(reading: Reading<Length> | undefined, units: LengthUnits): string {
  if (reading === undefined) return '';
  return reading.kind === 'unknown' ? 'unknown' : formatLength(reading.value, units);
}

/** `2x6`, `1-1/2" x 5-1/2"`. */
export function sizeInWords(size: Size | undefined, units: LengthUnits): string {
  if (!size) return '';
  if (size.nominal !== undefined) return size.nominal;
  return `${readingInWords(size.thick, units)} x ${readingInWords(size.wide, units)}`;
}

/** The fastener into concrete is what gets drilled for; a connector without one is known by its first. */
export function fastenerOf(connector: Connector | undefined): Fastener | undefined {
  return connector?.fasteners.find((fastener) => fastener.member === 'concrete') ?? connector?.fasteners[0];
}

/** `2 of 1/2" x 4-1/2"`, `6 of 8d x 1-1/2"`. */
export function fastenerSize(fastener: Fastener, units: LengthUnits): string {
  const across = fastener.diameter ? formatInches(fastener.diameter, units) : undefined;
  const nail = fastener.penny === undefined ? undefined : `${fastener.penny}d`;
  const long = fastener.long ? formatInches(fastener.long, units) : undefined;
  const size = [across ?? nail, long].filter((part) => part !== undefined).join(' x ');
  return fastener.count > 1 ? `${fastener.count} of ${size}` : size;
}

/** All fasteners of a connector by what they go into: `joist: 6 of 8d x 1-1/2"; sill: 6 of 8d x 1-1/2"`. */
export function fastenersByMember(connector: Connector | undefined, units: LengthUnits): string {
  return (connector?.fasteners ?? [])
    .map((fastener) => `${fastener.member}: ${fastenerSize(fastener, units)}`)
    .join('; ');
}

/** The body of a plate washer is its size; that of a through-bolt is the washer under its nut. */
export function washerInWords(
  connector: Connector | undefined,
  added: readonly AddedHardware[] | undefined,
  units: LengthUnits,
): string {
  const own = connector?.kind === 'through-bolt' ? connector.body : undefined;
  const body = added?.find((each) => each.connector?.kind === 'plate-washer')?.connector?.body ?? own;
  return body ? `${formatInches(body.wide, units)} x ${formatInches(body.tall, units)}` : '';
}

/** What comes with a piece of new work, by name. */
export const addedInWords = (added: readonly AddedHardware[] | undefined): string =>
  (added ?? []).map(({ name }) => name).join(', ');

export const joined = (parts: readonly string[], between = ', '): string =>
  parts.filter((part) => part !== '').join(between);
