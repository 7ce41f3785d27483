import { GrammarAST, GrammarUtils } from 'langium';
import { createServicesForGrammar } from 'langium/grammar';
import { describe, expect, it } from 'vitest';
import { cutBlocks } from '../../language/syntax/cut.ts';
import { elementsOf, parserRulesOf } from '../../language/syntax/grammar-elements.ts';
import { collectStarts, startsOf } from '../../language/syntax/grammar-words.ts';
import { lexBlock } from '../../language/syntax/lex-block.ts';
import { parseBlock } from '../../language/syntax/parse.ts';
import { reservedWords } from '../../language/syntax/reserved-words.ts';
import { createSheetServices, sheetServices } from '../../language/syntax/services.ts';
import { isWord, keywordsOf } from '../../language/syntax/token-builder.ts';
import { blocks, blockWords, lineWords } from '../../language/syntax/words.ts';
import { samples } from './support.ts';

const { grammar, lexer } = sheetServices();
const rules = parserRulesOf(grammar);
const keywords = [...keywordsOf(grammar)].filter(isWord);

describe('the lists of words', () => {
  it('name every block of the grammar, by the word that starts it', () => {
    expect([...startsOf('Block')].sort()).toEqual([...blockWords].sort());
    for (const word of blockWords) expect([...startsOf(blocks[word].rule)]).toEqual([word]);
  });

  it('give each block the rule of its lines', () => {
    for (const { rule, lineRule } of Object.values(blocks)) {
      const called = itemsOf(rule);
      expect(called).toEqual(lineRule);
    }
  });

  it('name every word that starts a line', () => {
    const starts = Object.values(blocks).flatMap(({ lineRule }) => (lineRule ? [...startsOf(lineRule)] : []));
    const words = starts.filter((name) => keywords.includes(name)).map((word) => word.toLowerCase());
    expect([...lineWords].sort()).toEqual([...new Set(words)].sort());
  });

  it('have no word that starts both a block and a line', () => {
    expect(blockWords.filter((word) => lineWords.has(word))).toEqual([]);
  });
});

function itemsOf(ruleName: string): string | undefined {
  const rule = rules.find(({ name }) => name === ruleName);
  for (const element of rule ? elementsOf(rule.definition) : []) {
    if (!GrammarAST.isAssignment(element) || element.feature !== 'items') continue;
    if (GrammarAST.isRuleCall(element.terminal)) return element.terminal.rule.$refText;
  }
  return undefined;
}

describe('every-form.sill', () => {
  it('has every keyword and every kind of token of the grammar', () => {
    const text = samples.find(({ path }) => path.endsWith('every-form.sill'))?.text ?? '';
    const { tokens, hidden } = lexBlock(text);
    const used = new Set([...tokens, ...hidden].map((token) => token.tokenType.name));
    const odd = ['BLANK', 'HALF_LENGTH', 'LOOSE', 'OPEN_STRING', 'STRAY'];
    expect(
      Object.keys(lexer.definition)
        .filter((name) => !used.has(name))
        .sort(),
    ).toEqual(odd);
  });
});

