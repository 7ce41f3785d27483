/**
 * Whether anybody sees a part of the page: what nobody sees can wait until the frame with all the rest is on the screen. The schedules
 * of a long wall are a fifth of the work of that frame, and mostly below it.
 */
export interface Unseen {
  /** The element that is the part now; until it is known where it stands it is taken as seen. */
  watch(element: Element | null): void;
  isUnseen(): boolean;
}

/** Pixels: what is so near may be scrolled into sight before the next frame. */
const NEAR = 64;

export function createUnseen(): Unseen {
  let watched: Element | null = null;
  let isAway = false;
  const observer = new IntersectionObserver(
    (entries) => {
      for (const { target, isIntersecting } of entries) if (target === watched) isAway = !isIntersecting;
    },
    { rootMargin: `${NEAR}px` },
  );
  return {
    watch(element) {
      if (element === watched) return;
      observer.disconnect();
      watched = element;
      isAway = false;
      if (element) observer.observe(element);
    },
    // A page that is not shown has no frames to wait for.
    isUnseen: () =>
      isAway && document.visibilityState === 'visible' && watched?.contains(document.activeElement) === false,
  };
}

/** When the next frame is on the screen. */
export function afterFrame(work: () => void): void {
  requestAnimationFrame(() => setTimeout(work));
}
