import { describe, expect, it } from 'vitest';
import { type Schedule, scheduleOf } from '../../../language/domain/documents/schedule.ts';
import type { FindLine } from '../../../language/domain/documents/schedules/table.ts';
import type { ScheduleForm } from '../../../language/domain/documents/write-schedule.ts';
import { writeSchedule } from '../../../language/domain/documents/write-schedule.ts';
import { inches } from '../../../language/domain/units/length.ts';
import { analyse } from '../../support/analyse.ts';

const house = `layout "Test house"
  rules existing-building
house
  storeys 1
typical
  foundation concrete thick 8" showing 20" top 0" sound
  sill size 1-1/2" x 5-1/2" set-back 0" headroom 30"
wall A length 20'-0"
  foundation
  sill A1 to 10'-0" half-lap 4"
  sill A2 9'-8" to end
  anchor X1 1/2" at 5'-0" cast-in sound credit full
  anchor X2 1/2" at 7'-0" cast-in sound
wall B length 10'-0"
  foundation
  sill B1
work on B
  anchor B-2 bolt-half at 9'-2" right-angle-drill proposed
  anchor B-1 flat-plate at 0'-10" shim 1/8" embed 4-1/2"
work on A
  anchor A-9 nothing-like-it at 19'-2"
  anchor A-1 bolt-half at 0'-10"
  anchor A-2 bolt-half at 9'-10"
  anchor A-3 bolt-half at unknown
  anchor A-4 bolt-half at 15'-0"
  anchor A-5 bolt-half at 15'-0"
girder GD size 5-1/2" x 7-1/2" from (5', 0) to (5', 10')
  post P1 6x6 at 5'-0" height 6'-0"
work on GD
  cap GD-C1 cap-plates on P1 both-sides
record 2026-06-10
  installed A-1 as planned
  omitted A-5 because "stone"
`;

function scheduleOfText(text: string): { schedule: Schedule; write: (form: ScheduleForm) => string } {
  const analysis = analyse(text);
  const { layout, checked } = analysis;
  const findLine: FindLine = (span) => {
    const place = analysis.locate(span);
    return place && { file: place.file, line: analysis.text.slice(0, place.start).split('\n').length };
  };
  return {
    schedule: scheduleOf(layout, checked),
    write: (form) => writeSchedule(layout, checked, findLine, { form, only: ['connectors'] }),
  };
}
const rowsOf = (text: string) => scheduleOfText(text).schedule.rows;
const row = (mark: string, text = house) => rowsOf(text).find((each) => each.mark === mark);

describe('the connector schedule', () => {
  it('goes along the walls as they are walked, then the girders; what has no place stands last and is not dropped', () => {
    expect(rowsOf(house).map(({ mark }) => mark)).toEqual([
      'A-1',
      'A-2',
      'A-4',
      'A-5',
      'A-9',
      'B-1',
      'B-2',
      'GD-C1',
      'A-3',
    ]);
  });

  it('names the board, and both where they lap', () => {
    expect(row('A-1')).toMatchObject({ wall: 'A', piece: 'A1' });
    expect(row('A-2')).toMatchObject({ piece: 'A1, A2' });
    expect(row('A-3')).toMatchObject({ wall: 'A', piece: '', station: undefined });
    expect(row('GD-C1')).toMatchObject({ wall: 'GD', piece: 'P1', kind: 'post cap', shim: 'both sides' });
  });

  it('measures gaps on one board, to what counts: old anchors with full credit do, omitted ones do not', () => {
    expect(row('A-1')).toMatchObject({
      gapLeft: { length: inches(10), to: 'end' },
      gapRight: { length: inches(50), to: 'anchor' },
    });
    expect(row('A-2')).toMatchObject({
      gapLeft: { length: inches(2), to: 'end' },
      gapRight: { length: inches(2), to: 'end' },
    });
    expect(row('A-4')).toMatchObject({
      gapLeft: { length: inches(62), to: 'anchor' },
      gapRight: { length: inches(50), to: 'anchor' },
    });
    expect(row('A-5')).toMatchObject({ state: 'omitted', gapLeft: undefined, gapRight: undefined });
  });

  it('says what it is, how it is drilled and who placed it', () => {
    expect(row('B-1')).toMatchObject({
      kind: 'side plate',
      size: '2 of 1/2" x 4-1/2"',
      hole: '1/2" x 4-3/4"',
      embed: '4-1/2"',
      shim: '1/8"',
      drill: 'sideways',
      state: 'set by hand',
      valuesFrom: 'demo value',
    });
    expect(row('B-2')).toMatchObject({
      kind: 'through-bolt',
      washer: '3" x 3"',
      drill: 'right-angle',
      state: 'proposed',
    });
    expect(row('A-1')).toMatchObject({ drill: 'down', state: 'installed' });
  });

  it('keeps a connector that does not exist, by the name that was written', () => {
    expect(row('A-9')).toMatchObject({
      kind: 'not found',
      connector: 'nothing-like-it',
      size: '',
      valuesFrom: 'no connector',
    });
  });

  it('counts the findings that name it', () => {
    const { checked } = analyse(house);
    const named = checked.findings.filter((finding) => finding.thing?.endsWith('anchor:A-2')).length;
    expect(row('A-2')?.findings).toBe(named);
  });

  it('gives the report of a real product in place of the demo mark', () => {
    const own = `${house}connector nothing-like-it through-bolt\n  report "ER-0000 (invented)"\n  into concrete 1 adhesive-rod size 5/8" x 10"\n`;
    expect(row('A-9', own)).toMatchObject({
      kind: 'through-bolt',
      valuesFrom: 'ER-0000 (invented)',
      size: '5/8" x 10"',
    });
  });
});

