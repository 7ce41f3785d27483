import { baysBetween, joistsOnWall, namesBay } from '../../model/joists.ts';
import type { Bays, Blocking, Layout, LengthUnits, Rim, Wall } from '../../model/layout.ts';
import { knownValue } from '../../model/reading.ts';
import type { SourceSpan } from '../../model/source.ts';
import { formatInches } from '../../units/format-length.ts';
import { half, type Length, minus, plus, zero } from '../../units/length.ts';
import { lengthInJson } from '../json-parts.ts';
import { countOf } from '../text-layout.ts';
import {
  type FindLine,
  placeColumns,
  type ScheduleColumn,
  type ScheduleTable,
  stationColumns,
  tableOf,
} from './table.ts';
import { joined, readingInWords, sizeInWords } from './words.ts';

interface BlockRow {
  readonly thing: string;
  readonly wall: string;
  readonly what: 'block' | 'stud' | 'blocks';
  /** Number of the bay, or the bays in words where they have no places yet. */
  readonly bay: string;
  readonly from: Length | undefined;
  readonly to: Length | undefined;
  readonly size: string;
  readonly nails: string;
  readonly state: string;
  readonly source: SourceSpan;
}

/** New wood between joists and studs, a row for each piece, with its clear length. */
export function blockTable(layout: Layout, findLine: FindLine): ScheduleTable {
  const { units } = layout.title;
  const lacking = new Set<string>();
  const rows = layout.walls.flatMap((wall) => [...blocksOn(wall, units, lacking), ...studsOn(wall, units)]);
  const count = (what: BlockRow['what']): number => rows.filter((row) => row.what === what).length;
  return tableOf(
    {
      of: 'blocks',
      title: 'Blocking schedule',
      caption: 'Blocking',
      notes: [
        `${countOf(count('block'), 'block')}, ${countOf(count('stud'), 'new stud')}.`,
        ...(lacking.size > 0 ? [`Not all blocks are counted, for want of: ${[...lacking].join('; ')}.`] : []),
        'From and to are the faces of the joists on either side; measure each bay before cutting.',
      ],
    },
    columnsOf(units, findLine),
    rows,
  );
}

function blocksOn(wall: Wall, units: LengthUnits, lacking: Set<string>): readonly BlockRow[] {
  const lines = wall.blocking.filter((each) => each.layer === 'design');
  if (lines.length === 0) return [];
  const found = joistsOnWall(wall);
  const bays = baysBetween(found.joists);
  return lines.flatMap((line) => {
    const names = namesBay(line.bays);
    const row = rowOf(wall, line, units);
    const named = bays.filter((bay) => names(bay.number));
    const all = line.bays.kind === 'numbers' ? line.bays.numbers.length : 1;
    if (found.lacking.length > 0) for (const wants of found.lacking) lacking.add(wants);
    else if (named.length < all && line.bays.kind !== 'none')
      lacking.add(
        line.bays.kind === 'unknown' ? `bays of the blocking of wall ${wall.name}` : `joists of wall ${wall.name}`,
      );
    const open = found.lacking.length > 0 || named.length < all;
    return [
      ...named.map((bay): BlockRow => {
        const halfOf = (side: 'left' | 'right'): Length => half(knownValue(bay[side].size?.thick) ?? zero);
        const from = plus(bay.left.station, halfOf('left'));
        const to = minus(bay.right.station, halfOf('right'));
        const size = row.size === '' ? sizeInWords(bay.left.size, units) : row.size;
        return { ...row, what: 'block', bay: String(bay.number), from, to, size };
      }),
      ...(open
        ? [{ ...row, what: 'blocks' as const, bay: baysInWords(line.bays), from: undefined, to: undefined }]
        : []),
    ];
  });
}

const rowOf = (wall: Wall, line: Blocking, units: LengthUnits) => ({
  thing: line.id,
  wall: wall.name,
  size: sizeInWords(line.size, units),
  nails: nailsInWords(line.nails, units),
  state: line.proposed ? 'proposed' : 'set by hand',
  source: line.source,
});

const studsOn = (wall: Wall, units: LengthUnits): readonly BlockRow[] =>
  wall.studs
    .filter((stud) => stud.layer === 'design')
    .map((stud) => ({
      thing: stud.id,
      wall: wall.name,
      what: 'stud',
      bay: '',
      from: stud.station,
      to: stud.station,
      size: sizeInWords(stud.size, units),
      nails: '',
      state: stud.proposed ? 'proposed' : 'set by hand',
      source: stud.source,
    }));

function columnsOf(units: LengthUnits, findLine: FindLine): readonly ScheduleColumn<BlockRow>[] {
  const lengthOf = ({ what, from, to }: BlockRow): Length | undefined =>
    what !== 'block' || from === undefined || to === undefined ? undefined : minus(to, from);
  return [
    { key: 'wall', heading: 'Wall', text: (row) => row.wall },
    { key: 'what', heading: 'What', text: (row) => row.what },
    { key: 'bay', heading: 'Bay', numeric: true, text: (row) => row.bay },
    ...stationColumns<BlockRow>({ key: 'from', heading: 'From' }, units, (row) => row.from, 'no place'),
    ...stationColumns<BlockRow>({ key: 'to', heading: 'To' }, units, (row) => row.to),
    {
      key: 'length',
      heading: 'Clear',
      numeric: true,
      text: (row) => {
        const length = lengthOf(row);
        return length === undefined ? '' : formatInches(length, units);
      },
      json: (row) => {
        const length = lengthOf(row);
        return length === undefined ? null : lengthInJson(length, units);
      },
    },
    { key: 'size', heading: 'Size', text: (row) => row.size || 'not said' },
    { key: 'nails', heading: 'Nails', text: (row) => row.nails },
    { key: 'state', heading: 'State', text: (row) => row.state },
    ...placeColumns<BlockRow>(findLine),
  ];
}

function nailsInWords(nails: Rim['nails'], units: LengthUnits): string {
  if (nails === undefined) return 'not said';
  if (typeof nails === 'string') return nails;
  const apart = nails.spaced ? `at ${readingInWords(nails.spaced, units)}` : '';
  const each = nails.count === undefined ? '' : 'each';
  return joined(
    [nails.count === undefined ? '' : String(nails.count), `${nails.penny}d`, nails.kind ?? '', each, apart],
    ' ',
  );
}

function baysInWords(bays: Bays): string {
  if (bays.kind === 'numbers') return bays.numbers.join(', ');
  return bays.kind;
}
