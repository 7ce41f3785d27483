import type { Layout, NewAnchor, Wall } from '../model/layout.ts';
import type { Profile, Reading } from '../model/reading.ts';
import type { Checked } from '../rules/checked.ts';
import type { Finding, RuleId, Severity } from '../rules/finding.ts';
import type { RuleSet, Trust } from '../rulesets/rule-set.ts';
import { restsOnStop } from './rests-on-stop.ts';
import { countOf, wrapClauses } from './text-layout.ts';

/** What every output must say of itself: rules, counts, caution. */
export interface Basis {
  /** For example `Existing-building code appendix, chapter A3, 2021`; `no rule set chosen` where that is so. */
  readonly rules: string;
  readonly label: 'prescriptive - not engineered' | "for engineer's review";
  /** Why the set is not labelled prescriptive, for example `concrete of wall F: strength unknown`. */
  readonly because?: string;
  /** A live stop: relabels every output. */
  readonly stopped: boolean;
  /** Connector values are invented: DEMO VALUES across every output. */
  readonly demo: boolean;
  /** Errors, warnings and infos that somebody accepted with a reason count as `accepted`; a stop can't be accepted. */
  readonly counts: {
    readonly stops: number;
    readonly errors: number;
    readonly warnings: number;
    readonly infos: number;
    readonly accepted?: number;
    readonly notChecked: number;
    readonly assumed: number;
  };
  /** `N errors under RULES; N not checked for want of measurements; N assumed.` and the cautions that follow it. */
  readonly lines: readonly string[];
}

/** The widest basis line, so that it fits below a drawing and in a table of 132 columns. */
export const basisLineLength = 110;

/** What an output made from this layout must say of itself. Every drawing, schedule, report and export prints it. */
export function basisOf(layout: Layout, checked: Checked): Basis {
  const rules = rulesInWords(layout);
  const findings = saysOfFindings(checked.findings);
  const walls = layout.walls.map(saysOfWall);
  const counts = countsOf(layout, checked, findings);
  const demo = usesDemoValues(layout, walls);
  const because = engineerIsNeededBecause(layout, checked, findings, walls);
  const label = because === undefined ? 'prescriptive - not engineered' : "for engineer's review";
  const sentences = [
    tally(counts, rules),
    'An aid to drafting and checking, not engineering; it does not show that the house is safe.',
    because === undefined ? `Basis: ${label}.` : `Basis: ${label} (${because}).`,
    ...(demo ? ['DEMO VALUES: connector values are invented. Not for permit, purchase or building.'] : []),
    ...recordSentences(walls),
    ...trustSentences(layout, findings),
    'Local code, the building official and licensed professionals decide.',
    'Connector values come from the evaluation report of the product bought.',
    'Retrofit lowers risk; it does not prevent damage.',
  ];
  return {
    rules,
    label,
    ...(because === undefined ? {} : { because }),
    stopped: counts.stops > 0,
    demo,
    counts,
    lines: sentences.flatMap((sentence) => wrapClauses(sentence, basisLineLength)),
  };
}

/** The rule sets that the title block names. Those that are always in force go unnamed here. */
export function namedRuleSets(layout: Layout): readonly RuleSet[] {
  const named = new Set(layout.title.ruleSets.map((reference) => reference.name.toLowerCase()));
  return layout.rules.chosen.filter((ruleSet) => named.has(ruleSet.name.toLowerCase()));
}

function rulesInWords(layout: Layout): string {
  const found = new Map(namedRuleSets(layout).map((ruleSet) => [ruleSet.name.toLowerCase(), ruleSet]));
  const words = layout.title.ruleSets.map(({ name }) => {
    const ruleSet = found.get(name.toLowerCase());
    return ruleSet ? (ruleSet.title ?? ruleSet.name) : `${name} (not found)`;
  });
  return words.length === 0 ? 'no rule set chosen' : words.join('; with ');
}

/** Findings are many, and gone through after every key: once. */
interface SaysOfFindings {
  readonly live: Readonly<Record<Severity, number>>;
  readonly accepted: number;
  readonly stops: number;
  readonly firstStop: Finding | undefined;
  /** Errors of the text: what stands there is not known. */
  readonly unread: number;
  readonly brokenOff: boolean;
  readonly onRecalled: number;
}

