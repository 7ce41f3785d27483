import type { FoundationStretch, Stretch, Wall } from '../model/layout.ts';
import { recentOnly } from '../recent-only.ts';
import type { IntervalIndex } from './interval-index.ts';
import { intervalIndex } from './interval-index.ts';

const known = recentOnly<Wall['foundation'], IntervalIndex<FoundationStretch>>();

/** The stretches of foundation under a board or a part of the wall, in order. */
export function foundationUnder(wall: Wall, stretch: Stretch): readonly FoundationStretch[] {
  const index = known.get(wall.foundation) ?? intervalIndex(wall.foundation);
  known.set(wall.foundation, index);
  return index.overlapping(stretch.from, stretch.to);
}