describe('the schedule as text', () => {
  const { schedule, write } = scheduleOfText(house);
  const text = write('text');

  it('is at most 132 columns wide and has every mark once', () => {
    for (const line of text.split('\n')) expect(line.length).toBeLessThanOrEqual(132);
    for (const { mark } of schedule.rows) expect(text.match(new RegExp(`^${mark} `, 'gm'))).toHaveLength(1);
  });

  it('says how many have no place, that values are invented, and its basis', () => {
    expect(text).toContain('9 connectors, 1 of them without a place (listed last).');
    expect(text).toContain('DEMO VALUES - not for permit, purchase or building');
    for (const line of schedule.basis.lines) expect(text).toContain(line);
  });

  it('stays within its width in a house of long names and odd scripts', () => {
    const odd = house
      .replaceAll('A-1', `"${'北'.repeat(60)}"`)
      .replaceAll('B1', 'süd-very-long-board-name-of-somebody');
    for (const line of scheduleOfText(odd).write('text').split('\n')) expect([...line].length).toBeLessThanOrEqual(132);
  });

  it('has stations in millimetres where the file is metric', () => {
    const metric = scheduleOfText(house.replace('rules existing', 'units metric\n  rules existing'));
    expect(metric.write('text')).toMatch(/A-1 .* 254 mm +254 /);
  });

  it('can be written of a layout without connectors', () => {
    const none = scheduleOfText('layout "Empty"\n');
    expect(none.write('text')).toContain('0 connectors.');
  });
});

describe('the schedule as CSV', () => {
  const { schedule, write } = scheduleOfText(house);
  const csv = write('csv');

  // RFC 4180, section 2: records end with CR LF, quotes inside a quoted field are doubled.
  it('follows RFC 4180', () => {
    expect(csv.endsWith('\r\n')).toBe(true);
    expect(csv.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/);
    const [head, first] = csv.split('\r\n');
    const width = head?.split(',').length ?? 0;
    expect(first).toBe(
      `A-1,A,A1,"0'-10""",254,through-bolt,bolt-half,"1/2"" x 8-1/2""",,"5/8"" x 4""","10"" end","4'-2""","3"" x 3""",,down,installed,demo value,main.sill,22,${schedule.rows[0]?.findings},,,,,,"0'-10""",254,,2026-06-10,,,`,
    );
    // Twenty columns that other programs read, and twelve that came later.
    expect(width).toBe(32);
  });

  it('ends in its basis, a line a record', () => {
    const records = csv.trimEnd().split('\r\n');
    const after = records.slice(1 + schedule.rows.length);
    expect(after[0]).toMatch(/^,+$/);
    expect(after[1]).toMatch(/^DEMO VALUES,+$/);
    for (const line of schedule.basis.lines) expect(csv).toContain(line.replaceAll('"', '""'));
  });

  // The characters of the OWASP page on CSV injection.
  it.each(['=1+1', '+1', '-1', '@SUM(A1)', '\u{FF1D}1'])('lets no spreadsheet take %s for a formula', (name) => {
    const hostile = scheduleOfText(house.replaceAll('A-1', `"${name}"`));
    const record = hostile.write('csv').split('\r\n')[1];
    expect(record?.startsWith(`'${name},`)).toBe(true);
  });
});

describe('the schedule as JSON', () => {
  it('has exact lengths and the fields of docs/json.md', () => {
    const { schedule, write } = scheduleOfText(house);
    const document = JSON.parse(write('json'));
    expect(Object.keys(document)).toEqual(['schemaVersion', 'house', 'basis', 'rows']);
    expect(document.rows[0]).toEqual({
      mark: 'A-1',
      wall: 'A',
      piece: 'A1',
      station: { nm: 254_000_000, text: `0'-10"` },
      kind: 'through-bolt',
      connector: 'bolt-half',
      size: '1/2" x 8-1/2"',
      embed: '',
      hole: '5/8" x 4"',
      gapLeft: { nm: 254_000_000, text: `0'-10"`, to: 'end' },
      gapRight: { nm: 1_270_000_000, text: `4'-2"`, to: 'anchor' },
      washer: '3" x 3"',
      shim: '',
      drill: 'down',
      state: 'installed',
      valuesFrom: 'demo value',
      file: 'main.sill',
      line: 22,
      findings: schedule.rows[0]?.findings,
      was: '',
      insteadOf: '',
      with: '',
      slideLeft: null,
      slideRight: null,
      designedStation: { nm: 254_000_000, text: `0'-10"` },
      reason: '',
      installedOn: '2026-06-10',
      installedBy: '',
      builtEmbed: '',
      tested: '',
    });
    expect(document.rows.at(-1)).toMatchObject({ mark: 'A-3', station: null });
    expect(document.basis).toMatchObject({ demo: true, because: schedule.basis.because ?? null });
  });
});
