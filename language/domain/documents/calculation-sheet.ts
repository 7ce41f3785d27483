import type { RuleOfThumb } from '../engineering/demand/rule-of-thumb.ts';
import type { LayoutDemand } from '../engineering/layout-demand.ts';
import { layoutDemand } from '../engineering/layout-demand.ts';
import type { Section } from '../engineering/publications.ts';
import { citation } from '../engineering/publications.ts';
import type { Outcome, Refused, Trace, Traced } from '../engineering/trace.ts';
import { isRefused, leaningsOf, sectionsOf } from '../engineering/trace.ts';
import type { Layout, LengthUnits } from '../model/layout.ts';
import type { Checked } from '../rules/checked.ts';
import type { Force } from '../units/force.ts';
import type { Basis } from './basis.ts';
import type { CalculationLine } from './calculation-line.ts';
import { anchorsOf, demandsByLine, lineOf, linesOf } from './calculation-line.ts';
import { rankLineUnknowns, type UnknownsOfLine } from './calculation-unknowns.ts';
import { countOf } from './text-layout.ts';

export interface CalculationOptions {
  /** One line of resistance by name, upper or lower case; absent: all of them. */
  readonly line?: string;
  /** The designer's stated choice to take 75 percent of the new-building base shear. */
  readonly existingBuildingShare?: boolean;
}

/** Demand against what is counted on to carry it, line by line, with all that the numbers rest on. Plain data. */
export interface CalculationSheet {
  readonly house: string;
  readonly units: LengthUnits;
  /** Every line that could be asked for, in house order. */
  readonly lineNames: readonly string[];
  /** Those that were asked for. */
  readonly lines: readonly CalculationLine[];
  /** Whole house, allowable-stress level. */
  readonly baseShear: Outcome<Force>;
  /** What was read from the file or taken from a table for these numbers, each once. */
  readonly inputs: readonly Trace[];
  /** Of the inputs, those that somebody assumed, was told or scaled off a drawing. */
  readonly assumptions: readonly Trace[];
  /** What nobody knows, so that a number is missing or covers less than it should. */
  readonly unknowns: readonly string[];
  readonly ranking: UnknownsOfLine | Refused;
  /** Contractor's rule of thumb: beside the worked demand, never instead of it. */
  readonly comparison: RuleOfThumb | Refused;
  readonly sections: readonly Section[];
  readonly cautions: readonly string[];
  readonly basis: Basis;
}

/**
 * The numbers behind a layout: what an earthquake asks of each line by tributary area, and what its connectors are counted
 * on to carry. It compares; it does not judge. What has no number is refused with its reason and never counted.
 */
export function calculationSheet(
  layout: Layout,
  checked: Checked,
  basis: Basis,
  options: CalculationOptions = {},
): CalculationSheet {
  const choices = { existingBuildingShare: options.existingBuildingShare ?? false };
  const demand = layoutDemand(layout, choices);
  const resisting = linesOf(layout);
  const wanted = options.line?.toLowerCase();
  const demandOf = demandsByLine(demand);
  const lines = resisting
    .filter(({ name }) => wanted === undefined || name.toLowerCase() === wanted)
    .map(({ name, walls }) => lineOf(name, walls, demandOf(name)));
  const used = tracesOf(demand, lines);
  return {
    house: layout.title.name ?? 'Untitled layout',
    units: layout.title.units,
    lineNames: resisting.map(({ name }) => name),
    lines,
    baseShear: demand.baseShear,
    inputs: eachOnce(used.flatMap(leavesOf)),
    assumptions: eachOnce(used.flatMap(leaningsOf)),
    unknowns: unknownsOf(demand, lines),
    ranking: rankLineUnknowns(layout, tightestOf(lines), demand.baseShear, choices),
    comparison: demand.comparison,
    sections: [...new Map(used.flatMap(sectionsOf).map((each) => [citation(each), each])).values()],
    cautions: cautionsOf(layout, lines, checked, choices.existingBuildingShare),
    basis,
  };
}

/** The line whose anchors are asked for the largest share of what is counted. */
function tightestOf(lines: readonly CalculationLine[]): CalculationLine | undefined {
  let tightest: CalculationLine | undefined;
  let most = 0;
  for (const line of lines) {
    const share = anchorsOf(line)?.share;
    if (!share || isRefused(share) || share.number <= most) continue;
    most = share.number;
    tightest = line;
  }
  return tightest;
}
function tracesOf(demand: LayoutDemand, lines: readonly CalculationLine[]): readonly Trace[] {
  return [
    demand.baseShear,
    ...lines.flatMap((line) => [line.demand, ...line.links.map((link) => link.capacity)]),
  ].filter((each): each is Traced<Force> => !isRefused(each));
}

