import type { Statement } from '../prescriptive.ts';

/** A published or worked figure in the format of the value file: inputs, what should come out, and how near. */
export interface CheckEntry {
  readonly id: string;
  /** Such as `3-nds-bolt-concrete`: says which formulas to use. */
  readonly topic: string;
  /** `table`, `rule` and `published` figures come from outside; `derived` ones were worked from the formulas. */
  readonly kind: string;
  readonly source: string;
  readonly section: string;
  /** `found`: seen in a public text; `memory`: written from memory of it. */
  readonly origin: string;
  readonly inputs: CheckRecord;
  readonly expected: CheckRecord;
  readonly tolerance: string;
}
export type CheckValue = number | string | boolean | null | readonly CheckValue[] | CheckRecord;
export interface CheckRecord {
  readonly [key: string]: CheckValue;
}

/** Reads one entry; a text says what is wrong with it. Absent texts are empty, absent records too. */
export function readCheckEntry(raw: unknown): CheckEntry | string {
  if (!isRecord(raw)) return 'the entry is not an object';
  const id = raw.id;
  if (typeof id !== 'string' || id === '') return 'the entry has no id';
  for (const key of ['inputs', 'expected']) {
    if (raw[key] !== undefined && !isRecord(raw[key])) return `"${key}" is not an object`;
  }
  const text = (key: string): string => {
    const value = raw[key];
    return typeof value === 'string' ? value : '';
  };
  return {
    id,
    topic: text('topic'),
    kind: text('kind'),
    source: text('source'),
    section: text('section'),
    origin: text('origin'),
    inputs: isRecord(raw.inputs) ? raw.inputs : {},
    expected: isRecord(raw.expected) ? raw.expected : {},
    tolerance: text('tolerance'),
  };
}

export function isRecord(value: unknown): value is CheckRecord {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

/** What we compute for an entry: its values by the keys of the value file, or why there are none. */
export type Recomputed =
  | { readonly kind: 'values'; readonly values: RecomputedRecord }
  | { readonly kind: 'refused'; readonly reason: string };
export type RecomputedValue = number | string | boolean | Statement | readonly RecomputedValue[] | RecomputedRecord;
export interface RecomputedRecord {
  readonly [key: string]: RecomputedValue;
}
export const values = (record: RecomputedRecord): Recomputed => ({ kind: 'values', values: record });
export const noValue = (reason: string): Recomputed => ({ kind: 'refused', reason });

/** One way to recompute entries of a kind: told by topic and by what is given and asked, never by the entry's name. */
export interface Recomputation {
  covers(entry: CheckEntry): boolean;
  compute(entry: CheckEntry): Recomputed;
}

export interface RecomputationOf<Needed extends string> {
  /** Start of the topic. */
  readonly topic: string;
  /** Inputs that must be finite numbers. */
  readonly needs?: readonly Needed[];
  /** Keys of which at least one is expected; an entry that expects nothing is told by its inputs alone. */
  readonly gives?: readonly string[];
  readonly when?: (entry: CheckEntry) => boolean;
  readonly compute: (input: Readonly<Record<Needed, number>>, entry: CheckEntry) => Recomputed;
}
export function recomputation<Needed extends string = never>(way: RecomputationOf<Needed>): Recomputation {
  const needs = way.needs ?? [];
  return {
    covers: (entry) =>
      entry.topic.startsWith(way.topic) &&
      needs.every((key) => numberAt(entry.inputs, key) !== undefined) &&
      (way.gives === undefined || asksFor(entry, way.gives, needs.length > 0)) &&
      (way.when?.(entry) ?? true),
    compute: (entry) => {
      const numbers = Object.fromEntries(needs.map((key) => [key, numberAt(entry.inputs, key) ?? Number.NaN]));
      return way.compute(numbers as Record<Needed, number>, entry);
    },
  };
}

function asksFor(entry: CheckEntry, keys: readonly string[], toldByInputs: boolean): boolean {
  if (toldByInputs && Object.keys(entry.expected).length === 0) return true;
  return keys.some((key) => Object.hasOwn(entry.expected, key));
}

export function numberAt(record: CheckRecord, key: string): number | undefined {
  const value = record[key];
  return typeof value === 'number' && Number.isFinite(value) ? value : undefined;
}
export function textAt(record: CheckRecord, key: string): string | undefined {
  const value = record[key];
  return typeof value === 'string' ? value : undefined;
}
/** A number or a list of numbers, as a list. */
export function numbersAt(record: CheckRecord, key: string): readonly number[] | undefined {
  const value = record[key];
  const list: readonly CheckValue[] = Array.isArray(value) ? value : value === undefined ? [] : [value];
  const numbers = list.filter((each): each is number => typeof each === 'number' && Number.isFinite(each));
  return numbers.length > 0 && numbers.length === list.length ? numbers : undefined;
}
