import { describe, expect, it } from 'vitest';
import { type Basis, basisOf } from '../../../language/domain/documents/basis.ts';
import { fingerprintOf, printFingerprint } from '../../../language/domain/documents/fingerprint.ts';
import { scheduleOf } from '../../../language/domain/documents/schedule.ts';
import { textBox } from '../../../language/domain/drawing/lettering.ts';
import { type Scene, walkScene } from '../../../language/domain/drawing/scene.ts';
import { boundsOf } from '../../../language/domain/drawing/scene-bounds.ts';
import { cutInParts } from '../../../language/domain/drawing/sheet/cut-places.ts';
import {
  defaultSheetSize,
  frameOf,
  type SheetSizeName,
  sheetSizeNamed,
  sheetSizeNames,
  sheetSizes,
} from '../../../language/domain/drawing/sheet/sheet-sizes.ts';
import { type Sheet, sheetsOf } from '../../../language/domain/drawing/sheet/sheets-of.ts';
import { sceneToSvg } from '../../../language/domain/drawing/svg.ts';
import type { Layout } from '../../../language/domain/model/layout.ts';
import { checkLayout } from '../../../language/domain/rules/check-layout.ts';
import type { Checked } from '../../../language/domain/rules/checked.ts';
import { formatStation } from '../../../language/domain/units/format-length.ts';
import { feet, inMillimetres, type Length } from '../../../language/domain/units/length.ts';
import { createProjectReader } from '../../../language/syntax/project.ts';
import { manyHouses, patience } from '../../support/houses/many-houses.ts';
import { exampleHost, readLayout } from '../../support/read-layout.ts';
import { groupsOf, read, textsOf, wallOf, wordsOf } from './drawn.ts';
import { longHouse } from './long-house.ts';
import { faultsOfSheet, legendFaults, marksOn, titleBlockOf } from './sheet-faults.ts';

const [houseWithoutWalls = ''] = longHouse.split('wall A');
const nothing: Checked = { findings: [], notChecked: [] };

interface Printed {
  readonly layout: Layout;
  readonly checked: Checked;
  readonly basis: Basis;
  readonly sheets: readonly Sheet[];
}
const made = new Map<string, Printed>();

/** Each set once: drawing it is what these tests cost. */
function printed(key: string, layoutOf: () => Layout, size?: SheetSizeName): Printed {
  const name = `${key} ${size ?? ''}`;
  const before = made.get(name);
  if (before) return before;
  const known = [...made].find(([each]) => each.startsWith(`${key} `))?.[1];
  const layout = known?.layout ?? layoutOf();
  const checked = known?.checked ?? checkLayout(layout);
  const basis = known?.basis ?? basisOf(layout, checked);
  const sheets = sheetsOf({ layout, checked, basis, ...(size ? { size } : {}) });
  const set = { layout, checked, basis, sheets };
  made.set(name, set);
  return set;
}
const example = (file: string, size?: SheetSizeName): Printed =>
  printed(file, () => createProjectReader(exampleHost).read(file).layout, size);
const maple = (size?: SheetSizeName): Printed => example('maple-designed.sill', size);
const long = (size?: SheetSizeName): Printed => printed('long', () => read(longHouse), size);

const sheetNamed = ({ sheets }: Printed, name: string): Scene => {
  const sheet = sheets.find((each) => each.name === name);
  if (!sheet) throw new Error(`no sheet ${name} among ${sheets.map((each) => each.name).join(', ')}`);
  return sheet.scene;
};
const faultsOf = ({ sheets, basis }: Printed): readonly string[] => [
  ...sheets.flatMap((sheet) => faultsOfSheet(sheet, basis)),
  ...legendFaults(sheets),
];

const isLong = Boolean(process.env.SILLWRIGHT_LONG);
const exampleFiles = ['maple-designed.sill', 'maple-surveyed.sill', 'first-wall.sill'] as const;

/** Millimetres of an inch on paper at one to so many. */
const inchAt = (ratio: number): number => 25.4 / ratio;

