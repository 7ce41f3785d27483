import type { Acceptance, Layout, Wall } from '../model/layout.ts';
import { toleranceOf } from '../rulesets/tolerance.ts';
import type { Length } from '../units/length.ts';
import type { WallChecked } from './check-wall.ts';
import type { SeenAcceptance } from './define.ts';
import type { NotChecked } from './finding.ts';
import { rules } from './registry.ts';
import type { RunResult } from './run-rule.ts';

type RawFinding = RunResult['findings'][number];

/** What people wrote of the findings of one wall, there and for the house. */
export interface AcceptedOnWall {
  /** The reason that a person gave, by the finding that it speaks of. */
  readonly acceptedAs: ReadonlyMap<RawFinding, string>;
  /** Of the acceptances on the wall. */
  readonly seen: readonly SeenAcceptance[];
  /** What each of those for the house comes to here, in their order. */
  readonly houseWide: readonly SeenAcceptance['outcome'][];
}
export const nothingAccepted: AcceptedOnWall = { acceptedAs: new Map(), seen: [], houseWide: [] };

/** A stop stays a stop whatever is written. */
export function acceptedOnWall(layout: Layout, wall: Wall, checked: WallChecked): AcceptedOnWall {
  const { accepted } = layout.title;
  if (wall.accepted.length + accepted.length === 0) return nothingAccepted;
  const acceptedAs = new Map<RawFinding, string>();
  const tolerance = toleranceOf(layout.rules);
  const settled = (acceptance: Acceptance, on: string | undefined): Outcome => {
    const outcome = openOutcome(acceptance, on);
    settle(outcome, checked.findings, checked.notChecked, tolerance, acceptedAs);
    return outcome;
  };
  const seen = wall.accepted.map((each) => settled(each, wall.name));
  const houseWide = accepted.map((each) => settled(each, undefined).outcome);
  return { acceptedAs, seen, houseWide };
}

/** All acceptances, with what became of them on the walls. */
export function seenOnWalls(layout: Layout, walls: readonly AcceptedOnWall[]): readonly SeenAcceptance[] {
  const seen = walls.flatMap((each) => each.seen);
  const houseWide = layout.title.accepted.map((acceptance, index): SeenAcceptance => {
    const { outcome } = openOutcome(acceptance, undefined);
    const outcomes = walls.flatMap((each) => each.houseWide[index] ?? []);
    return { acceptance, wall: undefined, outcome: [outcome, ...outcomes].reduce(weightier) };
  });
  return [...seen, ...houseWide];
}

const byWeight: readonly SeenAcceptance['outcome'][] = ['unused', 'not-checked', 'used', 'stop', 'no-such-check'];

function weightier(a: SeenAcceptance['outcome'], b: SeenAcceptance['outcome']): SeenAcceptance['outcome'] {
  return byWeight.indexOf(b) > byWeight.indexOf(a) ? b : a;
}

export interface AcceptedOnHouse {
  readonly acceptedAs: ReadonlyMap<RawFinding, string>;
  readonly seen: readonly SeenAcceptance[];
}

/** The same for findings on the house, which only the title block can accept. */
export function acceptedOnHouse(
  layout: Layout,
  findings: readonly RawFinding[],
  seen: readonly SeenAcceptance[],
): AcceptedOnHouse {
  const acceptedAs = new Map<RawFinding, string>();
  if (findings.length === 0 || layout.title.accepted.length === 0) return { acceptedAs, seen };
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
