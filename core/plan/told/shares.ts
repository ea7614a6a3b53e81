/**
 * A share for reading, in per cent: whole from 10 to 95, to a tenth at the ends, where it matters; what is not
 * quite none or all is never rounded to it. Number and sign never part at the end of a line.
 */
export function pct(share: number): string {
  const percent = share * 100;
  if (share <= 0) return '0\u00a0%';
  if (share >= 1) return '100\u00a0%';
  if (percent < 0.1) return 'under 0.1\u00a0%';
  if (percent > 99.9) return 'over 99.9\u00a0%';
  const tenths = percent < 10 || percent > 95;
  return `${tenths ? Math.round(percent * 10) / 10 : Math.round(percent)}\u00a0%`;
}

/** An amount of money without cents where it has none. */
export function money(amount: number, currency: string): string {
  const cents = Number.isInteger(amount) ? 0 : 2;
  return `${currency} ${amount.toLocaleString('en', { minimumFractionDigits: cents, maximumFractionDigits: cents })}`;
}

export const counted = (n: number, what: string): string => `${n.toLocaleString('en')} ${what}${n === 1 ? '' : 's'}`;
