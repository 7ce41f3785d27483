/** A value that nobody measured, between bounds that somebody is ready to defend. In any one unit. */
export interface UncertainValue {
  readonly name: string;
  readonly low: number;
  /** What is assumed meanwhile; between the bounds. */
  readonly likely: number;
  readonly high: number;
}

/**
 * Demand over capacity (or anything of which more is worse) for one set of values, each by its name.
 * `undefined`: it cannot be computed there, which counts as the worst: unknown is never clear.
 */
export type Utilisation = (values: ReadonlyMap<string, number>) => number | undefined;

export interface RankedUnknown {
  readonly name: string;
  /** How far the outcome moves when this alone goes from low to high, the rest as assumed. */
  readonly swing: number;
  /** The spread of the outcome that is left, at worst, once this one is known. */
  readonly spreadLeft: number;
  /** How much of the whole spread goes with it: what a measurement is worth. */
  readonly spreadRemoved: number;
  /** Knowing this one can settle by itself whether the limit holds. */
  readonly canSettle: boolean;
  readonly trend: Trend;
}
/** `turning`: neither always up nor always down, so the worst may lie between the bounds. */
export type Trend = 'rising' | 'falling' | 'level' | 'turning';

export interface UnknownsRanking {
  /** With everything as assumed. */
  readonly likely: number;
  readonly least: number;
  readonly greatest: number;
  /** Against the limit: `within` or `over` whatever the unknowns turn out to be, or `depends` on them. */
  readonly verdict: 'within' | 'over' | 'depends';
  /** The one most worth measuring first. */
  readonly ranking: readonly RankedUnknown[];
  /** How often the utilisation was worked out. */
  readonly evaluations: number;
}

/**
 * Which unknown most needs measuring. Works the utilisation at every corner of the box of bounds (two values each; five
 * for those that turn on the way), so the range holds for whatever is monotone between them; past 4096 corners it follows
 * each unknown's trend instead and works only the corners where the trends put the extremes.
 */
export function rankUnknowns(
  utilisation: Utilisation,
  unknowns: readonly UncertainValue[],
  limit = 1,
): UnknownsRanking {
  const known = new Map<string, number>();
  let evaluations = 0;
  const at = (levels: readonly number[]): number => {
    const key = levels.join(' ');
    const before = known.get(key);
    if (before !== undefined) return before;
    evaluations += 1;
    const worked = utilisation(
      new Map(unknowns.map((unknown, index) => [unknown.name, levels[index] ?? unknown.likely])),
    );
    const outcome = worked === undefined || Number.isNaN(worked) ? Number.POSITIVE_INFINITY : worked;
    known.set(key, outcome);
    return outcome;
  };

  const assumed = unknowns.map((unknown) => unknown.likely);
  const trends = unknowns.map((_, index) => trendOf(index, unknowns, at));
  const levels = unknowns.map((unknown, index) => levelsOf(unknown, trends[index] ?? 'turning'));
  const range = (fixed?: { readonly index: number; readonly level: number }): Range => {
    const choices = levels.map((each, index) => (index === fixed?.index ? [fixed.level] : each));
    const corners = choices.reduce((product, each) => product * each.length, 1);
    return corners <= MOST_CORNERS ? overCorners(choices, at) : alongTrends(choices, trends, at);
  };

  const whole = range();
  const ranking = unknowns.map((unknown, index): RankedUnknown => {
    const moved = (levels[index] ?? []).map((level) => at(assumed.with(index, level)));
    const rests = (levels[index] ?? []).map((level) => range({ index, level }));
    const spreadLeft = Math.max(...rests.map(spreadOf));
    return {
      name: unknown.name,
      swing: difference(Math.max(...moved), Math.min(...moved)),
      spreadLeft,
      spreadRemoved: difference(spreadOf(whole), spreadLeft),
      canSettle: verdictOf(whole, limit) === 'depends' && rests.some((rest) => verdictOf(rest, limit) !== 'depends'),
      trend: trends[index] ?? 'turning',
    };
  });
  ranking.sort((a, b) => b.spreadRemoved - a.spreadRemoved || b.swing - a.swing || (a.name < b.name ? -1 : 1));
  return {
    likely: at(assumed),
    least: whole.least,
    greatest: whole.greatest,
    verdict: verdictOf(whole, limit),
    ranking,
    evaluations,
  };
}

const MOST_CORNERS = 4096;
interface Range {
  readonly least: number;
  readonly greatest: number;
}
type At = (levels: readonly number[]) => number;

/** Walks along one unknown from the assumed point and from the all-low and all-high corners: one trend in all, or it turns. */
function trendOf(index: number, unknowns: readonly UncertainValue[], at: At): Trend {
  const unknown = unknowns[index];
  if (!unknown) return 'level';
  const bases = [
    unknowns.map((each) => each.likely),
    unknowns.map((each) => each.low),
    unknowns.map((each) => each.high),
  ];
  let rises = false;
  let falls = false;
  for (const base of bases) {
    const outcomes = stepsOf(unknown).map((level) => at(base.with(index, level)));
    outcomes.forEach((outcome, step) => {
      const before = outcomes[step - 1];
      if (before === undefined) return;
      const change = difference(outcome, before);
      if (change > NO_CHANGE) rises = true;
      if (change < -NO_CHANGE) falls = true;
    });
  }
  if (rises && falls) return 'turning';
  return rises ? 'rising' : falls ? 'falling' : 'level';
}
const NO_CHANGE = 1e-12;

const stepsOf = ({ low, high }: UncertainValue): readonly number[] =>
  [0, 0.25, 0.5, 0.75, 1].map((share) => low + share * (high - low));
const levelsOf = (unknown: UncertainValue, trend: Trend): readonly number[] =>
  trend === 'turning' ? stepsOf(unknown) : [unknown.low, unknown.high];

function overCorners(choices: readonly (readonly number[])[], at: At): Range {
  let least = Number.POSITIVE_INFINITY;
  let greatest = Number.NEGATIVE_INFINITY;
  const corner: number[] = [];
  const visit = (index: number): void => {
    const levels = choices[index];
    if (!levels) {
      const outcome = at(corner);
      least = Math.min(least, outcome);
      greatest = Math.max(greatest, outcome);
      return;
    }
    for (const level of levels) {
      corner[index] = level;
      visit(index + 1);
    }
  };
  visit(0);
  return { least, greatest };
}

/** Each unknown at the end that its trend names; those that turn are tried one after the other. */
function alongTrends(choices: readonly (readonly number[])[], trends: readonly Trend[], at: At): Range {
  const extreme = (worst: boolean): number => {
    const corner = choices.map(
      (levels, index) => levels[(trends[index] === 'rising') === worst ? levels.length - 1 : 0] ?? 0,
    );
    const better = (a: number, b: number): boolean => (worst ? a > b : a < b);
    let best = at(corner);
    choices.forEach((levels, index) => {
      if (trends[index] !== 'turning') return;
      for (const level of levels) {
        const tried = at(corner.with(index, level));
        if (!better(tried, best)) continue;
        best = tried;
        corner[index] = level;
      }
    });
    return best;
  };
  return { least: extreme(false), greatest: extreme(true) };
}

const spreadOf = ({ least, greatest }: Range): number => difference(greatest, least);
/** Of two outcomes without end the difference is nothing. */
const difference = (a: number, b: number): number => (a === b ? 0 : a - b);
const verdictOf = ({ least, greatest }: Range, limit: number): UnknownsRanking['verdict'] =>
  greatest <= limit ? 'within' : least > limit ? 'over' : 'depends';
