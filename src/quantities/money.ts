import { roundNearest, roundUp } from './rounding.ts';

/** To the nearest multiple of `step` (> 0), such as 10. */
export const roundMoney = (amount: number, step: number): number => roundNearest(amount, step);

/** Up to a multiple of `step`: for floors and deposits, where rounding down would lose money. */
export const roundMoneyUp = (amount: number, step: number): number => roundUp(amount, step);

/**
 * `$1,120`, `€40`, `1,120 EUR`: a sign stands before, a word after. Whole amounts without decimals, others with two.
 * Grouping by commas whatever the machine's locale, so that the same input prints the same bytes.
 */
export const formatMoney = (amount: number, currency: string): string => {
  if (!Number.isFinite(amount)) throw new RangeError(`Not an amount of money: ${amount}`);
  const cents = roundNearest(Math.abs(amount) * 100, 1);
  const whole = String(Math.floor(cents / 100)).replace(/\B(?=(\d{3})+$)/g, ',');
  const digits = cents % 100 === 0 ? whole : `${whole}.${String(cents % 100).padStart(2, '0')}`;
  const minus = amount < 0 && cents > 0 ? '-' : '';
  return /\p{L}/u.test(currency) ? `${minus}${digits} ${currency}` : `${minus}${currency}${digits}`;
};
