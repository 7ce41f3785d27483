/**
 * A drawing as a tree of its elements: what the server sends, changes and the pane draws. A piece that did not change is the same
 * object after a change, so that nobody looks into it.
 */
export interface PieceGroup {
  /** Its opening tag: `<g data-thing="F/anchor:F-8">`; outermost the `<svg …>`. */
  readonly open: string;
  readonly pieces: readonly Piece[];
}
/** A shape or a text, whole; or a group. */
export type Piece = string | PieceGroup;

/** From one picture to the next: what is in the group now, in order. */
export interface Change {
  /** Where its own tag is another. */
  readonly open?: string;
  readonly pieces: readonly ChangedPiece[];
}
/** A run of the pieces of before that stay; a new piece; or a group of before that changed within. */
export type ChangedPiece = readonly [from: number, count: number] | Piece | (Change & { readonly at: number });

/** The same bytes as the drawing written at one go. */
export function svgOf(piece: Piece): string {
  if (typeof piece === 'string') return piece;
  const inside = piece.pieces.map((each) => `\n${svgOf(each)}`).join('');
  return piece.open.startsWith('<svg') ? `${piece.open}${inside}\n</svg>\n` : `${piece.open}${inside}</g>`;
}

/** Present groups by those of before that say the same: each pair is compared once, however deep it lies. */
type KnownSame = Map<PieceGroup, PieceGroup>;

/** `undefined` where nothing did. What is the same object is not looked into. */
export function changeBetween(before: PieceGroup, now: PieceGroup, known: KnownSame = new Map()): Change | undefined {
  if (before === now || known.get(now) === before) return undefined;
  const pieces: ChangedPiece[] = [];
  let isSame = before.pieces.length === now.pieces.length;
  pairPieces(before.pieces, now.pieces, known).forEach((from, at) => {
    const piece = now.pieces[at];
    const was = from === undefined ? undefined : before.pieces[from];
    if (piece === undefined) return;
    if (from === undefined || was === undefined) {
      pieces.push(piece);
      isSame = false;
      return;
    }
    const within = typeof was === 'string' || typeof piece === 'string' ? undefined : changeBetween(was, piece, known);
    isSame &&= from === at && within === undefined;
    const run = pieces.at(-1);
    if (within) pieces.push({ at: from, ...within });
    else if (isRun(run) && run[0] + run[1] === from) pieces[pieces.length - 1] = [run[0], run[1] + 1];
    else pieces.push([from, 1]);
  });
  if (before.open !== now.open) return { open: now.open, pieces };
  return isSame ? undefined : { pieces };
}

/** `undefined` where the change is not one of this picture. */
export function withChange(before: PieceGroup, change: Change): PieceGroup | undefined {
  const pieces: Piece[] = [];
  for (const changed of change.pieces) {
    if (isRun(changed)) {
      const [from, count] = changed;
      if (from + count > before.pieces.length) return undefined;
      for (let at = from; at < from + count; at += 1) pieces.push(before.pieces[at] as Piece);
    } else if (typeof changed === 'object' && 'at' in changed) {
      const was = before.pieces[changed.at];
      const group = typeof was === 'object' ? withChange(was, changed) : undefined;
      if (!group) return undefined;
      pieces.push(group);
    } else pieces.push(changed as Piece);
  }
  return { open: change.open ?? before.open, pieces };
}

const isRun = (changed: ChangedPiece | undefined): changed is readonly [number, number] => Array.isArray(changed);

/**
 * For each of the present pieces the one of before that it is made of, so that what did not change is not touched: the same one,
 * else a group about the same thing, which is then changed within. `undefined`: it is new.
 */
