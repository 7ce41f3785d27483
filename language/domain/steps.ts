/**
 * Work that may be left after any step, for a moment or for good. It knows no clock: whoever drives it decides when to go on.
 * What it keeps for later calls must hold whether or not it comes to its end.
 */
export type Steps<Result> = Generator<void, Result, void>;

/** All steps, one behind the other. */
export function finish<Result>(steps: Steps<Result>): Result {
  for (;;) {
    const step = steps.next();
    if (step.done === true) return step.value;
  }
}
