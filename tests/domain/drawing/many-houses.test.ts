import { describe, expect, it } from 'vitest';
import { basisOf } from '../../../language/domain/documents/basis.ts';
import { type Schedule, scheduleOf } from '../../../language/domain/documents/schedule.ts';
import { drawElevation } from '../../../language/domain/drawing/elevation.ts';
import { drawGirder } from '../../../language/domain/drawing/girder.ts';
import { textBox } from '../../../language/domain/drawing/lettering.ts';
import { drawPlan } from '../../../language/domain/drawing/plan.ts';
import type { Scene } from '../../../language/domain/drawing/scene.ts';
import { sceneToSvg } from '../../../language/domain/drawing/svg.ts';
import { capHeights } from '../../../language/domain/drawing/tokens.ts';
import type { Layout, LengthUnits, Wall } from '../../../language/domain/model/layout.ts';
import { checkLayout } from '../../../language/domain/rules/check-layout.ts';
import type { Finding } from '../../../language/domain/rules/finding.ts';
import { formatStation } from '../../../language/domain/units/format-length.ts';
import { createProjectReader } from '../../../language/syntax/project.ts';
import { manyHouses, patience } from '../../support/houses/many-houses.ts';
import { exampleHost, readLayout } from '../../support/read-layout.ts';
import { collisions, crossedTexts, groupsOf, textsOf, wordsOf } from './drawn.ts';
import { gapFaults } from './printed-lengths.ts';
import { readDrawing } from './svg-things.ts';
import { scaleFaults } from './true-to-scale.ts';

interface Sheet {
  readonly name: string;
  readonly scene: Scene;
  /** What must be on it, whatever else finds no room. */
  readonly marks: readonly string[];
  readonly words: readonly string[];
  readonly markers: number;
  /** Of an elevation: what its stations, gaps and schedule are held against. */
  readonly wall?: Wall;
  readonly findings: readonly Finding[];
}

interface HouseSheets {
  readonly sheets: readonly Sheet[];
  readonly layout: Layout;
  readonly schedule: Schedule;
}

/** Every sheet of a house, with its true findings. */
function sheetsOf(layout: Layout): HouseSheets {
  const checked = checkLayout(layout);
  const basis = basisOf(layout, checked);
  const input = { layout, checked, basis };
  const serious = (wall?: string): number =>
    checked.findings.filter(
      ({ severity, accepted, ...entry }) =>
        (severity === 'stop' || (severity === 'error' && accepted === undefined)) &&
        entry.station !== undefined &&
        (wall === undefined || entry.wall === wall),
    ).length;
  const always = basis.lines.slice(0, 1);
  const windowed = layout.walls.find((wall) => wall.anchors.length > 0);
  const chosen = windowed?.anchors[Math.floor(windowed.anchors.length / 2)];
  const sheets: Sheet[] = [
    {
      name: 'plan',
      findings: checked.findings,
      scene: drawPlan(input),
      marks: layout.walls
        .filter((wall) => wall.plan)
        .flatMap((wall) => [...wall.anchors, ...wall.ties, ...wall.panels].map(({ name }) => name)),
      words: always,
      markers: 0,
    },
    ...layout.walls.map((wall) => ({
      name: `wall ${wall.name}`,
      wall,
      findings: checked.findings.filter((each) => each.wall === wall.name),
      scene: drawElevation({ ...input, wall }),
      marks: [...wall.anchors, ...wall.ties, ...wall.panels, ...wall.angles].map(({ name }) => name),
      words: [
        ...always,
        ...(wall.obstructions.some(({ kind }) => kind === 'gas-pipe' || kind === 'meter') ? ['NO HOLES'] : []),
      ],
      markers: serious(wall.name),
    })),
    ...layout.girders.map((girder) => ({
      name: `girder ${girder.name}`,
      findings: [],
      scene: drawGirder({ ...input, girder }),
      marks: girder.posts.flatMap((post) => post.hardware.map(({ name }) => name)),
      words: always,
      markers: 0,
    })),
    ...(windowed && chosen
      ? [
          {
            name: `windows of ${chosen.name}`,
            wall: windowed,
            findings: [],
            scene: drawElevation({ ...input, wall: windowed, windows: { anchor: chosen } }),
            marks: [chosen.name],
            words: always,
            markers: 0,
          },
        ]
      : []),
  ];
  return { sheets, layout, schedule: scheduleOf(layout, checked) };
}

/** A mark and a station stand once in the drawing, and as the schedule has them. */
function scheduleFaults(scene: Scene, wall: Wall, units: LengthUnits, schedule: Schedule): readonly string[] {
  const drawn = new Map<string, string[]>();
  for (const { node, within } of textsOf(scene)) {
    if (!within.some(({ role }) => role === 'station')) continue;
    const thing = within.findLast((group) => group.thing !== undefined && group.thing !== wall.id)?.thing ?? '';
    drawn.set(thing, [...(drawn.get(thing) ?? []), node.text]);
  }
  return schedule.rows
    .filter((row) => row.wall === wall.name && row.station !== undefined && row.station <= (wall.length ?? 0))
    .flatMap(({ thing, mark, station }) => {
      const texts = drawn.get(thing) ?? [];
      const wanted = station === undefined ? '' : formatStation(station, units);
      if (station !== undefined && station < 0) return [];
      return texts.length === 1 && texts[0] === wanted
        ? []
        : [`${mark} stands at ${wanted} in the schedule, at ${texts.join(' and ') || 'none'} in the drawing`];
    });
}

