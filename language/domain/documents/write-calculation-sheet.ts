import type { CountedConnector } from '../engineering/layout-capacity.ts';
import type { PublicationName } from '../engineering/publications.ts';
import { citation, publications } from '../engineering/publications.ts';
import type { Outcome, Trace, TraceRow } from '../engineering/trace.ts';
import { isRefused, resultText } from '../engineering/trace.ts';
import type { Force } from '../units/force.ts';
import { inKilonewtons, inPounds } from '../units/force.ts';
import type { CalculationLine, CalculationLink } from './calculation-line.ts';
import type { CalculationSheet } from './calculation-sheet.ts';
import {
  comparisonInWords,
  countsInWords,
  demandInWords,
  outcomeInWords,
  rangeInWords,
  shareInColumn,
  shareInWords,
  sourceOf,
  workShown,
  worthInWords,
} from './calculation-words.ts';
import { basisInJson } from './json-parts.ts';
import { columnsOf, printable, wrapWords } from './text-layout.ts';
import { type TableColumn, textTable } from './text-table.ts';

/** Fits a portrait page and a usual terminal. */
export const calculationSheetWidth = 110;

/** The comparison first, then each line with its connectors, what the numbers rest on, the work, and the basis. */
export function calculationSheetToText(sheet: CalculationSheet): string {
  return [
    `Calculation sheet: ${sheet.house}`,
    ...(sheet.basis.demo ? ['DEMO VALUES - not for permit, purchase or building'] : []),
    `Rules: ${sheet.basis.rules}`,
    `Base shear of the whole house, allowable-stress level: ${outcomeInWords(sheet.baseShear, sheet.units)}`,
    '',
    'Demand beside the capacity counted',
    ...textTable(comparisonColumns(sheet), sheet.lines.flatMap(linkRows), calculationSheetWidth),
    '',
    ...wrapped(comparisonInWords(sheet)),
    ...sheet.lines.flatMap((line) => lineText(line, sheet)),
    ...section('Which unknown matters most', rankingText(sheet)),
    ...section(
      'Assumed, told or scaled',
      textTable(inputColumns, sheet.assumptions, calculationSheetWidth),
      sheet.assumptions.length,
    ),
    ...section('Not known, or not covered', bulleted(sheet.unknowns)),
    ...section('Cautions', bulleted(sheet.cautions)),
    ...section('Inputs', textTable(inputColumns, sheet.inputs, calculationSheetWidth), sheet.inputs.length),
    ...section('The work', workText(sheet)),
    ...section('Sections', bulleted(publicationsOf(sheet))),
    '',
    ...sheet.basis.lines,
    '',
  ]
    .flatMap((line) => (columnsOf(line) > calculationSheetWidth ? wrapped(line) : [printable(line)]))
    .join('\n');
}

export const calculationSheetSchemaVersion = 1;

/** The schema is documented in docs/json.md. */
export function calculationSheetToJson(sheet: CalculationSheet): string {
  const document = {
    schemaVersion: calculationSheetSchemaVersion,
    house: sheet.house,
    basis: basisInJson(sheet.basis),
    baseShear: forceInJson(sheet.baseShear),
    lines: sheet.lines.map((line) => ({
      name: line.name,
      walls: line.walls,
      demand: forceInJson(line.demand),
      governs: line.governs ?? null,
      withDragStruts: forceInJson(line.withDragStruts),
      withoutDragStruts: forceInJson(line.withoutDragStruts),
      links: line.links.map(linkInJson),
    })),
    comparison:
      'kind' in sheet.comparison
        ? { label: null, reason: sheet.comparison.reason, total: null, eachLine: null }
        : {
            label: sheet.comparison.label,
            reason: null,
            total: forceInJson(sheet.comparison.total),
            eachLine: forceInJson(sheet.comparison.eachLine),
          },
    ranking: rankingInJson(sheet),
    inputs: sheet.inputs.map(inputInJson),
    assumptions: sheet.assumptions.map(inputInJson),
    unknowns: sheet.unknowns,
    cautions: sheet.cautions,
    sections: sheet.sections.map(citation),
    work: workShown(sheet).map(({ title, rows }) => ({ title, rows: rows.map(rowInJson) })),
  };
  return `${JSON.stringify(document, null, 2)}\n`;
}

