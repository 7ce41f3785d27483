export interface Clock {
  now(): number;
  later(run: () => void, milliseconds: number): void;
}

/** Says the newest of what came in a pause; what was said already is not said again. */
export function spaced(say: (words: string) => void, pause: number, clock: Clock): (words: string) => void {
  let last = Number.NEGATIVE_INFINITY;
  let said = '';
  let waiting: string | undefined;
  function now(): void {
    const words = waiting;
    waiting = undefined;
    if (words === undefined || words === said) return;
    last = clock.now();
    said = words;
    say(words);
  }
  return (words) => {
    const isAsked = waiting !== undefined;
    waiting = words;
    const left = last + pause - clock.now();
    if (left <= 0) now();
    else if (!isAsked) clock.later(now, left);
  };
}