describe('reserved words', () => {
  it('are keywords of the grammar, each listed once', () => {
    const known = new Set(keywords);
    expect(reservedWords.filter((word) => !known.has(word))).toEqual([]);
    expect(new Set(reservedWords).size).toBe(reservedWords.length);
  });

  it('are all that may follow a name which can be left out, or a list of names', () => {
    const following = new Set<string>();
    for (const rule of rules) {
      for (const element of elementsOf(rule.definition)) {
        const optional = GrammarUtils.isOptionalCardinality(element.cardinality) || element.cardinality === '+';
        if (optional && startsWithName(element)) collectFollowing(element, following, new Set());
      }
    }
    const words = [...following].filter((name) => keywords.includes(name));
    expect(words).toContain('set-back');
    expect(words).toContain('otherwise');
    expect(words.filter((word) => !reservedWords.includes(word))).toEqual([]);
  });

  /** `name=Name?`, `words+=Name+`, `(value=ConditionValue | …)?`. */
  function startsWithName(element: GrammarAST.AbstractElement): boolean {
    const names = new Set<string>();
    collectStarts(element, names);
    return names.has('ID');
  }

  /** What may stand behind an element on its line: up to the item that the line is. */
  function collectFollowing(element: GrammarAST.AbstractElement, names: Set<string>, visited: Set<unknown>): void {
    if (visited.has(element)) return;
    visited.add(element);
    const parent = element.$container;
    if (GrammarAST.isAssignment(element) && element.feature === 'items') return;
    if (GrammarAST.isParserRule(parent)) {
      for (const rule of rules) {
        for (const call of elementsOf(rule.definition)) {
          if (GrammarAST.isRuleCall(call) && call.rule.ref === parent) collectFollowing(call, names, visited);
        }
      }
      return;
    }
    if (!parent || !('elements' in parent || GrammarAST.isAssignment(parent))) return;
    const next = parent as GrammarAST.AbstractElement;
    if (next.cardinality === '*' || next.cardinality === '+') collectStarts(next, names);
    if (GrammarAST.isGroup(parent)) {
      for (const after of parent.elements.slice(parent.elements.indexOf(element) + 1)) {
        if (!collectStarts(after, names)) return;
      }
    }
    collectFollowing(next, names, visited);
  }
});

describe('a name', () => {
  const places: readonly ((word: string) => string)[] = [
    (word) => `wall ${word} length 3'\n`,
    (word) => `wall F\n  sill ${word} to 3'\n`,
    (word) => `wall F\n  vent ${word} at 3'\n`,
    (word) => `wall F\n  anchor ${word} 1/2" at 3'\n`,
    (word) => `wall F\n  sill 7" right of ${word} to end species ${word}\n`,
    (word) => `girder GD\n  post ${word} 6x6 at 3'\n`,
    (word) => `work on ${word}\n  anchor ${word} ${word} at 3'\n`,
    (word) => `record 2026-06-10\n  installed ${word}, ${word} using ${word}\n`,
    (word) => `ruleset r\n  limit ${word} is 2 for ${word} ${word}, ${word} is 3"\n`,
  ];
  const problemCount = (text: string): number =>
    cutBlocks(text).reduce((count, cut) => count + parseBlock(cut).problems.length, 0);

  it.each(keywords.filter((word) => !reservedWords.includes(word)))('may be the keyword `%s`', (word) => {
    expect(places.map((place) => place(word)).filter((text) => problemCount(text) > 0)).toEqual([]);
  });

  it.each(reservedWords)('cannot be `%s` without quotes where one is required', (word) => {
    expect(problemCount(`wall ${word} length 3'\n`)).toBe(1);
    expect(problemCount(`work on ${word}\n`)).toBe(1);
    expect(problemCount(`record 2026-06-10\n  installed ${word}\n`)).toBe(1);
    expect(problemCount(`wall "${word}" length 3'\n  sill "${word}" to 3'\n`)).toBe(0);
  });
});

describe('the grammar', () => {
  it('has no two alternatives that one token cannot tell apart', () => {
    expect(createSheetServices('development').parser.definitionErrors).toEqual([]);
  });

  it('would be refused if it had', async () => {
    const clash = `grammar Clash entry Sheet: items+=(A | B)*; A: 'sill' a=ID; B: 'sill' b=ID; terminal ID: /[a-z]+/; hidden terminal WS: /\\s+/;`;
    const services = await createServicesForGrammar({
      grammar: clash,
      parserConfig: { maxLookahead: 1, skipValidations: false },
      languageMetaData: { languageId: 'clash', fileExtensions: ['.x'], caseInsensitive: false, mode: 'development' },
    });
    expect(() => services.parser.LangiumParser).toThrow(/Ambiguous/);
  });
});
