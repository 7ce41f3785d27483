import { formula } from '../formula.ts';
import type { PublicationName } from '../publications.ts';
import { section } from '../publications.ts';
import type { Input, Outcome, Refused, Traced } from '../trace.ts';
import { asInput, bare, computed, fromTable, given, greatestOf, isRefused, refused, withNotes } from '../trace.ts';
import { acceleration, factor } from '../trace-units.ts';

export type SiteClass = 'A' | 'B' | 'C' | 'D' | 'E' | 'F';
export const siteClasses: readonly SiteClass[] = ['A', 'B', 'C', 'D', 'E', 'F'];

/** Where the table says "see 11.4.8": a ground-motion study is wanted, there is no number. */
export type TableCell = number | 'study';
/** Straight lines between the columns; the first and last columns hold beyond them. */
export interface SiteTable {
  readonly publication: PublicationName;
  readonly place: string;
  readonly trust: 'published' | 'from-memory';
  readonly columns: readonly number[];
  readonly rows: Readonly<Record<Exclude<SiteClass, 'F'>, readonly TableCell[]>>;
}
export type HazardEdition = 'ASCE 7-10' | 'ASCE 7-16';

const same = (value: number, times: number): readonly number[] => Array.from({ length: times }, () => value);
/** Site coefficients, short period and one second. 7-10 as printed in public records, 7-16 from memory. */
export const siteTables: Readonly<Record<HazardEdition, { readonly Fa: SiteTable; readonly Fv: SiteTable }>> = {
  'ASCE 7-10': {
    Fa: {
      publication: 'ASCE 7-10',
      place: 'Table 11.4-1',
      trust: 'published',
      columns: [0.25, 0.5, 0.75, 1, 1.25],
      rows: {
        A: same(0.8, 5),
        B: same(1, 5),
        C: [1.2, 1.2, 1.1, 1, 1],
        D: [1.6, 1.4, 1.2, 1.1, 1],
        E: [2.5, 1.7, 1.2, 0.9, 0.9],
      },
    },
    Fv: {
      publication: 'ASCE 7-10',
      place: 'Table 11.4-2',
      trust: 'published',
      columns: [0.1, 0.2, 0.3, 0.4, 0.5],
      rows: {
        A: same(0.8, 5),
        B: same(1, 5),
        C: [1.7, 1.6, 1.5, 1.4, 1.3],
        D: [2.4, 2, 1.8, 1.6, 1.5],
        E: [3.5, 3.2, 2.8, 2.4, 2.4],
      },
    },
  },
  'ASCE 7-16': {
    Fa: {
      publication: 'ASCE 7-16',
      place: 'Table 11.4-1',
      trust: 'from-memory',
      columns: [0.25, 0.5, 0.75, 1, 1.25, 1.5],
      rows: {
        A: same(0.8, 6),
        B: same(0.9, 6),
        C: [1.3, 1.3, 1.2, 1.2, 1.2, 1.2],
        D: [1.6, 1.4, 1.2, 1.1, 1, 1],
        E: [2.4, 1.7, 1.3, 'study', 'study', 'study'],
      },
    },
    Fv: {
      publication: 'ASCE 7-16',
      place: 'Table 11.4-2',
      trust: 'from-memory',
      columns: [0.1, 0.2, 0.3, 0.4, 0.5, 0.6],
      rows: {
        A: same(0.8, 6),
        B: same(0.8, 6),
        C: [1.5, 1.5, 1.5, 1.5, 1.5, 1.4],
        D: [2.4, 2.2, 2, 1.9, 1.8, 1.7],
        E: [4.2, 'study', 'study', 'study', 'study', 'study'],
      },
    },
  },
};