describe('the sheets of a house', () => {
  it.each(
    isLong
      ? exampleFiles.flatMap((file) => sheetSizeNames.map((size) => [file, size] as const))
      : ([
          ['maple-designed.sill', '24x18'],
          ['maple-designed.sill', '17x11'],
          ['maple-designed.sill', 'A2'],
          ['maple-designed.sill', 'A3'],
          ['maple-surveyed.sill', '36x24'],
          ['first-wall.sill', 'A1'],
          ['first-wall.sill', '17x11'],
        ] as const),
  )(
    'of %s on %s keep words off one another and off heavy lines, stay in their zones, explain their signs, and say their basis',
    (file, size) => {
      const set = example(file, size);
      expect(set.sheets.length).toBeGreaterThan(set.layout.walls.length + set.layout.girders.length);
      expect(faultsOf(set)).toEqual([]);
    },
  );

  it(
    'of random houses do so on every paper in turn',
    () => {
      const faults: string[] = [];
      let count = 0;
      let seed = 0;
      for (const { text } of manyHouses(6, 2000)) {
        const { layout } = readLayout(text);
        const checked = checkLayout(layout);
        const basis = basisOf(layout, checked);
        const size = sheetSizeNames[seed % sheetSizeNames.length] ?? '24x18';
        const sheets = sheetsOf({ layout, checked, basis, size });
        count += sheets.length;
        // How names find room in a plan has tests of its own.
        const looked = sheets.filter(({ of }) => of !== 'plan');
        faults.push(
          ...[...looked.flatMap((sheet) => faultsOfSheet(sheet, basis)), ...legendFaults(sheets)].map(
            (fault) => `house ${seed} on ${size}: ${fault}`,
          ),
        );
        seed += 1;
      }
      expect(faults.slice(0, 20)).toEqual([]);
      expect(count).toBeGreaterThan(6 * 5);
    },
    patience,
  );

  it('are as large as their paper: US sizes in inches, ISO 216 sizes in mm', () => {
    // ISO 216: A1 594 x 841, A2 420 x 594, A3 297 x 420 (from memory).
    const inches = { '24x18': [24, 18], '36x24': [36, 24], '17x11': [17, 11] } as const;
    const millimetres = { A1: [841, 594], A2: [594, 420], A3: [420, 297] } as const;
    for (const [name, [wide, tall]] of Object.entries(inches)) {
      const { width, height } = sheetSizes[name as SheetSizeName];
      expect([width / 25.4, height / 25.4]).toEqual([expect.closeTo(wide, 9), expect.closeTo(tall, 9)]);
    }
    for (const [name, size] of Object.entries(millimetres)) {
      const { width, height } = sheetSizes[name as SheetSizeName];
      expect([width, height]).toEqual(size);
    }
    for (const { scene } of maple('A2').sheets) expect([scene.width, scene.height]).toEqual([594, 420]);
    expect(sceneToSvg(sheetNamed(maple('A2'), 'cover'), { colours: 'paper' })).toContain(
      'width="594mm" height="420mm"',
    );
  });

  it('take 24 x 18 in unless told, and A2 for a metric layout; names of paper are read in any letters', () => {
    expect(defaultSheetSize('feet-inches')).toBe('24x18');
    expect(defaultSheetSize('metric')).toBe('A2');
    expect(sheetSizeNamed(' a2 ')).toBe('A2');
    expect(sheetSizeNamed('36X24')).toBe('36x24');
    expect(sheetSizeNamed('A4')).toBeUndefined();
    expect(long().sheets[0]?.scene.width).toBeCloseTo(609.6, 9);
  });

  it('have a frame 20 mm from the left edge and 10 mm from the others (ISO 5457, from memory), and a title block of 131.6 x 104 mm', () => {
    const scene = sheetNamed(maple('A2'), 'wall-F-part-1');
    expect(frameOf(scene)).toEqual({ x: 20, y: 10, width: 564, height: 400 });
    const rects = [...walkScene(scene.nodes)].flatMap(({ node }) => (node.kind === 'rect' ? [node] : []));
    const heavy = rects.filter(({ stroke, fill }) => stroke?.pen === 'P1' && fill === undefined);
    expect(heavy.map(({ x, y, width, height }) => ({ x, y, width, height }))).toEqual(
      expect.arrayContaining([frameOf(scene), titleBlockOf(scene)]),
    );
  });

  it('are numbered through, cover first, then the plan, the walls in order and the girders', () => {
    const { sheets, layout } = maple('17x11');
    sheets.forEach(({ scene }, index) => {
      expect(wordsOf(scene)).toContain(`R${index + 1} ${index + 1} of ${sheets.length}`);
    });
    const things = [...new Set(sheets.map(({ of }) => of))];
    expect(things).toEqual([
      'cover',
      'plan',
      ...layout.walls.map(({ id }) => id),
      ...layout.girders.map(({ id }) => id),
    ]);
    expect(new Set(sheets.map(({ name }) => name)).size).toBe(sheets.length);
  });

  it('give the same bytes for the same layout', () => {
    const { layout, checked, basis, sheets } = example('first-wall.sill', '17x11');
    const again = sheetsOf({ layout, checked, basis, size: '17x11' });
    const bytes = (set: readonly Sheet[]): readonly string[] =>
      set.map(({ scene }) => sceneToSvg(scene, { colours: 'paper' }));
    expect(bytes(again)).toEqual(bytes(sheets));
  });

  it('show every finding of a wall with one number in its drawing and in its list', () => {
    const set = maple('24x18');
    for (const wall of set.layout.walls) {
      const members = set.sheets.filter(({ of }) => of === wall.id).map(({ scene }) => scene);
      const found = set.checked.findings.filter((finding) => finding.wall === wall.name).length;
      const listed = members.flatMap((scene) =>
        groupsOf(scene, ({ role }) => role === 'finding').filter(({ within }) =>
          within.some(({ role }) => role === 'list'),
        ),
      );
      const drawn = members.flatMap((scene) =>
        groupsOf(scene, ({ role }) => role === 'finding').filter(({ within }) =>
          within.some(({ role }) => role === 'wall'),
        ),
      );
      const numbers = (groups: typeof listed): readonly string[] =>
        groups.map(({ node }) => /^finding (\d+),/.exec(node.name ?? '')?.[1] ?? '');
      expect(numbers(listed)).toEqual(Array.from({ length: found }, (_, index) => String(index + 1)));
      for (const number of numbers(drawn)) expect(numbers(listed)).toContain(number);
    }
  });
});

