import type { Quality } from '../model/reading.ts';
import { formatNumber } from './format-number.ts';
import type { Formula } from './formula.ts';
import { evaluate, formula, formulaTex, formulaText, symbolTex, symbolText } from './formula.ts';
import type { Section } from './publications.ts';
import { citation } from './publications.ts';
import type { TraceUnit } from './trace-units.ts';

/** A value that carries its reason: symbol, formula, inputs with units, section. Hover, sheet and rules print the same. */
export interface Traced<T> extends Trace {
  readonly value: T;
}
export interface Trace {
  readonly kind: 'traced';
  /** As its formula and those above it name it: `Z`, `K_theta`. */
  readonly symbol: string;
  /** In words: `reference lateral design value`. */
  readonly meaning: string;
  /** Unrounded, in `unit`. */
  readonly number: number;
  /** Empty for a plain factor. */
  readonly unit: string;
  readonly formula: Formula | undefined;
  /** What the formula used, or what a table was entered with. */
  readonly inputs: readonly Trace[];
  readonly section: Section | undefined;
  /** How good a reading is; `undefined` for what was computed or taken from a table. */
  readonly quality: Quality | undefined;
  readonly notes: readonly string[];
}

/** Why there is no number: a limit of the method, or something that nobody knows. Never read as "clear". */
export interface Refused {
  readonly kind: 'refused';
  readonly reason: string;
  readonly section: Section | undefined;
}
export type Outcome<T> = Traced<T> | Refused;

export const refused = (reason: string, section?: Section): Refused => ({ kind: 'refused', reason, section });
export function isRefused(outcome: object): outcome is Refused {
  return 'kind' in outcome && outcome.kind === 'refused';
}

/** A plain value or one that already has a reason: what engineering functions take. */
export type Input<T> = T | Traced<T>;

export interface TraceExtras {
  readonly section?: Section | undefined;
  readonly quality?: Quality | undefined;
  readonly notes?: readonly string[];
}

/** A value that was read, typed or chosen. */
export function given<T>(
  symbol: string,
  meaning: string,
  unit: TraceUnit<T>,
  value: T,
  extras: TraceExtras = {},
): Traced<T> {
  return traced(symbol, meaning, unit, unit.from(value), value, undefined, [], extras);
}

/** A value looked up in a printed table that was entered with `inputs`. */
export function fromTable<T>(
  symbol: string,
  meaning: string,
  unit: TraceUnit<T>,
  value: T,
  section: Section,
  inputs: readonly Trace[] = [],
  notes: readonly string[] = [],
): Traced<T> {
  return traced(symbol, meaning, unit, unit.from(value), value, undefined, inputs, { section, notes });
}

/** Evaluates a formula on the inputs' numbers, each in the unit that it carries. */
export function computed<T>(
  symbol: string,
  meaning: string,
  unit: TraceUnit<T>,
  rule: Formula,
  inputs: readonly Trace[],
  section: Section | undefined,
  notes: readonly string[] = [],
): Traced<T> {
  const number = evaluate(rule, numbersOf(inputs));
  return traced(symbol, meaning, unit, number, unit.to(number), rule, inputs, { section, notes });
}

export interface Governed<T> extends Traced<T> {
  /** The candidate whose value was taken. */
  readonly governing: Trace;
}
/** The smallest of several limits; of equal ones the first. At least one candidate. */
export function leastOf<T>(
  symbol: string,
  meaning: string,
  unit: TraceUnit<T>,
  candidates: readonly [Traced<T>, ...Traced<T>[]],
  section?: Section,
  notes: readonly string[] = [],
): Governed<T> {
  return chosen('min', symbol, meaning, unit, candidates, section, notes);
}
/** The greatest of several; of equal ones the first. */
export function greatestOf<T>(
  symbol: string,
  meaning: string,
  unit: TraceUnit<T>,
  candidates: readonly [Traced<T>, ...Traced<T>[]],
  section?: Section,
  notes: readonly string[] = [],
): Governed<T> {
  return chosen('max', symbol, meaning, unit, candidates, section, notes);
}

/** The same value under the symbol that a formula knows it by. */
export function named<T>(symbol: string, meaning: string, trace: Traced<T>): Traced<T> {
  return trace.symbol === symbol ? trace : { ...trace, symbol, meaning };
}
/** An argument as a trace under the symbol of the formula at hand. */
export function asInput<T>(
  symbol: string,
  meaning: string,
  unit: TraceUnit<T>,
  input: Input<T>,
  extras: TraceExtras = {},
): Traced<T> {
  return isTraced(input) ? named(symbol, meaning, input) : given(symbol, meaning, unit, input, extras);
}
/** The bare value of an argument. */
export const bare = <T>(input: Input<T>): T => (isTraced(input) ? input.value : input);

export function withNotes<T extends Trace>(trace: T, ...notes: readonly string[]): T {
  return { ...trace, notes: [...trace.notes, ...notes] };
}

