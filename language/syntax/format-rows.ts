import type * as ast from '../generated/ast.ts';
import { linesOf } from './cut.ts';
import { type Column, columnStep, columnsOf, lineUp } from './format-columns.ts';
import { contentLength, type LexedBlock } from './lex-block.ts';
import type { Token } from './lexer.ts';
import { leavesOf, type TreeNode } from './tree.ts';

/** A line of the text, as it is and as it should be. */
export interface FormattedRow {
  readonly start: number;
  /** Before the line break. */
  readonly end: number;
  readonly endWithBreak: number;
  readonly before: string;
  readonly lineBreak: string;
  readonly text: string;
  /** `false`: one blank line too many. */
  readonly kept: boolean;
  /** Tokens and comments that must be in `text`, as spelled there; `+` for one that carries a line on. */
  readonly words: readonly string[];
  /** Rows that are lined up with each other share it. */
  readonly run: number;
}

const indentOfLine = 2;
const indentOfLimit = 4;
const indentOfCarriedOn = 4;

/** The rows of a block without problems (`tree` is missing for comments above the first heading). */
export function formatRows(text: string, lexed: LexedBlock, tree: ast.Block | undefined): readonly FormattedRow[] {
  const rows = rowsOf(text, lexed, tree);
  const indents = indentsOf(rows, tree);
  const runs = runsOf(rows);
  const formatted: FormattedRow[] = [];
  runs.forEach((run, runNumber) => {
    const bodies = bodiesOf(run);
    const commentColumn = commentColumnOf(run, bodies, indents);
    run.forEach((row, index) => {
      const body = indents.get(row) + (bodies[index] ?? '');
      formatted.push({
        ...row.span,
        before: text.slice(row.span.start, row.span.end),
        lineBreak: text.slice(row.span.end, row.span.endWithBreak),
        text: row.blank ? '' : withComment(body, row, commentColumn),
        kept: !(row.blank && row.followsBlankLine),
        words: [...(row.carriesOn ? ['+'] : []), ...row.words, ...(row.comment ? [row.comment] : [])],
        run: runNumber,
      });
    });
  });
  return formatted;
}

// ---------- rows ----------

interface Row {
  readonly span: { readonly start: number; readonly end: number; readonly endWithBreak: number };
  readonly tokens: readonly Token[];
  /** The tokens as they should be spelled, without those that go. */
  readonly words: readonly string[];
  readonly comment: string | undefined;
  readonly commentAtLeftEdge: boolean;
  readonly carriesOn: boolean;
  readonly heading: boolean;
  readonly blank: boolean;
  readonly followsBlankLine: boolean;
  /** The one item that fills this row, and only this row. */
  readonly item: TreeNode | undefined;
  readonly columns: readonly Column[];
}

function rowsOf(text: string, lexed: LexedBlock, tree: ast.Block | undefined): readonly Row[] {
  const spelled = spellings(tree);
  const raw = rawRowsOf(text, lexed, tree);
  const heading = raw.findIndex(({ tokens }) => tokens.length > 0);
  return raw.map(({ start, end, tokens, items, comment, carriesOn }, index) => {
    const [item] = items;
    const fillsRow = index !== heading && items.length === 1 && !carriesOn && !raw[index + 1]?.carriesOn;
    const wordsBetween = (from: number, to: number) => joined(spelledWords(text, within(tokens, from, to), spelled));
    const before = raw[index - 1];
    return {
      span: { start, end: start + contentLength(text, start, end), endWithBreak: end },
      tokens,
      words: spelledWords(text, tokens, spelled),
      comment: comment?.image.trimEnd(),
      commentAtLeftEdge: comment?.start === start,
      carriesOn,
      heading: index === heading,
      blank: isBlank({ tokens, comment, carriesOn }),
      followsBlankLine: before !== undefined && isBlank(before),
      item: fillsRow ? item : undefined,
      columns: item && fillsRow ? columnsOf(item, wordsBetween) : [],
    };
  });
}

interface RawRow {
  readonly start: number;
  readonly end: number;
  readonly tokens: readonly Token[];
  readonly items: readonly TreeNode[];
  readonly comment: Token | undefined;
  readonly carriesOn: boolean;
}

function rawRowsOf(text: string, lexed: LexedBlock, tree: ast.Block | undefined): readonly RawRow[] {
  const hiddenOf = (name: string) => lexed.hidden.filter((token) => token.kind === name);
  const items: readonly TreeNode[] = tree && 'items' in tree ? tree.items : [];
  const isWord = (token: Token) => token.kind !== 'NL';
  const tokensUpTo = taker(lexed.tokens.filter(isWord), (token) => token.start);
  const commentsUpTo = taker(hiddenOf('COMMENT'), (token) => token.start);
  // The token begins with the line break before its row; the `+` is its last character.
  const plusesUpTo = taker(hiddenOf('CARRY_ON'), (token) => token.start + token.image.length - 1);
  const itemsUpTo = taker(items, (item) => item.$start);
  return Array.from(linesOf(text), ({ start, end }) => ({
    start,
    end,
    tokens: tokensUpTo(end),
    items: itemsUpTo(end),
    comment: commentsUpTo(end)[0],
    carriesOn: plusesUpTo(end).length > 0,
  }));
}

