import type { Schedule } from '../../documents/schedule.ts';
import { angleTable } from '../../documents/schedules/angle-table.ts';
import { blockTable } from '../../documents/schedules/block-table.ts';
import { reasonInWords } from '../../documents/schedules/built-columns.ts';
import { connectorTable } from '../../documents/schedules/connector-table.ts';
import { panelTable } from '../../documents/schedules/panel-table.ts';
import { postTable } from '../../documents/schedules/post-table.ts';
import { remedyTable } from '../../documents/schedules/remedy-table.ts';
import type { ScheduleTable, TableRow } from '../../documents/schedules/table.ts';
import { tieTable } from '../../documents/schedules/tie-table.ts';
import type { Girder, Layout, Stretch, Wall } from '../../model/layout.ts';
import type { Length } from '../../units/length.ts';
import type { PlanInput } from '../drawing-input.ts';
import { wallView } from '../elevation.ts';
import { girderView } from '../girder.ts';
import { girderShape } from '../girder-posts.ts';
import { plainText } from '../lettering.ts';
import { drawnStation } from '../placed-mark.ts';
import { sectionsOf } from '../section/wall-sections.ts';
import { type Block, type Paragraph, textBlocks } from '../sheet-lists.ts';
import { isShown, shownOf } from '../shown-part.ts';
import { isLast, type SideOptions } from '../side-view.ts';
import { shapeOf, stepsOf } from '../wall-shape.ts';
import type { SideSubject } from './side-sheet.ts';
import { tableBlocks } from './table-blocks.ts';

/** Rows of a sheet send nobody back to the text. */
const noLine = (): undefined => undefined;

export interface SideInput extends PlanInput {
  /** Of the whole house, worked out once. */
  readonly schedule: Schedule;
  readonly findings: ReadonlyMap<string, number>;
}

export function wallSubject(input: SideInput, wall: Wall): SideSubject {
  const { layout } = input;
  const shape = shapeOf(wall, layout);
  const sections = sectionsOf({ ...input, wall });
  const ends = [...wall.pieces.map(({ to }) => to), ...stepsOf(shape).map(({ station }) => station)];
  return {
    name: `wall-${wall.name}`,
    what: 'wall',
    length: shape.length,
    cutPlaces: inOrder(ends),
    view: (options) => wallView({ ...input, wall }, options),
    schedules: (cut, width) => wallSchedules(input, wall, cut, width),
    sections: (cut) => sections.filter(({ station }) => isOn(cut, station)),
  };
}

export function girderSubject(input: SideInput, girder: Girder): SideSubject {
  const shape = girderShape(girder);
  const stations = [...girder.splices.map(({ station }) => station), ...shape.posts.map(({ station }) => station)];
  return {
    name: `girder-${girder.name}`,
    what: 'girder',
    length: shape.length,
    cutPlaces: inOrder(stations),
    view: (options) => girderView({ ...input, girder }, options),
    schedules: (cut, width) => girderSchedules(input, girder, cut, width),
    sections: () => [],
  };
}

const inOrder = (stations: readonly Length[]): readonly Length[] => [...new Set(stations)].sort((a, b) => a - b);

type Cut = SideOptions['cut'];

/** What stands on a part; what has no place stands on the last. */
function isOn(cut: Cut, place: Length | Stretch | undefined): boolean {
  if (!cut) return true;
  if (place === undefined) return isLast(cut.part);
  return typeof place === 'number' ? isShown(cut.shown, place) : shownOf(cut.shown, place) !== undefined;
}

function wallSchedules(
  { layout, schedule, findings }: SideInput,
  wall: Wall,
  cut: Cut,
  width: number,
): readonly Block[] {
  const name = plainText(wall.name);
  const alone: Layout = { ...layout, walls: [wall], girders: [] };
  const places = new Map<string, Length | Stretch | undefined>([
    ...[...wall.anchors, ...wall.ties].map((mark) => [mark.id, drawnStation(mark)] as const),
    ...wall.panels.map(({ id, stretch }) => [id, stretch] as const),
  ]);
  const onPart = (table: ScheduleTable): ScheduleTable => ({
    ...table,
    rows: table.rows.filter(
      (row) => row.thing === undefined || !places.has(row.thing) || isOn(cut, places.get(row.thing)),
    ),
  });
  const anchors = schedule.rows.filter((row) => row.wall === wall.name && isOn(cut, row.station));
  return [
    ...tableBlocks(
      { ...connectorTable({ ...schedule, rows: anchors }, noLine), notes: anchors.flatMap(reasonInWords) },
      {
        title: `Anchors on ${name}: ${anchors.length}`,
        keys: ['mark', 'piece', 'station', 'stationMm', 'connector', 'hole', 'embed', 'shim', 'with', 'drill', 'state'],
        width,
      },
    ),
    ...tableBlocks(onPart(tieTable(alone, findings, noLine)), {
      title: `Hold-downs and straps on ${name}`,
      keys: ['mark', 'kind', 'station', 'stationMm', 'connector', 'member', 'embed', 'with', 'state'],
      width,
    }),
    ...tableBlocks(onPart(panelTable(alone, findings, noLine)), {
      title: `Panels on ${name}`,
      keys: [
        'mark',
        'from',
        'to',
        'length',
        'board',
        'edgeNails',
        'fieldNails',
        'nailers',
        'ventHoles',
        'flatBlocks',
        'state',
      ],
      width,
    }),
    ...(cut === undefined || isLast(cut.part) ? otherWork(alone, name, width) : []),
  ];
}

