import type { Connector } from '../hardware/connector.ts';
import type { FoundationStretch, Layout, NewAnchor, SillPiece, Wall } from '../model/layout.ts';
import type { LimitQuery } from '../rulesets/limit-for.ts';
import type { Length } from '../units/length.ts';
import type { Finding, Fix, RuleId, Severity } from './finding.ts';

/** What a rule looks at. It also says what an edit must touch for the rule to run again. */
export type RuleScope = 'anchor' | 'piece' | 'foundation' | 'wall' | 'house';

export interface ScopeSubjects {
  readonly anchor: { readonly wall: Wall; readonly anchor: NewAnchor; readonly connector: Connector };
  readonly piece: { readonly wall: Wall; readonly piece: SillPiece };
  readonly foundation: { readonly wall: Wall; readonly stretch: FoundationStretch };
  readonly wall: { readonly wall: Wall };
  readonly house: { readonly layout: Layout };
}

export type SubjectDimension = 'length' | 'number' | 'share' | 'force' | 'verdict';

export interface RuleContext {
  readonly layout: Layout;
  /** The limit in force for a subject under the conditions that hold; see `limit-for.ts`. */
  limit(subject: string, query: LimitQuery): ReturnType<typeof import('../rulesets/limit-for.ts').limitFor>;
  /** Prints a length in the units of the file. */
  show(length: Length): string;
  /** Prints a station in the units of the file, always with feet. */
  showStation(length: Length): string;
  report(finding: ReportedFinding): void;
  /** A check that lacks a measurement: says which. */
  lacks(missing: { readonly wants: string; readonly at: Finding['span'] }): void;
}

export type ReportedFinding = Pick<Finding, 'message' | 'span'> &
  Partial<Pick<Finding, 'severity' | 'thing' | 'layer' | 'station' | 'stationTo' | 'related' | 'citation'>> & {
    /** Made only when asked for. */
    readonly fixes?: () => readonly Fix[];
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
