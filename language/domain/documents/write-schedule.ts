import { stringify } from 'csv-stringify/browser/esm/sync';
import type { Layout } from '../model/layout.ts';
import { slideOf } from '../place/crew-notes.ts';
import type { Checked } from '../rules/checked.ts';
import { basisInJson } from './json-parts.ts';
import { type Schedules, schedulesOf } from './schedules/all-schedules.ts';
import type { FindLine, Json, ScheduleName, ScheduleTable, TableRow } from './schedules/table.ts';
import { printable, wrapWords } from './text-layout.ts';
import { textTable } from './text-table.ts';

export type ScheduleForm = 'text' | 'csv' | 'json';

/**
 * The schedules of a house in one of their forms: those asked for, else every one; in CSV, which holds one table well,
 * then the connectors alone.
 */
export function writeSchedule(
  layout: Layout,
  checked: Checked,
  findLine: FindLine,
  { form, only }: { readonly form: ScheduleForm; readonly only?: readonly ScheduleName[] | undefined },
): string {
  const names = only ?? (form === 'csv' ? (['connectors'] as const) : undefined);
  const schedules = schedulesOf(layout, checked, findLine, {
    findSlide: slideOf,
    ...(names === undefined ? {} : { only: names }),
  });
  return writers[form](schedules);
}

const writers = { text: scheduleToText, csv: scheduleToCsv, json: scheduleToJson } as const satisfies Record<
  ScheduleForm,
  unknown
>;

/** The widest table: fits a landscape page and a wide terminal. */
export const scheduleTableWidth = 132;

/**
 * Tables of at most 132 columns, one after another, then the basis. A cell that is too long runs on below itself. Of
 * several schedules, empty ones are only named; one that was asked for by itself is written even so.
 */
export function scheduleToText({ house, basis, tables }: Schedules): string {
  const [only, ...others] = tables;
  const isOne = only !== undefined && others.length === 0;
  const shown = tables.filter(({ of, rows }) => isOne || rows.length > 0 || of === 'connectors');
  const empty = tables.filter((table) => !shown.includes(table));
  return [
    `${isOne ? only.title : 'Schedules'}: ${printable(house)}`,
    ...(basis.demo ? ['DEMO VALUES - not for permit, purchase or building'] : []),
    ...shown.flatMap((table) => ['', ...(isOne ? [] : [table.title, '']), ...tableInText(table)]),
    ...(empty.length > 0
      ? [
          '',
          ...wrapWords(`Nothing in: ${empty.map(({ title }) => title.toLowerCase()).join(', ')}.`, scheduleTableWidth),
        ]
      : []),
    '',
    ...basis.lines.map(printable),
    '',
  ].join('\n');
}

function tableInText({ columns, rows, notes }: ScheduleTable): readonly string[] {
  const shown = columns.flatMap(({ heading, numeric }, index) =>
    heading === undefined
      ? []
      : [{ heading, numeric, optional: true, text: (row: TableRow) => row.cells[index]?.text ?? '' }],
  );
  const all = rows.length > 0 ? textTable(shown, rows, scheduleTableWidth) : [];
  return [
    ...all,
    ...(all.length > 0 ? [''] : []),
    ...notes.flatMap((note) => wrapWords(printable(note), scheduleTableWidth)),
  ];
}

/**
 * Comma-separated values (RFC 4180, CR LF, UTF-8 without a mark). A text that a spreadsheet would take for a formula
 * (first character `=`, `+`, `-`, `@`, a tab or a carriage return) gets an apostrophe before it. After the rows come an empty row and the
 * basis, one line a row, in the first column. Several schedules stand one below another, each after its title and an empty row.
 */
export function scheduleToCsv({ basis, tables }: Schedules): string {
  const isOne = tables.length === 1;
  const widest = Math.max(...tables.map((table) => csvHeads(table).length), 1);
  const records = tables.flatMap((table, at) => {
    const heads = csvHeads(table);
    const rows = [
      heads.map(({ name }) => name),
      ...table.rows.map(({ cells }) => heads.map(({ index }) => cells[index]?.csv ?? '')),
    ];
    return isOne ? rows : [...(at > 0 ? [['']] : []), [table.title], ...rows];
  });
  const trailing = ['', ...(basis.demo ? ['DEMO VALUES'] : []), ...basis.lines].map((line) => [line]);
  const filled = [...records, ...trailing].map((record) => [...record, ...Array(widest - record.length).fill('')]);
  return stringify(filled, { escape_formulas: true, record_delimiter: 'windows', bom: false });
}

const csvHeads = ({ columns }: ScheduleTable): readonly { readonly name: string; readonly index: number }[] =>
  columns.flatMap(({ csv, name }, index) => (csv ? [{ name, index }] : []));

export const scheduleSchemaVersion = 1;

/**
 * The schema is documented in docs/json.md. Lengths are `{nm, text}`: exact nanometres, and as a person reads them.
 * Connectors stand under `rows`, every other schedule under its own name.
 */
export function scheduleToJson({ house, basis, tables }: Schedules): string {
  const document = {
    schemaVersion: scheduleSchemaVersion,
    house,
    basis: basisInJson(basis),
    ...Object.fromEntries(tables.map((table) => [table.of === 'connectors' ? 'rows' : table.of, rowsInJson(table)])),
  };
  return `${JSON.stringify(document, null, 2)}\n`;
}

function rowsInJson({ columns, rows }: ScheduleTable): Json {
  return rows.map(({ cells }) =>
    Object.fromEntries(columns.flatMap(({ key, json }, index) => (json ? [[key, cells[index]?.json ?? null]] : []))),
  );
}