export interface LinkRow {
  readonly line: CalculationLine;
  readonly link: CalculationLink;
}
/** One row a link; the name of the line stands in its first only. */
export function linkRows(line: CalculationLine): readonly LinkRow[] {
  return line.links.map((link) => ({ line, link }));
}

/** Publications in full, once each, with the places that were used. */
export function publicationsOf(sheet: CalculationSheet): readonly string[] {
  const places = new Map<PublicationName, string[]>();
  for (const used of sheet.sections) {
    const place = citation(used)
      .slice(used.publication.length)
      .replace(/^[ ,]+/, '');
    places.set(used.publication, [...(places.get(used.publication) ?? []), ...(place ? [place] : [])]);
  }
  return [...places].map(([name, used]) => {
    const full = publications[name];
    return full.startsWith(name) ? full : [`${name}: ${full}`, ...used].join('; ');
  });
}

export const inputColumns: readonly TableColumn<Trace>[] = [
  { heading: 'What', text: (input) => input.meaning },
  { heading: 'Value', text: resultText, numeric: true },
  { heading: 'Quality', text: (input) => (input.quality === 'measured' ? '' : (input.quality ?? '')), optional: true },
  { heading: 'From', text: (input) => (input.section ? citation(input.section) : ''), optional: true },
];

export function connectorColumns({ units }: CalculationSheet): readonly TableColumn<CountedConnector>[] {
  return [
    { heading: 'Mark', text: (row) => row.mark },
    { heading: 'Wall', text: (row) => row.wall },
    { heading: 'What', text: (row) => row.what },
    { heading: 'Connector', text: (row) => row.connector },
    { heading: 'How many', text: (row) => String(row.count), numeric: true },
    {
      heading: 'Each carries',
      text: ({ capacity }) => (isRefused(capacity) ? 'not counted' : outcomeInWords(capacity, units)),
      numeric: true,
    },
    { heading: 'From', text: ({ capacity }) => (isRefused(capacity) ? capacity.reason : sourceOf(capacity)) },
  ];
}

function comparisonColumns(sheet: CalculationSheet): readonly TableColumn<LinkRow>[] {
  const first = ({ line, link }: LinkRow): boolean => line.links[0] === link;
  return [
    { heading: 'Line', text: (row) => (first(row) ? row.line.name : '') },
    {
      heading: 'Demand',
      text: (row) => (first(row) ? outcomeInWords(row.line.demand, sheet.units) : ''),
      numeric: true,
    },
    { heading: 'Link', text: ({ link }) => link.name },
    { heading: 'Connectors', text: ({ link }) => countsInWords(link) },
    {
      heading: 'Capacity counted',
      text: ({ link }) => (isRefused(link.capacity) ? 'none' : outcomeInWords(link.capacity, sheet.units)),
      numeric: true,
    },
    { heading: 'Demand of capacity', text: ({ link }) => shareInColumn(link), numeric: true },
  ];
}

function lineText(line: CalculationLine, sheet: CalculationSheet): readonly string[] {
  const connectors = line.links.flatMap((link) => link.connectors);
  return section(`Line ${line.name} (${line.walls.join(', ')})`, [
    ...wrapped(`Demand: ${demandInWords(line, sheet.units)}`),
    ...line.links.flatMap((link) => wrapped(`${link.name}: ${shareInWords(link)}`)),
    ...(connectors.length === 0
      ? ['No connector is in the design or found on it.']
      : textTable(connectorColumns(sheet), connectors, calculationSheetWidth)),
  ]);
}

function rankingText({ ranking }: CalculationSheet): readonly string[] {
  if (ranking.kind === 'refused') return [`Not worked: ${ranking.reason}.`];
  const words = new Map(ranking.bounds.map((bound) => [bound.name, bound.words]));
  return [
    ...wrapped(rangeInWords(ranking.line, ranking.ranking)),
    ...textTable(
      [
        { heading: 'Measure first', text: ({ name }) => name },
        { heading: 'Bounds: common practice, no source', text: ({ name }) => words.get(name) ?? '' },
        { heading: 'Knowing it takes away', text: worthInWords },
      ],
      ranking.ranking.ranking,
      calculationSheetWidth,
    ),
  ];
}

