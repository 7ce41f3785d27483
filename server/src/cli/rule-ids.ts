import { rules as registry } from '../../../language/domain/rules/registry.ts';
import { problemCodes } from '../../../language/syntax/problem.ts';

/** Every code that a finding may carry: those of the rules, and those about the text itself. */
export function allRuleIds(): readonly string[] {
  return [...registry.map((rule) => rule.id), ...Object.keys(problemCodes).map((code) => `language/${code}`)].sort();
}
