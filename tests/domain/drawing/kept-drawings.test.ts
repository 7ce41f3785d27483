import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Analysis, createAnalyser } from '../../../language/analysis.ts';
import { tablesOfWall } from '../../../language/domain/documents/schedules/all-schedules.ts';
import type { FindLine } from '../../../language/domain/documents/schedules/table.ts';
import { drawElevation } from '../../../language/domain/drawing/elevation.ts';
import { occupied } from '../../../language/domain/drawing/free-room.ts';
import { nothingKept } from '../../../language/domain/drawing/kept-parts.ts';
import { createPlacing, type KnownPlacing, type Placing } from '../../../language/domain/drawing/placing.ts';
import { planOfPane } from '../../../language/domain/drawing/plan.ts';
import { createPlanMemory } from '../../../language/domain/drawing/plan-memory.ts';
import type { Box, Scene, SceneNode } from '../../../language/domain/drawing/scene.ts';
import { sceneToPictureInSteps, sceneToSvg } from '../../../language/domain/drawing/svg.ts';
import { finish } from '../../../language/domain/steps.ts';
import { changeBetween, type PieceGroup, svgOf, withChange } from '../../../language/protocol/picture.ts';
import { houseOf } from '../../support/houses/house.ts';
import { MAIN, memoryHost } from '../../support/memory-host.ts';

const isLong = process.env.SILLWRIGHT_LONG !== undefined;

/** After so many steps, as where the next key comes meanwhile. */
const leftOff = fc.option(fc.nat({ max: 200 }));
const edit = fc.record({
  kind: fc.constantFrom('digit', 'delete-line', 'double-line', 'back'),
  at: fc.nat(),
  digit: fc.constantFrom('1', '5', '9'),
  steps: leftOff,
});
const asItIs = { kind: 'back', at: 0, digit: '1' } as const;

function edited(text: string, first: string, { kind, at, digit }: { kind: string; at: number; digit: string }): string {
  const lines = text.split('\n');
  const line = at % lines.length;
  switch (kind) {
    case 'digit': {
      const place = at % text.length;
      const found = text.slice(place).search(/\d/);
      return found < 0 ? text : text.slice(0, place + found) + digit + text.slice(place + found + 1);
    }
    case 'delete-line':
      return lines.toSpliced(line, 1).join('\n');
    case 'double-line':
      return lines.toSpliced(line, 0, lines[line] ?? '').join('\n');
    default:
      return first;
  }
}

describe('a plan that keeps what an edit did not touch', () => {
  it('is the plan that is drawn afresh, and so is what its changes make of the picture before', () => {
    fc.assert(
      fc.property(fc.nat(10_000), leftOff, fc.array(edit, { minLength: 5, maxLength: 5 }), (seed, begun, edits) => {
        const first = houseOf(seed, { design: true }).text;
        const files = new Map([[MAIN, first]]);
        const analyser = createAnalyser(memoryHost(files));
        const memory = createPlanMemory();
        let shown: PieceGroup | undefined;
        for (const each of [{ ...asItIs, steps: begun }, { ...asItIs, steps: null }, ...edits]) {
          files.set(MAIN, edited(files.get(MAIN) ?? first, first, each));
          const { layout, checked, basis } = analyser.analyse(MAIN);
          const steps = planOfPane({ layout, checked, basis }, memory);
          if (each.steps !== null) {
            for (let count = 0; count < each.steps; count += 1) steps.next();
            continue;
          }
          const scene = finish(steps);
          const fresh = sceneToSvg(finish(planOfPane({ layout, checked, basis })), { colours: 'screen' });
          expect(sceneToSvg(scene, { colours: 'screen' }) === fresh, 'the same bytes').toBe(true);
          const picture = finish(sceneToPictureInSteps(scene));
          const change = shown && changeBetween(shown, picture);
          shown = shown && change ? withChange(shown, change) : picture;
          expect(shown && svgOf(shown) === fresh.replace(/\n<title>[^<]*<\/title>/, ''), 'what is sent').toBe(true);
        }
      }),
      {
        numRuns: isLong ? 400 : 6,
        // The name of a space inside stayed where it was put while a wall was missing.
        examples: [
          [
            9989,
            null,
            [
              { kind: 'delete-line', at: 1207921522, digit: '1', steps: null },
              { ...asItIs, steps: null },
            ],
          ],
        ],
      },
    );
  });

  it('draws again only the wall that was edited and those that meet it', () => {
    const text = houseOf(7, { design: true }).text;
    const anchor = /^(\s+anchor\s+\S+\s+\S+\s+at\s+)(\d)/m.exec(text);
    if (!anchor) throw new Error('the house has an anchor');
    const files = new Map([[MAIN, text]]);
    const analyser = createAnalyser(memoryHost(files));
    const memory = createPlanMemory();
    const draw = () => {
      const { layout, checked, basis } = analyser.analyse(MAIN);
      return finish(planOfPane({ layout, checked, basis }, memory));
    };
    const before = wallsIn(draw());
    files.set(MAIN, text.replace(anchor[0], `${anchor[1]}1${anchor[2]}`));
    const now = wallsIn(draw());
    expect(now.size).toBeGreaterThan(3);
    const drawn = [...now].filter(([thing, node]) => before.get(thing) !== node).map(([thing]) => thing);
    // Its corners are those of its neighbours too.
    expect(drawn).toEqual(['wall:A', 'wall:B', [...now.keys()].at(-1)]);
  });
});

