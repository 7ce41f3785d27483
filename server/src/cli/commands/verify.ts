import { printable } from '../../../../language/domain/documents/text-layout.ts';
import { textTable } from '../../../../language/domain/documents/text-table.ts';
import type { RecomputedValue } from '../../../../language/domain/engineering/verification/check-entry.ts';
import { display } from '../../../../language/domain/engineering/verification/tolerance.ts';
import { type ValueVerdict, verifyValues } from '../../../../language/domain/engineering/verify-values.ts';
import { type ExitCode, exitCodes } from '../exit-codes.ts';
import { readTextFile } from '../read-text-file.ts';
import { complain, type Terminal } from '../terminal.ts';

const tableWidth = 132;

/**
 * `verify values [FILE]`: what our formulas and tables make of published and worked figures; without a file, of the set
 * that is shipped. 0 where all agree, 1 where one differs or cannot be computed.
 */
export async function verifyValuesIn(
  file: string | undefined,
  { format }: { readonly format: 'text' | 'json' },
  terminal: Terminal,
): Promise<ExitCode> {
  const entries = file === undefined ? await builtInEntries() : readList(file, 'entries', terminal);
  if (!entries) return exitCodes.couldNotRun;
  const verdicts = verifyValues(entries);
  const expected = entries.map(expectedOf);
  terminal.out(
    format === 'json'
      ? verdicts.map((verdict) => `${JSON.stringify(verdictInJson(verdict))}\n`).join('')
      : `${verdictTable(verdicts, expected).join('\n')}\n`,
  );
  return verdicts.every(({ verdict }) => verdict === 'agrees' || verdict === 'computed only')
    ? exitCodes.clean
    : exitCodes.found;
}

/** `verify placement FILE`: each wall of a case file solved, one line of JSON a wall. 1 where one comes out otherwise. */
export async function verifyPlacementIn(file: string, terminal: Terminal): Promise<ExitCode> {
  const cases = readList(file, 'cases', terminal);
  if (!cases) return exitCodes.couldNotRun;
  const { verifyPlacement } = await import('../../../../language/domain/placement/verify-instances.ts');
  let code: ExitCode = exitCodes.clean;
  // One at a time, so that a long file is answered as it goes.
  for (const [index, instance] of cases.entries()) {
    for (const { id, reason, ...answer } of verifyPlacement([instance])) {
      const named = isRecord(instance) && typeof instance.id === 'string' ? id : `case ${index + 1}`;
      terminal.out(`${JSON.stringify({ id: named, ...answer, ...(reason === undefined ? {} : { reason }) })}\n`);
      if (answer.status === 'malformed' || differsFromExpected(instance, answer)) code = exitCodes.found;
    }
  }
  return code;
}

async function builtInEntries(): Promise<readonly unknown[]> {
  const { checkValuesText } = await import('../../../../language/generated/check-values.ts');
  return JSON.parse(checkValuesText) as readonly unknown[];
}

/** The list that a JSON file holds, by itself or under `key`. */
function readList(file: string, key: string, terminal: Terminal): readonly unknown[] | undefined {
  const refused = (reason: string): undefined => complain(terminal, `${file} ${reason}.`) as undefined;
  const read = readTextFile(file);
  if (read.kind === 'refused') return refused(`cannot be read: ${read.reason}`);
  let value: unknown;
  try {
    value = JSON.parse(read.text);
  } catch (error) {
    return refused(`is not JSON: ${printable(error instanceof Error ? error.message : String(error))}`);
  }
  const list = isRecord(value) ? value[key] : value;
  if (!Array.isArray(list)) return refused(`holds no list of ${key}`);
  if (list.length === 0) return refused(`holds an empty list of ${key}: nothing was verified`);
  return list;
}

function isRecord(value: unknown): value is Readonly<Record<string, unknown>> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

function expectedOf(entry: unknown): Readonly<Record<string, unknown>> {
  const expected = isRecord(entry) ? entry.expected : undefined;
  return isRecord(expected) ? expected : {};
}

/** What the case expects of status, cost and slack; a placement may be another one of the same cost and slack. */
function differsFromExpected(
  instance: unknown,
  answer: { readonly status: string; readonly cost?: number; readonly slack?: number },
): boolean {
  const expected = expectedOf(instance);
  return (['status', 'cost', 'slack'] as const).some(
    (key) => expected[key] !== undefined && expected[key] !== answer[key],
  );
}

function verdictInJson({ id, computed, verdict, reason }: ValueVerdict) {
  return { id, computed: plain(computed), verdict, ...(reason === undefined ? {} : { reason }) };
}

/** A fact that stands for any wording of it is written as we word it. */
function plain(value: RecomputedValue): unknown {
  if (typeof value !== 'object') return value;
  if (Array.isArray(value)) return value.map(plain);
  if ('statement' in value && typeof value.statement === 'string') return value.statement;
  return Object.fromEntries(Object.entries(value).map(([key, each]) => [key, plain(each)]));
}

interface VerdictRow {
  readonly verdict: ValueVerdict;
  readonly key: string;
  readonly computed: string;
  readonly expected: string;
  readonly first: boolean;
}

/** One row a figure, then the counts by where the figures come from. */
function verdictTable(
  verdicts: readonly ValueVerdict[],
  expected: readonly Readonly<Record<string, unknown>>[],
): readonly string[] {
  const rows = verdicts.flatMap((verdict, index) => rowsOf(verdict, expected[index] ?? {}));
  return [
    ...textTable<VerdictRow>(
      [
        { heading: 'Entry', text: (row) => (row.first ? row.verdict.id || '(no id)' : '') },
        { heading: 'Figure', text: (row) => row.key },
        { heading: 'Computed', text: (row) => row.computed, numeric: true },
        { heading: 'Expected', text: (row) => row.expected, numeric: true },
        { heading: 'Verdict', text: (row) => (row.first ? row.verdict.verdict : '') },
        { heading: 'Origin', text: (row) => (row.first ? row.verdict.origin : '') },
      ],
      rows,
      tableWidth,
    ),
    '',
    ...verdicts.flatMap(({ id, reason }) => (reason === undefined ? [] : [printable(`${id || '(no id)'}: ${reason}`)])),
    ...(['found', 'from memory', 'arithmetic'] as const).flatMap((origin) => tally(origin, verdicts)),
    'found: read in a public text. from memory: written from memory of one.',
    'arithmetic: worked from the formulas, so that it checks the program and not the formulas.',
  ];
}

function rowsOf(verdict: ValueVerdict, expected: Readonly<Record<string, unknown>>): readonly VerdictRow[] {
  const keys = [...new Set([...Object.keys(expected), ...Object.keys(verdict.computed)])];
  return (keys.length === 0 ? [''] : keys).map((key, index) => ({
    verdict,
    key,
    computed: key in verdict.computed ? display(verdict.computed[key]) : '',
    expected: key in expected ? display(expected[key] as Parameters<typeof display>[0]) : '',
    first: index === 0,
  }));
}

function tally(origin: ValueVerdict['origin'], verdicts: readonly ValueVerdict[]): readonly string[] {
  const group = verdicts.filter((each) => each.origin === origin);
  if (group.length === 0) return [];
  const counts = (['agrees', 'differs', 'computed only', 'cannot be computed'] as const).flatMap((verdict) => {
    const count = group.filter((each) => each.verdict === verdict).length;
    return count === 0
      ? []
      : [`${count} ${verdict === 'agrees' ? 'agree' : verdict === 'differs' ? 'differ' : verdict}`];
  });
  return [`${origin}: ${counts.join(', ')} of ${group.length}`];
}
