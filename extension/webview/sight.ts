import type { Box } from './boxes.ts';

/** Pixels. */
export interface Room {
  readonly width: number;
  readonly height: number;
}

/** How a drawing lies in its window on the screen. */
export interface Placing {
  /** Pixels for a millimetre of paper. */
  readonly scale: number;
  /** What of the paper there is to see, in mm. */
  readonly box: Box;
  readonly room: Room;
}
/** How far the window is scrolled, in pixels. */
export interface Scroll {
  readonly left: number;
  readonly top: number;
}

/** What of a drawing is in sight, free of the size of the pane: kept over a reload. */
export interface Sight {
  /** Pixels for a millimetre of paper; `fit`: as large as the room lets it be. */
  readonly scale: number | 'fit';
  /** Of the upper left corner, in mm from that of the drawing. */
  readonly left: number;
  readonly top: number;
}

export const LEAST_SCALE = 0.4;
export const MOST_SCALE = 28;
/** By one press of a key or a button. */
export const ZOOM_STEP = 1.25;

/** The largest scale at which all of it is in sight. */
export function fitScale(drawing: Pick<Box, 'width' | 'height'>, room: Room): number {
  const scale = Math.min(room.width / drawing.width, room.height / drawing.height);
  return Number.isFinite(scale) && scale > 0 ? scale : 1;
}

/** Whole drawing down to the finest ticks; what fits is never out of reach. */
export function clampScale(scale: number, fit: number): number {
  return Math.min(Math.max(scale, Math.min(LEAST_SCALE, fit)), MOST_SCALE);
}

/** How to scroll so that after a change of scale the same paper is under a point of the window as before. */
export function scrolledAbout(
  before: Placing & { readonly scroll: Scroll },
  after: Placing,
  at: { readonly x: number; readonly y: number },
): Scroll {
  const along = (start: 'x' | 'y', length: 'width' | 'height', scroll: number): number => {
    const point = at[start];
    const paper =
      before.box[start] +
      (scroll + point - margin(before.box[length] * before.scale, before.room[length])) / before.scale;
    const size = after.box[length] * after.scale;
    const wanted = (paper - after.box[start]) * after.scale + margin(size, after.room[length]) - point;
    return Math.max(0, Math.min(wanted, size - after.room[length]));
  };
  return { left: along('x', 'width', before.scroll.left), top: along('y', 'height', before.scroll.top) };
}

/** What is smaller than its window stands in the middle of it. */
function margin(length: number, room: number): number {
  return Math.max(0, (room - length) / 2);
}

/**
 * Where to scroll so that a thing is in the middle third, where the eye looked before; the same place where it is there already.
 * Near an end of the wall the end itself is worth more than the middle.
 *
 * @param middle of the thing, from the left end of the drawing.
 */
export function followed(middle: number, scrollLeft: number, width: number): number {
  const third = width / 3;
  const at = middle - scrollLeft;
  if (middle < 2 * third) return at >= 0 && at <= 2 * third ? scrollLeft : 0;
  return at >= third && at <= 2 * third ? scrollLeft : middle - width / 2;
}

/** By one notch of a wheel, or one touch of two fingers on a touch pad, which sends many small ones. */
export function wheelFactor(deltaY: number, isLines: boolean): number {
  const pixels = isLines ? deltaY * 33 : deltaY;
  return 2 ** (-pixels * (Math.abs(pixels) < 40 ? 0.01 : 0.0032));
}

export function readSight(value: unknown): Sight | undefined {
  const { scale, left, top } = (typeof value === 'object' && value !== null ? value : {}) as Partial<
    Record<keyof Sight, unknown>
  >;
  if (!isNumber(left) || !isNumber(top)) return undefined;
  if (scale === 'fit') return { scale, left, top };
  return isNumber(scale) && scale > 0 ? { scale: Math.min(scale, MOST_SCALE), left, top } : undefined;
}

const isNumber = (value: unknown): value is number => typeof value === 'number' && Number.isFinite(value);