describe('the title block', () => {
  it('has every field: house, address, owner, jurisdiction, permit, code, dates, issue, fingerprint, scale, units, face', () => {
    const { layout, basis } = maple('24x18');
    const scene = sheetNamed(maple('24x18'), 'wall-F');
    const block = titleBlockOf(scene);
    const words = textsOf(scene)
      .filter(({ node }) => textBox(node).x >= block.x && textBox(node).y >= block.y)
      .map(({ node }) => node.text)
      .join(' ');
    for (const text of [
      'Wall F west, inside elevation',
      'Maple Demo House',
      '1 Example Lane (invented)',
      'Demo Owner',
      'Demo City, unknown',
      basis.rules,
      '2026-04-18, crew lead',
      '2, 2026-06-03',
      'review',
      `${printFingerprint(fingerprintOf(layout))}, not that of issue 2 (51d0-c2e4)`,
      `1/2" = 1'-0"`,
      'feet-inches',
      'outside',
      'Stamp',
      'prescriptive - not engineered',
      'Retrofit lowers risk; it does not prevent damage.',
    ])
      expect(words).toContain(text);
  });

  it('says "not yet given" where nobody gave anything, and leaves the stamp empty', () => {
    const scene = sheetNamed(long('24x18'), 'wall-B-part-1');
    const words = wordsOf(scene);
    for (const field of ['Site address', 'Owner', 'Jurisdiction, permit no.', 'Surveyed', 'Prepared by', 'Licence'])
      expect(words).toContain(`${field} not yet given`);
    const block = titleBlockOf(scene);
    const stamp = { x: block.x + 95, y: block.y + 74, width: 35, height: 14 };
    const inside = textsOf(scene).filter(({ node }) => {
      const box = textBox(node);
      return box.x > stamp.x && box.x < stamp.x + stamp.width && box.y > stamp.y && box.y < stamp.y + stamp.height;
    });
    expect(inside.map(({ node }) => node.text)).toEqual([]);
  });

  it('loses nothing of a text that is too long for its field, and no word of a finding that fills more than a sheet', () => {
    const owner = Array.from({ length: 90 }, (_, index) => `owner${index}`).join(' ');
    const reason = Array.from({ length: 1500 }, (_, index) => `word${index}`).join(' ');
    const layout = read(
      `${houseWithoutWalls.replace('  units ', `  owner "${owner}"\n  units `)}wall B "east" faces east from (0", 10'-0") length 10'-0"\n  sill B1 to end corner\n`,
    );
    const checked = checkLayout(layout);
    const [first, ...rest] = checked.findings;
    if (!first) throw new Error('no finding');
    const much: Checked = { ...checked, findings: [{ ...first, wall: 'B', message: reason }, ...rest] };
    const basis = basisOf(layout, much);
    const sheets = sheetsOf({ layout, checked: much, basis, size: '17x11' });
    expect(sheets.flatMap((sheet) => faultsOfSheet(sheet, basis))).toEqual([]);
    const cover = sheets
      .filter(({ of }) => of === 'cover')
      .map(({ scene }) => wordsOf(scene))
      .join(' ');
    expect(cover).toContain('Title block in full');
    expect(cover).toContain('owner89');
    const wall = sheets
      .filter(({ of }) => of === 'wall:B')
      .map(({ scene }) => wordsOf(scene))
      .join(' ');
    for (const index of [0, 700, 1499]) expect(wall).toContain(`word${index} `);
    expect(wall).toContain('Findings on wall B, continued');
  });
});

