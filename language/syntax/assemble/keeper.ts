/**
 * Keeps a result as long as its inputs stay the very same objects, so that an edit makes anew only what it touches.
 * One keeper serves one file being edited; keys that a round does not ask for are dropped at its end.
 */
export interface Keeper {
  keep<T>(key: string, inputs: readonly unknown[], make: () => T): T;
  /** Forgets what was not asked for since the last call. */
  endRound(): void;
}

export function createKeeper(): Keeper {
  let kept = new Map<string, { readonly inputs: readonly unknown[]; readonly value: unknown }>();
  let asked: typeof kept = new Map();
  return {
    keep<T>(key: string, inputs: readonly unknown[], make: () => T): T {
      const before = asked.get(key) ?? kept.get(key);
      if (before && sameInputs(before.inputs, inputs)) {
        asked.set(key, before);
        return before.value as T;
      }
      const value = make();
      asked.set(key, { inputs, value });
      return value;
    },
    endRound() {
      kept = asked;
      asked = new Map();
    },
  };
}

function sameInputs(a: readonly unknown[], b: readonly unknown[]): boolean {
  if (a.length !== b.length) return false;
  for (let index = 0; index < a.length; index += 1) if (!Object.is(a[index], b[index])) return false;
  return true;
}
