/**
 * The same object, with its lists in no more memory than they need. A list that grew has room for more, mostly several times what is
 * in it, and of hundreds of blocks and walls that comes to megabytes; the empty ones, which are most, are all one.
 */
export function withoutSpareRoom<Whole extends object>(whole: Whole): Whole {
  const parts = whole as Record<string, unknown>;
  for (const key in parts) {
    const list = parts[key];
    if (Array.isArray(list)) parts[key] = list.length === 0 ? nothing : list.slice();
  }
  return whole;
}

export const nothing: readonly never[] = Object.freeze([]);

/**
 * The same text with memory of its own, a byte for each character where that is enough. A part of a text keeps the whole text in
 * memory: one that stays from each edit would keep them all. And one that was put together keeps what it was put together of.
 *
 * Nothing else makes a text anew as fast as reading it from JSON, and short ones, up to ten characters, are then the very same in
 * memory wherever they stand: sizes and lengths are many and alike.
 */
export function ownText(part: string): string {
  const own: string = JSON.parse(JSON.stringify(part));
  return own;
}
