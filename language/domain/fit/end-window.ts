import type { Layout, SillPiece, Stretch } from '../model/layout.ts';
import type { Length } from '../units/length.ts';
import { minus, plus } from '../units/length.ts';
import type { ClearIntervals } from './clear-intervals.ts';
import type { Blocked } from './fit-case.ts';
import { PHYSICAL } from './fit-case.ts';
import { within, withoutOpen } from './intervals.ts';
import type { Side } from './piece-requirements.ts';
import { pastObstructionAllowed } from './piece-requirements.ts';

/** Where the anchor nearest to an end of a board must stand, measured from the true end of the wood; both ends belong to it. */
export function endWindow(piece: SillPiece, side: Side, least: Length, most: Length): Stretch {
  return side === 'left'
    ? { from: plus(piece.from, least), to: plus(piece.from, most) }
    : { from: minus(piece.to, most), to: minus(piece.to, least) };
}

/** How far a station is from an end of a board. */
export function fromEnd(piece: SillPiece, side: Side, station: Length): Length {
  return side === 'left' ? minus(station, piece.from) : minus(piece.to, station);
}

export interface PastObstruction {
  /** The nearest clear spot beyond the window. */
  readonly nearest: Length;
  readonly things: readonly Blocked[];
}

/**
 * Where physical things fill all of an end window, and the rules allow it, the nearest clear spot beyond is as good as the
 * window. Studs and defects of wood or concrete are no such things: those call for another connector, or for mending.
 */
export function spotPastObstruction(
  layout: Layout,
  piece: SillPiece,
  side: Side,
  window: Stretch,
  fits: ClearIntervals,
): PastObstruction | undefined {
  if (!pastObstructionAllowed(layout)) return undefined;
  const things = physicalBlockers(window, fits);
  if (withoutOpen(window, things).length > 0) return undefined;
  const beyond = side === 'left' ? { from: window.to, to: piece.to } : { from: piece.from, to: window.from };
  const spots = within(fits.clear, beyond);
  const nearest = side === 'left' ? spots[0]?.from : spots[spots.length - 1]?.to;
  return nearest === undefined ? undefined : { nearest, things };
}

/** What stands in an end window, of whatever kind. */
export function blockersOf(window: Stretch, fits: ClearIntervals): readonly Blocked[] {
  return fits.blocked.filter((each) => each.from < window.to + 1 && each.to > window.from - 1);
}

function physicalBlockers(window: Stretch, fits: ClearIntervals): readonly Blocked[] {
  return blockersOf(window, fits).filter((each) => PHYSICAL.has(each.reason));
}
