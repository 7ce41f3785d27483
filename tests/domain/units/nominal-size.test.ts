import { describe, expect, it } from 'vitest';
import { inches } from '../../../language/domain/units/length.ts';
import { nominalSize } from '../../../language/domain/units/nominal-size.ts';

describe('a nominal size', () => {
  it('is read in either order, with any cross', () => {
    const dressed = { thick: inches(1.5), wide: inches(5.5) };
    for (const text of ['2x6', '2X6', '2×6', '2 x 6', '6x2']) expect(nominalSize(text)).toEqual(dressed);
  });

  it.each(['', '2', '0x4', '1x1', '2x18', '2x99', '200x6', '5/4x6', '2x6x8', 'x6', '26x26'])(
    'is not made up for %s',
    (text) => {
      expect(nominalSize(text)).toBeUndefined();
    },
  );
});
