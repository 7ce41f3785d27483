import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { lettered } from '../../../language/domain/drawing/lettering.ts';
import { group, line, rect, type Scene, type SceneNode } from '../../../language/domain/drawing/scene.ts';
import { sceneToSvg } from '../../../language/domain/drawing/svg.ts';
import { colourTokens } from '../../../language/domain/drawing/tokens.ts';
import { textsInXml } from './xml.ts';

function sceneOf(nodes: readonly SceneNode[], title = 'Test'): Scene {
  return { width: 100, height: 50, title, description: 'A test.', nodes, regions: {} };
}

const colours = ['paper', 'black-and-white', 'screen'] as const;

describe.each(colours)('an SVG for %s', (mode) => {
  it('is well-formed whatever a person typed, and says it', () => {
    const nasty = [
      '<script>alert(1)</script>',
      '"quoted" & \'single\'',
      ']]>',
      '&amp;',
      "\u202e4-'8",
      'café süd 墙 🏠',
      '<!--',
      '%00',
    ];
    const texts = textsInXml(
      sceneToSvg(
        sceneOf(
          nasty.map((text) => lettered(text, [1, 1], { size: 'label' })),
          nasty.join(),
        ),
        { colours: mode },
      ),
    );
    for (const text of nasty) expect(texts).toContain(text);
  });

  it('is well-formed for any text at all, also in names and ids', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary', maxLength: 40 }), (text) => {
        const node = group([lettered(text, [1, 1], { size: 'label' })], { thing: text, role: 'thing', name: text });
        expect(() => textsInXml(sceneToSvg(sceneOf([node], text), { colours: mode }))).not.toThrow();
      }),
    );
  });

  it('puts the replacement character for what XML cannot hold', () => {
    const svg = sceneToSvg(sceneOf([lettered('a\u0000b\ud800c\uffffd', [1, 1], { size: 'label' })]), { colours: mode });
    expect(textsInXml(svg)).toContain('a\ufffdb\ufffdc\ufffdd');
  });

  it('starts with its title and description, and a role', () => {
    const svg = sceneToSvg(sceneOf([]), { colours: mode });
    expect(svg).toMatch(/<title>Test<\/title>\s*<desc>A test\.<\/desc>/);
    expect(svg).toContain(mode === 'screen' ? 'role="group"' : 'role="img"');
  });

  it('gives every text the width of its letters', () => {
    const svg = sceneToSvg(sceneOf([lettered('28\'-4"', [1, 1], { size: 'station', face: 'regular' })]), {
      colours: mode,
    });
    expect(svg).toMatch(/textLength="\d+\.\d+" lengthAdjust="spacingAndGlyphs"/);
  });
});

describe('colours of an SVG', () => {
  const scene = sceneOf([
    rect({ x: 0, y: 0, width: 5, height: 5 }, { fill: 'conc', stroke: { colour: 'gas', pen: 'P2' } }),
    line([0, 0], [9, 9], { colour: 'new', pen: 'P5', line: 'hidden' }),
    lettered('x', [0, 0], { size: 'label', colour: 'ontop' }),
  ]);

  it('are the light column on paper', () => {
    const svg = sceneToSvg(scene, { colours: 'paper' });
    for (const token of ['conc', 'gas', 'new', 'ontop'] as const) expect(svg).toContain(colourTokens[token].light);
  });

  it('are black lines and no tints in black and white', () => {
    const svg = sceneToSvg(scene, { colours: 'black-and-white' });
    const used = new Set([...svg.matchAll(/(?:fill|stroke)="([^"]+)"/g)].map((match) => match[1]));
    expect([...used].sort()).toEqual(['#000', '#fff', 'none']);
  });

  it('are left to the pane on screen, with pens that keep their width and never get too thin', () => {
    const svg = sceneToSvg(scene, { colours: 'screen' });
    expect(svg).not.toMatch(/#[0-9a-f]{3,6}"/i);
    expect(svg).toContain('stroke="var(--sw-gas)"');
    expect(svg).toContain('vector-effect="non-scaling-stroke"');
    expect(svg).toContain('stroke-width="0.75"');
    expect(svg).not.toContain('style=');
  });
});

describe('groups of an SVG', () => {
  it('carry the id of their thing and its name in words', () => {
    const svg = sceneToSvg(
      sceneOf([
        group([line([0, 0], [1, 1], { colour: 'ink', pen: 'P1' })], {
          thing: 'F/anchor:F-11',
          role: 'thing',
          name: 'anchor F-11',
        }),
      ]),
      { colours: 'screen' },
    );
    expect(svg).toContain(
      '<g data-thing="F/anchor:F-11" data-role="thing" role="img" aria-label="anchor F-11" tabindex="-1">',
    );
  });

  it('are reached by the keyboard on a screen where they are a finding, be it about no thing at all', () => {
    const marker = group([line([0, 0], [1, 1], { colour: 'ink', pen: 'P1' })], {
      role: 'finding',
      name: 'finding 1, error: no thing',
    });
    expect(sceneToSvg(sceneOf([marker]), { colours: 'screen' })).toContain(' tabindex="-1"');
    expect(sceneToSvg(sceneOf([marker]), { colours: 'paper' })).not.toContain('tabindex');
  });

  it('hide textures and leaders from those who listen', () => {
    const svg = sceneToSvg(
      sceneOf([
        group([line([0, 0], [1, 1], { colour: 'ink', pen: 'P1' })], {
          role: 'texture',
          hidden: true,
          name: 'never said',
        }),
      ]),
      { colours: 'paper' },
    );
    expect(svg).toContain('aria-hidden="true"');
    expect(svg).not.toContain('never said');
  });
});

describe('fonts in an SVG', () => {
  it('go in as data and nothing else does', () => {
    const svg = sceneToSvg(sceneOf([]), {
      colours: 'paper',
      fonts: [{ face: 'narrow', trueTypeBase64: 'AAEC"</style><script>' }],
    });
    expect(svg).toContain(
      "@font-face{font-family:'Routed Gothic Narrow';src:url(data:font/ttf;base64,AAEC/stylescript)}",
    );
    expect(() => textsInXml(svg)).not.toThrow();
  });
});
