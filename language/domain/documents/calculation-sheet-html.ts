import type { TraceRow } from '../engineering/trace.ts';
import type { CalculationLine } from './calculation-line.ts';
import type { CalculationSheet } from './calculation-sheet.ts';
import {
  comparisonInWords,
  countsInWords,
  demandInWords,
  outcomeInWords,
  rangeInWords,
  shareInColumn,
  shareInWords,
  workShown,
  worthInWords,
} from './calculation-words.ts';
import { printable } from './text-layout.ts';
import type { TableColumn } from './text-table.ts';
import { connectorColumns, inputColumns, linkRows, publicationsOf } from './write-calculation-sheet.ts';

/** TeX to MathML; it is given symbols and formulas of this program only, never text of the file. */
export type Typesetter = (tex: string) => string;

/**
 * One page that stands alone: no script, nothing loaded from elsewhere (its policy forbids both), formulas as MathML.
 * Every text of the file is escaped. Demo values are written across each printed page.
 */
export function calculationSheetToHtml(sheet: CalculationSheet, typeset: Typesetter): string {
  const title = `Calculation sheet: ${sheet.house}`;
  const columnsOfInputs = inputColumns.map((column) => ({ ...column }));
  return `${[
    '<!doctype html>',
    '<html lang="en">',
    '<head>',
    '<meta charset="utf-8">',
    `<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'">`,
    '<meta name="viewport" content="width=device-width, initial-scale=1">',
    `<title>${escapeHtml(title)}</title>`,
    `<style>${style}</style>`,
    '</head>',
    '<body>',
    ...(sheet.basis.demo
      ? [`<div class="watermark" aria-hidden="true">${'<span>DEMO VALUES</span>'.repeat(3)}</div>`]
      : []),
    '<main>',
    '<header>',
    `<h1>${escapeHtml(sheet.house)}</h1>`,
    '<p class="kind">Calculation sheet</p>',
    ...(sheet.basis.demo ? ['<p class="demo">DEMO VALUES - not for permit, purchase or building</p>'] : []),
    definitions([
      ['Rules', sheet.basis.rules],
      [
        'Basis',
        sheet.basis.because === undefined ? sheet.basis.label : `${sheet.basis.label} (${sheet.basis.because})`,
      ],
      ['Base shear, allowable-stress level', outcomeInWords(sheet.baseShear, sheet.units)],
    ]),
    '</header>',
    heading('Demand beside the capacity counted'),
    comparisonTable(sheet),
    paragraph(comparisonInWords(sheet), 'aside'),
    ...listUnder('Cautions', sheet.cautions, 'cautions'),
    ...listUnder('Not known, or not covered', sheet.unknowns),
    heading('Which unknown matters most'),
    ranking(sheet),
    ...(sheet.assumptions.length > 0
      ? [heading('Assumed, told or scaled'), table(columnsOfInputs, sheet.assumptions)]
      : []),
    heading('Lines'),
    ...sheet.lines.map((line) => lineSection(line, sheet)),
    ...(sheet.inputs.length > 0 ? [heading('Inputs'), table(columnsOfInputs, sheet.inputs)] : []),
    heading('The work'),
    ...workShown(sheet).map(
      ({ title: of, rows }) =>
        `<section class="work"><h3>${escapeHtml(of)}</h3>${rows.map((row) => workRow(row, typeset)).join('')}</section>`,
    ),
    ...listUnder('Sections', publicationsOf(sheet)),
    '</main>',
    `<footer>${paragraph(sheet.basis.lines.join(' '))}</footer>`,
    '</body>',
    '</html>',
  ].join('\n')}\n`;
}

/** A text as it may stand anywhere in a page, in quotes too. */
export function escapeHtml(text: string): string {
  return printable(text).replace(/[&<>"'`]/g, (character) => `&#${character.charCodeAt(0)};`);
}

function comparisonTable(sheet: CalculationSheet): string {
  const body = sheet.lines.map((line) => {
    const rows = linkRows(line).map(({ link }, index) => {
      const first =
        index === 0
          ? `<th scope="rowgroup" rowspan="${line.links.length}">${escapeHtml(line.name)}<small>${escapeHtml(line.walls.join(', '))}</small></th>` +
            `<td class="number" rowspan="${line.links.length}">${escapeHtml(outcomeInWords(line.demand, sheet.units))}</td>`
          : '';
      const capacity = link.capacity.kind === 'refused' ? 'none' : outcomeInWords(link.capacity, sheet.units);
      return (
        `<tr${link.present ? '' : ' class="absent"'}>${first}<td>${escapeHtml(link.name)}</td><td>${escapeHtml(countsInWords(link))}</td>` +
        `<td class="number">${escapeHtml(capacity)}</td><td class="number">${escapeHtml(shareInColumn(link))}${bar(link.share)}</td></tr>`
      );
    });
    return `<tbody>${rows.join('')}</tbody>`;
  });
  const headings = ['Line', 'Demand', 'Link', 'Connectors', 'Capacity counted', 'Demand of capacity'];
  return `<table class="comparison"><thead><tr>${headings.map((each) => `<th scope="col">${each}</th>`).join('')}</tr></thead>${body.join('')}</table>`;
}