function saysOfFindings(findings: readonly Finding[]): SaysOfFindings {
  const live = { stop: 0, error: 0, warning: 0, info: 0 };
  let accepted = 0;
  let stops = 0;
  let firstStop: Finding | undefined;
  let unread = 0;
  let brokenOff = false;
  let onRecalled = 0;
  for (const finding of findings) {
    const { severity, rule, citation } = finding;
    if (severity === 'stop') {
      stops += 1;
      firstStop ??= finding;
    }
    if (finding.accepted === undefined) live[severity] += 1;
    else if (severity !== 'stop') accepted += 1;
    if (severity === 'error' && rule.startsWith('language/')) unread += 1;
    if (rule.startsWith('internal/')) brokenOff = true;
    if (citation?.trust === 'recalled') onRecalled += 1;
  }
  return { live, accepted, stops, firstStop, unread, brokenOff, onRecalled };
}

function countsOf(
  layout: Layout,
  checked: Checked,
  { live, stops, accepted }: SaysOfFindings,
): Basis['counts'] & { readonly accepted: number } {
  return {
    stops,
    errors: live.error,
    warnings: live.warning,
    infos: live.info,
    accepted,
    notChecked: checked.notChecked.length,
    assumed: layout.assumptions.length,
  };
}

function tally(counts: ReturnType<typeof countsOf>, rules: string): string {
  const stops = counts.stops > 0 ? `${countOf(counts.stops, 'stop')} and ` : '';
  const accepted = counts.accepted > 0 ? `; ${counts.accepted} accepted with a reason` : '';
  return (
    `${stops}${countOf(counts.errors, 'error')} under ${rules}; ` +
    `${counts.notChecked} not checked for want of measurements; ${counts.assumed} assumed${accepted}.`
  );
}

/** Only what is fitted counts: demo hardware that merely lies in sight gives no output its values. */
function usesDemoValues(layout: Layout, walls: readonly SaysOfWall[]): boolean {
  return (
    walls.some((wall) => wall.demo) ||
    layout.girders.some((girder) => girder.posts.some((post) => post.hardware.some(isDemo)))
  );
}
type Fitted = Pick<NewAnchor, 'connector' | 'withHardware'>;
const isDemo = ({ connector, withHardware }: Fitted): boolean =>
  connector?.demo === true || (withHardware ?? []).some((added) => added.connector?.demo);

/** What outputs say of one wall, worked out once: an edit leaves most walls as they are. */
interface SaysOfWall {
  readonly demo: boolean;
  /** New marks that are built, those of them that stand elsewhere than designed, and those whose place nobody recorded. */
  readonly built: number;
  readonly moved: number;
  readonly lost: number;
  readonly unknown: string | undefined;
}
const known = new WeakMap<Wall, SaysOfWall>();

function saysOfWall(wall: Wall): SaysOfWall {
  const before = known.get(wall);
  if (before) return before;
  const built = [...wall.anchors, ...wall.ties].filter(({ state }) => state === 'installed' || state === 'failed');
  const says = {
    demo: [...wall.anchors, ...wall.ties, ...wall.angles].some(isDemo),
    built: built.length,
    moved: built.filter(({ asBuilt, station }) => asBuilt?.station !== undefined && asBuilt.station !== station).length,
    lost: built.filter(({ asBuilt }) => asBuilt && asBuilt.station === undefined && !asBuilt.asPlanned).length,
    unknown: unknownOfWall(wall),
  };
  known.set(wall, says);
  return says;
}

/** Work has begun. Drawings and schedules show what is built where it is; the checks judge the design, and what stands elsewhere. */
function recordSentences(walls: readonly SaysOfWall[]): readonly string[] {
  const total = (count: 'built' | 'moved' | 'lost'): number => walls.reduce((sum, wall) => sum + wall[count], 0);
  if (total('built') === 0) return [];
  const moved = total('moved');
  const lost = total('lost');
  return [
    'Stations of installed work are those of the record.',
    ...(moved > 0
      ? [
          `${countOf(moved, 'mark')} ${moved === 1 ? 'stands' : 'stand'} elsewhere than designed: the checks judge both places.`,
        ]
      : []),
    ...(lost > 0
      ? [`Of ${countOf(lost, 'installed mark')} nobody recorded the place: the designed one is shown.`]
      : []),
  ];
}

