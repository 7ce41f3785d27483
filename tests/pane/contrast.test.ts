import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Colour, contrast, readableOn, readColour, writeColour } from '../../extension/webview/contrast.ts';

const colour = fc.tuple(
  ...([0, 1, 2].map(() => fc.double({ min: 0, max: 1, noNaN: true })) as [
    fc.Arbitrary<number>,
    fc.Arbitrary<number>,
    fc.Arbitrary<number>,
  ]),
);

describe('contrast', () => {
  it('is the ratio of WCAG 2.2: 21 for black on white, 1 for a colour on itself', () => {
    // Source: WCAG 2.2, definition of contrast ratio.
    expect(contrast([0, 0, 0], [1, 1, 1])).toBeCloseTo(21, 6);
    expect(contrast([0.3, 0.5, 0.7], [0.3, 0.5, 0.7])).toBe(1);
    // Source: WCAG 2.2, understanding 1.4.3: #767676 on white is the lightest grey with 4.5.
    expect(contrast(readColour('#767676') as Colour, [1, 1, 1])).toBeGreaterThanOrEqual(4.5);
    expect(contrast(readColour('#777777') as Colour, [1, 1, 1])).toBeLessThan(4.5);
  });

  it('keeps a colour that can be read, and mends one that cannot on any ground', () => {
    expect(readableOn([1, 1, 1], [0, 0, 0], 4.5)).toEqual([0, 0, 0]);
    fc.assert(
      fc.property(colour, colour, (ground, ink) => {
        expect(contrast(ground, readableOn(ground, ink, 4.5))).toBeGreaterThanOrEqual(4.5 - 1e-6);
      }),
    );
  });
});

describe('colours as a browser gives them', () => {
  it('are read in every form that themes use', () => {
    expect(readColour('#fff')).toEqual([1, 1, 1]);
    expect(readColour(' #ff0000 ')).toEqual([1, 0, 0]);
    expect(readColour('rgb(0, 255, 0)')).toEqual([0, 1, 0]);
    expect(readColour('rgb(0 0 255 / 1)')).toEqual([0, 0, 1]);
    expect(readColour('#ff0000ff')).toEqual([1, 0, 0]);
  });

  it('are left alone where they are no colour or let the ground through', () => {
    for (const text of ['', 'none', 'inherit', '#ff000022', 'rgba(1, 2, 3, 0.2)', 'rgb(a, b, c)']) {
      expect(readColour(text)).toBeUndefined();
    }
  });

  it('are written as they were read', () => {
    expect(writeColour([1, 0.5, 0])).toBe('#ff8000');
  });
});
