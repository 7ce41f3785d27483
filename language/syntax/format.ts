import { type CutBlock, cutBlocks } from './cut.ts';
import { type FormattedRow, formatRows } from './format-rows.ts';
import { lexBlock } from './lex-block.ts';
import { parseBlock } from './parse.ts';
import type { SyntaxProblem } from './syntax-problem.ts';
import type { TextChange } from './text-change.ts';

export interface FormatOptions {
  /** UTF-16 offsets: only the lines that touch it, and those lined up with them, are changed. */
  readonly range?: { readonly start: number; readonly end: number };
}

export interface FormattedSheet {
  /** The whole sheet after the changes. */
  readonly text: string;
  /** In the order of the text, one for each line that changes; they never overlap. */
  readonly changes: readonly TextChange[];
  /** Blocks left as they are, since something in them cannot be read. */
  readonly skipped: readonly SkippedBlock[];
}

export interface SkippedBlock {
  readonly start: number;
  readonly end: number;
  /** The first thing that cannot be read; offsets count from the start of the block. */
  readonly problem: SyntaxProblem;
}

/**
 * A sheet in canonical format: one spelling for one meaning. Order, line breaks, comments and lengths as typed stay;
 * blanks, the case of keywords, and the `from` that a stretch does not need change. Formatting twice changes nothing more.
 */
export function formatSheet(text: string, options: FormatOptions = {}): FormattedSheet {
  const changes: TextChange[] = [];
  const skipped: SkippedBlock[] = [];
  const { range } = options;
  for (const cut of cutBlocks(text)) {
    const end = cut.start + cut.text.length;
    if (range && (end < range.start || cut.start > range.end)) continue;
    const formatted = formatBlock(cut);
    if ('problem' in formatted) skipped.push({ start: cut.start, end, problem: formatted.problem });
    else for (const change of changesOf(cut.start, formatted.rows, range)) changes.push(change);
  }
  return { text: applied(text, changes), changes, skipped };
}

type FormattedBlock = { readonly rows: readonly FormattedRow[] } | { readonly problem: SyntaxProblem };

function formatBlock(cut: CutBlock): FormattedBlock {
  const { tree, problems } = parseBlock(cut);
  const [problem] = problems;
  if (problem) return { problem };
  const rows = formatRows(cut.text, lexBlock(cut.text), tree);
  return keepsTokens(cut.text, rows) ? { rows } : { problem: wouldChangeMeaning };
}

const wouldChangeMeaning: SyntaxProblem = {
  code: 'syntax',
  message: 'this block is not formatted, since its words would be read in another way',
  start: 0,
  end: 0,
  replacements: [],
};

/** Whether the formatted rows hold the tokens and the comments that were meant to be in them. */
function keepsTokens(text: string, rows: readonly FormattedRow[]): boolean {
  const after = rows.map((row) => (row.kept ? row.text + row.lineBreak : '')).join('');
  if (after === text) return true;
  return sameWords(
    wordsOf(after),
    rows.flatMap((row) => row.words),
  );
}

/** Tokens and comments as spelled, in the order of the text; a line break between lines as one `\n`. */
function wordsOf(text: string): readonly string[] {
  const { tokens, hidden } = lexBlock(text);
  return [...tokens, ...hidden]
    .filter((token) => token.kind !== 'NL')
    .sort((a, b) => a.start - b.start)
    .map((token) => (token.kind === 'CARRY_ON' ? '+' : text.slice(token.start, token.start + token.image.length)));
}

function sameWords(some: readonly string[], others: readonly string[]): boolean {
  return some.length === others.length && some.every((word, index) => word.trimEnd() === others[index]?.trimEnd());
}

function changesOf(
  offset: number,
  rows: readonly FormattedRow[],
  range: FormatOptions['range'],
): readonly TextChange[] {
  const touched = range && new Set(rows.filter((row) => touches(offset, row, range)).map((row) => row.run));
  const changes: TextChange[] = [];
  for (const row of rows) {
    if (touched && !touched.has(row.run)) continue;
    const end = row.kept ? row.end : row.endWithBreak;
    const text = row.kept ? row.text : '';
    if (text !== row.before || !row.kept) changes.push({ start: offset + row.start, end: offset + end, text });
  }
  return changes;
}

function touches(offset: number, row: FormattedRow, range: { readonly start: number; readonly end: number }): boolean {
  return offset + row.start <= range.end && offset + row.endWithBreak > range.start;
}

function applied(text: string, changes: readonly TextChange[]): string {
  const parts: string[] = [];
  let done = 0;
  for (const { start, end, text: written } of changes) {
    parts.push(text.slice(done, start), written);
    done = end;
  }
  parts.push(text.slice(done));
  return parts.join('');
}
