import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { schedulesOf } from '../../../language/domain/documents/schedules/all-schedules.ts';
import {
  type FindLine,
  type ScheduleName,
  type ScheduleTable,
  scheduleNames,
} from '../../../language/domain/documents/schedules/table.ts';
import { type ScheduleForm, writeSchedule } from '../../../language/domain/documents/write-schedule.ts';
import { drawElevation } from '../../../language/domain/drawing/elevation.ts';
import { walkScene } from '../../../language/domain/drawing/scene.ts';
import { slideOf } from '../../../language/domain/place/crew-notes.ts';
import { inches } from '../../../language/domain/units/length.ts';
import { analyse } from '../../support/analyse.ts';
import { MAIN } from '../../support/memory-host.ts';

const example = (name: string): string =>
  readFileSync(join(import.meta.dirname, '..', '..', '..', 'examples', name), 'utf8');

const house = `layout "Test house"
  rules existing-building
house
  storeys 1
  floor-underside 2'-6"
typical
  foundation concrete thick 8" showing 20" top 0" sound strength 2500 psi
  sill size 1-1/2" x 5-1/2" set-back 0" headroom 30"
  cripple height 2'-4-1/2" studs 2x4 spaced 16" first 0" plates double
  panel plywood 15/32" nails 8d edge 4" field 12" nailers 2x4 nails 4 16d vent-holes 2-1/2" top-and-bottom
wall A length 20'-0"
  foundation
  sill A1 to 10'-0" butt
  sill A2 to end
  cripple
  joists into size 1-1/2" x 9-1/4" spaced 16" first 0"
  anchor X1 1/2" at 5'-0" cast-in heavy-rust
  gas-pipe GP at 12'-0" diameter 1"
work on A
  anchor A-1 bolt-half at 0'-10"
  anchor A-2 bolt-half at 3'-0"
  anchor A-3 bolt-half at 6'-0" with washer-3
  anchor A-4 bolt-half at 9'-2" shim 1/8"
  anchor A-5 flat-plate at 10'-10"
  anchor A-6 bolt-half at 14'-0"
  panel A-P1 0" to 4'-0"
    + flat-block 2x4
  panel A-P2 8'-0" to 12'-0" nailers none vent-holes none
  hold-down A-H1 tie-rod at 3'-9" on double-stud
  angles A-A1 angle-8 bays 1, 2, 3
  blocking bays 2, 4
  remove X1 note "cut flush"
  relocate GP
girder GD size 5-1/2" x 7-1/2" from (5', 0) to (5', 10')
  post P1 6x6 at 5'-0" height 6'-0" cap toenails base unknown
  post P2 size 3-5/8" x 3-5/8" at 8'-0" height 6'-0" cap none base none
work on GD
  cap GD-C1 cap-plates on P1 both-sides
  cap GD-C2 cap-plates on P2 both-sides
  base GD-B2 base-angle on P2
record 2026-06-10 by "crew lead"
  installed A-1 as planned embed 4-1/2"
  installed A-2 at 3'-2" because "hit a bar"
  installed A-3 at unknown
  installed A-5 at 10'-10" using bolt-half
  omitted A-6 because "stone"
  installed A-H1 at 3'-10"
  installed A-A1.2 as planned
record 2026-06-11
  tested A-1 torque 40 ft-lb passed
  tested A-2 pull 1200 lb failed slipped
`;

function read(text: string) {
  const analysis = analyse(text);
  const { layout, checked } = analysis;
  const findLine: FindLine = (span) => {
    const place = analysis.locate(span);
    return place && { file: place.file, line: analysis.text.slice(0, place.start).split('\n').length };
  };
  const { tables, basis } = schedulesOf(layout, checked, findLine);
  return {
    layout,
    checked,
    basis,
    tables,
    write: (form: ScheduleForm, only?: readonly ScheduleName[]) =>
      writeSchedule(layout, checked, findLine, { form, only }),
  };
}

