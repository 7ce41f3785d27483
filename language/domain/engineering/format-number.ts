/**
 * A number as a calculation sheet shows it: three to four significant figures, thousands marked, no trailing zeros.
 * `928.4`, `1,485`, `0.625`, `0.1846`, `45,000`. The same on every machine: no locale is asked.
 */
export function formatNumber(value: number): string {
  if (Number.isNaN(value)) return 'not a number';
  if (!Number.isFinite(value)) return value > 0 ? '∞' : '-∞';
  const size = Math.abs(value);
  const decimals = size >= 1000 ? 0 : size >= 100 ? 1 : size >= 1 ? 3 : 4;
  const [whole = '0', fraction = ''] = size.toFixed(decimals).split('.');
  const grouped = whole.replace(/\B(?=(?:\d{3})+$)/g, ',');
  const kept = fraction.replace(/0+$/, '');
  const text = kept ? `${grouped}.${kept}` : grouped;
  return value < 0 && text !== '0' ? `-${text}` : text;
}
