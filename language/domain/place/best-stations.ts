import { tapeStep } from '../fixes/tape-step.ts';
import { anchorsSill, type Connector } from '../hardware/connector.ts';
import type { Layout, SillPiece, Wall } from '../model/layout.ts';
import { solvePlacement } from '../placement/solve.ts';
import { type Length, nanometres } from '../units/length.ts';
import { boardCase } from './board-case.ts';
import { useOf } from './connector-uses.ts';

/**
 * Stations at which a connector is wanted next on a board, from left to right: where it goes if the board is completed in
 * this connector, everything that stands there now, proposals too, staying as it is. Empty where nothing is wanted, or
 * where the board cannot be completed.
 */
export function bestStations(layout: Layout, wall: Wall, piece: SillPiece, connector: Connector): readonly Length[] {
  if (!anchorsSill(connector.kind)) return [];
  const step = tapeStep(layout.title.units);
  const board = boardCase([layout], wall, piece, {
    step,
    connectors: [connector],
    otherConnectors: [],
    isMovable: () => false,
  });
  if (board.kind === 'open') return [];
  // As the bare line would set it: with the usual drill, on no shim.
  const plain = useOf(connector).id;
  const offers = board.placement.offers.filter(({ kind }) => kind === plain);
  const answer = solvePlacement({
    step,
    slip: 0,
    kinds: [{ id: plain, cost: 1, capacity: 0 }],
    pieces: [{ ...board.placement, offers, otherOffers: [] }],
    lines: [],
  });
  if (answer.status !== 'optimal' && answer.status !== 'unproven') return [];
  return answer.anchors.map(({ station }) => nanometres(station));
}