const own = read(house);
const table = (of: ScheduleName, from: readonly ScheduleTable[] = own.tables): ScheduleTable => {
  const found = from.find((each) => each.of === of);
  if (!found) throw new Error(`no schedule ${of}`);
  return found;
};
/** The rows of a schedule by the names of their columns, in JSON. */
const rowsOf = (of: ScheduleName, from?: readonly ScheduleTable[]) => {
  const { columns, rows } = table(of, from);
  return rows.map(({ cells }) => Object.fromEntries(columns.map(({ key }, at) => [key, cells[at]?.json])));
};
const rowOf = (of: ScheduleName, mark: string) => rowsOf(of).find((row) => row.mark === mark || row.post === mark);

describe('the connector schedule of work that has begun', () => {
  it('has installed work where it was built, says where it was to be, and measures its gaps from there', () => {
    expect(rowOf('connectors', 'A-2')).toMatchObject({
      station: { nm: inches(38) },
      was: `was 3'-0"`,
      designedStation: { nm: inches(36) },
      reason: 'hit a bar',
      installedOn: '2026-06-10',
      installedBy: 'crew lead',
      state: 'failed test',
    });
    // A-2 failed and does not count: from A-1 the gap runs on to A-3.
    expect(rowOf('connectors', 'A-1')).toMatchObject({ was: '', builtEmbed: '4-1/2"', gapRight: { nm: inches(62) } });
  });

  it('never claims a built place that nobody wrote down', () => {
    expect(rowOf('connectors', 'A-3')).toMatchObject({
      station: { nm: inches(72) },
      was: 'built place not recorded',
      state: 'installed',
    });
  });

  it('names what was put in, and what the design had', () => {
    expect(rowOf('connectors', 'A-5')).toMatchObject({
      connector: 'bolt-half',
      kind: 'through-bolt',
      insteadOf: 'flat-plate',
      drill: 'down',
    });
  });

  it('gives the reason of what was left out, and every test with its value and result', () => {
    expect(rowOf('connectors', 'A-6')).toMatchObject({ state: 'omitted', reason: 'stone', gapLeft: null });
    expect(table('connectors').notes).toContain('Omitted A-6: stone.');
    expect(rowOf('connectors', 'A-1')?.tested).toBe('torque 40 ft-lb passed 2026-06-11');
    expect(rowOf('connectors', 'A-2')?.tested).toBe('pull 1200 lb failed (slipped) 2026-06-11');
  });

  it('has the washer that comes with an anchor', () => {
    expect(rowOf('connectors', 'A-3')).toMatchObject({ with: 'washer-3', washer: '3" x 3"' });
  });

  it('reads marks in any letters, also with the wall before them', () => {
    const spelt = read(house.replace('omitted A-6', 'omitted A.a-6'));
    expect(rowsOf('connectors', spelt.tables).find((row) => row.mark === 'A-6')?.reason).toBe('stone');
  });
});

describe('how far an anchor may slide', () => {
  it('stops at the neighbours, also at one that is set in a way that placement would not offer', () => {
    // F-7 of the example has a shim that its board does not call for.
    const { layout } = analyse({
      [MAIN]: example('maple-designed.sill'),
      'maple-surveyed.sill': example('maple-surveyed.sill'),
    });
    const wall = layout.walls.find(({ name }) => name === 'F');
    const at = (mark: string) => {
      const anchor = wall?.anchors.find(({ name }) => name === mark);
      if (!wall || anchor?.station === undefined) throw new Error(`no anchor ${mark}`);
      return { station: anchor.station, room: slideOf(layout, wall, anchor) };
    };
    const [f6, f7] = [at('F-6'), at('F-7')];
    expect(f6.room).toBeDefined();
    expect(f6.station + (f6.room?.right ?? 0)).toBeLessThan(f7.station);
    expect(f7.room, 'its own room cannot be told').toBeUndefined();
    // F-5 was built 2 in nearer than designed.
    expect(f6.station - (f6.room?.left ?? 0)).toBe(inches(127 + 12));
  });

  it('is said of nothing that is built', () => {
    const rows = JSON.parse(own.write('json', ['connectors'])).rows as readonly Record<string, unknown>[];
    for (const row of rows.filter(({ installedOn }) => installedOn !== '')) expect(row.slideLeft).toBeNull();
  });
});

