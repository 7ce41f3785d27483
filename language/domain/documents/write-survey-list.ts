import { stringify } from 'csv-stringify/browser/esm/sync';
import { basisInJson, lengthInJson } from './json-parts.ts';
import type { FindLine } from './schedules/table.ts';
import { placeOfItem, type SurveyItem, type SurveyList } from './survey-list.ts';
import { countOf, printable } from './text-layout.ts';
import { type TableColumn, textTable } from './text-table.ts';

/** Fits a page on a clipboard, and the width of a basis line. */
const tableWidth = 110;

const kindWords: Readonly<Record<SurveyItem['kind'], string>> = {
  unknown: 'measure',
  missing: 'measure',
  'not-measured': 'confirm',
  question: 'ask',
};

/** One table a group, with room to write what was found. */
export function surveyListToText(list: SurveyList, findLine: FindLine): string {
  const items = list.groups.flatMap((group) => group.items);
  const count = (kind: string): number => items.filter((item) => kindWords[item.kind] === kind).length;
  return [
    `Survey list: ${printable(list.house)}`,
    ...(items.length === 0
      ? ['', 'Nothing is written down as not known, asked or assumed, and no check lacks a measurement.']
      : [
          `${count('measure')} to measure or look at, ${count('confirm')} to confirm, ${countOf(count('ask'), 'question')}.`,
        ]),
    ...list.groups.flatMap((group) => [
      '',
      printable(group.title),
      ...textTable(columnsOf(list, findLine), group.items, tableWidth).map((line) => `  ${line}`),
    ]),
    '',
    ...list.basis.lines.map(printable),
    '',
  ].join('\n');
}

function columnsOf({ units }: SurveyList, findLine: FindLine): readonly TableColumn<SurveyItem>[] {
  return [
    { heading: 'Do', text: (item) => kindWords[item.kind] },
    { heading: 'What', text: (item) => item.what },
    { heading: 'Where', text: (item) => placeOfItem(item, units), optional: true },
    { heading: 'Written now', text: (item) => (item.kind === 'missing' ? 'nothing' : item.given) },
    {
      heading: 'Checks',
      text: (item) => (item.checks === 0 ? '' : String(item.checks)),
      numeric: true,
      optional: true,
    },
    { heading: 'Stands at', text: (item) => lineInWords(item, findLine) },
    { heading: 'Found', text: () => '__________' },
  ];
}

/** With its file: walls often stand in one that the design uses. */
function lineInWords(item: SurveyItem, findLine: FindLine): string {
  const place = findLine(item.source);
  return place ? `${place.file.split('/').at(-1) ?? place.file}:${place.line}` : '';
}

export const surveyListSchemaVersion = 1;

/** The schema is documented in docs/json.md. */
export function surveyListToJson(list: SurveyList, findLine: FindLine): string {
  const { units } = list;
  const document = {
    schemaVersion: surveyListSchemaVersion,
    house: list.house,
    basis: basisInJson(list.basis),
    groups: list.groups.map((group) => ({
      title: group.title,
      wall: group.wall ?? null,
      items: group.items.map((item) => {
        const place = findLine(item.source);
        return {
          kind: item.kind,
          what: item.what,
          given: item.given === '' ? null : item.given,
          from: item.stretch ? lengthInJson(item.stretch.from, units) : null,
          to: item.stretch ? lengthInJson(item.stretch.to, units) : null,
          checks: item.checks,
          file: place?.file ?? null,
          line: place?.line ?? null,
        };
      }),
    })),
  };
  return `${JSON.stringify(document, null, 2)}\n`;
}

/** RFC 4180 as the schedule has it: formulas are defused, the basis follows the rows. */
export function surveyListToCsv(list: SurveyList, findLine: FindLine): string {
  const heading = ['where', 'do', 'what', 'place', 'written_now', 'checks', 'file', 'line', 'found'];
  const rows = list.groups.flatMap((group) =>
    group.items.map((item) => {
      const place = findLine(item.source);
      return [
        group.title,
        kindWords[item.kind],
        item.what,
        placeOfItem(item, list.units),
        item.given,
        item.checks,
        place?.file ?? '',
        place?.line ?? '',
        '',
      ];
    }),
  );
  const trailing = ['', ...(list.basis.demo ? ['DEMO VALUES'] : []), ...list.basis.lines].map((text) => [
    text,
    ...heading.slice(1).map(() => ''),
  ]);
  return stringify([heading, ...rows, ...trailing], { escape_formulas: true, record_delimiter: 'windows', bom: false });
}
