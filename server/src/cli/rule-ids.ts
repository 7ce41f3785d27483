import { rules as registry } from '../../../language/domain/rules/registry.ts';
import { problemPages } from '../../../language/syntax/problem.ts';

/** Every code that a finding may carry: those of the rules, and those about the text itself. */
export function allRuleIds(): readonly string[] {
  return [...registry.map((rule) => rule.id), ...problemPages().map((page) => page.id)].sort();
}
