/**
 * A share for reading, in per cent: whole from 1 to 99, one decimal at the ends, where a tenth matters; what is not
 * quite none or all is never rounded to it.
 */
export function pct(share: number): string {
  const percent = share * 100;
  if (share <= 0) return '0 %';
  if (share >= 1) return '100 %';
  if (percent < 0.1) return 'under 0.1 %';
  if (percent > 99.9) return 'over 99.9 %';
  if (percent < 10 || percent > 95) return `${percent.toFixed(1)} %`;
  return `${Math.round(percent)} %`;
}

/** An amount of money without cents where it has none. */
export const money = (amount: number, currency: string): string =>
  `${currency} ${amount.toLocaleString('en', { maximumFractionDigits: Number.isInteger(amount) ? 0 : 2 })}`;

export const counted = (n: number, what: string): string => `${n.toLocaleString('en')} ${what}${n === 1 ? '' : 's'}`;
