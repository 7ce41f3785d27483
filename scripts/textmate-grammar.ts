import { rules, terminals } from '../language/generated/rules.ts';
import { innerParts, isWord, partsOf } from '../language/syntax/grammar.ts';
import type { GrammarPart, Rule } from '../language/syntax/grammar-parts.ts';
import { blockWords, lineWords } from '../language/syntax/words.ts';

interface Pattern {
  readonly name?: string;
  readonly match?: string;
  readonly begin?: string;
  readonly end?: string;
  readonly captures?: Readonly<Record<string, { readonly name: string }>>;
  readonly patterns?: readonly Pattern[];
  readonly include?: string;
}

/**
 * Colours by words and tokens of the grammar. Colouring sees one line at a time, so it goes by the first word of a line
 * and by spelling; the server refines it.
 */
export function textMateGrammar(): object {
  return {
    name: 'Sillwright',
    scopeName: 'source.sillwright',
    fileTypes: ['sill'],
    patterns: [{ include: '#heading' }, { include: '#line' }, { include: '#parts' }],
    repository: {
      heading: heading(),
      line: line(),
      parts: { patterns: parts() },
    },
  };
}

const blank = '[ \\t\\x{00A0}]';
const wordEnd = '(?![\\w/]|[-.][\\w])';

/** `wall F "west"`: the block word and, behind it, the name. */
function heading(): Pattern {
  return {
    match: `(?i)^(${blank}*)(${alternatives(blockWords)})${wordEnd}(?:(${blank}+)(on)${wordEnd})?(?:${blank}+(${id})${wordEnd})?`,
    captures: {
      2: { name: 'keyword.control.block.sillwright' },
      4: { name: 'keyword.operator.word.sillwright' },
      5: { name: 'entity.name.section.sillwright' },
    },
  };
}

/** The line word; what a `+` carries on has none. */
function line(): Pattern {
  return {
    match: `(?i)^(${blank}*)(${alternatives([...lineWords])})${wordEnd}`,
    captures: { 2: { name: 'storage.type.line.sillwright' } },
  };
}

function parts(): readonly Pattern[] {
  const { DATE, MONEY, PENNY, NOMINAL, HALF_LENGTH, LENGTH, LOOSE, NUMBER, RULE_ID } = terminals;
  return [
    { name: 'comment.line.double-slash.sillwright', match: '//.*$' },
    { name: 'constant.numeric.date.sillwright', match: source(DATE) },
    { name: 'constant.numeric.size.sillwright', match: source(NOMINAL) },
    { name: 'constant.numeric.nail.sillwright', match: source(PENNY) },
    { name: 'constant.numeric.money.sillwright', match: source(MONEY) },
    { name: 'constant.numeric.length.sillwright', match: source(HALF_LENGTH) },
    { name: 'constant.numeric.length.sillwright', match: source(LENGTH) },
    quantity(),
    { name: 'constant.numeric.loose.sillwright', match: source(LOOSE) },
    { name: 'constant.numeric.sillwright', match: `(?<![\\w.])${source(NUMBER)}(?![\\w])` },
    {
      name: 'string.quoted.double.sillwright',
      begin: '"',
      end: '"|$',
      patterns: [{ name: 'constant.character.escape.sillwright', match: '\\\\.' }],
    },
    { name: 'string.quoted.other.sillwright', begin: '“', end: '”|$' },
    { name: 'support.constant.rule.sillwright', match: `(?<![\\w-])${source(RULE_ID)}` },
    word('constant.language.unknown.sillwright', ['unknown', 'none']),
    word('storage.modifier.quality.sillwright', ['assume', 'scaled', 'told', 'proposed', 'demo']),
    word('keyword.operator.word.sillwright', joiningWords),
    { name: 'variable.other.mark.sillwright', match: `(?<![\\w.-])(?=${id}${wordEnd})[\\w.-]*\\d[\\w.-]*` },
    word('variable.parameter.attribute.sillwright', attributeWords()),
    word('support.constant.sillwright', valueWords()),
    { name: 'variable.other.name.sillwright', match: `${id}` },
    { name: 'punctuation.separator.sillwright', match: '[(),]' },
    { name: 'punctuation.separator.continuation.sillwright', match: '^\\s*\\+' },
    { name: 'invalid.illegal.bracket.sillwright', match: '[{}]' },
  ];
}

/** The number and its unit apart. */
function quantity(): Pattern {
  const full = source(terminals.QUANTITY);
  const unitStart = full.indexOf('(?:%');
  const number = full.slice(0, unitStart).replace('[ \\t]{0,4}', '');
  return {
    match: `(${number})([ \\t]{0,4})(${full.slice(unitStart)})`,
    captures: { 1: { name: 'constant.numeric.quantity.sillwright' }, 3: { name: 'keyword.other.unit.sillwright' } },
  };
}

/** Words that join: places, reasons, conditions. */
const joiningWords = [
  ...['to', 'at', 'from', 'of', 'on', 'by', 'for', 'in', 'with', 'because', 'otherwise', 'per', 'as', 'x', 'using'],
  ...['at-least', 'at-most', 'over', 'under', 'is', 'start', 'end'],
];

/** Words that a value or more words follow: `set-back`, `washer`, `note`. */
function attributeWords(): readonly string[] {
  return keywords((property) => property === undefined || ['key', 'subject', 'role', 'verb'].includes(property));
}

/** Words that say something by themselves: `sound`, `concrete`, `right`. */
function valueWords(): readonly string[] {
  const attributes = new Set(attributeWords());
  return keywords((property) => property !== undefined).filter((each) => !attributes.has(each));
}

function keywords(select: (property: string | undefined) => boolean): readonly string[] {
  const found = new Set<string>();
  for (const rule of rules) collect(rule.body, ruleProperty(rule));
  return [...found].sort();

  function collect(part: GrammarPart, property: string | undefined): void {
    if (part.kind === 'word' && isWord(part.word) && select(property)) found.add(part.word);
    const own = part.kind === 'property' ? part.property : property;
    for (const inner of innerParts(part)) collect(inner, own);
  }
}

/** What a rule that is nothing but words is put into, where it is called first. */
function ruleProperty({ name, body }: Rule): string | undefined {
  if (body.kind !== 'either' || !body.parts.every(({ kind }) => kind === 'word')) return undefined;
  for (const rule of rules) {
    for (const part of partsOf(rule.body)) {
      if (part.kind === 'property' && part.part.kind === 'call' && part.part.rule === name) return part.property;
    }
  }
  return undefined;
}

function word(name: string, words: readonly string[]): Pattern {
  return { name, match: `(?i)(?<![\\w.-])(?:${alternatives(words)})${wordEnd}` };
}

/** Longest first, so that `set-back` is not read as `set`. */
function alternatives(words: readonly string[]): string {
  return [...words].sort((a, b) => b.length - a.length || (a < b ? -1 : 1)).join('|');
}

/** A JavaScript pattern in the spelling that the editor's own engine reads. */
function source(pattern: RegExp): string {
  return pattern.source.replace(/\\u([0-9A-F]{4})/gi, '\\x{$1}').replace(/\\\//g, '/');
}

const id = source(terminals.ID);
