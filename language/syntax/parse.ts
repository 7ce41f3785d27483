import type { IRecognitionException, IToken } from 'chevrotain';
import {
  type AstNode,
  type CompositeCstNode,
  type CstNode,
  CstNodeBuilder,
  type LangiumParser,
  type Mutable,
} from 'langium';
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
import { startsOf } from './grammar-words.ts';
import { lexBlock, sheetLexer, splitLines } from './lex-block.ts';
import type { SheetLexer } from './lexer.ts';
import { sheetServices } from './services.ts';
import type { SyntaxProblem } from './syntax-problem.ts';
import { type BlockWord, blocks } from './words.ts';

export interface ParsedBlock {
  /** Offsets in its `$cstNode`s count from the start of the block. A half-typed line lacks what was not typed. */
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
  return { tree: undefined, problems: problem ? [problem] : [] };
}

interface BlockReading {
  readonly text: string;
  readonly word: BlockWord;
  readonly parser: LangiumParser;
  readonly lexer: SheetLexer;
  readonly problems: ProblemList;
}

function readBlock(text: string, word: BlockWord): ParsedBlock {
  const reading = {
    text,
    word,
    parser: sheetServices().parser,
    lexer: sheetLexer(),
    problems: problemList(text),
  };
  const lexed = lexBlock(text);
  for (const line of lexed.held) reading.problems.add(() => explainLongLine(line));
  for (const token of lexed.hidden) {
    if (token.tokenType.name === 'STRAY') reading.problems.add(() => explainStray(text, token));
  }

  const [heading, ...lines] = splitLines(lexed.tokens);
  const headingHeld = lexed.held.some(({ start }) => start < (heading?.[0]?.startOffset ?? text.length));
  const tree = heading && !headingHeld ? readHeading(reading, heading) : undefined;
  if (tree) for (const line of lines) readLine(reading, tree, line);
  return { tree, problems: reading.problems.inOrder() };
}

function readHeading(reading: BlockReading, tokens: readonly IToken[]): ast.Block | undefined {
  const { node, error } = parseTokens(reading, blocks[reading.word].rule, tokens);
  reportLine(reading, tokens, error && (() => explainMistake({ tokens, word: reading.word }, error)));
  return node as ast.Block | undefined;
}

/** A line is one item, or several facts side by side. */
function readLine(reading: BlockReading, tree: ast.Block, tokens: readonly IToken[]): void {
  const { text, word } = reading;
  const { lineRule } = blocks[word];
  const [first] = tokens;
  if (!first) return;
  if (!('items' in tree) || !lineRule) {
    reportLine(reading, tokens, () => explainBelongsElsewhere(first, word));
    return;
  }
  if (!startsOf(lineRule).has(first.tokenType.name)) {
    reportLine(reading, tokens, () => explainUnknownStart(word, first));
    return;
  }
  let mistake: Explain | undefined;
  let previous: AstNode | undefined;
  let rest = tokens;
  for (let items = 0; ; items++) {
    const [start] = rest;
    if (!start) break;
    if (items === mostItemsOnALine) {
      mistake ??= () => explainTwoLines(text, start);
      break;
    }
    const item = readItem(reading, lineRule, { tokens, word }, rest);
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
  readonly node: AstNode | undefined;
  readonly mistake: Explain | undefined;
  /** It lacks something, and what follows it on the line is lost. */
  readonly broken: boolean;
  /** The tokens of the next item on the line. */
  readonly rest: readonly IToken[];
}

/** Reads one item; words behind it that belong neither to it nor to a next one are dropped. */
function readItem(reading: BlockReading, lineRule: string, line: Line, tokens: readonly IToken[]): ReadItem {
  let kept = tokens;
  let mistake: Explain | undefined;
  for (let dropped = 0; ; dropped++) {
    const { node, error, leftOver } = parseTokens(reading, lineRule, kept);
    if (!error) return { node, mistake, broken: false, rest: [] };
    if (leftOver && startsOf(lineRule).has(leftOver.token.tokenType.name)) {
      return { node, mistake, broken: false, rest: kept.slice(leftOver.index) };
    }
    mistake ??= () => explainMistake(line, error);
    if (!leftOver) return { node, mistake, broken: true, rest: [] };
    if (dropped === mostDroppedWords) return { node, mistake, broken: false, rest: [] };
    kept = kept.toSpliced(leftOver.index, 1);
  }
}

/** Items that may stand side by side; any other fills its line. */
const facts: ReadonlySet<string> = new Set([
  ...['WallLength', 'WallTurn', 'WallFaces', 'WallCorners', 'WallRole', 'WallStoreys'],
  ...['GirderSize', 'GirderEnds', 'GirderUnderside', 'GirderSpans', 'LineWalls', 'LineStoreys', 'LineExempt'],
  ...['SpaceKind', 'SpaceArea', 'ClearHeight', 'Access', 'Fingerprint', 'DemoLine', 'UnitsFact', 'FaceFact'],
  ...['HouseFact', 'SeismicFact', 'SeismicWord', 'WeightFact', 'NoteLine', 'PhotoLine', 'AskLine', 'TagLine'],
]);

interface ReadTokens {
  readonly node: AstNode | undefined;
  readonly error: IRecognitionException | undefined;
  /** Where the rule ended before the tokens did, and that is the first error. */
  readonly leftOver: { readonly token: IToken; readonly index: number } | undefined;
}

function parseTokens({ text, parser, lexer }: BlockReading, rule: string, tokens: readonly IToken[]): ReadTokens {
  lexer.prepare(tokens);
  const { value, parserErrors } = parser.parse(text, { rule });
  const [error] = parserErrors;
  const index = error?.name === 'NotAllInputParsedException' ? tokens.indexOf(error.token) : -1;
  return {
    node: isComposite(value.$cstNode) && value.$cstNode.content.length > 0 ? value : undefined,
    error,
    leftOver: error && index > 0 ? { token: error.token, index } : undefined,
  };
}

/** Hangs an item that was read by itself into the tree of its block. */
function append(block: Exclude<ast.Block, ast.Use>, item: Mutable<AstNode>): void {
  const items: AstNode[] = block.items;
  item.$container = block;
  item.$containerProperty = 'items';
  item.$containerIndex = items.length;
  items.push(item);
  if (isComposite(block.$cstNode) && item.$cstNode) treeBuilder.appendChild(block.$cstNode, item.$cstNode);
}

const treeBuilder = new CstNodeBuilder();

function isComposite(node: CstNode | undefined): node is CompositeCstNode {
  return node !== undefined && 'content' in node;
}

// ---------- problems ----------

/** Reports the first thing on a line that cannot be read: what follows it is mostly its consequence. */
function reportLine(reading: BlockReading, tokens: readonly IToken[], explainFirstMistake: Explain | undefined): void {
  const open = tokens.findIndex((token) => token.tokenType.name === 'OPEN_STRING');
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
