import { endTooFar } from './anchorage/end-too-far.ts';
import { endTooNear } from './anchorage/end-too-near.ts';
import { gapTooWide } from './anchorage/gap-too-wide.ts';
import { pieceWithoutAnchor } from './anchorage/piece-without-anchor.ts';
import { shortPieceCount } from './anchorage/short-piece-count.ts';
import { noConcreteHere } from './clearance/no-concrete-here.ts';
import { plateHitsThing } from './clearance/plate-hits-thing.ts';
import type { Rule } from './define.ts';
import { acceptUnused } from './document/accept-unused.ts';
import { angleGapWide } from './floor/angle-gap-wide.ts';
import { masonryBase } from './foundation/masonry-base.ts';
import { setBackOutOfRange } from './foundation/set-back-out-of-range.ts';
import { itemOnMissingSill } from './geometry/item-on-missing-sill.ts';
import { ruleCrashed } from './internal/rule-crashed.ts';
import { limitsDisagree } from './load-path/limits-disagree.ts';
import { noLimit } from './load-path/no-limit.ts';
import { rulesUnset } from './load-path/rules-unset.ts';

/** Every rule. Those on the house hear what came before them, so the ones that tell of it stand last. */
export const rules: readonly Rule[] = [
  itemOnMissingSill,
  endTooFar,
  endTooNear,
  gapTooWide,
  pieceWithoutAnchor,
  shortPieceCount,
  noConcreteHere,
  plateHitsThing,
  masonryBase,
  setBackOutOfRange,
  angleGapWide,
  limitsDisagree,
  noLimit,
  rulesUnset,
  acceptUnused,
  ruleCrashed,
];
