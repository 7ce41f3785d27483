/**
 * Placement against a general solver, on the same walls in the same run: `node scripts/bench-placement.ts [walls] [seconds]`.
 * Each time is of one wall, after a warm-up of both, ours the median of five runs that remember nothing of each other. A
 * program that is not done after so many seconds counts with these, so the ratios are the least that they can be.
 */
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { createAnalyser } from '../language/analysis.ts';
import { placeLayout } from '../language/domain/place/place-layout.ts';
import { chainsOf } from '../language/domain/placement/chain.ts';
import { placementMemory } from '../language/domain/placement/memory.ts';
import type { PlacementProblem } from '../language/domain/placement/problem.ts';
import { type PlacementAnswer, solvePlacement } from '../language/domain/placement/solve.ts';
import { leastCost, noBudget, solving } from '../language/domain/placement/solve-chain.ts';
import { problemOfInstance } from '../language/domain/placement/verify-instances.ts';
import { programSolver } from '../tests/oracles/mixed-integer-program.ts';
import { randomWall, type WallCase } from '../tests/oracles/random-walls.ts';

export interface PlacementBench {
  readonly walls: number;
  /** Programs that were not done in time: their walls' ratios are lower bounds. */
  readonly unfinishedPrograms: number;
  /** Walls for which the two disagree on the cost. Has to be empty. */
  readonly disagreements: readonly string[];
  readonly costOnly: Comparison;
  readonly costAndSlack: Comparison;
  /** All of `solvePlacement`, on walls of 190 to 200 ft. */
  readonly longWalls: Times;
}
export interface Comparison {
  readonly ours: Times;
  readonly program: Times;
  /** Of the two medians, and the median of the walls' own ratios. */
  readonly ratioOfMedians: number;
  readonly medianRatio: number;
}
/** In milliseconds. */
export interface Times {
  readonly median: number;
  readonly p95: number;
}

/** The slack is proven on every third wall only: those programs are many times larger. */
export async function benchPlacement(count: number, secondsAtMost: number): Promise<PlacementBench> {
  const program = await programSolver();
  const walls: WallCase[] = [];
  for (let seed = 1; walls.length < count; seed += 1) {
    const wall = randomWall(seed, { leastFeet: 10, greatestFeet: 200, grain: 16, mostTypes: 4 });
    if (wall.emax - wall.emin <= wall.maxGap && solvePlacement(problemOf(wall)).status === 'optimal') walls.push(wall);
  }
  for (const wall of walls.slice(0, 2)) program({ ...wall, demand: wall.demand.map(() => 0) }, { secondsAtMost });
  for (let seed = 20_000; seed < 20_300; seed += 1) {
    const other = problemOf(randomWall(seed, { leastFeet: 10, greatestFeet: 200, grain: 16, mostTypes: 4 }));
    costOf(other);
    solvePlacement(other);
  }
  const ours = walls.map((wall) => {
    const problem = problemOf(wall);
    return { cost: timed(() => costOf(problem), 5), whole: timed(() => solvePlacement(problem), 5) };
  });
  const costs: Pair[] = [];
  const slacks: Pair[] = [];
  const disagreements: string[] = [];
  let unfinished = 0;
  for (const [index, wall] of walls.entries()) {
    const own = ours[index];
    if (own === undefined) continue;
    const cost = timed(() => program(wall, { secondsAtMost }), 1);
    costs.push({ ours: own.cost.time, program: cost.time });
    if (cost.result.status === 'gave-up') unfinished += 1;
    else if (cost.result.status !== 'optimal' || cost.result.cost !== own.cost.result) disagreements.push(wall.id);

    if (index % 3 !== 0) continue;
    const slack = slackOf(own.whole.result);
    const budget = own.cost.result ?? 0;
    // The program is told the slack and has only to prove it: that it can be kept, and that no more can.
    const kept = timed(() => program(wall, { slack, budget, secondsAtMost }), 1);
    const more = timed(() => program(wall, { slack: slack + 1, budget, secondsAtMost }), 1);
    slacks.push({ ours: own.whole.time, program: cost.time + kept.time + more.time });
    if (kept.result.status === 'infeasible' || more.result.status === 'optimal') disagreements.push(wall.id);
    if (kept.result.status === 'gave-up' || more.result.status === 'gave-up') unfinished += 1;
  }
  const long = Array.from({ length: 200 }, (_, index) =>
    problemOf(randomWall(10_000 + index, { leastFeet: 190, greatestFeet: 200, grain: 16, mostTypes: 4 })),
  );
  const longTimes = long.map((problem) => timed(() => solvePlacement(problem), 1).time);
  return {
    walls: walls.length,
    unfinishedPrograms: unfinished,
    disagreements,
    costOnly: compare(costs),
    costAndSlack: compare(slacks),
    longWalls: timesOf(longTimes),
  };
}

interface Pair {
  readonly ours: number;
  readonly program: number;
}

