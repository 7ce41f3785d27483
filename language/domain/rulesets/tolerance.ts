import type { Length } from '../units/length.ts';
import { sixteenth } from '../units/length.ts';
import { lengthOf } from './compare.ts';
import { limitFor } from './limit-for.ts';
import type { RulesInForce } from './rule-set.ts';

/**
 * What a tape may be off by, from the rule sets in force; 1/16 in where they say nothing. It applies to spacing, end
 * distances and distances between stations only: not to heights, sizes of products or a product's stated range.
 */
export function toleranceOf(rules: RulesInForce): Length {
  const answer = limitFor(rules, 'tolerance', {});
  const bound = answer.kind === 'limit' ? answer.limit.bounds[0] : undefined;
  return (bound && lengthOf(bound)) ?? sixteenth;
}
