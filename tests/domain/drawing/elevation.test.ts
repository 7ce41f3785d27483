import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { textBox } from '../../../language/domain/drawing/lettering.ts';
import type { Group, Scene } from '../../../language/domain/drawing/scene.ts';
import { walkScene } from '../../../language/domain/drawing/scene.ts';
import { boundsOf } from '../../../language/domain/drawing/scene-bounds.ts';
import { sceneToSvg } from '../../../language/domain/drawing/svg.ts';
import type { Layout } from '../../../language/domain/model/layout.ts';
import type { Finding } from '../../../language/domain/rules/finding.ts';
import { formatStation } from '../../../language/domain/units/format-length.ts';
import { inches, type Length } from '../../../language/domain/units/length.ts';
import {
  collisions,
  crossedTexts,
  elevationOf,
  finding,
  groupsOf,
  mapleLayout,
  paperOf,
  read,
  testBasis,
  textsOf,
  wallOf,
  wordsOf,
} from './drawn.ts';
import { randomWall } from './random-wall.ts';

const maple = mapleLayout();
const perimeter = maple.walls.filter((wall) => wall.role === 'perimeter').map((wall) => wall.name);

/** A finding of every kind at every anchor and thing: worse than any real house. */
function manyFindings(layout: Layout, name: string) {
  const wall = wallOf(layout, name);
  const severities = ['error', 'warning', 'info', 'stop'] as const;
  return [...wall.anchors, ...wall.foundAnchors].map((anchor, index) =>
    finding(layout, wall, {
      severity: severities[index % 4] ?? 'error',
      thing: anchor.id,
      station: anchor.station,
      ...(index % 5 === 4 ? { accepted: 'the official agreed' } : {}),
    }),
  );
}

const tapeLeft = (scene: Scene): number => {
  const tape = groupsOf(scene, (group) => group.role === 'tape' && group.hidden === true)[0];
  const body = tape?.node.nodes[0];
  if (body?.kind !== 'rect') throw new Error('no tape');
  return body.x;
};

const glyphsOf = (scene: Scene, thing: string): readonly Group[] =>
  groupsOf(scene, (group) => group.thing === thing && group.role === 'thing').map(({ node }) => node);

