import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  clampScale,
  fitScale,
  followed,
  MOST_SCALE,
  readSight,
  scrolledAbout,
  wheelFactor,
} from '../../extension/webview/sight.ts';

const box = { x: 10, y: 23, width: 558, height: 171 };
const room = { width: 640, height: 400 };

describe('a drawing in its window', () => {
  it('fits where its longer side fills the room', () => {
    expect(fitScale(box, room)).toBeCloseTo(640 / 558);
    expect(fitScale(box, { width: 5000, height: 171 })).toBe(1);
    expect(fitScale(box, { width: 558, height: Number.POSITIVE_INFINITY })).toBe(1);
  });

  it('is never larger than the finest ticks need, nor so small that it could not be seen whole', () => {
    expect(clampScale(1000, 1)).toBe(MOST_SCALE);
    expect(clampScale(0.01, 1.2)).toBe(0.4);
    expect(clampScale(0.01, 0.1)).toBe(0.1);
  });

  it('keeps the paper under the pointer while it becomes larger or smaller', () => {
    const share = fc.double({ min: 0.35, max: 0.65, noNaN: true });
    fc.assert(
      fc.property(
        share,
        share,
        fc.double({ min: 3, max: 8, noNaN: true }),
        fc.double({ min: 0.8, max: 2, noNaN: true }),
        (x, y, scale, by) => {
          const at = { x: room.width * x, y: room.height * y };
          const scroll = { left: (box.width * scale - room.width) * x, top: (box.height * scale - room.height) * y };
          const next = scale * by;
          const after = scrolledAbout({ scale, box, room, scroll }, { scale: next, box, room }, at);
          const under = (left: number, of: number): number => (left + at.x) / of;
          const isFree = after.left > 0 && after.left < box.width * next - room.width;
          if (isFree) expect(under(after.left, next)).toBeCloseTo(under(scroll.left, scale), 6);
        },
      ),
      { numRuns: 60 },
    );
  });

  it('comes back to the same place when it is made larger and then smaller by as much', () => {
    const scroll = { left: 700, top: 120 };
    const at = { x: 320, y: 200 };
    const large = scrolledAbout({ scale: 4, box, room, scroll }, { scale: 5, box, room }, at);
    expect(scrolledAbout({ scale: 5, box, room, scroll: large }, { scale: 4, box, room }, at)).toEqual(scroll);
  });

  it('keeps the paper in place where another part of it is shown at another scale', () => {
    const all = { x: 0, y: 0, width: 600, height: 400 };
    const part = { x: 100, y: 50, width: 300, height: 300 };
    const scroll = { left: 0, top: 0 };
    const after = scrolledAbout(
      { scale: 2, box: part, room, scroll },
      { scale: 4, box: all, room },
      { x: 320, y: 200 },
    );
    // 320 pixels lay on x = 100 + (320 - 20) / 2 = 250 mm; at 4 pixels for a millimetre that is 1000 pixels.
    expect(after.left).toBe(1000 - 320);
  });

  it('follows a thing out of the middle third, and leaves it where it is in it', () => {
    expect(followed(900, 600, 640)).toBe(600);
    expect(followed(1300, 600, 640)).toBe(1300 - 320);
    expect(followed(100, 600, 640)).toBe(0);
    expect(followed(200, 0, 640)).toBe(0);
  });

  it('changes by less for a touch pad than for a wheel, in both directions alike', () => {
    expect(wheelFactor(-100, false)).toBeCloseTo(1 / wheelFactor(100, false));
    expect(wheelFactor(-100, false)).toBeGreaterThan(1.2);
    expect(wheelFactor(-4, false)).toBeLessThan(1.05);
    expect(wheelFactor(-3, true)).toBeCloseTo(wheelFactor(-99, false));
  });

  it('is taken back only from what is a sight', () => {
    expect(readSight({ scale: 'fit', left: 0, top: 0 })).toEqual({ scale: 'fit', left: 0, top: 0 });
    expect(readSight({ scale: 3, left: 12, top: 4 })).toEqual({ scale: 3, left: 12, top: 4 });
    for (const other of [
      undefined,
      null,
      7,
      {},
      { scale: -1, left: 0, top: 0 },
      { scale: 2, left: Number.NaN, top: 0 },
    ])
      expect(readSight(other)).toBeUndefined();
  });
});
