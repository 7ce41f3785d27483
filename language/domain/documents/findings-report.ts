import type { Layout, Wall } from '../model/layout.ts';
import type { SourceSpan } from '../model/source.ts';
import type { Checked } from '../rules/checked.ts';
import type { Finding, Fix, NotChecked, Severity } from '../rules/finding.ts';
import { citationWords } from '../rulesets/citation-words.ts';
import { formatStation } from '../units/format-length.ts';
import { type Basis, namedRuleSets } from './basis.ts';
import { basisInJson, stationInJson } from './json-parts.ts';
import { padColumns, printable, wrapWords } from './text-layout.ts';

/** One checked layout, as the writers below need it. */
export interface CheckedLayout {
  /** As the user named it. */
  readonly file: string;
  readonly layout: Layout;
  readonly checked: Checked;
  readonly basis: Basis;
  /** Where a span stands; `undefined` for built-in data, which has no text of the user's. */
  readonly placeOf: (span: SourceSpan) => TextPlace | undefined;
}

export interface TextPlace {
  readonly file: string;
  /** Lines and UTF-16 characters count from 0. */
  readonly range: { readonly start: TextPosition; readonly end: TextPosition };
}
export interface TextPosition {
  readonly line: number;
  readonly character: number;
}

export const findingsSchemaVersion = 1;
const reportWidth = 110;

/** The findings as a foreman reads them out: house first, then wall by wall down the tape, then the papers' basis. */
export function findingsToText(report: CheckedLayout): string {
  const { layout, checked, basis } = report;
  const mendsOf = mendsWithinBudget(report);
  return [
    `${printable(layout.title.name ?? 'Untitled layout')} (${printable(report.file)})`,
    ...groupsOf(report).flatMap(({ heading, findings }) => [
      '',
      heading,
      ...findings.flatMap((finding) => findingLines(finding, report, mendsOf(finding))),
    ]),
    ...listUnder('Not checked for want of measurements', wantsInWords(checked.notChecked), checked.notChecked.length),
    ...listUnder('Assumed', leaningLines(layout, false)),
    ...listUnder('Unknown: go back and measure', leaningLines(layout, true)),
    ...listUnder(
      'To ask or look at',
      layout.questions.map((question) => question.text),
    ),
    '',
    ...basis.lines.map(printable),
    '',
  ].join('\n');
}

/** The schema is documented in docs/json.md; several layouts make one document. */
export function findingsToJson(reports: readonly CheckedLayout[]): string {
  const ruleSets = [...new Set(reports.flatMap(({ layout }) => namedRuleSets(layout).map((ruleSet) => ruleSet.name)))];
  const editions = [...new Set(reports.map(({ basis }) => basis.rules))];
  const document = {
    schemaVersion: findingsSchemaVersion,
    ruleSet: ruleSets.length === 0 ? null : ruleSets.join(', '),
    edition: editions.join('; '),
    notChecked: reports.flatMap((report) => report.checked.notChecked.map((entry) => notCheckedInJson(entry, report))),
    assumed: reports.flatMap(assumedInJson),
    findings: reports.flatMap((report) => {
      const mendsOf = mendsWithinBudget(report);
      return report.checked.findings.map((finding) => findingInJson(finding, report, mendsOf(finding)));
    }),
    basis: reports.map(({ file, basis }) => ({ file, ...basisInJson(basis) })),
  };
  return `${JSON.stringify(document, null, 2)}\n`;
}

/** Mends of one finding; `undefined` where they were not worked out. */
type MendsOf = (finding: Finding) => readonly Fix[] | undefined;

/**
 * Each mend is tried on its whole wall before it is offered. That is nothing for a house, but on a wall of thousands of boards with a
 * finding on each it would take hours: past this many things looked at, a report goes without.
 */
const mendBudget = 40_000;

function mendsWithinBudget({ layout }: CheckedLayout): MendsOf {
  const sizes = new Map(layout.walls.map((wall) => [wall.name, wall.pieces.length + wall.anchors.length]));
  let left = mendBudget;
  return (finding) => {
    left -= 1 + (sizes.get(finding.wall ?? '') ?? 0);
    return left < 0 ? undefined : finding.fixes;
  };
}

interface FindingGroup {
  readonly heading: string;
  readonly findings: readonly Finding[];
}

function groupsOf({ layout, checked }: CheckedLayout): readonly FindingGroup[] {
  const byPlace = new Map<string | undefined, Finding[]>();
  for (const finding of checked.findings) {
    const group = byPlace.get(finding.wall);
    if (group) group.push(finding);
    else byPlace.set(finding.wall, [finding]);
  }
  const headings = new Map<string | undefined, string>([
    [undefined, 'House, rules and papers'],
    ...layout.walls.map((wall): [string, string] => [wall.name, wallHeading(wall)]),
    ...layout.girders.map((girder): [string, string] => [girder.name, `Girder ${printable(girder.name)}`]),
  ]);
  const order = [...headings.keys(), ...[...byPlace.keys()].filter((name) => !headings.has(name))];
  return order.flatMap((name) => {
    const findings = byPlace.get(name);
    if (!findings) return [];
    return [{ heading: headings.get(name) ?? `Wall ${printable(name ?? '')}`, findings: findings.toSorted(byStation) }];
  });
}

