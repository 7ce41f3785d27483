import { spaced } from './spaced.ts';

/** The one place that speaks by itself: politely, and not more often than a person can listen. */
export interface LiveRegion {
  readonly element: HTMLElement;
  say(words: string): void;
}

export const LEAST_PAUSE = 2000;

export function createLiveRegion(): LiveRegion {
  const element = document.createElement('p');
  element.className = 'live';
  element.setAttribute('role', 'status');
  element.setAttribute('aria-live', 'polite');
  const say = spaced(
    (words: string) => {
      element.textContent = words;
    },
    LEAST_PAUSE,
    { now: () => performance.now(), later: (run, milliseconds) => setTimeout(run, milliseconds) },
  );
  return { element, say };
}