function trustSentences(layout: Layout, { onRecalled: shown }: SaysOfFindings): readonly string[] {
  const { recalled, commonPractice } = trustIn(layout.rules);
  const resting = shown === 0 ? '' : ` ${countOf(shown, 'finding')} ${shown === 1 ? 'rests' : 'rest'} on them.`;
  return [
    ...(recalled > 0
      ? [
          `${countOf(recalled, 'limit')} in force ${recalled === 1 ? 'is' : 'are'} recalled; confirm in your adopted copy.${resting}`,
        ]
      : []),
    ...(commonPractice > 0
      ? [
          `${countOf(commonPractice, 'limit')} (tool reach, distance to services and the like): common practice, no source.`,
        ]
      : []),
  ];
}

interface CountsOfTrust {
  readonly recalled: number;
  readonly commonPractice: number;
}
const knownTrust = new WeakMap<Layout['rules'], CountsOfTrust>();

function trustIn(rules: Layout['rules']): CountsOfTrust {
  const before = knownTrust.get(rules);
  if (before) return before;
  const count = (trust: Trust): number => rules.limits.filter((limit) => limit.citation?.trust === trust).length;
  const counts = { recalled: count('recalled'), commonPractice: count('common-practice') };
  knownTrust.set(rules, counts);
  return counts;
}

/** The first of these: a stop, the designer's word, text that is not known, a broken check, no rules, an unknown under a stop. */
function engineerIsNeededBecause(
  layout: Layout,
  checked: Checked,
  { stops, firstStop: first, unread, brokenOff }: SaysOfFindings,
  walls: readonly SaysOfWall[],
): string | undefined {
  if (first) {
    const place = first.wall === undefined ? '' : ` on wall ${first.wall}`;
    return `${countOf(stops, 'stop')}: ${first.rule}${place}${stops > 1 ? ' and more' : ''}`;
  }
  if (layout.title.engineered) return 'the title block says so';
  if (unread > 0) return `${countOf(unread, 'error')} in the text: not all of it is known`;
  if (brokenOff) return 'a check broke off, a defect of Sillwright';
  if (layout.title.ruleSets.length === 0) return 'no rule set chosen';
  return unknownUnderStop(layout, checked, walls);
}

/** Unknown is never clear: a stop that could not be ruled out is as good as one. */
function unknownUnderStop(layout: Layout, checked: Checked, walls: readonly SaysOfWall[]): string | undefined {
  const rest = restsOnStop(layout.rules);
  const { storeys, dwellings, slope } = layout.house;
  for (const [subject, reading] of Object.entries({ storeys, dwellings, slope }) as [string, Reading<unknown>?][]) {
    if (reading?.kind === 'unknown') return `not known: ${subject}`;
    if (reading === undefined && rest.subject(subject)) return `not recorded: ${subject}`;
  }
  if (layout.house.words.get('foundation')?.includes('unknown')) return 'not known: foundation';
  for (const { unknown } of walls) if (unknown) return unknown;
  const unchecked = checked.notChecked.find((entry) => rest.rule(entry.rule as RuleId));
  return unchecked && `not known: ${unchecked.wants}`;
}

function unknownOfWall(wall: Wall): string | undefined {
  if (wall.role === 'perimeter') {
    if (wall.foundation.length === 0) return `foundation of wall ${wall.name} is not recorded`;
    for (const { strength, conditions } of wall.foundation) {
      if (strength?.kind === 'unknown') return `concrete of wall ${wall.name}: strength unknown`;
      if (!strength && conditions.length === 0) {
        return `concrete of wall ${wall.name}: neither strength nor condition is recorded`;
      }
    }
  }
  for (const { height } of wall.cripples) {
    if (height === undefined) return `cripple wall ${wall.name}: height is not recorded`;
    if (isUnknownSomewhere(height)) return `cripple wall ${wall.name}: height unknown`;
  }
  return undefined;
}

function isUnknownSomewhere(profile: Profile): boolean {
  return profile.points.some((point) => point.value.kind === 'unknown');
}
