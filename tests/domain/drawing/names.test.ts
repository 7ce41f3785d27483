import { describe, expect, it } from 'vitest';
import { drawElevation } from '../../../language/domain/drawing/elevation.ts';
import { drawPlan } from '../../../language/domain/drawing/plan.ts';
import { sceneToSvg } from '../../../language/domain/drawing/svg.ts';
import type { Layout } from '../../../language/domain/model/layout.ts';
import { collisions, finding, mapleLayout, testBasis, wallOf } from './drawn.ts';
import { textsInXml } from './xml.ts';

/** The demo house with every name and remark replaced. */
function renamed(layout: Layout, name: string): Layout {
  const tags = { notes: [name], photos: [], by: name, dated: undefined };
  return {
    ...layout,
    title: { ...layout.title, name },
    walls: layout.walls.map((wall) => ({
      ...wall,
      name: wall.name === 'F' ? name : wall.name,
      label: name,
      pieces: wall.pieces.map((piece) => ({ ...piece, name, tags })),
      obstructions: wall.obstructions.map((thing) => ({ ...thing, name, label: name, tags })),
      defects: wall.defects.map((defect) => ({ ...defect, name, tags })),
      foundAnchors: wall.foundAnchors.map((anchor) => ({ ...anchor, name, tags })),
      anchors: wall.anchors.map((anchor) => ({ ...anchor, name })),
    })),
    girders: layout.girders.map((girder) => ({
      ...girder,
      name,
      posts: girder.posts.map((post) => ({ ...post, name })),
    })),
    spaces: layout.spaces.map((space) => ({ ...space, name })),
  };
}

const names = {
  'a script': '<script>alert(1)</script>',
  quotes: `"it's" & 'quoted'`,
  'the end of a CDATA section': ']]>',
  'right-to-left letters': '\u05e9\u05dc\u05d5\u05dd 12',
  'a mark that turns the line round': "\u202e5'-9\u202c",
  emoji: '\u{1f3e0}\u{1f468}\u200d\u{1f469}\u200d\u{1f467}',
  'a NUL': 'F\u00001',
  'a lone surrogate': 'F\ud800',
  'a very long name':
    'the wall beside the old coal hole that nobody has opened since the second war, north end of it, '.repeat(4),
  'one long word': 'W'.repeat(300),
  'line breaks': 'one\r\ntwo\nthree',
  nothing: '',
} as const;

describe.each(Object.entries(names))('a house named with %s', (_, name) => {
  const layout = renamed(mapleLayout(), name);
  const wall = wallOf(layout, name);
  const checked = {
    findings: [
      finding(layout, wall, { message: `${name}: too far`, station: wall.anchors[1]?.station, accepted: name }),
    ],
    notChecked: [],
  };

  it('draws well-formed sheets on which nothing runs', () => {
    for (const scene of [
      drawElevation({ layout, wall, checked, basis: testBasis }),
      drawPlan({ layout, checked, basis: testBasis }),
    ]) {
      for (const colours of ['paper', 'screen'] as const) {
        const svg = sceneToSvg(scene, { colours });
        expect(() => textsInXml(svg)).not.toThrow();
        expect(svg).not.toMatch(/<script|<foreignObject|\son\w+=|javascript:/i);
      }
    }
  });

  it('keeps its texts apart', () => {
    expect(collisions(drawElevation({ layout, wall, checked, basis: testBasis }))).toEqual([]);
  });
});
