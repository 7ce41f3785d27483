import type { Rule } from '../../language/domain/rules/define.ts';
import { rules } from '../../language/domain/rules/registry.ts';

/** Takes the check out of a rule, in this process; the answer puts it back. */
export function emptied(id: string): () => void {
  const rule = rules.find((each) => each.id === id);
  if (!rule) throw new Error(`there is no rule ${id}`);
  const { check } = rule;
  const silent: Pick<Rule, 'check'> = { check: () => {} };
  Object.assign(rule, silent);
  return () => Object.assign(rule, { check });
}
