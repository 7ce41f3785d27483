import { wholeLimitWords } from '../rules/limit-words.ts';
import { citationWords } from '../rulesets/citation-words.ts';
import type { Limit } from '../rulesets/rule-set.ts';
import { formatLength, formatStation } from '../units/format-length.ts';
import type { ComparedPlace, ComparedVerdict, Edition } from './compare-rule-sets.ts';
import { basisInJson, stationInJson } from './json-parts.ts';
import { printable, wrapWords } from './text-layout.ts';
import type { TableColumn } from './text-table.ts';
import { textTable } from './text-table.ts';

/** One layout under several editions, and what came of setting them side by side. */
export interface Comparison {
  readonly editions: readonly Edition[];
  readonly places: readonly ComparedPlace[];
}

export const comparisonSchemaVersion = 1;
const tableWidth = 132;

/** The places where the editions differ, then those where they agree, then the totals and the basis of each. */
export function comparisonToText(comparison: Comparison): string {
  const { editions, places } = comparison;
  const [first] = editions;
  if (!first) return '';
  const { layout, file } = first.report;
  const differing = places.filter((place) => place.differs);
  const alike = places.filter((place) => !place.differs);
  return [
    `${printable(layout.title.name ?? 'Untitled layout')} (${printable(file)})`,
    ...editions.map(
      (edition, index) =>
        `${letterOf(index)} = ${printable(nameOf(edition))}: ${printable(edition.report.basis.rules)}`,
    ),
    ...section('They differ', differing, comparison, columnOfEach(comparison)),
    ...section('They say the same', alike, comparison, columnOfAll(comparison)),
    '',
    'Totals',
    ...textTable(totalColumns, editions, tableWidth),
    '',
    ...basisLines(editions),
    '',
  ].join('\n');
}

/** The schema is documented in docs/json.md; several layouts make one document. */
export function comparisonsToJson(comparisons: readonly Comparison[]): string {
  const document = {
    schemaVersion: comparisonSchemaVersion,
    comparisons: comparisons.map(({ editions, places }) => ({
      file: editions[0]?.report.file ?? null,
      house: editions[0]?.report.layout.title.name ?? null,
      editions: editions.map(({ ruleSets, report }) => ({ ruleSets, ...basisInJson(report.basis) })),
      places: places.map((place) => placeInJson(place, editions)),
    })),
  };
  return `${JSON.stringify(document, null, 2)}\n`;
}

const nameOf = ({ ruleSets }: Edition): string => ruleSets.join(', ');
/** A, B, … Z, then by number: nobody compares more. */
const letterOf = (index: number): string => (index < 26 ? String.fromCharCode(65 + index) : `${index + 1}`);

function section(
  heading: string,
  places: readonly ComparedPlace[],
  { editions }: Comparison,
  verdicts: readonly TableColumn<ComparedPlace>[],
): readonly string[] {
  if (places.length === 0) return ['', `${heading} (0)`];
  const units = editions[0]?.report.layout.title.units ?? 'feet-inches';
  const columns: readonly TableColumn<ComparedPlace>[] = [
    { heading: 'rule', text: ({ rule }) => rule },
    { heading: 'wall', text: ({ wall }) => wall ?? '', optional: true },
    { heading: 'place', text: (place) => placeWords(place, units), optional: true },
    ...verdicts,
  ];
  return ['', `${heading} (${places.length})`, ...textTable(columns, places, tableWidth)];
}

function columnOfEach({ editions }: Comparison): readonly TableColumn<ComparedPlace>[] {
  return editions.map((edition, index) => ({
    heading: `under ${letterOf(index)}`,
    text: ({ under }) => {
      const verdict = under[index];
      return verdict ? verdictWords(verdict, edition) : '';
    },
  }));
}

/** Where all say the same, once is enough. */
function columnOfAll({ editions }: Comparison): readonly TableColumn<ComparedPlace>[] {
  const [first] = editions;
  return [
    {
      heading: `under ${editions.map((_, index) => letterOf(index)).join(', ')}`,
      text: ({ under: [verdict] }) => (verdict && first ? verdictWords(verdict, first) : ''),
    },
  ];
}

