import type { LengthUnits } from '../../model/layout.ts';
import { formatLength } from '../../units/format-length.ts';
import { type Length, zero } from '../../units/length.ts';
import { lengthInJson, stationInJson } from '../json-parts.ts';
import { type Gap, gapInWords, type Schedule, type ScheduleRow } from '../schedule.ts';
import { countOf } from '../text-layout.ts';
import { builtColumns, reasonInWords, stateColumn, wasInWords } from './built-columns.ts';
import {
  type FindLine,
  type Json,
  millimetreColumn,
  placeColumns,
  type ScheduleColumn,
  type ScheduleTable,
  stationOr,
  tableOf,
} from './table.ts';
import { joined } from './words.ts';

export function connectorTable(schedule: Schedule, findLine: FindLine): ScheduleTable {
  const { rows, units } = schedule;
  const unplaced = rows.filter((row) => row.station === undefined).length;
  const total = countOf(rows.length, 'connector');
  return tableOf(
    {
      of: 'connectors',
      title: 'Connector schedule',
      caption: 'Connectors',
      notes: [
        unplaced === 0 ? `${total}.` : `${total}, ${unplaced} of them without a place (listed last).`,
        'Gaps run to the next sill anchor that counts on the same board; "end" means to the end of the board.',
        ...(rows.some(({ slide }) => slide)
          ? [
              'Slide: how far it may go to the left (-) and to the right (+) while all others stay where they are drawn.',
            ]
          : []),
        ...rows.flatMap(reasonInWords),
      ],
    },
    columnsOf(units, findLine),
    rows,
  );
}

/** Columns that files had first stay first, under their names: other programs read them. */
function columnsOf(units: LengthUnits, findLine: FindLine): readonly ScheduleColumn<ScheduleRow>[] {
  return [
    { key: 'mark', heading: 'Mark', text: (row) => row.mark },
    { key: 'wall', heading: 'Wall', text: (row) => row.wall },
    { key: 'piece', heading: 'Piece', text: (row) => row.piece },
    {
      key: 'station',
      heading: 'Station',
      numeric: true,
      text: (row) => joined([stationOr(row.station, units, 'no place'), wasInWords(row, units)], ' '),
      csv: (row) => stationOr(row.station, units, 'no place'),
      json: (row) => stationInJson(row.station, units),
    },
    millimetreColumn<ScheduleRow>('station', 'mm', (row) => row.station),
    { key: 'kind', text: (row) => row.kind },
    {
      key: 'connector',
      heading: 'Connector',
      text: (row) => (row.insteadOf === '' ? row.connector : `${row.connector}, not ${row.insteadOf}`),
      csv: (row) => row.connector,
      json: (row) => row.connector,
    },
    { key: 'size', text: (row) => row.size },
    { key: 'embed', heading: 'Embed', numeric: true, text: (row) => row.embed },
    { key: 'hole', text: (row) => row.hole },
    gapColumn('gapLeft', 'Gap left', units, (row) => row.gapLeft),
    gapColumn('gapRight', 'Gap right', units, (row) => row.gapRight),
    { key: 'with', heading: 'With', only: 'text', text: (row) => row.added },
    { key: 'washer', text: (row) => row.washer },
    { key: 'shim', heading: 'Shim', numeric: true, text: (row) => row.shim },
    { key: 'slide', heading: 'Slide', only: 'text', numeric: true, text: (row) => slideInWords(row, units) },
    {
      key: 'drill',
      heading: 'Drill',
      text: (row) => row.drill.replace('-', ' '),
      csv: (row) => row.drill,
      json: (row) => row.drill,
    },
    stateColumn<ScheduleRow>(),
    { key: 'valuesFrom', text: (row) => row.valuesFrom },
    ...placeColumns<ScheduleRow>(findLine),
    {
      key: 'findings',
      heading: 'Findings',
      numeric: true,
      text: (row) => String(row.findings || ''),
      csv: (row) => row.findings,
      json: (row) => row.findings,
    },
    { key: 'was', text: (row) => wasInWords(row, units) },
    { key: 'insteadOf', text: (row) => row.insteadOf },
    { key: 'with', text: (row) => row.added },
    slideColumn('slideLeft', units, (row) => row.slide?.left),
    slideColumn('slideRight', units, (row) => row.slide?.right),
    ...builtColumns<ScheduleRow>(units),
  ];
}

function gapColumn(
  key: string,
  heading: string,
  units: LengthUnits,
  of: (row: ScheduleRow) => Gap | undefined,
): ScheduleColumn<ScheduleRow> {
  return {
    key,
    heading,
    numeric: true,
    text: (row) => gapInWords(of(row), units),
    json: (row): Json => {
      const gap = of(row);
      return gap ? { ...lengthInJson(gap.length, units), to: gap.to } : null;
    },
  };
}

/** `-2" +1-1/2"`: left and right; a side without room is left out. */
function slideInWords({ slide }: ScheduleRow, units: LengthUnits): string {
  if (!slide) return '';
  const sides = [
    slide.left === zero ? '' : `-${formatLength(slide.left, units)}`,
    slide.right === zero ? '' : `+${formatLength(slide.right, units)}`,
  ];
  return joined(sides, ' ') || 'none';
}

const slideColumn = (
  key: string,
  units: LengthUnits,
  of: (row: ScheduleRow) => Length | undefined,
): ScheduleColumn<ScheduleRow> => ({
  key,
  text: (row) => {
    const room = of(row);
    return room === undefined ? '' : formatLength(room, units);
  },
  json: (row) => {
    const room = of(row);
    return room === undefined ? null : lengthInJson(room, units);
  },
});
