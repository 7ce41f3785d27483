import { serviceOf } from '../fit/blocked-by-things.ts';
import { isOpening } from '../fit/studs.ts';
import { thingWords } from '../fit/thing-words.ts';
import type { Layout, LengthUnits } from '../model/layout.ts';
import type { Cause, LooseLimit, PricedRelief, Relief } from '../placement/explain.ts';
import { formatLength, formatStation } from '../units/format-length.ts';
import { nanometres } from '../units/length.ts';
import { type Currency, formatMoney } from '../units/money.ts';
import type { BoardCase } from './board-case.ts';
import { type Costs, plainCost } from './connector-costs.ts';
import type { FailedBoard } from './place-layout.ts';
import { isDefectOfWood } from './replace-board.ts';

/** Why a board has no placement and what would change that, in words for a person who can decide. */
export interface FailureWords {
  readonly cause: string;
  /** The least that blocks it by itself. Empty: the limits, or what stands there. */
  readonly blockers: readonly string[];
  /** Each tried by placing again with it, the cheapest first. */
  readonly reliefs: readonly ReliefWords[];
}
export interface ReliefWords {
  readonly words: string;
  /** New anchors with it, in cents or as a number; the lifting itself is not priced. `undefined`: another rule than now. */
  readonly cost: number | undefined;
}

/** So many ways out are shown: beyond them nobody reads. */
const MOST_RELIEFS = 4;

export function failureInWords(
  layout: Layout,
  { board, problem, explanation }: FailedBoard,
  costs: Costs,
  more: readonly ReliefWords[] = [],
): FailureWords {
  const units = layout.title.units;
  if (!explanation) return { cause: 'not looked into', blockers: [], reliefs: [] };
  const slip = problem.slip === 0 ? '' : `, with ${formatLength(nanometres(problem.slip), units)} of slip either way`;
  const reliefs = explanation.reliefs
    .filter(({ relief }) => relief.kind !== 'loosen' && !(more.length > 0 && isNewWood(board, relief)))
    .flatMap((priced) => reliefInWords(board, priced, costs, units));
  const loosened = explanation.reliefs
    .filter(({ relief }) => relief.kind === 'loosen' && relief.limit === LOOSENED[explanation.cause.kind])
    .flatMap((priced) => reliefInWords(board, priced, costs, units))
    .map(({ words }) => ({ words, cost: undefined }));
  return {
    cause: `${causeInWords(board, explanation.cause, units)}${slip}`,
    blockers: namesOf(board, explanation.blockers),
    // A change of the limits is for an official or an engineer to allow: the last resort, and one of them is enough to say so.
    reliefs: [
      ...[...more, ...reliefs].toSorted((a, b) => (a.cost ?? 0) - (b.cost ?? 0)).slice(0, MOST_RELIEFS),
      ...loosened.slice(0, 1),
    ],
  };
}

/** The limit that a cause turns on: to ask for another one would answer a question that nobody put. */
const LOOSENED: Readonly<Record<Cause['kind'], LooseLimit | undefined>> = {
  'nothing-offered': undefined,
  'piece-too-short': 'end-least',
  'end-blocked': 'end-most',
  'fixed-in-the-way': undefined,
  'stretch-blocked': 'maxGap',
  'too-few-fit': 'count',
  'too-weak': 'demand',
  'count-and-strength': undefined,
  'across-breaks': 'maxGap',
  'line-short': 'line-count',
};

/** `$41.20`, `3 connectors`. */
export function costInWords(cost: number, costs: Costs): string {
  if (costs.unit === 'money') return formatMoney({ currency: costs.currency as Currency, cents: cost });
  return cost === 1 ? '1 connector' : `${cost} connectors`;
}

