import { clearIntervals } from '../fit/clear-intervals.ts';
import type { Connector, ConnectorKind } from '../hardware/connector.ts';
import { anchorsSill } from '../hardware/connector.ts';
import type { Layout, SillPiece, Wall } from '../model/layout.ts';

/**
 * Connectors that surely fit somewhere on a board, the likeliest first: what is used on the board already, then on the wall,
 * then by kind. A bolt goes where the headroom lets it; a flat plate where the sill is flush; a stepped one where it is set back.
 */
export function connectorsFor(layout: Layout, wall: Wall, piece: SillPiece): readonly Connector[] {
  const usedHere = new Map<Connector, number>();
  for (const anchor of wall.anchors) {
    if (!anchor.connector || anchor.station === undefined) continue;
    const onPiece = piece.from <= anchor.station && anchor.station <= piece.to;
    usedHere.set(anchor.connector, (usedHere.get(anchor.connector) ?? 0) + (onPiece ? 1000 : 1));
  }
  return [...layout.connectors.values()]
    .filter((connector) => anchorsSill(connector.kind))
    .filter((connector) => clearIntervals({ layout, wall, piece, connector }).sure.length > 0)
    .sort(
      (a, b) =>
        (usedHere.get(b) ?? 0) - (usedHere.get(a) ?? 0) ||
        preference(a.kind) - preference(b.kind) ||
        (a.name < b.name ? -1 : a.name > b.name ? 1 : 0),
    );
}

const KINDS: readonly ConnectorKind[] = ['through-bolt', 'side-plate', 'stepped-side-plate'];
const preference = (kind: ConnectorKind): number => KINDS.indexOf(kind);
