import type { NameReference, Tags } from '../model/layout.ts';
import type { SourceSpan } from '../model/source.ts';
import type { LimitCondition } from '../rulesets/rule-set.ts';
import type { Money } from '../units/money.ts';
import type { Quantity } from '../units/quantity.ts';

/** What things and work cost, always from a low to a high figure, in one currency a list. */
export interface PriceList {
  readonly name: string;
  /** ISO date; prices age. */
  readonly dated: string | undefined;
  readonly demo: boolean;
  readonly prices: readonly Price[];
  readonly labour: readonly Labour[];
  readonly rates: readonly Rate[];
  readonly factors: readonly Factor[];
  readonly allowances: readonly Allowance[];
  readonly notes?: readonly string[];
  readonly source: SourceSpan;
}
export interface Range<Value> {
  readonly low: Value;
  readonly high: Value;
}
export interface Price {
  readonly tags?: Tags;
  /** A connector's name, or a thing bought: `plywood`. */
  readonly of: NameReference;
  readonly range: Range<Money>;
  readonly unit: 'each' | 'sheet' | 'foot' | 'day' | 'lump' | 'box';
  /** Pieces in a box. */
  readonly count: number | undefined;
}
export interface Labour {
  readonly tags?: Tags;
  readonly of: NameReference;
  readonly range: Range<Quantity>;
}
export interface Rate {
  readonly tags?: Tags;
  readonly of: NameReference;
  readonly range: Range<Money>;
  readonly per: 'hour' | 'day';
}
/** Multiplies labour where its condition holds: `1.3 for clear-height at-least 24" under 36"`. */
export interface Factor {
  readonly tags?: Tags;
  readonly of: NameReference;
  readonly factor: number;
  readonly condition: LimitCondition | undefined;
}
export interface Allowance {
  readonly tags?: Tags;
  readonly of: NameReference;
  readonly range: Range<Money> | Range<Quantity>;
}
