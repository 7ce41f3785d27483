import { describe, expect, it } from 'vitest';
import { basisOf } from '../../../language/domain/documents/basis.ts';
import { textBox } from '../../../language/domain/drawing/lettering.ts';
import type { Scene, SceneNode } from '../../../language/domain/drawing/scene.ts';
import { walkScene } from '../../../language/domain/drawing/scene.ts';
import { boundsOf } from '../../../language/domain/drawing/scene-bounds.ts';
import { drawSections } from '../../../language/domain/drawing/section/section-sheet.ts';
import { sectionsOf, type WallSection } from '../../../language/domain/drawing/section/wall-sections.ts';
import { beforeAnyHole } from '../../../language/domain/drawing/sheet-lists.ts';
import { sceneToSvg } from '../../../language/domain/drawing/svg.ts';
import { capHeights } from '../../../language/domain/drawing/tokens.ts';
import type { Layout, LengthUnits } from '../../../language/domain/model/layout.ts';
import { manyHouses, patience } from '../../support/houses/many-houses.ts';
import { readLayout } from '../../support/read-layout.ts';
import {
  collisions,
  crossedTexts,
  mapleLayout,
  nothingFound,
  read,
  testBasis,
  textsOf,
  wallOf,
  wordsOf,
} from './drawn.ts';
import { workHouse } from './work-house.ts';

const maple = mapleLayout();

function sections(layout: Layout, name: string, units?: LengthUnits): readonly WallSection[] {
  return sectionsOf({
    layout,
    wall: wallOf(layout, name),
    checked: nothingFound,
    basis: testBasis,
    ...(units ? { units } : {}),
  });
}

const sceneOf = ({ width, height, nodes }: WallSection): Scene => ({
  width,
  height,
  nodes,
  title: '',
  description: '',
  regions: {},
});
const words = (section: WallSection): string => wordsOf(sceneOf(section));

/** What is wrong with a section, in words. */
function faultsOf(section: WallSection): readonly string[] {
  const scene = sceneOf(section);
  const bounds = boundsOf(section.nodes);
  return [
    ...collisions(scene).map((each) => `collision: ${each}`),
    ...crossedTexts(scene).map((each) => `crossed: ${each}`),
    ...textsOf(scene)
      .filter(({ node }) => {
        const box = textBox(node);
        return (
          box.x < -0.01 || box.y < -0.01 || box.x + box.width > section.width || box.y + box.height > section.height
        );
      })
      .map(({ node }) => `outside: ${node.text}`),
    ...textsOf(scene)
      .filter(({ node }) => (node.capHeight ?? capHeights[node.size]) < 1.8)
      .map(({ node }) => `too small: ${node.text}`),
    ...(bounds && (bounds.y + bounds.height > section.height + 0.01 || bounds.x < -0.01) ? ['drawn outside'] : []),
  ].map((fault) => `${section.name}: ${fault}`);
}

/** On paper, of what is drawn with a pen of a colour. */
function strokesOf(section: WallSection, want: (node: Exclude<SceneNode, { kind: 'group' }>) => boolean) {
  return [...walkScene(section.nodes)].flatMap(({ node }) => (node.kind !== 'group' && want(node) ? [node] : []));
}

