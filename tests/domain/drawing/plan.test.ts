import { describe, expect, it } from 'vitest';
import { basisOf } from '../../../language/domain/documents/basis.ts';
import { textBox } from '../../../language/domain/drawing/lettering.ts';
import { cornerNames, facing, planAxis } from '../../../language/domain/drawing/plan-axis.ts';
import type { Group, Scene } from '../../../language/domain/drawing/scene.ts';
import { walkScene } from '../../../language/domain/drawing/scene.ts';
import { boundsOf } from '../../../language/domain/drawing/scene-bounds.ts';
import type { SheetSizeName } from '../../../language/domain/drawing/sheet/sheet-sizes.ts';
import { sheetsOf } from '../../../language/domain/drawing/sheet/sheets-of.ts';
import { sceneToSvg } from '../../../language/domain/drawing/svg.ts';
import { checkLayout } from '../../../language/domain/rules/check-layout.ts';
import type { HouseOptions } from '../../support/houses/facts.ts';
import { houseOf } from '../../support/houses/house.ts';
import { readLayout } from '../../support/read-layout.ts';
import {
  collisions,
  crossedTexts,
  finding,
  groupsOf,
  mapleLayout,
  meets,
  planOf,
  read,
  testBasis,
  textsOf,
  tight,
  wallOf,
  wordsOf,
} from './drawn.ts';
import { workHouse } from './work-house.ts';

const maple = mapleLayout();
const findings = maple.walls.flatMap((wall) =>
  wall.anchors
    .filter((_, index) => index % 3 === 0)
    .map((anchor, index) =>
      finding(maple, wall, {
        severity: (['error', 'warning', 'info'] as const)[index % 3] ?? 'error',
        thing: anchor.id,
        station: anchor.station,
      }),
    ),
);
const scene = planOf(maple);
const scenes: readonly Scene[] = [scene, planOf(maple, findings)];

const centreOf = (from: Scene, thing: string): readonly [number, number] => {
  const [glyph] = groupsOf(from, (group) => group.thing === thing && group.role === 'thing');
  const box = glyph && boundsOf(glyph.node.nodes);
  if (!box) throw new Error(`no ${thing}`);
  return [box.x + box.width / 2, box.y + box.height / 2];
};

describe('the way a wall is read', () => {
  // The survey of the demo house: A faces north and runs east, B east, C south, D east, E south, F west.
  it.each([
    ['A', 'north', 'north-west', 'north-east'],
    ['B', 'east', 'north-east', 'south-east'],
    ['C', 'south', 'south-east', 'south-west'],
    ['D', 'east', 'north-east', 'south-east'],
    ['E', 'south', 'south-east', 'south-west'],
    ['F', 'west', 'south-west', 'north-west'],
  ] as const)('wall %s faces %s, from its %s to its %s corner', (name, looks, zero, far) => {
    const axis = planAxis(wallOf(maple, name));
    if (!axis) throw new Error(name);
    expect(facing(axis)).toBe(looks);
    expect(cornerNames(axis)).toEqual({ zero, far });
  });
});

