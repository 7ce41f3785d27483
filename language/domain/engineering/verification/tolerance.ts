import type { Statement } from '../prescriptive.ts';
import type { CheckValue, RecomputedValue } from './check-entry.ts';
import { isRecord } from './check-entry.ts';

/** How near a recomputed figure must come, as the entry words it. */
export interface Tolerance {
  /** Rounded to a step before comparing; `slack`: this near to half a step it may go either way. */
  readonly steps: readonly { readonly step: number; readonly unit: string; readonly slack: number }[];
  readonly absolute: readonly { readonly amount: number; readonly unit: string }[];
  /** Share of the expected value: for one printed value, or for all (`value` undefined). */
  readonly shares: readonly { readonly value: number | undefined; readonly share: number }[];
}

/**
 * Reads `exact`, `1 lb`, `0.05 kip; 0.001`, `nearest 10 lb; a value within 0.5 lb of a half-step may print either way`,
 * `0.01 (33.65: 2 percent)`, `table rounds to 5 or 10 plf`. What cannot be read asks for exact agreement.
 */
export function readTolerance(text: string): Tolerance {
  const steps = [...text.matchAll(/nearest (\d+(?:\.\d+)?) ?([a-z]+)/gi)].map((match) => ({
    step: Number(match[1]),
    unit: match[2] ?? '',
    slack: halfWaySlack(text),
  }));
  const printSteps = [...text.matchAll(/rounds? to (\d+(?:\.\d+)?) or (\d+(?:\.\d+)?) ?([a-z]+)?/gi)].map((match) => ({
    amount: Math.max(Number(match[1]), Number(match[2])) / 2,
    unit: match[3] ?? '',
  }));
  const shares = [...text.matchAll(/(?:(\d+(?:\.\d+)?): ?)?(\d+(?:\.\d+)?) ?(?:percent|%)/gi)].map((match) => ({
    value: match[1] === undefined ? undefined : Number(match[1]),
    share: Number(match[2]) / 100,
  }));
  const plain = text.split(/[;,(]/).flatMap((part) => {
    const match = /^\s*(\d+(?:\.\d+)?)\s*(lb\/in|ft-lb|lb|psi|psf|plf|kip|in|ft|s)?\s*$/i.exec(part);
    return match ? [{ amount: Number(match[1]), unit: match[2]?.toLowerCase() ?? '' }] : [];
  });
  return { steps, absolute: [...plain, ...printSteps], shares };
}

function halfWaySlack(text: string): number {
  const within = /within (\d+(?:\.\d+)?)[^;]*half/i.exec(text);
  if (within) return Number(within[1]);
  return /half-?way/i.test(text) ? 0.05 : 0;
}

/** One figure that does not agree. */
export interface Difference {
  /** Path of keys: `Z_par_lb`, `Fe_perp_psi.0.5`, `Fx_kip[1]`. */
  readonly key: string;
  readonly computed: string;
  readonly expected: string;
}

/** Every place where what was computed is not what was expected; what is expected and was not computed is one too. */
export function differences(
  computed: RecomputedValue | undefined,
  expected: CheckValue,
  tolerance: Tolerance,
  key = '',
  unit = '',
): readonly Difference[] {
  const differs = (): readonly Difference[] => [{ key, computed: display(computed), expected: display(expected) }];
  if (computed === undefined || expected === null) return differs();
  if (typeof expected === 'number')
    return typeof computed === 'number' && near(computed, expected, tolerance, unit) ? [] : differs();
  if (typeof expected === 'boolean') return computed === expected ? [] : differs();
  if (typeof expected === 'string') {
    const agrees = isStatement(computed)
      ? saysTheSame(computed, expected)
      : typeof computed === 'string' && computed.toLowerCase() === expected.toLowerCase();
    return agrees ? [] : differs();
  }
  if (Array.isArray(expected)) {
    if (!Array.isArray(computed) || computed.length !== expected.length) return differs();
    return expected.flatMap((each: CheckValue, index) =>
      differences(computed[index] as RecomputedValue, each, tolerance, `${key}[${index}]`, unit),
    );
  }
  if (!isRecord(expected) || typeof computed !== 'object' || Array.isArray(computed) || isStatement(computed))
    return differs();
  const record = computed as Readonly<Record<string, RecomputedValue>>;
  return Object.entries(expected).flatMap(([name, value]) =>
    differences(record[name], value, tolerance, key === '' ? name : `${key}.${name}`, unitOfKey(name) || unit),
  );
}

function near(computed: number, expected: number, tolerance: Tolerance, unit: string): boolean {
  const gap = Math.abs(computed - expected);
  if (gap <= 1e-9 * Math.max(1, Math.abs(expected))) return true;
  for (const { value, share } of tolerance.shares) {
    if ((value === undefined || value === expected) && gap <= share * Math.abs(expected)) return true;
  }
  const step = tolerance.steps.find((each) => each.unit === unit);
  if (step) return roundsTo(computed, expected, step);
  const absolute =
    tolerance.absolute.find((each) => each.unit === unit) ?? tolerance.absolute.find((each) => each.unit === '');
  if (absolute) return gap <= absolute.amount * (1 + 1e-9);
  // A tolerance in pounds says nothing of a ratio beside it: that must agree as far as it is printed.
  return tolerance.absolute.length > 0 && gap <= halfOfLastPrinted(expected);
}

/** Rounds to the printed step; within `slack` of half a step it may print either side. */
function roundsTo(computed: number, expected: number, { step, slack }: Tolerance['steps'][number]): boolean {
  const nudge = slack + 1e-6;
  const lower = Math.floor((computed - nudge) / step + 0.5) * step;
  const upper = Math.floor((computed + nudge) / step + 0.5) * step;
  return Math.abs(expected - lower) < 1e-9 || Math.abs(expected - upper) < 1e-9;
}

/** Half of the last printed decimal; a whole number must agree whole. */
function halfOfLastPrinted(expected: number): number {
  const decimals = String(expected).split('.')[1]?.length ?? 0;
  return decimals === 0 ? 0 : 0.5 * 10 ** -decimals * (1 + 1e-9);
}

/** `Z_par_lb` is in lb, `W_lb_per_in` in lb/in, `Fe_perp_psi` in psi; unknown endings have none. */
function unitOfKey(key: string): string {
  if (key.endsWith('_lb_per_in')) return 'lb/in';
  const ending = /_(lb|psi|psf|plf|kip|in|ft|ftlb|s)(?:_[a-z]+)?$/i.exec(key)?.[1]?.toLowerCase();
  return ending === 'ftlb' ? 'ft-lb' : (ending ?? '');
}

function isStatement(value: RecomputedValue): value is Statement {
  return typeof value === 'object' && !Array.isArray(value) && 'statement' in value && 'mentions' in value;
}

/** Another wording of the same fact: it mentions all that ours mentions, and no number that ours has not. */
function saysTheSame(ours: Statement, theirs: string): boolean {
  const has = (text: string, word: string): boolean => text.toLowerCase().includes(word.toLowerCase());
  const numbers = (text: string): readonly string[] => text.match(/\d+(?:\/\d+)?/g) ?? [];
  return (
    ours.mentions.every((word) => has(theirs, word)) &&
    numbers(theirs).every((number) => numbers(ours.statement).includes(number))
  );
}

/** For a message: at most six significant digits. */
export function display(value: RecomputedValue | CheckValue | undefined): string {
  if (value === undefined) return 'nothing';
  if (typeof value === 'number') return String(Number(value.toPrecision(6)));
  if (typeof value === 'string') return value;
  if (typeof value === 'object' && value !== null && !Array.isArray(value) && 'statement' in value)
    return String(value.statement);
  return JSON.stringify(value);
}
