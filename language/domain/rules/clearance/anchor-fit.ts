import type { FitAt } from '../../fit/clear-intervals.ts';
import { clearIntervals, fitAt } from '../../fit/clear-intervals.ts';
import type { Blocked, BlockReason, FitCase } from '../../fit/fit-case.ts';
import type { CountedAnchor } from '../../fit/piece-anchors.ts';
import { anchorsOf, pieceAt } from '../../fit/piece-anchors.ts';
import { changeConnector, slideAnchor } from '../../fixes/anchor-fixes.ts';
import type { Connector } from '../../hardware/connector.ts';
import { anchorsSill } from '../../hardware/connector.ts';
import type { Layout, NewAnchor, SillPiece, Wall } from '../../model/layout.ts';
import type { Length } from '../../units/length.ts';
import type { RuleContext } from '../define.ts';
import type { Fix } from '../finding.ts';

/** A new anchor at its place, and whether it fits there. */
export interface PlacedAnchor {
  readonly station: Length;
  readonly piece: SillPiece | undefined;
  readonly fitCase: FitCase;
  readonly fit: FitAt;
}

/** `undefined` for what is no sill anchor, has no legible place, or will not be built. */
export function placedAnchor(
  layout: Layout,
  wall: Wall,
  anchor: NewAnchor,
  connector: Connector,
): PlacedAnchor | undefined {
  const { station } = anchor;
  if (station === undefined || !anchorsSill(connector.kind)) return undefined;
  if (anchor.state === 'omitted' || anchor.state === 'failed') return undefined;
  const piece = pieceAt(wall, station);
  const fitCase = { layout, wall, piece, connector, shim: anchor.shim, rightAngleDrill: anchor.rightAngleDrill };
  return { station, piece, fitCase, fit: fitAt(fitCase, station) };
}

/** What rules the anchor out for one of these reasons, the deepest in the way first. */
export function inTheWay({ fit, station }: PlacedAnchor, reasons: readonly BlockReason[]): readonly Blocked[] {
  const depth = (each: Blocked): number => Math.min(station - each.from, each.to - station);
  return fit.blocked.filter((each) => reasons.includes(each.reason)).sort((a, b) => depth(b) - depth(a));
}

/** Says which measurements are missing for one of these reasons. */
export function sayLacking({ fit }: PlacedAnchor, reasons: readonly BlockReason[], context: RuleContext): void {
  for (const each of fit.lacking) {
    if (reasons.includes(each.reason)) context.lacks({ wants: each.wants, at: each.span, thing: each.thing });
  }
}

/** The clear spots on either side, in words: `Clear spots: 3'-8" and 5'-9".` */
export function clearSpotsWords({ fitCase, station }: PlacedAnchor, { showStation }: RuleContext): string {
  if (!fitCase.piece) return '';
  const { clear } = clearIntervals(fitCase);
  const left = clear.findLast((each) => each.to <= station)?.to;
  const right = clear.find((each) => each.from >= station)?.from;
  const spots = [left, right].flatMap((each) => (each === undefined ? [] : [showStation(each)]));
  if (spots.length === 0) return `It fits nowhere on sill ${fitCase.piece.name}: choose another connector.`;
  return `Nearest clear: ${spots.join(' or ')}.`;
}

/** Out of the way by the shortest slide, or with another connector in the same place. */
export function waysOut(now: Layout, wall: Wall, piece: SillPiece | undefined, anchor: NewAnchor): readonly Fix[] {
  if (!piece) return [];
  const counted: CountedAnchor | undefined = anchorsOf(wall, piece).find((each) => each.id === anchor.id);
  return [
    ...(counted ? slideAnchor(now, wall, piece, counted, 'nearest') : []),
    ...changeConnector(now, wall, piece, anchor),
  ];
}
