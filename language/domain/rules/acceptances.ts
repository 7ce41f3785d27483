import type { Acceptance, Layout, Wall } from '../model/layout.ts';
import { toleranceOf } from '../rulesets/tolerance.ts';
import type { Length } from '../units/length.ts';
import type { WallChecked } from './check-wall.ts';
import type { SeenAcceptance } from './define.ts';
import type { NotChecked } from './finding.ts';
import { rules } from './registry.ts';
import type { RunResult } from './run-rule.ts';

type RawFinding = RunResult['findings'][number];

export interface AcceptedFindings {
  /** The reason that a person gave, by the finding that it speaks of. */
  readonly acceptedAs: ReadonlyMap<RawFinding, string>;
  readonly seen: readonly SeenAcceptance[];
}

/** Which findings on walls somebody accepted, there or for the house. A stop stays a stop whatever is written. */
export function acceptedOnWalls(
  layout: Layout,
  walls: readonly { readonly wall: Wall; readonly checked: WallChecked }[],
): AcceptedFindings {
  const acceptedAs = new Map<RawFinding, string>();
  const tolerance = toleranceOf(layout.rules);
  const houseWide = layout.title.accepted.map((each) => openOutcome(each, undefined));
  const seen: Outcome[] = [];
  for (const { wall, checked } of walls) {
    const own = wall.accepted.map((each) => openOutcome(each, wall.name));
    seen.push(...own);
    for (const outcome of [...own, ...houseWide])
      settle(outcome, checked.findings, checked.notChecked, tolerance, acceptedAs);
  }
  return { acceptedAs, seen: [...seen, ...houseWide] };
}

/** The same for findings on the house, which only the title block can accept. */
export function acceptedOnHouse(
  layout: Layout,
  findings: readonly RawFinding[],
  seen: readonly SeenAcceptance[],
): AcceptedFindings {
  const acceptedAs = new Map<RawFinding, string>();
  const outcomes = seen.map((each): Outcome => ({ ...each }));
  for (const outcome of outcomes) {
    if (outcome.wall === undefined) settle(outcome, findings, [], toleranceOf(layout.rules), acceptedAs);
  }
  return { acceptedAs, seen: outcomes };
}

interface Outcome extends SeenAcceptance {
  outcome: SeenAcceptance['outcome'];
}

function openOutcome(acceptance: Acceptance, wall: string | undefined): Outcome {
  const known = rules.some((rule) => rule.id === acceptance.rule.toLowerCase());
  return { acceptance, wall, outcome: known ? 'unused' : 'no-such-check' };
}

function settle(
  outcome: Outcome,
  findings: readonly RawFinding[],
  notChecked: readonly NotChecked[],
  tolerance: Length,
  acceptedAs: Map<RawFinding, string>,
): void {
  const { acceptance } = outcome;
  for (const raw of findings) {
    if (!speaksOf(acceptance, raw, tolerance)) continue;
    if (raw.finding.severity === 'stop') outcome.outcome = 'stop';
    else {
      if (!acceptedAs.has(raw)) acceptedAs.set(raw, acceptance.reason);
      if (outcome.outcome !== 'stop') outcome.outcome = 'used';
    }
  }
  const lacks = notChecked.some((each) => each.rule === acceptance.rule.toLowerCase());
  if (lacks && outcome.outcome === 'unused') outcome.outcome = 'not-checked';
}

function speaksOf(acceptance: Acceptance, { finding }: RawFinding, tolerance: Length): boolean {
  if (finding.rule !== acceptance.rule.toLowerCase()) return false;
  if (acceptance.on !== undefined && !names(acceptance.on, finding)) return false;
  const { station } = acceptance;
  if (station === undefined) return true;
  if (finding.station === undefined) return false;
  const to = finding.stationTo ?? finding.station;
  return station >= finding.station - tolerance && station <= to + tolerance;
}

/** `F-8`, `F.X4` or the name of the board. */
function names(on: string, finding: RawFinding['finding']): boolean {
  const thing = finding.thing?.slice(finding.thing.indexOf(':') + 1);
  const known = [thing, finding.piece].flatMap((name) => (name === undefined ? [] : [name, `${finding.wall}.${name}`]));
  return known.some((name) => name.toLowerCase() === on.toLowerCase());
}
