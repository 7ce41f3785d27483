import type * as ast from '../generated/ast.ts';
import type { CutBlock } from './cut.ts';
import {
  explainBelongsElsewhere,
  explainLongLine,
  explainMistake,
  explainMoreProblems,
  explainOpenString,
  explainOutsideBlocks,
  explainStray,
  explainTwoLines,
  explainUnknownStart,
  explainUnreadBlock,
  type Line,
} from './explain.ts';
import { startsOf } from './grammar.ts';
import { all, into } from './grammar-parts.ts';
import { lexBlock, splitLines } from './lex-block.ts';
import type { Token } from './lexer.ts';
import { readRule } from './read-rule.ts';
import type { SyntaxProblem } from './syntax-problem.ts';
import type { TreeNode } from './tree.ts';
import { type BlockWord, blocks } from './words.ts';

export interface ParsedBlock {
  readonly text: string;
  /** Offsets in it count from the start of the block. A half-typed line lacks what was not typed. */
  readonly tree: ast.Block | undefined;
  /** In the order of the text. */
  readonly problems: readonly SyntaxProblem[];
}

/** Per block; the rest is counted. */
const mostProblems = 50;
/** Per line; after so many words that do not belong, the rest of the line is held back. */
const mostDroppedWords = 8;
const mostItemsOnALine = 64;

/**
 * Reads one block. Total: any text gives a result, in time about linear in its length.
 *
 * Each line is read by itself, so a half-typed line cannot hurt its neighbours. A line gives at most one problem of
 * grammar: what follows the first mistake on it is mostly its consequence.
 */
export function parseBlock(cut: CutBlock): ParsedBlock {
  if (cut.kind === 'block' && cut.word !== undefined) return readBlock(cut.text, cut.word);
  const problem = cut.kind === 'unread' ? explainUnreadBlock(cut.text) : explainOutsideBlocks(cut.text);
  return { text: cut.text, tree: undefined, problems: problem ? [problem] : [] };
}

interface BlockReading {
  readonly text: string;
  readonly word: BlockWord;
  readonly problems: ProblemList;
}

function readBlock(text: string, word: BlockWord): ParsedBlock {
  const reading = {
    text,
    word,
    problems: problemList(text),
  };
  const lexed = lexBlock(text);
  for (const line of lexed.held) reading.problems.add(() => explainLongLine(line));
  for (const token of lexed.hidden) {
    if (token.kind === 'STRAY') reading.problems.add(() => explainStray(text, token));
  }

  const [heading, ...lines] = splitLines(lexed.tokens);
  const headingHeld = lexed.held.some(({ start }) => start < (heading?.[0]?.start ?? text.length));
  const tree = heading && !headingHeld ? readHeading(reading, heading) : undefined;
  if (tree) for (const line of lines) readLine(reading, tree, line);
  return { text, tree, problems: reading.problems.inOrder() };
}

function readHeading(reading: BlockReading, tokens: readonly Token[]): ast.Block | undefined {
  const { node, mistake } = readRule(blocks[reading.word].rule, tokens);
  reportLine(reading, tokens, mistake && (() => explainMistake({ tokens, word: reading.word }, mistake)));
  return node as ast.Block | undefined;
}

/** A line is one item, or several facts side by side. */
function readLine(reading: BlockReading, tree: ast.Block, tokens: readonly Token[]): void {
  const { text, word } = reading;
  const { lineRule } = blocks[word];
  const [first] = tokens;
  if (!first) return;
  if (!('items' in tree) || !lineRule) {
    reportLine(reading, tokens, () => explainBelongsElsewhere(first, word));
    return;
  }
  if (!startsOf(lineRule).has(first.kind)) {
    reportLine(reading, tokens, () => explainUnknownStart(word, first));
    return;
  }
  let mistake: Explain | undefined;
  let previous: TreeNode | undefined;
  let rest = tokens;
  for (let items = 0; ; items++) {
    const [start] = rest;
    if (!start) break;
    if (items === mostItemsOnALine) {
      mistake ??= () => explainTwoLines(text, start);
      break;
    }
    const item = readItem(lineRule, { tokens, word }, rest);
    const crowded = previous && item.node && !(facts.has(previous.$type) && facts.has(item.node.$type));
    if (crowded) {
      mistake ??= item.broken ? () => explainBelongsElsewhere(start, first.image) : () => explainTwoLines(text, start);
    }
    mistake ??= item.mistake;
    if (item.node && !(crowded && item.broken)) append(tree, item.node);
    previous = item.node;
    rest = item.rest;
  }
  reportLine(reading, tokens, mistake);
}