describe('a section through a wall', () => {
  it.each([
    ['the demo house', maple, undefined],
    ['the demo house in metric', maple, 'metric'],
    ['every kind and state of new work', read(workHouse), undefined],
  ] as const)('of %s has nothing on anything else', (_, layout, units) => {
    const all = layout.walls.flatMap((wall) => sections(layout, wall.name, units));
    expect(all.length).toBeGreaterThan(3);
    expect(all.flatMap(faultsOf)).toEqual([]);
    // The columns of a sheet are at least that wide.
    for (const { width, name } of all) expect(width, name).toBeLessThanOrEqual(121);
  });

  it(
    'of random houses has nothing on anything else',
    () => {
      const faults: string[] = [];
      let count = 0;
      for (const { text } of manyHouses(8, 600, { design: true })) {
        const { layout } = readLayout(text);
        for (const wall of layout.walls) {
          const all = sections(layout, wall.name);
          count += all.length;
          faults.push(...all.flatMap(faultsOf));
          const named = all.flatMap(({ marks }) => marks);
          if (new Set(named).size !== named.length) faults.push(`wall ${wall.name}: a mark stands in two sections`);
        }
      }
      expect(faults.slice(0, 20)).toEqual([]);
      expect(count).toBeGreaterThan(40);
    },
    patience,
  );

  it('is drawn once for each condition, and names the marks that are built like it', () => {
    // By hand from the .sill files. F-1 to F-3 stand on F1 (set-back 1/2", stem 6-1/4"), F-4 is omitted, F-5 to F-8 on F2 (3/4",
    // 6-1/2"), bolts F-9, F-10, F-12 and F-13 on F3 under panels, F-11 between panels.
    expect(sections(maple, 'F').map(({ marks }) => marks)).toEqual([
      ['F-1', 'F-2', 'F-3'],
      ['F-5', 'F-6', 'F-7', 'F-8'],
      ['F-9', 'F-10', 'F-12', 'F-13'],
      ['F-11'],
    ]);
    // A3 has no new work: it is a condition all the same.
    expect(sections(maple, 'A').map(({ marks }) => marks)).toEqual([
      ['A-1', 'A-2', 'A-4', 'A-5'],
      ['A-3'],
      ['A-6', 'A-8', 'A-9'],
      ['A-7'],
      ['A-H1'],
      [],
    ]);
  });

  it('says set-back, stem, sill, head-room, tool reach and depth as they were measured', () => {
    const [plate, , bolt] = sections(maple, 'F');
    if (!plate || !bolt) throw new Error('no section');
    for (const part of [
      'set-back 1/2"',
      '6-1/4"',
      'sill F1, 1-5/8" x 5-5/8"',
      'head-room 11-1/8"',
      '4-3/4" deep in concrete',
      'ledge 2"',
      'joist ends on the wall, 1-5/8" x 9-1/2"',
    ])
      expect(words(plate)).toContain(part);
    // 4" of concrete, the sill of 1-5/8" and a nailer of 1-1/2".
    for (const part of [
      'set-back 0"',
      'head-room 25-1/8"',
      '4" deep in concrete: 5/8" bit, 7-1/8" from top of nailer',
      'drill and bit: 24" over the sill',
      'showing 1\'-2"',
      'outside soil 8" below its top',
    ])
      expect(words(bolt)).toContain(part);
  });

  it('is true to its scale', () => {
    for (const [units, perInch] of [
      [undefined, 25.4 / 8],
      ['metric', 25.4 / 10],
    ] as const) {
      const bolt = sections(maple, 'F', units)[3];
      if (!bolt) throw new Error('no section');
      const [rod] = strokesOf(bolt, (node) => node.kind === 'line' && node.stroke.pen === 'rod');
      const [washer] = strokesOf(bolt, (node) => node.kind === 'rect' && node.fill === 'new');
      if (rod?.kind !== 'line' || washer?.kind !== 'rect') throw new Error('no rod');
      // From the washer on the sill (1-5/8") to the foot of the hole, 4" below the top of the concrete; the washer is 3" wide.
      expect(rod.to[1] - (washer.y + washer.height)).toBeCloseTo((1.625 + 4) * perInch, 2);
      expect(washer.width).toBeCloseTo(3 * perInch, 2);
      // The middle of a board of 5-5/8" that stands flush (set-back 0): half of it outwards from the inside face.
      const faces = strokesOf(
        bolt,
        (node) => node.kind === 'line' && node.stroke.pen === 'P1' && node.from[0] === node.to[0],
      );
      const inside = Math.max(...faces.map((node) => (node.kind === 'line' ? node.from[0] : 0)));
      expect(inside - rod.to[0]).toBeCloseTo((5.625 / 2) * perInch, 2);
    }
  });

  it('draws what nobody recorded in short heavy dashes, and names it', () => {
    const [known] = sections(maple, 'C');
    const [unknown] = sections(maple, 'G');
    if (!known || !unknown) throw new Error('no section');
    const dashes = (section: WallSection): number =>
      strokesOf(section, (node) => 'stroke' in node && node.stroke?.line === 'not-recorded').length;
    for (const part of [
      'SET-BACK NOT RECORDED',
      'head-room not recorded',
      'thickness not recorded',
      'ground inside not recorded',
    ])
      expect(words(unknown)).toContain(part);
    expect(words(known)).not.toContain('SET-BACK NOT RECORDED');
    expect(dashes(unknown)).toBeGreaterThan(dashes(known));
  });

  it('comes with basis, cautions and watermark where it leaves the tool', () => {
    const basis = basisOf(maple, nothingFound);
    const scene = drawSections({ layout: maple, walls: [wallOf(maple, 'A')], checked: nothingFound, basis });
    const all = wordsOf(scene);
    for (const line of [...basis.lines, ...beforeAnyHole]) expect(all).toContain(line);
    expect(all).toContain('DEMO VALUES');
    expect(collisions(scene)).toEqual([]);
    const svg = (): string =>
      sceneToSvg(drawSections({ layout: mapleLayout(), walls: [wallOf(maple, 'A')], checked: nothingFound, basis }), {
        colours: 'paper',
      });
    expect(svg()).toBe(sceneToSvg(scene, { colours: 'paper' }));
  });
});