function workText(sheet: CalculationSheet): readonly string[] {
  return workShown(sheet)
    .flatMap(({ title, rows }) => [title, ...rows.flatMap(workRow), ''])
    .slice(0, -1);
}

function workRow(row: TraceRow): readonly string[] {
  const indent = '  '.repeat(Math.min(row.depth, 12) + 1);
  const steps = [row.symbol.text, row.formula?.text, row.substituted?.text, row.result].filter(
    (step) => step !== undefined,
  );
  const about = [row.meaning, row.quality === 'measured' ? undefined : row.quality, row.citation, ...row.notes].filter(
    Boolean,
  );
  const [head = '', ...rest] = wrapWords(
    `${steps.join(' = ')}   [${about.join('; ')}]`,
    calculationSheetWidth - indent.length - 4,
  );
  return [`${indent}${head.trimEnd()}`, ...rest.map((line) => `${indent}    ${line.trimEnd()}`)];
}

function section(heading: string, lines: readonly string[], entries = lines.length): readonly string[] {
  return entries === 0 ? [] : ['', heading, '-'.repeat(Math.min(heading.length, calculationSheetWidth)), ...lines];
}
const wrapped = (text: string): readonly string[] => wrapWords(printable(text), calculationSheetWidth);
function bulleted(texts: readonly string[]): readonly string[] {
  return texts.flatMap((text) =>
    wrapWords(printable(text), calculationSheetWidth - 2).map((line, index) => `${index === 0 ? '- ' : '  '}${line}`),
  );
}

function linkInJson(link: CalculationLink) {
  return {
    name: link.name,
    present: link.present,
    counted: link.counted,
    notCounted: link.notCounted,
    capacity: forceInJson(link.capacity),
    demandOverCapacity: isRefused(link.share) ? null : significant(link.share.number),
    words: shareInWords(link),
    connectors: link.connectors.map((each) => ({
      mark: each.mark,
      wall: each.wall,
      what: each.what,
      connector: each.connector,
      count: each.count,
      each: forceInJson(each.capacity),
      from: isRefused(each.capacity) ? null : sourceOf(each.capacity),
      remarks: each.remarks,
    })),
  };
}

/** Pounds and kilonewtons, or `null` for both and the reason. */
function forceInJson(outcome: Outcome<Force>) {
  if (isRefused(outcome)) return { lb: null, kN: null, reason: outcome.reason };
  return { lb: significant(inPounds(outcome.value)), kN: significant(inKilonewtons(outcome.value)), reason: null };
}

function inputInJson(input: Trace) {
  return {
    symbol: input.symbol,
    meaning: input.meaning,
    value: significant(input.number),
    unit: input.unit,
    quality: input.quality ?? null,
    citation: input.section ? citation(input.section) : null,
  };
}

function rowInJson(row: TraceRow) {
  return {
    depth: row.depth,
    symbol: row.symbol.text,
    meaning: row.meaning,
    formula: row.formula?.text ?? null,
    substituted: row.substituted?.text ?? null,
    result: row.result,
    quality: row.quality ?? null,
    citation: row.citation ?? null,
    notes: row.notes,
  };
}

function rankingInJson({ ranking }: CalculationSheet) {
  if (ranking.kind === 'refused') return { reason: ranking.reason, line: null, unknowns: [] };
  const words = new Map(ranking.bounds.map((bound) => [bound.name, bound.words]));
  const { likely, least, greatest, ranking: ranked } = ranking.ranking;
  return {
    reason: null,
    line: ranking.line,
    likely: significant(likely),
    least: significant(least),
    greatest: significant(greatest),
    unknowns: ranked.map((each) => ({
      name: each.name,
      bounds: words.get(each.name) ?? '',
      spreadRemoved: significant(each.spreadRemoved),
      canSettle: each.canSettle,
    })),
  };
}

/** Nine digits: what is left out is the dust of the arithmetic, which differs from machine to machine. `null` for no end. */
const significant = (number: number): number | null => (Number.isFinite(number) ? Number(number.toPrecision(9)) : null);
