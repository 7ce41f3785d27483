import { hiddenTerminals, type TerminalName, terminals } from '../generated/rules.ts';
import { isWord, keywords } from './grammar.ts';

/** A word, a number or a text, with its place. */
export interface Token {
  /** A keyword as the grammar spells it, or a terminal: `ID`, `LENGTH`, `STRING`. */
  readonly kind: string;
  /** As the grammar spells it where it is a keyword, else as typed. */
  readonly image: string;
  /** As it stands in the text. */
  readonly typed: string;
  /** UTF-16 offsets; `end` is exclusive. */
  readonly start: number;
  readonly end: number;
}

export interface Lexed {
  readonly tokens: readonly Token[];
  /** Comments, line breaks that a `+` takes back, and `STRAY` characters: what is no part of the language. */
  readonly hidden: readonly Token[];
}

/**
 * Reads any text; `grammar/tokens.langium` says what is what. Blanks are left out.
 *
 * A word is read whole and then looked up among the keywords, so a keyword is known in any case and yields to a longer name.
 */
export function tokenize(text: string): Lexed {
  const tokens: Token[] = [];
  const hidden: Token[] = [];
  for (let offset = 0; offset < text.length; ) {
    const { name, end } = terminalAt(text, offset);
    if (name !== 'BLANK') {
      if (name === 'CARRY_ON') dropLineBreaks(tokens);
      (isHidden.has(name) ? hidden : tokens).push(tokenOf(name, text.slice(offset, end), offset));
    }
    offset = end;
  }
  return { tokens, hidden };
}
const isHidden: ReadonlySet<string> = new Set(hiddenTerminals);

function tokenOf(name: TerminalName | 'MARK', typed: string, start: number): Token {
  const keyword = name === 'ID' || name === 'MARK' ? keywordsInLowerCase().get(typed.toLowerCase()) : undefined;
  return {
    kind: keyword ?? name,
    // The tree holds a keyword as the grammar spells it; names and messages take their letters from the text.
    image: keyword !== undefined && isWord(keyword) ? keyword : typed,
    typed,
    start,
    end: start + typed.length,
  };
}

/** By spelling in lower case. */
function keywordsInLowerCase(): ReadonlyMap<string, string> {
  spellings ??= new Map([...keywords()].map((keyword) => [keyword.toLowerCase(), keyword]));
  return spellings;
}
let spellings: ReadonlyMap<string, string> | undefined;

/** A `+` takes back the ends of the line above it and of the blank and comment lines between. */
function dropLineBreaks(tokens: Token[]): void {
  while (tokens.at(-1)?.kind === 'NL') tokens.pop();
}

// ---------- one pattern for all terminals ----------

interface Numbered {
  readonly name: TerminalName | 'MARK';
  readonly pattern: string;
  /** Of its own brackets in `anyTerminal`. */
  readonly group: number;
}

/** The terminals in the order of the grammar, then the keywords that are no words. */
const numberedTerminals: readonly Numbered[] = numbered([
  ...(Object.entries(terminals) as [TerminalName, RegExp][]).map(([name, { source }]) => ({ name, pattern: source })),
  { name: 'MARK', pattern: '[(),]' },
]);
const anyTerminal = new RegExp(numberedTerminals.map(({ pattern }) => `(${pattern})`).join('|'), 'y');

function terminalAt(text: string, offset: number): { readonly name: Numbered['name']; readonly end: number } {
  anyTerminal.lastIndex = offset;
  const match = anyTerminal.exec(text);
  const terminal = match && numberedTerminals.find(({ group }) => match[group] !== undefined);
  return terminal ? { name: terminal.name, end: anyTerminal.lastIndex } : { name: 'STRAY', end: offset + 1 };
}

function numbered(patterns: readonly Omit<Numbered, 'group'>[]): readonly Numbered[] {
  let group = 1;
  return patterns.map((each) => {
    const own = { ...each, group };
    group += 1 + groupsIn(each.pattern);
    return own;
  });
}

function groupsIn(pattern: string): number {
  return (new RegExp(`${pattern}|`).exec('')?.length ?? 1) - 1;
}
