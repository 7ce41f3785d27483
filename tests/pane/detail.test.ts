import { describe, expect, it } from 'vitest';
import { placeInRows } from '../../extension/webview/cell-rows.ts';
import { layerOf } from '../../extension/webview/layer-of.ts';
import { detailOf, LEAST_TEXT, textAt } from '../../extension/webview/level-of-detail.ts';
import { layers, layersOfSafety, readChoices } from '../../language/protocol/pane-choices.ts';

describe('what a drawing shows at a size', () => {
  it('is less and less the fewer pixels an inch has', () => {
    expect([6, 5, 4.9, 2.5, 2.4, 1, 0.9].map(detailOf)).toEqual(['all', 'all', 'most', 'most', 'few', 'few', 'least']);
  });

  it('never has a text under 11 pixels: it is made larger where there is room, else left out', () => {
    expect(textAt(11, 1)).toBe('as-is');
    expect(textAt(10.9, 1)).toBe('left-out');
    expect(textAt(8, 1.3)).toBe('left-out');
    for (const pixels of [4, 6, 8, 10, 12, 20]) {
      const shown = textAt(pixels, 2);
      if (shown === 'left-out') expect(LEAST_TEXT / pixels).toBeGreaterThan(2);
      else expect(pixels * (shown === 'as-is' ? 1 : shown.larger)).toBeGreaterThanOrEqual(LEAST_TEXT - 1e-6);
    }
  });
});

describe('the marks of a whole wall in a narrow pane', () => {
  const cells = Array.from({ length: 40 }, (_, index) => ({ wanted: index * 8, width: 44 }));
  const placed = placeInRows(cells, 320);

  it('are all there, none over another and none beside the strip', () => {
    expect(placed).toHaveLength(cells.length);
    for (const [index, cell] of placed.entries()) {
      expect(cell.left).toBeGreaterThanOrEqual(0);
      expect(cell.left + cell.width).toBeLessThanOrEqual(320);
      for (const other of placed.slice(0, index)) {
        if (other.row === cell.row) expect(other.left + other.width).toBeLessThan(cell.left);
      }
    }
  });

  it('stand in one row where there is room, each at its place', () => {
    const apart = placeInRows(
      [
        { wanted: 50, width: 40 },
        { wanted: 150, width: 40 },
      ],
      320,
    );
    expect(apart).toEqual([
      { left: 30, width: 40, row: 0 },
      { left: 130, width: 40, row: 0 },
    ]);
  });
});

describe('the layers of a drawing', () => {
  it('take in new work, what was found and what is in the way, and never the wall itself', () => {
    const of = (kind: string, role = 'thing', symbol = '') => layerOf({ kind, role, symbol });
    expect(of('anchor')).toBe('new');
    expect(of('hold-down')).toBe('new');
    expect(of('panel')).toBe('panels');
    expect(of('found-anchor')).toBe('found');
    expect(of('gas-pipe')).toBe('in-the-way');
    expect(of('gas-pipe', '', 'warning-zone')).toBe('zones');
    expect(of('cripple')).toBe('framing');
    expect(of('anchor', 'finding')).toBe('findings');
    expect(of('', 'dimension')).toBe('dimensions');
    for (const always of ['wall', 'foundation', 'sill', 'girder', 'post']) expect(of(always)).toBeUndefined();
    expect(of('', 'tape')).toBeUndefined();
    expect(of('', 'watermark')).toBeUndefined();
  });

  it('say so when what safety hangs on is one of them', () => {
    expect(layersOfSafety).toEqual(expect.arrayContaining(['zones', 'findings']));
    for (const layer of layersOfSafety) expect(layers).toContain(layer);
  });

  it('are read back from anything, with what nobody knows left out', () => {
    expect(readChoices({ units: 'metric', hidden: ['texture', 'roof', 7] })).toEqual({
      units: 'metric',
      hidden: ['texture'],
    });
    for (const other of [undefined, null, 'x', { units: 'cubits', hidden: 'all' }])
      expect(readChoices(other)).toEqual({ units: 'as-written', hidden: [] });
  });
});