/** The share as a length, one colour whatever it is: a comparison and no verdict. */
function bar(share: CalculationLine['links'][number]['share']): string {
  if (share.kind === 'refused') return '';
  const width = Math.max(0, Math.min(100, Math.round(share.number * 100)));
  return `<span class="bar" aria-hidden="true"><span style="width:${width}%"></span></span>`;
}

function lineSection(line: CalculationLine, sheet: CalculationSheet): string {
  const connectors = line.links.flatMap((link) => link.connectors);
  return [
    `<section><h3>Line ${escapeHtml(line.name)} <small>${escapeHtml(line.walls.join(', '))}</small></h3>`,
    paragraph(`Demand: ${demandInWords(line, sheet.units)}`),
    `<ul>${line.links.map((link) => `<li>${escapeHtml(`${link.name}: ${shareInWords(link)}`)}</li>`).join('')}</ul>`,
    connectors.length === 0
      ? paragraph('No connector is in the design or found on it.')
      : table(connectorColumns(sheet), connectors),
    '</section>',
  ].join('');
}

function ranking({ ranking: ranked }: CalculationSheet): string {
  if (ranked.kind === 'refused') return paragraph(`Not worked: ${ranked.reason}.`);
  const words = new Map(ranked.bounds.map((bound) => [bound.name, bound.words]));
  return [
    paragraph(rangeInWords(ranked.line, ranked.ranking)),
    table(
      [
        { heading: 'Measure first', text: ({ name }) => name },
        { heading: 'Bounds: common practice, no source', text: ({ name }) => words.get(name) ?? '' },
        { heading: 'Knowing it takes away', text: worthInWords },
      ],
      ranked.ranking.ranking,
    ),
  ].join('');
}

function workRow(row: TraceRow, typeset: Typesetter): string {
  const tex = [row.symbol.tex, row.formula?.tex, row.substituted?.tex].filter((step) => step !== undefined).join(' = ');
  const about = [row.meaning, row.quality === 'measured' ? undefined : row.quality, row.citation, ...row.notes]
    .filter((part) => part !== undefined && part !== '')
    .join('; ');
  return (
    `<div class="step" style="--depth:${Math.min(row.depth, 12)}"><span class="math">${typeset(tex)} <span class="result">= ${escapeHtml(row.result)}</span></span>` +
    `<span class="about">${escapeHtml(about)}</span></div>`
  );
}

function table<Row>(allColumns: readonly TableColumn<Row>[], rows: readonly Row[]): string {
  const columns = allColumns.filter(({ optional, text }) => !optional || rows.some((row) => text(row) !== ''));
  const head = columns
    .map(({ heading: text, numeric }) => `<th scope="col"${numeric ? ' class="number"' : ''}>${escapeHtml(text)}</th>`)
    .join('');
  const body = rows.map((row) => {
    const cells = columns.map(
      ({ numeric, text }) => `<td${numeric ? ' class="number"' : ''}>${escapeHtml(text(row))}</td>`,
    );
    return `<tr>${cells.join('')}</tr>`;
  });
  return `<table><thead><tr>${head}</tr></thead><tbody>${body.join('')}</tbody></table>`;
}

function listUnder(title: string, texts: readonly string[], className = ''): readonly string[] {
  if (texts.length === 0) return [];
  const items = texts.map((text) => `<li>${escapeHtml(text)}</li>`).join('');
  return [heading(title), `<ul${className === '' ? '' : ` class="${className}"`}>${items}</ul>`];
}
const heading = (text: string): string => `<h2>${escapeHtml(text)}</h2>`;
const paragraph = (text: string, className = ''): string =>
  `<p${className === '' ? '' : ` class="${className}"`}>${escapeHtml(text)}</p>`;
function definitions(entries: readonly (readonly [string, string])[]): string {
  return `<dl>${entries.map(([name, text]) => `<div><dt>${escapeHtml(name)}</dt><dd>${escapeHtml(text)}</dd></div>`).join('')}</dl>`;
}

