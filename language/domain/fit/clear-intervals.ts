import type { Connector } from '../hardware/connector.ts';
import type { Layout, SillPiece, Stretch, Wall } from '../model/layout.ts';
import { knownValue } from '../model/reading.ts';
import type { Length } from '../units/length.ts';
import { minus, nanometres, plus, zero } from '../units/length.ts';
import { blockByConcrete } from './blocked-by-concrete.ts';
import { blockByOldHoles } from './blocked-by-old-holes.ts';
import { blockByThings, reachOfThings } from './blocked-by-things.ts';
import { blockByWall } from './blocked-by-wall.ts';
import type { Blocked, FitCase, Lacking } from './fit-case.ts';
import { footprintOf } from './footprint.ts';
import type { IntervalIndex } from './interval-index.ts';
import { intervalIndex } from './interval-index.ts';
import type { Intervals } from './intervals.ts';
import { withoutOpen } from './intervals.ts';

export interface ClearIntervals {
  /** Where the centre may stand as far as anybody knows: closed stretches in order, a single station where only one is left. */
  readonly clear: Intervals;
  /** The part of `clear` for which no measurement is missing. Work is proposed only here. */
  readonly sure: Intervals;
  /** What rules centres out, each stretch by one thing; they may overlap. In order of `from`. */
  readonly blocked: readonly Blocked[];
  /** What could rule centres out but was not measured. In order of `from`. */
  readonly lacking: readonly Lacking[];
}

export interface FitAt {
  /** Empty: as far as anybody knows, it fits. */
  readonly blocked: readonly Blocked[];
  /** Empty: and nothing is missing. */
  readonly lacking: readonly Lacking[];
}

/**
 * Where does this connector fit on this board, and what is in the way elsewhere. Checks, fixes, placement and drawings all
 * ask here, so that they cannot disagree. Exact in whole nanometres.
 */
export function clearIntervals(fitCase: FitCase): ClearIntervals {
  return answerFor(fitCase).intervals;
}

/** Does this connector fit with its centre at this station, and if not, why not. */
export function fitAt(fitCase: FitCase, station: Length): FitAt {
  const answer = answerFor(fitCase);
  return {
    blocked: answer.blocked.overlapping(station, station),
    lacking: answer.lacking.overlapping(station, station),
  };
}

interface Answer {
  readonly intervals: ClearIntervals;
  readonly blocked: IntervalIndex<Blocked>;
  readonly lacking: IntervalIndex<Lacking>;
}

/**
 * Checks, fixes and drawings ask the same many times, of one board after the other: answers about the boards of a layout that were
 * asked about last are kept as long as the layout.
 */
const answers = new WeakMap<Layout, Map<SillPiece | Wall, WeakMap<Connector, Map<string, Answer>>>>();
const mostBoards = 48;

function answerFor(fitCase: FitCase): Answer {
  const { layout, wall, piece, connector } = fitCase;
  const ofLayout = answers.get(layout) ?? new Map<SillPiece | Wall, WeakMap<Connector, Map<string, Answer>>>();
  answers.set(layout, ofLayout);
  const board = piece ?? wall;
  let ofPiece = ofLayout.get(board);
  if (!ofPiece) {
    const [oldest] = ofLayout.keys();
    if (oldest && ofLayout.size >= mostBoards) ofLayout.delete(oldest);
    ofPiece = new WeakMap<Connector, Map<string, Answer>>();
    ofLayout.set(board, ofPiece);
  }
  const ofConnector = ofPiece.get(connector) ?? new Map<string, Answer>();
  ofPiece.set(connector, ofConnector);
  const shim = keyOf(fitCase.shim);
  const howSet = [fitCase.rightAngleDrill === true, fitCase.bothSides === true];
  const key = [shim, ...howSet, keyOf(fitCase.offset), keyOf(fitCase.embed)].join(' ');
  const before = ofConnector.get(key);
  if (before) return before;
  const answer = makeAnswer(fitCase);
  ofConnector.set(key, answer);
  return answer;
}

const keyOf = (reading: FitCase['shim']): number | string =>
  reading === undefined ? 'none' : (knownValue(reading) ?? 'unknown');

function makeAnswer(fitCase: FitCase): Answer {
  const { layout, wall, piece, connector } = fitCase;
  const whole: Stretch = piece ?? { from: zero, to: wall.length ?? furthestOn(wall) };
  const blocked: Blocked[] = [];
  const lacking: Lacking[] = [];
  const notes = {
    block: (each: Blocked): void => {
      if (each.from < each.to) blocked.push(each);
    },
    lacks: (each: Lacking): void => {
      if (each.from < each.to) lacking.push(each);
    },
  };
  const footprint = footprintOf(fitCase);
  const halfWidth = footprint.halfWidth ?? zero;
  if (footprint.halfWidth === undefined) {
    notes.lacks({
      from: minus(whole.from, nanometres(1)),
      to: plus(whole.to, nanometres(1)),
      reason: 'thing',
      wants: `body of connector ${connector.name}`,
      thing: `connector:${connector.name}`,
      span: connector.source,
    });
  }
  const reach = reachOfThings(layout, footprint, halfWidth);
  const around = { from: nanometres(whole.from - reach - 1), to: nanometres(whole.to + reach + 1) };
  blockByWall(fitCase, footprint, halfWidth, around, notes);
  blockByConcrete(fitCase, footprint, around, notes);
  blockByThings(fitCase, footprint, halfWidth, around, notes);
  blockByOldHoles(fitCase, footprint, halfWidth, around, notes);

  const inPlay = <Item extends Stretch>(items: readonly Item[]): readonly Item[] =>
    items
      .filter((each) => each.to > whole.from - 1 && each.from < whole.to + 1)
      .sort((a, b) => a.from - b.from || a.to - b.to);
  const blockedHere = inPlay(blocked);
  const lackingHere = inPlay(lacking);
  return {
    intervals: {
      clear: withoutOpen(whole, blockedHere),
      sure: withoutOpen(whole, [...blockedHere, ...lackingHere]),
      blocked: blockedHere,
      lacking: lackingHere,
    },
    blocked: intervalIndex(blockedHere),
    lacking: intervalIndex(lackingHere),
  };
}

function furthestOn(wall: Wall): Length {
  const ends = [...wall.pieces, ...wall.foundation].map((each) => each.to);
  return nanometres(Math.max(0, ...ends));
}
