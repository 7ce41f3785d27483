import { clearIntervals } from '../fit/clear-intervals.ts';
import { endWindow } from '../fit/end-window.ts';
import type { Intervals } from '../fit/intervals.ts';
import { within } from '../fit/intervals.ts';
import { diameterOfConnector, endDistanceAsked } from '../fit/piece-requirements.ts';
import type { Connector } from '../hardware/connector.ts';
import type { Layout, SillPiece, Stretch, Wall } from '../model/layout.ts';
import type { Fix } from '../rules/finding.ts';
import { formatStation } from '../units/format-length.ts';
import type { Length } from '../units/length.ts';
import { inches, minus, nanometres, plus, roundDownTo, roundUpTo } from '../units/length.ts';
import { insertAnchors } from './anchor-fixes.ts';
import { withEdits } from './apply-in-memory.ts';
import { connectorsFor } from './choose-connector.ts';
import type { ThingEdit } from './edit.ts';
import { stationsFor } from './place-anchors.ts';
import { tapeStep } from './tape-step.ts';

/** A shorter rest of a board is not worth keeping: it takes one anchor only. */
const SHORTEST_REST = inches(30);
/** So many cuts on either side are tried in earnest, this far apart: one beside a cut that failed mostly fails as well. */
const MOST_CUTS = 4;
const CUTS_APART = inches(6);

/**
 * New wood in place of a bad stretch of a board, and the anchors that the new boards then want. A cut makes two ends, so it is
 * made where both of them can have their anchor; nothing is offered where no such cut is found.
 * @param clear sound wood to cut back to on either side
 */
export function replaceSill(layout: Layout, wall: Wall, piece: SillPiece, bad: Stretch, clear: Length): readonly Fix[] {
  // A board without a name of its own, or one that is new already, can't be named in the line.
  if (piece.layer === 'design' || /\(\d+\)$/.test(piece.name)) return [];
  // As if the wood were sound: cuts are looked for in the whole of the board.
  const cleared: Wall = { ...wall, defects: wall.defects.map((each) => ({ ...each, remedied: true })) };
  const probe: Layout = { ...layout, walls: layout.walls.map((each) => (each === wall ? cleared : each)) };
  for (const connector of connectorsFor(probe, cleared, piece).slice(0, 2)) {
    const fit = clearIntervals({ layout: probe, wall: cleared, piece, connector });
    const cuts = { layout, wall, piece, connector, sure: fit.sure };
    const lefts = cutsFrom(cuts, minus(bad.from, clear), 'left');
    const rights = cutsFrom(cuts, plus(bad.to, clear), 'right');
    for (const from of lefts) {
      for (const to of rights) {
        const fix = replacement(layout, wall, piece, connector, { from, to });
        if (fix) return [fix];
      }
    }
  }
  return [];
}

interface Cuts {
  readonly layout: Layout;
  readonly wall: Wall;
  readonly piece: SillPiece;
  readonly connector: Connector;
  readonly sure: Intervals;
}

/** From the bad wood outwards: the nearest cuts with a clear window on either side, or the end of the board. */
function cutsFrom(
  { layout, wall, piece, connector, sure }: Cuts,
  start: Length,
  way: 'left' | 'right',
): readonly Length[] {
  const end = way === 'left' ? piece.from : piece.to;
  const rest = way === 'left' ? minus(start, end) : minus(end, start);
  if (rest < SHORTEST_REST) return [end];
  const diameters = [diameterOfConnector(connector)];
  const step = nanometres(tapeStep(layout.title.units) * 16);
  const has = (window: Stretch): boolean => within(sure, window).length > 0;
  const found: Length[] = [];
  const first = way === 'left' ? roundDownTo(start, step) : roundUpTo(start, step);
  for (
    let cut = first;
    found.length < MOST_CUTS && (way === 'left' ? minus(cut, end) : minus(end, cut)) >= SHORTEST_REST;
    cut = way === 'left' ? minus(cut, step) : plus(cut, step)
  ) {
    const sides = (['left', 'right'] as const).map((side) => {
      // The board left of the cut has its right end there, the one right of it its left end.
      const least = endDistanceAsked(layout, wall, piece, side, 'least', diameters);
      const most = endDistanceAsked(layout, wall, piece, side, 'most', diameters);
      if (least.kind !== 'asked' || most.kind !== 'asked') return false;
      const board = side === 'left' ? { ...piece, from: cut } : { ...piece, to: cut };
      return has(endWindow(board, side, least.value, most.value));
    });
    const last = found[found.length - 1];
    const apart = last === undefined || Math.abs(cut - last) >= CUTS_APART;
    if (apart && sides.every(Boolean)) found.push(cut);
  }
  return [...found, end];
}

/**
 * With the anchors that the new boards want. Where nobody has begun with the wall, its other boards get theirs too: a line that
 * is begun is a line to finish. Nothing where the new boards can't be anchored.
 */
function replacement(
  layout: Layout,
  wall: Wall,
  piece: SillPiece,
  connector: Connector,
  { from, to }: Stretch,
): Fix | undefined {
  const replace: ThingEdit = { kind: 'replace-sill', wall: wall.id, piece: piece.id, from, to };
  const edits: ThingEdit[] = [replace];
  let now = withEdits(layout, edits);
  const boards = now.walls.find((each) => each.id === wall.id)?.pieces ?? [];
  for (const { id } of boards.filter((each) => wall.anchors.length === 0 || !wall.pieces.includes(each))) {
    const here = now.walls.find((each) => each.id === wall.id);
    const board = here?.pieces.find((each) => each.id === id);
    if (!here || !board || !stationsFor(now, here, board, connector, { kind: 'piece' })) {
      if (board && wall.pieces.includes(board)) continue;
      return undefined;
    }
    const more = insertAnchors(now, here, board, { kind: 'piece' })[0]?.edits ?? [];
    edits.push(...more);
    now = withEdits(now, more);
  }
  const added = edits.length - 1;
  const show = (at: Length): string => formatStation(at, layout.title.units);
  const whole = from === piece.from && to === piece.to;
  const place = whole ? '' : ` from ${show(from)} to ${show(to)}`;
  const anchors = added === 0 ? '' : ` and add ${added} ${added === 1 ? 'anchor' : 'anchors'}`;
  return { title: `Replace sill ${piece.name}${place} by treated wood${anchors}: shore first`, trust: 'review', edits };
}
