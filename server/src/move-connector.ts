import type { Analysis } from '../../language/analysis.ts';
import { plainText } from '../../language/domain/drawing/lettering.ts';
import { BEFORE_THE_DRILL } from '../../language/domain/fixes/anchor-fixes.ts';
import { tapeStep } from '../../language/domain/fixes/tape-step.ts';
import type { NewAnchor, Wall } from '../../language/domain/model/layout.ts';
import { type BoardOfMove, boardsOfMove, whyFixed } from '../../language/domain/place/connector-moves.ts';
import type { AnchorLimits } from '../../language/domain/placement/problem.ts';
import { formatStation } from '../../language/domain/units/format-length.ts';
import { nanometres } from '../../language/domain/units/length.ts';
import type { ConnectorMoves, MoveBoard, MoveLimits, MovesAnswer } from '../../language/protocol/moves.ts';
import type { PaneUnits } from '../../language/protocol/pane-choices.ts';
import type { MoveParams } from '../../language/protocol/requests.ts';
import { unitsOfWords } from '../../language/syntax/print/station-like.ts';
import type { ServerContext } from './context.ts';
import type { EditFromPane } from './features/edits-from-pane.ts';
import { revisionOf } from './revision.ts';
import { findThing } from './things.ts';
import { workspaceEdit } from './workspace-edit.ts';

/** Where a thing may be moved along its wall, and where it could stand though it may not. */
export function movesOf(analysis: Analysis, thing: string, units: PaneUnits = 'as-written'): MovesAnswer {
  const revision = revisionOf(analysis);
  const found = connectorOf(analysis, thing);
  const moves = found.anchor ? connectorMoves(analysis, found, units) : null;
  if (found.why === undefined && moves) return { kind: 'moves', revision, moves };
  return { kind: 'fixed', revision, reason: found.why ?? 'it has no place on its wall', moves };
}

function connectorMoves(analysis: Analysis, { anchor, wall }: OnWall, units: PaneUnits): ConnectorMoves | null {
  const { layout } = analysis;
  const { station, state } = anchor;
  if (station === undefined || state !== 'planned') return null;
  const stationUnits = unitsOfWords(wordsOf(analysis, anchor), layout.title.units);
  return {
    thing: anchor.id,
    mark: plainText(anchor.name),
    station,
    step: tapeStep(stationUnits),
    units: units === 'as-written' ? layout.title.units : units,
    stationUnits,
    boards: boardsOfMove(layout, wall, anchor).map(boardOf),
  };
}

/** The edit that writes a new station into the connector's line; the reason where there is none. */
export function moveOf(
  context: ServerContext,
  analysis: Analysis,
  { thing, station: wanted }: MoveParams,
): EditFromPane | string {
  const found = connectorOf(analysis, thing);
  if (!found.anchor || found.why !== undefined) return found.why ?? 'only connectors of the design are moved here';
  const { anchor, wall } = found;
  const units = unitsOfWords(wordsOf(analysis, anchor), analysis.layout.title.units);
  const station = nanometres(Math.round(wanted));
  const end = wall.length ?? wall.pieces.at(-1)?.to;
  if (station < 0 || (end !== undefined && station > end)) return `that is beyond the end of wall ${wall.name}`;
  const name = plainText(anchor.name);
  const place = formatStation(station, units);
  if (station === anchor.station) return `${name} stands at ${place} already`;
  const edit = workspaceEdit(context, analysis, [{ kind: 'set-station', anchor: anchor.id, station }]);
  if (typeof edit === 'string') return edit;
  const isNearService = boardsOfMove(analysis.layout, wall, anchor).some(({ services }) =>
    services.some(({ from, to }) => from < station && station < to),
  );
  const caution = isNearService ? ` Near gas or power: ${BEFORE_THE_DRILL}.` : '';
  const proposed = anchor.proposed ? ' It is still a proposal: laying out may move it.' : '';
  return { label: `Move ${name} to ${place}`, edit, words: `${name} moved to ${place}.${caution}${proposed}` };
}

interface OnWall {
  readonly wall: Wall;
  readonly anchor: NewAnchor;
}
interface NotThere {
  readonly anchor?: undefined;
}

/** A connector of the design; `why` it, or what else was meant, stays where it is. */
function connectorOf({ layout }: Analysis, thing: string): (OnWall | NotThere) & { readonly why: string | undefined } {
  const placed = findThing(layout, thing);
  if (placed?.kind === 'anchor') {
    const { wall, thing: anchor } = placed;
    return { wall, anchor, why: whyFixed(layout, anchor) };
  }
  for (const wall of layout.walls) {
    const tie = wall.ties.find(({ id }) => id === thing);
    if (tie) {
      const name = plainText(tie.name);
      return { why: `${name} goes with its post: no rule here tells where else it may stand; write its station` };
    }
    const run = wall.angles.find(({ id }) => id === thing);
    if (run) return { why: `${plainText(run.name)} is one line of framing angles: write their stations there` };
  }
  return { why: placed ? 'only connectors of the design are moved here' : 'that is not in the layout any more' };
}

function wordsOf(analysis: Analysis, { stationSource }: NewAnchor): string {
  const place = stationSource && analysis.locate(stationSource);
  return (place && analysis.textOf(place.file)?.slice(place.start, place.end)) ?? '';
}

function boardOf({ piece, counts, windows, fits, services, others, limits, kept, best }: BoardOfMove): MoveBoard {
  const named = ({ from, to }: { readonly from: number; readonly to: number }, words: string) => ({
    from,
    to,
    words: shortened(plainText(words)),
  });
  return {
    name: plainText(piece.name),
    ...windows.board,
    counts,
    clear: windows.clear,
    unmeasured: windows.unmeasured,
    blocked: windows.blocked.map(({ from, to, words }) => ({ from, to, words: words.map(shortened) })),
    kept,
    best,
    inTheWay: fits.blocked.map((each) => named(each, each.words)),
    services,
    lacking: fits.lacking.map((each) => named(each, each.wants)),
    others: others.map(({ name, station, leastGap, mostGap }) => {
      return { name: plainText(name), station, least: leastGap ?? null, most: mostGap ?? null };
    }),
    left: endLimits(limits, 'left'),
    right: endLimits(limits, 'right'),
  };
}

function endLimits(limits: AnchorLimits | undefined, side: 'left' | 'right'): MoveLimits {
  return { least: limits?.[side].least ?? null, most: limits?.[side].most ?? null };
}

const LONGEST = 300;
const shortened = (words: string): string => (words.length > LONGEST ? `${words.slice(0, LONGEST)}…` : words);
