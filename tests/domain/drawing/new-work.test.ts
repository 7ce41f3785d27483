import { describe, expect, it } from 'vitest';
import type { Group, Scene, SceneNode, XY } from '../../../language/domain/drawing/scene.ts';
import { walkScene } from '../../../language/domain/drawing/scene.ts';
import { boundsOf } from '../../../language/domain/drawing/scene-bounds.ts';
import { sceneToSvg } from '../../../language/domain/drawing/svg.ts';
import type { Layout, Wall } from '../../../language/domain/model/layout.ts';
import type { MarkState } from '../../../language/domain/model/record.ts';
import {
  collisions,
  crossedTexts,
  elevationOf,
  groupsOf,
  mapleLayout,
  planOf,
  read,
  textsOf,
  wallOf,
  wordsOf,
} from './drawn.ts';
import { workHouse } from './work-house.ts';

const house = read(workHouse);
const wall = wallOf(house, 'W');
const scene = elevationOf(house, 'W');
const plan = planOf(house);
/** mm on paper of an inch at 1:24. */
const INCH = 25.4 / 24;

const drawnAt = (from: Scene, thing: string): readonly SceneNode[] =>
  groupsOf(from, (group) => group.thing === thing && group.role === 'thing').flatMap(({ node }) => node.nodes);

const withSymbol = (from: Scene, symbol: string, thing?: string): readonly Group[] =>
  groupsOf(from, (group) => group.symbol === symbol)
    .filter(({ within }) => !within.some((group) => group.role === 'legend'))
    .filter(({ within }) => thing === undefined || within.some((group) => group.thing === thing))
    .map(({ node }) => node);

/** x of station 0. */
const zeroOf = (from: Scene): number => {
  const tape = groupsOf(from, (group) => group.role === 'tape' && group.hidden === true)[0]?.node.nodes[0];
  if (tape?.kind !== 'rect') throw new Error('no tape');
  return tape.x;
};
const inchAt = (from: Scene, x: number): number => (x - zeroOf(from)) / INCH;

const nailsOf = (panel: string): readonly XY[] =>
  [...walkScene(drawnAt(scene, panel))].flatMap(({ node }) =>
    node.kind === 'path' && node.stroke?.pen === 'nail'
      ? node.steps.flatMap((step) => (step.to === 'move' ? [step.at] : []))
      : [],
  );

