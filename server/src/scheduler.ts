/**
 * Runs work once the messages that have already arrived are read, so that a burst of edits costs one analysis, of the
 * newest text. There is no waiting by the clock: after a single key the work starts at once.
 */
export interface Scheduler {
  /** Asks for the work to run soon; asked again before it ran, it runs once. */
  request(): void;
}

const soon: (work: () => void) => void =
  typeof setImmediate === 'function' ? (work) => void setImmediate(work) : inTurn();

/** Long work is done in parts no longer than this, in milliseconds, so that no message waits where a person would see it. */
const longestPart = 3;

/** Tells whether a part that begins now may go on. */
export const timeForOnePart = (): (() => boolean) => timeFor(longestPart);

export function timeFor(milliseconds: number): () => boolean {
  const end = performance.now() + milliseconds;
  return () => performance.now() < end;
}

/** Lets messages in between two pieces of work. */
export function otherMessages(): Promise<void> {
  return new Promise(soon);
}

/** @param hasMore whether the work is to run again, once the messages that came meanwhile are read */
export function createScheduler(work: () => void, hasMore: () => boolean = () => false): Scheduler {
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
        if (hasMore()) request();
      }),
    );
  }

  function request(): void {
    asked += 1;
    if (waiting) return;
    waiting = true;
    waitForQuiet();
  }

  return { request };
}

/** Puts work off until nobody has asked for it for so many milliseconds. */
export function inPauses(work: () => void, pause: number): () => void {
  let timer: ReturnType<typeof setTimeout> | undefined;
  return () => {
    clearTimeout(timer);
    timer = setTimeout(work, pause);
  };
}

/** In a browser, where a timer of no time at all still takes some milliseconds. */
function inTurn(): (work: () => void) => void {
  const { port1, port2 } = new MessageChannel();
  const due: (() => void)[] = [];
  port1.addEventListener('message', () => due.shift()?.());
  port1.start();
  return (work) => {
    due.push(work);
    port2.postMessage(undefined);
  };
}
