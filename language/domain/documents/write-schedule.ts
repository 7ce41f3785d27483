import { stringify } from 'csv-stringify/browser/esm/sync';
import type { LengthUnits } from '../model/layout.ts';
import type { SourceSpan } from '../model/source.ts';
import { formatStation } from '../units/format-length.ts';
import { inMillimetres, type Length } from '../units/length.ts';
import { basisInJson, lengthInJson, stationInJson } from './json-parts.ts';
import { gapInWords, type Schedule, type ScheduleRow } from './schedule.ts';
import { countOf, printable } from './text-layout.ts';
import { type TableColumn, textTable } from './text-table.ts';

/** Where a row was written, for a person: file and line, the first line being 1. */
export type FindLine = (span: SourceSpan) => { readonly file: string; readonly line: number } | undefined;

/** The widest table: fits a landscape page and a wide terminal. */
export const scheduleTableWidth = 132;

/**
 * A table of at most 132 columns with one line a connector, then what each connector is, then the basis.
 * A cell that is too long runs on below itself.
 */
export function scheduleToText(schedule: Schedule, findLine: FindLine): string {
  const unplaced = schedule.rows.filter((row) => row.station === undefined).length;
  const total = countOf(schedule.rows.length, 'connector');
  return [
    `Connector schedule: ${printable(schedule.house)}`,
    ...(schedule.basis.demo ? ['DEMO VALUES - not for permit, purchase or building'] : []),
    '',
    ...textTable(rowColumns(schedule, findLine), schedule.rows, scheduleTableWidth),
    '',
    unplaced === 0 ? `${total}.` : `${total}, ${unplaced} of them without a place (listed last).`,
    'Gaps run to the next sill anchor that counts on the same board; "end" means to the end of the board.',
    '',
    ...textTable(connectorColumns, firstOfEachConnector(schedule), scheduleTableWidth),
    '',
    ...schedule.basis.lines.map(printable),
    '',
  ].join('\n');
}

/**
 * Comma-separated values (RFC 4180, CR LF, UTF-8 without a mark). A text that a spreadsheet would take for a formula
 * (first character `=`, `+`, `-`, `@`, a tab or a carriage return) gets an apostrophe before it. After the rows come an empty row and the
 * basis, one line a row, in the first column.
 */
export function scheduleToCsv(schedule: Schedule, findLine: FindLine): string {
  const records = schedule.rows.map((row) => csvColumns.map((column) => column.cell(row, schedule, findLine)));
  const blank = csvColumns.map(() => '');
  const trailing = ['', ...(schedule.basis.demo ? ['DEMO VALUES'] : []), ...schedule.basis.lines].map((text) => [
    text,
    ...blank.slice(1),
  ]);
  return stringify([csvColumns.map(({ name }) => name), ...records, ...trailing], {
    escape_formulas: true,
    record_delimiter: 'windows',
    bom: false,
  });
}

export const scheduleSchemaVersion = 1;

/** The schema is documented in docs/json.md. Lengths are `{nm, text}`: exact nanometres, and as a person reads them. */
export function scheduleToJson(schedule: Schedule, findLine: FindLine): string {
  const { units } = schedule;
  const document = {
    schemaVersion: scheduleSchemaVersion,
    house: schedule.house,
    basis: basisInJson(schedule.basis),
    rows: schedule.rows.map((row) => {
      const place = findLine(row.source);
      return {
        mark: row.mark,
        wall: row.wall,
        piece: row.piece,
        station: stationInJson(row.station, units),
        kind: row.kind,
        connector: row.connector,
        size: row.size,
        embed: row.embed,
        hole: row.hole,
        gapLeft: row.gapLeft ? { ...lengthInJson(row.gapLeft.length, units), to: row.gapLeft.to } : null,
        gapRight: row.gapRight ? { ...lengthInJson(row.gapRight.length, units), to: row.gapRight.to } : null,
        washer: row.washer,
        shim: row.shim,
        drill: row.drill,
        state: row.state,
        valuesFrom: row.valuesFrom,
        file: place?.file ?? null,
        line: place?.line ?? null,
        findings: row.findings,
      };
    }),
  };
  return `${JSON.stringify(document, null, 2)}\n`;
}

