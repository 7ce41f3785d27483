import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { longestRising } from '../../extension/webview/longest-rising.ts';
import { attributesOf, changedAttributes, pairShapes, shapeOf } from '../../extension/webview/opening-tag.ts';
import { drawElevation } from '../../language/domain/drawing/elevation.ts';
import type { Scene } from '../../language/domain/drawing/scene.ts';
import { sceneToPictureInSteps, sceneToSvg } from '../../language/domain/drawing/svg.ts';
import { finish } from '../../language/domain/steps.ts';
import {
  type Change,
  changeBetween,
  isChange,
  isPieceGroup,
  type Piece,
  type PieceGroup,
  pairPieces,
  svgOf,
  withChange,
} from '../../language/protocol/picture.ts';
import { analyse } from '../support/analyse.ts';
import { houseOf } from '../support/houses/house.ts';

const names = ['a', 'b', 'c', 'd', 'e'];
const shape = fc.constantFrom(...names).map((name) => `<path d="${name}"/>`);
const { group } = fc.letrec<{ group: PieceGroup; piece: Piece }>((tie) => ({
  piece: fc.oneof({ maxDepth: 3 }, shape, tie('group')),
  group: fc
    .record({
      name: fc.constantFrom(...names),
      role: fc.constantFrom(...names),
      pieces: fc.array(tie('piece'), { maxLength: 6 }),
    })
    .map(({ name, role, pieces }) => ({ open: `<g data-thing="${name}" aria-label="${role}">`, pieces })),
}));
const runs = process.env.SILLWRIGHT_LONG ? 5000 : 150;

describe('a picture that is changed by its pieces', () => {
  it('becomes exactly the new one, whatever it was', () => {
    fc.assert(
      fc.property(group, group, (before, now) => {
        const change = changeBetween(before, now);
        expect(change === undefined ? before : withChange(before, JSON.parse(JSON.stringify(change)))).toEqual(now);
        expect(change === undefined).toBe(svgOf(before) === svgOf(now));
      }),
      { numRuns: runs },
    );
  });

  it('uses no piece twice, and pairs with each group one about the same thing', () => {
    fc.assert(
      fc.property(group, group, ({ pieces: before }, { pieces: now }) => {
        const pairs = pairPieces(before, now);
        const used = pairs.filter((from) => from !== undefined);
        expect(new Set(used).size).toBe(used.length);
        for (const [at, from] of pairs.entries()) {
          const [piece, was] = [now[at], from === undefined ? undefined : before[from]];
          if (was === undefined) continue;
          if (typeof piece === 'string') expect(was).toBe(piece);
          else expect(attributesOf((was as PieceGroup).open).get('data-thing')).toBe(thingOf(piece));
        }
        // What could stay as it is, does.
        for (const [at, piece] of now.entries())
          if (typeof piece === 'string' && pairs[at] === undefined)
            expect(countOf(before, piece)).toBeLessThan(countOf(now, piece));
      }),
      { numRuns: runs },
    );
  });

  it('keeps the very pieces that did not change, so that nobody looks into them', () => {
    const [one, two] = [`<path d="a"/>`, { open: '<g data-thing="x">', pieces: ['<path d="b"/>'] }];
    const before = { open: '<svg>', pieces: [one, two, { open: '<g>', pieces: [two] }] };
    const now = { open: '<svg>', pieces: [two, one, { open: '<g>', pieces: [one, two] }] };
    const change = changeBetween(before, now) as Change;
    const after = withChange(before, change);
    expect(after?.pieces[0]).toBe(two);
    const last = after?.pieces[2] as PieceGroup;
    expect(last.pieces[1]).toBe(two);
  });

  it('refuses a change of another picture', () => {
    const picture: PieceGroup = { open: '<svg>', pieces: ['<path d="a"/>'] };
    const refused: readonly Change[] = [
      { pieces: [[0, 2]] },
      { pieces: [[1, 1]] },
      { pieces: [{ at: 0, pieces: [] }] },
      { pieces: [{ at: 3, pieces: [] }] },
    ];
    for (const change of refused) expect(withChange(picture, change)).toBeUndefined();
  });

  it('is told from what another window may have forged', () => {
    fc.assert(
      fc.property(group, group, (before, now) => {
        expect(isPieceGroup(now)).toBe(true);
        const change = changeBetween(before, now);
        expect(change === undefined || isChange(change)).toBe(true);
      }),
      { numRuns: 20 },
    );
    const deep = Array.from({ length: 40 }).reduce<PieceGroup>((inside) => ({ open: '<g>', pieces: [inside] }), {
      open: '<g>',
      pieces: [],
    });
    for (const forged of [null, 'x', [], {}, { open: 1, pieces: [] }, { open: '<g>', pieces: [1] }, deep])
      expect(isPieceGroup(forged)).toBe(false);
    const piecesForged = [
      [0],
      [0, -1],
      [0, 0.5],
      ['0', 1],
      7,
      null,
      { at: -1, pieces: [] },
      { at: 0 },
      { at: 0, pieces: [deep] },
    ];
    for (const piece of piecesForged) expect(isChange({ pieces: [piece] })).toBe(false);
    expect(isChange({ open: 1, pieces: [] })).toBe(false);
  });

  it('has the bytes of the drawing that is written at one go, but for its title', () => {
    const [scene] = elevationsOf(wall);
    const svg = sceneToSvg(scene, { colours: 'screen' });
    expect(svg).toContain('<title>');
    expect(svgOf(finish(sceneToPictureInSteps(scene)))).toBe(svg.replace(/\n<title>[^<]*<\/title>/, ''));
  });

  it('leaves most of an elevation alone when one anchor moves', () => {
    const [before, now] = elevationsOf(wall, wall.replace(`A-2 flat-plate  at 5'-4"`, `A-2 flat-plate  at 5'-5"`)).map(
      (scene) => finish(sceneToPictureInSteps(scene)),
    );
    if (!before || !now) throw new Error('both are drawn');
    const change = changeBetween(before, now);
    expect(change).toBeDefined();
    expect(JSON.stringify(change).length).toBeLessThan(svgOf(now).length / 6);
  });
});