describe.each(perimeter)('the elevation of wall %s of the demo house', (name) => {
  const scenes = [
    elevationOf(maple, name),
    elevationOf(maple, name, { findings: manyFindings(maple, name) }),
    elevationOf(maple, name, { units: 'metric' }),
  ];

  it('has no text on another text or under a marker', () => {
    for (const scene of scenes) expect(collisions(scene)).toEqual([]);
  });

  it('has no text crossed by a heavy line', () => {
    for (const scene of scenes) expect(crossedTexts(scene)).toEqual([]);
  });

  it('keeps every text on its sheet', () => {
    for (const scene of scenes) {
      for (const { node } of textsOf(scene)) {
        const box = textBox(node);
        expect(box.x, node.text).toBeGreaterThanOrEqual(0);
        expect(box.x + box.width, node.text).toBeLessThanOrEqual(scene.width);
        expect(box.y, node.text).toBeGreaterThanOrEqual(0);
        expect(box.y + box.height, node.text).toBeLessThanOrEqual(scene.height);
      }
    }
  });

  it('shows each new mark once, with its station under it', () => {
    const wall = wallOf(maple, name);
    for (const scene of scenes.slice(0, 2)) {
      for (const anchor of [...wall.anchors, ...wall.ties]) {
        const marks = textsOf(scene).filter(
          ({ node, within }) => node.text === anchor.name && within.some((group) => group.role === 'mark'),
        );
        expect(marks, anchor.name).toHaveLength(1);
        const stations = textsOf(scene).filter(
          ({ within }) =>
            within.some((group) => group.role === 'station') && within.some((group) => group.thing === anchor.id),
        );
        // What was built stands where it was built.
        const built = anchor.asBuilt?.station ?? anchor.station;
        expect(stations.map(({ node }) => node.text)).toEqual(
          built === undefined ? [] : [formatStation(built, 'feet-inches')],
        );
      }
    }
  });

  it('has every thing of the wall in it', () => {
    const wall = wallOf(maple, name);
    const ids = new Set(
      groupsOf(scenes[0] as Scene, (group) => group.thing !== undefined).map(({ node }) => node.thing),
    );
    for (const thing of [
      ...wall.anchors,
      ...wall.foundAnchors,
      ...wall.obstructions,
      ...wall.defects,
      ...wall.pieces,
      ...wall.foundation,
      ...wall.panels,
      ...wall.ties,
      ...wall.angles,
      ...wall.blocking,
    ]) {
      expect(ids, thing.id).toContain(thing.id);
    }
  });

  it('explains every symbol that it uses, and no other', () => {
    for (const scene of scenes) {
      const [used, explained] = [new Set<string>(), new Set<string>()];
      for (const { node, within } of walkScene(scene.nodes)) {
        if (node.kind !== 'group' || !node.symbol) continue;
        (within.some((group) => group.role === 'legend') ? explained : used).add(node.symbol);
      }
      expect([...explained].sort()).toEqual([...used].sort());
    }
  });

  it('says its basis, its counts and its caution', () => {
    for (const scene of scenes) {
      const words = wordsOf(scene);
      for (const line of testBasis.lines) expect(words).toContain(line);
      expect(words).toContain('Locate gas, water, power');
      expect(groupsOf(scene, (group) => group.role === 'watermark')).toHaveLength(1);
    }
  });

  it('never says more than a drawing can know', () => {
    for (const scene of scenes) {
      const svg = sceneToSvg(scene, { colours: 'screen' }).replaceAll('it does not show that the house is safe', '');
      expect(svg).not.toMatch(/\bsafe(?:ly|ty)?\b|complian|passes code|no problems/i);
    }
  });

  it('gives the same bytes for the same text', () => {
    const again = elevationOf(mapleLayout(), name);
    expect(sceneToSvg(again, { colours: 'paper' })).toBe(sceneToSvg(scenes[0] as Scene, { colours: 'paper' }));
  });
});

describe('true scale', () => {
  it.each([
    ['feet-inches', 24],
    ['metric', 25],
  ] as const)('puts every anchor at its station, %s at 1:%d, to a hundredth of a millimetre', (units, ratio) => {
    const scene = elevationOf(maple, 'F', { units });
    const left = tapeLeft(scene);
    for (const anchor of wallOf(maple, 'F').anchors) {
      const [glyph] = glyphsOf(scene, anchor.id);
      const box = glyph && boundsOf(glyph.nodes.filter((node) => node.kind !== 'group' || node.symbol !== 'moved'));
      if (!box) throw new Error(`no body for ${anchor.name}`);
      const station = anchor.asBuilt?.station ?? anchor.station ?? (0 as Length);
      expect(box.x + box.width / 2, anchor.name).toBeCloseTo(left + paperOf(station, ratio), 2);
    }
  });

  it('makes a foot of the tape half an inch, and its ticks inches (12.7 mm: 1/2 in = 1 ft)', () => {
    const scene = elevationOf(maple, 'F');
    const left = tapeLeft(scene);
    const tape = groupsOf(scene, (group) => group.role === 'tape' && group.hidden === true)[0];
    const ticks = new Set<number>();
    for (const node of tape?.node.nodes ?? []) {
      if (node.kind === 'path')
        for (const step of node.steps) if (step.to === 'move') ticks.add(Math.round((step.at[0] - left) * 1000));
    }
    const perInch = 25.4 / 24;
    expect(ticks.size).toBe(36 * 12 + 4);
    for (let inch = 1; inch <= 36 * 12 + 4; inch++)
      expect(
        [...ticks].some((tick) => Math.abs(tick / 1000 - inch * perInch) < 0.01),
        `${inch} in`,
      ).toBe(true);
    expect(12 * perInch).toBeCloseTo(12.7, 9);
  });

  it('draws a plate as wide as its hardware says, from the top of its sill down', () => {
    const scene = elevationOf(maple, 'F');
    const anchor = wallOf(maple, 'F').anchors[0];
    const body = anchor?.connector?.body;
    const glyph = anchor && glyphsOf(scene, anchor.id)[0];
    const box = glyph && boundsOf(glyph.nodes);
    expect(box?.width).toBeCloseTo(paperOf(body?.wide ?? (0 as Length), 24), 2);
    expect(box?.height).toBeCloseTo(paperOf(body?.tall ?? (0 as Length), 24), 2);
  });

  it('goes to the next smaller scale for a wall that no sheet takes, and says so', () => {
    const long = read(
      'wall A "long" faces north length 100\'-0"\n  foundation thick 8" showing 18" top 0" grade 10"\n',
    );
    const scene = elevationOf(long, 'A');
    expect(wordsOf(scene)).toMatch(/Scale 1\/4" = 1'-0" \(1:48\), reduced/);
  });

  it('draws a wall as long as a typing error without taking a sheet as long', () => {
    const huge = read(
      'wall A "long" faces north length 900000\'-0"\n  foundation thick 8" showing 18" top 0" grade 10"\n  joists into size 2x10 spaced 16" first 0"\nwork on A\n  anchor A-1 bolt-half at 450000\'-0"\n',
    );
    const scene = elevationOf(huge, 'A');
    expect(scene.width).toBeLessThan(1200);
    expect(sceneToSvg(scene, { colours: 'paper' }).length).toBeLessThan(500_000);
  });
});