function causeInWords(board: BoardCase, cause: Cause, units: LengthUnits): string {
  const show = (length: number) => formatLength(nanometres(length), units);
  const showStation = (length: number) => formatStation(nanometres(length), units);
  const { piece } = board;
  switch (cause.kind) {
    case 'nothing-offered': {
      const why = board.unfit.map(({ use, why }) => `${use.connector.name}: ${why}`).join('; ');
      return `no connector in sight surely fits${why === '' ? '' : `: ${why}`}`;
    }
    case 'piece-too-short':
      return `${show(cause.length)} long, and the end distances take ${show(cause.least)}`;
    case 'end-blocked': {
      const window = `${showStation(cause.window.from)} to ${showStation(cause.window.to)}`;
      const things = listOf(namesOf(board, cause.obstructions));
      return `no place in its ${cause.end} end window, ${window}${things === '' ? '' : `: ${things}`}`;
    }
    case 'fixed-in-the-way':
      return `what stands there leaves no place: ${listOf(cause.anchors.map((id) => anchorWords(board, id)))}`;
    case 'stretch-blocked': {
      const things = listOf(namesOf(board, cause.obstructions));
      const from = cause.reached === undefined ? 'from its left end' : `beyond ${showStation(cause.reached)}`;
      const next =
        cause.next === undefined
          ? 'there is no place to stand'
          : `the next place to stand is ${showStation(cause.next)}`;
      const most = cause.maxGap === undefined ? '' : `, over the ${show(cause.maxGap)} allowed between two`;
      return `${from}, ${next}${cause.next === undefined ? '' : most}${things === '' ? '' : `: ${things}`}`;
    }
    case 'too-few-fit':
      return `only ${cause.fit} of the ${cause.wanted} that a board of ${show(piece.to - piece.from)} takes find a place`;
    case 'too-weak':
    case 'count-and-strength':
      return 'the anchors that fit are not strong enough together';
    case 'across-breaks':
      return 'the gaps across the breaks of the sill cannot be kept';
    case 'line-short':
      return `only ${cause.fit} of ${cause.wanted} find a place on the line`;
  }
}

function reliefInWords(
  board: BoardCase,
  { relief, cost }: PricedRelief,
  costs: Costs,
  units: LengthUnits,
): ReliefWords[] {
  const words = wordsOf(board, relief, units);
  return words === undefined ? [] : [{ words, cost: plainCost(cost, costs) }];
}

function wordsOf(board: BoardCase, relief: Relief, units: LengthUnits): string | undefined {
  const show = (length: number) => formatLength(nanometres(length), units);
  switch (relief.kind) {
    case 'lift':
      return liftInWords(board, relief.obstruction, units);
    case 'allow':
      return `use ${board.uses.get(relief.anchorKind)?.connector.name ?? relief.anchorKind} too`;
    case 'release': {
      const anchor = board.kept.find(({ id }) => id === relief.anchor);
      const planned = anchor?.planned;
      if (planned === undefined) return `give ${anchorWords(board, relief.anchor)} no credit`;
      if (planned.state === 'installed') return undefined;
      return planned.proposed
        ? `let ${planned.name} move, though an issue holds it`
        : `move or take out ${planned.name}, which was set by hand`;
    }
    case 'less-slip':
      return relief.slip === 0 ? 'promise no slip' : `promise less slip: ${show(relief.slip)}`;
    case 'loosen':
      return `let the official or an engineer allow ${limitInWords(relief.limit, relief.by, show)}`;
  }
}

function liftInWords(board: BoardCase, id: string, units: LengthUnits): string | undefined {
  const facts = board.inTheWay.get(id);
  if (!facts) return undefined;
  if (facts.wants !== undefined) return `measure ${facts.wants}, and it may turn out clear`;
  if (facts.defect) {
    const words = thingWords(facts.defect, units);
    return isDefectOfWood(facts.defect) ? `replace the wood that has ${words}` : `repair ${words}`;
  }
  const { obstruction } = facts;
  if (!obstruction || isOpening(obstruction)) return undefined;
  const words = thingWords(obstruction, units);
  if (serviceOf(obstruction)) return `have ${words} moved by the licensed trade`;
  return obstruction.words.has('movable') ? `move ${words}` : `have ${words} moved`;
}

/** A way out that names the cut says it better. */
function isNewWood(board: BoardCase, relief: Relief): boolean {
  const defect = relief.kind === 'lift' ? board.inTheWay.get(relief.obstruction)?.defect : undefined;
  return defect !== undefined && isDefectOfWood(defect);
}

function limitInWords(limit: LooseLimit, by: number, show: (length: number) => string): string {
  switch (limit) {
    case 'end-least':
      return `an end anchor ${show(by)} nearer to the end`;
    case 'end-most':
      return `an end anchor ${show(by)} further from the end`;
    case 'minGap':
      return `two anchors ${show(by)} closer together`;
    case 'maxGap':
      return `a gap ${show(by)} wider`;
    case 'count':
    case 'line-count':
      return by === 1 ? 'one anchor fewer' : `${by} anchors fewer`;
    case 'demand':
      return 'less strength';
  }
}

function namesOf(board: BoardCase, ids: readonly string[]): readonly string[] {
  return [...new Set(ids.flatMap((id) => board.inTheWay.get(id)?.words ?? []))];
}

function anchorWords(board: BoardCase, id: string): string {
  return board.kept.find((anchor) => anchor.id === id)?.words ?? id;
}

function listOf(words: readonly string[]): string {
  return words.length < 2 ? (words[0] ?? '') : `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`;
}