/** One row of the work shown; a hover, a calculation sheet and plain text are made of the same rows. */
export interface TraceRow {
  readonly depth: number;
  readonly symbol: Typeset;
  readonly meaning: string;
  readonly formula: Typeset | undefined;
  /** The formula with its numbers put in. */
  readonly substituted: Typeset | undefined;
  /** `928.4 lb`. */
  readonly result: string;
  readonly citation: string | undefined;
  /** `assumed`, `told` or `scaled`, for what nobody measured. */
  readonly quality: Quality | undefined;
  readonly notes: readonly string[];
}
/** One expression, plain and for a mathematics typesetter. */
export interface Typeset {
  readonly text: string;
  readonly tex: string;
}

/** The value and all that it rests on, the result first; what several rest on is worked once, where it is first used. */
export function traceRows(trace: Trace): readonly TraceRow[] {
  const rows: TraceRow[] = [];
  const shown = new Set<string>();
  visit(trace, 0);
  return rows;

  function visit(node: Trace, depth: number): void {
    // Two traces of one value may be different objects (renamed on the way), so they are told apart by what they say.
    const said = `${node.symbol} ${node.meaning} ${node.number} ${node.unit}`;
    if (shown.has(said)) return;
    shown.add(said);
    rows.push(rowOf(node, depth));
    for (const input of node.inputs) visit(input, depth + 1);
  }
}

/** Plain text, one row a line, indented by what rests on what. */
export function traceText(trace: Trace): string {
  const lines = traceRows(trace).map((row) => {
    const steps = [row.symbol.text, row.formula?.text, row.substituted?.text, row.result].filter(
      (step) => step !== undefined,
    );
    const tail = [
      row.meaning,
      row.quality === undefined || row.quality === 'measured' ? undefined : row.quality,
      row.citation,
      ...row.notes,
    ];
    return `${'  '.repeat(row.depth)}${steps.join(' = ')}   ${tail.filter(Boolean).join('; ')}`;
  });
  return lines.join('\n');
}

/** `928.4 lb`. */
export function resultText(trace: Trace): string {
  return trace.unit ? `${formatNumber(trace.number)} ${trace.unit}` : formatNumber(trace.number);
}

/** Inputs that somebody assumed, was told or scaled off a drawing: what the result leans on. Each once. */
export function leaningsOf(trace: Trace): readonly Trace[] {
  return collect(trace, (node) => node.quality !== undefined && node.quality !== 'measured');
}
/** Every section that the value rests on, each once, in order of use. */
export function sectionsOf(trace: Trace): readonly Section[] {
  const byCitation = new Map<string, Section>();
  for (const node of collect(trace, (each) => each.section !== undefined)) {
    if (node.section) byCitation.set(citation(node.section), node.section);
  }
  return [...byCitation.values()];
}

function rowOf(node: Trace, depth: number): TraceRow {
  const values = numbersOf(node.inputs);
  return {
    depth,
    symbol: { text: symbolText(node.symbol), tex: symbolTex(node.symbol) },
    meaning: node.meaning,
    formula: node.formula && { text: formulaText(node.formula), tex: formulaTex(node.formula) },
    substituted: node.formula && { text: formulaText(node.formula, values), tex: formulaTex(node.formula, values) },
    result: resultText(node),
    citation: node.section && citation(node.section),
    quality: node.quality,
    notes: node.notes,
  };
}

function collect(trace: Trace, wanted: (node: Trace) => boolean): readonly Trace[] {
  const found = new Map<string, Trace>();
  const visit = (node: Trace): void => {
    if (wanted(node)) found.set(`${node.symbol} ${node.meaning} ${node.number} ${node.section?.place}`, node);
    for (const input of node.inputs) visit(input);
  };
  visit(trace);
  return [...found.values()];
}

function chosen<T>(
  which: 'min' | 'max',
  symbol: string,
  meaning: string,
  unit: TraceUnit<T>,
  candidates: readonly [Traced<T>, ...Traced<T>[]],
  section: Section | undefined,
  notes: readonly string[],
): Governed<T> {
  const [first, ...others] = candidates;
  let best = first;
  for (const other of others) {
    if (which === 'min' ? other.number < best.number : other.number > best.number) best = other;
  }
  const rule = formula(`${which}(${candidates.map((candidate) => candidate.symbol).join(', ')})`);
  const trace = traced(symbol, meaning, unit, best.number, best.value, rule, candidates, {
    section,
    notes: others.length > 0 ? [`${symbolText(best.symbol)} governs`, ...notes] : notes,
  });
  return { ...trace, governing: best };
}

function traced<T>(
  symbol: string,
  meaning: string,
  unit: TraceUnit<T>,
  number: number,
  value: T,
  rule: Formula | undefined,
  inputs: readonly Trace[],
  extras: TraceExtras,
): Traced<T> {
  return {
    kind: 'traced',
    symbol,
    meaning,
    number,
    unit: unit.label,
    value,
    formula: rule,
    inputs,
    section: extras.section,
    quality: extras.quality,
    notes: extras.notes ?? [],
  };
}

const numbersOf = (inputs: readonly Trace[]): ReadonlyMap<string, number> =>
  new Map(inputs.map((input) => [input.symbol, input.number]));

function isTraced<T>(input: Input<T>): input is Traced<T> {
  return typeof input === 'object' && input !== null && 'kind' in input && input.kind === 'traced';
}
