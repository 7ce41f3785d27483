import type { Tie } from '../../model/design.ts';
import type { Layout, LengthUnits, Wall } from '../../model/layout.ts';
import type { SourceSpan } from '../../model/source.ts';
import { valuesFrom } from '../schedule.ts';
import { countOf } from '../text-layout.ts';
import {
  type BuiltRow,
  builtColumns,
  placeOf,
  reasonInWords,
  stateColumn,
  stateOf,
  type WorkState,
  wasColumn,
} from './built-columns.ts';
import { recordOfMarks } from './mark-record.ts';
import {
  type FindLine,
  findingsColumn,
  placeColumns,
  type ScheduleColumn,
  type ScheduleTable,
  stationColumns,
  tableOf,
} from './table.ts';
import { addedInWords, fastenerOf, fastenersByMember, joined, readingInWords } from './words.ts';

interface TieRow extends BuiltRow {
  readonly thing: string;
  readonly mark: string;
  readonly wall: string;
  readonly tie: Tie;
  readonly state: WorkState;
  readonly source: SourceSpan;
  readonly findings: number;
}

/** Hold-downs at the ends of panels and straps across joints of the top plate. */
export function tieTable(layout: Layout, findings: ReadonlyMap<string, number>, findLine: FindLine): ScheduleTable {
  const rows = layout.walls.flatMap((wall) => wall.ties.map((tie) => rowOf(layout, wall, tie, findings)));
  const count = (kind: Tie['kind']): number => rows.filter(({ tie }) => tie.kind === kind).length;
  return tableOf(
    {
      of: 'ties',
      title: 'Hold-down and strap schedule',
      caption: 'Hold-downs and straps',
      notes: [
        `${countOf(count('hold-down'), 'hold-down')}, ${countOf(count('strap'), 'strap')}.`,
        ...rows.flatMap(reasonInWords),
      ],
    },
    columnsOf(layout.title.units, findLine),
    rows,
  );
}

function rowOf(layout: Layout, wall: Wall, tie: Tie, findings: ReadonlyMap<string, number>): TieRow {
  return {
    thing: tie.id,
    mark: tie.name,
    wall: wall.name,
    tie,
    ...placeOf(tie),
    state: stateOf(tie),
    record: recordOfMarks(layout)(wall.name, tie.name),
    source: tie.source,
    findings: findings.get(tie.id) ?? 0,
  };
}

function columnsOf(units: LengthUnits, findLine: FindLine): readonly ScheduleColumn<TieRow>[] {
  return [
    { key: 'mark', heading: 'Mark', text: (row) => row.mark },
    { key: 'wall', heading: 'Wall', text: (row) => row.wall },
    { key: 'kind', heading: 'Kind', text: ({ tie }) => tie.kind },
    ...stationColumns<TieRow>(
      { key: 'station', heading: 'Station', millimetres: 'mm' },
      units,
      (row) => row.station,
      'no place',
    ),
    wasColumn<TieRow>(units),
    {
      key: 'connector',
      heading: 'Connector',
      text: ({ tie }) => tie.asBuilt?.using?.name ?? tie.connector?.name ?? tie.connectorName ?? 'none named',
    },
    { key: 'member', heading: 'On', text: ({ tie }) => tie.member?.replace('-', ' ') ?? '' },
    { key: 'fasteners', heading: 'Fasteners', text: ({ tie }) => fastenersByMember(tie.connector, units) },
    {
      key: 'embed',
      heading: 'Embed',
      numeric: true,
      text: ({ tie }) => readingInWords(tie.asBuilt?.embed ?? tie.embed ?? fastenerOf(tie.connector)?.embed, units),
    },
    { key: 'offset', heading: 'Offset', numeric: true, text: ({ tie }) => readingInWords(tie.offset, units) },
    { key: 'shim', heading: 'Shim', numeric: true, text: ({ tie }) => readingInWords(tie.shim, units) },
    {
      key: 'with',
      heading: 'With',
      text: ({ tie }) =>
        joined([
          addedInWords(tie.withHardware),
          tie.bothSides ? 'both sides' : '',
          tie.rightAngleDrill ? 'right-angle drill' : '',
        ]),
    },
    stateColumn<TieRow>(),
    { key: 'valuesFrom', text: ({ tie }) => valuesFrom(tie.connector) },
    ...builtColumns<TieRow>(units),
    ...placeColumns<TieRow>(findLine),
    findingsColumn<TieRow>(),
  ];
}
