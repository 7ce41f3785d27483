import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Basis, basisOf } from '../../../language/domain/documents/basis.ts';
import { scheduleOf } from '../../../language/domain/documents/schedule.ts';
import { clipped } from '../../../language/domain/drawing/clipped.ts';
import { textBox } from '../../../language/domain/drawing/lettering.ts';
import { drawnStation } from '../../../language/domain/drawing/placed-mark.ts';
import type { Box, Group, Scene, SceneNode, XY } from '../../../language/domain/drawing/scene.ts';
import { walkScene } from '../../../language/domain/drawing/scene.ts';
import { boundsOf } from '../../../language/domain/drawing/scene-bounds.ts';
import { beforeAnyHole } from '../../../language/domain/drawing/sheet-lists.ts';
import { crewStripsOf } from '../../../language/domain/drawing/strip/crew-strip.ts';
import { stripSheetsOf } from '../../../language/domain/drawing/strip/strip-sheets.ts';
import { sceneToSvg } from '../../../language/domain/drawing/svg.ts';
import { capHeights } from '../../../language/domain/drawing/tokens.ts';
import type { Layout, LengthUnits, Wall } from '../../../language/domain/model/layout.ts';
import { slideOf } from '../../../language/domain/place/crew-notes.ts';
import { checkLayout } from '../../../language/domain/rules/check-layout.ts';
import type { Checked } from '../../../language/domain/rules/checked.ts';
import { formatStation } from '../../../language/domain/units/format-length.ts';
import { inMillimetres, minus, plus } from '../../../language/domain/units/length.ts';
import { createProjectReader } from '../../../language/syntax/project.ts';
import { manyHouses, patience } from '../../support/houses/many-houses.ts';
import { exampleHost, readLayout } from '../../support/read-layout.ts';
import { collisions, crossedTexts, groupsOf, mapleLayout, read, textsOf, wallOf, wordsOf } from './drawn.ts';
import { workHouse } from './work-house.ts';

interface Drawn {
  readonly layout: Layout;
  readonly wall: Wall;
  readonly checked: Checked;
  readonly basis: Basis;
  readonly strips: readonly Scene[];
}

/** Every wall of a house that gets a strip, with its true findings. */
function stripsOf(layout: Layout, units?: LengthUnits): readonly Drawn[] {
  const checked = checkLayout(layout);
  const basis = basisOf(layout, checked);
  return layout.walls.flatMap((wall): readonly Drawn[] => {
    const strips = crewStripsOf({ layout, wall, checked, basis, ...(units ? { units } : {}) });
    return strips.length === 0 ? [] : [{ layout, wall, checked, basis, strips }];
  });
}

const maple = mapleLayout();
const ofMaple = stripsOf(maple);
const inMetric = stripsOf(maple, 'metric');
const everything = stripsOf(read(workHouse));

function onWall(all: readonly Drawn[], name: string): Drawn {
  const found = all.find(({ wall }) => wall.name === name);
  if (!found) throw new Error(`no strip of wall ${name}`);
  return found;
}

const cardsOf = (scene: Scene): readonly Group[] =>
  groupsOf(scene, ({ role }) => role === 'card').map(({ node }) => node);
function cardOf({ wall, strips }: Drawn, mark: string): Group {
  const id = [...wall.anchors, ...wall.ties].find(({ name }) => name === mark)?.id;
  const [card] = strips.flatMap(cardsOf).filter(({ thing }) => thing === id);
  if (!card) throw new Error(`no card of ${mark}`);
  return card;
}
function wordsIn(node: Group): string {
  const texts: string[] = [];
  for (const { node: each } of walkScene(node.nodes)) if (each.kind === 'text') texts.push(each.text);
  return texts.join(' ');
}
const edgeOf = (card: Group): SceneNode | undefined => card.nodes[0];
const holds = (outer: Box, inner: Box): boolean =>
  inner.x >= outer.x - 0.01 &&
  inner.y >= outer.y - 0.01 &&
  inner.x + inner.width <= outer.x + outer.width + 0.01 &&
  inner.y + inner.height <= outer.y + outer.height + 0.01;

/** The drawing of the wall keeps off the cautions above it and the cards below it. */
function outsideItsRoom(scene: Scene): readonly string[] {
  const room = scene.regions.drawing;
  const bounds = boundsOf(groupsOf(scene, ({ role }) => role === 'wall').map(({ node }) => node));
  return room && bounds && holds({ ...room, height: room.height + 0.5 }, bounds)
    ? []
    : ['the wall does not keep to its room'];
}

