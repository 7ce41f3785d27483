import type { CountedConnector } from '../engineering/layout-capacity.ts';
import { anchorsOfWall, anglesOfWall, capacityOf, shareOfCapacity } from '../engineering/layout-capacity.ts';
import type { LayoutDemand } from '../engineering/layout-demand.ts';
import { panelsOfWall } from '../engineering/layout-panel-capacity.ts';
import type { Outcome, Refused } from '../engineering/trace.ts';
import { isRefused, refused } from '../engineering/trace.ts';
import type { Layout, Wall } from '../model/layout.ts';
import type { Force } from '../units/force.ts';

/** Demand of one line of resistance and what its links are counted on to carry. */
export interface CalculationLine {
  readonly name: string;
  readonly walls: readonly string[];
  /** Something drags the force to the line from the whole width of the house. */
  readonly withDragStruts: Outcome<Force>;
  /** Nothing does: the line takes what lies beside it. */
  readonly withoutDragStruts: Outcome<Force>;
  /** The larger of the two. */
  readonly demand: Outcome<Force>;
  /** Which of the two that is; `only` where the other has no number. */
  readonly governs: 'with drag struts' | 'without drag struts' | 'the only one known' | undefined;
  /** From the floor down. */
  readonly links: readonly CalculationLink[];
}

export type LinkName = 'angles, floor to sill' | 'panels, cripple wall' | 'anchors, sill to foundation';
export interface CalculationLink {
  readonly name: LinkName;
  /** `false`: the line has no such link, as no cripple wall and no panel is recorded on it. */
  readonly present: boolean;
  readonly connectors: readonly CountedConnector[];
  /** How many connectors the sum counts, and how many have no number. */
  readonly counted: number;
  readonly notCounted: number;
  readonly capacity: Outcome<Force>;
  /** Demand over the capacity counted. */
  readonly share: Outcome<number>;
}

export const anchorsOf = (line: CalculationLine): CalculationLink | undefined =>
  line.links.find(({ name }) => name === 'anchors, sill to foundation');

/** Demand of one line, reckoned both ways. */
export type LineForce = Pick<CalculationLine, 'withDragStruts' | 'withoutDragStruts' | 'demand' | 'governs'>;

/** The demand of each line, the larger of the two ways to reckon it, by the name of the line. */
export function demandsByLine(demand: LayoutDemand): (name: string) => LineForce {
  const withDragStruts = forcesOnLines(demand, 'demand');
  const withoutDragStruts = forcesOnLines(demand, 'withoutDragStruts');
  return (name) => larger(withDragStruts(name), withoutDragStruts(name));
}

function larger(withDragStruts: Outcome<Force>, withoutDragStruts: Outcome<Force>): LineForce {
  if (isRefused(withDragStruts) || isRefused(withoutDragStruts)) {
    const known = isRefused(withDragStruts) ? withoutDragStruts : withDragStruts;
    const governs = isRefused(known) ? undefined : 'the only one known';
    return { withDragStruts, withoutDragStruts, demand: known, governs };
  }
  // The two come from different sums: a difference in the last digits is none.
  const alone = withoutDragStruts.number > withDragStruts.number * (1 + 1e-9);
  return {
    withDragStruts,
    withoutDragStruts,
    demand: alone ? withoutDragStruts : withDragStruts,
    governs: alone ? 'without drag struts' : 'with drag struts',
  };
}

function forcesOnLines(
  { baseShear, directions }: LayoutDemand,
  which: 'demand' | 'withoutDragStruts',
): (name: string) => Outcome<Force> {
  if (isRefused(baseShear)) return () => baseShear;
  const forces = new Map<string, Outcome<Force>>();
  let reason: Refused | undefined;
  for (const direction of directions) {
    const worked = direction[which];
    if (isRefused(worked)) reason = worked;
    else for (const line of worked.lines) forces.set(line.name, line.demand);
  }
  return (name) => forces.get(name) ?? reason ?? refused(`line ${name} has no place in plan`);
}

export interface ResistingLine {
  readonly name: string;
  readonly walls: readonly Wall[];
}
/** Lines as the demand knows them: those of the file that resist, then each perimeter wall that no line names. */
export function linesOf(layout: Layout): readonly ResistingLine[] {
  const byName = new Map(layout.walls.map((wall) => [wall.name.toLowerCase(), wall]));
  const taken = new Set(layout.lines.flatMap((line) => line.walls.map((wall) => wall.name.toLowerCase())));
  const named = layout.lines
    .filter((line) => line.exempt?.from !== 'all')
    .map((line) => ({
      name: line.name,
      walls: line.walls.flatMap((wall) => byName.get(wall.name.toLowerCase()) ?? []),
    }));
  const alone = layout.walls
    .filter((wall) => wall.role === 'perimeter' && !taken.has(wall.name.toLowerCase()))
    .map((wall) => ({ name: wall.name, walls: [wall] }));
  return [...named, ...alone].filter(({ walls }) => walls.length > 0);
}

/** One line with all its links. */
export function lineOf(name: string, walls: readonly Wall[], force: LineForce): CalculationLine {
  const link = (linkName: LinkName, connectors: readonly CountedConnector[]): CalculationLink => {
    const capacity = capacityOf(connectors) ?? refused('no capacity is counted');
    const has = ({ capacity: each }: CountedConnector): boolean => !isRefused(each);
    return {
      name: linkName,
      present: true,
      connectors,
      counted: sumOf(connectors.filter(has)),
      notCounted: sumOf(connectors.filter((each) => !has(each))),
      capacity,
      share: isRefused(force.demand)
        ? force.demand
        : isRefused(capacity)
          ? capacity
          : shareOfCapacity(force.demand, capacity),
    };
  };
  return {
    name,
    walls: walls.map((wall) => wall.name),
    ...force,
    links: [
      link(
        'angles, floor to sill',
        walls.flatMap((wall) => anglesOfWall(wall)),
      ),
      walls.some(({ cripples, panels }) => cripples.length > 0 || panels.length > 0)
        ? link(
            'panels, cripple wall',
            walls.flatMap((wall) => panelsOfWall(wall)),
          )
        : absent('panels, cripple wall', NO_CRIPPLE_WALL),
      link(
        'anchors, sill to foundation',
        walls.flatMap((wall) => anchorsOfWall(wall)),
      ),
    ],
  };
}

const NO_CRIPPLE_WALL = 'none recorded';

function absent(name: LinkName, why: string): CalculationLink {
  const capacity = refused(why);
  return { name, present: false, connectors: [], counted: 0, notCounted: 0, capacity, share: capacity };
}

const sumOf = (connectors: readonly CountedConnector[]): number =>
  connectors.reduce((sum, each) => sum + Math.max(1, each.count), 0);
