import type { LengthUnits, ThingId } from '../../model/layout.ts';
import type { SourceSpan } from '../../model/source.ts';
import { formatStation } from '../../units/format-length.ts';
import { inMillimetres, type Length } from '../../units/length.ts';
import { formatMoney, type Money } from '../../units/money.ts';
import { stationInJson } from '../json-parts.ts';

/** In the order in which they are printed. */
export const scheduleNames = [
  'connectors',
  'panels',
  'ties',
  'posts',
  'angles',
  'blocks',
  'remedies',
  'record',
  'stock',
  'work',
] as const;
export type ScheduleName = (typeof scheduleNames)[number];

/** One schedule, laid out once for every form it leaves in: text, CSV, JSON, the pane. */
export interface ScheduleTable {
  readonly of: ScheduleName;
  /** `Panel schedule`. */
  readonly title: string;
  /** Short, among others of one wall: `Panels`. */
  readonly caption: string;
  readonly columns: readonly TableHead[];
  readonly rows: readonly TableRow[];
  /** Totals, and what to know to read it; a sentence each. */
  readonly notes: readonly string[];
}
export interface TableHead {
  /** Name in JSON. */
  readonly key: string;
  /** Name in CSV: that in JSON with an underscore before each capital. */
  readonly name: string;
  /** In the text table and the pane; `undefined`: only files have this column. */
  readonly heading: string | undefined;
  readonly numeric: boolean;
  readonly csv: boolean;
  readonly json: boolean;
}
export interface TableRow {
  readonly thing: ThingId | undefined;
  /** The wall or girder; empty where a row belongs to none. */
  readonly wall: string;
  /** As the columns stand. */
  readonly cells: readonly TableCell[];
}
export interface TableCell {
  readonly text: string;
  readonly csv: string | number;
  readonly json: Json;
}
export type Json = string | number | boolean | null | readonly Json[] | { readonly [key: string]: Json };

/** Where a row was written, for a person: file and line, the first line being 1. */
export type FindLine = (span: SourceSpan) => { readonly file: string; readonly line: number } | undefined;

/** A column while its table is made. */
export interface ScheduleColumn<Row> {
  readonly key: string;
  readonly heading?: string;
  readonly numeric?: boolean;
  readonly text: (row: Row) => string;
  /** Absent: as the text. */
  readonly csv?: (row: Row) => string | number;
  /** Absent: as the text. */
  readonly json?: (row: Row) => Json;
  /** The other forms do not have it; a column with a heading may also stand in the text. */
  readonly only?: 'text' | 'csv' | 'json' | 'files';
}

interface PlacedRow {
  readonly thing?: ThingId | undefined;
  readonly wall: string;
}

export function tableOf<Row extends PlacedRow>(
  words: Pick<ScheduleTable, 'of' | 'title' | 'caption' | 'notes'>,
  columns: readonly ScheduleColumn<Row>[],
  rows: readonly Row[],
): ScheduleTable {
  return {
    ...words,
    columns: columns.map(({ key, heading, numeric, only }) => ({
      key,
      name: nameInCsv(key),
      heading: only === 'files' ? undefined : heading,
      numeric: numeric === true,
      csv: only !== 'json' && only !== 'text',
      json: only !== 'csv' && only !== 'text',
    })),
    rows: rows.map((row) => ({
      thing: row.thing,
      wall: row.wall,
      cells: columns.map(({ text, csv, json }) => {
        const words = text(row);
        return { text: words, csv: csv ? csv(row) : words, json: json ? json(row) : words };
      }),
    })),
  };
}

const nameInCsv = (key: string): string => key.replace(/[A-Z]/g, (capital) => `_${capital.toLowerCase()}`);

// ---- columns that many schedules have

/** Exact in JSON. The millimetres are a column of their own in CSV, and in the text where they get a heading. */
export function stationColumns<Row>(
  { key, heading, millimetres }: { readonly key: string; readonly heading?: string; readonly millimetres?: string },
  units: LengthUnits,
  of: (row: Row) => Length | undefined,
  absent = '',
): readonly ScheduleColumn<Row>[] {
  return [
    {
      key,
      ...(heading === undefined ? {} : { heading }),
      numeric: true,
      text: (row) => stationOr(of(row), units, absent),
      json: (row) => stationInJson(of(row), units),
    },
    millimetreColumn(key, millimetres, of),
  ];
}

/** Of a station, for CSV; in JSON it is exact anyhow. */
export const millimetreColumn = <Row>(
  key: string,
  heading: string | undefined,
  of: (row: Row) => Length | undefined,
): ScheduleColumn<Row> => ({
  key: `${key}Mm`,
  ...(heading === undefined ? {} : { heading }),
  numeric: true,
  only: 'csv',
  text: (row) => wholeMillimetres(of(row)),
});

export const countColumn = <Row>(
  key: string,
  heading: string,
  of: (row: Row) => number | undefined,
): ScheduleColumn<Row> => ({
  key,
  heading,
  numeric: true,
  // A column of noughts only hides the numbers in it.
  text: (row) => String(of(row) || ''),
  csv: (row) => of(row) ?? '',
  json: (row) => of(row) ?? null,
});

export const moneyColumn = <Row>(
  key: string,
  heading: string,
  of: (row: Row) => Money | undefined,
): ScheduleColumn<Row> => ({
  key,
  heading,
  numeric: true,
  text: (row) => {
    const amount = of(row);
    return amount ? formatMoney(amount) : '';
  },
  json: (row) => {
    const amount = of(row);
    return amount ? { currency: amount.currency, cents: amount.cents } : null;
  },
});

/** A text table tells the line alone: its rows are of one house, mostly of one file. */
export const placeColumns = <Row extends { readonly source: SourceSpan }>(
  findLine: FindLine,
): readonly ScheduleColumn<Row>[] => [
  {
    key: 'file',
    text: ({ source }) => findLine(source)?.file ?? '',
    json: ({ source }) => findLine(source)?.file ?? null,
  },
  {
    key: 'line',
    heading: 'Line',
    numeric: true,
    text: ({ source }) => String(findLine(source)?.line ?? ''),
    csv: ({ source }) => findLine(source)?.line ?? '',
    json: ({ source }) => findLine(source)?.line ?? null,
  },
];

export const findingsColumn = <Row extends { readonly findings: number }>(): ScheduleColumn<Row> =>
  countColumn('findings', 'Findings', ({ findings }) => findings);

export const stationOr = (station: Length | undefined, units: LengthUnits, absent: string): string =>
  station === undefined ? absent : formatStation(station, units);

function wholeMillimetres(station: Length | undefined): string {
  return station === undefined ? '' : String(Math.round(inMillimetres(station)));
}
