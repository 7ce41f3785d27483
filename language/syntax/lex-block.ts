import { linesOf, longestLine } from './cut.ts';
import { type Lexed, type Token, tokenize } from './lexer.ts';

export interface LexedBlock extends Lexed {
  /** Lines too long to read, without their line breaks: no token is in them. */
  readonly held: readonly { readonly start: number; readonly end: number }[];
}

/** The tokens of a block, with offsets from its start. */
export function lexBlock(text: string): LexedBlock {
  const held = longLines(text);
  const { tokens, hidden } = tokenize(blankOut(text, held));
  return { tokens, hidden, held };
}

/** The tokens of each line that holds any; a line ends where nothing carries it on. */
export function splitLines(tokens: readonly Token[]): readonly (readonly Token[])[] {
  const lines: Token[][] = [];
  let line: Token[] = [];
  for (const token of tokens) {
    if (token.kind !== 'NL') line.push(token);
    else if (line.length > 0) {
      lines.push(line);
      line = [];
    }
  }
  if (line.length > 0) lines.push(line);
  return lines;
}

/** The length of a line without its line break. */
export function contentLength(text: string, start: number, end: number): number {
  let last = end;
  while (last > start && (text[last - 1] === '\n' || text[last - 1] === '\r')) last--;
  return last - start;
}

function longLines(text: string): LexedBlock['held'] {
  if (text.length <= longestLine) return [];
  return [...linesOf(text)]
    .filter(({ start, end }) => end - start > longestLine)
    .map(({ start, end }) => ({ start, end: start + contentLength(text, start, end) }));
}

/** The same text with blanks in place of the held lines, so that offsets stay. */
function blankOut(text: string, held: LexedBlock['held']): string {
  if (held.length === 0) return text;
  const parts: string[] = [];
  let done = 0;
  for (const { start, end } of held) {
    parts.push(text.slice(done, start), ' '.repeat(end - start));
    done = end;
  }
  parts.push(text.slice(done));
  return parts.join('');
}
