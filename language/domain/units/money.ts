/** A price: whole cents, so that sums come out to the cent. */
export interface Money {
  readonly currency: Currency;
  readonly cents: number;
}
export type Currency = '$' | '€' | '£';

/** Reads `$19.50`, `€4`, `£0.5`. `undefined` for anything else, and for more than can be counted to the cent. */
export function parseMoney(text: string): Money | undefined {
  const [, currency, whole = '', part = ''] = /^([$€£])[ \t]*(\d+)(?:\.(\d{1,2}))?$/.exec(text.trim()) ?? [];
  if (!isCurrency(currency) || whole.length > 15) return undefined;
  const cents = Number(whole) * 100 + Number(part.padEnd(2, '0'));
  return Number.isSafeInteger(cents) ? { currency, cents } : undefined;
}

/** `$19.50`, `-$3.00`. */
export function formatMoney(money: Money): string {
  const cents = Math.abs(money.cents);
  const sign = money.cents < 0 ? '-' : '';
  return `${sign}${money.currency}${Math.floor(cents / 100)}.${String(cents % 100).padStart(2, '0')}`;
}

function isCurrency(text: string | undefined): text is Currency {
  return text === '$' || text === '€' || text === '£';
}
