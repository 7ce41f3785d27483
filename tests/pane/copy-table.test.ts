import { describe, expect, it } from 'vitest';
import { tableToCopy } from '../../extension/webview/copy-table.ts';
import type { FooterPart, SchedulePart } from '../../language/protocol/preview.ts';

const schedule: SchedulePart = {
  wall: 'F',
  title: 'Schedules of wall F',
  sections: [
    {
      title: 'Connectors',
      columns: ['mark', 'station', 'gap left'],
      rows: [
        { thing: 'F/anchor:F-1', cells: ['F-1', `1'-0"`, `9" end`], crossed: false },
        { thing: 'F/anchor:F-4', cells: ['F-4', `8'-9"`, ''], crossed: true },
      ],
    },
    { title: 'Panels', columns: ['mark', 'board'], rows: [{ thing: 'p', cells: ['<b>&', '"x"\ty'], crossed: false }] },
  ],
};
const footer: FooterPart = {
  always: '1 error under some rules. An aid to drafting and checking, not engineering.',
  rest: 'Local code decides.',
  demo: true,
  stopped: false,
};
const { plain, html } = tableToCopy(schedule, footer);

describe('a schedule on the clipboard', () => {
  it('is a table of tabs for a spreadsheet, with a title before each part', () => {
    expect(plain.split('\r\n').slice(0, 6)).toEqual([
      'Schedules of wall F',
      'Connectors',
      'mark\tstation\tgap left',
      `F-1\t1'-0"\t9" end`,
      `F-4\t8'-9"\t`,
      '',
    ]);
  });

  it('quotes what a spreadsheet would cut', () => {
    expect(plain).toContain('<b>&\t"""x""\ty"');
  });

  it('carries the basis, and says that values are invented', () => {
    for (const text of [plain, html]) {
      expect(text).toContain('DEMO VALUES');
      expect(text).toContain(footer.always);
      expect(text).toContain(footer.rest);
    }
  });

  it('is a table of its own for each part in a letter, and strikes out what was left out', () => {
    expect(html.match(/<table>/g)).toHaveLength(2);
    expect(html).toContain('<caption>Connectors</caption>');
    expect(html).toContain('<td><s>F-4</s></td>');
    expect(html).toContain('<td>F-1</td>');
  });

  it('lets no word of a layout become markup', () => {
    expect(html).not.toContain('<b>');
    expect(html).toContain('&#60;b&#62;&#38;');
  });

  // The characters of the OWASP page on CSV injection.
  it.each(['=1+1', '+1', '-1', '@SUM(A1)'])('lets no spreadsheet take %s for a formula', (mark) => {
    const hostile = {
      ...schedule,
      sections: [{ title: 'x', columns: ['mark'], rows: [{ thing: '', cells: [mark], crossed: false }] }],
    };
    const copied = tableToCopy(hostile, footer);
    expect(copied.plain.split('\r\n')[3]).toBe(`'${mark}`);
    expect(copied.html).toContain(`<td>'${mark}</td>`);
  });
});