/** What each edition says of itself, then what all say. */
function basisLines(editions: readonly Edition[]): readonly string[] {
  const inAll = (line: string): boolean => editions.every(({ report }) => report.basis.lines.includes(line));
  const own = editions.flatMap(({ report }, index) => {
    const lines = report.basis.lines.filter((line) => !inAll(line));
    return lines.map((line, place) => `${place === 0 ? `${letterOf(index)}: ` : '   '}${printable(line)}`);
  });
  return [...own, ...(editions[0]?.report.basis.lines ?? []).filter(inAll).map(printable)];
}

function placeWords({ finding, piece }: ComparedPlace, units: 'feet-inches' | 'metric'): string {
  const station = finding?.station;
  const to = finding?.stationTo;
  const places = [
    ...(piece === undefined ? [] : [piece]),
    ...(station === undefined ? [] : [formatStation(station, units)]),
    ...(to === undefined ? [] : [`to ${formatStation(to, units)}`]),
  ];
  return places.join(' ');
}

function verdictWords({ verdict, limit, wants, finding }: ComparedVerdict, { report }: Edition): string {
  const words = [
    verdict === 'stop' ? 'STOP' : verdict.replace('-', ' '),
    ...(wants === undefined ? [] : [`wants ${wants}`]),
    ...(limit ? [limitWordsOf(limit, report.layout.title.units)] : []),
    // Without a limit the message alone says what it is about.
    ...(finding && !limit ? [firstSentence(finding.message)] : []),
  ];
  return words.join(': ');
}

const limitWordsOf = (limit: Limit, units: 'feet-inches' | 'metric'): string =>
  wholeLimitWords(limit, { show: (length) => formatLength(length, units) });

const longestSentence = 90;

function firstSentence(message: string): string {
  const [sentence = ''] = message.split(/(?<=[.;:]) /);
  const plain = sentence.replace(/[.;:]$/, '');
  const [line = ''] = wrapWords(plain, longestSentence);
  return line === plain ? plain : `${line} …`;
}

const totalColumns: readonly TableColumn<Edition>[] = [
  { heading: 'edition', text: nameOf },
  { heading: 'stops', text: ({ report }) => `${report.basis.counts.stops}`, numeric: true },
  { heading: 'errors', text: ({ report }) => `${report.basis.counts.errors}`, numeric: true },
  { heading: 'warnings', text: ({ report }) => `${report.basis.counts.warnings}`, numeric: true },
  { heading: 'infos', text: ({ report }) => `${report.basis.counts.infos}`, numeric: true },
  { heading: 'accepted', text: ({ report }) => `${report.basis.counts.accepted ?? 0}`, numeric: true },
  { heading: 'not checked', text: ({ report }) => `${report.basis.counts.notChecked}`, numeric: true },
];

function placeInJson(place: ComparedPlace, editions: readonly Edition[]) {
  const { rule, wall, piece, finding, differs, under } = place;
  const report = editions[under.findIndex((each) => each.finding !== undefined)]?.report;
  const units = editions[0]?.report.layout.title.units ?? 'feet-inches';
  const at = finding && report?.placeOf(finding.span);
  return {
    rule,
    differs,
    wall: wall ?? null,
    piece: piece ?? null,
    station: stationInJson(finding?.station, units),
    stationTo: stationInJson(finding?.stationTo, units),
    file: at?.file ?? null,
    range: at?.range ?? null,
    under: under.map(({ verdict, limit, wants, finding: own }) => ({
      verdict,
      subject: limit?.subject ?? null,
      limit: limit ? limitWordsOf(limit, units) : null,
      ruleSet: limit?.ruleSet ?? null,
      source: limit?.citation ? citationWords(limit.citation) : null,
      wants: wants ?? null,
      message: own?.message ?? null,
    })),
  };
}
