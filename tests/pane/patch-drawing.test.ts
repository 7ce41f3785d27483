import { join } from 'node:path';
import { build } from 'esbuild';
import fc from 'fast-check';
import { type Browser, chromium, type Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Piece, PieceGroup } from '../../language/protocol/picture.ts';
import { findChromium } from '../../scripts/pane-in-chromium.ts';

const executablePath = findChromium();
let browser: Browser;
let page: Page;

// The page's own elements, so a browser; without one on the machine the editor's tests stand alone for it.
describe.skipIf(executablePath === undefined)('a drawing of the pane that is patched', () => {
  beforeAll(async () => {
    const inPage = join(import.meta.dirname, 'in-page/patched.ts');
    const bundled = await build({ entryPoints: [inPage], bundle: true, write: false, format: 'iife' });
    browser = await chromium.launch({
      ...(executablePath && { executablePath }),
      args: ['--no-sandbox', '--disable-gpu'],
    });
    page = await browser.newPage();
    await page.addScriptTag({ content: bundled.outputFiles[0]?.text ?? '' });
  }, 30_000);
  afterAll(() => browser.close());

  const compare = (pictures: readonly PieceGroup[]): Promise<{ readonly patched: string; readonly fresh: string }[]> =>
    page.evaluate(`patchedAndFresh(${JSON.stringify(pictures)})`);

  it('is the one that is drawn at one go, with the same index of its things and the same texts shown, whatever was drawn before', async () => {
    await fc.assert(
      fc.asyncProperty(drawings, async (pictures) => {
        for (const { patched, fresh } of await compare(pictures)) expect(patched).toBe(fresh);
      }),
      { numRuns: process.env.SILLWRIGHT_LONG ? 4000 : 60 },
    );
  });

  it('keeps the elements of what is nearly the same: a text with another number, a circle that moved', async () => {
    const numbered = (number: string, x: number): PieceGroup => ({
      open: '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 9">',
      pieces: [
        `<circle cx="${x}" cy="2" r="1"/>`,
        {
          open: `<g data-thing="a" data-role="finding" aria-label="finding ${number}">`,
          pieces: [`<text x="1" y="2" font-size="3">${number}</text>`],
        },
      ],
    });
    expect(await page.evaluate(`elementsKept(${JSON.stringify([numbered('9', 1), numbered('10', 2.5)])})`)).toEqual({
      kept: 4,
      of: 4,
    });
  });
});

const names = ['F/anchor:a', 'F/pipe:b', 'c'];
const number = fc.integer({ min: 1, max: 6 });
const shape = fc.oneof(
  fc.tuple(number, number).map(([x, r]) => `<circle cx="${x}" cy="1" r="${r}"/>`),
  fc
    .tuple(number, fc.boolean())
    .map(([x, isFilled]) => `<rect x="${x}" y="1" width="2" height="2"${isFilled ? ' fill="none"' : ''}/>`),
  fc.tuple(number, number).map(([x, y]) => `<path d="M0 0L${x} ${y}"/>`),
  fc
    .record({
      x: number,
      size: number,
      words: fc.constantFrom('1', '12', '3&#39;-4&quot;', 'a &lt; b', ''),
      isTurned: fc.boolean(),
    })
    .map(
      ({ x, size, words, isTurned }) =>
        `<text x="${x}" y="2" font-size="${size}"${isTurned ? ` transform="rotate(-90 ${x} 2)"` : ''}>${words}</text>`,
    ),
);
const { group } = fc.letrec<{ group: PieceGroup; piece: Piece }>((tie) => ({
  piece: fc.oneof({ maxDepth: 3 }, shape, tie('group')),
  group: fc
    .record({
      thing: fc.option(fc.constantFrom(...names)),
      role: fc.option(fc.constantFrom('leader', 'finding', 'tape', 'mark', 'thing', 'dimension')),
      symbol: fc.option(fc.constantFrom('error', 'warning', 'warning-zone')),
      name: fc.option(fc.constantFrom('north is up', 'finding 1, &quot;so&quot;', 'finding 2')),
      pieces: fc.array(tie('piece'), { maxLength: 5 }),
    })
    .map(({ thing, role, symbol, name, pieces }) => {
      const attributes = { 'data-thing': thing, 'data-role': role, 'data-symbol': symbol, 'aria-label': name };
      const written = Object.entries(attributes).map(([key, value]) => (value === null ? '' : ` ${key}="${value}"`));
      return { open: `<g${written.join('')}>`, pieces };
    }),
}));
/** A leader takes the layer of the label behind it. */
const leader: PieceGroup = { open: '<g data-role="leader" aria-hidden="true">', pieces: ['<path d="M0 0L1 9"/>'] };
const labels = ['F/anchor:a', 'F/pipe:b'].flatMap((thing) =>
  [2, 4].map((size) => ({
    open: `<g data-thing="${thing}" data-role="mark">`,
    pieces: [`<text x="1" y="2" font-size="${size}">b</text>`],
  })),
);
/** Enlarged, a level text has a `transform` of the pane's own. */
const tapes = ['', ' transform="rotate(-90 1 2)"'].map((turn) => ({
  open: '<g data-role="tape">',
  pieces: ['<rect x="1" y="1" width="2" height="2"/>', `<text x="1" y="2" font-size="3"${turn}>b</text>`],
}));
/** One after another of nearly the same: made of a few pieces that come, go and change places, and of some that are new. */
const drawings = fc.array(fc.oneof(shape, group), { minLength: 2, maxLength: 4 }).chain((some) => {
  const known = fc.constantFrom<Piece[][]>(...[...some, leader, ...tapes].map((piece) => [piece]));
  const labelled = fc.constantFrom<Piece[][]>(...labels.map((label) => [leader, label]));
  const fresh = fc.oneof(shape, group).map((piece) => [piece]);
  const pieces = fc
    .array(fc.oneof({ arbitrary: known, weight: 4 }, { arbitrary: labelled, weight: 3 }, fresh), { maxLength: 6 })
    .map((several) => several.flat());
  const drawing = fc.record({ width: number, pieces, within: pieces }).map(({ width, pieces, within }) => ({
    open: `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${width} 9" role="group">`,
    pieces: [...pieces, { open: '<g data-role="wall">', pieces: within }],
  }));
  return fc.array(drawing, { minLength: 3, maxLength: 6 });
});
