import type { Layout } from '../../model/layout.ts';
import type { InstalledEvent, MarkState, OmittedEvent, TestedEvent } from '../../model/record.ts';
import { formatQuantity } from '../../units/format-quantity.ts';
import { joined } from './words.ts';

/** What the record says of one mark, newest first where there may be more than one. */
export interface MarkRecord {
  readonly state: MarkState;
  /** The newest, while it is not undone by an `omitted` after it. */
  readonly installed: Dated<InstalledEvent> | undefined;
  /** The newest, while nothing was installed after it. */
  readonly omitted: Dated<OmittedEvent> | undefined;
  /** Oldest first. */
  readonly tests: readonly Dated<TestedEvent>[];
}
export interface Dated<Event> {
  readonly date: string;
  /** Who wrote the day down. */
  readonly by: string | undefined;
  readonly event: Event;
}

const nothing: MarkRecord = { state: 'planned', installed: undefined, omitted: undefined, tests: [] };

/** Finds what the record says of a mark of a wall or girder; the record names marks in any letters, alone or as `F.F-3`. */
export function recordOfMarks(layout: Layout): (owner: string, mark: string) => MarkRecord {
  const records = known.get(layout) ?? readRecord(layout);
  known.set(layout, records);
  return (owner, mark) => {
    const key = mark.toLowerCase();
    return records.get(`${owner.toLowerCase()}.${key}`) ?? records.get(key) ?? nothing;
  };
}

const known = new WeakMap<Layout, ReadonlyMap<string, MarkRecord>>();

function readRecord({ record }: Layout): ReadonlyMap<string, MarkRecord> {
  const records = new Map<string, MarkRecord>();
  for (const { date, by, events } of record) {
    for (const event of events) {
      if (!('marks' in event)) continue;
      for (const { name } of event.marks) {
        const key = name.toLowerCase();
        records.set(key, after(records.get(key) ?? nothing, { date, by, event }));
      }
    }
  }
  return records;
}

function after(before: MarkRecord, { event, ...day }: Dated<InstalledEvent | OmittedEvent | TestedEvent>): MarkRecord {
  switch (event.kind) {
    case 'installed':
      return { ...before, state: 'installed', installed: { ...day, event }, omitted: undefined };
    case 'omitted':
      return { ...before, state: 'omitted', installed: undefined, omitted: { ...day, event } };
    case 'tested':
      return {
        ...before,
        // A test that was passed does not undo one that was failed: only a new anchor under the mark does.
        state: event.result === 'failed' ? 'failed' : before.state,
        tests: [...before.tests, { ...day, event }],
      };
  }
}

/** `torque 40 ft-lb passed 2026-06-11`, the newest last. */
export const testsInWords = ({ tests }: MarkRecord): string =>
  tests.map(({ date, event }) => `${testInWords(event)} ${date}`).join('; ');

export function testInWords({ how, value, result, failure }: TestedEvent): string {
  const amount = value === undefined ? '' : value.kind === 'unknown' ? 'value unknown' : formatQuantity(value.value);
  const came = result === undefined ? 'no result' : joined([result, failure === undefined ? '' : `(${failure})`], ' ');
  return joined([how ?? 'test', amount, came], ' ');
}
