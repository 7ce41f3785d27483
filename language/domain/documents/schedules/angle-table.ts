import { bayCentre, baysBetween, joistsOnWall } from '../../model/joists.ts';
import type { AngleRun, Layout, LengthUnits, Wall } from '../../model/layout.ts';
import type { SourceSpan } from '../../model/source.ts';
import type { Length } from '../../units/length.ts';
import { valuesFrom } from '../schedule.ts';
import { countOf } from '../text-layout.ts';
import { reasonInWords, stateColumn, stateOf, type WorkState } from './built-columns.ts';
import { type MarkRecord, recordOfMarks } from './mark-record.ts';
import {
  type FindLine,
  placeColumns,
  type ScheduleColumn,
  type ScheduleTable,
  stationColumns,
  tableOf,
} from './table.ts';
import { addedInWords, fastenersByMember, readingInWords } from './words.ts';

interface AngleRow {
  readonly thing: string;
  /** `F-A1.3`; that of the run where its angles have no places yet. */
  readonly mark: string;
  readonly wall: string;
  readonly run: AngleRun;
  readonly station: Length | undefined;
  readonly bay: number | undefined;
  readonly state: WorkState;
  readonly record: MarkRecord;
  readonly source: SourceSpan;
}

/** Every framing angle by itself. A run whose places are not all known says so in a row of its own. */
export function angleTable(layout: Layout, findLine: FindLine): ScheduleTable {
  const rows = layout.walls.flatMap((wall) => wall.angles.flatMap((run) => rowsOf(layout, wall, run)));
  const placed = rows.filter(({ station }) => station !== undefined).length;
  const open = new Set(rows.flatMap(({ run }) => run.lacking));
  return tableOf(
    {
      of: 'angles',
      title: 'Framing angle schedule',
      caption: 'Framing angles',
      notes: [
        `${countOf(placed, 'framing angle')}.`,
        ...(open.size > 0 ? [`Not all of them are placed, for want of: ${[...open].join('; ')}.`] : []),
        ...rows.flatMap(reasonInWords),
        'Stations are those of the middles; bay 1 lies between the first joist and the second.',
      ],
    },
    columnsOf(layout.title.units, findLine),
    rows,
  );
}

function rowsOf(layout: Layout, wall: Wall, run: AngleRun): readonly AngleRow[] {
  const recordOf = recordOfMarks(layout);
  const bayAt = bayFinder(wall);
  const row = (mark: string, station: Length | undefined): AngleRow => {
    const own = recordOf(wall.name, mark);
    const record = own.state === 'planned' ? recordOf(wall.name, run.name) : own;
    const state = stateOf({ state: record.state, proposed: run.proposed === true });
    const bay = station === undefined ? undefined : bayAt(station);
    return { thing: run.id, mark, wall: wall.name, run, station, bay, state, record, source: run.source };
  };
  return [
    ...run.stations.map((station, index) => row(`${run.name}.${index + 1}`, station)),
    ...(run.lacking.length > 0 || run.stations.length === 0 ? [row(run.name, undefined)] : []),
  ];
}

/** The bay in whose middle a station lies. */
function bayFinder(wall: Wall): (station: Length) => number | undefined {
  const bays = new Map(baysBetween(joistsOnWall(wall).joists).map((bay) => [bayCentre(bay), bay.number]));
  return (station) => bays.get(station);
}

function columnsOf(units: LengthUnits, findLine: FindLine): readonly ScheduleColumn<AngleRow>[] {
  return [
    { key: 'mark', heading: 'Mark', text: (row) => row.mark },
    { key: 'wall', heading: 'Wall', text: (row) => row.wall },
    ...stationColumns<AngleRow>(
      { key: 'station', heading: 'Station', millimetres: 'mm' },
      units,
      (row) => row.station,
      'no place',
    ),
    {
      key: 'bay',
      heading: 'Bay',
      numeric: true,
      text: ({ bay }) => String(bay ?? ''),
      csv: ({ bay }) => bay ?? '',
      json: ({ bay }) => bay ?? null,
    },
    { key: 'connector', heading: 'Connector', text: ({ run }) => run.connector?.name ?? run.connectorName },
    { key: 'fasteners', heading: 'Nails', text: ({ run }) => fastenersByMember(run.connector, units) },
    { key: 'shim', heading: 'Shim', numeric: true, text: ({ run }) => readingInWords(run.shim, units) },
    { key: 'with', heading: 'With', text: ({ run }) => addedInWords(run.withHardware) },
    stateColumn<AngleRow>(),
    { key: 'reason', text: ({ record }) => record.omitted?.event.reason ?? '' },
    { key: 'installedOn', text: ({ record }) => record.installed?.date ?? '' },
    { key: 'installedBy', text: ({ record }) => record.installed?.by ?? '' },
    { key: 'valuesFrom', text: ({ run }) => valuesFrom(run.connector) },
    ...placeColumns<AngleRow>(findLine),
  ];
}
