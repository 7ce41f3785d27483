import { describe, expect, it } from 'vitest';
import type { Group, Scene } from '../../../language/domain/drawing/scene.ts';
import { walkScene } from '../../../language/domain/drawing/scene.ts';
import { boundsOf } from '../../../language/domain/drawing/scene-bounds.ts';
import { sceneToSvg } from '../../../language/domain/drawing/svg.ts';
import type { Layout } from '../../../language/domain/model/layout.ts';
import {
  collisions,
  crossedTexts,
  finding,
  girderOf,
  girderSceneOf,
  groupsOf,
  mapleLayout,
  read,
  testBasis,
  textsOf,
  wallOf,
  wordsOf,
} from './drawn.ts';
import { workHouse } from './work-house.ts';

const draw = girderSceneOf;
const maple = mapleLayout();
const scene = draw(maple);
const house = read(workHouse);
const worked = draw(house);
/** mm on paper of an inch at 1:24. */
const INCH = 25.4 / 24;

const withSymbol = (from: Scene, symbol: string, thing?: string): readonly Group[] =>
  groupsOf(from, (group) => group.symbol === symbol)
    .filter(({ within }) => !within.some((group) => group.role === 'legend'))
    .filter(({ within }) => thing === undefined || within.some((group) => group.thing === thing))
    .map(({ node }) => node);
const boxOf = (from: Scene, symbol: string, thing?: string) => {
  const box = boundsOf(withSymbol(from, symbol, thing));
  if (!box) throw new Error(`no ${symbol} ${thing ?? ''}`);
  return box;
};

describe('the girder of the demo house', () => {
  it('has its posts at their true stations, sizes and heights', () => {
    const beam = boxOf(scene, 'girder');
    expect(beam.width / INCH).toBeCloseTo(36 * 12 + 4, 3);
    expect(beam.height / INCH).toBeCloseTo(7.5, 3);
    const post = boxOf(scene, 'post', 'GD/post:P1');
    expect((post.x + post.width / 2 - beam.x) / INCH).toBeCloseTo(72, 3);
    expect(post.y).toBeCloseTo(beam.y + beam.height, 6);
    // 6x6: 5-1/2 in; 6'-2 1/8" high (survey).
    expect(post.width / INCH).toBeCloseTo(5.5, 3);
    expect(post.height / INCH).toBeCloseTo(74.125, 3);
  });

  it('chains its spans (survey: 6\'-0", 6\'-2", 5\'-11", 6\'-2", 5\'-11", 6\'-2")', () => {
    const spans = groupsOf(scene, (group) => group.role === 'dimension').flatMap(({ node }) =>
      [...walkScene(node.nodes)].flatMap(({ node: shape }) => (shape.kind === 'text' ? [shape.text] : [])),
    );
    expect(spans).toEqual(['6\'-0"', '6\'-2"', '5\'-11"', '6\'-2"', '5\'-11"', '6\'-2"']);
  });

  it('says what was found of each post, and what nobody knows', () => {
    const words = wordsOf(scene);
    for (const text of [
      'cap toenails, base ?',
      'cap shims',
      'pier loose',
      'leans 3/4"',
      'splice 18\'-1"',
      'rests in a pocket',
    ])
      expect(words).toContain(text);
  });

  it('draws caps half on the beam at their true size, doubled where they are on both sides', () => {
    const beam = boxOf(scene, 'girder');
    const cap = boxOf(scene, 'post-cap', 'GD/post:P2');
    // cap-plates: 5-1/2 by 9 in (demo hardware).
    expect(cap.width / INCH).toBeCloseTo(5.5, 3);
    expect(cap.height / INCH).toBeCloseTo(9, 3);
    expect(cap.y + cap.height / 2).toBeCloseTo(beam.y + beam.height, 3);
    const doubled = boxOf(scene, 'post-cap', 'GD/post:P1');
    expect(doubled.width).toBeGreaterThan(cap.width + 1);
  });

  it('shows each new mark once, at its post', () => {
    const marks = textsOf(scene).filter(
      ({ within }) => within.some((group) => group.role === 'mark') && !within.some((group) => group.role === 'legend'),
    );
    expect(marks.map(({ node }) => node.text)).toEqual(['GD-C1', 'GD-C2', 'GD-B5']);
  });

  it('stands with station 0 at the left, looking west along a girder that runs north', () => {
    expect(wordsOf(scene)).toContain('From the side, looking west');
    expect(wordsOf(scene)).toContain('S end');
  });

  it('puts a finding about a post at it, and in the list', () => {
    const post = girderOf(maple).posts[3];
    const entry = finding(maple, wallOf(maple, 'A'), {
      wall: undefined,
      thing: post?.id,
      rule: 'post/post-cap-missing',
    });
    const drawn = draw(maple, [entry]);
    const markers = groupsOf(drawn, (group) => group.role === 'finding');
    expect(markers).toHaveLength(2);
    const box = boundsOf(
      groupsOf(drawn, (group) => group.role === 'leader').flatMap(({ node }) => node.nodes.slice(0, 1)),
    );
    expect(box).toBeDefined();
    expect(draw(maple, [finding(maple, wallOf(maple, 'A'))]).nodes.length).toBe(scene.nodes.length);
    expect(groupsOf(draw(maple, [finding(maple, wallOf(maple, 'A'))]), (group) => group.role === 'finding')).toEqual(
      [],
    );
  });

  it('gives the same bytes for the same text', () => {
    expect(sceneToSvg(draw(mapleLayout()), { colours: 'paper' })).toBe(sceneToSvg(scene, { colours: 'paper' }));
  });
});

