import { startsOf, wordsOf } from './grammar.ts';
import type { Token } from './lexer.ts';
import { nearestWord } from './nearest-word.ts';
import type { GrammarMistake } from './read-rule.ts';
import { reservedWords } from './reserved-words.ts';
import type { Replacement, SyntaxProblem, SyntaxProblemCode } from './syntax-problem.ts';
import { type BlockWord, blocks, blockWords, lineWords } from './words.ts';

// What is said about text that cannot be read. Every message names the word at fault and what to write instead.

interface Span {
  readonly start: number;
  readonly end: number;
}

// ---------- whole blocks and lines ----------

/** A block that starts with no known word: most likely a misspelt heading. */
export function explainUnreadBlock(text: string): SyntaxProblem | undefined {
  const span = firstWordOf(text);
  if (!span) return undefined;
  const word = text.slice(span.start, span.end);
  const meant = nearestWord(word, firstWords);
  if (meant) return didYouMean('unread-block', span, word, meant);
  return problem('unread-block', span, `${quote(word)} starts no block: its lines are not read. ${listOfBlockWords}`);
}

/** Lines before the first heading. */
export function explainOutsideBlocks(text: string): SyntaxProblem | undefined {
  const span = firstWordOf(text);
  if (!span) return undefined;
  const word = text.slice(span.start, span.end);
  return problem('outside-blocks', span, `${quote(word)} stands above the first heading. ${listOfBlockWords}`);
}

const firstWords: readonly string[] = [...blockWords, ...lineWords];
const listOfBlockWords = `Start a block with one of ${blockWords.map(quote).join(', ')}.`;

export function explainLongLine(span: Span): SyntaxProblem {
  const length = span.end - span.start;
  return problem('line-too-long', span, `this line has ${length} characters: too long to read, so it is left out`);
}

export function explainMoreProblems(count: number, span: Span): SyntaxProblem {
  return problem('more-problems', span, `and ${count} more that cannot be read in this block`);
}

/** A second item behind one that fills its line. */
export function explainTwoLines(text: string, next: Token): SyntaxProblem {
  const span = spanOf(next);
  const blanks = /[ \t]*$/.exec(text.slice(0, span.start).slice(-longestGap))?.[0].length ?? 0;
  const lineBreak = text.includes('\r\n') ? '\r\n' : '\n';
  const title = `Start a new line before ${quote(next.typed)}`;
  return problem('two-lines', span, `start a new line before ${quote(next.typed)}`, [
    { title, start: span.start - blanks, end: span.start, text: `${lineBreak}  ` },
  ]);
}
const longestGap = 80;

/** A word that starts a line of its own, in the middle of another. */
export function explainBelongsElsewhere(token: Token, owner: string): SyntaxProblem {
  return problem('syntax', spanOf(token), `${quote(token.typed)} does not belong to ${quote(owner)}`);
}

// ---------- characters ----------

