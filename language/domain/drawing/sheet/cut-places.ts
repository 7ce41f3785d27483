import { feet, type Length, minus, plus, roundDownTo } from '../../units/length.ts';
import type { ShownPart } from '../shown-part.ts';
import type { PartOf } from '../side-view.ts';

/** Neighbouring parts show this much on either side of the cut: two feet in all. */
const OVERLAP = feet(1);
/** A shorter part is not worth a sheet. */
const LEAST_PART = feet(4);

export interface SidePart {
  readonly shown: ShownPart;
  readonly part: PartOf;
}

/**
 * Cuts a length into as few parts as there can be with none longer than `most`, and those as alike as the places allow. A cut is at one
 * of the places (ends of boards, steps), or at a whole foot where none of them will do. `undefined` where `most` is too short.
 *
 * @param places in order.
 */
export function cutInParts(length: Length, places: readonly Length[], most: Length): readonly SidePart[] | undefined {
  const first = cutsFor(length, places, most);
  if (!first) return undefined;
  let [low, high, best] = [0, most as number, first];
  for (let round = 0; round < 24; round++) {
    const middle = (low + high) / 2;
    const cuts = cutsFor(length, places, Math.floor(middle) as Length);
    if (cuts && cuts.length === first.length) [high, best] = [middle, cuts];
    else low = middle;
  }
  const count = best.length + 1;
  return Array.from({ length: count }, (_, index) => {
    const [before, after] = [best[index - 1], best[index]];
    return {
      shown: {
        ...(before === undefined ? {} : { from: minus(before, OVERLAP) }),
        ...(after === undefined ? {} : { to: plus(after, OVERLAP) }),
      },
      part: { number: index + 1, count },
    };
  });
}

function cutsFor(length: Length, places: readonly Length[], most: Length): readonly Length[] | undefined {
  const cuts: Length[] = [];
  let from = 0 as Length;
  let next = 0;
  for (;;) {
    const before = cuts.length > 0 ? OVERLAP : 0;
    if (length - from + before <= most) return cuts;
    const reach = (from + most - before - OVERLAP) as Length;
    const least = plus(from, LEAST_PART);
    if (reach < least) return undefined;
    let cut: Length | undefined;
    for (; next < places.length && (places[next] ?? length) <= reach; next++) {
      const place = places[next];
      if (place !== undefined && place >= least && place <= length - LEAST_PART) cut = place;
    }
    from = cut ?? roundDownTo(reach, feet(1));
    cuts.push(from);
  }
}
