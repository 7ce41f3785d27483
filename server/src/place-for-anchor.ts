import { type ClearIntervals, clearIntervals } from '../../language/domain/fit/clear-intervals.ts';
import type { Layout, NewAnchor, SillPiece, Stretch, Wall } from '../../language/domain/model/layout.ts';
import { formatStation } from '../../language/domain/units/format-length.ts';
import type { Length } from '../../language/domain/units/length.ts';
import type { RangePart } from '../../language/protocol/preview.ts';

/** Where on its board an anchor's connector fits, as the checks see it. */
export interface PlaceForAnchor {
  readonly piece: SillPiece;
  readonly station: Length;
  readonly fits: ClearIntervals;
  /** The clear stretch that it stands in; `undefined` where it does not fit. */
  readonly clearHere: Stretch | undefined;
}

/** `undefined` where the anchor has no place, no board or no known connector. */
export function placeFor(layout: Layout, wall: Wall, anchor: NewAnchor): PlaceForAnchor | undefined {
  const { station, connector, shim, rightAngleDrill } = anchor;
  const piece = station === undefined ? undefined : pieceAt(wall, station);
  if (station === undefined || !piece || !connector) return undefined;
  const fits = clearIntervals({ layout, wall, piece, connector, shim, rightAngleDrill });
  const clearHere = fits.clear.find(({ from, to }) => from <= station && station <= to);
  return { piece, station, fits, clearHere };
}

export function pieceAt(wall: Wall, station: Length): SillPiece | undefined {
  return wall.pieces.find(({ from, to }) => from <= station && station <= to);
}

/** The board as a bar: clear, clear as far as anybody measured, and blocked by what. */
export function rangeOfBoard(layout: Layout, wall: Wall, anchor: NewAnchor): RangePart | null {
  const place = placeFor(layout, wall, anchor);
  if (!place) return null;
  const { piece, station, fits } = place;
  const units = layout.title.units;
  const share = (at: Length): number => (at - piece.from) / Math.max(1, piece.to - piece.from);
  const part = (kind: RangePart['parts'][number]['kind'], { from, to }: Stretch, words: string) => ({
    kind,
    from: Math.max(0, share(from)),
    to: Math.min(1, share(to)),
    words,
  });
  return {
    from: formatStation(piece.from, units),
    to: formatStation(piece.to, units),
    at: share(station),
    parts: [
      ...fits.clear.map((stretch) => part('clear', stretch, 'fits here')),
      ...fits.lacking.map((stretch) => part('unsure', stretch, `not known: ${stretch.wants}`)),
      ...fits.blocked.map((stretch) => part('blocked', stretch, stretch.words)),
    ].filter(({ from, to }) => from <= 1 && to >= 0),
  };
}