/** What is wrong with the strips of a wall, in words. */
function faultsOf({ wall, basis, strips }: Drawn): readonly string[] {
  const marks = [...wall.anchors, ...wall.ties].filter((mark) => {
    const station = drawnStation(mark);
    return station !== undefined && station >= 0 && (wall.length === undefined || station <= wall.length);
  });
  const cards = strips.flatMap(cardsOf);
  const faults = strips.flatMap((scene, index): readonly string[] => {
    const frame = { x: 4.5, y: 4.5, width: scene.width - 9, height: scene.height - 9 };
    const all = wordsOf(scene);
    return [
      ...collisions(scene).map((each) => `collision: ${each}`),
      ...crossedTexts(scene).map((each) => `crossed: ${each}`),
      ...textsOf(scene)
        .filter(({ node }) => !holds(frame, textBox(node)))
        .map(({ node }) => `outside the frame: ${node.text}`),
      ...cardsOf(scene).flatMap((card) => {
        const edge = card.nodes[0];
        if (edge?.kind !== 'rect') return ['a card without an edge'];
        return [...walkScene(card.nodes)].flatMap(({ node }) =>
          node.kind === 'text' && !holds(edge, textBox(node)) ? [`outside its card: ${node.text}`] : [],
        );
      }),
      ...textsOf(scene)
        .filter(({ node }) => (node.capHeight ?? capHeights[node.size]) < 1.8)
        .map(({ node }) => `too small: ${node.text}`),
      ...[...basis.lines, ...beforeAnyHole, 'What is not listed is not cleared.']
        .filter((line) => !all.includes(line))
        .map((line) => `no "${line}"`),
      ...outsideItsRoom(scene),
      ...(basis.demo && groupsOf(scene, ({ role }) => role === 'watermark').length !== 1 ? ['no DEMO VALUES'] : []),
    ].map((fault) => `strip ${index + 1}: ${fault}`);
  });
  return [
    ...faults,
    ...marks
      .filter(({ id }) => cards.filter(({ thing }) => thing === id).length !== 1)
      .map(({ name }) => `${name} has not one card`),
  ].map((fault) => `wall ${wall.name}, ${fault}`);
}