describe('a bracing panel', () => {
  it('stands from its first station to its last, on the sill and over the plates', () => {
    const [panel] = withSymbol(scene, 'panel', 'W/panel:W-P1');
    const outline = panel?.nodes.find((node) => node.kind === 'polyline' && node.stroke !== undefined);
    const box = outline && boundsOf([outline]);
    expect(inchAt(scene, box?.x ?? 0)).toBeCloseTo(0, 3);
    expect(inchAt(scene, (box?.x ?? 0) + (box?.width ?? 0))).toBeCloseTo(48, 3);
    // From the top of the sill, 1-5/8 in over concrete at -1'-0", to the joists' underside at +4".
    expect((box?.height ?? 0) / INCH).toBeCloseTo(16 - 1.625, 3);
  });

  it('has edge nails at their true spacing', () => {
    const nails = nailsOf('W/panel:W-P1');
    const topmost = Math.min(...nails.map(([, y]) => y));
    const along = nails
      .filter(([, y]) => Math.abs(y - topmost) < 0.01)
      .map(([x]) => inchAt(scene, x))
      .sort((a, b) => a - b);
    // 4 in apart over 48 in: 13 nails; the outer two are drawn a little inside the corners.
    const inner = [...new Set(along.map((x) => Math.round(x * 1000) / 1000))].slice(1, -1);
    expect(inner).toEqual([4, 8, 12, 16, 20, 24, 28, 32, 36, 40, 44]);
  });

  it('has field nails on its studs', () => {
    const field = nailsOf('W/panel:W-P3').map(([x]) => Math.round(inchAt(scene, x) * 100) / 100);
    // Studs at 16 in from station 0: those between 20'-0" and 24'-0" stand at 256 and 272 in.
    expect(field).toContain(256);
    expect(field).toContain(272);
  });

  it('has vent holes at their true size, clear of nailers and plates by an inch', () => {
    const holes = [...walkScene(drawnAt(scene, 'W/panel:W-P1'))].flatMap(({ node }) =>
      node.kind === 'circle' && node.stroke?.colour === 'panel' ? [node] : [],
    );
    expect(holes.length).toBeGreaterThanOrEqual(6);
    const box = boundsOf(withSymbol(scene, 'panel', 'W/panel:W-P1'));
    for (const hole of holes) {
      expect(hole.radius / INCH).toBeCloseTo(1.25, 6);
      // Foot of the panel, nailer 1-1/2 in, an inch clear.
      expect(((box?.y ?? 0) + (box?.height ?? 0) - hole.centre[1] - hole.radius) / INCH).toBeGreaterThanOrEqual(
        2.5 - 0.2,
      );
    }
  });

  it('lets the studs behind it show through its tint', () => {
    expect(sceneToSvg(scene, { colours: 'paper' })).toMatch(/fill-opacity="0\.6"/);
  });

  it('lifts the nut of a bolt by its nailer', () => {
    const washerOf = (thing: string): number => {
      const box = boundsOf(withSymbol(scene, 'bolt-by-hand', thing));
      return box?.y ?? 0;
    };
    // W-1 stands in W-P1 with nailers 1-1/2 in thick, W-6 in W-P3 without.
    expect((washerOf('W/anchor:W-6') - washerOf('W/anchor:W-1')) / INCH).toBeCloseTo(1.5, 3);
  });

  it('has its mark and length once in the rows, and in the plan', () => {
    for (const [drawn, where] of [
      [scene, 'row'],
      [plan, 'found-label'],
    ] as const) {
      const names = textsOf(drawn).filter(
        ({ node, within }) => node.text.startsWith('W-P1  4\'-0"') && within.some((group) => group.role === where),
      );
      expect(names).toHaveLength(1);
    }
  });
});

describe('what was built', () => {
  it('stands where the record says, with a ghost at its planned place', () => {
    const bolt = boundsOf(withSymbol(scene, 'bolt-by-hand', 'W/anchor:W-2'));
    expect(inchAt(scene, (bolt?.x ?? 0) + (bolt?.width ?? 0) / 2)).toBeCloseTo(63, 3);
    const ghost = boundsOf(withSymbol(scene, 'moved', 'W/anchor:W-2'));
    expect(inchAt(scene, (ghost?.x ?? 0) + (ghost?.width ?? 0) / 2)).toBeCloseTo(60, 3);
    expect(wordsOf(scene)).toContain('5\'-3" was 5\'-0"');
  });

  it('says where its place was never written down', () => {
    expect(wordsOf(scene)).toContain('10\'-0" as designed; built place not recorded');
    expect(withSymbol(scene, 'moved', 'W/anchor:W-3')).toEqual([]);
  });

  it('is measured in the gaps, and what was omitted leaves them', () => {
    const gaps = groupsOf(scene, (group) => group.role === 'dimension').flatMap(({ node }) =>
      [...walkScene(node.nodes)].flatMap(({ node: shape }) => (shape.kind === 'text' ? [shape.text] : [])),
    );
    // S1: 0, 1'-0", 5'-3" (built), 10'-0", 14'-0", W-5 failed, end 20'-0". S2: 21'-2" (built), W-7 omitted, 31'-0", end 32'-0".
    expect(gaps).toEqual(['1\'-0"', '4\'-3"', '4\'-9"', '4\'-0"', '6\'-0"', '1\'-2"', '9\'-10"', '1\'-0"']);
  });

  it('keeps the cross of a failed test, and loses it when something is installed anew', () => {
    expect(withSymbol(scene, 'failed', 'W/anchor:W-5').length).toBeGreaterThan(0);
    expect(withSymbol(scene, 'failed', 'W/anchor:W-6')).toEqual([]);
    expect(withSymbol(scene, 'installed', 'W/anchor:W-6')).toHaveLength(1);
  });

  it('has no bar of an issued mark any more: that is for what is still to be built', () => {
    expect(withSymbol(scene, 'issued', 'W/anchor:W-1')).toEqual([]);
    expect(withSymbol(scene, 'issued', 'W/anchor:W-4')).toHaveLength(1);
    const unissued = elevationOf({ ...house, issues: [] }, 'W');
    expect(withSymbol(unissued, 'issued')).toEqual([]);
  });

  it('stands at its place in the plan too', () => {
    const dot = boundsOf(withSymbol(plan, 'bolt-by-hand', 'W/anchor:W-2'));
    const other = boundsOf(withSymbol(plan, 'bolt-by-hand', 'W/anchor:W-1'));
    // 5'-3" less 1'-0" at 1:48.
    expect((dot?.x ?? 0) - (other?.x ?? 0)).toBeCloseTo((51 * 25.4) / 48, 2);
    expect(withSymbol(plan, 'moved', 'W/anchor:W-2')).toHaveLength(1);
  });
});

