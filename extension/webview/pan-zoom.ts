import type { Box } from './boxes.ts';
import { clampScale, fitScale, type Room, type Sight, scrolledAbout, wheelFactor, ZOOM_STEP } from './sight.ts';

/**
 * Moves a drawing in its window and makes it larger and smaller. The window scrolls by itself, so wheel, touch pad and touch are
 * the browser's own and cost no drawing; here are the hand, the keys and the scale.
 */
export interface PanZoom {
  /** Laid out anew, where the drawing or the room changed. */
  lay(): void;
  /** What of the paper there is to see. */
  box(): Box;
  /** Pixels for a millimetre of paper. */
  scale(): number;
  isWhole(): boolean;
  room(): Room;
  zoom(by: 'in' | 'out' | 'fit'): void;
  sight(): Sight;
  restore(sight: Sight): void;
  /** True where the key was one of its own. */
  key(event: KeyboardEvent): boolean;
}

export interface PanZoomOptions {
  /** The window, which scrolls, and in it the stage, which is as large as the drawing. */
  readonly window: HTMLElement;
  readonly stage: HTMLElement;
  /** At first. */
  readonly scale: number | 'fit';
  /** What of the paper there is to see, in mm. */
  readonly boxFor: (whole: boolean, room: Room) => Box;
  /** The scale is another one. */
  readonly scaled: () => void;
  /** The scale or the place is another one. */
  readonly moved: () => void;
}

/** Pixels; a hand that moves less did not mean to. */
export const LEAST_DRAG = 4;

