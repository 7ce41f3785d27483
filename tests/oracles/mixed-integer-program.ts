import type { Highs } from 'highs';
import type { WallCase } from './random-walls.ts';

export type ProgramResult =
  | { readonly status: 'optimal'; readonly cost: number }
  | { readonly status: 'infeasible' }
  | { readonly status: 'gave-up' };

/**
 * The same wall as a mixed-integer program for a general solver (HiGHS, in WebAssembly): one yes-or-no for each mark and
 * type, on the coarsest grid that loses nothing. A gap limit is counted, not paired: `S` counts the anchors up to a mark.
 */
export async function programSolver(): Promise<(wall: WallCase, options?: ProgramOptions) => ProgramResult> {
  // Its types are those of its CommonJS build, where the function is one level deeper.
  const { default: loadHighs } = (await import('highs')) as unknown as { readonly default: () => Promise<Highs> };
  const highs = await loadHighs();
  return (wall, options = {}) => {
    const program = programOf(wall, options);
    if (program === undefined) return { status: 'infeasible' };
    // The gaps are set to zero: by default the search stops at a cost that is nearly the least.
    const limits = { mip_rel_gap: 0, mip_abs_gap: 0, time_limit: options.secondsAtMost ?? 60, output_flag: false };
    const solution = highs.solve(program, limits);
    if (solution.Status === 'Optimal') return { status: 'optimal', cost: Math.round(solution.ObjectiveValue) };
    return { status: solution.Status === 'Infeasible' ? 'infeasible' : 'gave-up' };
  };
}

export interface ProgramOptions {
  /** Every limit is tightened by it. */
  readonly slack?: number;
  /** Nothing dearer is looked for. */
  readonly budget?: number;
  readonly secondsAtMost?: number;
}

/** In the LP text format. `undefined` where some constraint has nothing to hold it up, which that format cannot say. */
export function programOf(wall: WallCase, { slack = 0, budget }: ProgramOptions): string | undefined {
  const emin = wall.emin + slack;
  const emax = wall.emax - slack;
  const maxGap = wall.maxGap - slack;
  const minGap = wall.minGap + slack;
  if (emax < emin || maxGap < minGap) return undefined;
  // Beyond this an anchor in the last window could have a later one out of reach, which the counting does not see.
  if (emax - emin > maxGap) throw new Error('the program does not hold for windows wider than the greatest gap');
  const grid = gridOf(wall, slack);
  const cuts = [0, ...wall.breaks, wall.length];
  const marks: { x: number; piece: number; types: number[] }[] = [];
  for (let piece = 0; piece < wall.demand.length; piece += 1) {
    const from = cuts[piece] ?? 0;
    const to = cuts[piece + 1] ?? 0;
    for (let x = from + emin; x <= to - emin; x += grid) {
      const types = [...wall.types.keys()].filter((t) => mayStand(wall, t, x, slack));
      marks.push({ x, piece, types });
    }
  }
  const choices = (of: readonly (typeof marks)[number][]) =>
    of.flatMap(({ x, types }) => types.map((t) => `y${x}_${t}`));
  const rows: string[] = [];
  const counted = (x: number) => marks.filter((mark) => mark.x <= x).at(-1)?.x;

  for (const [index, mark] of marks.entries()) {
    const previous = marks[index - 1];
    const terms = choices([mark])
      .map((name) => ` - ${name}`)
      .join('');
    rows.push(`S${mark.x}${previous === undefined ? '' : ` - S${previous.x}`}${terms} = 0`);
    const far = counted(mark.x + maxGap);
    const mustHaveAnother = mark.x < wall.length - emax;
    const reached = far === undefined || far === mark.x ? undefined : `S${far} - S${mark.x}`;
    // Past the first window there is an anchor to the left of every mark, and its next one comes in reach of the mark too:
    // a stronger statement than one about anchors at the mark, and what makes the program solvable.
    if (mustHaveAnother && mark.x >= emax) {
      if (reached === undefined) return undefined;
      rows.push(`${reached} >= 1`);
    } else if (mustHaveAnother && mark.types.length > 0) {
      rows.push(reached === undefined ? `${choices([mark]).join(' + ')} = 0` : `${reached}${terms} >= 0`);
    }
    const near = counted(mark.x + minGap - 1);
    if (near !== undefined && near !== mark.x)
      rows.push(`S${near}${previous === undefined ? '' : ` - S${previous.x}`} <= 1`);
  }
  for (const [piece, demand] of wall.demand.entries()) {
    const from = cuts[piece] ?? 0;
    const to = cuts[piece + 1] ?? 0;
    const own = marks.filter((mark) => mark.piece === piece);
    const first = choices(own.filter(({ x }) => x <= from + emax));
    const last = choices(own.filter(({ x }) => x >= to - emax));
    if (first.length === 0 || last.length === 0) return undefined;
    rows.push(
      `${first.join(' + ')} >= 1`,
      `${last.join(' + ')} >= 1`,
      `${choices(own).join(' + ')} >= ${wall.minCount}`,
    );
    const strengths = own.flatMap(({ x, types }) => types.map((t) => `${wall.types[t]?.capacity ?? 0} y${x}_${t}`));
    rows.push(`${strengths.join(' + ')} >= ${demand}`);
  }
  const costs = marks.flatMap(({ x, types }) => types.map((t) => `${wall.types[t]?.cost ?? 0} y${x}_${t}`));
  if (budget !== undefined) rows.push(`${costs.join(' + ')} <= ${budget}`);
  return [
    'Minimize',
    ` cost: ${wrapped(costs)}`,
    'Subject To',
    ...rows.map((row, index) => ` c${index}: ${wrapped(row.split(' + '))}`),
    'Binary',
    ...choices(marks).map((name) => ` ${name}`),
    'End',
  ].join('\n');
}

function mayStand(wall: WallCase, type: number, x: number, slack: number): boolean {
  const kind = wall.types[type];
  if (kind === undefined) return false;
  // Rooms that touch are one.
  const rooms: [number, number][] = [];
  for (const [from, to] of [...(kind.available ?? [[0, wall.length] as const])].sort((a, b) => a[0] - b[0])) {
    const last = rooms.at(-1);
    if (last !== undefined && from <= last[1]) last[1] = Math.max(last[1], to);
    else rooms.push([from, to]);
  }
  if (!rooms.some(([from, to]) => from + slack <= x && x <= to - slack)) return false;
  return wall.obstructions.every(
    ({ from, to, clear }) => x + slack <= from - clear - kind.half || x - slack >= to + clear + kind.half,
  );
}

/** Every length of the wall, and the slack, is a multiple of it. */
export function gridOf(wall: WallCase, slack: number): number {
  const lengths = [wall.length, ...wall.breaks, wall.emin, wall.emax, wall.maxGap, wall.minGap, slack];
  for (const { from, to, clear } of wall.obstructions) lengths.push(from, to, clear);
  for (const { half, available } of wall.types) lengths.push(half, ...(available ?? []).flat());
  return lengths.reduce((a, b) => {
    while (b !== 0) [a, b] = [b, a % b];
    return a;
  }, 0);
}

/** Lines of the format are bounded, so long sums are broken. */
function wrapped(terms: readonly string[]): string {
  const lines: string[] = [];
  for (let at = 0; at < terms.length; at += 10) lines.push(terms.slice(at, at + 10).join(' + '));
  return lines.join('\n  + ');
}