describe('the panel schedule', () => {
  it('has its place, its board to the 32nd, its nails, and what goes behind it', () => {
    expect(rowOf('panels', 'A-P1')).toMatchObject({
      wall: 'A',
      from: { nm: 0 },
      to: { nm: inches(48) },
      length: { nm: inches(48) },
      height: 'to joists',
      board: 'plywood 15/32"',
      edgeNails: '8d at 4"',
      fieldNails: '8d at 12"',
      nailer: '2x4, 4 16d each',
      ventHoleSize: '2-1/2"',
      flatBlockSize: '2x4',
      state: 'set by hand',
    });
  });

  it('counts one nailer, one flat block and two holes for each of the three spaces between four studs', () => {
    expect(rowOf('panels', 'A-P1')).toMatchObject({ nailers: 3, flatBlocks: 3, ventHoles: 6 });
    expect(rowOf('panels', 'A-P2')).toMatchObject({ nailers: 0, flatBlocks: 0, ventHoles: 0, nailer: 'none' });
  });

  it('counts nothing where nobody recorded the studs, and says what it lacks', () => {
    const unknown = read(house.replace('spaced 16" first 0" plates', 'spaced unknown plates'));
    const rows = rowsOf('panels', unknown.tables);
    expect(rows[0]).toMatchObject({ nailers: null, flatBlocks: null, ventHoles: null });
    expect(table('panels', unknown.tables).notes.join(' ')).toContain('stud spacing');
    expect(unknown.write('text', ['panels'])).toContain('? of 2x4');
  });

  it('counts what the elevation draws', () => {
    const [wall] = own.layout.walls;
    if (!wall) throw new Error('no wall');
    const scene = drawElevation({ layout: own.layout, checked: own.checked, basis: own.basis, wall });
    const drawn = { nailer: 0, block: 0, hole: 0 };
    // Nails are paths; the only circles of a panel are its holes.
    for (const { node, within } of walkScene(scene.nodes)) {
      if (within.some((group) => group.role === 'legend')) continue;
      if (node.kind === 'circle' && within.some((group) => group.symbol === 'panel')) drawn.hole += 1;
      if (node.kind !== 'group') continue;
      if (node.symbol === 'nailer') drawn.nailer += 1;
      if (node.symbol === 'flat-block') drawn.block += 1;
    }
    const sum = (key: string): number => rowsOf('panels').reduce((total, row) => total + Number(row[key]), 0);
    expect(drawn.nailer).toBe(sum('nailers'));
    expect(drawn.block).toBe(sum('flatBlocks'));
    expect(drawn.hole).toBe(sum('ventHoles'));
    expect(drawn).toEqual({ nailer: 3, block: 3, hole: 6 });
  });
});

