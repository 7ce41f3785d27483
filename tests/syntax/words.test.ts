import { describe, expect, it } from 'vitest';
import { rules, terminals } from '../../language/generated/rules.ts';
import { cutBlocks } from '../../language/syntax/cut.ts';
import {
  keywords as allKeywords,
  collectStarts,
  followersOfPart,
  isOptional,
  isRepeated,
  isWord,
  mayBeName,
  partsOf,
  ruleNamed,
  startsOf,
  startsOfPart,
} from '../../language/syntax/grammar.ts';
import {
  all,
  as,
  call,
  either,
  type GrammarPart,
  node,
  type Rule,
  token,
  word,
} from '../../language/syntax/grammar-parts.ts';
import { lexBlock } from '../../language/syntax/lex-block.ts';
import { parseBlock } from '../../language/syntax/parse.ts';
import { reservedWords } from '../../language/syntax/reserved-words.ts';
import { blocks, blockWords, lineWords } from '../../language/syntax/words.ts';
import { samples } from './support.ts';

const keywords = [...allKeywords()].filter(isWord);

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
  for (const part of partsOf(ruleNamed(ruleName).body)) {
    if (part.kind === 'property' && part.property === 'items' && part.part.kind === 'call') return part.part.rule;
  }
  return undefined;
}

describe('every-form.sill', () => {
  it('has every keyword and every kind of token of the grammar', () => {
    const text = samples.find(({ path }) => path.endsWith('every-form.sill'))?.text ?? '';
    const { tokens, hidden } = lexBlock(text);
    const used = new Set([...tokens, ...hidden].map((token) => token.kind));
    const odd = ['BLANK', 'HALF_LENGTH', 'LOOSE', 'OPEN_STRING', 'STRAY'];
    expect([...Object.keys(terminals), ...allKeywords()].filter((name) => !used.has(name)).sort()).toEqual(odd);
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
      for (const part of partsOf(rule.body)) {
        const optional = isOptional(part) || part.times === '+';
        if (optional && startsOfPart(part).names.has('ID')) collectFollowing(rule, part, following, new Set());
      }
    }
    const words = [...following].filter((name) => keywords.includes(name));
    expect(words).toContain('set-back');
    expect(words).toContain('otherwise');
    expect(words.filter((word) => !reservedWords.includes(word))).toEqual([]);
  });

  /** What may stand behind a part on its line: up to the item that the line is. */
  function collectFollowing(rule: Rule, part: GrammarPart, names: Set<string>, visited: Set<unknown>): void {
    if (visited.has(part)) return;
    visited.add(part);
    for (const name of followersOfPart(rule, part).names) names.add(name);
    if (!mayEnd(rule.body, part)) return;
    for (const outer of rules) {
      for (const each of partsOf(outer.body)) {
        const isItem = each.kind === 'property' && each.property === 'items';
        if (isItem) visited.add(each.part);
        if (each.kind === 'call' && each.rule === rule.name) collectFollowing(outer, each, names, visited);
      }
    }
  }

  /** Whether nothing need stand between a part and the end of its rule. */
  function mayEnd(body: GrammarPart, part: GrammarPart): boolean {
    if (body === part) return true;
    if (body.kind === 'property') return mayEnd(body.part, part);
    if (body.kind === 'either') return body.parts.some((each) => mayEnd(each, part));
    if (body.kind !== 'all') return false;
    return body.parts.some(
      (each, index) =>
        mayEnd(each, part) && body.parts.slice(index + 1).every((after) => collectStarts(after, new Set())),
    );
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
  it('has no two ways to go on that one token cannot tell apart', () => {
    // Both go the first way: the day's own `by` before that of a tag, and new angles name no bay that nobody knows.
    expect(rules.flatMap(doubtsIn)).toEqual(['DateFact: by', 'Angles: unknown']);
  });

  it('would be told of any', () => {
    const a = all([word('sill'), as('a', token('ID'))]);
    const b = all([word('sill'), as('b', token('ID'))]);
    expect(doubtsIn(node('Clash', 'Clash', either([a, b])))).toEqual(['Clash: sill']);
    expect(doubtsIn(node('Open', 'Open', all([word('sill', '?'), word('sill')])))).toEqual(['Open: sill']);
    expect(doubtsIn(node('Name', 'Name', all([token('ID', '?'), call('Name')])))).toContain('Name: ID');
    expect(doubtsIn(node('Fine', 'Fine', either([a, word('joist')])))).toEqual([]);
  });

  /** Tokens that could begin two alternatives, or what may be left out and what follows it. */
  function doubtsIn(rule: Rule): readonly string[] {
    const doubts: string[] = [];
    for (const part of partsOf(rule.body)) {
      if (part.kind === 'either') {
        const seen = new Set<string>();
        for (const each of part.parts) {
          for (const name of acceptedBy(each)) if (seen.has(name)) doubts.push(`${rule.name}: ${name}`);
          for (const name of acceptedBy(each)) seen.add(name);
        }
      }
      if (!isOptional(part) && !isRepeated(part)) continue;
      const own = acceptedBy(part);
      const behind = followersBehind(rule, part);
      for (const name of own) if (behind.has(name)) doubts.push(`${rule.name}: ${name}`);
    }
    return doubts;
  }

  function acceptedBy(part: GrammarPart): ReadonlySet<string> {
    const { names, takesNames } = startsOfPart(part);
    return takesNames ? new Set([...names, ...[...allKeywords()].filter(mayBeName)]) : names;
  }

  /** What may follow a part in its rule, but for the part itself once more. */
  function followersBehind(rule: Rule, part: GrammarPart): ReadonlySet<string> {
    const names = new Set<string>();
    const visit = (within: GrammarPart): boolean => {
      if (within === part) return true;
      if (within.kind === 'property') return visit(within.part);
      if (within.kind === 'either') return within.parts.some(visit);
      if (within.kind !== 'all') return false;
      const index = within.parts.findIndex(visit);
      if (index < 0) return false;
      within.parts.slice(index + 1).every((after) => collectStarts(after, names));
      return true;
    };
    visit(rule.body);
    return names;
  }
});
