import type { LengthUnits } from '../../model/layout.ts';
import type { Length } from '../../units/length.ts';
import { lengthInJson } from '../json-parts.ts';
import { type MarkRecord, testsInWords } from './mark-record.ts';
import { type ScheduleColumn, stationColumns } from './table.ts';
import { readingInWords } from './words.ts';

/** A row of what may have been built already, beside its design. */
export interface BuiltRow {
  /** As built where the record says, else as designed. */
  readonly station: Length | undefined;
  readonly designed: Length | undefined;
  /** Installed, and nobody wrote down where: `station` is that of the design. */
  readonly placeUnknown: boolean;
  readonly record: MarkRecord;
}

export function placeOf(mark: {
  readonly station: Length | undefined;
  readonly asBuilt?: { readonly station: Length | undefined; readonly asPlanned: boolean };
}): Pick<BuiltRow, 'station' | 'designed' | 'placeUnknown'> {
  const { station, asBuilt } = mark;
  return {
    station: asBuilt?.station ?? station,
    designed: station,
    placeUnknown: asBuilt !== undefined && asBuilt.station === undefined && !asBuilt.asPlanned,
  };
}

/** `was` what the design says, where it was built elsewhere. */
export function wasInWords({ station, designed, placeUnknown }: BuiltRow, units: LengthUnits): string {
  if (placeUnknown) return 'built place not recorded';
  if (station === designed) return '';
  return designed === undefined ? 'was not placed' : `was ${lengthInJson(designed, units).text}`;
}

/** A column of its own beside the station. */
export const wasColumn = <Row extends BuiltRow>(units: LengthUnits): ScheduleColumn<Row> => ({
  key: 'was',
  heading: 'Was',
  text: (row) => wasInWords(row, units).replace(/^was (?=\d)/, ''),
  csv: (row) => wasInWords(row, units),
  json: (row) => wasInWords(row, units),
});

/** What files say of the building; in text the record has a table of its own. */
export const builtColumns = <Row extends BuiltRow>(units: LengthUnits): readonly ScheduleColumn<Row>[] => [
  ...stationColumns<Row>({ key: 'designedStation' }, units, ({ designed }) => designed),
  { key: 'reason', text: ({ record }) => (record.omitted ?? record.installed)?.event.reason ?? '' },
  { key: 'installedOn', text: ({ record }) => record.installed?.date ?? '' },
  { key: 'installedBy', text: ({ record }) => record.installed?.by ?? '' },
  { key: 'builtEmbed', text: ({ record }) => readingInWords(record.installed?.event.embed, units) },
  { key: 'tested', text: ({ record }) => testsInWords(record) },
];

/** Why it was left out, or built elsewhere, in a line below the table: the reasons of a site need room. */
export function reasonInWords({
  mark,
  record,
}: {
  readonly mark: string;
  readonly record: MarkRecord;
}): readonly string[] {
  const { omitted, installed } = record;
  if (omitted) return [`Omitted ${mark}: ${omitted.event.reason ?? 'no reason given'}.`];
  const reason = installed?.event.reason;
  return reason === undefined ? [] : [`Installed ${mark}: ${reason}.`];
}

export type WorkState = 'set by hand' | 'proposed' | 'installed' | 'omitted' | 'failed test';

export function stateOf({
  state,
  proposed,
}: {
  readonly state: MarkRecord['state'];
  readonly proposed: boolean;
}): WorkState {
  if (state === 'failed') return 'failed test';
  if (state !== 'planned') return state;
  return proposed ? 'proposed' : 'set by hand';
}

export const stateColumn = <Row extends { readonly state: WorkState }>(): ScheduleColumn<Row> => ({
  key: 'state',
  heading: 'State',
  text: ({ state }) => state,
});
