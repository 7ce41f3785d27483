import type { SillPiece, Stretch, Wall } from '../model/layout.ts';
import { larger, smaller } from '../units/length.ts';

/** The wall as it is once a stretch of a board is replaced: what is left of the old board has true ends at the cuts. */
export function withReplacedSill(wall: Wall, pieceId: string, { from, to }: Stretch): Wall {
  const old = wall.pieces.find((piece) => piece.id === pieceId);
  if (!old) return wall;
  const rests: SillPiece[] = [];
  if (old.from < from) rests.push({ ...old, to: from, joint: 'butt' });
  if (old.to > to) {
    const name = rests.length === 0 ? old.name : `${old.name}(2)`;
    rests.push({ ...old, from: to, name, id: renamed(old, name) });
  }
  const name = rests.length === 0 ? old.name : `${old.name}-new`;
  const fresh: SillPiece = {
    ...old,
    from: larger(from, old.from),
    to: smaller(to, old.to),
    name,
    id: renamed(old, name),
    treated: true,
    conditions: [],
    layer: 'design',
  };
  const others = wall.pieces.filter((piece) => piece !== old);
  return {
    ...wall,
    pieces: [...others, ...rests, fresh].sort((a, b) => a.from - b.from),
    defects: wall.defects.map((defect) => {
      const wood =
        defect.kind === 'rot' || defect.kind === 'split' || defect.kind === 'notch' || defect.kind === 'insects';
      const within = defect.stretch && fresh.from <= defect.stretch.from && defect.stretch.to <= fresh.to;
      return wood && within ? { ...defect, remedied: true } : defect;
    }),
  };
}

const renamed = (piece: SillPiece, name: string): string => piece.id.replace(/sill:.*$/, `sill:${name}`);
