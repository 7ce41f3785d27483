import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import process from 'node:process';
import fc from 'fast-check';
import { create } from 'fontkit';
import { describe, expect, it } from 'vitest';
import {
  lettered,
  plainText,
  shortened,
  textBox,
  textWidth,
  wrapText,
} from '../../../language/domain/drawing/lettering.ts';
import { capHeights } from '../../../language/domain/drawing/tokens.ts';

const root = join(import.meta.dirname, '../../..');

describe('the table of font widths', () => {
  it('is what the bundled fonts give', () => {
    expect(() =>
      execFileSync(process.execPath, [join(root, 'scripts/generate-font-widths.ts'), '--check'], { stdio: 'pipe' }),
    ).not.toThrow();
  });

  it.each([
    ['narrow', 'routed-gothic-narrow.ttf'],
    ['regular', 'routed-gothic.ttf'],
  ] as const)('measures text as the %s font lays it out, but for kerning', (face, file) => {
    const font = create(readFileSync(join(root, 'extension/webview/fonts', file)));
    if (!('layout' in font)) throw new Error('not one font');
    for (const text of [`28'-4 1/2"`, 'stepped side plate, large', 'F-11', 'joist underside +1-5/8"']) {
      const advance = font.layout(text, { kern: false }).advanceWidth;
      const expected = (advance / font.capHeight) * capHeights.label;
      expect(textWidth(text, 'label', face)).toBeCloseTo(expected, 6);
    }
  });

  it('has capitals as high as their size says', () => {
    const font = create(readFileSync(join(root, 'extension/webview/fonts/routed-gothic.ttf')));
    if (!('glyphForCodePoint' in font)) throw new Error('not one font');
    expect(font.glyphForCodePoint(0x48).bbox.maxY).toBe(font.capHeight);
  });
});

describe('wrapping', () => {
  it('keeps every word, in order, and no line wider than asked', () => {
    fc.assert(
      fc.property(
        fc.string({ unit: 'binary', maxLength: 120 }),
        fc.double({ min: 8, max: 80, noNaN: true }),
        (text, width) => {
          const lines = wrapText(text, width, 'label');
          expect(lines.join('').replace(/\s+/gu, '')).toBe(text.replace(/\s+/gu, ''));
          for (const line of lines) {
            if ([...line].length > 1) expect(textWidth(line, 'label')).toBeLessThanOrEqual(width + 1e-6);
          }
        },
      ),
    );
  });

  it('cuts a text that is too long and says so', () => {
    const cut = shortened('a very long remark about the north-east corner', 30, 'label');
    expect(cut).toMatch(/\.\.\.$/);
    expect(textWidth(cut, 'label')).toBeLessThanOrEqual(30);
    expect(shortened('short', 30, 'label')).toBe('short');
  });
});

describe('what a person typed', () => {
  it('loses line breaks and controls, and no letter', () => {
    expect(plainText('north\r\n wall\u0000\u0007 end')).toBe('north wall end');
  });

  it('loses marks that turn the direction of writing', () => {
    expect(plainText("vent \u202e1-'4")).toBe("vent 1-'4");
  });

  it('is fenced in where it runs from right to left, so that a station beside it stays as it is', () => {
    expect(plainText('\u05e9\u05dc\u05d5\u05dd')).toBe('\u2068\u05e9\u05dc\u05d5\u05dd\u2069');
    expect(textWidth('\u2068\u2069', 'label')).toBe(0);
  });
});

describe('the box of a text', () => {
  it('turns with the text', () => {
    const level = lettered('F1  9\'-7"', [10, 20], { size: 'label', anchor: 'middle' });
    const upright = textBox({ ...level, turned: -90 });
    expect(upright.width).toBeCloseTo(textBox(level).height, 9);
    expect(upright.height).toBeCloseTo(textBox(level).width, 9);
  });
});
