import type { Layout, Wall } from '../model/layout.ts';
import type { Profile, Reading } from '../model/reading.ts';
import type { Checked } from '../rules/checked.ts';
import type { RuleId } from '../rules/finding.ts';
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
  const counts = countsOf(layout, checked);
  const demo = usesDemoValues(layout);
  const because = engineerIsNeededBecause(layout, checked);
  const label = because === undefined ? 'prescriptive - not engineered' : "for engineer's review";
  const sentences = [
    tally(counts, rules),
    'An aid to drafting and checking, not engineering; it does not show that the house is safe.',
    because === undefined ? `Basis: ${label}.` : `Basis: ${label} (${because}).`,
    ...(demo ? ['DEMO VALUES: connector values are invented. Not for permit, purchase or building.'] : []),
    ...(hasRecord(layout) ? ['Stations are as designed; where the record gives another place, the record holds.'] : []),
    ...trustSentences(layout, checked),
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

function countsOf(layout: Layout, checked: Checked): Basis['counts'] & { readonly accepted: number } {
  const live = checked.findings.filter((finding) => finding.accepted === undefined);
  const count = (severity: string) => live.filter((finding) => finding.severity === severity).length;
  const stops = checked.findings.filter((finding) => finding.severity === 'stop').length;
  return {
    stops,
    errors: count('error'),
    warnings: count('warning'),
    infos: count('info'),
    accepted: checked.findings.length - live.length - (stops - count('stop')),
    notChecked: checked.notChecked.length,
    assumed: layout.assumptions.filter((leaning) => leaning.quality !== 'unknown').length,
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
function usesDemoValues(layout: Layout): boolean {
  return (
    layout.walls.some((wall) => wall.anchors.some((anchor) => anchor.connector?.demo)) ||
    layout.girders.some((girder) => girder.posts.some((post) => post.hardware.some((piece) => piece.connector?.demo)))
  );
}

/** Work has begun. Outputs take the state of a mark from the record, and not yet where it really stands. */
const hasRecord = (layout: Layout): boolean =>
  layout.walls.some((wall) => wall.anchors.some((anchor) => anchor.state === 'installed' || anchor.state === 'failed'));

function trustSentences(layout: Layout, checked: Checked): readonly string[] {
  const count = (trust: Trust) => layout.rules.limits.filter((limit) => limit.citation?.trust === trust).length;
  const recalled = count('recalled');
  const commonPractice = count('common-practice');
  const shown = checked.findings.filter((finding) => finding.citation?.trust === 'recalled').length;
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

/** The first of these: a stop, the designer's word, text that is not known, a broken check, no rules, an unknown under a stop. */
function engineerIsNeededBecause(layout: Layout, checked: Checked): string | undefined {
  const stops = checked.findings.filter((finding) => finding.severity === 'stop');
  const first = stops[0];
  if (first) {
    const place = first.wall === undefined ? '' : ` on wall ${first.wall}`;
    return `${countOf(stops.length, 'stop')}: ${first.rule}${place}${stops.length > 1 ? ' and more' : ''}`;
  }
  if (layout.title.engineered) return 'the title block says so';
  const unread = checked.findings.filter(({ rule, severity }) => rule.startsWith('language/') && severity === 'error');
  if (unread.length > 0) return `${countOf(unread.length, 'error')} in the text: not all of it is known`;
  if (checked.findings.some(({ rule }) => rule.startsWith('internal/')))
    return 'a check broke off, a defect of Sillwright';
  if (layout.title.ruleSets.length === 0) return 'no rule set chosen';
  return unknownUnderStop(layout, checked);
}

/** Unknown is never clear: a stop that could not be ruled out is as good as one. */
function unknownUnderStop(layout: Layout, checked: Checked): string | undefined {
  const rest = restsOnStop(layout.rules);
  const { storeys, dwellings, slope } = layout.house;
  for (const [subject, reading] of Object.entries({ storeys, dwellings, slope }) as [string, Reading<unknown>?][]) {
    if (reading?.kind === 'unknown') return `not known: ${subject}`;
    if (reading === undefined && rest.subject(subject)) return `not recorded: ${subject}`;
  }
  if (layout.house.words.get('foundation')?.includes('unknown')) return 'not known: foundation';
  for (const wall of layout.walls) {
    const unknown = unknownOfWall(wall);
    if (unknown) return unknown;
  }
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
