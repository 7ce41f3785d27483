import { formatLength, formatStation } from '../../language/domain/units/format-length.ts';
import { nanometres } from '../../language/domain/units/length.ts';
import type { ConnectorMoves, MoveStretch } from '../../language/protocol/moves.ts';
import type { Gap, Standing } from './move-steps.ts';

/** As it will stand in the text: in the unit that its line is written in. */
export function stationWords({ stationUnits }: ConnectorMoves, station: number): string {
  return formatStation(nanometres(station), stationUnits);
}

/** `5'-8" to F-10`; `9" to the end of F2`. */
export function gapWords({ units }: ConnectorMoves, gap: Gap, boardName: string): string {
  const to = gap.name ?? `the end of ${boardName}`;
  return `${formatLength(nanometres(gap.length), units)} to ${to}${limitWords(units, gap)}`;
}

/** The bare distance, as it stands on the line. */
export function gapLength({ units }: ConnectorMoves, gap: Gap): string {
  return `${formatLength(nanometres(gap.length), units)}${limitWords(units, gap)}`;
}

function limitWords(units: ConnectorMoves['units'], { breaks, limit }: Gap): string {
  if (breaks === undefined || limit === undefined) return '';
  return `, ${breaks === 'too-near' ? 'at least' : 'at most'} ${formatLength(nanometres(limit), units)}`;
}

/** What goes before the drill; empty where no gas or power is near. */
export function cautionWords({ isNearService }: Standing): string {
  return isNearService ? 'gas or power near: locate and expose both sides first' : '';
}

/** Whether it may stand there, in a few words. Never more than is known. */
export function fitWords({ board, fit, why, isKept, left, right }: Standing): string {
  if (fit === 'blocked') return `does not fit: ${why.join('; ')}`;
  if (fit === 'unmeasured') return `not measured: ${why.join('; ')}`;
  if (board === undefined || isKept === undefined) return 'fits; what distances are asked here is not known';
  if (isKept) return 'fits, distances kept';
  if (left?.breaks || right?.breaks) return 'fits, but a distance is not kept';
  return 'fits, but the distances of the others are not kept';
}

/** For who hears it, and under the drawing: the mark, its place, its neighbours. */
export function standingWords(moves: ConnectorMoves, standing: Standing): string {
  const { board, left, right, station } = standing;
  const gaps = [
    left && `left ${gapWords(moves, left, board?.name ?? '')}`,
    right && `right ${gapWords(moves, right, board?.name ?? '')}`,
  ];
  const place = `${moves.mark} at ${stationWords(moves, station)}`;
  return [place, fitWords(standing), cautionWords(standing), ...gaps].filter(Boolean).join('; ');
}

const MOST_IN_WORDS = 6;

/** `F-11 may stand 26'-4" to 27'-0", 28'-0" to 30'-2"`, board by board. */
export function windowsWords(moves: ConnectorMoves): string {
  const { units, mark, boards } = moves;
  const stretch = ({ from, to }: MoveStretch): string =>
    from === to
      ? formatStation(nanometres(from), units)
      : `${formatStation(nanometres(from), units)} to ${formatStation(nanometres(to), units)}`;
  const all = boards.flatMap(({ clear }) => clear);
  const listed = all.slice(0, MOST_IN_WORDS).map(stretch);
  const more = all.length > listed.length ? ` and ${all.length - listed.length} more` : '';
  const open = all.length === 0 ? 'has no place that is known to be free' : `may stand ${listed.join(', ')}${more}`;
  const isUnsure = boards.some(({ unmeasured }) => unmeasured.length > 0);
  return `${mark} ${open}${isUnsure ? '; dashed: not measured' : ''}`;
}