describe('gaps', () => {
  /** By hand from the stations of the demo's wall F, piece F3: 20'-4", 21'-1", 24'-8", 28'-4", 32'-4", 35'-6". */
  it('are the differences of the stations', () => {
    const layout = read(`wall F "west" faces west length 36'-4"
  foundation thick 6" showing 14" top 0" grade 8"
  sill F3 20'-4" to end size 1-5/8" x 5-5/8" set-back 0" headroom 25-1/8" corner
work on F
  anchor F-9 bolt-half at 21'-1"
  anchor F-10 bolt-half at 24'-8"
  anchor F-11 bolt-half at 28'-4"
`);
    const gaps = groupsOf(elevationOf(layout, 'F'), (group) => group.role === 'dimension')[0];
    const texts = [...walkScene(gaps?.node.nodes ?? [])].flatMap(({ node }) =>
      node.kind === 'text' ? [node.text] : [],
    );
    expect(texts).toEqual(['9"', '3\'-7"', '3\'-8"', '8\'-0"']);
  });

  it('leave out what was omitted', () => {
    const texts = wordsOf(elevationOf(maple, 'F'));
    // F-3 at 6'-4" to the end of F1 at 9'-7": F-4 between them was omitted.
    expect(texts).toContain('3\'-3"');
  });

  it('are boxed where a finding says that they break a limit, and dashed where one is accepted', () => {
    const wall = wallOf(maple, 'F');
    const [from, to] = [wall.anchors[4]?.station, wall.anchors[5]?.station];
    const boxes = (accepted: string | undefined) =>
      groupsOf(
        elevationOf(maple, 'F', { findings: [finding(maple, wall, { station: from, stationTo: to, accepted })] }),
        (group) => group.role === 'dimension',
      )
        .flatMap(({ node }) => [...walkScene(node.nodes)])
        .filter(({ node }) => node.kind === 'rect');
    expect(boxes(undefined).map(({ node }) => node.kind === 'rect' && node.stroke?.colour)).toEqual(['error']);
    expect(boxes('agreed').map(({ node }) => node.kind === 'rect' && node.stroke?.line)).toEqual(['omitted']);
  });
});