export interface Site {
  readonly edition: HazardEdition;
  readonly siteClass: SiteClass;
  /** No soil report: class D is a default, not a finding. 7-16 then asks for F_a of 1.2 at least (11.4.4). */
  readonly byDefault: boolean;
  /** Mapped accelerations, g. */
  readonly SS: Input<number>;
  readonly S1: Input<number>;
}
export interface DesignAccelerations {
  readonly Fa: Traced<number>;
  readonly Fv: Traced<number>;
  readonly SMS: Traced<number>;
  readonly SM1: Traced<number>;
  readonly SDS: Traced<number>;
  readonly SD1: Traced<number>;
}

/** Short-period site coefficient. ASCE 7 Table 11.4-1. Refused for class F and where the table asks for a study. */
export function shortPeriodCoefficient(site: Site): Outcome<number> {
  const SS = asInput('S_S', 'mapped acceleration, short period', acceleration, site.SS);
  const fromRow = lookUp('F_a', siteTables[site.edition].Fa, site.siteClass, SS);
  if (isRefused(fromRow) || !(site.byDefault && site.siteClass === 'D' && site.edition === 'ASCE 7-16')) return fromRow;
  const least = fromTable(
    'F_amin',
    'least F_a of a default site class',
    factor,
    1.2,
    section('ASCE 7-16', '11.4.4', 'from-memory'),
  );
  return greatestOf(
    'F_a',
    'site coefficient, short period',
    factor,
    [{ ...fromRow, symbol: 'F_a0' }, least],
    section('ASCE 7-16', '11.4.4', 'from-memory'),
  );
}

/** One-second site coefficient. ASCE 7 Table 11.4-2. Refused as the short-period one. */
export function oneSecondCoefficient(site: Site): Outcome<number> {
  const S1 = asInput('S_1', 'mapped acceleration, one second', acceleration, site.S1);
  const found = lookUp('F_v', siteTables[site.edition].Fv, site.siteClass, S1);
  const wantsStudy = site.edition === 'ASCE 7-16' && site.siteClass === 'D' && S1.number >= 0.2;
  if (isRefused(found) || !wantsStudy) return found;
  return withNotes(found, '11.4.8 asks for a ground-motion study here unless its exception is taken');
}

/** S_MS, S_M1, S_DS and S_D1. ASCE 7-16 Eq. 11.4-1 to 11.4-4. */
export function designAccelerations(site: Site): DesignAccelerations | Refused {
  const Fa = shortPeriodCoefficient(site);
  if (isRefused(Fa)) return Fa;
  const Fv = oneSecondCoefficient(site);
  if (isRefused(Fv)) return Fv;
  return accelerationsFrom(Fa, Fv, site.SS, site.S1);
}
export function accelerationsFrom(
  shortPeriod: Input<number>,
  oneSecond: Input<number>,
  mappedShort: Input<number>,
  mappedOne: Input<number>,
): DesignAccelerations {
  const Fa = asInput('F_a', 'site coefficient, short period', factor, shortPeriod);
  const Fv = asInput('F_v', 'site coefficient, one second', factor, oneSecond);
  const SS = asInput('S_S', 'mapped acceleration, short period', acceleration, mappedShort);
  const S1 = asInput('S_1', 'mapped acceleration, one second', acceleration, mappedOne);
  const eq = (place: string) => section('ASCE 7-16', place, 'published');
  const SMS = computed(
    'S_MS',
    'site-adjusted acceleration, short period',
    acceleration,
    formula('F_a * S_S'),
    [Fa, SS],
    eq('Eq. 11.4-1'),
  );
  const SM1 = computed(
    'S_M1',
    'site-adjusted acceleration, one second',
    acceleration,
    formula('F_v * S_1'),
    [Fv, S1],
    eq('Eq. 11.4-2'),
  );
  return { Fa, Fv, SMS, SM1, SDS: designShort(SMS), SD1: designOneSecond(SM1) };
}
/** S_DS = 2/3 S_MS. ASCE 7-16 Eq. 11.4-3. */
export function designShort(SMS: Input<number>): Traced<number> {
  const input = asInput('S_MS', 'site-adjusted acceleration, short period', acceleration, SMS);
  return computed(
    'S_DS',
    'design acceleration, short period',
    acceleration,
    formula('2 / 3 * S_MS'),
    [input],
    section('ASCE 7-16', 'Eq. 11.4-3', 'published'),
  );
}
/** S_D1 = 2/3 S_M1. ASCE 7-16 Eq. 11.4-4. */
export function designOneSecond(SM1: Input<number>): Traced<number> {
  const input = asInput('S_M1', 'site-adjusted acceleration, one second', acceleration, SM1);
  return computed(
    'S_D1',
    'design acceleration, one second',
    acceleration,
    formula('2 / 3 * S_M1'),
    [input],
    section('ASCE 7-16', 'Eq. 11.4-4', 'published'),
  );
}

