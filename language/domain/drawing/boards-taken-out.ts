import type { SillPiece, Stretch, Wall } from '../model/layout.ts';
import { larger } from '../units/length.ts';

/** Of an old board, a stretch that comes out and has no new board in its place. */
export interface BoardTakenOut extends Stretch {
  readonly board: SillPiece;
}

export function boardsTakenOut({ pieces, foundPieces = [] }: Wall): readonly BoardTakenOut[] {
  const standing = [...pieces].sort((a, b) => a.from - b.from);
  return foundPieces.flatMap((board) => {
    let reached = board.from;
    const bare: BoardTakenOut[] = [];
    for (const piece of standing) {
      if (piece.to <= reached) continue;
      if (piece.from >= board.to) break;
      if (piece.from > reached) bare.push({ board, from: reached, to: piece.from });
      reached = larger(reached, piece.to);
    }
    if (reached < board.to) bare.push({ board, from: reached, to: board.to });
    return bare;
  });
}