function wallHeading(wall: Wall): string {
  return `Wall ${printable(wall.name)}${wall.label === undefined ? '' : ` "${printable(wall.label)}"`}`;
}

/** What concerns the whole wall comes first. */
function byStation(a: Finding, b: Finding): number {
  if (a.station === undefined || b.station === undefined)
    return Number(a.station !== undefined) - Number(b.station !== undefined);
  return a.station - b.station;
}

const stationColumn = 11;
const severityColumn = 'accepted'.length;
const margin = ' '.repeat(2 + stationColumn + 2 + severityColumn + 2);

/** Where down the tape, how grave, what is said; below it the place in the text, the rule and what it rests on, the mends. */
function findingLines(finding: Finding, report: CheckedLayout, mends: readonly Fix[] | undefined): readonly string[] {
  const { units } = report.layout.title;
  const place = report.placeOf(finding.span);
  const station = finding.station === undefined ? '' : formatStation(finding.station, units);
  const source = finding.citation ? ` (${printable(citationWords(finding.citation))})` : '';
  const notes = [
    ...(finding.accepted === undefined
      ? []
      : [`accepted ${finding.severity}, because: ${printable(finding.accepted)}`]),
    `${place ? `${placeInWords(place)} ` : ''}${finding.rule}${source}`,
    ...(mends?.map(mendInWords) ?? ['mends are not worked out on a wall of so many boards']),
  ];
  const [first = '', ...rest] = wrapWords(printable(finding.message), reportWidth - margin.length);
  return [
    `  ${padColumns(station, stationColumn)}  ${padColumns(severityInWords(finding), severityColumn)}  ${first}`.trimEnd(),
    ...rest.map((line) => margin + line),
    ...notes.flatMap((note) => wrapWords(note, reportWidth - margin.length).map((line) => margin + line)),
  ];
}

function mendInWords({ title, trust }: Fix): string {
  return `can be mended: ${printable(title)}${trust === 'safe' ? '' : ' (look it over)'}`;
}

function severityInWords(finding: Finding): string {
  if (finding.severity === 'stop') return 'STOP';
  return finding.accepted === undefined ? finding.severity : 'accepted';
}

/** `house.sill:12:3`: terminals and editors jump there. */
export function placeInWords({ file, range }: TextPlace): string {
  return `${printable(file)}:${range.start.line + 1}:${range.start.character + 1}`;
}

function listUnder(heading: string, entries: readonly string[], count = entries.length): readonly string[] {
  if (entries.length === 0) return [];
  const lines = entries.flatMap((entry) =>
    wrapWords(printable(entry), reportWidth - 4).map((line, index) => (index === 0 ? `  ${line}` : `    ${line}`)),
  );
  return ['', `${heading} (${count})`, ...lines];
}

/** One line a missing measurement, with the checks that wait for it. */
function wantsInWords(notChecked: readonly NotChecked[]): readonly string[] {
  const rulesByWant = new Map<string, Set<string>>();
  for (const { wants, rule } of notChecked) {
    const rules = rulesByWant.get(wants) ?? new Set();
    rulesByWant.set(wants, rules.add(rule));
  }
  return [...rulesByWant].map(([wants, rules]) => `${wants}: ${[...rules].join(', ')}`);
}

function leaningLines(layout: Layout, unknown: boolean): readonly string[] {
  const leanings = unknown ? layout.unknowns : layout.assumptions.filter((leaning) => leaning.quality !== 'unknown');
  return leanings.map((leaning) => (unknown ? leaning.what : `${leaning.what}: ${leaning.typed}`));
}

function findingInJson(finding: Finding, report: CheckedLayout, mends: readonly Fix[] | undefined) {
  const place = report.placeOf(finding.span);
  const { units } = report.layout.title;
  return {
    file: place?.file ?? null,
    rule: finding.rule,
    severity: finding.severity satisfies Severity,
    message: finding.message,
    source: finding.citation ? citationWords(finding.citation) : null,
    layer: finding.layer,
    wall: finding.wall ?? null,
    piece: finding.piece ?? null,
    station: stationInJson(finding.station, units),
    stationTo: stationInJson(finding.stationTo, units),
    range: place?.range ?? null,
    fixes: mends?.map(({ title, trust }) => ({ title, trust })) ?? null,
    ...(finding.accepted === undefined ? {} : { accepted: true, reason: finding.accepted }),
  };
}

function notCheckedInJson(entry: NotChecked, report: CheckedLayout) {
  const place = report.placeOf(entry.span);
  return {
    file: place?.file ?? null,
    rule: entry.rule,
    wants: entry.wants,
    wall: entry.wall ?? null,
    piece: entry.piece ?? null,
    range: place?.range ?? null,
  };
}

function assumedInJson(report: CheckedLayout) {
  return report.layout.assumptions
    .filter((leaning) => leaning.quality !== 'unknown')
    .map((leaning) => {
      const place = report.placeOf(leaning.source);
      return {
        file: place?.file ?? null,
        what: leaning.what,
        typed: leaning.typed,
        quality: leaning.quality,
        range: place?.range ?? null,
      };
    });
}
