import { type BehindPanel, behindPanel } from '../../drawing/behind-panel.ts';
import type { Panel, PanelNailing } from '../../model/design.ts';
import type { Layout, LengthUnits, Wall } from '../../model/layout.ts';
import type { Reading } from '../../model/reading.ts';
import type { SourceSpan } from '../../model/source.ts';
import { formatExact, formatStation } from '../../units/format-length.ts';
import { type Length, minus } from '../../units/length.ts';
import { stationInJson } from '../json-parts.ts';
import { countOf } from '../text-layout.ts';
import { reasonInWords, stateColumn, stateOf, type WorkState } from './built-columns.ts';
import { type MarkRecord, recordOfMarks } from './mark-record.ts';
import {
  type FindLine,
  findingsColumn,
  placeColumns,
  type ScheduleColumn,
  type ScheduleTable,
  stationColumns,
  tableOf,
} from './table.ts';
import { heightInWords, joined, readingInWords, sizeInWords } from './words.ts';

interface PanelRow {
  readonly thing: string;
  readonly mark: string;
  readonly wall: string;
  readonly panel: Panel;
  readonly from: Length | undefined;
  readonly to: Length | undefined;
  readonly behind: BehindPanel;
  readonly state: WorkState;
  readonly record: MarkRecord;
  readonly source: SourceSpan;
  readonly findings: number;
}

/** Bracing panels: what is cut, what is nailed, and what wood and holes go behind and through them. */
export function panelTable(layout: Layout, findings: ReadonlyMap<string, number>, findLine: FindLine): ScheduleTable {
  const { units } = layout.title;
  const rows = layout.walls.flatMap((wall) => wall.panels.map((panel) => rowOf(layout, wall, panel, findings)));
  const built = rows.filter(({ state }) => state !== 'omitted');
  const total = (of: (row: PanelRow) => number | undefined): number =>
    built.reduce((sum, row) => sum + (of(row) ?? 0), 0);
  const long = built.reduce(
    (sum, { from, to }) => (from === undefined || to === undefined ? sum : sum + (to - from)),
    0,
  );
  const open = built.filter(({ behind }) => behind.lacking.length > 0).length;
  return tableOf(
    {
      of: 'panels',
      title: 'Panel schedule',
      caption: 'Panels',
      notes: [
        `${countOf(rows.length, 'panel')}, ${formatStation(long as Length, units)} of wall in all; ` +
          `${countOf(
            total(({ behind }) => behind.nailers),
            'nailer',
          )}, ${countOf(
            total(({ behind }) => behind.flatBlocks),
            'flat block',
          )}, ` +
          `${countOf(
            total(({ behind }) => behind.ventHoles),
            'vent hole',
          )}.`,
        ...(open > 0
          ? [
              `Not counted behind ${countOf(open, 'panel')}, for want of: ${[...new Set(built.flatMap(({ behind }) => behind.lacking))].join('; ')}.`,
            ]
          : []),
        ...rows.flatMap(reasonInWords),
        'Nailers, blocks and holes: one, or one pair of holes, for each clear space between studs of 4 in or more.',
      ],
    },
    columnsOf(units, findLine),
    rows,
  );
}

function rowOf(layout: Layout, wall: Wall, panel: Panel, findings: ReadonlyMap<string, number>): PanelRow {
  return {
    thing: panel.id,
    mark: panel.name,
    wall: wall.name,
    panel,
    from: panel.stretch?.from,
    to: panel.stretch?.to,
    behind: behindPanel(layout, wall, panel),
    state: stateOf(panel),
    record: recordOfMarks(layout)(wall.name, panel.name),
    source: panel.source,
    findings: findings.get(panel.id) ?? 0,
  };
}

