import { FOOT } from './facts.ts';
import { houseOf } from './house.ts';
import { type Edge, outlineOf } from './outline.ts';

/**
 * One building of so many bays, legal by its checks: a block whose four sides step in and out, each bay a wall like those of a
 * house. Sixty bays have about 2 000 anchors.
 */
export function largeHouseOf(bays: number): string {
  const aSide = Math.max(1, Math.round(bays / 4));
  const edges = [90, 180, 270, 0].flatMap((heading) => steppedSide(heading, aSide));
  return houseOf(SEED, { design: true, outline: outlineOf(edges, { x: 0, y: 0 }) }).text;
}

/** A house that is measured in feet and inches. */
const SEED = 7;

function steppedSide(heading: number, bays: number): readonly Edge[] {
  // An odd number of bays comes back into line with its first.
  return Array.from({ length: bays }, (_, bay): readonly Edge[] => {
    const front: Edge = { heading, length: 80 * FOOT };
    if (bay === bays - 1) return [front];
    return [front, { heading: heading + (bay % 2 === 0 ? 90 : -90), length: 8 * FOOT }];
  }).flat();
}
