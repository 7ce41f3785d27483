import type { InRuns } from '../../domain/list-in-runs.ts';
import { createRuns, isSameList } from '../../domain/list-in-runs.ts';

/**
 * Keeps a result as long as its inputs stay the very same objects, so that an edit makes anew only what it touches.
 * One keeper serves one file being edited; names that a round does not ask for are dropped at its end.
 */
export interface Keeper {
  /**
   * @param key a name, or the object that the result is first of all made from: what is kept by an object is kept as long as that,
   * whether or not a round asks for it
   */
  keep<T>(key: string | object, inputs: readonly unknown[], make: () => T): T;
  /** The list as it was where it has the very same members: what is kept by it stays too. */
  keepList<T>(key: string, list: readonly T[]): readonly T[];
  /** What is made of a long list by its runs, see `createRuns`; `make` is the same function in every round. */
  keepRuns<Member extends object, Made>(
    key: string,
    list: readonly Member[],
    make: (members: readonly Member[], before: Made | undefined) => Made,
  ): readonly Made[];
  /** A round may be left before its end: the next one goes on with what it made. */
  beginRound(): void;
  /** Forgets what was not asked for in this round. */
  endRound(): void;
}

interface Kept {
  readonly inputs: readonly unknown[];
  readonly value: unknown;
}

interface KeptByName extends Kept {
  /** When it was last asked for. */
  round: number;
}

export function createKeeper(): Keeper {
  const byName = new Map<string, KeptByName>();
  const byObject = new WeakMap<object, Kept>();
  let round = 0;
  let asked = 0;

  function keep<T>(key: string | object, inputs: readonly unknown[], make: () => T): T {
    if (typeof key === 'object') {
      const before = byObject.get(key);
      if (before && isSameList(before.inputs, inputs)) return before.value as T;
      const value = make();
      // A copy has no room for more than is in it.
      byObject.set(key, { inputs: inputs.slice(), value });
      return value;
    }
    const before = byName.get(key);
    if (before?.round !== round) asked += 1;
    if (before && isSameList(before.inputs, inputs)) {
      before.round = round;
      return before.value as T;
    }
    const value = make();
    byName.set(key, { inputs, value, round });
    return value;
  }

  return {
    keep,
    keepList: (key, list) => keep(key, list, () => list),
    keepRuns: <Member extends object, Made>(
      key: string,
      list: readonly Member[],
      make: (members: readonly Member[], before: Made | undefined) => Made,
    ): readonly Made[] => keep<InRuns<Member, Made>>(key, [], () => createRuns(make))(list),
    beginRound() {
      round += 1;
      asked = 0;
    },
    endRound() {
      // Mostly nothing was left out, and nothing has to be looked for.
      if (asked < byName.size) for (const [key, { round: last }] of byName) if (last !== round) byName.delete(key);
    },
  };
}
