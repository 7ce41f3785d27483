import type { FooterPart, SchedulePart } from '../../language/protocol/preview.ts';

/** A schedule as it goes to the clipboard: for a spreadsheet, and for a letter. */
export interface CopiedTable {
  readonly plain: string;
  readonly html: string;
}

/** With its basis: what leaves the tool says how far it can be trusted. */
export function tableToCopy({ title, sections }: SchedulePart, footer: FooterPart): CopiedTable {
  const after = [...(footer.demo ? ['DEMO VALUES'] : []), footer.always, footer.rest].filter((line) => line !== '');
  const plain = [
    ...sections.flatMap((section) => [
      [section.title],
      section.columns,
      ...section.rows.map(({ cells }) => cells),
      [''],
    ]),
    ...after.map((line) => [line]),
  ];
  const html = [
    `<p>${escaped(title)}</p>`,
    ...sections.map(
      (section) =>
        `<table><caption>${escaped(section.title)}</caption><thead>${rowOf('th', section.columns, false)}</thead>` +
        `<tbody>${section.rows.map(({ cells, crossed }) => rowOf('td', cells, crossed)).join('')}</tbody></table>`,
    ),
    ...after.map((line) => `<p>${escaped(line)}</p>`),
  ];
  return { plain: [title, ...plain.map((cells) => cells.map(asField).join('\t'))].join('\r\n'), html: html.join('\n') };
}

const rowOf = (tag: 'th' | 'td', cells: readonly string[], crossed: boolean): string =>
  `<tr>${cells
    .map((cell) => {
      const words = escaped(defused(cell));
      return `<${tag}>${crossed && words !== '' ? `<s>${words}</s>` : words}</${tag}>`;
    })
    .join('')}</tr>`;

/** Quoted where a spreadsheet would cut it: at a tab, a line end, or a quote at its start. */
function asField(cell: string): string {
  const text = defused(cell);
  return /^"|[\t\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}

/** What a spreadsheet would take for a formula gets an apostrophe before it, as in the CSV. */
const defused = (text: string): string => (/^[=+\-@\t\r\uFF1D\uFF0B\uFF0D\uFF20]/.test(text) ? `'${text}` : text);

const escaped = (text: string): string => text.replace(/[&<>"]/g, (character) => `&#${character.charCodeAt(0)};`);
