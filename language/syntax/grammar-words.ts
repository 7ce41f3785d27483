import { GrammarAST, GrammarUtils } from 'langium';
import { elementsOf, parserRulesOf } from './grammar-elements.ts';
import { sheetServices } from './services.ts';

/** The names of the tokens that a rule may start with: keywords as spelled, `NOMINAL` and the like. */
export function startsOf(ruleName: string): ReadonlySet<string> {
  return cached(starts, ruleName, (rule) => {
    const names = new Set<string>();
    collectStarts(rule.definition, names);
    return names;
  });
}

/** Every keyword that may stand somewhere in a rule. */
export function wordsOf(ruleName: string): ReadonlySet<string> {
  return cached(words, ruleName, (rule) => {
    const names = new Set<string>();
    collectWords(rule, names, new Set());
    return names;
  });
}

const starts = new Map<string, ReadonlySet<string>>();
const words = new Map<string, ReadonlySet<string>>();

function cached(
  cache: Map<string, ReadonlySet<string>>,
  ruleName: string,
  collect: (rule: GrammarAST.ParserRule) => ReadonlySet<string>,
): ReadonlySet<string> {
  const known = cache.get(ruleName);
  if (known) return known;
  const rule = parserRulesOf(sheetServices().grammar).find((candidate) => candidate.name === ruleName);
  if (!rule) throw new Error(`the grammar has no rule ${ruleName}`);
  const collected = collect(rule);
  cache.set(ruleName, collected);
  return collected;
}

/** @returns whether the element may be empty, so that what follows it may come first too. */
export function collectStarts(element: GrammarAST.AbstractElement, names: Set<string>): boolean {
  const optional = GrammarUtils.isOptionalCardinality(element.cardinality);
  return collectOwnStarts(element, names) || optional;
}

function collectOwnStarts(element: GrammarAST.AbstractElement, names: Set<string>): boolean {
  if (GrammarAST.isKeyword(element)) {
    names.add(element.value);
    return false;
  }
  if (GrammarAST.isAction(element)) return true;
  if (GrammarAST.isAssignment(element)) return collectStarts(element.terminal, names);
  if (GrammarAST.isAlternatives(element)) {
    return element.elements.map((alternative) => collectStarts(alternative, names)).some(Boolean);
  }
  if (GrammarAST.isGroup(element)) return element.elements.every((part) => collectStarts(part, names));
  if (GrammarAST.isRuleCall(element)) {
    const rule = element.rule.ref;
    if (GrammarAST.isParserRule(rule)) return collectStarts(rule.definition, names);
    if (rule) names.add(rule.name);
    return false;
  }
  return false;
}

function collectWords(rule: GrammarAST.ParserRule, names: Set<string>, visited: Set<GrammarAST.ParserRule>): void {
  if (visited.has(rule)) return;
  visited.add(rule);
  for (const element of elementsOf(rule.definition)) {
    if (GrammarAST.isKeyword(element)) names.add(element.value);
    const called = GrammarAST.isRuleCall(element) ? element.rule.ref : undefined;
    if (GrammarAST.isParserRule(called)) collectWords(called, names, visited);
  }
}
