import type { Piece } from '../../language/protocol/picture.ts';

/** Of an opening tag, by name. */
export function attributesOf(open: string): ReadonlyMap<string, string> {
  // No value has a quotation mark in it.
  const parts = open.split('"');
  const attributes = new Map<string, string>();
  for (let at = 1; at < parts.length; at += 2) attributes.set(nameIn(parts[at - 1]), decoded(parts[at]));
  return attributes;
}

/** From one opening tag to the next; `undefined` for what is gone. */
export function changedAttributes(before: string, now: string): readonly (readonly [name: string, value?: string])[] {
  const [old, next] = [before.split('"'), now.split('"')];
  // Mostly the same names in the same order. An edit may renumber three hundred findings: to sort all by name takes four times as long.
  if (old.length === next.length && next.every((part, at) => at % 2 === 1 || part === old[at]))
    return next.flatMap((part, at) => (part === old[at] ? [] : [[nameIn(next[at - 1]), decoded(part)] as const]));
  const [was, is] = [attributesOf(before), attributesOf(now)];
  const gone = [...was.keys()].filter((name) => !is.has(name)).map((name) => [name] as const);
  return [...gone, ...[...is].filter(([name, value]) => was.get(name) !== value)];
}

/** `x` in ` x=`. */
const nameIn = (part = ''): string => part.slice(part.lastIndexOf(' ') + 1, -1);

/** A shape, or a text with words alone in it. */
export interface ShapeRead {
  readonly name: string;
  readonly open: string;
  readonly words: string;
}

/** `undefined` for what has anything but words in it, or is written otherwise than the drawings write. */
export function shapeOf(text: string): ShapeRead | undefined {
  const end = text.indexOf('>');
  const [name] = /^<\w+/.exec(text) ?? [];
  if (end < 0 || name === undefined || unknownEntity.test(text)) return undefined;
  const open = text.slice(0, end);
  if (open.endsWith('/')) return end === text.length - 1 ? { name: name.slice(1), open, words: '' } : undefined;
  const close = `</${name.slice(1)}>`;
  const words = text.slice(end + 1, text.length - close.length);
  const isPlain = text.endsWith(close) && !words.includes('<') && !words.includes('>');
  return isPlain ? { name: name.slice(1), open, words: decoded(words) } : undefined;
}
const unknownEntity = /&(?!(?:amp|lt|gt|quot|#39);)/;

/**
 * Pairs of pieces (`pairPieces`) and with them, in order, the shapes that are left on both sides and of one kind: those are changed, not
 * made. A turned text is of another kind than a level one: the pane itself uses the `transform` of a level text to enlarge it.
 */
export function pairShapes(
  before: readonly Piece[],
  now: readonly Piece[],
  pairs: readonly (number | undefined)[],
): readonly (number | undefined)[] {
  if (!now.some((piece, at) => typeof piece === 'string' && pairs[at] === undefined)) return pairs;
  const taken = new Set(pairs);
  const left = new Map<string, number[]>();
  for (const [at, piece] of before.entries()) {
    const kind = typeof piece === 'string' && !taken.has(at) ? kindOfShape(piece) : undefined;
    if (kind === undefined) continue;
    const known = left.get(kind);
    if (known) known.push(at);
    else left.set(kind, [at]);
  }
  return now.map((piece, at) => {
    const kind = typeof piece === 'string' && pairs[at] === undefined ? kindOfShape(piece) : undefined;
    return kind === undefined ? pairs[at] : left.get(kind)?.shift();
  });
}

function kindOfShape(text: string): string | undefined {
  const name = shapeOf(text)?.name;
  return name && (text.includes(' transform="') ? `turned ${name}` : name);
}

const decoded = (text = ''): string =>
  text.includes('&') ? text.replace(/&(amp|lt|gt|quot|#39);/g, (entity) => characters[entity] ?? entity) : text;

/** Those that the drawings are written with. */
const characters: Readonly<Record<string, string>> = {
  '&amp;': '&',
  '&lt;': '<',
  '&gt;': '>',
  '&quot;': '"',
  '&#39;': "'",
};
