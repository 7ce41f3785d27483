import type { RuleId } from '../rules/finding.ts';
import { rules as registry } from '../rules/registry.ts';
import type { RulesInForce } from '../rulesets/rule-set.ts';

/** Tells which rules and which subjects of limits could raise a stop under the rule sets in force. */
export function restsOnStop(rules: RulesInForce): {
  rule(id: RuleId): boolean;
  subject(name: string): boolean;
} {
  const subjects = new Set(rules.limits.filter((limit) => limit.otherwise === 'stop').map((limit) => limit.subject));
  const ids = new Set<string>(
    registry
      .filter((rule) => rule.severity === 'stop' || Object.keys(rule.subjects).some((subject) => subjects.has(subject)))
      .map((rule) => rule.id),
  );
  return { rule: (id) => ids.has(id), subject: (name) => subjects.has(name) };
}