export function pairPieces(
  before: readonly Piece[],
  now: readonly Piece[],
  known: KnownSame = new Map(),
): readonly (number | undefined)[] {
  const pairs: (number | undefined)[] = now.map(() => undefined);
  const shorter = Math.min(before.length, now.length);
  let start = 0;
  while (start < shorter && isSame(before[start], now[start], known)) {
    pairs[start] = start;
    start += 1;
  }
  let end = 0;
  while (end < shorter - start && isSame(before[before.length - 1 - end], now[now.length - 1 - end], known)) {
    pairs[now.length - 1 - end] = before.length - 1 - end;
    end += 1;
  }
  const isTaken = new Set<number>();
  const behind = before.length - end;
  // By the object first, side by side: of a large drawing nearly all are kept, and to look into them takes longer than all the rest.
  let next = start;
  for (let at = start; at < now.length - end; at += 1) {
    let from = next;
    while (from < behind && from < next + farAway && before[from] !== now[at]) from += 1;
    if (from === behind || before[from] !== now[at]) continue;
    pairs[at] = from;
    isTaken.add(from);
    next = from + 1;
  }
  const left = (pieces: readonly Piece[], isLeft: (at: number) => boolean): readonly number[] => {
    const places: number[] = [];
    for (let at = start; at < pieces.length - end; at += 1) if (isLeft(at)) places.push(at);
    return places;
  };
  const pair = (olds: readonly number[], news: readonly number[], nameOf: (piece: Piece) => unknown): void => {
    const byName = byNames(olds, (at) => nameOf(before[at] as Piece));
    for (const at of news) {
      const found = byName.get(nameOf(now[at] as Piece))?.shift();
      if (found === undefined) continue;
      pairs[at] = found;
      isTaken.add(found);
    }
  };
  // What was put elsewhere, and shapes.
  pair(
    left(before, (at) => !isTaken.has(at)),
    left(now, (at) => pairs[at] === undefined),
    (piece) => piece,
  );
  const oldGroups = byNames(
    left(before, (at) => typeof before[at] === 'object' && !isTaken.has(at)),
    (at) => identityOf(before[at]),
  );
  const newGroups = byNames(
    left(now, (at) => typeof now[at] === 'object' && pairs[at] === undefined),
    (at) => identityOf(now[at]),
  );
  for (const [identity, news] of newGroups) {
    const olds = oldGroups.get(identity) ?? [];
    // Several about the same thing: the same text, then the same order.
    if (olds.length > 1 || (olds.length === 1 && news.length > 1)) pair(olds, news, svgOf);
    pair(
      olds.filter((at) => !isTaken.has(at)),
      news.filter((at) => pairs[at] === undefined),
      () => identity,
    );
  }
  return pairs;
}

/** An edit mostly takes out, puts in or makes anew a few pieces. */
const farAway = 8;

function byNames(places: readonly number[], nameOf: (at: number) => unknown): Map<unknown, number[]> {
  const byName = new Map<unknown, number[]>();
  for (const at of places) {
    const name = nameOf(at);
    const known = byName.get(name);
    if (known) known.push(at);
    else byName.set(name, [at]);
  }
  return byName;
}

function isSame(a: Piece | undefined, b: Piece | undefined, known: KnownSame): boolean {
  if (a === b) return true;
  if (typeof a !== 'object' || typeof b !== 'object') return false;
  if (known.get(b) === a) return true;
  if (a.open !== b.open || a.pieces.length !== b.pieces.length) return false;
  if (!a.pieces.every((piece, at) => isSame(piece, b.pieces[at], known))) return false;
  known.set(b, a);
  return true;
}

/** What a group is about. Only groups are changed within: a shape is made anew. */
function identityOf(piece: Piece | undefined): string {
  const open = typeof piece === 'object' ? piece.open : '';
  return [thingIn, roleIn, symbolIn].map((pattern) => pattern.exec(open)?.[1] ?? '').join(' ');
}
const [thingIn, roleIn, symbolIn] = [/ data-thing="([^"]*)"/, / data-role="([^"]*)"/, / data-symbol="([^"]*)"/];

/** No drawing nests deeper: what another window may have forged is not followed for ever. */
const DEEPEST = 20;

export function isPieceGroup(value: unknown, depth = 0): value is PieceGroup {
  if (!isObject(value) || depth > DEEPEST || typeof value.open !== 'string' || !Array.isArray(value.pieces))
    return false;
  return value.pieces.every((piece) => typeof piece === 'string' || isPieceGroup(piece, depth + 1));
}

export function isChange(value: unknown, depth = 0): value is Change {
  if (!isObject(value) || depth > DEEPEST || !Array.isArray(value.pieces)) return false;
  if (value.open !== undefined && typeof value.open !== 'string') return false;
  return value.pieces.every((piece: unknown) => {
    if (typeof piece === 'string') return true;
    if (Array.isArray(piece)) return piece.length === 2 && piece.every(isCount);
    if (!isObject(piece)) return false;
    return 'at' in piece ? isCount(piece.at) && isChange(piece, depth + 1) : isPieceGroup(piece, depth + 1);
  });
}

const isCount = (value: unknown): boolean => Number.isSafeInteger(value) && (value as number) >= 0;

function isObject(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}
