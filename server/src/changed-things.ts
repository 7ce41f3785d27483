import type { Layout, ThingId } from '../../language/domain/model/layout.ts';
import { type PlacedThing, thingsOf } from './things.ts';

/** What a drawing of the layout before shows otherwise than the layout now says: moved, made another, or gone. */
export function changedThings(before: Layout, now: Layout): readonly ThingId[] {
  if (before === now) return [];
  const present = new Map([...thingsOf(now)].map((placed) => [placed.thing.id, placed]));
  return [...thingsOf(before)].flatMap((placed) => {
    if (placed.kind === 'wall' || placed.kind === 'girder') return [];
    const other = present.get(placed.thing.id);
    return other && (other.thing === placed.thing || contentOf(placed) === contentOf(other)) ? [] : [placed.thing.id];
  });
}

/** All that the thing says, but for where in the text it says so. */
function contentOf({ thing }: PlacedThing): string {
  return JSON.stringify(thing, (key, value: unknown) =>
    /source$/i.test(key) ? undefined : value instanceof Map || value instanceof Set ? [...value] : value,
  );
}
