import { mandatory } from '../generated/rules.ts';
import {
  followersOfPart,
  isRepeated,
  mayBeName,
  mayComeNext,
  type NextTokens,
  ruleNamed,
  startsOfPart,
} from './grammar.ts';
import type { CallPart, GrammarPart, ListPart, PropertyPart, Rule, TokenPart, WordPart } from './grammar-parts.ts';
import type { Token } from './lexer.ts';
import type { TreeNode, TreePart } from './tree.ts';

/** The first mistake in what was read. */
export interface GrammarMistake {
  /** `undefined` where the tokens end too early. */
  readonly token: Token | undefined;
  /** What could stand there: keywords as spelled and kinds of tokens. Empty where the rule is at its end. */
  readonly expected: readonly string[];
  /** The rules that were being read, the outermost first. */
  readonly rules: readonly string[];
}

export interface ReadRule {
  /** `undefined` where not one token was read. What could not be read is missing from it. */
  readonly node: TreeNode | undefined;
  readonly mistake: GrammarMistake | undefined;
  /** Where the rule ended before the tokens did, without another mistake: the index of the first token behind it. */
  readonly leftOver: number | undefined;
}

/**
 * Reads tokens by a rule that gives a node. One token says which way to go on at each place; a test holds the grammar to it.
 *
 * A mistake hurts as little as may be. A word that is missing before one that may follow it is passed over; so is a word that does
 * not belong before the one that does. Else the rule is left as far as it was read, and reading goes on at the next token that may
 * follow it, or one of the rules around it.
 */
export function readRule(name: string, tokens: readonly Token[]): ReadRule {
  const rule = ruleNamed(name);
  const reading: Reading = { tokens, at: 0, mistake: undefined, frames: [{ rule, call: undefined }] };
  const node = emptyNode(rule.type ?? rule.name);
  const isWhole = readPart(reading, rule.body, { node }, undefined);
  const isLeft = isWhole && reading.at < tokens.length;
  if (isLeft) note(reading, []);
  const leftOver = isLeft && reading.mistake?.token === tokens[reading.at] ? reading.at : undefined;
  return { node: finished(node), mistake: reading.mistake, leftOver };
}

interface Reading {
  readonly tokens: readonly Token[];
  /** The index of the next token. */
  at: number;
  mistake: GrammarMistake | undefined;
  /** The rules that are being read, the outermost first, each with the part of the rule around it that calls it. */
  readonly frames: Frame[];
}
interface Frame {
  readonly rule: Rule;
  readonly call: CallPart | undefined;
}

/** Where what is read goes: into a node, or, in a rule that gives a value, into its text. */
type Target = { readonly node: Building } | { readonly text: ReadText };
/** A node in the making has the properties that its type declares once they are read. */
type Building = TreeNode & Record<string, unknown>;
interface ReadText {
  text: string;
  /** The place of its first token, and up to its last. */
  leaf: TreePart | undefined;
}

/** @returns `false` where a mistake could not be passed over: the rule around it is to be left. */
function readPart(reading: Reading, part: GrammarPart, target: Target, property: PropertyPart | undefined): boolean {
  const { times } = part;
  if (times === undefined) return readOnce(reading, part, target, property);
  if (times !== '+' && !startsHere(reading, part)) return true;
  do {
    if (!readOnce(reading, part, target, property)) return false;
  } while (isRepeated(part) && startsHere(reading, part));
  return true;
}

function startsHere({ tokens, at }: Reading, part: GrammarPart): boolean {
  const token = tokens[at];
  return token !== undefined && mayComeNext(startsOfPart(part), token.kind);
}

function readOnce(reading: Reading, part: GrammarPart, target: Target, property: PropertyPart | undefined): boolean {
  switch (part.kind) {
    case 'word':
    case 'token':
      return readToken(reading, part, target, property);
    case 'call':
      return readCall(reading, part, target, property);
    case 'property':
      return readPart(reading, part.part, target, part);
    case 'all':
      for (const each of part.parts) if (!readPart(reading, each, target, property)) return false;
      return true;
    case 'either':
      return readOneOf(reading, part, target, property);
    case 'type':
      if ('node' in target) target.node.$type = part.type;
      return true;
  }
}

function readOneOf(reading: Reading, part: ListPart, target: Target, property: PropertyPart | undefined): boolean {
  for (const each of part.parts) if (startsHere(reading, each)) return readPart(reading, each, target, property);
  const { names, mayBeEmpty } = startsOfPart(part);
  if (!mayBeEmpty) note(reading, [...names]);
  return mayBeEmpty;
}

function readToken(
  reading: Reading,
  part: WordPart | TokenPart,
  target: Target,
  property: PropertyPart | undefined,
): boolean {
  const token = reading.tokens[reading.at];
  if (token === undefined || !isOf(token, part)) {
    const way = wayPast(reading, part, token);
    if (way !== 'drop-a-word') return way === 'pass-over';
    reading.at += 1;
    return readToken(reading, part, target, property);
  }
  reading.at += 1;
  const word = part.kind === 'word' ? part : undefined;
  const leaf = { start: token.start, end: token.end, property, word, node: undefined };
  if ('text' in target) {
    target.text.text += textOf(token, part);
    target.text.leaf = target.text.leaf ? { ...target.text.leaf, end: token.end } : leaf;
  } else {
    target.node.$parts.push(leaf);
    if (property) assign(target.node, property, textOf(token, part));
  }
  return true;
}

