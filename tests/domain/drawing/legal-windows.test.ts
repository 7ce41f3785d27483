import { describe, expect, it } from 'vitest';
import { drawElevation } from '../../../language/domain/drawing/elevation.ts';
import type { Scene } from '../../../language/domain/drawing/scene.ts';
import { boundsOf } from '../../../language/domain/drawing/scene-bounds.ts';
import { clearIntervals } from '../../../language/domain/fit/clear-intervals.ts';
import { howSet } from '../../../language/domain/fit/fit-case.ts';
import { pieceAt } from '../../../language/domain/fit/piece-anchors.ts';
import type { Layout, NewAnchor } from '../../../language/domain/model/layout.ts';
import {
  collisions,
  crossedTexts,
  elevationOf,
  groupsOf,
  mapleLayout,
  nothingFound,
  read,
  testBasis,
  wallOf,
  wordsOf,
} from './drawn.ts';

const maple = mapleLayout();

const anchorOf = (layout: Layout, wall: string, name: string): NewAnchor => {
  const anchor = wallOf(layout, wall).anchors.find((each) => each.name === name);
  if (!anchor) throw new Error(`no anchor ${name}`);
  return anchor;
};
const withWindows = (layout: Layout, wall: string, name: string): Scene =>
  drawElevation({
    layout,
    wall: wallOf(layout, wall),
    checked: nothingFound,
    basis: testBasis,
    windows: { anchor: anchorOf(layout, wall, name) },
  });
const boxesOf = (scene: Scene, symbol: string) =>
  groupsOf(scene, (group) => group.symbol === symbol)
    .filter(({ within }) => !within.some((group) => group.role === 'legend'))
    .flatMap(({ node }) => boundsOf(node.nodes) ?? []);
const zeroOf = (scene: Scene): number => {
  const tape = groupsOf(scene, (group) => group.role === 'tape' && group.hidden === true)[0]?.node.nodes[0];
  if (tape?.kind !== 'rect') throw new Error('no tape');
  return tape.x;
};
const onPaper = (length: number): number => length / 1e6 / 24;

describe('where a chosen anchor may stand', () => {
  it.each([
    ['F', 'F-10'],
    ['F', 'F-3'],
    ['A', 'A-5'],
    ['A', 'A-8'],
  ])('on wall %s, %s, is what the fit says', (wall, name) => {
    const scene = withWindows(maple, wall, name);
    const anchor = anchorOf(maple, wall, name);
    const on = wallOf(maple, wall);
    if (!anchor.connector || anchor.station === undefined) throw new Error('not a case');
    const { sure, clear } = clearIntervals({
      layout: maple,
      wall: on,
      piece: pieceAt(on, anchor.station),
      connector: anchor.connector,
      ...howSet(anchor),
    });
    expect(sure.length).toBeGreaterThan(0);
    const zero = zeroOf(scene);
    const open = boxesOf(scene, 'legal-window');
    expect(open).toHaveLength(sure.length);
    open.forEach((box, index) => {
      const window = sure[index];
      expect(box.x + box.width / 2).toBeCloseTo(zero + onPaper(((window?.from ?? 0) + (window?.to ?? 0)) / 2), 2);
      expect(box.height).toBeCloseTo(4.8, 6);
    });
    // What is blocked fills the board between them.
    const blocked = boxesOf(scene, 'blocked-stretch');
    const piece = pieceAt(on, anchor.station);
    const free = clear.reduce((sum, { from, to }) => sum + onPaper(to - from), 0);
    const closed = blocked.reduce((sum, { width }) => sum + width, 0);
    expect(free + closed).toBeCloseTo(onPaper((piece?.to ?? 0) - (piece?.from ?? 0)), 2);
  });

  it('names what is in the way, and the windows in words', () => {
    const words = wordsOf(withWindows(maple, 'F', 'F-10'));
    expect(words).toMatch(/F-10 may stand 20'-\S+ \S+ to /);
    expect(words).toContain('stud at');
    expect(words).toContain('where the chosen anchor may stand');
  });

  it('is drawn only when it is asked for', () => {
    expect(boxesOf(elevationOf(maple, 'F'), 'legal-window')).toEqual([]);
    expect(wordsOf(elevationOf(maple, 'F'))).not.toContain('may stand');
  });

  it('collides with nothing', () => {
    for (const wall of ['A', 'F']) {
      for (const { name } of wallOf(maple, wall).anchors) {
        const scene = withWindows(maple, wall, name);
        expect(collisions(scene), name).toEqual([]);
        expect(crossedTexts(scene), name).toEqual([]);
      }
    }
  });

  it('is dashed, never open, where a measurement is missing', () => {
    const bare = read(
      'wall A faces north length 20\'-0"\n  foundation thick 8" showing 20" top 0" grade 9"\n  sill S size 1-5/8" x 5-5/8" set-back unknown headroom unknown\nwork on A\n  anchor A-1 stepped-plate-s at 5\'-0"\n',
    );
    const scene = withWindows(bare, 'A', 'A-1');
    expect(boxesOf(scene, 'legal-window')).toEqual([]);
    expect(boxesOf(scene, 'unmeasured-stretch').length).toBeGreaterThan(0);
    expect(wordsOf(scene)).toContain('A-1 no place that is known to be free; dashed: not measured');
  });

  it('says nothing of an anchor whose connector nobody described', () => {
    const bare = read(
      'wall A faces north length 20\'-0"\n  foundation thick 8" showing 20" top 0" grade 9"\nwork on A\n  anchor A-1 nobody-knows at 5\'-0"\n',
    );
    const scene = withWindows(bare, 'A', 'A-1');
    expect(boxesOf(scene, 'legal-window')).toEqual([]);
    expect(boxesOf(scene, 'blocked-stretch')).toEqual([]);
  });
});
