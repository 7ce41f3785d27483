import type { Length } from '../units/length.ts';
import type { Quantity } from '../units/quantity.ts';
import type { NameReference, Stretch, Tags } from './layout.ts';
import type { Reading } from './reading.ts';
import type { SourceSpan } from './source.ts';

/** What was done, day by day. A record never overwrites the design: it stands beside it. */
export interface DayRecord {
  /** ISO date as written; a date that no calendar has is told where it is read. */
  readonly date: string;
  readonly by: string | undefined;
  /** In text order. */
  readonly events: readonly RecordEvent[];
  /** Notes and photos of the day. */
  readonly tags?: Tags;
  readonly source: SourceSpan;
}
export type RecordEvent =
  | InstalledEvent
  | OmittedEvent
  | TestedEvent
  | InspectedEvent
  | DiscoveredEvent
  | DeadHoleEvent;

interface EventOf<Kind extends string> {
  readonly kind: Kind;
  readonly tags: Tags;
  readonly source: SourceSpan;
}
export interface InstalledEvent extends EventOf<'installed'> {
  readonly marks: readonly NameReference[];
  /** `as-planned` repeats the design's place; `unknown`: installed, and nobody wrote down where. */
  readonly place: AsBuiltPlace;
  readonly embed: Reading<Length> | undefined;
  readonly offset: Reading<Length> | undefined;
  readonly torque: Reading<Quantity> | undefined;
  /** Another connector than the design's. */
  readonly using: NameReference | undefined;
  readonly lot: string | undefined;
  readonly expires: string | undefined;
  readonly reason: string | undefined;
}
export type AsBuiltPlace =
  | { readonly kind: 'as-planned' }
  | { readonly kind: 'unknown' }
  /** `station` is `undefined` where it cannot be resolved on the mark's wall. */
  | { readonly kind: 'at'; readonly station: Length | undefined; readonly source: SourceSpan };
export interface OmittedEvent extends EventOf<'omitted'> {
  readonly marks: readonly NameReference[];
  readonly reason: string | undefined;
}
export interface TestedEvent extends EventOf<'tested'> {
  readonly marks: readonly NameReference[];
  readonly how: 'pull' | 'torque' | undefined;
  readonly value: Reading<Quantity> | undefined;
  readonly result: 'passed' | 'failed' | undefined;
  readonly failure: 'slipped' | 'spun' | 'cracked' | undefined;
  readonly witness: string | undefined;
}
export interface InspectedEvent extends EventOf<'inspected'> {
  readonly what: string | undefined;
  readonly result: 'passed' | 'failed' | 'corrections' | undefined;
}
export interface DiscoveredEvent extends EventOf<'discovered'> {
  readonly text: string;
  readonly on: NameReference | undefined;
  readonly stretch: Stretch | undefined;
}
/** A hole that was drilled and given up. */
export interface DeadHoleEvent extends EventOf<'dead-hole'> {
  readonly on: NameReference | undefined;
  readonly station: Length | undefined;
  readonly state: 'open' | 'grouted' | undefined;
}

/** What the newest event says of a mark; a failed test holds until something is installed anew under the mark. */
export type MarkState = 'planned' | 'installed' | 'omitted' | 'failed';

/** Where and how a mark was really built, from the newest `installed` event about it. */
export interface AsBuilt {
  /** On the mark's wall; `undefined` where nobody wrote it down or it cannot be resolved. */
  readonly station: Length | undefined;
  readonly asPlanned: boolean;
  readonly embed: Reading<Length> | undefined;
  readonly offset?: Reading<Length>;
  readonly using: NameReference | undefined;
  readonly date: string;
  readonly source: SourceSpan;
}

/** A numbered set of papers that left the office. */
export interface Issue {
  readonly number: number | undefined;
  readonly date: string | undefined;
  readonly purpose: string | undefined;
  readonly by: string | undefined;
  /** Of survey, design and rules in force when it was made; first 8 hex digits. */
  readonly fingerprint: string | undefined;
  readonly changed: readonly { readonly marks: readonly NameReference[]; readonly reason: string | undefined }[];
  readonly tags?: Tags;
  readonly source: SourceSpan;
}