describe('an elevation that keeps what an edit did not touch', () => {
  it('is the elevation that is drawn afresh, of whichever wall, as are what its changes make of the picture before, and its schedules', () => {
    const look = fc.tuple(edit, fc.nat({ max: 3 }));
    fc.assert(
      fc.property(fc.nat(10_000), fc.array(look, { minLength: 8, maxLength: 8 }), (seed, looks) => {
        const first = houseOf(seed, { design: true }).text;
        const files = new Map([[MAIN, first]]);
        const analyser = createAnalyser(memoryHost(files));
        const memory = nothingKept();
        let shown: { readonly scene: Scene; readonly picture: PieceGroup } | undefined;
        for (const [each, place] of looks) {
          files.set(MAIN, edited(files.get(MAIN) ?? first, first, each));
          const analysis = analyser.analyse(MAIN);
          const { layout, checked, basis } = analysis;
          const wall = layout.walls[place % layout.walls.length];
          if (!wall) continue;
          const scene = drawElevation({ layout, checked, basis, wall, memory }, 'pane');
          const fresh = sceneToSvg(drawElevation({ layout, checked, basis, wall }, 'pane'), { colours: 'screen' });
          expect(sceneToSvg(scene, { colours: 'screen' }) === fresh, 'the same bytes').toBe(true);
          const picture = finish(sceneToPictureInSteps(scene, shown?.scene));
          const change = shown && changeBetween(shown.picture, picture);
          const patched = shown && change ? withChange(shown.picture, change) : picture;
          expect(patched && svgOf(patched) === fresh.replace(/\n<title>[^<]*<\/title>/, ''), 'what is sent').toBe(true);
          shown = { scene, picture };
          const findLine = lineFinder(analysis);
          const tables = tablesOfWall(layout, wall, checked, findLine, memory);
          expect(tables).toEqual(tablesOfWall(layout, wall, checked, findLine));
        }
      }),
      { numRuns: isLong ? 400 : 6 },
    );
  });

  it('draws again only what says something else: of a line that was moved nothing, of one that is set by hand now the mark alone', () => {
    const text = houseOf(7, { design: true }).text;
    const anchor = /^\s+anchor\s+((\S+)-\S+)(?=.* proposed)/m.exec(text);
    if (!anchor) throw new Error('the house has an anchor');
    const files = new Map([[MAIN, text]]);
    const analyser = createAnalyser(memoryHost(files));
    const memory = nothingKept();
    const draw = (): readonly SceneNode[] => {
      const { layout, checked, basis } = analyser.analyse(MAIN);
      const wall = layout.walls.find(({ name }) => name === anchor[2]);
      if (!wall) throw new Error('the anchor is on a wall');
      const [drawn] = drawElevation({ layout, checked, basis, wall, memory }, 'pane').nodes.flatMap((node) =>
        node.kind === 'group' && node.role === 'wall' ? [node] : [],
      );
      return (drawn?.nodes ?? []).filter((node) => node.kind === 'group' && node.role === 'thing');
    };
    const first = draw();
    expect(first.length).toBeGreaterThan(3);
    // Each line of the new work is read anew; none says anything else.
    files.set(MAIN, text.replace(anchor[0], `  // here\n${anchor[0]}`));
    expect(draw().filter((node) => !first.includes(node))).toEqual([]);
    files.set(MAIN, text.replace(new RegExp(`(anchor\\s+${anchor[1]}\\s.*) proposed`), '$1'));
    const again = draw().filter((node) => !first.includes(node));
    expect(again.map((node) => node.kind === 'group' && node.thing)).toEqual([`${anchor[2]}/anchor:${anchor[1]}`]);
  });
});