describe('the picture of a drawing after another of nearly the same', () => {
  it('is the picture of the drawing alone, whatever was edited', () => {
    fc.assert(
      fc.property(fc.nat(10_000), fc.array(fc.nat(), { minLength: 4, maxLength: 4 }), (seed, places) => {
        const first = houseOf(seed, { design: true }).text;
        let before: Scene | undefined;
        for (const place of [0, ...places]) {
          const text = place === 0 ? first : withoutLine(first, place);
          const { layout, checked, basis } = analyse(text);
          const wall = layout.walls[0];
          if (!wall) continue;
          const scene = drawElevation({ layout, checked, basis, wall }, 'pane');
          const picture = finish(sceneToPictureInSteps(scene, before));
          expect(svgOf(picture) === svgOf(finish(sceneToPictureInSteps(structuredClone(scene))))).toBe(true);
          before = scene;
        }
      }),
      { numRuns: process.env.SILLWRIGHT_LONG === undefined ? 8 : 400 },
    );
  });

  it('has the same pieces where the drawings say the same', () => {
    const [scene] = elevationsOf(wall);
    const before = finish(sceneToPictureInSteps(scene));
    const again = finish(sceneToPictureInSteps(structuredClone(scene), scene));
    const groups = (picture: PieceGroup) => picture.pieces.filter((piece) => typeof piece === 'object');
    expect(groups(again).length).toBe(4);
    expect(groups(again).every((piece, at) => piece === groups(before)[at])).toBe(true);
  });
});

function withoutLine(text: string, place: number): string {
  const lines = text.split('\n');
  return lines.toSpliced(place % lines.length, 1).join('\n');
}