describe('a set that an engineer must see', () => {
  it('says so between heavy lines on every sheet of it, and what is not demo has no watermark', () => {
    const { layout, checked, basis } = example('first-wall.sill', '17x11');
    const stopped: Basis = {
      ...basis,
      label: "for engineer's review",
      because: '1 stop: screening/x',
      stopped: true,
      demo: false,
    };
    const sheets = sheetsOf({ layout, checked, basis: stopped, size: '24x18' });
    expect(sheets.flatMap((sheet) => faultsOfSheet(sheet, stopped))).toEqual([]);
    for (const { scene } of sheets) expect(wordsOf(scene)).toContain("FOR ENGINEER'S REVIEW");
  });
});

describe('a wall that is too long for its paper', () => {
  const set = long('24x18');
  const parts = set.sheets.filter(({ of, name }) => of === 'wall:A' && !name.includes('continued'));
  const wall = wallOf(set.layout, 'A');

  it('is cut at the ends of its boards, and neighbouring parts share two feet', () => {
    expect(parts.map(({ name }) => name)).toEqual(['wall-A-part-1', 'wall-A-part-2', 'wall-A-part-3']);
    const told = parts.map(({ scene }) => /This is part \d of 3: (\S+) to (\S+)\. /.exec(wordsOf(scene))?.slice(1));
    // Boards end at 16, 32, 48 and 64 ft.
    expect(told).toEqual([
      [`0'-0"`, `33'-0"`],
      [`31'-0"`, `65'-0"`],
      [`63'-0"`, `84'-0"`],
    ]);
  });

  it('is drawn at its usual scale: every mark and every tick of the tape where its station is, to a hundredth of a millimetre', () => {
    for (const { scene } of parts) {
      const marks = marksOn(scene);
      const first = marks[0];
      const stationOf = (thing: string): number => (wall.anchors.find(({ id }) => id === thing)?.station ?? 0) / 25.4e6;
      if (!first) throw new Error('no mark');
      const zero = first.x - stationOf(first.thing) * inchAt(24);
      for (const { thing, x } of marks) expect(Math.abs(x - (zero + stationOf(thing) * inchAt(24)))).toBeLessThan(0.01);
      const ticks = groupsOf(scene, ({ role }) => role === 'tape').flatMap(({ node }) =>
        node.nodes.flatMap((each) => (each.kind === 'path' ? each.steps : [])),
      );
      expect(ticks.length).toBeGreaterThan(500);
      for (const step of ticks) {
        if (step.to === 'close') continue;
        const station = (step.at[0] - zero) / inchAt(24);
        expect(Math.abs(station - Math.round(station)) * inchAt(24)).toBeLessThan(0.01);
      }
    }
  });

  it('has every mark once on each part that it stands on, at the station of the schedule; twice only where parts overlap', () => {
    const seen = new Map<string, number>();
    const schedule = new Map(scheduleOf(set.layout, set.checked).rows.map(({ thing, station }) => [thing, station]));
    for (const { scene } of parts) {
      const marks = marksOn(scene);
      expect(new Set(marks.map(({ thing }) => thing)).size).toBe(marks.length);
      for (const { thing, station } of marks) {
        expect(station).toBe(formatStation(schedule.get(thing) ?? (0 as Length), 'feet-inches'));
        seen.set(thing, (seen.get(thing) ?? 0) + 1);
        // Its row of the schedule stands on the same sheet.
        const rows = groupsOf(scene, (group) => group.thing === thing).filter(
          ({ node, within }) =>
            within.some(({ role }) => role === 'list') &&
            node.nodes.some((each) => each.kind === 'text' && each.text === station),
        );
        expect(rows.length).toBe(1);
      }
    }
    expect(seen.size).toBe(wall.anchors.length);
    const shared = [...seen].filter(([, count]) => count > 1).map(([thing]) => thing);
    // Marks stand at 1'-6" and every three feet on: 31'-6" and 64'-6" lie in an overlap.
    expect(shared).toEqual(['A/anchor:A-11', 'A/anchor:A-22']);
  });

  it('says on each part where a hazard across the cut forbids holes', () => {
    const warned = parts
      .filter(({ scene }) => wordsOf(scene).includes(`NO HOLES 29'-6" to 34'-6"`))
      .map(({ name }) => name);
    expect(warned).toEqual(['wall-A-part-1', 'wall-A-part-2']);
  });

  it('draws nothing of itself beyond the cut', () => {
    const [first] = parts;
    if (!first) throw new Error('no part');
    const tape = boundsOf(
      groupsOf(first.scene, ({ role }) => role === 'tape')
        .slice(0, 1)
        .map(({ node }) => node),
    );
    const right = (tape?.x ?? 0) + (tape?.width ?? 0);
    expect(tape?.width).toBeCloseTo(33 * 12 * inchAt(24), 1);
    const things = groupsOf(first.scene, ({ role }) => role === 'thing').filter(({ within }) =>
      within.some(({ role }) => role === 'wall'),
    );
    expect(things.length).toBeGreaterThan(12);
    for (const { node } of things) {
      const box = boundsOf([node]);
      if (box) expect(box.x + box.width).toBeLessThan(right + 1.5);
    }
  });

  it('is cut into as few parts as there can be, at a whole foot where no board ends', () => {
    const alike = cutInParts(feet(100), [], feet(40)) ?? [];
    expect(alike.length).toBe(3);
    for (const { shown } of alike.slice(1)) expect(((shown.from ?? 0) + feet(1)) % feet(1)).toBe(0);
    expect(cutInParts(feet(30), [feet(10)], feet(30))).toEqual([{ shown: {}, part: { number: 1, count: 1 } }]);
    expect(cutInParts(feet(100), [], feet(5))).toBeUndefined();
    for (const { shown } of alike) {
      const [from, to] = [shown.from ?? feet(0), shown.to ?? feet(100)];
      expect(inMillimetres((to - from) as Length)).toBeLessThanOrEqual(inMillimetres(feet(40)));
    }
  });
});

