import { blocksAround, type PlacementProblem, type Stretch } from './problem.ts';
import { type SolveOptions, solvePlacement } from './solve.ts';

/** What came of one case of a case file. */
export interface VerifiedInstance {
  readonly id: string;
  readonly status: 'optimal' | 'infeasible' | 'unproven' | 'gave-up' | 'malformed';
  readonly cost?: number;
  readonly slack?: number;
  readonly placement?: readonly { readonly x: number; readonly type: string }[];
  /** Why the case could not be read. */
  readonly reason?: string;
}

/**
 * Solves cases in the plain form of the problem, one set of limits a wall, as case files give it:
 * `{ id, length, breaks, emin, emax, maxGap, minGap, minCount, demand, obstructions: [{ from, to, clear }],
 * types: [{ id, cost, capacity, half, available: [[from, to], …] | null }] }`, every length a whole number of one unit.
 * Takes the list, or an object with it under `cases`; other fields, as an `expected` result, are passed over. A case that
 * cannot be read says so in its own line and holds up no other.
 */
export function verifyPlacement(cases: unknown, options: SolveOptions = {}): VerifiedInstance[] {
  const list = Array.isArray(cases) ? cases : isRecord(cases) && Array.isArray(cases.cases) ? cases.cases : undefined;
  if (list === undefined) return [{ id: '', status: 'malformed', reason: 'there is no list of cases' }];
  return list.map((entry: unknown, index) => verifyInstance(entry, index, options));
}

/** One case as a problem, or why it is none. */
export function problemOfInstance(instance: unknown): PlacementProblem | string {
  if (!isRecord(instance)) return 'a case is an object';
  const { emin, emax, minGap, maxGap, minCount } = instance;
  for (const [field, value] of Object.entries({ emin, emax, minGap, maxGap, minCount })) {
    if (typeof value !== 'number') return `${field} is missing`;
  }
  const end = { least: Number(emin), most: Number(emax) };
  const limits = { left: end, right: end, minGap: Number(minGap), maxGap: Number(maxGap), count: Number(minCount) };
  const { length, breaks, demand, obstructions, types } = instance;
  if (typeof length !== 'number') return 'length is missing';
  if (!isNumbers(breaks)) return 'breaks is not a list of numbers';
  if (!isNumbers(demand) || demand.length !== breaks.length + 1) return 'demand does not give one number a piece';
  if (!Array.isArray(obstructions) || !obstructions.every(isObstruction))
    return 'an obstruction lacks from, to or clear';
  if (!Array.isArray(types) || !types.every(isType)) return 'a type lacks id, cost, capacity, half or available';
  const cuts = [0, ...breaks, length];
  if (cuts.some((cut, index) => index > 0 && cut <= (cuts[index - 1] ?? 0)))
    return 'the breaks do not rise within the length';

  const halfWidths = new Map(types.map((type) => [type.id, type.half]));
  const whole: Stretch = { from: 0, to: length };
  return {
    step: 1,
    slip: 0,
    kinds: types.map(({ id, cost, capacity }) => ({ id, cost, capacity })),
    pieces: demand.map((wanted, index) => ({
      id: `piece ${index + 1}`,
      from: cuts[index] ?? 0,
      to: cuts[index + 1] ?? length,
      demand: wanted,
      joinsNext: true,
      offers: types.map((type) => ({
        kind: type.id,
        limits,
        available: type.available === null ? [whole] : type.available.map(([from, to]) => ({ from, to })),
      })),
      otherOffers: [],
      obstructions: obstructions.map((obstruction, at) => ({
        id: `obstruction ${at + 1}`,
        physical: true,
        liftable: true,
        liftCost: undefined,
        blocks: blocksAround(obstruction, halfWidths),
      })),
      fixed: [],
      preferred: [],
      endWindowPastObstruction: false,
    })),
    lines: [],
  };
}

function verifyInstance(instance: unknown, index: number, options: SolveOptions): VerifiedInstance {
  const id = isRecord(instance) && typeof instance.id === 'string' ? instance.id : `case ${index + 1}`;
  const problem = problemOfInstance(instance);
  if (typeof problem === 'string') return { id, status: 'malformed', reason: problem };
  const answer = solvePlacement(problem, options);
  if (answer.status === 'malformed')
    return { id, status: 'malformed', reason: answer.faults.map(({ where, what }) => `${where}: ${what}`).join('; ') };
  if (answer.status === 'infeasible' || answer.status === 'gave-up') return { id, status: answer.status };
  const placement = answer.anchors.map(({ station, kind }) => ({ x: station, type: kind }));
  return {
    id,
    status: answer.status,
    cost: answer.cost,
    ...(answer.slack === undefined ? {} : { slack: answer.slack }),
    placement,
  };
}

function isRecord(value: unknown): value is Readonly<Record<string, unknown>> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

function isNumbers(value: unknown): value is readonly number[] {
  return Array.isArray(value) && value.every((entry) => typeof entry === 'number');
}

function isObstruction(value: unknown): value is { from: number; to: number; clear: number } {
  return (
    isRecord(value) && typeof value.from === 'number' && typeof value.to === 'number' && typeof value.clear === 'number'
  );
}

interface InstanceType {
  readonly id: string;
  readonly cost: number;
  readonly capacity: number;
  readonly half: number;
  readonly available: readonly (readonly [number, number])[] | null;
}
function isType(value: unknown): value is InstanceType {
  if (!isRecord(value) || typeof value.id !== 'string') return false;
  const { cost, capacity, half, available } = value;
  if (typeof cost !== 'number' || typeof capacity !== 'number' || typeof half !== 'number') return false;
  return (
    available === null || (Array.isArray(available) && available.every((pair) => isNumbers(pair) && pair.length === 2))
  );
}