describe('an element of the page', () => {
  it('takes attributes as the drawings write them', () => {
    const open = '<g data-thing="F/anchor:&lt;F&gt;" aria-label="28&#39;-4&quot; &amp;amp; more" role="img">';
    expect([...attributesOf(open)]).toEqual([
      ['data-thing', 'F/anchor:<F>'],
      ['aria-label', `28'-4" &amp; more`],
      ['role', 'img'],
    ]);
  });

  it('takes those attributes that are other than before, and loses those that are gone', () => {
    const before = '<g data-role="finding" aria-label="finding 9, &lt;F&gt;" tabindex="-1">';
    expect(changedAttributes(before, before.replace('9', '10'))).toEqual([['aria-label', 'finding 10, <F>']]);
    expect(changedAttributes(before, '<g aria-hidden="true" data-role="finding">')).toEqual([
      ['aria-label'],
      ['tabindex'],
      ['aria-hidden', 'true'],
    ]);
  });

  it('is changed, not made anew, where it is a shape of the same kind with words alone in it', () => {
    expect(shapeOf('<text x="1">3&#39;-4&quot;</text>')).toEqual({ name: 'text', open: '<text x="1"', words: `3'-4"` });
    expect(shapeOf('<path d="M0 0"/>')).toEqual({ name: 'path', open: '<path d="M0 0"/', words: '' });
    for (const other of [
      '<text>a<tspan>b</tspan></text>',
      '<text>&#x41;</text>',
      '<text>a</b>',
      '<text',
      'a',
      '<path/><path/>',
    ])
      expect(shapeOf(other)).toBeUndefined();
    const before = ['<path d="a"/>', '<text>1</text>', '<path d="b"/>', '<text transform="rotate(9)">2</text>'];
    const now = ['<path d="c"/>', '<text>7</text>', '<text>8</text>', '<path d="b"/>', '<rect/>'];
    expect(pairShapes(before, now, pairPieces(before, now))).toEqual([0, 1, undefined, 2, undefined]);
  });

  it('is moved among its neighbours only where it must be: as many as can stay where they are', () => {
    expect([...longestRising([3, 0, 1, undefined, 2])].toSorted()).toEqual([1, 2, 4]);
    const order = fc.shuffledSubarray([0, 1, 2, 3, 4, 5, 6]).chain((numbers) => fc.constant(numbers));
    fc.assert(
      fc.property(order, (numbers) => {
        const staying = [...longestRising(numbers)].toSorted((a, b) => a - b).map((at) => numbers[at] ?? -1);
        expect(staying).toEqual(staying.toSorted((a, b) => a - b));
        expect(staying.length).toBe(longestByTrying(numbers));
      }),
    );
  });
});

const wall = readFileSync(join(import.meta.dirname, '../../examples/first-wall.sill'), 'utf8');

function elevationsOf(...texts: readonly [string, ...string[]]) {
  const [first, ...others] = texts.map((text) => {
    const { layout, checked, basis } = analyse(text);
    const [wall] = layout.walls;
    if (!wall) throw new Error('the example has a wall');
    return drawElevation({ layout, checked, basis, wall }, 'pane');
  });
  if (!first) throw new Error('there is one');
  return [first, ...others] as const;
}

const thingOf = (piece: PieceGroup | undefined): string | undefined =>
  attributesOf(piece?.open ?? '').get('data-thing');
const countOf = (pieces: readonly Piece[], piece: Piece): number => pieces.filter((each) => each === piece).length;

/** Every choice of them. */
function longestByTrying(numbers: readonly number[]): number {
  return Math.max(
    0,
    ...Array.from({ length: 2 ** numbers.length }, (_, chosen) => numbers.filter((__, at) => (chosen >> at) & 1))
      .filter((some) => some.every((number, at) => at === 0 || number > (some[at - 1] ?? 0)))
      .map(({ length }) => length),
  );
}