export interface HouseBench {
  readonly house: string;
  /** Laid out with nothing remembered, from a layout that was just read. */
  readonly afresh: Times;
  /** After an edit of one board, with what the last placement found out. */
  readonly afterAnEdit: Times;
}

/** The demo house from its file: the whole of it laid out, and again after one board was edited. */
export function benchHouse(runs: number): HouseBench {
  const file = 'maple-surveyed.sill';
  const text = readFileSync(fileURLToPath(new URL(`../examples/${file}`, import.meta.url)), 'utf8');
  const read = (edited: string) =>
    createAnalyser({
      read: () => ({ text: edited }),
      resolve: () => ({ refused: 'nothing is used' }),
    }).analyse(file).layout;
  const request = (edited: string) => ({
    layouts: [read(edited)] as const,
    scope: { kind: 'house' as const },
    unexplained: true,
  });
  const withPipe = (inches: number) =>
    text.replace('  hatch   H1', `  pipe P9 at 13'-${inches % 12}" wide 4"\n  hatch   H1`);
  const afresh: number[] = [];
  const afterAnEdit: number[] = [];
  for (let run = -2; run < runs; run += 1) {
    const memory = placementMemory();
    const first = request(text);
    const second = request(withPipe(run + 2));
    const times = [
      timed(() => placeLayout({ ...first, memory }), 1).time,
      timed(() => placeLayout({ ...second, memory }), 1).time,
    ];
    // The first two only warm up.
    if (run < 0) continue;
    afresh.push(times[0] ?? 0);
    afterAnEdit.push(times[1] ?? 0);
  }
  return { house: file, afresh: timesOf(afresh), afterAnEdit: timesOf(afterAnEdit) };
}

function costOf(problem: PlacementProblem): number | undefined {
  const job = solving(placementMemory());
  let cost = 0;
  for (const chain of chainsOf(problem)) {
    const own = leastCost(chain, { slack: 0, total: 0, kinds: undefined, budget: noBudget }, job).cost;
    if (own === undefined) return undefined;
    cost += own;
  }
  return cost;
}

function slackOf(answer: PlacementAnswer): number {
  return 'slack' in answer ? (answer.slack ?? 0) : 0;
}

/** The median of so many runs. */
function timed<T>(run: () => T, runs: number): { readonly result: T; readonly time: number } {
  const start = performance.now();
  const result = run();
  const times = [performance.now() - start];
  for (let again = 1; again < runs; again += 1) {
    const from = performance.now();
    run();
    times.push(performance.now() - from);
  }
  return { result, time: timesOf(times).median };
}

function compare(pairs: readonly Pair[]): Comparison {
  const ours = timesOf(pairs.map((pair) => pair.ours));
  const program = timesOf(pairs.map((pair) => pair.program));
  const ratios = timesOf(pairs.map((pair) => pair.program / pair.ours));
  return { ours, program, ratioOfMedians: program.median / ours.median, medianRatio: ratios.median };
}

function timesOf(times: readonly number[]): Times {
  const sorted = [...times].sort((a, b) => a - b);
  const at = (share: number) => sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? 0;
  return { median: at(0.5), p95: at(0.95) };
}

function problemOf(wall: WallCase): PlacementProblem {
  const problem = problemOfInstance(wall);
  if (typeof problem === 'string') throw new Error(problem);
  return problem;
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const count = Number(process.argv[2] ?? 15);
  const seconds = Number(process.argv[3] ?? 20);
  const bench = await benchPlacement(count, seconds);
  const ms = ({ median, p95 }: Times) => `median ${median.toFixed(2)} ms, p95 ${p95.toFixed(2)} ms`;
  const show = (what: string, goal: number, { ours, program, ratioOfMedians, medianRatio }: Comparison) => {
    console.log(`${what}`);
    console.log(`  placement            ${ms(ours)}`);
    console.log(`  mixed-integer        ${ms(program)}`);
    console.log(
      `  ratio of medians     ${ratioOfMedians.toFixed(0)} x (goal ${goal} x); median ratio ${medianRatio.toFixed(0)} x`,
    );
  };
  console.log(
    `${bench.walls} random walls of 10 to 200 ft, up to 4 kinds; ${bench.unfinishedPrograms} programs not done after ${seconds} s`,
  );
  show('cost only', 500, bench.costOnly);
  show('cost and slack', 100, bench.costAndSlack);
  console.log(`all of a placement, walls of 190 to 200 ft: ${ms(bench.longWalls)} (goal: p95 100 ms)`);
  const house = benchHouse(12);
  console.log(`${house.house}, every board`);
  console.log(`  laid out afresh      ${ms(house.afresh)}`);
  console.log(`  after an edit of one ${ms(house.afterAnEdit)}`);
  console.log(
    bench.disagreements.length === 0
      ? 'the two agree on every wall that both solved'
      : `THEY DISAGREE: ${bench.disagreements.join(', ')}`,
  );
  if (bench.disagreements.length > 0) process.exitCode = 1;
}
