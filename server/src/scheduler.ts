/**
 * Runs work once the messages that have already arrived are read, so that a burst of edits costs one analysis, of the
 * newest text. There is no waiting by the clock: after a single key the work starts at once.
 */
export interface Scheduler {
  /** Asks for the work to run soon; asked again before it ran, it runs once. */
  request(): void;
}

const soon: (work: () => void) => void =
  typeof setImmediate === 'function' ? (work) => void setImmediate(work) : (work) => void setTimeout(work, 0);

export function createScheduler(work: () => void): Scheduler {
  let asked = 0;
  let waiting = false;

  /** The connection reads one message a turn: two quiet turns in a row mean that its queue is empty. */
  function waitForQuiet(): void {
    const before = asked;
    soon(() =>
      soon(() => {
        if (asked !== before) return waitForQuiet();
        waiting = false;
        work();
      }),
    );
  }

  return {
    request() {
      asked += 1;
      if (waiting) return;
      waiting = true;
      waitForQuiet();
    },
  };
}
