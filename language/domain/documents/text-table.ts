import { columnsOf, padColumns, printable, wordsOf, wrapWords } from './text-layout.ts';

export interface TableColumn<Row> {
  readonly heading: string;
  readonly text: (row: Row) => string;
  /** Stands under the right edge of its heading, as numbers do. */
  readonly numeric?: boolean;
  /** Left out where no row has anything in it. */
  readonly optional?: boolean;
}

const gutter = '  ';
/** A longer word may be cut to let the table fit. */
const longestWholeWord = 24;

/**
 * An aligned table with a ruled heading, at most `width` columns wide as long as each column can have one.
 * Cells that are too long run on below themselves, broken at spaces.
 */
export function textTable<Row>(
  allColumns: readonly TableColumn<Row>[],
  rows: readonly Row[],
  width: number,
): readonly string[] {
  const columns = allColumns
    .map((column) => ({ ...column, cells: rows.map((row) => printable(column.text(row))) }))
    .filter(({ optional, cells }) => !optional || cells.some((cell) => cell !== ''));
  const wishes = columns.map(({ heading, cells }) => widthsWanted([heading, ...cells]));
  const widths = fitWidths(wishes, width - gutter.length * (columns.length - 1));
  const line = (texts: readonly string[]) => layOutRow(texts, widths, columns);
  return [
    ...line(columns.map(({ heading }) => heading)),
    ...line(widths.map((columnWidth) => '-'.repeat(columnWidth))),
    ...rows.flatMap((_, index) => line(columns.map(({ cells }) => cells[index] ?? ''))),
  ];
}

interface WidthsWanted {
  /** So that no usual word is cut. */
  readonly least: number;
  /** So that nothing is wrapped. */
  readonly wanted: number;
}

function widthsWanted(texts: readonly string[]): WidthsWanted {
  let least = 1;
  let wanted = 1;
  for (const text of texts) {
    wanted = Math.max(wanted, columnsOf(text));
    for (const word of wordsOf(text)) least = Math.max(least, columnsOf(word));
  }
  return { least: Math.min(least, longestWholeWord), wanted };
}

/** Narrows the widest column that has room to give until the table fits; words are cut only when none has. */
function fitWidths(wishes: readonly WidthsWanted[], room: number): readonly number[] {
  const widths = wishes.map(({ wanted }) => wanted);
  let excess = widths.reduce((sum, width) => sum + width, 0) - room;
  for (const floors of [wishes.map(({ least }) => least), wishes.map(() => 1)]) {
    while (excess > 0) {
      const widest = indexOfWidest(widths, floors);
      if (widest === undefined) break;
      // Down to the next widest in one step: a cell of a million characters must not cost a million steps.
      const width = widths[widest] ?? 0;
      const next = Math.max(floors[widest] ?? 1, ...widths.filter((other) => other < width));
      const step = Math.min(excess, Math.max(1, width - next));
      widths[widest] = width - step;
      excess -= step;
    }
  }
  return widths;
}

function indexOfWidest(widths: readonly number[], floors: readonly number[]): number | undefined {
  let best: number | undefined;
  for (const [index, width] of widths.entries()) {
    if (width > (floors[index] ?? 1) && (best === undefined || width > (widths[best] ?? 0))) best = index;
  }
  return best;
}

function layOutRow<Row>(
  texts: readonly string[],
  widths: readonly number[],
  columns: readonly TableColumn<Row>[],
): readonly string[] {
  const wrapped = texts.map((text, index) => wrapWords(text, widths[index] ?? 1));
  const height = wrapped.reduce((most, lines) => Math.max(most, lines.length), 1);
  return Array.from({ length: height }, (_, lineIndex) =>
    wrapped
      .map((lines, index) =>
        padColumns(lines[lineIndex] ?? '', widths[index] ?? 0, columns[index]?.numeric ? 'left' : 'right'),
      )
      .join(gutter)
      .trimEnd(),
  );
}
