import type { Connector } from '../hardware/connector.ts';
import { isSameList } from '../list-in-runs.ts';
import type { Layout, SillPiece, Stretch, Wall } from '../model/layout.ts';
import { knownValue } from '../model/reading.ts';
import { recentOnly } from '../recent-only.ts';
import type { Length } from '../units/length.ts';
import { minus, nanometres, plus, zero } from '../units/length.ts';
import { blockByConcrete } from './blocked-by-concrete.ts';
import { blockByOldHoles } from './blocked-by-old-holes.ts';
import { blockByThings, blockedByTries, reachOfThings } from './blocked-by-things.ts';
import { blockByWall } from './blocked-by-wall.ts';
import { cornersOf, seenRound } from './corners.ts';
import type { Blocked, FitCase, Lacking } from './fit-case.ts';
import { footprintOf } from './footprint.ts';
import { foundOn } from './found-on.ts';
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
 * Checks, fixes and drawings ask the same many times, of one board after the other: the answers about boards that were asked about lately
 * are kept as long as what was found on their wall stays, whatever is edited of the new work on it.
 */
const answers = recentOnly<SillPiece | Wall, KeptAnswers>();
interface KeptAnswers {
  inputs: readonly unknown[];
  readonly byConnector: WeakMap<Connector, Map<string, FoundAnswer>>;
}

function answerFor(fitCase: FitCase): Answer {
  const { layout, wall, piece, connector } = fitCase;
  const kept = keptAnswers(piece ?? wall, inputsOf(layout, wall));
  const ofConnector = kept.byConnector.get(connector) ?? new Map<string, FoundAnswer>();
  kept.byConnector.set(connector, ofConnector);
  const shim = keyOf(fitCase.shim);
  const howSet = [fitCase.rightAngleDrill === true, fitCase.bothSides === true];
  const key = [shim, ...howSet, keyOf(fitCase.offset), keyOf(fitCase.embed)].join(' ');
  const answer = ofConnector.get(key) ?? makeAnswer(fitCase);
  ofConnector.set(key, answer);
  return withTriedBefore(answer, fitCase);
}

function keptAnswers(board: SillPiece | Wall, inputs: readonly unknown[]): KeptAnswers {
  const before = answers.get(board);
  if (before && isSameList(before.inputs, inputs)) {
    // The next time it is the same list.
    before.inputs = inputs;
    return before;
  }
  const kept = { inputs, byConnector: new WeakMap<Connector, Map<string, FoundAnswer>>() };
  answers.set(board, kept);
  return kept;
}

const inputsOnWalls = new WeakMap<Layout, WeakMap<Wall, readonly unknown[]>>();

/** All that answers rest on but the board, the connector and how it is set. */
function inputsOf(layout: Layout, wall: Wall): readonly unknown[] {
  const ofLayout = inputsOnWalls.get(layout) ?? new WeakMap<Wall, readonly unknown[]>();
  inputsOnWalls.set(layout, ofLayout);
  const known = ofLayout.get(wall);
  if (known) return known;
  const { left, right } = cornersOf(layout, wall);
  const inputs = [layout.rules, layout.title.units, ...seenRound(left), ...seenRound(right), ...foundOn(wall)];
  ofLayout.set(wall, inputs);
  return inputs;
}

const keyOf = (reading: FitCase['shim']): number | string =>
  reading === undefined ? 'none' : (knownValue(reading) ?? 'unknown');

/** But for what was tried before, which is part of the new work. */
interface FoundAnswer extends Answer {
  readonly whole: Stretch;
  readonly halfWidth: Length;
}

function makeAnswer(fitCase: FitCase): FoundAnswer {
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

  const answer = answerOf(whole, blocked, lacking);
  return { ...answer, whole, halfWidth };
}

const withTries = new WeakMap<Wall, WeakMap<FoundAnswer, Answer>>();

function withTriedBefore(found: FoundAnswer, { layout, wall }: FitCase): Answer {
  const { whole, halfWidth, intervals } = found;
  const tried = blockedByTries(layout, wall, halfWidth, whole);
  if (tried.length === 0) return found;
  const ofWall = withTries.get(wall) ?? new WeakMap<FoundAnswer, Answer>();
  withTries.set(wall, ofWall);
  const answer = ofWall.get(found) ?? answerOf(whole, [...intervals.blocked, ...tried], intervals.lacking);
  ofWall.set(found, answer);
  return answer;
}

function answerOf(whole: Stretch, blocked: readonly Blocked[], lacking: readonly Lacking[]): Answer {
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
