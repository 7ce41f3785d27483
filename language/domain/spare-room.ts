/**
 * The same object, with its lists in no more memory than they need. A list that grew has room for more, mostly several times what is
 * in it, and of hundreds of blocks and walls that comes to megabytes; the empty ones, which are most, are all one.
 */
export function withoutSpareRoom<Whole extends object>(whole: Whole): Whole {
  const parts = whole as Record<string, unknown>;
  for (const key in parts) {
    const list = parts[key];
    if (Array.isArray(list)) parts[key] = list.length === 0 ? empty : list.slice();
  }
  return whole;
}

const empty: readonly never[] = Object.freeze([]);
