import type { Box, PathStep, XY } from './scene.ts';

/**
 * Parallel lines at 45 degrees over a box, rising to the right, cut at its edges. They hang on the sheet and not on the box, so
 * that hatches which overlap fall on each other; `phase` shifts them by a share of a step.
 */
export function hatch(box: Box, spacing: number, phase = 0): readonly (readonly [XY, XY])[] {
  const { x, y, width, height } = box;
  if (width <= 0 || height <= 0) return [];
  const segments: (readonly [XY, XY])[] = [];
  const step = spacing * Math.SQRT2;
  const first = Math.ceil((x + y) / step - phase) + phase;
  for (let sum = first * step; sum < x + y + width + height; sum += step) {
    // On such a line x + y is the same everywhere.
    const low = Math.max(x, sum - y - height);
    const high = Math.min(x + width, sum - y);
    if (high > low)
      segments.push([
        [low, sum - low],
        [high, sum - high],
      ]);
  }
  return segments;
}

export const cross = (centre: XY, reach: number): readonly (readonly [XY, XY])[] => [
  [
    [centre[0] - reach, centre[1] - reach],
    [centre[0] + reach, centre[1] + reach],
  ],
  [
    [centre[0] - reach, centre[1] + reach],
    [centre[0] + reach, centre[1] - reach],
  ],
];

export const diagonals = (box: Box): readonly (readonly [XY, XY])[] => [
  [
    [box.x, box.y],
    [box.x + box.width, box.y + box.height],
  ],
  [
    [box.x, box.y + box.height],
    [box.x + box.width, box.y],
  ],
];

/** A line of small waves down a box, or along it where `along` is set; `reach` to each side. */
export function zigzag(from: XY, to: XY, pitch: number, reach: number): readonly XY[] {
  const length = Math.hypot(to[0] - from[0], to[1] - from[1]);
  const count = Math.max(2, Math.round(length / pitch));
  const along: XY = [(to[0] - from[0]) / count, (to[1] - from[1]) / count];
  const side: XY =
    length === 0 ? [0, 0] : [(-(to[1] - from[1]) / length) * reach, ((to[0] - from[0]) / length) * reach];
  return Array.from({ length: count + 1 }, (_, index): XY => {
    const sign = index === 0 || index === count ? 0 : index % 2 === 0 ? 1 : -1;
    return [from[0] + along[0] * index + side[0] * sign, from[1] + along[1] * index + side[1] * sign];
  });
}

/** Dots as strokes without length: one shape for a whole texture. */
export function dots(points: readonly XY[]): readonly PathStep[] {
  return points.flatMap((at): PathStep[] => [
    { to: 'move', at },
    { to: 'line', at },
  ]);
}

/** Random numbers from 0 to 1 that are the same for the same seed (mulberry32 over an FNV-1a hash). */
export function seededRandom(seed: string): () => number {
  let state = 0x811c9dc5;
  for (let index = 0; index < seed.length; index++) state = Math.imul(state ^ seed.charCodeAt(index), 0x01000193);
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4_294_967_296;
  };
}