describe('what the design does to found things', () => {
  it.each([
    ['removed-thing', 'W/stack:ST'],
    ['relocated-thing', 'W/water-heater:WH'],
    ['remedied-defect', 'W/crack:CR'],
    ['new-washer', 'W/found-anchor:X2'],
    ['found-anchor-removed', 'W/found-anchor:X1'],
    ['found-anchor-removed', 'W/found-anchor:X3'],
  ])('shows %s on %s', (symbol, thing) => {
    const all = groupsOf(scene, (group) => group.symbol === symbol).filter(({ within }) =>
      within.some((group) => group.thing?.endsWith(thing.slice(thing.indexOf(':')))),
    );
    expect(all, thing).toHaveLength(1);
  });

  it('says it in the label of the thing', () => {
    const words = wordsOf(scene);
    for (const text of ['to be removed', 'to be relocated', 'abandoned', 'new washer', 'seen to by the design'])
      expect(words).toContain(text);
  });

  it('shows new studs, joists and boards as new wood', () => {
    expect(withSymbol(scene, 'added-stud')).toHaveLength(1);
    expect(withSymbol(scene, 'replaced-wood')).toHaveLength(2);
    expect(withSymbol(scene, 'sister-board')).toHaveLength(1);
    expect(withSymbol(scene, 'new-sill')).toHaveLength(1);
    expect(withSymbol(scene, 'block-proposed')).toHaveLength(1);
    expect(withSymbol(scene, 'block-new')).toHaveLength(2);
  });
});

/** Residuals of x = x0 + k * station, by least squares; stations in inches, x in mm on paper. */
function residuals(points: readonly { readonly station: number; readonly x: number }[]) {
  const mean = (pick: (point: (typeof points)[number]) => number): number =>
    points.reduce((sum, point) => sum + pick(point), 0) / points.length;
  const [station, x] = [mean((point) => point.station), mean((point) => point.x)];
  const covariance = mean((point) => (point.station - station) * (point.x - x));
  const k = covariance / mean((point) => (point.station - station) ** 2);
  const x0 = x - k * station;
  return { k, worst: Math.max(...points.map((point) => Math.abs(point.x - x0 - k * point.station))) };
}

