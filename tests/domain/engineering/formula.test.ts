import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { formatNumber } from '../../../language/domain/engineering/format-number.ts';
import {
  evaluate,
  formula,
  formulaTex,
  formulaText,
  symbolTex,
  symbolText,
} from '../../../language/domain/engineering/formula.ts';

const values = (entries: Record<string, number>) => new Map(Object.entries(entries));

describe('a formula', () => {
  it('is evaluated with the usual order of operations', () => {
    expect(evaluate(formula('1 + 2 * 3 ^ 2'), values({}))).toBe(19);
    expect(evaluate(formula('2 ^ 3 ^ 2'), values({}))).toBe(512);
    expect(evaluate(formula('-2 ^ 2'), values({}))).toBe(-4);
    expect(evaluate(formula('8 / 4 / 2'), values({}))).toBe(1);
    expect(evaluate(formula('10 - 4 - 3'), values({}))).toBe(3);
    expect(evaluate(formula('(1 + 2) * 3'), values({}))).toBe(9);
  });

  it('knows its functions; angles are in degrees, half a step rounds up', () => {
    expect(evaluate(formula('sqrt(9) + min(4, 2, 3) + max(1, 5) + abs(-2)'), values({}))).toBe(12);
    expect(evaluate(formula('sin(30)'), values({}))).toBeCloseTo(0.5, 12);
    expect(evaluate(formula('cos(60)'), values({}))).toBeCloseTo(0.5, 12);
    expect(evaluate(formula('round(525, 50)'), values({}))).toBe(550);
    expect(evaluate(formula('ceil(28 / 4)'), values({}))).toBe(7);
    expect(evaluate(formula('ceil(7.0001)'), values({}))).toBe(8);
  });

  it('prints as plain text and as TeX, with symbols or with numbers put in', () => {
    const rule = formula('D * l_m * F_em / ((1 + 2 * R_e) * R_d)');
    const numbers = values({ D: 0.625, l_m: 6, F_em: 7500, R_e: 1.25, R_d: 3.2 });
    expect(formulaText(rule)).toBe('D × l_m × F_em / ((1 + 2 × R_e) × R_d)');
    expect(formulaText(rule, numbers)).toBe('0.625 × 6 × 7,500 / ((1 + 2 × 1.25) × 3.2)');
    expect(formulaTex(rule)).toBe('\\frac{D\\,l_{m}\\,F_{\\mathrm{em}}}{(1 + 2\\,R_{e})\\,R_{d}}');
    expect(formulaTex(rule, numbers)).toBe('\\frac{0.625 \\times 6 \\times 7{,}500}{(1 + 2 \\times 1.25) \\times 3.2}');
  });

  it('brackets a negative number where it would read wrong', () => {
    expect(formulaText(formula('a - b * c'), values({ a: 1, b: -2, c: 3 }))).toBe('1 - (-2) × 3');
    expect(formulaText(formula('(a / b)^2'), values({ a: 1, b: 2 }))).toBe('(1 / 2)^2');
    expect(formulaTex(formula('(a / b)^2'))).toBe('\\left(\\frac{a}{b}\\right)^{2}');
  });

  it('spells Greek letters, subscripts and factored strengths', () => {
    expect(symbolText('K_theta')).toBe('K_θ');
    expect(symbolTex('K_theta')).toBe('K_{\\theta}');
    expect(symbolTex('psi_ed')).toBe('\\psi_{\\mathrm{ed}}');
    expect(symbolText('phiN_cb')).toBe('φN_cb');
    expect(symbolTex("f'_c")).toBe("f'_{c}");
    expect(symbolText('F_eperp')).toBe('F_e⊥');
  });

  it('refuses what is not a formula: a slip of ours is found when the file loads', () => {
    for (const slip of ['', '1 +', 'a b', '(a', 'a)', 'nosuch(1)', 'a $ b', '2 * * 3', 'sqrt(1']) {
      expect(() => formula(slip), slip).toThrow(SyntaxError);
    }
    expect(() => evaluate(formula('a'), values({}))).toThrow(ReferenceError);
  });

  it('read again from its own text is the same formula', () => {
    const symbol = fc.constantFrom('a', 'b_1', 'K_x');
    const tree: fc.Arbitrary<string> = fc.letrec((tie) => ({
      node: fc.oneof(
        { depthSize: 'small' },
        symbol,
        fc.integer({ min: 1, max: 9 }).map(String),
        fc
          .tuple(tie('node'), fc.constantFrom('+', '-', '*', '/', '^'), tie('node'))
          .map(([left, sign, right]) => `(${left} ${sign} ${right})`),
        tie('node').map((inner) => `(-${inner})`),
        tie('node').map((inner) => `sqrt(${inner})`),
      ),
    })).node as fc.Arbitrary<string>;
    const given = values({ a: 1.5, b_1: 2.25, K_x: 0.75 });
    fc.assert(
      fc.property(tree, (text) => {
        const once = formula(text);
        const again = formula(formulaText(once).replaceAll('×', '*'));
        const [first, second] = [evaluate(once, given), evaluate(again, given)];
        expect(Object.is(first, second) || Math.abs(first - second) <= 1e-9 * Math.abs(first)).toBe(true);
      }),
    );
  });
});

it('numbers are shown to three or four figures, thousands marked', () => {
  const shown = [928.4499, 1484.6, 0.625, 0.184615, 45000, 1234567.8, -12.5, 0, -0.00001, 0.00004, 100, 1.0004].map(
    formatNumber,
  );
  expect(shown).toEqual([
    '928.4',
    '1,485',
    '0.625',
    '0.1846',
    '45,000',
    '1,234,568',
    '-12.5',
    '0',
    '0',
    '0',
    '100',
    '1',
  ]);
  expect([Number.POSITIVE_INFINITY, Number.NaN].map(formatNumber)).toEqual(['∞', 'not a number']);
});