/** How to go on where a token does not stand: as if it did, where what stands there may follow it, or with the next word. */
function wayPast(
  reading: Reading,
  part: WordPart | TokenPart,
  token: Token | undefined,
): 'pass-over' | 'drop-a-word' | 'leave-the-rule' {
  note(reading, [part.kind === 'word' ? part.word : part.token]);
  const rule = reading.frames.at(-1)?.rule;
  if (token && rule && mayComeNext(followersOfPart(rule, part), token.kind)) return 'pass-over';
  const next = reading.tokens[reading.at + 1];
  return next !== undefined && isOf(next, part) ? 'drop-a-word' : 'leave-the-rule';
}

function isOf({ kind }: Token, part: WordPart | TokenPart): boolean {
  if (part.kind === 'word') return kind === part.word;
  return kind === part.token || (part.token === 'ID' && mayBeName(kind));
}

function readCall(reading: Reading, call: CallPart, target: Target, property: PropertyPart | undefined): boolean {
  const rule = ruleNamed(call.rule);
  reading.frames.push({ rule, call });
  const read = readCalled(reading, rule, target, property) || resume(reading);
  reading.frames.pop();
  return read;
}

function readCalled(reading: Reading, rule: Rule, target: Target, property: PropertyPart | undefined): boolean {
  if (rule.kind === 'value') {
    const own: ReadText = 'text' in target ? target.text : { text: '', leaf: undefined };
    const read = readPart(reading, rule.body, { text: own }, undefined);
    if ('node' in target && own.leaf) {
      target.node.$parts.push({ ...own.leaf, property });
      if (property) assign(target.node, property, valueByRule(rule, own.text));
    }
    return read;
  }
  if ('text' in target) throw new Error(`${rule.name} gives a node where the grammar wants a value`);
  // A rule that is called for its own sake is what the node is; a fragment is a part of it.
  if (!property) {
    if (rule.type !== undefined) target.node.$type = rule.type;
    return readPart(reading, rule.body, target, undefined);
  }
  const own = emptyNode(rule.type ?? rule.name);
  const read = readPart(reading, rule.body, { node: own }, undefined);
  const node = finished(own);
  if (node) {
    target.node.$parts.push({ start: node.$start, end: node.$end, property, word: undefined, node });
    assign(target.node, property, node);
  }
  return read;
}

/** After a mistake: goes to the next token with which a rule around can go on. @returns whether that is the innermost one. */
function resume(reading: Reading): boolean {
  const follow = reading.frames.map(({ call }, index) => {
    const around = reading.frames[index - 1]?.rule;
    return call && around ? followersOfPart(around, call) : nothing;
  });
  for (let at = reading.at; at < reading.tokens.length; at += 1) {
    const kind = reading.tokens[at]?.kind ?? '';
    if (!follow.some((each) => mayComeNext(each, kind))) continue;
    const innermost = follow.at(-1);
    if (!innermost || !mayComeNext(innermost, kind)) return false;
    reading.at = at;
    return true;
  }
  return false;
}
const nothing: NextTokens = { names: new Set(), takesNames: false };

/** Keeps the first mistake: those behind it are mostly its consequences. */
function note(reading: Reading, expected: readonly string[]): void {
  reading.mistake ??= {
    token: reading.tokens[reading.at],
    expected,
    rules: reading.frames.map(({ rule }) => rule.name),
  };
}

// ---------- nodes and values ----------

function emptyNode(type: string): Building {
  return { $type: type, $start: 0, $end: 0, $parts: [] };
}

/** `undefined` where nothing stands in it. */
function finished(node: Building): TreeNode | undefined {
  const first = node.$parts[0];
  if (!first) return undefined;
  node.$start = first.start;
  node.$end = node.$parts.at(-1)?.end ?? first.end;
  const { lists, flags } = mandatory[node.$type] ?? noProperties;
  for (const list of lists) node[list] ??= [];
  for (const flag of flags) node[flag] ??= false;
  return node;
}
const noProperties = { lists: [], flags: [] };

function assign(node: Building, { property, as }: PropertyPart, value: unknown): void {
  if (as !== 'item') node[property] = as === 'flag' ? true : value;
  else {
    const list = node[property];
    if (Array.isArray(list)) list.push(value);
    else node[property] = [value];
  }
}

/** Lengths and quantities stay as typed: lowering reads them. */
function textOf(token: Token, part: WordPart | TokenPart): string {
  if (part.kind === 'word') return token.image;
  // A keyword used as a name is written as its author did.
  if (part.token === 'ID') return token.typed;
  return part.token === 'STRING' || part.token === 'OPEN_STRING' ? unquote(token.image) : token.image;
}

function valueByRule(rule: Rule, text: string): string | number {
  return rule.name === 'Count' || rule.name === 'Penny' ? readNumber(text) : text;
}

/** `\"` and `\\` stand for themselves; a string that lost its last quote keeps its text. */
function unquote(text: string): string {
  if (text.startsWith('“')) return text.slice(1, text.endsWith('”') ? -1 : undefined);
  const closed = /^"(?:\\.|[^"\\])*"$/.test(text);
  return text.slice(1, closed ? -1 : undefined).replace(/\\(.)/g, '$1');
}

/** `12`, `-3` (with either minus), `8d`. */
function readNumber(text: string): number {
  return Number.parseFloat(text.replace('−', '-'));
}
