import { drilledInto } from '../fit/drilled-holes.ts';
import { pieceAt } from '../fit/piece-anchors.ts';
import type { SillPiece, Wall } from '../model/layout.ts';
import type { RuleScope } from './define.ts';
import type { RuleSite } from './run-rule.ts';

/** What a rule of that scope looks at on a wall. */
export function sitesOnWall(scope: RuleScope, wall: Wall): readonly RuleSite[] {
  switch (scope) {
    case 'anchor':
      return drilledInto(wall).flatMap((anchor): readonly RuleSite[] => {
        const { connector } = anchor;
        if (!connector) return [];
        const piece = anchor.station === undefined ? undefined : pieceAt(wall, anchor.station);
        const thing = { id: anchor.id, source: anchor.source, station: anchor.station, layer: 'design' as const };
        return [{ subject: { wall, anchor, connector }, wall, piece, ...thing }];
      });
    case 'piece':
      return wall.pieces.map((piece) => siteOfPiece(wall, piece));
    case 'foundation':
      return wall.foundation.map((stretch) => {
        const thing = { id: stretch.id, source: stretch.source, station: stretch.from, layer: 'survey' as const };
        return { subject: { wall, stretch }, wall, piece: undefined, ...thing };
      });
    case 'wall': {
      const thing = { id: wall.id, source: wall.nameSource, station: undefined, layer: 'survey' as const };
      return [{ subject: { wall }, wall, piece: undefined, ...thing }];
    }
    case 'house':
      return [];
  }
}

function siteOfPiece(wall: Wall, piece: SillPiece): RuleSite {
  const thing = { id: piece.id, source: piece.source, station: piece.from, layer: piece.layer };
  return { subject: { wall, piece }, wall, piece, ...thing };
}
