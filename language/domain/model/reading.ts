import type { Length } from '../units/length.ts';
import { minus, nanometres } from '../units/length.ts';
import type { SourceSpan } from './source.ts';

/** How good a value is. `measured` is what a bare value means. */
export type Quality = 'measured' | 'scaled' | 'told' | 'assumed';

/** A value that somebody wrote down. */
export interface Known<T> {
  readonly kind: 'known';
  readonly value: T;
  readonly quality: Quality;
  /** As typed, for messages and for writing the text back. */
  readonly typed: string;
  readonly source: SourceSpan;
}

/** `unknown` was written: somebody looked and could not tell. Not the same as silence, which is `undefined`. */
export interface Unknown {
  readonly kind: 'unknown';
  readonly source: SourceSpan;
}

export type Reading<T> = Known<T> | Unknown;

/** The value where it is known. */
export function knownValue<T>(reading: Reading<T> | undefined): T | undefined {
  return reading?.kind === 'known' ? reading.value : undefined;
}

/** A value that may change along a wall: straight lines between readings, level before the first and after the last. */
export interface Profile {
  /** In order of station, at least one. */
  readonly points: readonly ProfilePoint[];
}
export interface ProfilePoint {
  readonly station: Length;
  readonly value: Reading<Length>;
}

/** The same profile with points at both ends of its stretch: a level one may have a single point. */
export function withEnds(
  profile: Profile | undefined,
  { from, to }: { readonly from: Length; readonly to: Length },
): Profile | undefined {
  const [only, ...others] = profile?.points ?? [];
  if (!only || others.length > 0 || to <= from) return profile;
  return { points: [only, { station: to, value: only.value }] };
}

/** The value at a station, interpolated to the nearest nanometre; unknown if a reading on either side is unknown. */
export function profileAt(profile: Profile, station: Length): Reading<Length> {
  const points = profile.points;
  const first = points[0];
  const last = points[points.length - 1];
  if (!first || !last) throw new RangeError('a profile has at least one point');
  if (station <= first.station) return first.value;
  if (station >= last.station) return last.value;
  let right = first;
  let left = first;
  for (const point of points) {
    right = point;
    if (point.station >= station) break;
    left = point;
  }
  if (right.station === station) return right.value;
  if (left.value.kind === 'unknown') return left.value;
  if (right.value.kind === 'unknown') return right.value;
  const run = minus(right.station, left.station);
  const rise = minus(right.value.value, left.value.value);
  const value = nanometres(Math.round(left.value.value + (rise * (station - left.station)) / run));
  if (rise === 0) return left.value;
  return { ...left.value, value, quality: worse(left.value.quality, right.value.quality) };
}

/** Least and greatest value over a stretch; unknown if any reading that bears on it is. */
export function profileRange(
  profile: Profile,
  from: Length,
  to: Length,
): { readonly least: Known<Length>; readonly greatest: Known<Length> } | Unknown {
  const inside = profile.points.filter((point) => point.station > from && point.station < to);
  const readings = [profileAt(profile, from), ...inside.map((point) => point.value), profileAt(profile, to)];
  let least: Known<Length> | undefined;
  let greatest: Known<Length> | undefined;
  for (const reading of readings) {
    if (reading.kind === 'unknown') return reading;
    if (!least || reading.value < least.value) least = reading;
    if (!greatest || reading.value > greatest.value) greatest = reading;
  }
  if (!least || !greatest) throw new RangeError('a profile has at least one point');
  return { least, greatest };
}

const order: readonly Quality[] = ['measured', 'scaled', 'told', 'assumed'];
export function worse(a: Quality, b: Quality): Quality {
  return order.indexOf(a) >= order.indexOf(b) ? a : b;
}
