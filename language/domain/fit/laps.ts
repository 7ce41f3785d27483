import type { SillPiece, Stretch, Wall } from '../model/layout.ts';
import { recentOnly } from '../recent-only.ts';
import type { Length } from '../units/length.ts';
import { half, plus } from '../units/length.ts';
import type { Side } from './piece-requirements.ts';

const known = recentOnly<Wall['pieces'], ReadonlyMap<SillPiece, Readonly<Partial<Record<Side, Stretch>>>>>();

/** Where a board lies over its neighbour at one of its ends; `undefined` where the two only meet, or leave a gap. */
export function lapAt({ pieces }: Wall, piece: SillPiece, side: Side): Stretch | undefined {
  const laps = known.get(pieces) ?? lapsOf(pieces);
  known.set(pieces, laps);
  return laps.get(piece)?.[side];
}

/** The middle of a lap: where the joint seems to be from below, and where no board ends. */
export const middleOf = (lap: Stretch): Length => plus(lap.from, half((lap.to - lap.from) as Length));

function lapsOf(boards: Wall['pieces']): ReadonlyMap<SillPiece, Partial<Record<Side, Stretch>>> {
  const laps = new Map<SillPiece, Partial<Record<Side, Stretch>>>();
  const pieces = boards.toSorted((a, b) => a.from - b.from || a.to - b.to);
  for (const [index, right] of pieces.entries()) {
    const left = pieces[index - 1];
    // A board within another is no lap.
    if (!left || right.from >= left.to || right.to <= left.to) continue;
    const lap = { from: right.from, to: left.to };
    laps.set(left, { ...laps.get(left), right: lap });
    laps.set(right, { ...laps.get(right), left: lap });
  }
  return laps;
}
