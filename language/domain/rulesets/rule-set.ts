import type { SourceSpan } from '../model/source.ts';
import type { Length } from '../units/length.ts';
import type { Quantity } from '../units/quantity.ts';

/** How far a number can be trusted; printed beside it wherever it is used. */
export type Trust = 'published' | 'from-memory' | 'recalled' | 'common-practice';

export interface Citation {
  /** For example `Table A304.3.1`. */
  readonly text: string;
  readonly trust: Trust;
}

/** One rule set as its file gives it. */
export interface RuleSet {
  readonly name: string;
  /** Title with its edition, for example `Existing-building code appendix, chapter A3, 2021`. */
  readonly title: string | undefined;
  readonly notes: readonly string[];
  readonly limits: readonly Limit[];
  readonly source: SourceSpan;
}

export type LimitValue =
  | { readonly kind: 'length'; readonly length: Length; readonly typed: string }
  | { readonly kind: 'quantity'; readonly quantity: Quantity; readonly typed: string }
  | { readonly kind: 'number'; readonly number: number; readonly typed: string };

export type Comparison = 'at-least' | 'at-most' | 'over' | 'under' | 'is';
export interface Bound {
  readonly comparison: Comparison;
  readonly value: LimitValue;
  /** Of the value as typed. */
  readonly source?: SourceSpan;
}
export type Verdict = 'required' | 'not-required' | 'allowed' | 'not-allowed';

/** All parts of a condition hold together: `bolt 1/2"`, `piece at-least 6'-0" under 12'-0"`, `heavy`. */
export interface LimitCondition {
  readonly key: string;
  /** A word (`drill straight`), compared without regard to case. */
  readonly word: string | undefined;
  readonly bounds: readonly Bound[];
  /** Of the condition as typed. */
  readonly source?: SourceSpan;
}

export interface Limit {
  readonly subject: string;
  readonly bounds: readonly Bound[];
  readonly verdict: Verdict | undefined;
  readonly conditions: readonly LimitCondition[];
  readonly otherwise: Grade | undefined;
  readonly citation: Citation | undefined;
  readonly notes: readonly string[];
  readonly ruleSet: string;
  readonly source: SourceSpan;
  /** Of the subject's own word. */
  readonly subjectSource?: SourceSpan;
}
export type Grade = 'stop' | 'engineer' | 'ask' | 'error' | 'warning' | 'note';

/** The rule sets of a layout, merged: for a limit given twice the later set wins. */
export interface RulesInForce {
  /** In the order of the title block, `shop-limits` first and unnamed. Empty where none was chosen. */
  readonly chosen: readonly RuleSet[];
  readonly limits: readonly Limit[];
}
