/** An element of a drawing's text, with those in it. Titles are left out: a pane shows none. */
export interface Piece {
  readonly tag: string;
  /** `<g data-thing="F/anchor:F-8">`. */
  readonly open: string;
  /** All of it, from its first to its last character. */
  readonly text: string;
  readonly children: readonly Piece[];
}

interface Growing extends Piece {
  readonly start: number;
  text: string;
  readonly children: Growing[];
}

/** Cuts the text of a drawing into its elements; `undefined` for what does not nest. In it a `>` stands only at the end of a tag. */
export function piecesOf(svg: string): Piece | undefined {
  const open: Growing[] = [];
  let root: Growing | undefined;
  for (const { 0: tag, 1: isEnd, 2: name = '', 3: isEmpty, index } of svg.matchAll(/<(\/)?([a-zA-Z]+)[^<>]*?(\/)?>/g)) {
    if (isEnd !== undefined) {
      const piece = open.pop();
      if (piece?.tag !== name) return undefined;
      piece.text = svg.slice(piece.start, index + tag.length);
      continue;
    }
    const piece: Growing = { tag: name, open: tag, text: tag, start: index, children: [] };
    const around = open.at(-1);
    if (!around) {
      if (root) return undefined;
      root = piece;
    } else if (name !== 'title') around.children.push(piece);
    if (isEmpty === undefined) open.push(piece);
  }
  return open.length === 0 ? root : undefined;
}

/** Of an opening tag, by name. */
export function attributesOf(open: string): ReadonlyMap<string, string> {
  return new Map(
    [...open.matchAll(/([\w:-]+)="([^"]*)"/g)].map(([, name = '', value = '']) => [
      name,
      value.replace(/&(amp|lt|gt|quot|#39);/g, decoded),
    ]),
  );
}

/** Those that the drawings are written with. */
const decoded = (entity: string): string =>
  ({ '&amp;': '&', '&lt;': '<', '&gt;': '>', '&quot;': '"', '&#39;': "'" })[entity] ?? entity;

/**
 * For each of the present elements the one of before that it is made of, so that what did not change is not touched: the same
 * text, else a group about the same thing, which is then patched within. `undefined`: it is made anew.
 */
export function pairPieces(before: readonly Piece[], now: readonly Piece[]): readonly (number | undefined)[] {
  const pairs: (number | undefined)[] = now.map(() => undefined);
  let start = 0;
  while (start < now.length && now[start]?.text === before[start]?.text) {
    pairs[start] = start;
    start += 1;
  }
  let end = 0;
  const rest = Math.min(before.length, now.length) - start;
  while (end < rest && now[now.length - 1 - end]?.text === before[before.length - 1 - end]?.text) {
    pairs[now.length - 1 - end] = before.length - 1 - end;
    end += 1;
  }
  const oldMiddle = before.slice(start, before.length - end).map((piece, at) => ({ piece, at: at + start }));
  const isTaken = new Set<number>();
  for (const nameOf of [({ text }: Piece) => text, identityOf]) {
    const byName = new Map<string, number[]>();
    for (const { piece, at } of oldMiddle) {
      const name = isTaken.has(at) ? undefined : nameOf(piece);
      if (name === undefined) continue;
      const known = byName.get(name);
      if (known) known.push(at);
      else byName.set(name, [at]);
    }
    for (let at = start; at < now.length - end; at += 1) {
      const piece = now[at];
      const name = piece && pairs[at] === undefined ? nameOf(piece) : undefined;
      const found = name === undefined ? undefined : byName.get(name)?.shift();
      if (found === undefined) continue;
      pairs[at] = found;
      isTaken.add(found);
    }
  }
  return pairs;
}

/** What a group is about. Only groups are patched within: a shape is made anew. */
function identityOf({ tag, open }: Piece): string | undefined {
  if (tag !== 'g') return undefined;
  return ['thing', 'role', 'symbol']
    .map((name) => new RegExp(` data-${name}="([^"]*)"`).exec(open)?.[1] ?? '')
    .join(' ');
}
