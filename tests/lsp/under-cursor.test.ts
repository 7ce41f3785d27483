import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { Analysis } from '../../language/analysis.ts';
import { type CursorSpot, girderOf, thingsOf, underCursor } from '../../server/src/things.ts';
import { analyse } from '../support/analyse.ts';
import { houseOf } from '../support/houses/house.ts';
import { MAIN } from '../support/memory-host.ts';
import { examplesFolder } from '../support/read-layout.ts';

const text = (name: string): string => readFileSync(join(examplesFolder, name), 'utf8');
const demo = analyse({ [MAIN]: text('maple-designed.sill'), 'maple-surveyed.sill': text('maple-surveyed.sill') });

/** By a look at everything that has a line. */
function byLooking({ layout, locate }: Analysis, { offset, lineStart, lineEnd }: CursorSpot) {
  const placed = [...thingsOf(layout)].flatMap((each) => {
    const place = locate(each.thing.source);
    return place?.file === MAIN ? [{ each, ...place }] : [];
  });
  const shortest = (list: typeof placed) =>
    list.reduce<(typeof placed)[number] | undefined>(
      (best, one) => (best && best.end - best.start < one.end - one.start ? best : one),
      undefined,
    );
  const around = shortest(placed.filter(({ start, end }) => start <= offset && offset <= end));
  const on = around ?? shortest(placed.filter(({ start, end }) => start <= lineEnd && end >= lineStart));
  if (on) return { thing: on.each.thing.id, wall: on.each.wall?.id, girder: girderOf(on.each)?.id };
  const headings = [...layout.walls, ...layout.girders].flatMap((owner) =>
    (owner.workBlocks ?? []).flatMap(({ headingSource }) => {
      const place = locate(headingSource);
      return place?.file === MAIN ? [{ start: place.start, owner: owner.id }] : [];
    }),
  );
  const owned = placed.map(({ each, start }) => ({ start, owner: (each.wall ?? girderOf(each))?.id }));
  const before = [...owned, ...headings]
    .filter(({ start }) => start <= offset)
    .reduce<{ start: number; owner: string | undefined } | undefined>(
      (last, one) => (last && last.start >= one.start ? last : one),
      undefined,
    );
  const isWall = layout.walls.some(({ id }) => id === before?.owner);
  return { thing: undefined, wall: isWall ? before?.owner : undefined, girder: isWall ? undefined : before?.owner };
}

describe('what is under the cursor', () => {
  it.each([
    ['the demo house', demo],
    ['a generated house', analyse({ [MAIN]: houseOf(3, { design: true }).text })],
  ])('is the smallest thing round it, else what its line says, else the wall of its block, in %s', (_, analysis) => {
    const source = analysis.text;
    for (let offset = 0; offset <= source.length; offset += 13) {
      const lineStart = source.lastIndexOf('\n', offset - 1) + 1;
      const end = source.indexOf('\n', offset);
      const spot = { offset, lineStart, lineEnd: Math.max(lineStart, end < 0 ? source.length : end) };
      const { on, wall, girder } = underCursor(analysis, MAIN, spot);
      const said = { thing: on?.thing.id, wall: wall?.id, girder: girder?.id };
      expect(said, source.slice(lineStart, spot.lineEnd)).toEqual(byLooking(analysis, spot));
    }
  });
});
