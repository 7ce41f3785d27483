import type { Asked } from '../fit/piece-requirements.ts';
import type { Connector } from '../hardware/connector.ts';
import type { Acceptance, FoundationStretch, Layout, NewAnchor, SillPiece, ThingId, Wall } from '../model/layout.ts';
import type { SourceSpan } from '../model/source.ts';
import type { LimitQuery } from '../rulesets/limit-for.ts';
import type { Length } from '../units/length.ts';
import type { Finding, Fix, RuleId, Severity } from './finding.ts';
import type { AskedLimit } from './limit-words.ts';

/** What a rule looks at. It also says what an edit must touch for the rule to run again. */
export type RuleScope = 'anchor' | 'piece' | 'foundation' | 'wall' | 'house';

export interface ScopeSubjects {
  readonly anchor: { readonly wall: Wall; readonly anchor: NewAnchor; readonly connector: Connector };
  readonly piece: { readonly wall: Wall; readonly piece: SillPiece };
  readonly foundation: { readonly wall: Wall; readonly stretch: FoundationStretch };
  readonly wall: { readonly wall: Wall };
  readonly house: { readonly layout: Layout };
}

export type SubjectDimension = 'length' | 'number' | 'share' | 'force' | 'pressure' | 'verdict';

export interface RuleContext {
  readonly layout: Layout;
  /** The limit in force for a subject under the conditions that hold; see `limit-for.ts`. */
  limit(subject: string, query: LimitQuery): ReturnType<typeof import('../rulesets/limit-for.ts').limitFor>;
  /** Prints a length in the units of the file. */
  show(length: Length): string;
  /** Prints a station in the units of the file, always with feet. */
  showStation(length: Length): string;
  report(finding: ReportedFinding): void;
  /** A check that lacks a measurement: says which. `thing`: whose measurement it is, where not that of the subject. */
  lacks(missing: { readonly wants: string; readonly at: Finding['span']; readonly thing?: ThingId }): void;
  /** The rules in force do not settle what is asked here: a missing measurement, no limit, or two that disagree. */
  leftOpen(question: Unsettled, at: Finding['span']): void;
  /** What came up while the rules on walls ran; for rules on the house. */
  readonly seen: Seen;
}

export type Unsettled = Exclude<Asked<never>, { readonly kind: 'asked' }>;

export interface Seen {
  readonly openQuestions: readonly OpenQuestion[];
  readonly crashes: readonly Crash[];
  readonly acceptances: readonly SeenAcceptance[];
}
export interface OpenQuestion {
  readonly rule: RuleId;
  readonly question: Exclude<Unsettled, { readonly kind: 'depends' }>;
  readonly at: SourceSpan;
}
/** A rule that threw: our own mistake. The other rules ran on. */
export interface Crash {
  readonly rule: RuleId;
  readonly wall: string | undefined;
  readonly reason: string;
  readonly at: SourceSpan;
}
export interface SeenAcceptance {
  readonly acceptance: Acceptance;
  readonly wall: string | undefined;
  /** `stop`: it names a finding that nobody can accept. `not-checked`: the check lacks a measurement. */
  readonly outcome: 'used' | 'unused' | 'stop' | 'not-checked' | 'no-such-check';
}

export type ReportedFinding = Pick<Finding, 'message' | 'span'> &
  Partial<
    Pick<Finding, 'severity' | 'thing' | 'layer' | 'wall' | 'piece' | 'station' | 'stationTo' | 'related' | 'citation'>
  > & {
    /** What it breaks; found by its citation where the rule asked for the limit through its context. */
    readonly asked?: AskedLimit;
    /** Tells this finding from others of the same rule on the same thing: which end, for example. */
    readonly about?: string;
    /**
     * What a person might do, likeliest first; made only when asked for, from the layout as it is then: the wall is the same,
     * marks elsewhere may not be. What would leave the finding, or make a new error, is not offered.
     */
    readonly fixes?: (layout: Layout) => readonly Fix[];
  };

export interface RuleExample {
  /** A whole `.sill` text; the finding is expected exactly once. */
  readonly failing: string;
  /** The same without the finding. */
  readonly passing: string;
}

export interface Rule<Scope extends RuleScope = RuleScope> {
  readonly id: RuleId;
  readonly severity: Severity;
  readonly on: Scope;
  /**
   * What a rule on a wall, or on a part of one, looks at besides: the walls round its corners, or those of its line. Of others it
   * learns only what `seenRound` tells. It runs again when those are edited too.
   */
  readonly besides?: 'round-corners' | 'along-line';
  /** One line: when it fires. */
  readonly summary: string;
  /** Why it matters, for the rule's page. */
  readonly why: string;
  /** What a person does about it. */
  readonly remedy: string;
  /** The rule-set subjects that it reads, each with its dimension; the limits themselves are data. */
  readonly subjects: Readonly<Record<string, SubjectDimension>>;
  readonly examples: readonly RuleExample[];
  check(subject: ScopeSubjects[Scope], context: RuleContext): void;
}

/** Keeps the scope's type while the registry holds rules of every scope. */
export function defineRule<Scope extends RuleScope>(rule: Rule<Scope>): Rule<Scope> {
  return rule;
}
