import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { attributesOf, type Piece, pairPieces, piecesOf } from '../../extension/webview/drawing-pieces.ts';
import { drawElevation } from '../../language/domain/drawing/elevation.ts';
import { sceneToSvg } from '../../language/domain/drawing/svg.ts';
import { analyse } from '../support/analyse.ts';

/** What a page makes of a patch: the pieces that are kept, those patched within, and those made anew. */
function patched(before: Piece, now: Piece, made: { count: number }): string {
  if (before.text === now.text) return before.text;
  const pairs = pairPieces(before.children, now.children);
  const used = pairs.filter((from) => from !== undefined);
  expect(new Set(used).size, 'no piece is used twice').toBe(used.length);
  const inside = now.children.map((piece, at) => {
    const was = before.children[pairs[at] ?? -1];
    if (!was) {
      made.count += 1;
      return piece.text;
    }
    expect(was.tag).toBe(piece.tag);
    if (was.text !== piece.text) expect(piece.tag).toBe('g');
    return patched(was, piece, made);
  });
  return `${now.open}${inside.join('')}`;
}

/** Tags in order, without what stands between them. */
const tagsOf = (svg: string): string =>
  [...svg.matchAll(/<[a-zA-Z][^<>]*>/g)]
    .map(([tag]) => tag)
    .filter((tag) => tag !== '<title>')
    .join('');

describe('a drawing that is patched by its pieces', () => {
  it('is cut where its elements begin and end, titles left out', () => {
    const root = piecesOf(
      '<svg a="1">\n<title>t &gt; u</title>\n<g data-thing="x">\n<path d="M0 0"/>\n<text x="1">a &lt; b</text></g>\n</svg>\n',
    );
    expect(root?.children.map(({ tag }) => tag)).toEqual(['g']);
    expect(root?.children[0]?.children.map(({ text }) => text)).toEqual([
      '<path d="M0 0"/>',
      '<text x="1">a &lt; b</text>',
    ]);
    for (const broken of ['', '<svg>', '<svg><g></svg>', '</g>', '<svg/><svg/>'])
      expect(piecesOf(broken)).toBeUndefined();
  });

  it('takes attributes as the drawings write them', () => {
    const open = '<g data-thing="F/anchor:&lt;F&gt;" aria-label="28&#39;-4&quot; &amp;amp; more" role="img">';
    expect([...attributesOf(open)]).toEqual([
      ['data-thing', 'F/anchor:<F>'],
      ['aria-label', `28'-4" &amp; more`],
      ['role', 'img'],
    ]);
  });

  it('becomes the new one, with only what changed made anew', () => {
    const kinds = ['a', 'b', 'c', 'd', 'e'];
    const shape = fc.constantFrom(...kinds).map((kind) => `<path d="${kind}"/>`);
    const group = fc
      .tuple(fc.constantFrom(...kinds), fc.array(shape, { maxLength: 4 }))
      .map(([kind, shapes]) => `<g data-thing="${kind}">${shapes.join('')}</g>`);
    const drawing = fc.array(fc.oneof(shape, group), { maxLength: 9 }).map((parts) => `<svg>${parts.join('')}</svg>`);
    fc.assert(
      fc.property(drawing, drawing, (before, now) => {
        const [old, next] = [piecesOf(before), piecesOf(now)];
        if (!old || !next) throw new Error('both nest');
        expect(tagsOf(patched(old, next, { count: 0 }))).toBe(tagsOf(now));
        const same = { count: 0 };
        patched(old, { ...next, text: '', children: old.children }, same);
        expect(same.count).toBe(0);
      }),
      { numRuns: process.env.SILLWRIGHT_LONG ? 5000 : 100 },
    );
  });

  it('leaves most of an elevation alone when one anchor moves', () => {
    const text = readFileSync(join(import.meta.dirname, '../../examples/first-wall.sill'), 'utf8');
    const [before, now] = [text, text.replace(`A-2 flat-plate  at 5'-4"`, `A-2 flat-plate  at 5'-5"`)].map((each) => {
      const { layout, checked, basis } = analyse(each);
      const [wall] = layout.walls;
      if (!wall) throw new Error('the example has a wall');
      return sceneToSvg(drawElevation({ layout, checked, basis, wall }), { colours: 'screen' });
    });
    expect(now).not.toBe(before);
    const [old, next] = [piecesOf(before ?? ''), piecesOf(now ?? '')];
    if (!old || !next) throw new Error('both nest');
    const made = { count: 0 };
    expect(tagsOf(patched(old, next, made))).toBe(tagsOf(now ?? ''));
    const all = tagsOf(now ?? '').split('<').length;
    expect(made.count).toBeGreaterThan(0);
    expect(made.count).toBeLessThan(all / 6);
  });
});