interface ReadItem {
  /** `undefined` where not one token was read. */
  readonly node: TreeNode | undefined;
  readonly mistake: Explain | undefined;
  /** It lacks something, and what follows it on the line is lost. */
  readonly broken: boolean;
  /** The tokens of the next item on the line. */
  readonly rest: readonly Token[];
}

/** Reads one item; words behind it that belong neither to it nor to a next one are dropped. */
function readItem(lineRule: string, line: Line, tokens: readonly Token[]): ReadItem {
  let kept = tokens;
  let mistake: Explain | undefined;
  for (let dropped = 0; ; dropped++) {
    const { node, mistake: first, leftOver } = readRule(lineRule, kept);
    if (!first) return { node, mistake, broken: false, rest: [] };
    if (leftOver !== undefined && first.token && startsOf(lineRule).has(first.token.kind)) {
      return { node, mistake, broken: false, rest: kept.slice(leftOver) };
    }
    mistake ??= () => explainMistake(line, first);
    if (leftOver === undefined) return { node, mistake, broken: true, rest: [] };
    if (dropped === mostDroppedWords) return { node, mistake, broken: false, rest: [] };
    kept = kept.toSpliced(leftOver, 1);
  }
}

/** Items that may stand side by side; any other fills its line. */
const facts: ReadonlySet<string> = new Set([
  ...['WallLength', 'WallTurn', 'WallFaces', 'WallCorners', 'WallRole', 'WallStoreys'],
  ...['GirderSize', 'GirderEnds', 'GirderUnderside', 'GirderSpans', 'LineWalls', 'LineStoreys', 'LineExempt'],
  ...['SpaceKind', 'SpaceArea', 'ClearHeight', 'Access', 'Fingerprint', 'DemoLine', 'UnitsFact', 'FaceFact'],
  ...['HouseFact', 'SeismicFact', 'SeismicWord', 'WeightFact', 'NoteLine', 'PhotoLine', 'AskLine', 'TagLine'],
]);

/** Hangs an item that was read by itself into the tree of its block. */
function append(block: Exclude<ast.Block, ast.Use>, item: TreeNode): void {
  const items: TreeNode[] = block.items;
  items.push(item);
  block.$parts.push({ start: item.$start, end: item.$end, property: itemsOfBlock, word: undefined, node: item });
  block.$end = item.$end;
}
const itemsOfBlock = into('items', all([]));

// ---------- problems ----------

/** Reports the first thing on a line that cannot be read: what follows it is mostly its consequence. */
function reportLine(reading: BlockReading, tokens: readonly Token[], explainFirstMistake: Explain | undefined): void {
  const open = tokens.findIndex((token) => token.kind === 'OPEN_STRING');
  const token = tokens[open];
  if (token) {
    reading.problems.add(() => {
      const openText = explainOpenString(reading.text, token, tokens[open - 1]);
      const mistake = explainFirstMistake?.();
      const from = Math.min(openText.start, ...openText.replacements.map((replacement) => replacement.start));
      return mistake && mistake.end < from ? mistake : openText;
    });
  } else if (explainFirstMistake) reading.problems.add(explainFirstMistake);
}

/** Problems are put in words only where they are shown. */
type Explain = () => SyntaxProblem;

interface ProblemList {
  add(explain: Explain): void;
  inOrder(): readonly SyntaxProblem[];
}

/** Keeps the first problems that come, counts the rest. */
function problemList(text: string): ProblemList {
  const kept: SyntaxProblem[] = [];
  let more = 0;
  return {
    add(explain) {
      if (kept.length < mostProblems) kept.push(explain());
      else more++;
    },
    inOrder() {
      const told: SyntaxProblem[] = [];
      for (const problem of kept.sort((a, b) => a.start - b.start)) {
        if (!isConsequence(told.at(-1), problem)) told.push(problem);
      }
      const end = { start: text.length, end: text.length };
      return more === 0 ? told : [...told, explainMoreProblems(more, end)];
    },
  };

  /** `10.6.2026` for a date: the second dot is part of the mistake before it. */
  function isConsequence(before: SyntaxProblem | undefined, problem: SyntaxProblem): boolean {
    return (
      before?.code === 'syntax' &&
      problem.code === 'stray-character' &&
      !/[\r\n]/.test(text.slice(before.end, problem.start))
    );
  }
}