describe('stations of every glyph', () => {
  const inches = (length: number): number => length / 25_400_000;

  it('lie on one line x = x0 + k * station, true to scale, within 0.05 mm', () => {
    const middle = (nodes: readonly SceneNode[], thing: string): number => {
      const box = boundsOf(nodes);
      if (!box) throw new Error(`nothing drawn of ${thing}`);
      return box.x + box.width / 2;
    };
    const points = [
      ...[...wall.anchors, ...wall.ties].map((mark) => ({
        station: inches(mark.asBuilt?.station ?? mark.station ?? 0),
        x: middle(
          drawnAt(scene, mark.id).filter((node) => node.kind !== 'group' || node.symbol !== 'moved'),
          mark.id,
        ),
      })),
      ...wall.panels.map((panel) => ({
        station: inches(((panel.stretch?.from ?? 0) + (panel.stretch?.to ?? 0)) / 2),
        x: middle(
          drawnAt(scene, panel.id).flatMap((node) =>
            node.kind === 'group' ? node.nodes.filter((each) => each.kind === 'polyline') : [],
          ),
          panel.id,
        ),
      })),
      ...wall.angles.flatMap((run) => {
        const glyphs = drawnAt(scene, run.id);
        expect(glyphs).toHaveLength(run.stations.length);
        return run.stations.map((station, index) => ({
          station: inches(station),
          x: middle(glyphs.slice(index, index + 1), run.id),
        }));
      }),
      ...wall.foundAnchors.map((anchor) => ({
        station: inches(anchor.station ?? 0),
        x: middle(drawnAt(scene, anchor.id), anchor.id),
      })),
      ...wall.obstructions.map((thing) => ({
        station: inches(((thing.stretch?.from ?? 0) + (thing.stretch?.to ?? 0)) / 2),
        x: middle(
          drawnAt(scene, thing.id).flatMap((node) =>
            node.kind === 'group' && node.symbol !== 'relocated-thing' ? [node] : [],
          ),
          thing.id,
        ),
      })),
    ];
    expect(points.length).toBeGreaterThan(38);
    const { k, worst } = residuals(points);
    expect(worst).toBeLessThan(0.05);
    expect(k).toBeCloseTo(INCH, 4);
  });
});