describe('what nobody measured', () => {
  const bare = read(
    'wall A "bare" faces north length unknown\nwork on A\n  anchor A-1 bolt-half at 3\'-0"\n  anchor A-2 bolt-half\n',
  );

  it('is drawn in short heavy dashes and named, never guessed into a firm line', () => {
    const scene = elevationOf(bare, 'A');
    expect(groupsOf(scene, (group) => group.symbol === 'not-recorded').length).toBeGreaterThan(0);
    const words = wordsOf(scene);
    for (const text of ['length not recorded', 'top of concrete not recorded', 'foundation not recorded'])
      expect(words.toLowerCase()).toContain(text);
  });

  it('leaves an anchor without a station in the tray', () => {
    const scene = elevationOf(bare, 'A');
    const tray = groupsOf(scene, (group) => group.role === 'tray')[0];
    const texts = [...walkScene(tray?.node.nodes ?? [])].flatMap(({ node }) =>
      node.kind === 'text' ? [node.text] : [],
    );
    expect(texts).toEqual(['CANNOT BE PLACED', 'A-2', 'no station']);
  });

  it('sends to the tray what stands off the wall', () => {
    const off = read(
      'wall A "short" faces north length 10\'-0"\n  vent V1 40\'-0" to 41\'-0"\nwork on A\n  anchor A-1 bolt-half at 35\'-0"\n',
    );
    const words = wordsOf(elevationOf(off, 'A'));
    expect(words).toContain('A-1 35\'-0" is off the wall');
    expect(words).toContain('vent V1: 40\'-0" is off the wall');
  });

  it('draws a vent without a height with dashed head and foot, and its jambs on to the full height', () => {
    const scene = elevationOf(maple, 'F');
    const [vent] = glyphsOf(scene, 'F/vent:V4');
    const dashed = [...walkScene(vent?.nodes ?? [])].filter(
      ({ node }) => node.kind === 'line' && node.stroke.line === 'not-recorded',
    );
    expect(dashed.length).toBeGreaterThanOrEqual(4);
  });
});

describe('gas and power', () => {
  it('say where no hole may go, and that nothing is cleared', () => {
    const scene = elevationOf(maple, 'E');
    const words = wordsOf(scene);
    // Panel 18'-0" to 19'-3" and 12 in each side: common practice, no source.
    expect(words).toContain('NO HOLES 17\'-0" to 20\'-3"');
    expect(words).toContain('not cleared: locate and expose both sides first');
    expect(groupsOf(scene, (group) => group.symbol === 'warning-zone').length).toBeGreaterThan(0);
  });

  it('keep their words however many labels crowd the lane', () => {
    const vents = Array.from(
      { length: 60 },
      (_, index) => `  vent V${index} "with a long remark ${index}" ${index * 5 + 2}" to ${index * 5 + 5}"`,
    ).join('\n');
    const crowded = read(
      `wall A "x" faces north length 30'-0"\n  foundation thick 8" showing 18" top 0" grade 8"\n${vents}\n  electrical-panel EP 18'-0" to 19'-3" zone 10" to 15" below top live\n`,
    );
    const scene = elevationOf(crowded, 'A');
    expect(wordsOf(scene)).toContain('NO HOLES');
    expect(wordsOf(scene)).toMatch(/\+\d+ in schedule/);
    expect(collisions(scene)).toEqual([]);
  });

  it('show a meter as a service that nobody knows', () => {
    const meter = read(
      'wall A "x" faces north length 20\'-0"\n  foundation thick 8" showing 18" top 0" grade 8"\n  meter M1 8\'-0" to 9\'-0"\n',
    );
    const scene = elevationOf(meter, 'A');
    expect(wordsOf(scene)).toMatch(/gas or power \(M1\), not cleared/);
    expect(groupsOf(scene, (group) => group.symbol === 'unknown-service').length).toBeGreaterThan(0);
  });
});

