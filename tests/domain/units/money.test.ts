import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { formatMoney, parseMoney } from '../../../language/domain/units/money.ts';

describe('money', () => {
  it.each([
    ['$19.50', '$', 1950],
    ['$19.5', '$', 1950],
    ['$19', '$', 1900],
    ['€0.07', '€', 7],
    ['£ 300', '£', 30_000],
  ])('%s is read to the cent', (text, currency, cents) => {
    expect(parseMoney(text)).toEqual({ currency, cents });
  });

  it.each(['', '19.50', '$', '$19.505', '$-3', '$1e3', '19 $', '$1,200', '$99999999999999999999'])(
    '%s is none',
    (text) => {
      expect(parseMoney(text)).toBeUndefined();
    },
  );

  it('prints with two places, and with its sign first', () => {
    expect(formatMoney({ currency: '$', cents: 1950 })).toBe('$19.50');
    expect(formatMoney({ currency: '€', cents: 7 })).toBe('€0.07');
    expect(formatMoney({ currency: '$', cents: -300 })).toBe('-$3.00');
  });

  it('reads back what it prints', () => {
    fc.assert(
      fc.property(fc.constantFrom('$' as const, '€' as const, '£' as const), fc.nat(), (currency, cents) => {
        expect(parseMoney(formatMoney({ currency, cents }))).toEqual({ currency, cents });
      }),
    );
  });
});