/** What was read or looked up, not worked. */
function leavesOf(trace: Trace): readonly Trace[] {
  const leaves: Trace[] = [];
  const seen = new Set<Trace>();
  const visit = (node: Trace): void => {
    if (seen.has(node)) return;
    seen.add(node);
    if (node.inputs.length === 0 && !isWorkedElsewhere(node)) leaves.push(node);
    for (const input of node.inputs) visit(input);
  };
  visit(trace);
  return leaves;
}
/** How many connectors there are is in the tables of the sheet, and the areas of strips are in the work. */
const isWorkedElsewhere = (node: Trace): boolean => /^[nA]_/.test(node.symbol);

function eachOnce(traces: readonly Trace[]): readonly Trace[] {
  return [...new Map(traces.map((each) => [`${each.meaning} ${each.number} ${each.unit}`, each])).values()];
}

function unknownsOf(demand: LayoutDemand, lines: readonly CalculationLine[]): readonly string[] {
  const said = new Map<string, string[]>();
  const say = (what: string, mark: string): void => {
    const marks = said.get(what);
    if (marks) marks.push(mark);
    else said.set(what, [mark]);
  };
  for (const line of lines) {
    for (const link of line.links.filter(({ present }) => present)) {
      for (const connector of link.connectors) {
        if (isRefused(connector.capacity)) say(`not counted: ${connector.capacity.reason}`, connector.mark);
        for (const remark of connector.remarks) say(remark, connector.mark);
      }
    }
  }
  const whole = isRefused(demand.baseShear) ? [`no demand: ${demand.baseShear.reason}`] : [];
  const directions = demand.directions.flatMap((each) =>
    isRefused(each.demand) ? [`no demand along ${each.degrees} degrees: ${each.demand.reason}`] : [],
  );
  return [...whole, ...directions, ...[...said].map(([what, marks]) => `${marksInWords(marks)}: ${what}`)];
}

/** The first few by name, the rest by number. */
function marksInWords(marks: readonly string[]): string {
  const shown = marks.slice(0, 6).join(', ');
  return marks.length > 6 ? `${shown} and ${countOf(marks.length - 6, 'other')}` : shown;
}

function cautionsOf(
  layout: Layout,
  lines: readonly CalculationLine[],
  checked: Checked,
  existingBuildingShare: boolean,
): readonly string[] {
  const counted = lines.flatMap((line) =>
    line.links.flatMap((link) => link.connectors.filter(({ capacity }) => !isRefused(capacity))),
  );
  const wrong = checked.findings.filter(
    ({ severity, accepted }) => severity === 'stop' || (severity === 'error' && accepted === undefined),
  );
  const things = new Set(wrong.map(({ thing }) => thing));
  const walls = new Set(lines.flatMap((line) => line.walls));
  const onWalls = wrong.filter(({ wall }) => wall !== undefined && walls.has(wall));
  const faulted = counted.filter(({ thing }) => things.has(thing)).map(({ mark }) => mark);
  const kinds = lines.some(
    (line) =>
      new Set(anchorsOf(line)?.connectors.flatMap(({ capacity }) => (isRefused(capacity) ? [] : [capacity.number])))
        .size > 1,
  );
  return [
    'Hold-downs and overturning are not worked: whether the ends of a panel are held down, the sheet does not say.',
    'Concrete is not worked: near an edge, in a thin stem or in weak concrete its breaking out may govern.',
    'The larger of the two ways to share the force counts for each line, so the lines add up to more than the base shear.',
    'Forces are at allowable-stress level. The force that comes in an earthquake is larger than any number here.',
    ...(kinds
      ? ['Unlike anchors on one line do not share evenly: their sum is the most that they could come to together.']
      : []),
    ...(lines.some((line) => line.walls.length > 1)
      ? ['Walls of one line are counted together: something must carry the force from one to the other.']
      : []),
    ...(faulted.length > 0
      ? [`Counted although the checks found errors with them: ${marksInWords(faulted)}. Mend those first.`]
      : []),
    ...(onWalls.length > 0
      ? [
          `${countOf(onWalls.length, 'error')} or stops stand against these walls (\`check\` lists them): the numbers speak of the layout as it is.`,
        ]
      : []),
    ...layout.lines
      .filter((line) => line.exempt?.from === 'all')
      .map((line) => `Line ${line.name} is exempt and takes no force here: ${line.exempt?.reason}.`),
    ...(existingBuildingShare
      ? [
          '75 percent of the base shear of a new building is taken: a choice of the designer, for the official to confirm.',
        ]
      : []),
  ];
}
