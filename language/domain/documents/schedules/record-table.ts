import type { Layout, LengthUnits } from '../../model/layout.ts';
import type { InstalledEvent, OmittedEvent, TestedEvent } from '../../model/record.ts';
import type { SourceSpan } from '../../model/source.ts';
import { formatQuantity } from '../../units/format-quantity.ts';
import type { Length } from '../../units/length.ts';
import { countOf } from '../text-layout.ts';
import { testInWords } from './mark-record.ts';
import {
  type FindLine,
  placeColumns,
  type ScheduleColumn,
  type ScheduleTable,
  stationColumns,
  tableOf,
} from './table.ts';
import { joined, readingInWords } from './words.ts';

interface RecordRow {
  readonly wall: '';
  readonly date: string;
  readonly by: string | undefined;
  readonly marks: readonly string[];
  readonly event: InstalledEvent | OmittedEvent | TestedEvent;
  readonly source: SourceSpan;
}

/** What was done to marks, day by day, as it was written down. */
export function recordTable(layout: Layout, findLine: FindLine): ScheduleTable {
  const rows = layout.record.flatMap(({ date, by, events }) =>
    events.flatMap((event): readonly RecordRow[] =>
      'marks' in event
        ? [{ wall: '', date, by, marks: event.marks.map(({ name }) => name), event, source: event.source }]
        : [],
    ),
  );
  return tableOf(
    {
      of: 'record',
      title: 'Record of marks',
      caption: 'Record of marks',
      notes: [
        `${rows.length === 1 ? '1 entry' : `${rows.length} entries`} on ${countOf(layout.record.length, 'day')}.`,
      ],
    },
    columnsOf(layout.title.units, findLine),
    rows,
  );
}

function columnsOf(units: LengthUnits, findLine: FindLine): readonly ScheduleColumn<RecordRow>[] {
  return [
    { key: 'date', heading: 'Date', text: (row) => row.date },
    { key: 'marks', heading: 'Marks', text: (row) => row.marks.join(', '), json: (row) => row.marks },
    { key: 'what', heading: 'What', text: ({ event }) => event.kind },
    ...stationColumns<RecordRow>({ key: 'station', heading: 'Station' }, units, stationOf),
    { key: 'place', heading: 'Place', text: placeInWords },
    {
      key: 'result',
      heading: 'Test',
      text: ({ event }) => (event.kind === 'tested' ? testInWords(event) : ''),
    },
    {
      key: 'how',
      heading: 'How',
      text: ({ event }) => (event.kind === 'installed' ? howInWords(event, units) : ''),
    },
    { key: 'reason', heading: 'Reason', text: ({ event }) => (event.kind === 'tested' ? '' : (event.reason ?? '')) },
    {
      key: 'by',
      heading: 'By',
      text: ({ by, event }) =>
        joined([event.tags.by ?? by ?? '', event.kind === 'tested' && event.witness ? `witness ${event.witness}` : '']),
    },
    {
      key: 'photos',
      heading: 'Photos',
      text: ({ event }) => event.tags.photos.join(', '),
      json: ({ event }) => event.tags.photos,
    },
    { key: 'notes', heading: 'Notes', text: ({ event }) => event.tags.notes.join('; ') },
    ...placeColumns<RecordRow>(findLine),
  ];
}

const stationOf = ({ event }: RecordRow): Length | undefined =>
  event.kind === 'installed' && event.place.kind === 'at' ? event.place.station : undefined;

function placeInWords({ event }: RecordRow): string {
  if (event.kind !== 'installed') return '';
  switch (event.place.kind) {
    case 'as-planned':
      return 'as planned';
    case 'unknown':
      return 'not recorded';
    case 'at':
      return event.place.station === undefined ? 'cannot be read' : '';
  }
}

function howInWords({ embed, offset, torque, using, lot, expires }: InstalledEvent, units: LengthUnits): string {
  const torqueWords = torque?.kind === 'known' ? formatQuantity(torque.value) : torque && 'unknown';
  return joined([
    using ? using.name : '',
    embed ? `embed ${readingInWords(embed, units)}` : '',
    offset ? `offset ${readingInWords(offset, units)}` : '',
    torqueWords ? `tightened ${torqueWords}` : '',
    lot === undefined ? '' : `lot ${lot}`,
    expires === undefined ? '' : `expires ${expires}`,
  ]);
}