describe('the plan of the demo house', () => {
  it('has no text on another text or under a marker', () => {
    for (const each of scenes) expect(collisions(each)).toEqual([]);
  });

  it('has no text crossed by a heavy line', () => {
    for (const each of scenes) expect(crossedTexts(each)).toEqual([]);
  });

  it('keeps every text on its sheet', () => {
    for (const each of scenes) {
      for (const { node } of textsOf(each)) {
        const box = textBox(node);
        expect(box.x, node.text).toBeGreaterThanOrEqual(0);
        expect(box.y, node.text).toBeGreaterThanOrEqual(0);
        expect(box.x + box.width, node.text).toBeLessThanOrEqual(each.width);
        expect(box.y + box.height, node.text).toBeLessThanOrEqual(each.height);
      }
    }
  });

  it('shows each new mark once', () => {
    const marks = textsOf(scene)
      .filter(({ within }) => within.some((group) => group.role === 'mark'))
      .map(({ node }) => node.text);
    expect(marks.sort()).toEqual(
      maple.walls.flatMap((wall) => [...wall.anchors, ...wall.ties].map((mark) => mark.name)).sort(),
    );
  });

  it('has every thing of its perimeter in it', () => {
    const ids = new Set(groupsOf(scene, (group) => group.thing !== undefined).map(({ node }) => node.thing));
    for (const wall of maple.walls) {
      expect(ids).toContain(wall.id);
      if (wall.role !== 'perimeter') continue;
      for (const thing of [
        ...wall.anchors,
        ...wall.foundAnchors,
        ...wall.obstructions,
        ...wall.defects,
        ...wall.pieces,
        ...wall.panels,
        ...wall.ties,
        ...wall.angles,
      ])
        expect(ids, thing.id).toContain(thing.id);
    }
    for (const girder of maple.girders)
      for (const post of [girder, ...girder.posts]) expect(ids, post.id).toContain(post.id);
  });

  it('stands true to scale, north up', () => {
    // Outside corners: the south-west one is the origin, the house is 34'-3" by 36'-4" (survey, adjusted), 1:48.
    const walls = groupsOf(scene, (group) => group.symbol === 'stem-wall').filter(
      ({ within }) => !within.some((group) => group.role === 'legend'),
    );
    const box = boundsOf(walls.map(({ node }) => node));
    expect(box?.width).toBeCloseTo((34.25 * 304.8) / 48, 2);
    expect(box?.height).toBeCloseTo(((36 + 4 / 12) * 304.8) / 48, 2);
  });

  it('puts bolts between the faces of the concrete, and plates on its inner face', () => {
    const [x, y] = centreOf(scene, 'A/anchor:A-1');
    const concrete = groupsOf(scene, (group) => group.symbol === 'stem-wall').flatMap(
      ({ node }) => boundsOf(node.nodes) ?? [],
    );
    expect(concrete.some((box) => meets(tight(box), { x, y, width: 0.01, height: 0.01 }))).toBe(true);
    // Inner face of F1: 6-1/4 in from the outer one (survey).
    const west = Math.min(...concrete.map((box) => box.x));
    expect(centreOf(scene, 'F/anchor:F-1')[0] - west).toBeCloseTo((6.25 * 25.4) / 48, 2);
  });

  it('reads each wall from its ring to its arrow, clockwise', () => {
    const [fx1, fy1] = centreOf(scene, 'F/anchor:F-1');
    const [fx13, fy13] = centreOf(scene, 'F/anchor:F-13');
    expect(fy13).toBeLessThan(fy1);
    expect(Math.abs(fx13 - fx1)).toBeLessThan(3);
    expect(centreOf(scene, 'A/anchor:A-9')[0]).toBeGreaterThan(centreOf(scene, 'A/anchor:A-1')[0]);
  });

  it('explains every symbol that it uses, and no other', () => {
    for (const each of scenes) {
      const [used, explained] = [new Set<string>(), new Set<string>()];
      for (const { node, within } of walkScene(each.nodes)) {
        if (node.kind !== 'group' || !node.symbol) continue;
        (within.some((group: Group) => group.role === 'legend') ? explained : used).add(node.symbol);
      }
      expect([...explained].sort()).toEqual([...used].sort());
    }
  });

  it('says its basis, its counts, its caution, and that no service is cleared', () => {
    const words = wordsOf(scene);
    for (const line of testBasis.lines) expect(words).toContain(line);
    expect(words).toContain('Wall E: EP electrical panel');
    expect(words).toContain('Locate and expose both sides first.');
    expect(groupsOf(scene, (group) => group.role === 'watermark')).toHaveLength(1);
  });

  it('never says more than a drawing can know', () => {
    const svg = sceneToSvg(scene, { colours: 'paper' }).replaceAll('it does not show that the house is safe', '');
    expect(svg).not.toMatch(/\bsafe(?:ly|ty)?\b|complian|passes code|no problems/i);
  });

  it('gives the same bytes for the same text', () => {
    expect(sceneToSvg(planOf(mapleLayout()), { colours: 'paper' })).toBe(sceneToSvg(scene, { colours: 'paper' }));
  });

  it('names the spaces and the girder', () => {
    const words = wordsOf(scene);
    for (const text of ['CRAWL NORTH', 'CRAWL WEST', 'LAUNDRY, basement', 'girder GD', 'P3 6x6'])
      expect(words).toContain(text);
  });
});

