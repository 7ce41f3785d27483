import type { ConnectorMoves, MoveBoard, MoveLimits, MoveStretch } from '../../language/protocol/moves.ts';

/** How a connector would stand at a station. Lengths in whole nanometres. */
export interface Standing {
  readonly station: number;
  /** `undefined` beside all boards. */
  readonly board: MoveBoard | undefined;
  readonly fit: 'clear' | 'unmeasured' | 'blocked';
  /** What is in the way; where it is unmeasured, what was not measured. */
  readonly why: readonly string[];
  /** The distances to ends and neighbours are within what is asked; `undefined` where nothing is known of it. */
  readonly isKept: boolean | undefined;
  /** Gas or power is near. */
  readonly isNearService: boolean;
  readonly left: Gap | undefined;
  readonly right: Gap | undefined;
}
export interface Gap {
  /** The neighbour; `undefined` for the end of the board. */
  readonly name: string | undefined;
  readonly station: number;
  readonly length: number;
  readonly breaks: 'too-near' | 'too-far' | undefined;
  /** The one that it breaks. */
  readonly limit: number | undefined;
}

export function standingAt(moves: ConnectorMoves, station: number): Standing {
  const board = boardAt(moves, station);
  if (!board) {
    const why = ['no board here'];
    const nobody = { isKept: undefined, isNearService: false, left: undefined, right: undefined };
    return { station, board, fit: 'blocked', why, ...nobody };
  }
  const isClear = holds(board.clear, station);
  const blocks = wordsAcross(board.inTheWay, station);
  const lacks = wordsAcross(board.lacking, station);
  const fit = isClear ? 'clear' : blocks.length > 0 || lacks.length === 0 ? 'blocked' : 'unmeasured';
  const before = board.others.filter((other) => other.station <= station).at(-1);
  const after = board.others.find((other) => other.station > station);
  return {
    station,
    board,
    fit,
    why: isClear ? [] : fit === 'unmeasured' ? lacks : blocks.length > 0 ? blocks : ['no room here'],
    isKept: board.left.least === null ? undefined : holds(board.kept, station),
    isNearService: board.services.some(({ from, to }) => from < station && station < to),
    left: before
      ? gapOf(before.name, before.station, station - before.station, before)
      : gapOf(undefined, board.from, station - board.from, board.left),
    right: after
      ? gapOf(after.name, after.station, after.station - station, after)
      : gapOf(undefined, board.to, board.to - station, board.right),
  };
}

function gapOf(name: string | undefined, station: number, length: number, { least, most }: MoveLimits): Gap {
  if (least !== null && length < least) return { name, station, length, breaks: 'too-near', limit: least };
  if (most !== null && length > most) return { name, station, length, breaks: 'too-far', limit: most };
  return { name, station, length, breaks: undefined, limit: undefined };
}

/** The board for which a connector at a station counts: in a lap, one of the two. */
export function boardAt({ boards }: ConnectorMoves, station: number): MoveBoard | undefined {
  return boards.find(({ counts }) => holds(counts, station)) ?? boards.find((board) => holds([board], station));
}

/** The tape mark for a pointer; a good place within reach draws it to itself, the best of them first. */
export function snapped(moves: ConnectorMoves, wanted: number, reach: number): number {
  const { step } = moves;
  const good = goodPlaces(moves);
  const nearest = (places: readonly number[]): number | undefined =>
    places.reduce<number | undefined>((best, place) => {
      const away = Math.abs(place - wanted);
      return away > reach || (best !== undefined && Math.abs(best - wanted) <= away) ? best : place;
    }, undefined);
  const drawn = nearest(good.best) ?? nearest(good.ends);
  return drawn ?? onWall(moves, Math.round(wanted / step) * step);
}

/** One tape mark on, or to the next place where it may stand. The same station where there is none. */
export function stepped(moves: ConnectorMoves, from: number, direction: 1 | -1, by: 'mark' | 'place'): number {
  const { step } = moves;
  if (by === 'mark') {
    const next = direction === 1 ? Math.floor(from / step) + 1 : Math.ceil(from / step) - 1;
    return onWall(moves, next * step, from);
  }
  const { best, ends } = goodPlaces(moves);
  const ahead = [...best, ...ends].filter((place) => (place - from) * direction > 0);
  return ahead.reduce(
    (next, place) => (Math.abs(place - from) < Math.abs(next - from) ? place : next),
    ahead[0] ?? from,
  );
}

interface GoodPlaces {
  readonly best: readonly number[];
  /** The outermost tape marks of the stretches where it may stand. */
  readonly ends: readonly number[];
}

export function goodPlaces({ boards, step }: ConnectorMoves): GoodPlaces {
  return {
    best: boards.flatMap((board) => board.best.filter((place) => place % step === 0)),
    ends: boards.flatMap((board) =>
      [...board.kept, ...board.clear].flatMap((stretch) =>
        marksIn(stretch, step).filter((mark) => holds(board.counts, mark)),
      ),
    ),
  };
}

function marksIn({ from, to }: MoveStretch, step: number): readonly number[] {
  const first = Math.ceil(from / step) * step;
  const last = Math.floor(to / step) * step;
  return first > last ? [] : [first, last];
}

/** Tape marks beyond the boards are none. */
function onWall({ boards, step }: ConnectorMoves, mark: number, otherwise?: number): number {
  const least = Math.ceil(Math.min(...boards.map(({ from }) => from)) / step) * step;
  const most = Math.floor(Math.max(...boards.map(({ to }) => to)) / step) * step;
  if (otherwise !== undefined && (mark < least || mark > most)) return otherwise;
  return Math.max(least, Math.min(most, mark));
}

const holds = (stretches: readonly MoveStretch[], station: number): boolean =>
  stretches.some(({ from, to }) => from <= station && station <= to);

function wordsAcross(stretches: MoveBoard['inTheWay'], station: number): readonly string[] {
  const words = stretches.filter(({ from, to }) => from < station && station < to).map((each) => each.words);
  return [...new Set(words)];
}