export function createPanZoom({ window: view, stage, scale: first, boxFor, scaled, moved }: PanZoomOptions): PanZoom {
  let wanted = first;
  let scale = first === 'fit' ? 1 : first;
  let box: Box = { x: 0, y: 0, width: 1, height: 1 };
  let isSpaceDown = false;

  /** Kept until the window is another: to measure it while a drawing is patched would have all of the page laid out at once. */
  let measured: Room | undefined;
  function room(): Room {
    measured ??= measure();
    return measured;
  }
  function measure(): Room {
    const most = Number.parseFloat(getComputedStyle(view).maxHeight);
    return { width: Math.max(1, view.clientWidth), height: Number.isNaN(most) ? Number.POSITIVE_INFINITY : most };
  }
  const forget = (): void => {
    measured = undefined;
  };
  new ResizeObserver(forget).observe(view);
  window.addEventListener('resize', forget);

  function lay(): void {
    const free = room();
    box = boxFor(wanted === 'fit', free);
    const fit = fitScale(box, free);
    scale = wanted === 'fit' ? fit : clampScale(wanted, fit);
    view.classList.toggle('is-whole', wanted === 'fit');
    // Down to whole pixels: a drawing that fits must not bring up the bars that would make it not fit.
    stage.style.width = `${Math.floor(box.width * scale)}px`;
    stage.style.height = `${Math.floor(box.height * scale)}px`;
  }

  const seen = (): Room => ({ width: view.clientWidth, height: view.clientHeight });

  function scaleTo(next: number | 'fit', at: { readonly x: number; readonly y: number }): void {
    const before = { scale, box, room: seen(), scroll: { left: view.scrollLeft, top: view.scrollTop } };
    wanted = next === 'fit' ? next : clampScale(next, fitScale(boxFor(false, room()), room()));
    lay();
    scaled();
    view.scrollTo({ ...scrolledAbout(before, { scale, box, room: seen() }, at), behavior: 'instant' });
    moved();
  }

  const middle = (): { readonly x: number; readonly y: number } => ({
    x: view.clientWidth / 2,
    y: view.clientHeight / 2,
  });

  function zoom(by: 'in' | 'out' | 'fit'): void {
    scaleTo(by === 'fit' ? 'fit' : by === 'in' ? scale * ZOOM_STEP : scale / ZOOM_STEP, middle());
  }

  function pan(x: number, y: number): void {
    view.scrollBy({ left: x, top: y, behavior: 'instant' });
  }

  function key(event: KeyboardEvent): boolean {
    const { clientWidth: width, clientHeight: height } = view;
    if (event.ctrlKey || event.metaKey || event.altKey) return false;
    switch (event.key) {
      case '+':
      case '=':
        zoom('in');
        return true;
      case '-':
      case '_':
        zoom('out');
        return true;
      case '0':
        zoom('fit');
        return true;
      case ' ':
        // Held, it turns the pointer into a hand; pressed alone, it turns the page when it is let go.
        isSpaceDown = true;
        view.classList.add('has-hand');
        return true;
    }
    if (!event.shiftKey) return false;
    const steps: Readonly<Record<string, readonly [number, number]>> = {
      ArrowLeft: [-width / 5, 0],
      ArrowRight: [width / 5, 0],
      ArrowUp: [0, -height / 5],
      ArrowDown: [0, height / 5],
    };
    const step = steps[event.key];
    if (step) pan(...step);
    return step !== undefined;
  }

  view.addEventListener('keyup', (event) => {
    if (event.key !== ' ' || !isSpaceDown) return;
    isSpaceDown = false;
    const wasDragged = view.classList.contains('is-dragged');
    view.classList.remove('has-hand');
    if (!wasDragged) pan((event.shiftKey ? -0.9 : 0.9) * view.clientWidth, 0);
  });
  view.addEventListener('blur', () => {
    isSpaceDown = false;
    view.classList.remove('has-hand');
  });
  view.addEventListener(
    'wheel',
    (event) => {
      // A touch pad sends two fingers that part as a wheel with Ctrl.
      if (!event.ctrlKey && !event.metaKey) return;
      event.preventDefault();
      const { left, top } = view.getBoundingClientRect();
      const at = { x: event.clientX - left, y: event.clientY - top };
      scaleTo(scale * wheelFactor(event.deltaY, event.deltaMode === WheelEvent.DOM_DELTA_LINE), at);
    },
    { passive: false },
  );
  view.addEventListener('scroll', moved, { passive: true });

  let hand: { readonly x: number; readonly y: number; readonly left: number; readonly top: number } | undefined;
  // With Space held before anyone else: then the hand takes the drawing wherever it is laid on.
  view.addEventListener('pointerdown', (event) => take(event), { capture: true });
  view.addEventListener('pointerdown', (event) => {
    if (!isSpaceDown) take(event, true);
  });
  function take(event: PointerEvent, onGround = false): void {
    const isForHand = onGround ? event.button <= 1 && !event.defaultPrevented : isSpaceDown;
    if (!isForHand || event.pointerType === 'touch' || event.ctrlKey) return;
    if (!onGround) event.stopPropagation();
    hand = { x: event.clientX, y: event.clientY, left: view.scrollLeft, top: view.scrollTop };
  }
  view.addEventListener('pointermove', (event) => {
    if (!hand) return;
    if (event.buttons === 0) return drop();
    const [x, y] = [event.clientX - hand.x, event.clientY - hand.y];
    if (!view.classList.contains('is-dragged')) {
      if (Math.hypot(x, y) <= LEAST_DRAG) return;
      view.classList.add('is-dragged');
      view.setPointerCapture(event.pointerId);
    }
    view.scrollTo({ left: hand.left - x, top: hand.top - y, behavior: 'instant' });
  });
  for (const end of ['pointerup', 'pointercancel', 'lostpointercapture'] as const) view.addEventListener(end, drop);
  function drop(): void {
    hand = undefined;
    view.classList.remove('is-dragged');
  }

  return {
    lay,
    box: () => box,
    scale: () => scale,
    isWhole: () => wanted === 'fit',
    room,
    zoom,
    sight: () => ({ scale: wanted, left: view.scrollLeft / scale, top: view.scrollTop / scale }),
    restore(sight) {
      wanted = sight.scale;
      lay();
      scaled();
      view.scrollTo({ left: sight.left * scale, top: sight.top * scale, behavior: 'instant' });
    },
    key,
  };
}
