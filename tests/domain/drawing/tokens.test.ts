import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import {
  type ColourToken,
  capHeights,
  colourTokens,
  pens,
  type TokenColours,
} from '../../../language/domain/drawing/tokens.ts';

/** Relative luminance and contrast ratio as WCAG 2.2 defines them (W3C Recommendation, "relative luminance", "contrast ratio"). */
function luminance(hex: string): number {
  const [r = 0, g = 0, b = 0] = [1, 3, 5].map((at) => {
    const value = Number.parseInt(hex.slice(at, at + 2), 16) / 255;
    return value <= 0.04045 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}
function contrast(a: string, b: string): number {
  const [light = 0, dark = 0] = [luminance(a), luminance(b)].sort((x, y) => y - x);
  return (light + 0.05) / (dark + 0.05);
}

const themes = [
  'light',
  'dark',
  'highContrast',
  'highContrastLight',
] as const satisfies readonly (keyof TokenColours)[];
const rows = Object.entries(colourTokens) as [ColourToken, TokenColours][];
const withUse = (use: TokenColours['use']) => rows.filter(([, row]) => row.use === use);

describe.each(themes)('colours of the %s theme', (theme) => {
  const ground = colourTokens.paper[theme];
  const grounds = (use: TokenColours['use']) =>
    withUse(use).map(([token, row]) => [token, row[theme] === 'none' ? ground : row[theme]] as const);

  it('gives black on white the ratio that WCAG states', () => {
    expect(contrast('#000000', '#ffffff')).toBeCloseTo(21, 6);
  });

  // WCAG 2.2, success criterion 1.4.3: text at least 4.5.
  it('has text that reads on the ground and on every fill', () => {
    for (const [token, row] of withUse('text')) {
      for (const [fill, colour] of [['paper', ground] as const, ...grounds('fill')]) {
        expect(contrast(row[theme], colour), `${token} on ${fill}`).toBeGreaterThanOrEqual(4.5);
      }
    }
  });

  it('has main text that reads on the bands of selection and cursor', () => {
    for (const [band, colour] of grounds('band')) {
      expect(contrast(colourTokens.ink[theme], colour), band).toBeGreaterThanOrEqual(4.5);
    }
  });

  // Success criterion 1.4.11: parts of a picture that one must see at least 3.
  it('shows lines that carry no text', () => {
    expect(contrast(colourTokens.stale[theme], ground)).toBeGreaterThanOrEqual(3);
  });

  it.each(['new', 'error', 'stop', 'ink'] as const)('text on solid %s reads', (solid) => {
    expect(
      contrast(solid === 'ink' ? ground : colourTokens.ontop[theme], colourTokens[solid][theme]),
    ).toBeGreaterThanOrEqual(4.5);
  });

  it('has the watermark behind, never in the way', () => {
    const mark = colourTokens.wm[theme];
    if (mark !== 'none') expect(contrast(colourTokens.ink3[theme], mark)).toBeGreaterThanOrEqual(4);
  });
});

describe('what a drawing may name', () => {
  it('has no letter smaller than 1.8 mm', () => {
    expect(Math.min(...Object.values(capHeights))).toBe(1.8);
  });

  it('has line widths of the series of ISO 128-2, each about the root of two wider, and five uses beyond it', () => {
    // ISO 128-2:2020 names 0.13 0.18 0.25 0.35 0.5 0.7 1.0 mm (from memory).
    const series = [0.13, 0.18, 0.25, 0.35, 0.5, 0.7, 1];
    const beyond = { cut: 0.6, flue: 1.2, dot: 0.32, nail: 0.6, 'plan-panel': 1.3 };
    for (const [pen, width] of Object.entries(pens)) {
      if (!(pen in beyond)) expect(series, pen).toContain(width);
    }
  });

  it('names colours in one file only', () => {
    const folder = join(import.meta.dirname, '../../../language/domain/drawing');
    const files = readdirSync(folder, { recursive: true, encoding: 'utf8' }).filter(
      (name) => name.endsWith('.ts') && name !== 'tokens.ts',
    );
    expect(files.length).toBeGreaterThan(40);
    for (const file of files) {
      const code = readFileSync(join(folder, file), 'utf8').replace(/&#\d+;/g, '');
      expect(code, file).not.toMatch(
        /#[0-9a-f]{3}(?:[0-9a-f]{3})?\b|rgba?\(|hsla?\(|['"](?:white|black|red|blue|green|gray|grey)['"]/i,
      );
    }
  });
});