function lineFinder({ locate, text }: Analysis): FindLine {
  return (span) => {
    const place = locate(span);
    return place && { file: place.file, line: text.slice(0, place.start).split('\n').length };
  };
}

function wallsIn(scene: Scene): ReadonlyMap<string, unknown> {
  const [house] = scene.nodes.filter((node) => node.kind === 'group' && node.role === 'wall');
  const inside = house?.kind === 'group' ? house.nodes : [];
  return new Map(
    inside.flatMap((node) =>
      node.kind === 'group' && node.role === 'wall' && node.thing !== undefined ? [[node.thing, node] as const] : [],
    ),
  );
}

describe('turns of placing', () => {
  const turn = fc.record({
    name: fc.constantFrom('a', 'b', 'c', 'd', 'e', 'f', 'g', 'h'),
    x: fc.constantFrom(0, 6, 13, 25, 60, 140),
    y: fc.constantFrom(0, 7, 30),
    width: fc.constantFrom(4, 9),
  });
  type Wanted = typeof turn extends fc.Arbitrary<infer Value> ? Value : never;

  /** To the right until there is room. */
  function find(wanted: Wanted, isFree: (box: Box) => boolean, take: (box: Box) => void): Box {
    let box: Box = { x: wanted.x, y: wanted.y, width: wanted.width, height: 5 };
    while (!isFree(box)) box = { ...box, x: box.x + 3 };
    take(box);
    return box;
  }

  function place(
    list: readonly Wanted[],
    before: KnownPlacing | undefined,
  ): { placing: Placing; found: Box[]; searched: number } {
    const placing = createPlacing(before);
    const room = placing.occupied();
    let searched = 0;
    const found = list.map((wanted) =>
      placing.turn(wanted.name, [wanted.x, wanted.y, wanted.width], () => {
        searched += 1;
        return find(wanted, room.isFree, room.take);
      }),
    );
    placing.end();
    return { placing, found, searched };
  }

  it('end as without any memory, whatever was placed before', () => {
    const lists = fc.array(fc.array(turn, { maxLength: 12 }), { minLength: 2, maxLength: 5 });
    fc.assert(
      fc.property(lists, (all) => {
        let known: KnownPlacing | undefined;
        for (const list of all) {
          const { placing, found } = place(list, known);
          known = placing.known;
          const room = occupied();
          expect(found).toEqual(list.map((wanted) => find(wanted, room.isFree, room.take)));
        }
      }),
      { numRuns: isLong ? 20_000 : 300 },
    );
  });

  it('are not searched again where nothing near them changed', () => {
    const far: readonly Wanted[] = [
      { name: 'a', x: 0, y: 0, width: 9 },
      { name: 'b', x: 0, y: 0, width: 9 },
      { name: 'c', x: 140, y: 0, width: 9 },
      { name: 'd', x: 140, y: 0, width: 9 },
    ];
    const { placing, searched } = place(far, undefined);
    expect(searched).toBe(4);
    expect(place(far, placing.known).searched).toBe(0);
    expect(place(far.with(0, { name: 'a', x: 0, y: 0, width: 4 }), placing.known).searched).toBe(2);
    expect(place(far.slice(1), placing.known).searched).toBe(1);
  });
});