export function explainStray(text: string, token: Token): SyntaxProblem {
  const span = spanOf(token);
  const character = token.image;
  if (/^[{}]/.test(character)) {
    return problem('stray-brace', span, `no brackets are needed: delete ${quote(character)}`, [
      deletion(character, span),
    ]);
  }
  const touching = /(\d)[ \t]+$/.exec(text.slice(Math.max(0, span.start - 8), span.start));
  if (/^['′’″”]$/.test(character) && touching) {
    const mark = /['′’]/.test(character) ? 'foot' : 'inch';
    const gap = { start: span.start - touching[0].length + 1, end: span.end };
    return problem(
      'stray-character',
      span,
      `the ${mark} mark touches its number: no space before ${quote(character)}`,
      [{ title: 'Close the gap', ...gap, text: character }],
    );
  }
  const printable = /^[\p{L}\p{M}\p{N}\p{P}\p{S}]+$/u.test(character);
  const code = (character.codePointAt(0) ?? 0).toString(16).toUpperCase().padStart(4, '0');
  const name = printable ? quote(character) : `a character that cannot be printed (U+${code})`;
  return problem('stray-character', span, `${name} has no meaning here: delete it`, [
    deletion(printable ? character : 'it', span),
  ]);
}

/** A text that lacks its last mark, or an inch mark that stands apart from its number. */
export function explainOpenString(text: string, token: Token, previous: Token | undefined): SyntaxProblem {
  const span = spanOf(token);
  const firstMark = { start: span.start, end: span.start + 1 };
  if (previous && isNumber(previous)) return explainLooseInchMark(previous, token);
  if (previous && /^x\d/i.test(previous.image) && previous.end === span.start) {
    const written = `x ${previous.image.slice(1)}"`;
    return problem('open-string', firstMark, `put a space on both sides of ${quote('x')}: ${quote(`8" x 9"`)}`, [
      { title: `Write ${quote(written)}`, start: previous.start, end: firstMark.end, text: ` ${written}` },
    ]);
  }
  const closing = text.startsWith('“', span.start) ? '”' : '"';
  return problem('open-string', span, `this text is not closed: put ${quote(closing)} at its end`, [
    { title: `Put ${quote(closing)} at its end`, start: span.end, end: span.end, text: closing },
  ]);
}

/** `12 "`: the mark starts a text, since it does not touch the number. */
function explainLooseInchMark(number: Token, text: Token): SyntaxProblem {
  const mark = { start: text.start, end: text.start + 1 };
  const code = text.kind === 'OPEN_STRING' ? 'open-string' : 'syntax';
  return problem(code, mark, `the inch mark touches its number: write ${quote(`${number.image}"`)}`, [
    { title: 'Close the gap', start: number.end, end: mark.end, text: '"' },
  ]);
}

// ---------- the grammar of a line ----------

export interface Line {
  readonly tokens: readonly Token[];
  /** Of the block that it stands in. */
  readonly word: BlockWord;
}

/** The first mistake on a line. */
export function explainMistake(line: Line, mistake: GrammarMistake): SyntaxProblem {
  const found = mistake.token ? line.tokens.indexOf(mistake.token) : -1;
  const index = found < 0 ? line.tokens.length : found;
  const token = line.tokens[index];
  const previous = line.tokens[index - 1];
  const expected = mistake.expected.filter((name) => name !== 'NL');

  if (
    token &&
    previous &&
    isNumber(previous) &&
    isNumber(token) &&
    (expected.length === 0 || expected.includes('to'))
  ) {
    return explainTwoLengths(previous, token, joinerAfter(line.tokens[index - 2]));
  }
  if (token && previous && isNumber(previous) && isText(token)) return explainLooseInchMark(previous, token);
  if (token && !previous) return explainUnknownStart(line.word, token);
  if (token && expected.length === 0) return explainUnknownWord(line, token);
  return explainMissing(line, mistake, { token, previous, expected, index });
}

/** What joins two lengths behind this word. */
function joinerAfter(word: Token | undefined): 'x' | ',' | 'to' {
  if (word && ['size', 'x', 'access'].includes(word.kind)) return 'x';
  return word && ['at', ',', 'spans'].includes(word.kind) ? ',' : 'to';
}

/** `5'-0"-6'-4"` and `5'-0" 6'-4"`: what looks like one stretch is two lengths. */
function explainTwoLengths(previous: Token, token: Token, joiner: 'x' | ',' | 'to'): SyntaxProblem {
  const span = spanOf(token);
  const touching = previous.end === span.start;
  const second = touching ? token.image.replace(/^[-−]/, '') : token.image;
  const joined = joiner === ',' ? `, ${second}` : ` ${joiner} ${second}`;
  return problem('syntax', span, `write ${quote(joiner)} between two lengths: ${quote(`${previous.image}${joined}`)}`, [
    {
      title: `Put ${quote(joiner)} between`,
      start: previous.end,
      end: span.end,
      text: joined,
    },
  ]);
}

/** A line that starts with no word that starts lines here. */
export function explainUnknownStart(word: BlockWord, token: Token): SyntaxProblem {
  const span = spanOf(token);
  const typed = token.typed;
  const elsewhere = blockWords.filter((block) => startsLineOf(block, token));
  if (elsewhere.length > 0) {
    const where = either(elsewhere.map(quote));
    return problem('syntax', span, `${quote(typed)} is no line of a ${quote(word)} block: it stands under ${where}`);
  }
  const { lineRule } = blocks[word];
  const meant = nearestWord(typed, lineRule ? startsOf(lineRule) : []);
  if (meant) return didYouMean('syntax', span, typed, meant);
  return problem('syntax', span, `a line of ${quote(word)} cannot start with ${quote(typed)}`);
}

function startsLineOf(block: BlockWord, token: Token): boolean {
  const { lineRule } = blocks[block];
  return isWordLike(token) && lineRule !== undefined && startsOf(lineRule).has(token.kind);
}

/** A word behind the last that could be read. */
function explainUnknownWord({ tokens, word }: Line, token: Token): SyntaxProblem {
  const span = spanOf(token);
  const typed = token.typed;
  const { rule, lineRule } = blocks[word];
  const meant = nearestWord(typed, wordsOf(lineRule ?? rule));
  if (meant && meant.toLowerCase() !== typed.toLowerCase()) return didYouMean('syntax', span, typed, meant);
  const owner = tokens[0]?.image ?? word;
  return problem('syntax', span, `${quote(typed)} has no place on this ${quote(owner)} line`, [deletion(typed, span)]);
}

interface Missing {
  readonly token: Token | undefined;
  readonly previous: Token | undefined;
  readonly expected: readonly string[];
  readonly index: number;
}

function explainMissing(
  line: Line,
  mistake: GrammarMistake,
  { token, previous, expected, index }: Missing,
): SyntaxProblem {
  const wanted = describeExpected(expected, mistake.rules, line, index);
  const after = previous ? `after ${quote(previous.typed)} ` : '';
  if (!token) {
    const span = previous ? spanOf(previous) : { start: 0, end: 0 };
    return problem('syntax', span, `${after}write ${wanted}`);
  }
  const span = spanOf(token);
  const meant = isWordLike(token) ? nearestWord(token.image, expected.filter(isKeywordName)) : undefined;
  if (meant && meant.toLowerCase() !== token.image.toLowerCase()) return didYouMean('syntax', span, token.typed, meant);
  const only = expected.length === 1 ? expected[0] : undefined;
  if (only !== undefined && isKeywordName(only)) {
    return problem('syntax', span, `write ${quote(only)} before ${quote(token.typed)}`, [
      insertion(only, span.start, previous),
    ]);
  }
  if (expected.includes('ID') && expected.includes('STRING') && isReserved(token) && !joiningWords.has(token.image)) {
    return problem('syntax', span, `${quote(token.typed)} has its own meaning; as a name it stands in quotes`, [
      { title: `Write ${quote(`"${token.typed}"`)}`, ...span, text: `"${token.typed}"` },
    ]);
  }
  return problem('syntax', span, `${after}write ${wanted}, not ${quote(token.typed)}`);
}

/** Reserved words that show a name to be missing rather than misspelt. */
const joiningWords = new Set('as at because by for from of on otherwise source to with'.split(' '));

function describeExpected(expected: readonly string[], rules: readonly string[], line: Line, index: number): string {
  for (const rule of rules.toReversed()) {
    const phrase = phraseOfRule[rule];
    if (phrase && expected.length > 1) return phrase;
  }
  if (expected.includes('ID')) return nameWanted(rules.at(-2) ?? '', index);
  const phrases = new Set(expected.map((name) => phraseOfToken[name] ?? quote(name)));
  if (expected.includes('unknown') && expected.includes('LENGTH')) return exampleValue(line.tokens[index - 1]);
  return either([...phrases]);
}

const phraseOfRule: Readonly<Record<string, string | undefined>> = {
  Station: `a place, for example ${quote(`3'-1"`)}, ${quote('start')} or ${quote('end')}`,
  Stretch: `from where to where, for example ${quote(`4'-0" to 5'-4"`)} or ${quote('to end')}`,
  Where: `a place, for example ${quote(`at 3'-1"`)} or ${quote(`4'-0" to 5'-4"`)}`,
  WhereAfterValue: `a place, for example ${quote(`at 3'-1"`)} or ${quote(`from 4'-0" to 5'-4"`)}`,
  Bays: `the bays, for example ${quote('every bay')} or ${quote('bays 2, 4, 6')}`,
  Nails: `the nails, for example ${quote('8d spaced 6"')} or ${quote('unknown')}`,
  ConnectorKind: 'what kind of connector it is, for example `side-plate` or `through-bolt`',
};

const phraseOfToken: Readonly<Record<string, string | undefined>> = {
  STRING: 'a text in quotes',
  OPEN_STRING: 'a text in quotes',
  DATE: `a date, for example ${quote('2026-06-11')}`,
  PENNY: `a nail size, for example ${quote('8d')}`,
  NOMINAL: `a size, for example ${quote('2x6')}`,
  MONEY: `an amount of money, for example ${quote('$18')}`,
  RULE_ID: `the id of a finding, for example ${quote('anchorage/end-too-far')}`,
  QUANTITY: `a number with its unit, for example ${quote('45°')}`,
  LENGTH: `a length, for example ${quote(`3'-1 1/2"`)}`,
  HALF_LENGTH: `a length, for example ${quote(`3'-1 1/2"`)}`,
  LOOSE: `a length, for example ${quote(`3'-1 1/2"`)}`,
  NUMBER: 'a number',
};

/** What the name at this place of the line is the name of. */
function nameWanted(rule: string, index: number): string {
  return namesOfRule[rule]?.[index - 1] ?? 'a name';
}
const mark = `a mark, for example ${quote('A-1')}`;
const connector = 'the name of a connector';
const namesOfRule: Readonly<Record<string, readonly string[] | undefined>> = {
  NewAnchor: [mark, connector],
  Angles: [mark, connector],
  HoldDown: [mark, connector],
  PostHardware: [mark, connector],
  Panel: [mark],
  Marks: [mark],
  Work: ['', 'the name of a wall or girder'],
  Wall: ['a name, for example `A` or `north`'],
  Limit: ['what is limited, for example `anchor-spacing`'],
};

/** An example in the unit that belongs behind this word. */
function exampleValue(previous: Token | undefined): string {
  const example = (previous && exampleAfter[previous.image]) ?? '7"';
  return `a value, for example ${quote(example)}, or ${quote('unknown')}`;
}
const exampleAfter: Readonly<Record<string, string | undefined>> = {
  strength: '2000 psi',
  slope: '5 %',
  storeys: '2',
  year: '1924',
  dwellings: '1',
  area: '1097 sq ft',
  SDS: '1.00',
  SD1: '0.60',
  R: '6.5',
  coefficient: '0.2',
  importance: '1',
  roof: '10 psf',
  ceiling: '8 psf',
  floor: '12 psf',
  'upper-floor': '12 psf',
  partitions: '8 psf',
  'exterior-walls': '15 psf',
  'whole-house': '80 psf',
  loss: '25 %',
  'net-area': '72 sq in',
  tightened: '45 ft-lb',
  torque: '45 ft-lb',
  pull: '1200 lb',
  'along-wall': '1000 lb',
  'across-wall': '1000 lb',
  up: '1000 lb',
};

// ---------- parts ----------

function problem(
  code: SyntaxProblemCode,
  { start, end }: Span,
  message: string,
  replacements: readonly Replacement[] = [],
): SyntaxProblem {
  return { code, message, start, end, replacements };
}

function didYouMean(code: SyntaxProblemCode, span: Span, word: string, meant: string): SyntaxProblem {
  return problem(code, span, `${quote(word)}: did you mean ${quote(meant)}?`, [
    { title: `Write ${quote(meant)}`, ...span, text: meant },
  ]);
}

/** A word or mark before a token; a comma goes directly behind the token before it. */
function insertion(word: string, before: number, previous: Token | undefined): Replacement {
  const title = `Put ${quote(word)} before it`;
  const behind = word === ',' || word === ')' ? previous?.end : undefined;
  const start = behind ?? before;
  return { title, start, end: start, text: behind === undefined ? `${word} ` : word };
}

function deletion(what: string, span: Span): Replacement {
  return { title: what === 'it' ? 'Delete it' : `Delete ${quote(what)}`, ...span, text: '' };
}

/** In code marks, shortened where it is long. */
function quote(text: string): string {
  return `\`${text.length > 40 ? `${text.slice(0, 39)}…` : text}\``;
}

function either(phrases: readonly string[]): string {
  const shown = phrases.length > 7 ? [...phrases.slice(0, 6), 'another of its words'] : phrases;
  return shown.length < 2 ? (shown[0] ?? 'something') : `${shown.slice(0, -1).join(', ')} or ${shown.at(-1)}`;
}

function spanOf(token: Token): Span {
  return { start: token.start, end: token.end };
}

/** The first word, or the first character that is no blank, outside comments. */
function firstWordOf(text: string): Span | undefined {
  let start = 0;
  for (;;) {
    blanksOrComment.lastIndex = start;
    const skipped = blanksOrComment.exec(text)?.[0].length ?? 0;
    if (skipped === 0) break;
    start += skipped;
  }
  if (start >= text.length) return undefined;
  wordOrCharacter.lastIndex = start;
  return { start, end: start + (wordOrCharacter.exec(text)?.[0].length ?? 1) };
}
const blanksOrComment = /[\s\uFEFF]+|\/\/[^\r\n]*/y;
const wordOrCharacter = /[\p{L}_][\p{L}\p{N}_.-]*|[\s\S]/uy;

function isNumber(token: Token): boolean {
  return ['LENGTH', 'HALF_LENGTH', 'QUANTITY', 'LOOSE', 'NUMBER'].includes(token.kind);
}

function isText(token: Token): boolean {
  return ['STRING', 'OPEN_STRING'].includes(token.kind);
}

function isWordLike(token: Token): boolean {
  return /^[A-Za-z]/.test(token.image);
}

/** Token names in capitals are kinds of tokens; keywords are named by their own letters. */
function isKeywordName(name: string): boolean {
  return !Object.hasOwn(phraseOfToken, name) && name !== 'ID';
}

function isReserved(token: Token): boolean {
  return reservedWords.includes(token.image.toLowerCase());
}