describe('what the design does to posts', () => {
  it.each([
    ['new-pad', 'GD/post:P2'],
    ['leaning', 'GD/post:P2'],
    ['new-post', 'GD/post:P3'],
    ['shored', 'GD/post:P3'],
    ['removed-wood', 'GD/post:P4'],
    ['post-base', 'GD/post:P1'],
  ])('shows %s at %s', (symbol, thing) => {
    expect(withSymbol(worked, symbol, thing)).toHaveLength(1);
    const elsewhere = withSymbol(worked, symbol).length;
    expect(elsewhere).toBe(1);
  });

  it('leans a post by what was measured, off its plumb line', () => {
    const post = boxOf(worked, 'post', 'GD/post:P2');
    // 3-1/2 in wide, 3/4 in out of plumb.
    expect(post.width / INCH).toBeCloseTo(4.25, 3);
  });

  it('draws a height that nobody measured in short heavy dashes, of a new post too', () => {
    const dashed = withSymbol(worked, 'not-recorded', 'GD/post:P3');
    expect(dashed.length).toBeGreaterThan(0);
    expect(wordsOf(worked)).toContain('height not recorded');
  });

  it('tells proposed, omitted, installed and failed hardware apart in black and white', () => {
    const looks = (['planned', 'installed', 'omitted', 'failed'] as const).flatMap((state) =>
      [false, true].map((proposed) => {
        const layout: Layout = {
          ...house,
          girders: house.girders.map((girder) => ({
            ...girder,
            posts: girder.posts.map((post) => ({
              ...post,
              hardware: post.hardware.map((piece) => ({ ...piece, state, proposed })),
            })),
          })),
        };
        const drawn = draw(layout);
        const nodes = groupsOf(drawn, (group) => group.thing === 'GD/cap:GD-C1').map(({ node }) => ({
          ...node,
          name: '',
        }));
        expect(nodes.length).toBeGreaterThan(1);
        return sceneToSvg({ ...drawn, nodes }, { colours: 'black-and-white' }).replace(/<desc>[^<]*/, '');
      }),
    );
    expect(new Set(looks).size).toBe(7);
  });
});

describe('any girder', () => {
  const scenes: readonly (readonly [string, Scene])[] = [
    ['the demo house', scene],
    ['the demo house, metric', draw(maple, [], 'metric')],
    ['every remedy', worked],
    [
      'nothing recorded',
      draw(read('wall A faces north length 10\'-0"\ngirder GD size unknown\n  post P1 size unknown\n')),
    ],
  ];

  it.each(scenes)('of %s has no text on another, nor under a heavy line', (_, drawn) => {
    expect(collisions(drawn)).toEqual([]);
    expect(crossedTexts(drawn)).toEqual([]);
  });

  it.each(scenes)('of %s explains every symbol that it uses, and no other', (_, drawn) => {
    const [used, explained] = [new Set<string>(), new Set<string>()];
    for (const { node, within } of walkScene(drawn.nodes)) {
      if (node.kind !== 'group' || !node.symbol) continue;
      (within.some((group) => group.role === 'legend') ? explained : used).add(node.symbol);
    }
    expect([...explained].sort()).toEqual([...used].sort());
  });

  it.each(scenes)('of %s says its basis and its caution', (_, drawn) => {
    for (const line of testBasis.lines) expect(wordsOf(drawn)).toContain(line);
    expect(wordsOf(drawn)).toContain('Locate gas, water, power');
  });

  it('lists a post without a place, with the marks on it', () => {
    const bare = read(
      'wall A faces north length 10\'-0"\ngirder GD size 6x8 from (0", 0") to (0", 20\'-0")\n  post P1 6x6\nwork on GD\n  cap GD-C1 cap-plates on P1\n',
    );
    expect(wordsOf(draw(bare))).toContain('Post P1: no station. Marks on it: GD-C1');
  });
});
