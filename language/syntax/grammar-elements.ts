import { GrammarAST } from 'langium';

/** A part of a rule and, before their followers, the parts in it; rules that it calls are not entered. */
export function* elementsOf(element: GrammarAST.AbstractElement): Generator<GrammarAST.AbstractElement> {
  yield element;
  if (GrammarAST.isAssignment(element)) yield* elementsOf(element.terminal);
  else if (GrammarAST.isAlternatives(element) || GrammarAST.isGroup(element)) {
    for (const part of element.elements) yield* elementsOf(part);
  }
}

export function parserRulesOf(grammar: GrammarAST.Grammar): readonly GrammarAST.ParserRule[] {
  return grammar.rules.filter(GrammarAST.isParserRule);
}