// Black on white, for paper first. Contrast of the greys is at least 4.5 to 1 (WCAG 2.2, 1.4.3).
const style = `
:root { color-scheme: light; --ink: #1c1c1a; --soft: #595751; --line: #d6d3cb; --fill: #f5f3ee; --bar: #8a8577; }
* { box-sizing: border-box; }
body { margin: 0; background: #fff; color: var(--ink); font: 15px/1.5 "Segoe UI", "Helvetica Neue", Arial, sans-serif; }
main, footer { position: relative; max-width: 60rem; margin: 0 auto; padding: 0 2rem; }
header { padding-top: 2.5rem; border-bottom: 2px solid var(--ink); display: grid; grid-template-columns: 1fr auto; align-items: baseline; }
h1 { margin: 0; font-size: 1.7rem; line-height: 1.2; font-weight: 650; }
.kind { margin: 0; color: var(--soft); }
.demo { grid-column: 1 / -1; margin: .6rem 0 0; padding: .35rem .7rem; border: 2px solid var(--ink); font-weight: 650; letter-spacing: .02em; }
dl { grid-column: 1 / -1; display: flex; flex-wrap: wrap; gap: .3rem 2.5rem; margin: 1rem 0; }
dt { color: var(--soft); font-size: .8rem; }
dd { margin: 0; font-weight: 600; }
h2 { margin: 2.2rem 0 .6rem; font-size: 1.15rem; font-weight: 650; break-after: avoid; }
h3 { margin: 1.5rem 0 .3rem; font-size: 1rem; font-weight: 650; break-after: avoid; }
small { font-size: .8rem; font-weight: 400; color: var(--soft); }
th small { display: block; }
p { margin: .4rem 0; }
ul { margin: .3rem 0; padding-left: 1.2rem; }
.aside { color: var(--soft); }
.cautions { padding: .7rem .7rem .7rem 1.8rem; border-left: 4px solid var(--ink); background: #f5f3eecc; }
table { width: 100%; border-collapse: collapse; margin: .5rem 0; font-size: .875rem; }
th, td { padding: .28rem .6rem; text-align: left; vertical-align: top; border-bottom: 1px solid var(--line); }
thead th { color: var(--soft); font-weight: 600; font-size: .8rem; border-bottom: 1px solid var(--ink); }
thead { display: table-header-group; }
tr { break-inside: avoid; }
.number { text-align: right; font-variant-numeric: tabular-nums; white-space: nowrap; }
.comparison thead th:nth-child(2), .comparison thead th:nth-child(n + 5) { text-align: right; }
.comparison tbody { border-bottom: 1px solid var(--ink); }
.absent td:not([rowspan]) { color: var(--soft); font-style: italic; }
.bar { display: block; width: 7rem; height: .3rem; margin: .2rem 0 .1rem auto; background: var(--line); }
.bar span { display: block; height: 100%; background: var(--bar); }
.work { break-inside: avoid-page; }
.step { display: grid; grid-template-columns: minmax(0, 3fr) minmax(0, 2fr); gap: 1rem; align-items: baseline; padding: .22rem 0 .22rem calc(var(--depth) * 1.1rem); border-bottom: 1px solid var(--fill); }
.math { overflow-x: auto; overflow-y: hidden; }
math { font-size: 1.05rem; font-family: "Cambria Math", "STIX Two Math", "Latin Modern Math", math; math-style: normal; }
.result { font-weight: 600; white-space: nowrap; }
.about { color: var(--soft); font-size: .8rem; }
footer { margin-top: 3rem; padding-top: .8rem; padding-bottom: 2.5rem; border-top: 2px solid var(--ink); font-size: .8rem; }
footer p { margin: .15rem 0; }
.watermark { position: fixed; inset: 0; display: flex; flex-direction: column; justify-content: space-around; align-items: center; overflow: hidden; pointer-events: none; z-index: 1; }
.watermark span { font-size: min(5.5rem, 10vw); font-weight: 700; letter-spacing: .08em; white-space: nowrap; color: #00000014; transform: rotate(-24deg); }
@media (max-width: 44rem) { main, footer { padding: 0 1rem; } .step { grid-template-columns: 1fr; gap: 0; } }
@media print { @page { margin: 16mm; } html { font-size: 12px; } body { font-size: 1rem; } .bar, .bar span { print-color-adjust: exact; } main, footer { max-width: none; padding: 0; } .watermark span { color: #00000016; } }
`;