describe('found, proposed, set by hand, omitted and failed', () => {
  it('look different in black and white', () => {
    const wall = wallOf(maple, 'F');
    const looks = (['planned', 'omitted', 'failed', 'installed'] as const).flatMap((state) =>
      [false, true].map((proposed) => {
        const layout: Layout = {
          ...maple,
          walls: maple.walls.map((each) =>
            each === wall
              ? {
                  ...wall,
                  anchors: wall.anchors.map((anchor, index) =>
                    index === 0 || index === 9 ? { ...anchor, state, proposed } : anchor,
                  ),
                }
              : each,
          ),
        };
        const scene = elevationOf(layout, 'F');
        const shown = ['F/anchor:F-1', 'F/anchor:F-10'].map((id) => {
          const groups = groupsOf(scene, (group) => group.thing === id).map(({ node }) => ({ ...node, name: '' }));
          return sceneToSvg({ ...scene, nodes: groups }, { colours: 'black-and-white' }).replace(/<desc>[^<]*/, '');
        });
        return shown;
      }),
    );
    // An omitted mark looks the same whoever placed it.
    const distinct = (index: number) => new Set(looks.map((look) => look[index]));
    expect(distinct(0).size).toBe(7);
    expect(distinct(1).size).toBe(7);
  });
});

describe('a set for the engineer', () => {
  it('says so on a strip across the sheet', () => {
    const scene = elevationOf(maple, 'F', {
      basis: {
        ...testBasis,
        label: "for engineer's review",
        stopped: true,
        because: '1 stop: screening/cripple-too-tall on wall F',
      },
    });
    expect(wordsOf(scene)).toContain("FOR ENGINEER'S REVIEW 1 stop: screening/cripple-too-tall on wall F");
    expect(wordsOf(elevationOf(maple, 'F'))).not.toContain("FOR ENGINEER'S REVIEW");
  });

  it('has no watermark where no value is invented', () => {
    expect(
      groupsOf(
        elevationOf(maple, 'F', { basis: { ...testBasis, demo: false } }),
        (group) => group.role === 'watermark',
      ),
    ).toEqual([]);
  });
});

describe('findings', () => {
  it('have one number in the drawing and in the list', () => {
    const findings = manyFindings(maple, 'F');
    const scene = elevationOf(maple, 'F', { findings });
    const numbers = (inList: boolean) =>
      groupsOf(scene, (group) => group.role === 'finding')
        .filter(({ within }) => within.some((group) => group.role === 'list') === inList)
        .map(({ node }) => /^finding (\d+)/.exec(node.name ?? '')?.[1])
        .sort();
    expect(numbers(true)).toEqual(findings.map((_, index) => String(index + 1)).sort());
    expect(numbers(false)).toEqual(numbers(true));
  });

  it('never lose a stop or an error from the drawing, however many there are', () => {
    const wall = wallOf(maple, 'F');
    const findings = Array.from({ length: 150 }, (_, index) =>
      finding(maple, wall, { severity: index % 3 === 0 ? 'info' : 'error', station: inches(10 + (index % 7)) }),
    );
    const scene = elevationOf(maple, 'F', { findings });
    const drawn = groupsOf(scene, (group) => group.symbol === 'error' || group.symbol === 'stop').filter(
      ({ within }) => !within.some((group) => group.role === 'list' || group.role === 'legend'),
    );
    expect(drawn).toHaveLength(100);
  });

  it('say what their number rests on', () => {
    const words = wordsOf(elevationOf(maple, 'F', { findings: [finding(maple, wallOf(maple, 'F'))] }));
    expect(words).toContain('Table A304.3.1 (recalled; confirm in your adopted copy)');
  });
});

describe('for a person who hears the drawing', () => {
  it('names an anchor in full words', () => {
    const [glyph] = glyphsOf(elevationOf(maple, 'F'), 'F/anchor:F-11');
    expect(glyph?.name).toBe(
      'anchor F-11, bolt through the sill, 28 feet 4 inches from the south-west corner, piece F3, issued, set by hand, no finding',
    );
  });

  it('says each thing once', () => {
    const scene = elevationOf(maple, 'F');
    const said = groupsOf(scene, (group) => group.name !== undefined && group.role === 'thing' && !group.hidden)
      .filter(({ within }) => !within.some((group) => group.hidden))
      .map(({ node }) => node.thing);
    expect(new Set(said).size).toBe(said.length);
  });
});