describe('the other schedules', () => {
  it('have the hold-down where it was built', () => {
    expect(rowOf('ties', 'A-H1')).toMatchObject({
      kind: 'hold-down',
      station: { nm: inches(46) },
      was: `was 3'-9"`,
      connector: 'tie-rod',
      member: 'double stud',
      state: 'installed',
    });
  });

  it('have each post with what was found, what is new, and whether the widths clash', () => {
    expect(rowOf('posts', 'P1')).toMatchObject({
      girder: 'GD',
      station: { nm: inches(60) },
      size: '6x6',
      height: `6'-0"`,
      capFound: 'toenails',
      baseFound: 'unknown',
      capNew: [{ mark: 'GD-C1', fits: 'yes' }],
      baseNew: [],
    });
    // 3-5/8 in under 5-1/2 in and no shim: the check says so, and so does the schedule.
    expect(own.checked.findings.some(({ rule }) => rule === 'post/cap-size-clash')).toBe(true);
    expect(rowOf('posts', 'P2')).toMatchObject({
      capNew: [{ mark: 'GD-C2', fits: 'clash' }],
      baseNew: [{ mark: 'GD-B2', fits: 'yes' }],
    });
  });

  it('never call a fit known where a width is not', () => {
    const unknown = read(house.replace('post P1 6x6', 'post P1'));
    expect(rowsOf('posts', unknown.tables)[0]).toMatchObject({ capNew: [{ fits: 'post width not known' }] });
  });

  it('have every framing angle by its own mark, in the middle of its bay', () => {
    const rows = rowsOf('angles');
    expect(rows.map(({ mark }) => mark)).toEqual(['A-A1.1', 'A-A1.2', 'A-A1.3']);
    expect(rows.map(({ bay }) => bay)).toEqual([1, 2, 3]);
    expect(rows[0]).toMatchObject({
      station: { nm: inches(8) },
      fasteners: 'joist: 6 of 8d x 1-1/2"; sill: 6 of 8d x 1-1/2"',
      state: 'set by hand',
    });
    expect(rows[1]).toMatchObject({ state: 'installed', installedOn: '2026-06-10' });
  });

  it('keep a run of angles whose places nobody can tell', () => {
    const unknown = read(house.replace('spaced 16" first 0"\n  anchor X1', 'spaced unknown\n  anchor X1'));
    expect(rowsOf('angles', unknown.tables)).toMatchObject([{ mark: 'A-A1', station: null }]);
    expect(table('angles', unknown.tables).notes.join(' ')).toContain('spacing of the joists of wall A');
    expect(rowsOf('blocks', unknown.tables)).toMatchObject([{ what: 'blocks', bay: '2, 4', from: null }]);
  });

  it('have a block for each bay, as long as the clear space between its joists', () => {
    // 16 in on centre less one joist of 1-1/2 in.
    expect(rowsOf('blocks')).toMatchObject([
      { bay: '2', from: { nm: inches(16.75) }, to: { nm: inches(31.25) }, length: { nm: inches(14.5) } },
      { bay: '4', length: { nm: inches(14.5) } },
    ]);
  });

  it('have what is done to what was found, and whose work it is', () => {
    expect(rowsOf('remedies')).toMatchObject([
      { wall: 'A', work: 'remove', on: 'X1', from: { nm: inches(60) }, notes: 'cut flush' },
      { wall: 'A', work: 'relocate', on: 'GP', found: 'gas pipe GP', by: 'licensed trade or utility' },
    ]);
    expect(rowsOf('remedies')[0]?.found).toBe('1/2" cast-in anchor, heavy rust, credit none');
    const left = read(`${house}work on B\n  no work because "left as it is"\nwall B length 4'-0"\n`);
    expect(rowsOf('remedies', left.tables).at(-1)).toMatchObject({ work: 'no work', notes: 'left as it is' });
  });

  it('have the record line by line', () => {
    expect(rowsOf('record').map(({ what, marks }) => [what, marks])).toEqual([
      ['installed', ['A-1']],
      ['installed', ['A-2']],
      ['installed', ['A-3']],
      ['installed', ['A-5']],
      ['omitted', ['A-6']],
      ['installed', ['A-H1']],
      ['installed', ['A-A1.2']],
      ['tested', ['A-1']],
      ['tested', ['A-2']],
    ]);
  });
});

