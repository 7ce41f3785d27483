import type { ScheduleTable, TableRow } from '../../documents/schedules/table.ts';
import { lettered, plainText, textWidth, wrapText } from '../lettering.ts';
import { group, line, type SceneNode } from '../scene.ts';
import { type Block, type Paragraph, paragraphBlocks, stacked, underHeading } from '../sheet-lists.ts';
import { capHeights } from '../tokens.ts';

/** A schedule as blocks of a column: a block a row, the heads again over what is torn off. */
export function tableBlocks(
  table: ScheduleTable,
  { title, keys, width }: { readonly title: string; readonly keys: readonly string[]; readonly width: number },
): readonly Block[] {
  const { rows } = table;
  if (rows.length === 0) return [];
  const shown = keys.flatMap((key): readonly Column[] => {
    const index = table.columns.findIndex(
      (column) => column.key === key && (column.heading !== undefined || headOf[key]),
    );
    const head = table.columns[index];
    if (!head || rows.every((row) => cellOf(row, index) === '')) return [];
    return [{ index, heading: headOf[key] ?? head.heading ?? '', numeric: head.numeric }];
  });
  const widths = columnWidths(shown, rows, width);
  const columns = shown.map((column, index) => ({ ...column, width: widths[index] ?? 0 }));
  const heads = headBlock(columns, width);
  const notes = table.notes.map((text): Paragraph => ({ text, size: 'detail', colour: 'ink2' }));
  const [first, ...others] = rows.map((row) => rowBlock(columns, row, width));
  const body: readonly Block[] = first ? [stacked(heads, first), ...others] : [];
  const blocks = underHeading(title, width, [
    ...body,
    space(1.6),
    ...notes.flatMap((note) => paragraphBlocks(note, width, 'list')),
    space(5),
  ]);
  return blocks.map((block, index) =>
    index > 0 && index < rows.length && block.again ? { ...block, again: stacked(block.again, heads) } : block,
  );
}

interface Column {
  readonly index: number;
  readonly heading: string;
  readonly numeric: boolean;
}

/** Columns that only files have, or with a shorter head than in a text table. */
const headOf: Readonly<Record<string, string>> = {
  hole: 'Hole',
  kind: 'Kind',
  size: 'Size',
  stationMm: 'mm',
  edgeNails: 'Edge nails',
  fieldNails: 'Field nails',
};

const space = (height: number): Block => ({ role: 'list', height, draw: () => [], blank: true });

const cellOf = ({ cells }: TableRow, index: number): string => plainText(cells[index]?.text ?? '');

const BETWEEN = 2.4;
/** No column of words is squeezed below this. */
const LEAST_WIDTH = 11;

/** As wide as their longest cell; where that is too much, the widest give way first. */
function columnWidths(columns: readonly Column[], rows: readonly TableRow[], width: number): readonly number[] {
  const wanted = columns.map(({ index, heading }) =>
    rows.reduce((most, row) => Math.max(most, textWidth(cellOf(row, index), 'detail')), textWidth(heading, 'least')),
  );
  // A number is never broken.
  const fixed = columns.reduce((sum, { numeric }, index) => sum + (numeric ? (wanted[index] ?? 0) : 0), 0);
  const room = width - BETWEEN * (columns.length - 1);
  const total = wanted.reduce((sum, each) => sum + each, 0);
  if (total <= room) {
    const more = Math.min(6, (room - total) / Math.max(1, columns.length));
    return wanted.map((each) => each + more);
  }
  const words = wanted.filter((_, index) => !columns[index]?.numeric);
  let [low, high] = [0, Math.max(0, ...words)];
  for (let round = 0; round < 40; round++) {
    const cap = (low + high) / 2;
    if (words.reduce((sum, each) => sum + Math.min(each, Math.max(cap, LEAST_WIDTH)), fixed) <= room) low = cap;
    else high = cap;
  }
  const capped = wanted.map((each, index) =>
    columns[index]?.numeric ? each : Math.min(each, Math.max(low, LEAST_WIDTH)),
  );
  const sum = capped.reduce((all, each) => all + each, 0);
  // Columns too many even so: all alike.
  return sum <= room + 1e-6 ? capped : capped.map(() => room / columns.length);
}

interface PlacedColumn extends Column {
  readonly width: number;
}

function* placesOf(columns: readonly PlacedColumn[], x: number): Generator<readonly [PlacedColumn, number]> {
  let left = x;
  for (const column of columns) {
    yield [column, left];
    left += column.width + BETWEEN;
  }
}

const HEAD_PITCH = capHeights.least * 1.5;

function headBlock(columns: readonly PlacedColumn[], width: number): Block {
  const wrapped = columns.map((column) => wrapText(column.heading, column.width, 'least'));
  const lines = Math.max(1, ...wrapped.map((each) => each.length));
  const height = lines * HEAD_PITCH + 2.2;
  return {
    role: 'list',
    height,
    draw: ([x, y]) => [
      ...[...placesOf(columns, x)].flatMap(([column, left], at) =>
        (wrapped[at] ?? []).map((text, index) =>
          cell(text, column, left, y + capHeights.least + index * HEAD_PITCH, { size: 'least', colour: 'ink2' }),
        ),
      ),
      line([x, y + height - 1], [x + width, y + height - 1], { colour: 'ink', pen: 'P4' }),
    ],
  };
}

const ROW_PITCH = capHeights.detail * 1.5;

function rowBlock(columns: readonly PlacedColumn[], row: TableRow, width: number): Block {
  const wrapped = columns.map((column) =>
    wrapText(cellOf(row, column.index), column.width, 'detail').slice(0, MOST_CELL_LINES),
  );
  const lines = Math.max(1, ...wrapped.map((each) => each.length));
  const height = lines * ROW_PITCH + 1.9;
  return {
    role: 'list',
    height,
    draw: ([x, y]) => [
      group(
        [
          ...[...placesOf(columns, x)].flatMap(([column, left], at) =>
            (wrapped[at] ?? []).map((text, index) =>
              cell(text, column, left, y + 0.9 + capHeights.detail + index * ROW_PITCH, { size: 'detail' }),
            ),
          ),
          line([x, y + height], [x + width, y + height], { colour: 'rule', pen: 'P5' }),
        ],
        row.thing === undefined ? {} : { thing: row.thing },
      ),
    ],
  };
}

/** A longer cell is cut: what it says in full stands in the schedule of the house. */
const MOST_CELL_LINES = 20;

function cell(
  text: string,
  { numeric, width }: PlacedColumn,
  left: number,
  baseline: number,
  lettering: { readonly size: 'detail' | 'least'; readonly colour?: 'ink2' },
): SceneNode {
  return numeric
    ? lettered(text, [left + width, baseline], { ...lettering, anchor: 'end' })
    : lettered(text, [left, baseline], lettering);
}