describe('any wall', () => {
  it('has no collisions, leaves nothing out and stays on its sheet', () => {
    fc.assert(
      fc.property(randomWall, ({ text, severities }) => {
        const layout = read(text);
        const wall = wallOf(layout, 'W');
        const findings = severities.map((severity, index) =>
          finding(layout, wall, {
            severity,
            station: wall.anchors[index % Math.max(1, wall.anchors.length)]?.station ?? inches(index * 5),
          }),
        );
        const scene = elevationOf(layout, 'W', { findings });
        expect(collisions(scene)).toEqual([]);
        expect(crossedTexts(scene)).toEqual([]);
        for (const { node } of textsOf(scene)) {
          const box = textBox(node);
          expect(box.x).toBeGreaterThanOrEqual(0);
          expect(box.x + box.width).toBeLessThanOrEqual(scene.width + 1e-6);
        }
        const marks = textsOf(scene).filter(
          ({ within }) =>
            within.some((group) => group.role === 'mark') && !within.some((group) => group.role === 'legend'),
        );
        expect(marks.map(({ node }) => node.text).sort()).toEqual(wall.anchors.map((anchor) => anchor.name).sort());
      }),
      { numRuns: 60 },
    );
  });
});

describe('bays without rim or block', () => {
  const layout = read(`wall A faces north length 16'-0"
  foundation thick 8" showing 18" top 0" grade 8"
  sill A1 size 1-1/2" x 5-1/2" set-back 0"
  joists into size 1-1/2" x 7-1/2" spaced 16" first 0"
  blocking odd bays
`);
  const wall = wallOf(layout, 'A');
  const unblocked = (accepted: Finding['accepted']): Scene =>
    elevationOf(layout, 'A', {
      findings: [
        finding(layout, wall, {
          rule: 'floor/bay-unblocked',
          station: inches(0),
          stationTo: inches(96),
          accepted,
        }),
      ],
    });
  const missing = (scene: Scene): number =>
    groupsOf(scene, (group) => group.symbol === 'block-missing').filter(
      ({ within }) => !within.some((group) => group.role === 'legend'),
    ).length;

  it('are empty dashed boxes where a finding says so, and nowhere else', () => {
    // Bays 1 to 6 lie within 8 ft; of them 2, 4 and 6 have no block.
    expect(missing(unblocked(undefined))).toBe(3);
    expect(missing(elevationOf(layout, 'A'))).toBe(0);
  });

  it('are as found where somebody accepted them', () => {
    expect(missing(unblocked('a pipe fills them'))).toBe(0);
  });
});

describe('a thing in front of the wall', () => {
  const penOf = (off: string): unknown => {
    const layout = read(`rules existing-building
wall A faces north length 16'-0"
  foundation thick 8" showing 18" top 0" grade 8"
  water-heater WH 4'-0" to 6'-0" zone 4" to 30" below top ${off}
`);
    const [sign] = groupsOf(elevationOf(layout, 'A'), (group) => group.symbol === 'thing-in-the-way');
    const [edge] = sign?.node.nodes ?? [];
    return edge?.kind === 'line' ? edge.stroke.pen : edge?.kind;
  };

  it('is drawn heavy where it stands nearer than a tool needs, or nobody measured how near', () => {
    expect([penOf('off 2"'), penOf('off unknown'), penOf('off 8\'-0"')]).toEqual(['P1', 'P1', 'P3']);
  });
});

describe('a stepped plate and a flat one', () => {
  it('differ by the line of the step', () => {
    const layout = read(`wall A faces north length 16'-0"
  foundation thick 8" showing 18" top 0" grade 8"
  sill A1 size 1-1/2" x 5-1/2" set-back 0"
work on A
  anchor A-1 stepped-plate-s at 4'-0"
  anchor A-2 flat-plate at 8'-0"
`);
    const scene = elevationOf(layout, 'A');
    const steps = ['A/anchor:A-1', 'A/anchor:A-2'].map(
      (id) =>
        groupsOf(scene, (group) => group.symbol === 'side-plate-by-hand')
          .filter(({ within }) => within.some((group) => group.thing === id))
          .flatMap(({ node }) => node.nodes.filter(({ kind }) => kind === 'line')).length,
    );
    expect(steps).toEqual([1, 0]);
  });
});