describe('the list of connectors to buy', () => {
  const stock = (from?: readonly ScheduleTable[]) =>
    Object.fromEntries(rowsOf('stock', from).map(({ connector, count, installed }) => [connector, [count, installed]]));

  it('counts what the design takes without what was left out, and what is built', () => {
    expect(stock()).toEqual({
      'angle-8': [3, 1],
      'base-angle': [1, 0],
      'bolt-half': [5, 4],
      'cap-plates': [2, 0],
      'tie-rod': [1, 1],
      'washer-3': [1, 1],
    });
    expect(table('stock').notes[0]).toBe(
      'By kind: framing angle 3, hold-down 1, plate washer 1, post base 1, post cap 2, through-bolt 5.',
    );
  });

  it('has prices from low to high where a list has them, adds them up to the cent and says what has none', () => {
    const priced = read(
      `${house}prices demo dated 2026-04-01\n  demo\n  price bolt-half $4.20 to $6.50 each\n  price angle-8 $3.80 to $5.20 each\n`,
    );
    const rows = rowsOf('stock', priced.tables);
    expect(rows.find(({ connector }) => connector === 'bolt-half')).toMatchObject({
      eachLow: { currency: '$', cents: 420 },
      allLow: { currency: '$', cents: 2100 },
      allHigh: { currency: '$', cents: 3250 },
    });
    expect(table('stock', priced.tables).notes.join('\n')).toContain(
      '$32.40 to $48.10 for these connectors; 4 kinds without a price are not in it. Prices: demo of 2026-04-01',
    );
  });

  it('gives an invented price to no real product', () => {
    const real = read(
      `${house.replaceAll('bolt-half', 'own-rod')}connector own-rod through-bolt\n  report "ER-0000 (invented)"\n  into concrete 1 adhesive-rod size 1/2" x 8"\nprices demo\n  demo\n  price own-rod $4.20 to $6.50 each\n`,
    );
    expect(rowsOf('stock', real.tables).find(({ connector }) => connector === 'own-rod')?.eachLow).toBeNull();
  });
});

describe('every form of every schedule', () => {
  it('carries the basis', () => {
    for (const of of scheduleNames) {
      for (const form of ['text', 'csv', 'json'] as const) {
        const text = own.write(form, [of]).replaceAll('""', '"').replaceAll('\\"', '"');
        for (const line of own.basis.lines) expect(text, `${of} ${form}`).toContain(line);
      }
    }
  });

  it('in text is at most 132 columns wide', () => {
    for (const line of own.write('text').split('\n')) expect(line.length, line).toBeLessThanOrEqual(132);
  });

  it('says of a house without work which schedules have nothing in them', () => {
    const text = read('layout "Empty"\n').write('text');
    expect(text).toContain('0 connectors.');
    expect(text).toContain('Nothing in: panel schedule, hold-down and strap schedule, post schedule');
    expect(read('layout "Empty"\n').write('text', ['panels'])).toContain('0 panels');
  });

  it('has every schedule in JSON, connectors under `rows` as ever', () => {
    const document = JSON.parse(own.write('json'));
    expect(Object.keys(document)).toEqual([
      'schemaVersion',
      'house',
      'basis',
      'rows',
      ...scheduleNames.filter((name) => name !== 'connectors'),
    ]);
    expect(Object.keys(JSON.parse(own.write('json', ['posts'])))).toEqual(['schemaVersion', 'house', 'basis', 'posts']);
  });

  // RFC 4180, section 2: each record has the same number of fields.
  it('stands in one CSV one below another, each record as wide as the widest', () => {
    const csv = own.write('csv', scheduleNames);
    const widths = new Set(csv.trimEnd().split('\r\n').map(fieldsIn));
    expect(widths.size).toBe(1);
    for (const { title } of own.tables) expect(csv).toMatch(new RegExp(`^${title},+\r$`, 'm'));
  });

  it('has no column twice under one name', () => {
    for (const { of, columns } of own.tables) {
      const csv = columns.filter((column) => column.csv).map(({ name }) => name);
      const json = columns.filter((column) => column.json).map(({ key }) => key);
      expect(new Set(csv).size, of).toBe(csv.length);
      expect(new Set(json).size, of).toBe(json.length);
    }
  });
});

/** Fields of a record without line breaks inside its quotes. */
function fieldsIn(record: string): number {
  let fields = 1;
  let isQuoted = false;
  for (const character of record) {
    if (character === '"') isQuoted = !isQuoted;
    if (character === ',' && !isQuoted) fields += 1;
  }
  return fields;
}
