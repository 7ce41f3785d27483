import type { RuleSet } from '../domain/rulesets/rule-set.ts';
import { libraryTexts } from '../generated/library.ts';
import { readSheet } from './sheet.ts';

/** The rule sets that ship with the language, by name. */
export function shippedRuleSets(): readonly RuleSet[] {
  return [...libraryTexts]
    .flatMap(([name, text]) => readSheet(`built-in:${name}`, text).blocks)
    .flatMap(({ draft }) => (draft.kind === 'ruleset' ? [draft.ruleSet] : []))
    .sort((a, b) => (a.name < b.name ? -1 : 1));
}