describe('black and white, and grey', () => {
  const states: readonly MarkState[] = ['planned', 'installed', 'omitted', 'failed'];
  const changed = (change: (wall: Wall) => Partial<Wall>): Layout => ({
    ...house,
    walls: house.walls.map((each) => (each.id === wall.id ? { ...each, ...change(each) } : each)),
  });
  /** What is drawn of a thing, its names left out. */
  const look = (layout: Layout, thing: string, grey: boolean): string => {
    const drawn = elevationOf(layout, 'W');
    const nodes = groupsOf(drawn, (group) => group.thing === thing).map(({ node }) => ({ ...node, name: '' }));
    const svg = sceneToSvg({ ...drawn, nodes }, { colours: grey ? 'paper' : 'black-and-white' }).replace(
      /<desc>[^<]*/,
      '',
    );
    return grey ? svg.replace(/#([0-9a-f]{2})([0-9a-f]{2})([0-9a-f]{2})\b/g, (_, r, g, b) => greyOf(r, g, b)) : svg;
  };
  const greyOf = (r: string, g: string, b: string): string => {
    const [red, green, blue] = [r, g, b].map((part) => Number.parseInt(part, 16));
    // Luma of ITU-R BT.601 (0.299 R + 0.587 G + 0.114 B), as a copier sees it, in 16 steps.
    return `grey${Math.round((0.299 * (red ?? 0) + 0.587 * (green ?? 0) + 0.114 * (blue ?? 0)) / 16)}`;
  };
  const kinds = [
    [
      'a panel',
      'W/panel:W-P1',
      (state: MarkState, proposed: boolean) =>
        changed((each) => ({
          panels: each.panels.map((panel, index) => (index === 0 ? { ...panel, state, proposed } : panel)),
        })),
    ],
    [
      'a hold-down',
      'W/hold-down:W-H1',
      (state: MarkState, proposed: boolean) =>
        changed((each) => ({ ties: each.ties.map((tie, index) => (index === 0 ? { ...tie, state, proposed } : tie)) })),
    ],
    [
      'a strap',
      'W/strap:W-T1',
      (state: MarkState, proposed: boolean) =>
        changed((each) => ({ ties: each.ties.map((tie, index) => (index === 2 ? { ...tie, state, proposed } : tie)) })),
    ],
    [
      'a plate',
      'W/anchor:W-3',
      (state: MarkState, proposed: boolean) =>
        changed((each) => ({
          anchors: each.anchors.map((anchor, index) => (index === 2 ? { ...anchor, state, proposed } : anchor)),
        })),
    ],
  ] as const;

  it.each(kinds)('tell planned, proposed, installed, omitted and failed of %s apart', (_, thing, layoutWith) => {
    expect(groupsOf(scene, (group) => group.thing === thing).length, thing).toBeGreaterThan(0);
    for (const grey of [false, true]) {
      const looks = states.flatMap((state) =>
        [false, true].map((proposed) => look(layoutWith(state, proposed), thing, grey)),
      );
      // An omitted mark looks the same whoever placed it.
      expect(new Set(looks).size, grey ? 'grey' : 'black and white').toBe(7);
    }
  });

  it('tell a new block, a proposed one and a found one apart', () => {
    const looks = ['block-found', 'block-new', 'block-proposed'].map((symbol) => {
      const [block] = withSymbol(scene, symbol);
      return sceneToSvg({ ...scene, nodes: block ? [block] : [] }, { colours: 'black-and-white' })
        .replace(/<desc>[^<]*/, '')
        .replace(/[xyd]="[^"]*"/g, '');
    });
    expect(new Set(looks).size).toBe(3);
  });
});

describe('the sheets of a wall with everything on it', () => {
  const sheets: readonly (readonly [string, Scene])[] = [
    ['elevation', scene],
    ['metric elevation', elevationOf(house, 'W', { units: 'metric' })],
    ['plan', plan],
  ];

  it.each(sheets)('the %s has no text on another, nor under a heavy line', (_, drawn) => {
    expect(collisions(drawn)).toEqual([]);
    expect(crossedTexts(drawn)).toEqual([]);
  });

  it.each(sheets)('the %s explains every symbol that it uses, and no other', (_, drawn) => {
    const [used, explained] = [new Set<string>(), new Set<string>()];
    for (const { node, within } of walkScene(drawn.nodes)) {
      if (node.kind !== 'group' || !node.symbol) continue;
      (within.some((group) => group.role === 'legend') ? explained : used).add(node.symbol);
    }
    expect([...explained].sort()).toEqual([...used].sort());
    expect(used.size).toBeGreaterThan(20);
  });

  it.each(sheets)('the %s has every thing of the design by its id', (_, drawn) => {
    const ids = new Set(groupsOf(drawn, (group) => group.thing !== undefined).map(({ node }) => node.thing));
    for (const thing of [...wall.anchors, ...wall.ties, ...wall.panels, ...wall.angles])
      expect(ids, thing.id).toContain(thing.id);
  });

  it('leaves in the tray what has no place', () => {
    const bare = read(
      'wall A faces north length 10\'-0"\nwork on A\n  panel A-P1 30\'-0" to 34\'-0"\n  hold-down A-H1 tie-rod at 20\'-0"\n  angles A-A1 angle-8 every bay\n  blocking every bay\n',
    );
    const words = wordsOf(elevationOf(bare, 'A'));
    expect(words).toContain('panel A-P1: 30\'-0" is off the wall');
    expect(words).toContain('A-H1 20\'-0" is off the wall');
    expect(words).toContain('angles A-A1:');
    expect(words).toContain('new blocks: the joists are not recorded');
  });

  it('say a panel aloud in full words', () => {
    const maple = mapleLayout();
    const names = groupsOf(
      elevationOf(maple, 'F'),
      (group) => group.thing === 'F/panel:F-P1' && group.role === 'thing',
    );
    expect(names[0]?.node.name).toBe(
      'bracing panel F-P1, from 0 inches to 4 feet from the south-west corner, plywood, set by hand, no finding',
    );
  });
});