/** Angles and blocks are many and alike: a paragraph for each kind, where the tables of the house have a row for each piece. */
function otherWork(alone: Layout, name: string, width: number): readonly Block[] {
  const angles = angleTable(alone, noLine);
  const blocks = blockTable(alone, noLine);
  const paragraphs = [
    ...alike(
      angles,
      (cell) => [
        cell('connector'),
        cell('fasteners'),
        cell('shim') && `shim ${cell('shim')}`,
        cell('with'),
        cell('state'),
      ],
      (cell) => cell('station'),
    ),
    ...alike(
      blocks,
      (cell) => [cell('what'), cell('size'), `nails ${cell('nails') || 'not said'}`, cell('state')],
      (cell) => (cell('bay') === '' ? cell('from') : `bay ${cell('bay')}: ${cell('length') || 'length not known'}`),
    ),
  ];
  const notes = [...(angles.rows.length > 0 ? angles.notes : []), ...(blocks.rows.length > 0 ? blocks.notes : [])];
  return [
    ...(paragraphs.length > 0
      ? textBlocks(
          `Angles and blocks on ${name}`,
          [
            ...paragraphs.map((text): Paragraph => ({ text, size: 'detail' })),
            ...notes.map((text): Paragraph => ({ text, size: 'detail', colour: 'ink2' })),
          ],
          width,
          'list',
        )
      : []),
    ...tableBlocks(remedyTable(alone, noLine), {
      title: `Found things seen to on ${name}`,
      keys: ['work', 'on', 'from', 'to', 'found', 'put', 'by', 'notes'],
      width,
    }),
  ];
}

/** One sentence for the rows that are alike, with what tells each of them from the others. */
function alike(
  { columns, rows }: ScheduleTable,
  kindOf: (cell: (key: string) => string) => readonly string[],
  each: (cell: (key: string) => string) => string,
): readonly string[] {
  const at = new Map(columns.map(({ key }, index) => [key, index]));
  const cellOf = (row: TableRow) => (key: string) => row.cells[at.get(key) ?? -1]?.text ?? '';
  const kinds = new Map<string, string[]>();
  for (const row of rows) {
    const cell = cellOf(row);
    const kind = kindOf(cell)
      .filter((part) => part !== '')
      .join(', ');
    const members = kinds.get(kind) ?? [];
    members.push(each(cell));
    kinds.set(kind, members);
  }
  return [...kinds].map(([kind, members]) => `${members.length} × ${kind}: ${members.join(', ')}.`);
}

function girderSchedules(
  { layout, checked, findings }: SideInput,
  girder: Girder,
  cut: Cut,
  width: number,
): readonly Block[] {
  const alone: Layout = { ...layout, walls: [], girders: [girder] };
  const places = new Map(girder.posts.map(({ id, station }) => [id, station]));
  const table = postTable(alone, checked, findings, noLine);
  const onPart = {
    ...table,
    // The rest of its notes is on columns that a sheet has no room for.
    notes: table.notes.slice(0, 1),
    rows: table.rows.filter(({ thing }) => thing === undefined || isOn(cut, places.get(thing))),
  };
  const name = plainText(girder.name);
  return [
    ...tableBlocks(onPart, {
      title: `Posts of ${name}`,
      keys: [
        'post',
        'station',
        'stationMm',
        'size',
        'height',
        'capFound',
        'capNew',
        'baseFound',
        'baseNew',
        'pierFound',
        'work',
      ],
      width,
    }),
    ...(cut === undefined || isLast(cut.part)
      ? tableBlocks(remedyTable(alone, noLine), {
          title: `Found things seen to on ${name}`,
          keys: ['work', 'on', 'from', 'to', 'found', 'put', 'by', 'notes'],
          width,
        })
      : []),
  ];
}
