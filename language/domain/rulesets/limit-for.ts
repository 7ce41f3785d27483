import type { Length } from '../units/length.ts';
import type { Limit, RulesInForce } from './rule-set.ts';

/** What is known of the case at hand; a key that is absent does not hold, `unknown` cannot be told. */
export type LimitQuery = Readonly<Record<string, ConditionFact | undefined>>;
export type ConditionFact =
  | { readonly kind: 'length'; readonly length: Length }
  | { readonly kind: 'number'; readonly number: number }
  | { readonly kind: 'word'; readonly word: string }
  | { readonly kind: 'holds' }
  | { readonly kind: 'unknown'; readonly wants: string };

export type LimitAnswer =
  | { readonly kind: 'limit'; readonly limit: Limit }
  /** No limit applies: say so once, never guess. */
  | { readonly kind: 'none' }
  /** Limits with equally many conditions disagree. */
  | { readonly kind: 'conflict'; readonly limits: readonly Limit[] }
  /** The answer depends on something that nobody measured. */
  | { readonly kind: 'depends'; readonly wants: string };

/** Of several limits that apply, the one with most conditions wins; a later rule set wins over an earlier one. */
export function limitFor(_rules: RulesInForce, _subject: string, _query: LimitQuery): LimitAnswer {
  throw new Error('being written');
}