/** Gives, at each call, the next things of a sorted list that stand before an offset. */
function taker<T>(things: readonly T[], offsetOf: (thing: T) => number): (end: number) => readonly T[] {
  let taken = 0;
  return (end) => {
    const first = taken;
    for (let thing = things[taken]; thing !== undefined && offsetOf(thing) < end; thing = things[taken]) taken++;
    return taken === first ? [] : things.slice(first, taken);
  };
}

function isBlank({ tokens, comment, carriesOn }: Pick<RawRow, 'tokens' | 'comment' | 'carriesOn'>): boolean {
  return tokens.length === 0 && !comment && !carriesOn;
}

function within(tokens: readonly Token[], start: number, end: number): readonly Token[] {
  return tokens.filter((token) => token.start >= start && token.start < end);
}

/** By offset: how a keyword is spelled in the canonical format; `''` for one that goes. */
function spellings(tree: ast.Block | undefined): ReadonlyMap<number, string> {
  const spelled = new Map<number, string>();
  for (const { word, start } of tree ? leavesOf(tree) : []) {
    if (!word) continue;
    // A stretch needs its `from` only after a value, where the grammar asks for it.
    const needless = word.word === 'from' && word.times === '?';
    spelled.set(start, needless ? '' : word.word);
  }
  return spelled;
}

function spelledWords(text: string, tokens: readonly Token[], spelled: ReadonlyMap<number, string>): readonly string[] {
  return tokens
    .map((token) => spelled.get(token.start) ?? text.slice(token.start, token.start + token.image.length))
    .filter((word) => word !== '');
}

/** One blank between words, none inside parentheses or before a comma. */
function joined(words: readonly string[]): string {
  let text = '';
  for (const [index, word] of words.entries()) {
    const tight = index === 0 || word === ',' || word === ')' || words[index - 1] === '(';
    text += tight ? word : ` ${word}`;
  }
  return text;
}

// ---------- indentation ----------

function indentsOf(rows: readonly Row[], tree: ast.Block | undefined): { get(row: Row): string } {
  const indents = new Map<Row, number>();
  let line = 0;
  let underSource = false;
  for (const row of rows) {
    if (row.tokens.length === 0) continue;
    if (row.carriesOn) {
      indents.set(row, Math.max(indentOfCarriedOn, line + indentOfLine));
      continue;
    }
    if (row.item?.$type === 'LimitSource' || startsWith(row, 'source')) underSource = tree?.$type === 'RuleSet';
    line = row.heading ? 0 : underSource && startsWith(row, 'limit') ? indentOfLimit : indentOfLine;
    indents.set(row, line);
  }
  // A comment on its own line stands at the left edge, or with the line below it.
  let below = indentOfLine;
  for (const row of rows.toReversed()) {
    const indent = indents.get(row);
    if (row.tokens.length > 0) below = Math.max(indentOfLine, indent ?? 0);
    else indents.set(row, row.commentAtLeftEdge ? 0 : below);
  }
  return { get: (row) => ' '.repeat(indents.get(row) ?? 0) };
}

function startsWith(row: Row, word: string): boolean {
  return row.tokens[0]?.kind === word;
}

// ---------- runs ----------

/** Neighbouring rows of one kind. Every other row is a run of its own. */
function runsOf(rows: readonly Row[]): readonly (readonly Row[])[] {
  const runs: Row[][] = [];
  let kind: string | undefined;
  for (const row of rows) {
    const own = row.columns[0]?.signature;
    const last = runs.at(-1);
    if (last && own !== undefined && own === kind) last.push(row);
    else runs.push([row]);
    kind = own;
  }
  return runs;
}

/** The text of each row without indentation and comment. */
function bodiesOf(run: readonly Row[]): readonly string[] {
  if (run.length > 1) return lineUp(run.map((row) => row.columns));
  return run.map((row) => joined(row.carriesOn ? ['+', ...row.words] : row.words));
}

/** Where the comments of a run stand. */
function commentColumnOf(run: readonly Row[], bodies: readonly string[], indents: { get(row: Row): string }): number {
  let longest = 0;
  for (const [index, row] of run.entries()) {
    if (row.comment) longest = Math.max(longest, indents.get(row).length + (bodies[index]?.length ?? 0));
  }
  return Math.ceil((longest + 2) / columnStep) * columnStep;
}

function withComment(body: string, row: Row, column: number): string {
  if (!row.comment) return body;
  if (row.tokens.length === 0) return body + row.comment;
  return row.heading ? `${body}  ${row.comment}` : body.padEnd(column) + row.comment;
}