function columnsOf(units: LengthUnits, findLine: FindLine): readonly ScheduleColumn<PanelRow>[] {
  return [
    { key: 'mark', heading: 'Mark', text: (row) => row.mark },
    { key: 'wall', heading: 'Wall', text: (row) => row.wall },
    ...stationColumns<PanelRow>({ key: 'from', heading: 'From' }, units, (row) => row.from, 'no place'),
    ...stationColumns<PanelRow>({ key: 'to', heading: 'To' }, units, (row) => row.to),
    {
      key: 'length',
      heading: 'Length',
      numeric: true,
      text: (row) => {
        const length = lengthOf(row);
        return length === undefined ? '' : formatStation(length, units);
      },
      json: (row) => stationInJson(lengthOf(row), units),
    },
    {
      key: 'height',
      heading: 'Height',
      numeric: true,
      text: ({ panel }) => (panel.height ? heightInWords(panel.height, units) : 'to joists'),
    },
    { key: 'board', heading: 'Board', text: ({ panel }) => boardInWords(panel, units) },
    { key: 'edgeNails', heading: 'Edge nails', text: ({ panel }) => nailsInWords(panel.nails, 'edge', units) },
    { key: 'fieldNails', heading: 'Field nails', text: ({ panel }) => nailsInWords(panel.nails, 'field', units) },
    ...countWith(
      'nailers',
      'Nailers',
      ({ behind }) => behind.nailers,
      'nailer',
      ({ panel }) => nailersInWords(panel, units),
    ),
    ...countWith(
      'ventHoles',
      'Vent holes',
      ({ behind }) => behind.ventHoles,
      'ventHoleSize',
      ({ panel: { ventHoles } }) =>
        ventHoles && ventHoles !== 'none' ? readingInWords(ventHoles.diameter, units) || 'size not said' : '',
    ),
    ...countWith(
      'flatBlocks',
      'Flat blocks',
      ({ behind }) => behind.flatBlocks,
      'flatBlockSize',
      ({ panel: { flatBlock, flatBlocked } }) =>
        flatBlock ? sizeInWords(flatBlock, units) : flatBlocked ? 'size not said' : '',
    ),
    stateColumn<PanelRow>(),
    { key: 'reason', text: ({ record }) => record.omitted?.event.reason ?? '' },
    { key: 'installedOn', text: ({ record }) => record.installed?.date ?? '' },
    { key: 'installedBy', text: ({ record }) => record.installed?.by ?? '' },
    ...placeColumns<PanelRow>(findLine),
    findingsColumn<PanelRow>(),
  ];
}

/** A count and what of: two columns in files, one in the text. What nobody can count is `?`. */
function countWith(
  key: string,
  heading: string,
  count: (row: PanelRow) => number | undefined,
  whatKey: string,
  what: (row: PanelRow) => string,
): readonly ScheduleColumn<PanelRow>[] {
  return [
    {
      key,
      heading,
      text: (row) => {
        const words = what(row);
        const number = count(row);
        return number === 0 || words === 'none' ? words : `${number ?? '?'} of ${words}`;
      },
      csv: (row) => count(row) ?? '',
      json: (row) => count(row) ?? null,
    },
    { key: whatKey, text: what },
  ];
}

const lengthOf = ({ from, to }: PanelRow): Length | undefined =>
  from === undefined || to === undefined ? undefined : minus(to, from);

export const boardInWords = ({ board }: Panel, units: LengthUnits): string =>
  board ? joined([board.kind, thicknessInWords(board.thick, units)], ' ') : 'not said';

/** Exact: a board of 15/32 in is not one of half an inch. */
const thicknessInWords = (thick: Reading<Length> | undefined, units: LengthUnits): string =>
  thick?.kind === 'known' ? formatExact(thick.value, units) : thick ? 'thickness unknown' : '';

/** `8d at 4"`; plain where the text does not say what kind of nail. */
export function nailsInWords(nails: PanelNailing | undefined, where: 'edge' | 'field', units: LengthUnits): string {
  if (!nails) return 'not said';
  const nail = joined([nails.penny === undefined ? '' : `${nails.penny}d`, nails.kind ?? ''], ' ');
  const apart = readingInWords(nails[where], units);
  return joined([nail === '' ? 'nails' : nail, apart === '' ? 'spacing not said' : `at ${apart}`], ' ');
}

export function nailersInWords({ nailers }: Panel, units: LengthUnits): string {
  if (nailers === 'none') return 'none';
  if (!nailers) return '';
  const { size, nails, clear } = nailers;
  const each = nails
    ? `${joined([nails.count === undefined ? '' : String(nails.count), nails.penny === undefined ? '' : `${nails.penny}d`, nails.kind ?? ''], ' ')} each`
    : '';
  return joined([sizeInWords(size, units) || 'size not said', each, clear ? 'clear of bolts' : '']);
}
