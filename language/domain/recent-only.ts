/** As much of a `WeakMap` as is needed to keep what was worked out of an object. */
export interface RecentOnly<Key extends object, Value> {
  get(key: Key): Value | undefined;
  set(key: Key, value: Value): void;
}

/**
 * What was worked out of objects that somebody asked about lately; of the rest it is let go, and worked out again if need be. A long
 * house has hundreds of walls, each looked at closely once, and then one of them again and again.
 */
export function recentOnly<Key extends object, Value>(): RecentOnly<Key, Value> {
  let newer = new WeakMap<Key, Value>();
  let older = new WeakMap<Key, Value>();
  let count = 0;
  const set = (key: Key, value: Value): void => {
    if (newer.get(key) === value) return;
    if (count >= mostNewer) {
      older = newer;
      newer = new WeakMap();
      count = 0;
    }
    newer.set(key, value);
    count += 1;
  };
  return {
    get(key) {
      const value = newer.get(key);
      if (value !== undefined) return value;
      const before = older.get(key);
      if (before !== undefined) set(key, before);
      return before;
    },
    set,
  };
}

const mostNewer = 32;
