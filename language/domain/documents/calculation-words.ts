import { formatNumber } from '../engineering/format-number.ts';
import type { RankedUnknown, UnknownsRanking } from '../engineering/intervals.ts';
import { citation } from '../engineering/publications.ts';
import type { Outcome, Trace, Traced, TraceRow } from '../engineering/trace.ts';
import { isRefused, traceRows } from '../engineering/trace.ts';
import type { LengthUnits } from '../model/layout.ts';
import type { Force } from '../units/force.ts';
import { inKilonewtons, inPounds } from '../units/force.ts';
import type { CalculationLine, CalculationLink } from './calculation-line.ts';
import type { CalculationSheet } from './calculation-sheet.ts';

/** `4,770 lb`; on a metric sheet `21.2 kN (4,770 lb)`, since the formulas work in pounds. */
export function forceInWords(force: Force, units: LengthUnits): string {
  const inLb = `${formatNumber(Math.round(inPounds(force)))} lb`;
  return units === 'metric' ? `${formatNumber(Number(inKilonewtons(force).toPrecision(3)))} kN (${inLb})` : inLb;
}

/** The force, or why there is none. */
export function outcomeInWords(outcome: Outcome<Force>, units: LengthUnits): string {
  return isRefused(outcome) ? outcome.reason : forceInWords(outcome.value, units);
}

/** `demand is 51 % of the capacity counted`: a comparison, never a verdict. */
export function shareInWords({ present, share }: CalculationLink): string {
  if (isRefused(share) && !present) return share.reason;
  if (isRefused(share)) return `no comparison: ${share.reason}`;
  const words = `demand is ${percent(share.number)} of the capacity counted`;
  return share.number > 1 ? `${words}: more than is counted` : words;
}

/** The same for a column under `Demand of capacity`. */
export function shareInColumn({ present, share }: CalculationLink): string {
  if (isRefused(share) && !present) return share.reason;
  return isRefused(share) ? 'no comparison' : percent(share.number);
}

/** Where a capacity comes from, demo values named as such. */
export function sourceOf(capacity: Trace): string {
  const governing = governingOf(capacity);
  if (governing.notes.some((note) => note.startsWith('DEMO VALUE'))) return 'DEMO VALUE: invented';
  return governing.section ? citation(governing.section) : '';
}

/** Of the smaller of several the one that is it; of a share of a value the value. */
function governingOf(capacity: Trace): Trace {
  if (capacity.section) return capacity;
  const same = capacity.inputs.find((input) => input.number === capacity.number) ?? capacity.inputs[0];
  return same ? governingOf(same) : capacity;
}

/** Rounded up: a demand just over is never shown as 100 %. */
export function percent(share: number): string {
  if (!Number.isFinite(share)) return 'without end';
  return `${formatNumber(Math.ceil(share * 100 - 1e-9))} %`;
}

/** `9 counted, 2 not`. */
export function countsInWords({ present, counted, notCounted }: CalculationLink): string {
  if (!present) return '';
  return notCounted === 0 ? `${counted} counted` : `${counted} counted, ${notCounted} not`;
}

/** `4,770 lb (without drag struts governs; with them 4,720 lb)`. */
export function demandInWords(line: CalculationLine, units: LengthUnits): string {
  const { demand, governs, withDragStruts, withoutDragStruts } = line;
  if (isRefused(demand)) return `not worked: ${demand.reason}`;
  const force = forceInWords(demand.value, units);
  if (outcomeInWords(withDragStruts, units) === outcomeInWords(withoutDragStruts, units))
    return `${force}, with drag struts or without.`;
  if (governs === 'without drag struts')
    return `${force}, without drag struts; with them ${outcomeInWords(withDragStruts, units)}. The larger counts.`;
  if (governs === 'with drag struts')
    return `${force}, with drag struts; without them ${outcomeInWords(withoutDragStruts, units)}. The larger counts.`;
  const other = isRefused(withDragStruts) ? withDragStruts : withoutDragStruts;
  return `${force}; the other way to share has no number: ${isRefused(other) ? other.reason : ''}.`;
}

/** What the ranking comes to, in one sentence. */
export function rangeInWords(line: string, { likely, least, greatest }: UnknownsRanking): string {
  return `Line ${line}: demand is ${percent(likely)} of the anchors counted as assumed; ${percent(least)} to ${percent(greatest)} over the bounds below.`;
}

/** `settles it alone` where knowing this one decides on which side of the capacity counted the demand lies. */
export function worthInWords({ spreadRemoved, canSettle }: RankedUnknown): string {
  const points = Number.isFinite(spreadRemoved) ? Math.round(spreadRemoved * 100) : undefined;
  const worth = points === undefined ? 'all of the spread' : `${points} percentage points`;
  return canSettle ? `${worth}; can settle it alone` : worth;
}

export interface WorkShown {
  readonly title: string;
  readonly rows: readonly TraceRow[];
}

/** Whole house, what one connector carries, lines. What was worked further up is named again and not worked again. */
export function workShown(sheet: CalculationSheet): readonly WorkShown[] {
  const titles = new Set<string>();
  const worked = new Set<string>();
  const shown: WorkShown[] = [];
  const show = (key: string, title: string, trace: Outcome<unknown>): void => {
    if (isRefused(trace) || titles.has(key)) return;
    titles.add(key);
    shown.push({ title, rows: withoutRepeats(traceRows(trace), worked) });
  };
  show('base shear', 'Base shear of the whole house', sheet.baseShear);
  for (const { connector, capacity } of sheet.lines.flatMap((line) => line.links.flatMap((link) => link.connectors))) {
    if (!isRefused(capacity)) show(`each ${connector} ${capacity.number}`, `What one ${connector} carries`, capacity);
  }
  for (const line of sheet.lines) {
    show(`line ${line.name}`, `Force on line ${line.name}`, line.demand);
    for (const link of line.links)
      show(`link ${line.name} ${link.name}`, `Line ${line.name}: ${link.name}`, link.share);
  }
  return shown;
}

function withoutRepeats(rows: readonly TraceRow[], worked: Set<string>): readonly TraceRow[] {
  const kept: TraceRow[] = [];
  let below: number | undefined;
  for (const row of rows) {
    if (below !== undefined && row.depth > below) continue;
    below = undefined;
    const key = `${row.meaning} ${row.substituted?.text} ${row.result}`;
    if (row.formula && worked.has(key)) {
      below = row.depth;
      kept.push({ ...row, formula: undefined, substituted: undefined, citation: undefined, notes: ['worked above'] });
    } else {
      worked.add(key);
      kept.push(row);
    }
  }
  return kept;
}

/** The rule of thumb in a sentence that cannot be taken for the demand. */
export function comparisonInWords(sheet: CalculationSheet): string {
  const { comparison, units } = sheet;
  if ('kind' in comparison) return `No comparison with the contractor’s rule of thumb: ${comparison.reason}.`;
  const { total, eachLine } = comparison;
  const worked: Traced<Force> | undefined = isRefused(sheet.baseShear) ? undefined : sheet.baseShear;
  const beside = worked ? `; worked above: ${forceInWords(worked.value, units)}` : '';
  const label = `${comparison.label.charAt(0).toUpperCase()}${comparison.label.slice(1)}`;
  return `${label}: whole house ${forceInWords(total.value, units)}, each of two lines ${forceInWords(eachLine.value, units)}${beside}. Nothing here is counted by it.`;
}
