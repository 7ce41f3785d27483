import type { Connector } from '../domain/hardware/connector.ts';
import type { RuleSet } from '../domain/rulesets/rule-set.ts';
import { libraryTexts } from '../generated/library.ts';
import type { SheetBlock } from './sheet.ts';
import { readSheet } from './sheet.ts';

/** The rule sets that ship with the language, by name. */
export function shippedRuleSets(): readonly RuleSet[] {
  return shippedBlocks()
    .flatMap(({ draft }) => (draft.kind === 'ruleset' ? [draft.ruleSet] : []))
    .sort((a, b) => (a.name < b.name ? -1 : 1));
}

/** The connectors that ship, in the order of their file: demo values, every one. */
export function shippedConnectors(): readonly Connector[] {
  return shippedBlocks().flatMap(({ draft }) => (draft.kind === 'connector' ? [draft.connector] : []));
}

/** Every block of the shipped files, with what is wrong with its text. */
export function shippedBlocks(): readonly SheetBlock[] {
  return [...libraryTexts].flatMap(([name, text]) => readSheet(`built-in:${name}`, text).blocks);
}
