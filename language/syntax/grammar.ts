import { rules } from '../generated/rules.ts';
import type { GrammarPart, Rule } from './grammar-parts.ts';
import { reservedWords } from './reserved-words.ts';

// What can be asked of the grammar. Everything is worked out when it is first asked for, and kept.

/** @throws where the grammar has no such rule: names of rules are ours, never typed. */
export function ruleNamed(name: string): Rule {
  const rule = rulesByName.get(name);
  if (!rule) throw new Error(`the grammar has no rule ${name}`);
  return rule;
}
const rulesByName = new Map(rules.map((rule) => [rule.name, rule]));

/** Kinds of tokens that may come next. */
export interface NextTokens {
  /** Keywords as spelled and kinds of tokens, in the order of the grammar. */
  readonly names: ReadonlySet<string>;
  /** Whether a name may, and with it every keyword that may stand where a name does. */
  readonly takesNames: boolean;
}

export function mayComeNext({ names, takesNames }: NextTokens, kind: string): boolean {
  return names.has(kind) || (takesNames && mayBeName(kind));
}

/** What a part may start with. */
export interface Starts extends NextTokens {
  /** Whether it may stand for nothing, so that what follows it may come first too. */
  readonly mayBeEmpty: boolean;
}

export function startsOfPart(part: GrammarPart): Starts {
  const known = startsByPart.get(part);
  if (known) return known;
  const inner = part.kind === 'property' ? part.part : part.kind === 'call' ? ruleNamed(part.rule).body : undefined;
  const starts = inner && !isOptional(part) ? startsOfPart(inner) : ownStartsOf(part);
  startsByPart.set(part, starts);
  return starts;
}
const startsByPart = new Map<GrammarPart, Starts>();

function ownStartsOf(part: GrammarPart): Starts {
  const names = new Set<string>();
  const mayBeEmpty = collectStarts(part, names);
  return { names, takesNames: names.has('ID'), mayBeEmpty };
}

/** The names of the tokens that a rule may start with: keywords as spelled, `NOMINAL` and the like. */
export function startsOf(ruleName: string): ReadonlySet<string> {
  return startsOfPart(ruleNamed(ruleName).body).names;
}

/** @returns whether the part may be empty. */
export function collectStarts(part: GrammarPart, names: Set<string>): boolean {
  return collectOwnStarts(part, names) || isOptional(part);
}

function collectOwnStarts(part: GrammarPart, names: Set<string>): boolean {
  switch (part.kind) {
    case 'word':
      names.add(part.word);
      return false;
    case 'token':
      names.add(part.token);
      return false;
    case 'call':
      return collectStarts(ruleNamed(part.rule).body, names);
    case 'property':
      return collectStarts(part.part, names);
    case 'either':
      return part.parts.map((each) => collectStarts(each, names)).some(Boolean);
    case 'all':
      return part.parts.every((each) => collectStarts(each, names));
    case 'type':
      return true;
  }
}

export function isOptional({ times }: GrammarPart): boolean {
  return times === '?' || times === '*';
}

export function isRepeated({ times }: GrammarPart): boolean {
  return times === '*' || times === '+';
}

/** What may come right behind a part in its own rule; nothing where only the end of the rule may. */
export function followersOfPart(rule: Rule, part: GrammarPart): NextTokens {
  const known = followersByPart.get(part);
  if (known) return known;
  const names = new Set<string>();
  const path = pathTo(part, rule.body) ?? [];
  if (isRepeated(part)) collectStarts(part, names);
  let below = part;
  for (const parent of path) {
    if (parent.kind === 'all' && !collectBehind(parent.parts, below, names)) break;
    if (isRepeated(parent)) collectStarts(parent, names);
    below = parent;
  }
  const followers = { names, takesNames: names.has('ID') };
  followersByPart.set(part, followers);
  return followers;
}
const followersByPart = new Map<GrammarPart, NextTokens>();

/** @returns whether all that stands behind it may be empty. */
function collectBehind(parts: readonly GrammarPart[], part: GrammarPart, names: Set<string>): boolean {
  return parts.slice(parts.indexOf(part) + 1).every((each) => collectStarts(each, names));
}

/** The parts around a part, the nearest first. */
function pathTo(part: GrammarPart, within: GrammarPart): readonly GrammarPart[] | undefined {
  if (within === part) return [];
  for (const inner of innerParts(within)) {
    const path = pathTo(part, inner);
    if (path) return [...path, within];
  }
  return undefined;
}

/** A part and, before their followers, the parts in it; rules that it calls are not entered. */
export function* partsOf(part: GrammarPart): Generator<GrammarPart> {
  yield part;
  for (const inner of innerParts(part)) yield* partsOf(inner);
}

export function innerParts(part: GrammarPart): readonly GrammarPart[] {
  if (part.kind === 'property') return [part.part];
  return part.kind === 'all' || part.kind === 'either' ? part.parts : [];
}

// ---------- words ----------

/** Every keyword, as the grammar spells it. */
export function keywords(): ReadonlySet<string> {
  allKeywords ??= new Set(
    rules.flatMap(({ body }) => [...partsOf(body)].flatMap((part) => (part.kind === 'word' ? [part.word] : []))),
  );
  return allKeywords;
}
let allKeywords: ReadonlySet<string> | undefined;

/** Whether a keyword is spelled like a name; `(`, `)` and `,` are not. */
export function isWord(keyword: string): boolean {
  return /^[A-Za-z]/.test(keyword);
}

/** Whether a token of this kind may stand where a name does: every keyword that is not reserved may. */
export function mayBeName(kind: string): boolean {
  return kind === 'ID' || keywordsForNames().has(kind);
}

function keywordsForNames(): ReadonlySet<string> {
  if (!freeKeywords) {
    const reserved = new Set(reservedWords);
    freeKeywords = new Set([...keywords()].filter((each) => isWord(each) && !reserved.has(each.toLowerCase())));
  }
  return freeKeywords;
}
let freeKeywords: ReadonlySet<string> | undefined;

/** Every keyword that may stand somewhere in a rule. */
export function wordsOf(ruleName: string): ReadonlySet<string> {
  const known = wordsByRule.get(ruleName);
  if (known) return known;
  const words = new Set<string>();
  collectWords(ruleName, words, new Set());
  wordsByRule.set(ruleName, words);
  return words;
}
const wordsByRule = new Map<string, ReadonlySet<string>>();

function collectWords(ruleName: string, words: Set<string>, visited: Set<string>): void {
  if (visited.has(ruleName)) return;
  visited.add(ruleName);
  for (const part of partsOf(ruleNamed(ruleName).body)) {
    if (part.kind === 'word') words.add(part.word);
    else if (part.kind === 'call') collectWords(part.rule, words, visited);
  }
}