describe('a crew strip', () => {
  it.each([
    ['of the demo house', ofMaple],
    ['of the demo house in metric', inMetric],
    ['with every kind and state of new work', everything],
    ['of the first house', stripsOf(createProjectReader(exampleHost).read('first-wall.sill').layout)],
  ])('%s has nothing on anything else, and everything that must be there', (_, all) => {
    expect(all.length).toBeGreaterThan(0);
    expect(all.flatMap(faultsOf)).toEqual([]);
  });

  it(
    'of random houses has nothing on anything else, and everything that must be there',
    () => {
      let cards = 0;
      const faults: string[] = [];
      for (const { text } of manyHouses(6, 300, { design: true, untidy: false })) {
        const { layout } = readLayout(text);
        const half = layout.title.units === 'metric' ? 148.5 : 139.7;
        for (const each of stripsOf(layout)) {
          if (each.strips.some(({ height }) => height > half))
            faults.push(`wall ${each.wall.name}: higher than half a sheet`);
          cards += each.strips.flatMap(cardsOf).length;
          faults.push(...faultsOf(each));
        }
      }
      expect(faults.slice(0, 20)).toEqual([]);
      expect(cards).toBeGreaterThan(60);
    },
    patience,
  );

  it('has the size of half a sheet, and two of them make one', () => {
    const { strips } = onWall(ofMaple, 'F');
    // 17 x 5.5 in; 17 x 11 in.
    for (const { width, height } of strips) expect([width / 25.4, height / 25.4]).toEqual([17, 5.5]);
    const sheets = stripSheetsOf([...strips, ...onWall(ofMaple, 'A').strips], 'feet-inches');
    expect(sheets.map(({ width, height }) => [width / 25.4, height / 25.4])).toEqual([
      [17, 11],
      [17, 11],
    ]);
    expect(wordsOf(sheets[0] as Scene)).toContain('STRIP 2 OF 2');
    // ISO 216: A3 is 420 x 297 mm.
    expect(stripSheetsOf(onWall(inMetric, 'A').strips, 'metric')[0]).toMatchObject({
      width: 420,
      height: 297,
    });
  });

  it('grows where there is more to fear than half a sheet holds, and drops none of it', () => {
    const names = Array.from({ length: 40 }, (_, index) => index);
    const crowded = read(`layout "Crowded"
wall A faces north length 60'-0"
  foundation thick 8" showing 20" top 0" grade 9"
  sill A1 set-back 0" headroom 24" size 2x6
${names.map((index) => `  gas-pipe GAS-LINE-${index} at ${index}'-6" dia 3/4" zone 4" below top`).join('\n')}
work on A
${names.map((index) => `  panel A-PANEL-${index} ${index}'-0" to ${index + 1}'-0" plywood 15/32" nails ${index + 4}d edge 4" field 12"`).join('\n')}
  anchor A-1 bolt-half at 50'-0"
record 2026-06-01 by "crew"
${names.map((index) => `  discovered "something behind the wall that nobody had drawn, number ${index}" on A at ${index}'-0"`).join('\n')}
`);
    const [drawn] = stripsOf(crowded);
    if (!drawn) throw new Error('no strip');
    const scene = drawn.strips[0] as Scene;
    expect(scene.height).toBeGreaterThan(139.7);
    expect(faultsOf(drawn)).toEqual([]);
    for (const index of names) expect(wordsOf(scene)).toContain(`number ${index} `);
    expect(stripSheetsOf([scene, scene], 'feet-inches')).toHaveLength(2);
  });

  it('takes a second strip past ten cards, and each mark stands on one of them', () => {
    const { strips, wall } = onWall(ofMaple, 'F');
    expect(wall.anchors).toHaveLength(13);
    expect(strips.map((scene) => cardsOf(scene).length)).toEqual([7, 6]);
    expect(onWall(ofMaple, 'A').strips.map((scene) => cardsOf(scene).length)).toEqual([10]);
  });

  it('shows each mark at the station of the schedule', () => {
    const rows = scheduleOf(maple, checkLayout(maple)).rows;
    let compared = 0;
    for (const { wall, strips } of ofMaple) {
      for (const card of strips.flatMap(cardsOf)) {
        const row = rows.find(({ thing }) => thing === card.thing);
        if (!row) continue;
        const stations = groupsOf({ nodes: [card] } as unknown as Scene, ({ role }) => role === 'station');
        expect(
          stations.map(({ node }) => wordsIn(node)),
          wall.name,
        ).toEqual([formatStation(row.station ?? (0 as never), 'feet-inches')]);
        compared += 1;
      }
    }
    expect(compared).toBeGreaterThanOrEqual(22);
  });

  it('hangs each card from its true place on a true tape', () => {
    for (const [all, ratio, units] of [
      [ofMaple, 32, 'feet-inches'],
      [inMetric, 40, 'metric'],
    ] as const) {
      const { wall, strips } = onWall(all, 'A');
      const [scene] = strips;
      if (!scene) throw new Error('no strip');
      const tape = groupsOf(scene, ({ role, hidden }) => role === 'tape' && hidden === true)[0]?.node.nodes[0];
      if (tape?.kind !== 'rect') throw new Error('no tape');
      expect(tape.width).toBeCloseTo(inMillimetres(wall.length ?? (0 as never)) / ratio, 2);
      const tips = groupsOf(scene, ({ role }) => role === 'leader').flatMap(({ node }) => {
        const first = node.nodes[0];
        return first?.kind === 'polyline' && first.closed ? [first.points[0]?.[0] ?? 0] : [];
      });
      const stations = [...wall.anchors, ...wall.ties].map((mark) => inMillimetres(drawnStation(mark) ?? (0 as never)));
      const wanted = stations.sort((a, b) => a - b).map((station) => tape.x + station / ratio);
      expect(tips.length, units).toBe(wanted.length);
      for (const [index, x] of tips.entries()) expect(Math.abs(x - (wanted[index] ?? 0))).toBeLessThan(0.01);
    }
  });

  it('draws a wall of more than 40 ft at 1/4 in a foot', () => {
    const long = read(`layout "Long"
wall A faces north length 44'-0"
  foundation thick 8" showing 20" top 0" grade 9"
  sill A1 set-back 0" headroom 24" size 2x6
work on A
  anchor A-1 bolt-half at 1'-0"
`);
    expect(wordsOf(stripsOf(long)[0]?.strips[0] as Scene)).toContain('(1:48)');
    expect(wordsOf(onWall(ofMaple, 'F').strips[0] as Scene)).toContain('3/8" = 1\'-0" (1:32)');
  });

  it('says the station that was built, and what was planned', () => {
    // The demo house: A-1 planned at 0'-10", installed at 0'-11"; F-5 planned at 10'-5", installed at 10'-7".
    expect(wordsIn(cardOf(onWall(ofMaple, 'A'), 'A-1'))).toMatch(/0'-11" .*was 0'-10"/);
    expect(wordsIn(cardOf(onWall(ofMaple, 'F'), 'F-5'))).toMatch(/10'-7" .*was 10'-5"/);
    expect(wordsIn(cardOf(onWall(ofMaple, 'A'), 'A-1'))).toContain('4-1/2"');
    expect(wordsIn(cardOf(onWall(ofMaple, 'A'), 'A-1'))).toContain('45 ft-lb');
  });

  it('adds up the depth of a hole from what it goes through', () => {
    // By hand from the .sill files: bolt-half has hole-depth 4" and hole 5/8", the sills of A are 1-5/8" thick, nailers are 2x4
    // (1-1/2"). A-4, A-5, A-8 and A-9 stand under panels: 4 + 1-5/8 + 1-1/2 = 7-1/8. A-7 stands between panels: 4 + 1-5/8 = 5-5/8.
    const a = onWall(ofMaple, 'A');
    for (const mark of ['A-4', 'A-5', 'A-8', 'A-9']) {
      expect(wordsIn(cardOf(a, mark)), mark).toContain(
        '5/8" bit, 7-1/8" deep = 4" + 1-5/8" sill + 1-1/2" nailer from top of nailer',
      );
    }
    expect(wordsIn(cardOf(a, 'A-7'))).toContain('5/8" bit, 5-5/8" deep = 4" + 1-5/8" sill, from its top');
    // tie-rod: hole-depth 10", hole 3/4"; beside its stud, on the sill: 10 + 1-5/8 = 11-5/8.
    expect(wordsIn(cardOf(a, 'A-H1'))).toContain('3/4" bit, 11-5/8" deep = 10" + 1-5/8" sill');
    // stepped-plate-s: two holes of 1/2", hole-depth 4-3/4", plate 5/16" thick.
    expect(wordsIn(cardOf(onWall(ofMaple, 'F'), 'F-1'))).toContain(
      '2 x 1/2" bit, 4-3/4" deep from face of concrete; plate on: + 5/16"',
    );
    // F-11 stands between panels, on a board of 1-5/8".
    expect(wordsIn(cardOf(onWall(ofMaple, 'F'), 'F-11'))).toContain('5-5/8" deep');
    // Metric: 4 in and 1-5/8 in and 1-1/2 in are 181 mm to the nearest (180.975).
    expect(wordsIn(cardOf(onWall(inMetric, 'A'), 'A-4'))).toContain('16 mm bit, 181 mm deep');
  });

  it('never lets a mark slide further than the placement does', () => {
    const layout = maple;
    let told = 0;
    for (const drawn of ofMaple) {
      for (const anchor of drawn.wall.anchors.filter(({ state }) => state === 'planned')) {
        const words = wordsIn(cardOf(drawn, anchor.name));
        const room = slideOf(layout, drawn.wall, anchor);
        const station = anchor.station ?? (0 as never);
        if (!room) expect(words).toContain('slide: not known, ask');
        else if (room.left === 0 && room.right === 0) expect(words).toContain('no slide: here only');
        else {
          const [from, to] = [
            formatStation(minus(station, room.left), 'feet-inches'),
            formatStation(plus(station, room.right), 'feet-inches'),
          ];
          expect(words).toContain(`slide ${from} to ${to}`);
          told += 1;
        }
      }
    }
    expect(told).toBeGreaterThan(5);
  });

  it('tells work to do, done, left out, failed and proposed apart in black and white', () => {
    const w = onWall(everything, 'W');
    const pictures = ['W-1', 'W-7', 'W-5', 'W-4', 'W-9'].flatMap((mark) =>
      mark === 'W-9' ? [] : [shapesOnly(cardOf(w, mark))],
    );
    const planned = shapesOnly(cardOf(onWall(ofMaple, 'F'), 'F-1'));
    expect(new Set([...pictures, planned]).size).toBe(pictures.length + 1);
    expect(edgeOf(cardOf(onWall(ofMaple, 'F'), 'F-1'))).toMatchObject({ stroke: { pen: 'P1' } });
    expect(edgeOf(cardOf(w, 'W-1'))).toMatchObject({ stroke: { pen: 'P3' } });
    expect(edgeOf(cardOf(w, 'W-7'))).toMatchObject({ stroke: { line: 'omitted' } });
    expect(wordsIn(cardOf(w, 'W-5'))).toContain('FAILED');
    expect(wordsIn(cardOf(w, 'W-3'))).toContain('built place not recorded');
  });

  it('is the same bytes from the same text', () => {
    const again = mapleLayout();
    const { checked, basis, strips } = onWall(ofMaple, 'A');
    const svg = (scenes: readonly Scene[]): string =>
      scenes.map((scene) => sceneToSvg(scene, { colours: 'paper' })).join('');
    expect(svg(crewStripsOf({ layout: again, wall: wallOf(again, 'A'), checked, basis }))).toBe(svg(strips));
  });

  it('says panels with their nailing once, angles and blocks, each with its box', () => {
    const words = wordsOf(onWall(ofMaple, 'F').strips[0] as Scene);
    for (const part of [
      'F-P1 0\'-0" to 4\'-0"',
      'F-P4 32\'-0"',
      'F-A1 28 of angle-8 8" long',
      'new blocks, bays 2, 4, 6, 8, 10',
      'remove X4',
      'washer X5 washer-3',
    ])
      expect(words).toContain(part);
    expect(words.split('Panels: plywood 15/32"; edge 8d at 4"; field 8d at 12"')).toHaveLength(2);
  });
});

describe('what may hurt a crew', () => {
  const house = read(`layout "Hazards"
wall A "north" faces north length 30'-0"
  foundation thick 8" showing 20" top 0" grade 9" post-tensioned cracked
  sill A1 set-back unknown headroom 24" size unknown
  gas-pipe GP 6'-0" to 8'-0" dia 3/4" zone 4" below top
  electrical-panel EP zone 10" to 40" below top
  meter MT 20'-0" to 21'-0"
work on A
  anchor A-1 bolt-half at 2'-0"
  anchor A-2 no-such-kind at 4'-0"
  anchor A-3 bolt-half at 12'-0" offset unknown embed unknown
  anchor A-4 bolt-half
record 2026-06-01 by "crew"
  discovered "old cable" on A at 3'-0"
`);
  const [drawn] = stripsOf(house);
  if (!drawn) throw new Error('no strip');
  const words = wordsOf(drawn.strips[0] as Scene);

  it('stands above the wall: stops, tendons, gas, power, and services that nobody placed', () => {
    expect(words).toContain('STOP');
    expect(words).toContain('POST-TENSIONED 0\'-0" to 30\'-0": drill nothing');
    expect(words).toContain('Concrete cracked');
    expect(words).toMatch(/NO HOLES .*gas \(GP\), not cleared: locate and expose both sides first/);
    expect(words).toContain('electrical panel EP: PLACE NOT KNOWN');
    expect(words).toContain('gas or power (MT)');
    expect(words).toContain('old cable');
    expect(words).toContain("FOR ENGINEER'S REVIEW");
  });

  it('says unknown for what nobody knows, and guesses no depth', () => {
    expect(wordsIn(cardOf(drawn, 'A-1'))).toContain('depth UNKNOWN: ask');
    expect(wordsIn(cardOf(drawn, 'A-1'))).toContain('UNKNOWN sill');
    expect(wordsIn(cardOf(drawn, 'A-2'))).toContain('bit and depth not known. Ask.');
    expect(wordsIn(cardOf(drawn, 'A-3'))).toContain('= UNKNOWN +');
    expect(wordsIn(cardOf(drawn, 'A-3'))).toContain('place across the sill unknown: ask');
    // A mark without a station has no card, and is not lost.
    expect(words).toMatch(/Cannot be placed, no station on this wall: A-4/);
  });

  it('clears nothing by silence', () => {
    const words = wordsOf(onWall(ofMaple, 'A').strips[0] as Scene);
    expect(words).toContain('No gas or power line is recorded on this wall; nobody has cleared it.');
    expect(words).toContain('NW corner = 0');
    // Wall F is 6" thick at its end there.
    expect(words).toContain('0 is the OUTSIDE face of the corner: the inside corner must read 6"');
  });
});

describe('a drawing cut to a band', () => {
  it('keeps nothing outside it, and all of what lies inside', () => {
    const number = fc.integer({ min: -50, max: 50 });
    const point = fc.tuple(number, number);
    const stroke = { colour: 'ink', pen: 'P3' } as const;
    const shape: fc.Arbitrary<SceneNode> = fc.oneof(
      fc.tuple(point, point).map(([from, to]) => ({ kind: 'line', from, to, stroke }) as const),
      fc
        .tuple(fc.array(point, { minLength: 2, maxLength: 6 }), fc.boolean())
        .map(([points, closed]) => ({ kind: 'polyline', points, closed, stroke }) as const),
      fc
        .tuple(point, fc.nat(40), fc.nat(40))
        .map(
          ([[x, y], width, height]) => ({ kind: 'rect', x, y, width: width + 1, height: height + 1, stroke }) as const,
        ),
      fc
        .tuple(point, fc.integer({ min: 1, max: 9 }))
        .map(([centre, radius]) => ({ kind: 'circle', centre, radius, stroke }) as const),
      fc.tuple(point, point).map(
        ([from, to]) =>
          ({
            kind: 'path',
            steps: [
              { to: 'move', at: from },
              { to: 'line', at: to },
            ],
            stroke,
          }) as const,
      ),
    );
    fc.assert(
      fc.property(fc.array(shape, { maxLength: 8 }), number, fc.integer({ min: 1, max: 60 }), (nodes, top, height) => {
        const band = { along: 'y', from: top, to: top + height } as const;
        const bounds = boundsOf(clipped(nodes, band));
        if (bounds) {
          // A round sign is in or out by its middle.
          expect(bounds.y).toBeGreaterThanOrEqual(band.from - 9);
          expect(bounds.y + bounds.height).toBeLessThanOrEqual(band.to + 9);
        }
        const straight = boundsOf(
          clipped(
            nodes.filter(({ kind }) => kind !== 'circle'),
            band,
          ),
        );
        if (straight) {
          expect(straight.y).toBeGreaterThanOrEqual(band.from - 1e-6);
          expect(straight.y + straight.height).toBeLessThanOrEqual(band.to + 1e-6);
        }
        expect(clipped(nodes, { along: 'y', from: -1000, to: 1000 })).toEqual(nodes);
        // Cut on one axis or on the other, it is the same cut; the outline of a box starts at another corner.
        const lines = nodes.filter(({ kind }) => kind !== 'rect');
        expect(clipped(lines.map(turned), { from: band.from, to: band.to }).map(turned)).toEqual(clipped(lines, band));
      }),
      { numRuns: 200 },
    );
  });
});

const swapped = ([x, y]: XY): XY => [y, x];

/** Mirrored so that x and y change places. */
function turned(node: SceneNode): SceneNode {
  switch (node.kind) {
    case 'line':
      return { ...node, from: swapped(node.from), to: swapped(node.to) };
    case 'polyline':
      return { ...node, points: node.points.map(swapped) };
    case 'circle':
      return { ...node, centre: swapped(node.centre) };
    case 'path':
      return {
        ...node,
        steps: node.steps.map((step) => (step.to === 'close' ? step : { ...step, at: swapped(step.at) })),
      };
    default:
      return node;
  }
}

/** As it prints in black and white, without its words and at one place. */
function shapesOnly(card: Group): string {
  const bounds = boundsOf(card.nodes);
  const strip = (nodes: readonly SceneNode[]): readonly SceneNode[] =>
    nodes.flatMap((node): readonly SceneNode[] =>
      node.kind === 'group' ? [{ kind: 'group', nodes: strip(node.nodes) }] : node.kind === 'text' ? [] : [node],
    );
  const svg = sceneToSvg(
    { width: 10, height: 10, title: '', description: '', regions: {}, nodes: strip(card.nodes) },
    { colours: 'black-and-white' },
  );
  const [x, y] = [bounds?.x ?? 0, bounds?.y ?? 0];
  return svg
    .replace(/-?\d+(\.\d+)?/g, (number) => (Number(number) > 20 ? 'n' : number))
    .concat(` ${Math.sign(x)}${Math.sign(y)}`);
}
