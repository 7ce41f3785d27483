import { InvalidArgumentError } from 'commander';
import type { Analysis } from '../../../language/analysis.ts';
import { nearestWord } from '../../../language/syntax/nearest-word.ts';

/** One `--rules`: names with commas between, as in the title block; a later set overrides an earlier one. */
export function readRuleSetChoice(
  written: string,
  before: readonly (readonly string[])[] | undefined,
): readonly (readonly string[])[] {
  const names = written.split(',').map((name) => name.trim());
  if (names.includes('')) throw new InvalidArgumentError('Name a rule set, for example existing-building.');
  return [...(before ?? []), names];
}

/** Why a choice of rule sets cannot be followed: names that nothing in sight has. `undefined` where all are there. */
export function namesNotInSight(names: readonly string[], { file, ruleSetNames }: Analysis): string | undefined {
  const known = new Set(ruleSetNames.map((name) => name.toLowerCase()));
  const missing = [...new Set(names)].filter((name) => !known.has(name.toLowerCase()));
  if (missing.length === 0) return undefined;
  const words = missing.map((name) => {
    const nearest = nearestWord(name, ruleSetNames);
    return nearest === undefined ? `\`${name}\`` : `\`${name}\` (did you mean ${nearest}?)`;
  });
  const all = [...new Set(ruleSetNames)].sort().join(', ');
  return `${file} is not checked: no rule set ${words.join(', ')} in sight. There are ${all}.`;
}