describe('true scales', () => {
  const scalesOf = ({ sheets }: Printed): ReadonlySet<string> =>
    new Set(
      sheets.flatMap(({ scene, of, name }) =>
        of === 'cover' || name.includes('continued')
          ? []
          : (/Scale (\S+" = 1'-0" \(1:\d+\)|1:\d+)/.exec(wordsOf(scene))?.slice(1, 2) ?? []),
      ),
    );

  it('are half an inch to the foot for walls and a quarter for plans; on small paper one step down, with a note', () => {
    expect(scalesOf(maple('24x18'))).toEqual(new Set([`1/4" = 1'-0" (1:48)`, `1/2" = 1'-0" (1:24)`]));
    expect(scalesOf(maple('A3'))).toEqual(new Set([`1/8" = 1'-0" (1:96)`, `1/4" = 1'-0" (1:48)`]));
    expect(wordsOf(sheetNamed(maple('A3'), 'plan'))).toContain('one step down for ISO A3');
    expect(wordsOf(sheetNamed(maple('A3'), 'wall-B'))).toContain('one step down for ISO A3');
  });

  it('are 1:25 and 1:50 where the layout is metric', () => {
    const metric = printed('metric', () => {
      const { layout } = example('first-wall.sill', '17x11');
      return { ...layout, title: { ...layout.title, units: 'metric' } };
    });
    expect(scalesOf(metric)).toEqual(new Set(['1:50', '1:25']));
    expect(metric.sheets[0]?.scene.width).toBe(594);
    expect(faultsOf(metric)).toEqual([]);
  });

  it('hold for a house that is too large: the next larger sheet, or on a sheet that was asked for the step down, and it is said', () => {
    const usual = sheetNamed(long(), 'plan');
    expect(usual.width).toBeCloseTo(36 * 25.4, 9);
    expect(wordsOf(usual)).toContain(`1/4" = 1'-0" (1:48), on 36 x 24 in: the house does not fit on 24 x 18 in`);
    const asked = sheetNamed(long('24x18'), 'plan');
    expect(asked.width).toBeCloseTo(24 * 25.4, 9);
    expect(wordsOf(asked)).toContain(`1/8" = 1'-0" (1:96), reduced: the house does not fit on 24 x 18 in`);
    expect(faultsOf(long())).toEqual([]);
  });

  it('hold for a wall that no sheet holds: the paper grows, the scale stays a usual one', () => {
    const layout = read(
      `${houseWithoutWalls}wall A "north" faces north from (0", 0") length 4000'-0"\n  sill A1 to end corner\n`,
    );
    const basis = basisOf(layout, nothing);
    const sheets = sheetsOf({ layout, checked: nothing, basis, size: 'A3' });
    const wall = sheets.find(({ of }) => of === 'wall:A');
    expect(wall?.scene.width).toBeGreaterThan(841);
    expect(wall ? wordsOf(wall.scene) : '').toMatch(
      /Scale 1:192, on paper of its own size|Scale 1\/16" = 1'-0" \(1:192\), on paper/,
    );
    expect(sheets.flatMap((sheet) => faultsOfSheet(sheet, basis))).toEqual([]);
  });
});

