import { describe, expect, it } from 'vitest';
import { basisOf } from '../../../language/domain/documents/basis.ts';
import { drawElevation } from '../../../language/domain/drawing/elevation.ts';
import { drawGirder } from '../../../language/domain/drawing/girder.ts';
import { textBox } from '../../../language/domain/drawing/lettering.ts';
import { drawPlan } from '../../../language/domain/drawing/plan.ts';
import type { Scene } from '../../../language/domain/drawing/scene.ts';
import { walkScene } from '../../../language/domain/drawing/scene.ts';
import type { Layout } from '../../../language/domain/model/layout.ts';
import { checkLayout } from '../../../language/domain/rules/check-layout.ts';
import { createProjectReader } from '../../../language/syntax/project.ts';
import { manyHouses, patience } from '../../support/houses/many-houses.ts';
import { exampleHost, readLayout } from '../../support/read-layout.ts';
import { collisions, crossedTexts, textsOf, wordsOf } from './drawn.ts';

interface Sheet {
  readonly name: string;
  readonly scene: Scene;
  /** What must be on it, whatever else finds no room. */
  readonly marks: readonly string[];
  readonly words: readonly string[];
  readonly markers: number;
}

/** Every sheet of a house, with its true findings. */
function sheetsOf(layout: Layout): readonly Sheet[] {
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
  return [
    {
      name: 'plan',
      scene: drawPlan(input),
      marks: layout.walls
        .filter((wall) => wall.plan)
        .flatMap((wall) => [...wall.anchors, ...wall.ties, ...wall.panels].map(({ name }) => name)),
      words: always,
      markers: 0,
    },
    ...layout.walls.map((wall) => ({
      name: `wall ${wall.name}`,
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
      scene: drawGirder({ ...input, girder }),
      marks: girder.posts.flatMap((post) => post.hardware.map(({ name }) => name)),
      words: always,
      markers: 0,
    })),
    ...(windowed && chosen
      ? [
          {
            name: `windows of ${chosen.name}`,
            scene: drawElevation({ ...input, wall: windowed, windows: { anchor: chosen } }),
            marks: [chosen.name],
            words: always,
            markers: 0,
          },
        ]
      : []),
  ];
}

/** What is wrong with a sheet, in words; nothing where nothing is. */
function faultsOf({ name, scene, marks, words, markers }: Sheet): readonly string[] {
  const texts = textsOf(scene);
  const offSheet = texts.filter(({ node }) => {
    const box = textBox(node);
    return box.x < 0 || box.y < 0 || box.x + box.width > scene.width || box.y + box.height > scene.height;
  });
  const [used, explained] = [new Set<string>(), new Set<string>()];
  let drawnMarkers = 0;
  for (const { node, within } of walkScene(scene.nodes)) {
    if (node.kind !== 'group' || !node.symbol) continue;
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
    ...(drawnMarkers < markers ? [`${drawnMarkers} of ${markers} stops and errors are marked`] : []),
  ].map((fault) => `${name}: ${fault}`);
}

describe('the sheets of a house', () => {
  it.each(['maple-designed.sill', 'maple-surveyed.sill', 'first-wall.sill'])(
    'of the example %s have nothing on anything else, and everything that must be there',
    (file) => {
      const { layout } = createProjectReader(exampleHost).read(file);
      const sheets = sheetsOf(layout);
      expect(sheets.length).toBeGreaterThan(layout.walls.length);
      expect(sheets.flatMap(faultsOf)).toEqual([]);
    },
  );

  it(
    'of random houses have nothing on anything else, and everything that must be there',
    () => {
      const faults: string[] = [];
      let sheetCount = 0;
      let markCount = 0;
      let seed = 0;
      for (const { text } of manyHouses(120, 3000, { design: true, untidy: false })) {
        const sheets = sheetsOf(readLayout(text).layout);
        sheetCount += sheets.length;
        markCount += sheets.reduce((sum, { marks }) => sum + marks.length, 0);
        for (const fault of sheets.flatMap(faultsOf)) faults.push(`house ${seed}, ${fault}`);
        seed += 1;
      }
      expect(faults.slice(0, 20)).toEqual([]);
      expect(sheetCount).toBeGreaterThan(120 * 5);
      expect(markCount).toBeGreaterThan(120 * 10);
    },
    patience,
  );
});
