const DECIMALS: Readonly<Record<string, number>> = { mm: 1, deg: 1, '1': 2, px: 0, '%': 0, count: 0, level: 0 };
const SIGNS: Readonly<Record<string, string>> = { mm: ' mm', deg: '°', px: ' px', '%': ' %' };

const decimalsOf = (unit: string): number => DECIMALS[unit] ?? 2;

/** Half of the last digit that is shown in a unit: smaller differences are rounding. */
export const halfShown = (unit: string): number => 0.5 * 10 ** -decimalsOf(unit);

/** A number for reading: fixed decimals by unit, true minus sign. */
export function numberInWords(value: number, unit = 'mm'): string {
  const text = Math.abs(value).toFixed(decimalsOf(unit));
  return value < 0 && Number(text) !== 0 ? `−${text}` : text;
}

/** The same with its unit. */
export const withUnit = (value: number, unit = 'mm'): string => `${numberInWords(value, unit)}${SIGNS[unit] ?? ''}`;
