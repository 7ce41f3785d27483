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
import { type CutBlock, linesOf, longestLine } from './cut.ts';
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
} from './explain.ts';
import { startsOf } from './grammar-words.ts';
import { SheetLexer } from './lexer.ts';
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

/** The tokens of a block as the parser sees them, comments apart. Long lines are blanked out. */
export function lexBlock(text: string): LexedBlock {
  const held = longLines(text);
  const { tokens, hidden } = sheetLexer().tokenize(blankOut(text, held));
  return { tokens, hidden, held };
}
export interface LexedBlock {
  readonly tokens: readonly IToken[];
  /** `COMMENT`, `CARRY_ON` (a line break with the `+` behind it), and `STRAY` characters. */
  readonly hidden: readonly IToken[];
  /** Lines too long to read. */
  readonly held: readonly Stretch[];
}
interface Stretch {
  readonly start: number;
  readonly end: number;
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
    parser: sheetServices().parser.LangiumParser,
    lexer: sheetLexer(),
    problems: problemList(text),
  };
  const lexed = lexBlock(text);
  for (const line of lexed.held) reading.problems.add(() => explainLongLine(line));
  for (const token of lexed.hidden) {
    if (token.tokenType.name === 'STRAY') reading.problems.add(() => explainStray(text, token));
  }

  const [heading, ...lines] = splitLines(lexed.tokens);
  const tree = heading && readHeading(reading, heading);
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
  const { lineRule } = blocks[reading.word];
  const [first] = tokens;
  if (first && !('items' in tree && lineRule)) {
    reportLine(reading, tokens, () => explainBelongsElsewhere(first, reading.word));
    return;
  }
  if (!('items' in tree) || !lineRule || !first) return;
  if (!startsOf(lineRule).has(first.tokenType.name)) {
    reportLine(reading, tokens, () => explainUnknownStart(reading.word, first));
    return;
  }

  let mistake: (() => SyntaxProblem) | undefined;
  let previous: AstNode | undefined;
  let rest = tokens;
  let items = 0;
  let dropped = 0;
  for (;;) {
    const [start] = rest;
    if (start && items === mostItemsOnALine) {
      mistake ??= () => explainTwoLines(start);
      break;
    }
    const { node, error, leftOver } = parseTokens(reading, lineRule, rest);
    const crowded = previous && node && start && !(facts.has(previous.$type) && facts.has(node.$type));
    if (error && !leftOver) {
      mistake ??= crowded
        ? () => explainBelongsElsewhere(start, tokens[0]?.image ?? reading.word)
        : () => explainMistake({ tokens, word: reading.word }, error);
      if (node && !crowded) append(tree, node);
      break;
    }
    if (error && leftOver && !startsOf(lineRule).has(leftOver.token.tokenType.name)) {
      mistake ??= () => explainMistake({ tokens, word: reading.word }, error);
      if (++dropped <= mostDroppedWords) {
        rest = rest.toSpliced(leftOver.index, 1);
        continue;
      }
    }
    if (crowded) mistake ??= () => explainTwoLines(start);
    if (node) append(tree, node);
    if (!leftOver || dropped > mostDroppedWords) break;
    items++;
    previous = node;
    rest = rest.slice(leftOver.index);
  }
  reportLine(reading, tokens, mistake);
}

/** Items that may stand side by side; any other fills its line. */
const facts: ReadonlySet<string> = new Set([
  ...['WallLength', 'WallTurn', 'WallFaces', 'WallCorners', 'WallRole', 'WallStoreys'],
  ...['GirderSize', 'GirderEnds', 'GirderUnderside', 'GirderSpans', 'LineWalls', 'LineStoreys', 'LineExempt'],
  ...['SpaceKind', 'SpaceArea', 'ClearHeight', 'Access', 'Fingerprint', 'DemoLine', 'UnitsFact', 'FaceFact'],
  ...['HouseFact', 'SeismicFact', 'SeismicWord', 'WeightFact', 'NoteLine', 'PhotoLine', 'TagLine'],
]);

interface ReadTokens {
  /** `undefined` where not one token was read. */
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
function reportLine(
  reading: BlockReading,
  tokens: readonly IToken[],
  explainFirstMistake: (() => SyntaxProblem) | undefined,
): void {
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

interface ProblemList {
  add(problem: () => SyntaxProblem): void;
  inOrder(): readonly SyntaxProblem[];
}

/** Keeps the first problems that come, counts the rest. */
function problemList(text: string): ProblemList {
  const kept: SyntaxProblem[] = [];
  let more = 0;
  return {
    add(problem) {
      if (kept.length < mostProblems) kept.push(problem());
      else more++;
    },
    inOrder() {
      const told = kept
        .sort((a, b) => a.start - b.start)
        .filter((problem, index) => !follows(kept[index - 1], problem));
      const end = { start: text.length, end: text.length };
      return more === 0 ? told : [...told, explainMoreProblems(more, end)];
    },
  };

  /** `10.6.2026` for a date: the second dot is part of the mistake before it. */
  function follows(before: SyntaxProblem | undefined, problem: SyntaxProblem): boolean {
    return (
      before?.code === 'syntax' &&
      problem.code === 'stray-character' &&
      !/[\r\n]/.test(text.slice(before.end, problem.start))
    );
  }
}

// ---------- text to lines of tokens ----------

function sheetLexer(): SheetLexer {
  const lexer = sheetServices().parser.Lexer;
  if (!(lexer instanceof SheetLexer)) throw new Error('the services lack their lexer');
  return lexer;
}

/** Lines that hold at least one token. */
function splitLines(tokens: readonly IToken[]): readonly (readonly IToken[])[] {
  const lines: IToken[][] = [];
  let line: IToken[] = [];
  for (const token of tokens) {
    if (token.tokenType.name !== 'NL') line.push(token);
    else if (line.length > 0) {
      lines.push(line);
      line = [];
    }
  }
  if (line.length > 0) lines.push(line);
  return lines;
}

function longLines(text: string): readonly Stretch[] {
  return text.length <= longestLine ? [] : [...linesOf(text)].filter(({ start, end }) => end - start > longestLine);
}

/** The same text with blanks in place of the held lines, so that offsets stay. Their line breaks stay too. */
function blankOut(text: string, held: readonly Stretch[]): string {
  if (held.length === 0) return text;
  const parts: string[] = [];
  let done = 0;
  for (const { start, end } of held) {
    const content = text.slice(start, end).replace(/[\r\n]+$/, '').length;
    parts.push(text.slice(done, start), ' '.repeat(content));
    done = start + content;
  }
  parts.push(text.slice(done));
  return parts.join('');
}