/** Numbers of findings: each in the list once, and none in the drawing that the list does not have. */
function numberFaults(scene: Scene, findings: readonly Finding[]): readonly string[] {
  const numbers = (inList: boolean): readonly number[] =>
    groupsOf(scene, (group) => group.role === 'finding')
      .filter(({ within }) => within.some(({ role }) => role === 'list') === inList)
      .map(({ node }) => Number(/^finding (\d+)/.exec(node.name ?? '')?.[1]));
  const [listed, drawn] = [numbers(true), numbers(false)];
  const wanted = findings.map((_, index) => index + 1);
  return [
    ...(String([...listed].sort((a, b) => a - b)) === String(wanted) ? [] : [`the list has the numbers ${listed}`]),
    ...drawn.filter((number) => !listed.includes(number)).map((number) => `marker ${number} is not in the list`),
    ...(new Set(drawn).size === drawn.length ? [] : ['a number is drawn twice']),
  ];
}

/** What is wrong with a sheet, in words; nothing where nothing is. */
function faultsOf(sheet: Sheet, { layout, schedule }: HouseSheets): readonly string[] {
  const { units } = layout.title;
  const { name, scene, marks, words, markers, wall, findings } = sheet;
  const texts = textsOf(scene);
  const offSheet = texts.filter(({ node }) => {
    const box = textBox(node);
    return box.x < 0 || box.y < 0 || box.x + box.width > scene.width || box.y + box.height > scene.height;
  });
  const [used, explained] = [new Set<string>(), new Set<string>()];
  let drawnMarkers = 0;
  for (const { node, within } of groupsOf(scene, ({ symbol }) => symbol !== undefined)) {
    if (!node.symbol) continue;
    const listed = within.some(({ role }) => role === 'legend' || role === 'list');
    if (!listed && (node.symbol === 'stop' || node.symbol === 'error')) drawnMarkers++;
    (within.some(({ role }) => role === 'legend') ? explained : used).add(node.symbol);
  }
  const shown = new Set(
    texts
      .filter(({ within }) => !within.some(({ role }) => role === 'legend' || role === 'list'))
      .map(({ node }) => node.text.split('  ')[0]),
  );
  const all = wordsOf(scene);
  return [
    ...collisions(scene).map((each) => `collision: ${each}`),
    ...crossedTexts(scene).map((each) => `crossed: ${each}`),
    ...offSheet.map(({ node }) => `off the sheet: ${node.text}`),
    ...[...used].filter((symbol) => !explained.has(symbol)).map((symbol) => `not explained: ${symbol}`),
    ...[...explained].filter((symbol) => !used.has(symbol)).map((symbol) => `explained for nothing: ${symbol}`),
    ...marks.filter((mark) => !shown.has(mark)).map((mark) => `no mark ${mark}`),
    ...words.filter((text) => !all.includes(text)).map((text) => `no "${text}"`),
    ...texts
      .filter(({ node }) => (node.capHeight ?? capHeights[node.size]) < 1.8)
      .map(({ node }) => `lower than 1.8 mm: ${node.text}`),
    ...(wall && name.startsWith('wall')
      ? [
          ...scaleFaults(readDrawing(sceneToSvg(scene, { colours: 'paper' })), wall, units),
          ...gapFaults(scene, layout, wall),
          ...scheduleFaults(scene, wall, units, schedule),
        ]
      : []),
    ...(name === 'plan' || name.startsWith('wall') ? numberFaults(scene, findings) : []),
    ...(drawnMarkers < markers ? [`${drawnMarkers} of ${markers} stops and errors are marked`] : []),
  ].map((fault) => `${name}: ${fault}`);
}

describe('the sheets of a house', () => {
  it.each(['maple-designed.sill', 'maple-surveyed.sill', 'first-wall.sill'])(
    'of the example %s have nothing on anything else, and everything that must be there',
    (file) => {
      const { layout } = createProjectReader(exampleHost).read(file);
      const drawn = sheetsOf(layout);
      expect(drawn.sheets.length).toBeGreaterThan(layout.walls.length);
      expect(drawn.sheets.flatMap((sheet) => faultsOf(sheet, drawn))).toEqual([]);
    },
  );

  it(
    'of random houses have nothing on anything else, and everything that must be there',
    () => {
      const faults: string[] = [];
      let sheetCount = 0;
      let markCount = 0;
      let seed = 0;
      for (const { text } of manyHouses(40, 300, { design: true, untidy: false })) {
        const drawn = sheetsOf(readLayout(text).layout);
        const { sheets } = drawn;
        sheetCount += sheets.length;
        markCount += sheets.reduce((sum, { marks }) => sum + marks.length, 0);
        for (const fault of sheets.flatMap((sheet) => faultsOf(sheet, drawn))) faults.push(`house ${seed}, ${fault}`);
        seed += 1;
      }
      expect(faults.slice(0, 20)).toEqual([]);
      expect(sheetCount).toBeGreaterThan(40 * 5);
      expect(markCount).toBeGreaterThan(40 * 10);
    },
    patience,
  );
});
