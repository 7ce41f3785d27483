/** `1 error`, `2 errors`. */
export function countOf(count: number, noun: string): string {
  return `${count} ${noun}${count === 1 ? '' : 's'}`;
}

/** What a line break keeps whole: `3'-4 1/2"` is one word. */
export const wordsOf = (text: string): readonly string[] => text.split(/ (?!\d+\/\d+")/);

/** Breaks at spaces into lines of at most `width` columns, not inside `3'-4 1/2"`; a word that is wider is cut. */
export function wrapWords(text: string, width: number): readonly string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of wordsOf(text).flatMap((whole) => cutToWidth(whole, width))) {
    if (line === '') line = word;
    else if (columnsOf(line) + 1 + columnsOf(word) <= width) line += ` ${word}`;
    else {
      lines.push(line);
      line = word;
    }
  }
  return [...lines, line];
}

/** As `wrapWords`, but breaks after `;` where it can, and leaves no clause alone on the last line that could have company. */
export function wrapClauses(text: string, width: number): readonly string[] {
  if (columnsOf(text) <= width) return [text];
  const lines: string[][] = [];
  for (const clause of text.split(/(?<=;) /)) {
    const line = lines[lines.length - 1];
    if (line && columnsOf([...line, clause].join(' ')) <= width) line.push(clause);
    else lines.push([clause]);
  }
  const [before, last] = lines.slice(-2);
  if (before && last?.length === 1 && before.length > 1) {
    const moved = before[before.length - 1] ?? '';
    if (columnsOf([moved, ...last].join(' ')) <= width) {
      before.pop();
      last.unshift(moved);
    }
  }
  return lines.flatMap((line) => wrapWords(line.join(' '), width));
}

function cutToWidth(word: string, width: number): readonly string[] {
  if (columnsOf(word) <= width) return [word];
  const parts: string[] = [];
  let part = '';
  let columns = 0;
  for (const character of word) {
    const more = columnsOf(character);
    if (columns + more > width && part !== '') {
      parts.push(part);
      part = '';
      columns = 0;
    }
    part += character;
    columns += more;
  }
  return [...parts, part];
}

// East Asian wide and full-width blocks of Unicode Standard Annex 11; enough for names that the language allows.
const wide =
  /[\u1100-\u115F\u2E80-\u303E\u3041-\uA4CF\uAC00-\uD7A3\uF900-\uFAFF\uFE30-\uFE6F\uFF00-\uFF60\uFFE0-\uFFE6\u{1F300}-\u{1FAFF}\u{20000}-\u{3FFFD}]/u;
const zeroWidth = /[\p{Mn}\p{Me}\u200B-\u200D\uFEFF]/u;

/** Columns that a text takes on a terminal. */
export function columnsOf(text: string): number {
  // Plain ASCII is the usual case and needs no table.
  if (/^[\x20-\x7E]*$/.test(text)) return text.length;
  let columns = 0;
  for (const character of text) columns += zeroWidth.test(character) ? 0 : wide.test(character) ? 2 : 1;
  return columns;
}

/** Pads on the right (or left) to a width in columns; never cuts. */
export function padColumns(text: string, width: number, side: 'left' | 'right' = 'right'): string {
  const fill = ' '.repeat(Math.max(0, width - columnsOf(text)));
  return side === 'left' ? fill + text : text + fill;
}

// Control, direction-changing and half characters: a name could otherwise recolour, reorder or forge terminal output.
const unprintable = /[\p{Cc}\p{Cs}\u061C\u200E\u200F\u2028-\u202E\u2066-\u2069]/gu;

/** A text as it may be shown: line breaks become spaces, other unprintable characters are spelt out as `\u{1b}`. */
export function printable(text: string): string {
  return text
    .replace(/\r\n|\n|\r|\t/g, ' ')
    .replace(unprintable, (character) => `\\u{${(character.codePointAt(0) ?? 0).toString(16)}}`);
}
