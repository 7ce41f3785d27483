import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { wallAsBuilt } from '../../../language/domain/fit/as-built.ts';
import { fitAt } from '../../../language/domain/fit/clear-intervals.ts';
import { cornersOf } from '../../../language/domain/fit/corners.ts';
import { pieceAt } from '../../../language/domain/fit/piece-anchors.ts';
import { analyse } from '../../support/analyse.ts';
import { MAIN } from '../../support/memory-host.ts';
import { examplesFolder } from '../../support/read-layout.ts';

const text = (name: string): string => readFileSync(join(examplesFolder, name), 'utf8');
const demo = analyse({ [MAIN]: text('maple-designed.sill'), 'maple-surveyed.sill': text('maple-surveyed.sill') });
const { layout } = demo;

describe('a wall as it was built', () => {
  const moved = layout.walls.flatMap((wall) => {
    const built = wallAsBuilt(layout, wall);
    return built === wall ? [] : [{ wall, built }];
  });

  it('meets the walls that the wall meets', () => {
    expect(moved.length).toBeGreaterThan(0);
    for (const { wall, built } of moved) {
      expect(cornersOf(layout, wall).left).toBeDefined();
      expect(cornersOf(layout, built)).toEqual(cornersOf(layout, wall));
    }
  });

  it('has the same in the way of a connector', () => {
    for (const { wall, built } of moved) {
      for (const { station, connector } of wall.anchors) {
        const piece = station === undefined ? undefined : pieceAt(wall, station);
        if (station === undefined || !connector || !piece) continue;
        const of = (asked: typeof wall) => fitAt({ layout, wall: asked, piece, connector }, station);
        expect(of(built)).toEqual(of(wall));
      }
    }
  });
});
