import { fromEnd } from '../fit/end-window.ts';
import type { Side } from '../fit/piece-requirements.ts';
import type { LengthUnits } from '../model/layout.ts';
import type { AnchorLimits } from '../placement/problem.ts';
import { formatLength } from '../units/format-length.ts';
import { nanometres } from '../units/length.ts';
import type { PlacedBoard, ProposedAnchor } from './place-layout.ts';

/** Why an anchor stands where it stands, in a few words: an end, a gap, a number. */
export function reasonOf({ board, anchors }: PlacedBoard, anchor: ProposedAnchor, units: LengthUnits): string {
  const { piece, kept, placement } = board;
  const limits = placement.offers.find(({ kind }) => kind === anchor.use.id)?.limits;
  if (limits === undefined) return '';
  const stations = [...kept, ...anchors].map(({ station }) => station).sort((a, b) => a - b);
  if (stations.length === 1 && limits.left.most === undefined && limits.right.most === undefined) {
    return 'the only one of a short board, nearest to the middle of its clear stretch';
  }
  const ends = (['left', 'right'] as const).filter(
    (side) => stations.at(side === 'left' ? 0 : -1) === anchor.station && limits[side].most !== undefined,
  );
  if (ends.length > 0) {
    return ends.map((side) => endReason(side, limits, anchor, piece, board.inTheWay, placement, units)).join('; ');
  }
  const { maxGap } = limits;
  if (maxGap === undefined) return `one of the ${limits.count} that a board of its length takes`;
  const at = stations.indexOf(anchor.station);
  const gap = (a: number | undefined, b: number | undefined) =>
    a === undefined || b === undefined ? '' : formatLength(nanometres(b - a), units);
  const gaps = [gap(stations[at - 1], anchor.station), gap(anchor.station, stations[at + 1])].filter(Boolean);
  return `gaps ${gaps.join(' and ')}, at most ${formatLength(nanometres(maxGap), units)}`;
}

function endReason(
  side: Side,
  limits: AnchorLimits,
  { station, onlySpot }: ProposedAnchor,
  piece: PlacedBoard['board']['piece'],
  inTheWay: PlacedBoard['board']['inTheWay'],
  placement: PlacedBoard['board']['placement'],
  units: LengthUnits,
): string {
  const show = (length: number) => formatLength(nanometres(length), units);
  const distance = fromEnd(piece, side, station);
  const { least, most = distance } = limits[side];
  if (distance <= most || !onlySpot) return `${side} end: ${show(distance)}, within ${show(least)} to ${show(most)}`;
  const window =
    side === 'left'
      ? { from: piece.from + least, to: piece.from + most }
      : { from: piece.to - most, to: piece.to - least };
  const things = placement.obstructions
    .filter(({ physical, blocks }) => physical && blocks.some(({ from, to }) => from < window.to && to > window.from))
    .flatMap(({ id }) => inTheWay.get(id)?.words ?? []);
  return `${side} end: the nearest clear spot, ${show(distance)} from it, past ${[...new Set(things)].join(' and ')}`;
}