describe('what has no place in plan', () => {
  const open = read(`wall A "north" faces north length 20'-0"
wall B "east" turn right length unknown
wall C "south" turn right length 20'-0"
work on C
  anchor C-1 bolt-half at 2'-0"
work on A
  anchor A-1 bolt-half
`);

  it('is listed with the reason', () => {
    const words = wordsOf(planOf(open));
    expect(words).toContain('Wall B: its length is not recorded');
    expect(words).toMatch(/Wall C: .*Marks on it: C-1/);
    expect(words).toContain('A-1 on wall A: no station');
  });

  it('leaves an empty sheet for a house without walls, with its basis', () => {
    const empty = planOf(read('layout "Nothing yet"\n'));
    expect(wordsOf(empty)).toContain(testBasis.lines[0]);
    expect(collisions(empty)).toEqual([]);
  });
});

describe('what the design does, in plan', () => {
  const everything = planOf(read(workHouse));
  const drawnSymbols = (from: Scene): ReadonlySet<string> =>
    new Set(
      groupsOf(from, (group) => group.symbol !== undefined)
        .filter(({ within }) => !within.some((group) => group.role === 'legend'))
        .map(({ node }) => node.symbol ?? ''),
    );

  it.each(['new-washer', 'remedied-defect', 'strap', 'added-stud', 'flat-block', 'crack', 'sister-board', 'new-sill'])(
    'has a sign of its own for %s',
    (symbol) => {
      expect(drawnSymbols(everything)).toContain(symbol);
    },
  );

  it('draws a board that comes out in dashes', () => {
    const surveyed = read(`wall A faces north length 20'-0"
  foundation thick 8" showing 18" top 0"
  sill A1 0" to 10'-0" size 1-1/2" x 5-1/2" set-back 0"
  sill A2 10'-0" to end size 1-1/2" x 5-1/2" set-back 0"
`);
    expect(drawnSymbols(planOf(surveyed))).not.toContain('removed-wood');
    const walls = surveyed.walls.map((wall) => ({
      ...wall,
      foundPieces: wall.pieces,
      pieces: wall.pieces.filter(({ name }) => name !== 'A1'),
    }));
    const layout = { ...surveyed, walls };
    expect(drawnSymbols(planOf(layout))).toContain('removed-wood');
  });

  it('says in each stretch without holes where it lies and why, and asks where nobody knows what is in it', () => {
    const layout = read(`rules existing-building
wall A faces north length 30'-0"
  foundation thick 8" showing 18" top 0"
  gas-pipe GP 4'-0" to 8'-0" zone 4" to 6" below top
  meter M1 20'-0" to 21'-0" zone 4" to 16" below top
`);
    const drawn = planOf(layout);
    expect(wordsOf(drawn)).toMatch(
      /NO HOLES 3'-\S+ to 8'-\S+ gas \(GP\), not cleared: locate and expose both sides first/,
    );
    expect(wordsOf(drawn)).toMatch(/NO HOLES \S+ to \S+ gas or power \(M1\), not cleared/);
    expect(drawnSymbols(drawn)).toContain('warning-zone');
    expect(drawnSymbols(drawn)).toContain('unknown-service');
    const questions = textsOf(drawn).filter(
      ({ node, within }) => node.text === '?' && !within.some(({ role }) => role === 'legend'),
    );
    expect(questions.length).toBeGreaterThan(0);
  });

  it('names in the list what found no room in the drawing, and counts it there', () => {
    const pipes = Array.from({ length: 90 }, (_, index) => `  pipe Q${index + 1} at ${12 + index}"`).join('\n');
    const crowded = planOf(
      read(`wall A faces north length 9'-0"
  foundation thick 8" showing 18" top 0"
${pipes}
wall B turn right length 5'-0"
wall C turn right length 9'-0"
wall D turn right length 5'-0"
`),
    );
    const count = Number(/\+(\d+) in the list/.exec(wordsOf(crowded))?.[1]);
    expect(count).toBeGreaterThan(10);
    const named = new Set(wordsOf(crowded).match(/\bQ\d+ pipe/g));
    expect(named.size).toBe(90);
    expect(collisions(crowded)).toEqual([]);
  });
});