describe('the cover', () => {
  const set = maple('24x18');
  const cover = sheetNamed(set, 'cover');

  it('lists every sheet and the first facts of the house', () => {
    const words = wordsOf(cover);
    for (const text of [
      'MAPLE DEMO HOUSE',
      'R2 Foundation plan',
      'Wall F west, inside elevation',
      'Girder GD, elevation',
    ])
      expect(words).toContain(text);
    for (const text of [
      'Storeys 2',
      'Year built 1924',
      'SDS 1 (assumed)',
      'soil unknown',
      'Issue 2',
      'Record 2026-06-11',
    ])
      expect(words).toContain(text);
  });

  it('shows every mark in a row for its wall, in order of station, in a frame that says its kind and its state', () => {
    const frames = groupsOf(cover, ({ role }) => role === 'mark');
    const marksOf = (owner: string): readonly string[] =>
      frames
        .filter(({ within }) => within.some(({ thing }) => thing === owner))
        .map(({ within }) => within.at(-1)?.thing ?? '');
    for (const wall of set.layout.walls) {
      const designed = [...wall.anchors, ...wall.ties]
        .map((mark) => ({ id: mark.id, at: mark.asBuilt?.station ?? mark.station ?? Number.POSITIVE_INFINITY }))
        .sort((a, b) => a.at - b.at)
        .map(({ id }) => id);
      expect(marksOf(wall.id)).toEqual(designed);
    }
    const symbolOf = (mark: string): string | undefined =>
      frames.find(({ within }) => within.at(-1)?.thing === mark)?.node.symbol;
    expect(symbolOf('F/anchor:F-1')).toBe('mark-square');
    expect(symbolOf('F/anchor:F-4')).toBe('mark-omitted');
    expect(symbolOf('F/anchor:F-9')).toBe('mark-round');
    expect(symbolOf('A/anchor:A-4')).toBe('mark-round-proposed');
    const rounded = frames.filter(({ node }) => node.symbol?.startsWith('mark-round'));
    for (const { node } of rounded)
      expect([...walkScene(node.nodes)].some(({ node: each }) => each.kind === 'rect' && (each.rounded ?? 0) > 0)).toBe(
        true,
      );
    expect(wordsOf(cover)).toContain('13 marks, 11 to do, 1 installed, 1 omitted');
  });
});