function rowColumns({ units }: Schedule, findLine: FindLine): readonly TableColumn<ScheduleRow>[] {
  return [
    { heading: 'Mark', text: (row) => row.mark },
    { heading: 'Wall', text: (row) => row.wall },
    { heading: 'Piece', text: (row) => row.piece },
    { heading: 'Station', text: (row) => stationInWords(row, units), numeric: true },
    { heading: 'mm', text: (row) => wholeMillimetres(row.station), numeric: true },
    { heading: 'Connector', text: (row) => row.connector },
    { heading: 'Embed', text: (row) => row.embed, numeric: true, optional: true },
    { heading: 'Gap left', text: (row) => gapInWords(row.gapLeft, units), numeric: true },
    { heading: 'Gap right', text: (row) => gapInWords(row.gapRight, units), numeric: true },
    { heading: 'Shim', text: (row) => row.shim, numeric: true, optional: true },
    { heading: 'Drill', text: (row) => row.drill },
    { heading: 'State', text: (row) => row.state },
    { heading: 'Line', text: (row) => String(findLine(row.source)?.line ?? ''), numeric: true },
    { heading: 'Findings', text: (row) => (row.findings === 0 ? '' : String(row.findings)), numeric: true },
  ];
}

const connectorColumns: readonly TableColumn<ScheduleRow>[] = [
  { heading: 'Connector', text: (row) => row.connector },
  { heading: 'Kind', text: (row) => row.kind },
  { heading: 'Size', text: (row) => row.size },
  { heading: 'Hole', text: (row) => row.hole },
  { heading: 'Washer', text: (row) => row.washer },
  { heading: 'Values from', text: (row) => row.valuesFrom },
];

function firstOfEachConnector(schedule: Schedule): readonly ScheduleRow[] {
  const first = new Map<string, ScheduleRow>();
  for (const row of schedule.rows) if (!first.has(row.connector)) first.set(row.connector, row);
  return [...first.values()].sort((a, b) => (a.connector < b.connector ? -1 : 1));
}

function stationInWords(row: ScheduleRow, units: LengthUnits): string {
  return row.station === undefined ? 'no place' : formatStation(row.station, units);
}

interface CsvColumn {
  readonly name: string;
  readonly cell: (row: ScheduleRow, schedule: Schedule, findLine: FindLine) => string | number;
}

const csvColumns: readonly CsvColumn[] = [
  { name: 'mark', cell: (row) => row.mark },
  { name: 'wall', cell: (row) => row.wall },
  { name: 'piece', cell: (row) => row.piece },
  { name: 'station', cell: (row, { units }) => stationInWords(row, units) },
  { name: 'station_mm', cell: (row) => wholeMillimetres(row.station) },
  { name: 'kind', cell: (row) => row.kind },
  { name: 'connector', cell: (row) => row.connector },
  { name: 'size', cell: (row) => row.size },
  { name: 'embed', cell: (row) => row.embed },
  { name: 'hole', cell: (row) => row.hole },
  { name: 'gap_left', cell: (row, { units }) => gapInWords(row.gapLeft, units) },
  { name: 'gap_right', cell: (row, { units }) => gapInWords(row.gapRight, units) },
  { name: 'washer', cell: (row) => row.washer },
  { name: 'shim', cell: (row) => row.shim },
  { name: 'drill', cell: (row) => row.drill },
  { name: 'state', cell: (row) => row.state },
  { name: 'values_from', cell: (row) => row.valuesFrom },
  { name: 'file', cell: (row, _schedule, findLine) => findLine(row.source)?.file ?? '' },
  { name: 'line', cell: (row, _schedule, findLine) => findLine(row.source)?.line ?? '' },
  { name: 'findings', cell: (row) => row.findings },
];

function wholeMillimetres(station: Length | undefined): string {
  return station === undefined ? '' : String(Math.round(inMillimetres(station)));
}
