/**
 * Keeps a result as long as its inputs stay the very same objects, so that an edit makes anew only what it touches.
 * One keeper serves one file being edited; keys that a round does not ask for are dropped at its end.
 */
export interface Keeper {
  /** @param key a name, or the object that the result is first of all made from */
  keep<T>(key: string | object, inputs: readonly unknown[], make: () => T): T;
  /** A round may be left before its end: the next one goes on with what it made. */
  beginRound(): void;
  /** Forgets what was not asked for in this round. */
  endRound(): void;
}

interface Kept {
  readonly inputs: readonly unknown[];
  readonly value: unknown;
  /** When it was last asked for. */
  round: number;
}

export function createKeeper(): Keeper {
  const kept = new Map<string | object, Kept>();
  let round = 0;
  let asked = 0;
  return {
    keep<T>(key: string | object, inputs: readonly unknown[], make: () => T): T {
      const before = kept.get(key);
      if (before?.round !== round) asked += 1;
      if (before && sameInputs(before.inputs, inputs)) {
        before.round = round;
        return before.value as T;
      }
      const value = make();
      kept.set(key, { inputs, value, round });
      return value;
    },
    beginRound() {
      round += 1;
      asked = 0;
    },
    endRound() {
      // Mostly nothing was left out, and nothing has to be looked for.
      if (asked < kept.size) for (const [key, { round: last }] of kept) if (last !== round) kept.delete(key);
    },
  };
}

function sameInputs(a: readonly unknown[], b: readonly unknown[]): boolean {
  if (a.length !== b.length) return false;
  for (let index = 0; index < a.length; index += 1) if (!Object.is(a[index], b[index])) return false;
  return true;
}