describe('walls that face each other across a narrow court', () => {
  const lengths = { A: 12, B: 14, C: 4, D: 14, E: 14, F: 36, G: 30, H: 36 };
  const turns: Readonly<Record<string, string>> = { C: 'turn left', D: 'turn left' };
  const layout = read(
    Object.entries(lengths)
      .map(([name, long]) => {
        const marks = Array.from({ length: Math.floor(long / 3) }, (_, index) => 1 + 3 * index);
        return `wall ${name} ${name === 'A' ? 'faces north' : (turns[name] ?? 'turn right')} length ${long}'-0"
  foundation thick 8" showing 18" top 0"
  sill ${name}1 0" to ${long / 2}'-0" size 1-1/2" x 5-1/2" set-back 0" butt
  sill ${name}2 ${long / 2}'-0" to end size 1-1/2" x 5-1/2" set-back 0"
work on ${name}
${marks.map((at, index) => `  anchor ${name}-${index + 1} stepped-plate-s at ${at}'-0"`).join('\n')}`;
      })
      .join('\n'),
  );
  const drawn = planOf(layout);

  it('keep their strings beside them: in the court, or inside their own wall', () => {
    for (const wall of layout.walls.filter(({ name }) => name === 'B' || name === 'D')) {
      expect(wall.anchors.length).toBeGreaterThan(3);
      for (const { id, name } of wall.anchors) {
        const [frame] = groupsOf(drawn, ({ role }) => role === 'mark').filter(({ within }) =>
          within.some((group) => group.thing === id),
        );
        const box = frame && boundsOf(frame.node.nodes);
        expect(Math.abs((box ? box.x + box.width / 2 : 0) - centreOf(drawn, id)[0]), name).toBeLessThan(20);
      }
    }
  });

  it('have no text on another nor under a heavy line', () => {
    expect(collisions(drawn)).toEqual([]);
    expect(crossedTexts(drawn)).toEqual([]);
  });
});

describe('other shapes of houses', () => {
  const shapes: Readonly<Record<string, string>> = {
    'a bay at 45 degrees': `wall A faces north length 20'-0"
wall B turn right length 10'-0"
wall C turn 45° length 6'-0"
wall D turn 45° length 8'-0"
wall E turn 45° length 6'-0"
wall F turn -45° length 3'-0"
`,
    'a courtyard': `wall A faces north length 40'-0"
wall B turn right length 30'-0"
wall C turn right length 14'-0"
wall D turn right length 16'-0"
wall E turn left length 12'-0"
wall F turn left length 16'-0"
wall G turn right length 14'-0"
wall H turn right length 30'-0"
`,
    'inside faces, metric': `layout "m"
  units metric
  face inside
wall A faces north length 9000 mm
wall B turn right length 6000 mm
wall C turn right length 9000 mm
wall D turn right length 6000 mm
`,
  };
  it.each(Object.entries(shapes))('%s has no collisions', (_, outline) => {
    const names = [...outline.matchAll(/^wall (\w)/gm)].map((match) => match[1]);
    const text = `${outline.replace(/^(wall .*)$/gm, '$1\n  foundation thick 7" showing 18" top 0" grade 8"\n  sill size 1-5/8" x 5-5/8" set-back 1/2" headroom 11"\n  vent 1\'-0" to 2\'-0"')}
${names.map((name) => `work on ${name}\n  anchor ${name}-1 bolt-half at 0'-10"\n  anchor ${name}-2 stepped-plate-s at 2'-6"`).join('\n')}
`;
    const layout = read(text);
    const drawn = planOf(layout);
    expect(groupsOf(drawn, (group) => group.symbol === 'stem-wall').length).toBeGreaterThan(names.length);
    expect(collisions(drawn)).toEqual([]);
  });
});

describe('the printed plan of a small house on small paper', () => {
  const printed = (seed: number, options: HouseOptions, size: SheetSizeName): readonly Scene[] => {
    const { layout } = readLayout(houseOf(seed, options).text);
    const checked = checkLayout(layout);
    return sheetsOf({ layout, checked, basis: basisOf(layout, checked), size })
      .filter(({ of }) => of === 'plan')
      .map((sheet) => sheet.scene);
  };

  it.each([
    // The house is hardly wider than the words of a zone without holes: they take shorter lines.
    [11, { design: true, untidy: false }, 'A3'],
    // A bar of a step reaches into the house, where these words would stand.
    [89, { design: false, untidy: false }, 'A3'],
    // The house is full: what must be said of gas is said outside it.
    [158, { design: true, untidy: false }, '17x11'],
  ] as const)('house %i has no word on another nor under a heavy line', (seed, options, size) => {
    const plans = printed(seed, options, size);
    expect(plans.length).toBeGreaterThan(0);
    for (const plan of plans) {
      expect(collisions(plan)).toEqual([]);
      expect(crossedTexts(plan)).toEqual([]);
    }
    expect(plans.map(wordsOf).join(' ')).toMatch(/NO HOLES/);
  });
});