function lookUp(
  symbol: 'F_a' | 'F_v',
  table: SiteTable,
  siteClass: SiteClass,
  mapped: Traced<number>,
): Outcome<number> {
  const source = section(table.publication, table.place, table.trust);
  const study = 'this site needs a ground-motion study (11.4.8): the table gives no number';
  if (siteClass === 'F') return refused(study, source);
  const row = table.rows[siteClass];
  const meaning = `site coefficient, ${symbol === 'F_a' ? 'short period' : 'one second'}, class ${siteClass}`;
  const right = table.columns.findIndex((column) => column >= mapped.number);
  const rightAt = right === -1 ? table.columns.length - 1 : right;
  const upper = row[rightAt];
  const rightColumn = table.columns[rightAt];
  if (upper === undefined || rightColumn === undefined || upper === 'study') return refused(study, source);
  const leftColumn = table.columns[rightAt - 1];
  const lower = row[rightAt - 1];
  if (right <= 0 || leftColumn === undefined || mapped.number === rightColumn) {
    return fromTable(symbol, meaning, factor, upper, source, [mapped]);
  }
  if (lower === undefined || lower === 'study') return refused(study, source);
  const inputs = [
    given('y_1', 'table value left', factor, lower),
    given('y_2', 'table value right', factor, upper),
    given('x_1', 'table column left', acceleration, leftColumn),
    given('x_2', 'table column right', acceleration, rightColumn),
    { ...mapped, symbol: 'x' },
  ];
  return computed(symbol, meaning, factor, interpolation, inputs, source);
}
const interpolation = formula('y_1 + (y_2 - y_1) * (x - x_1) / (x_2 - x_1)');

export type RiskCategory = 'I' | 'II' | 'III' | 'IV';
export type DesignCategory = 'A' | 'B' | 'C' | 'D' | 'E' | 'F';
/** Lower limits of B, C and D by S_DS and S_D1, and S_1 from which it is E (F in risk category IV). ASCE 7-10 Tables 11.6-1, 11.6-2, 11.6. */
export const categoryLimits = {
  section: section('ASCE 7-10', 'Tables 11.6-1 and 11.6-2', 'published'),
  SDS: { B: 0.167, C: 0.33, D: 0.5 },
  SD1: { B: 0.067, C: 0.133, D: 0.2 },
  nearFaultS1: 0.75,
} as const;

/** Seismic design category: the worse of the two tables. Risk category IV goes one step up from B. ASCE 7-10/16 11.6. */
export function designCategory(
  SDS: Input<number>,
  SD1: Input<number>,
  S1: Input<number>,
  risk: RiskCategory,
): DesignCategory {
  if (bare(S1) >= categoryLimits.nearFaultS1) return risk === 'IV' ? 'F' : 'E';
  const step = (value: number, limits: { readonly B: number; readonly C: number; readonly D: number }): number => {
    const plain = value < limits.B ? 0 : value < limits.C ? 1 : value < limits.D ? 2 : 3;
    return risk === 'IV' && plain > 0 ? Math.min(3, plain + 1) : plain;
  };
  const worse = Math.max(step(bare(SDS), categoryLimits.SDS), step(bare(SD1), categoryLimits.SD1));
  return (['A', 'B', 'C', 'D'] as const)[worse] ?? 'D';
}
