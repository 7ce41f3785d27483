import type { Layout, UnplacedSill, Wall } from '../model/layout.ts';
import type { Steps } from '../steps.ts';
import { finish } from '../steps.ts';
import { applies } from './applies.ts';
import type { Crash, OpenQuestion, Rule, RuleScope, Seen } from './define.ts';
import type { NotChecked, RuleId } from './finding.ts';
import { rules } from './registry.ts';
import type { RuleSite, RunResult } from './run-rule.ts';
import { nothingHeard, runRule } from './run-rule.ts';
import { sitesOnWall } from './sites-on-wall.ts';

/** What the rules have to say of one wall, before anybody accepted anything. */
export interface WallChecked {
  readonly findings: readonly RawFinding[];
  readonly notChecked: RunResult['notChecked'];
  readonly openQuestions: readonly OpenQuestion[];
  readonly crashes: readonly Crash[];
}
export type RawFinding = RunResult['findings'][number];

/** The part of it that comes from the rules which look at the same things besides the wall. */
export interface WallPart extends WallChecked {
  readonly unreached: readonly NotChecked[];
}

/** Leaves off after each rule. */
export function* checkWallInSteps(layout: Layout, wall: Wall, besides: Rule['besides']): Steps<WallPart> {
  const heard = nothingHeard();
  const unreached: NotChecked[] = [];
  const sites = new Map<RuleScope, readonly RuleSite[]>();
  for (const rule of rules) {
    if (rule.on === 'house' || rule.besides !== besides || !applies(rule, layout, wall)) continue;
    const own = sites.get(rule.on) ?? sitesOnWall(rule.on, wall);
    sites.set(rule.on, own);
    runRule(rule, layout, own, nothingSeen, heard);
    if (rule.on === 'piece') for (const each of wall.unplaced) unreached.push(notReached(rule, wall, each));
    yield;
  }
  return { ...heard, unreached };
}

/** What the rules have to say of one wall with what they propose, for as long as it is needed. */
export function proposalsOnWall(layout: Layout, wall: Wall): readonly RawFinding[] {
  return scopesBeside.flatMap((besides) => finish(checkWallInSteps(layout, wall, besides)).findings);
}
const scopesBeside = [undefined, 'round-corners', 'along-line'] as const satisfies readonly Rule['besides'][];

const nothingSeen: Seen = { openQuestions: [], crashes: [], acceptances: [] };

/** As if all rules had run in their order. */
export function wholeWall(parts: readonly WallPart[]): WallChecked {
  const notChecked = parts.flatMap((part) => part.notChecked).sort(inRuleOrder);
  const unreached = parts.flatMap((part) => part.unreached).sort(inRuleOrder);
  return {
    findings: parts.flatMap((part) => part.findings).sort(inWallOrder),
    notChecked: oncePerMeasurement([...notChecked, ...unreached]),
    openQuestions: parts.flatMap((part) => part.openQuestions).sort(inRuleOrder),
    crashes: parts.flatMap((part) => part.crashes).sort(inRuleOrder),
  };
}

const ruleOrder: ReadonlyMap<string, number> = new Map(rules.map(({ id }, index) => [id, index]));

function inRuleOrder(a: { readonly rule: RuleId }, b: { readonly rule: RuleId }): number {
  return (ruleOrder.get(a.rule) ?? 0) - (ruleOrder.get(b.rule) ?? 0);
}

/** A board that nobody can place is not looked at, which is no clean bill. */
function notReached(rule: Rule, wall: Wall, { name, wants, source }: UnplacedSill): NotChecked {
  return { rule: rule.id, wants, thing: wall.id, wall: wall.name, piece: name, span: source };
}

function inWallOrder({ finding: a }: RawFinding, { finding: b }: RawFinding): number {
  const station = (a.station ?? Number.NEGATIVE_INFINITY) - (b.station ?? Number.NEGATIVE_INFINITY);
  if (station !== 0 && !Number.isNaN(station)) return station;
  if (a.rule !== b.rule) return a.rule < b.rule ? -1 : 1;
  return a.span.start - b.span.start;
}

/** A measurement is missing once, however many anchors ask for it. */
export function oncePerMeasurement(notChecked: RunResult['notChecked']): RunResult['notChecked'] {
  if (notChecked.length < 2) return notChecked;
  return [...new Map(notChecked.map((each) => [`${each.rule} ${each.wants} ${each.thing}`, each])).values()];
}
