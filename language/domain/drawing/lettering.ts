import { type FontWidths, narrowWidths, regularWidths } from './font-widths.ts';
import type { Box, TextFace, TextShape, XY } from './scene.ts';
import { type ColourToken, capHeights, type TextSize } from './tokens.ts';

/** How a text looks, without its place. */
export interface Lettering {
  readonly size: TextSize;
  readonly face?: TextFace;
  readonly colour?: ColourToken;
  readonly heavy?: boolean;
  readonly halo?: boolean;
  readonly struck?: boolean;
  readonly anchor?: TextShape['anchor'];
  readonly turned?: number;
}

/** A line of text with its width. What a person typed goes through `plainText` first. */
export function lettered(text: string, at: XY, lettering: Lettering): TextShape {
  const face = lettering.face ?? 'narrow';
  return {
    kind: 'text',
    text,
    at,
    anchor: lettering.anchor ?? 'start',
    size: lettering.size,
    face,
    colour: lettering.colour ?? 'ink',
    width: textWidth(text, lettering.size, face),
    ...(lettering.heavy ? { heavy: true } : {}),
    ...(lettering.halo ? { halo: true } : {}),
    ...(lettering.struck ? { struck: true } : {}),
    ...(lettering.turned ? { turned: lettering.turned } : {}),
  };
}

/** In mm, at the cap height of its size. */
export function textWidth(text: string, size: TextSize, face: TextFace = 'narrow'): number {
  return widthInEms(text, face) * fontSize(capHeights[size], face);
}

/** The em in mm that gives a cap height. */
export function fontSize(capHeight: number, face: TextFace): number {
  const font = fonts[face];
  return (capHeight * font.unitsPerEm) / font.capHeight;
}

/** The room that a text takes, turned or not: cap height above its baseline and the descent below. */
export function textBox(text: TextShape): Box {
  const cap = text.capHeight ?? capHeights[text.size];
  const below = cap * 0.26;
  const left = text.anchor === 'start' ? 0 : text.anchor === 'middle' ? -text.width / 2 : -text.width;
  const [x, y] = text.at;
  if (!text.turned) return { x: x + left, y: y - cap, width: text.width, height: cap + below };
  const angle = (text.turned * Math.PI) / 180;
  const corners = [
    [left, -cap],
    [left + text.width, -cap],
    [left, below],
    [left + text.width, below],
  ].map(([dx = 0, dy = 0]) => [
    x + dx * Math.cos(angle) - dy * Math.sin(angle),
    y + dx * Math.sin(angle) + dy * Math.cos(angle),
  ]);
  const xs = corners.map(([cx = 0]) => cx);
  const ys = corners.map(([, cy = 0]) => cy);
  const least = { x: Math.min(...xs), y: Math.min(...ys) };
  return { ...least, width: Math.max(...xs) - least.x, height: Math.max(...ys) - least.y };
}

/** Breaks at spaces into lines no wider than `width` mm, not inside `3'-4 1/2"`; a word that is wider by itself is cut. */
export function wrapText(text: string, width: number, size: TextSize, face: TextFace = 'narrow'): readonly string[] {
  const scale = fontSize(capHeights[size], face);
  const space = widthInEms(' ', face) * scale;
  const lines: string[] = [];
  let current = '';
  let used = 0;
  for (const word of text.split(/\s+(?!\d+\/\d+")/u)) {
    if (word === '') continue;
    for (const part of partsThatFit(word, width, scale, face)) {
      const partWidth = widthInEms(part, face) * scale;
      if (current !== '' && used + space + partWidth <= width && part.length === word.length) {
        current += ` ${part}`;
        used += space + partWidth;
        continue;
      }
      if (current !== '') lines.push(current);
      current = part;
      used = partWidth;
    }
  }
  if (current !== '') lines.push(current);
  return lines;
}

/** As much of a text as fits, with an ellipsis where it was cut. */
export function shortened(text: string, width: number, size: TextSize, face: TextFace = 'narrow'): string {
  if (textWidth(text, size, face) <= width) return text;
  const scale = fontSize(capHeights[size], face);
  const ellipsis = '...';
  let room = width - widthInEms(ellipsis, face) * scale;
  let kept = '';
  for (const character of text) {
    room -= widthInEms(character, face) * scale;
    if (room < 0) break;
    kept += character;
  }
  return `${kept.trimEnd()}${ellipsis}`;
}

/**
 * What a person typed, made fit for a drawing: line breaks and controls become spaces, marks that turn the direction of
 * writing are dropped, and a text that runs from right to left is fenced in so that it can't turn a station round.
 */
export function plainText(typed: string): string {
  if (plainAlready.test(typed)) return typed;
  const clean = typed
    .replace(/[\u202a-\u202e\u2066-\u2069\u200e\u200f\u061c]/gu, '')
    .replace(/[\p{Cc}\s\u2028\u2029]+/gu, ' ')
    .trim();
  return /[\p{Script=Hebrew}\p{Script=Arabic}\p{Script=Syriac}\p{Script=Thaana}\p{Script=Nko}]/u.test(clean)
    ? `\u2068${clean}\u2069`
    : clean;
}

/** Nearly all that anybody types. */
const plainAlready = /^[!-~]+(?: [!-~]+)*$/;

const fonts: Readonly<Record<TextFace, FontWidths>> = { regular: regularWidths, narrow: narrowWidths };
/** By code point, in ems. */
const widthTables: Readonly<Record<TextFace, readonly (number | undefined)[]>> = {
  regular: tableOf(regularWidths),
  narrow: tableOf(narrowWidths),
};

function tableOf(font: FontWidths): readonly (number | undefined)[] {
  const table: (number | undefined)[] = [];
  [...font.characters].forEach((character, index) => {
    table[character.codePointAt(0) ?? 0] = (font.widths[index] ?? 0) / font.unitsPerEm;
  });
  return table;
}

function widthInEms(text: string, face: TextFace): number {
  const table = widthTables[face];
  let width = 0;
  for (let index = 0; index < text.length; index++) {
    const known = table[text.charCodeAt(index)];
    if (known !== undefined) {
      width += known;
      continue;
    }
    const codePoint = text.codePointAt(index) ?? 0;
    if (codePoint > 0xffff) index++;
    width += widthOf(codePoint, face);
  }
  return width;
}

/** What the bundled font does not hold comes from another one: a generous guess, and `textLength` makes it true. */
function widthOf(codePoint: number, face: TextFace): number {
  const known = widthTables[face][codePoint];
  if (known !== undefined) return known;
  const character = String.fromCodePoint(codePoint);
  if (/[\p{M}\p{Cf}\p{Cc}]/u.test(character)) return 0;
  if (wideCharacters.test(character)) return 1;
  return face === 'narrow' ? 0.5 : 0.6;
}
const wideCharacters =
  /[\p{Script=Han}\p{Script=Hiragana}\p{Script=Katakana}\p{Script=Hangul}\p{Extended_Pictographic}]/u;

function partsThatFit(word: string, width: number, scale: number, face: TextFace): readonly string[] {
  if (widthInEms(word, face) * scale <= width) return [word];
  const parts: string[] = [];
  let part = '';
  let used = 0;
  for (const character of word) {
    const more = widthInEms(character, face) * scale;
    if (part !== '' && used + more > width) {
      parts.push(part);
      part = '';
      used = 0;
    }
    part += character;
    used += more;
  }
  return [...parts, part];
}
