/** Values this close to a step count as lying on it, so that 0.1 + 0.2 does not round up to the next eighth. */
const EPSILON = 1e-9;

/** The nearest multiple of `step` (> 0); halves go up. */
export const roundNearest = (value: number, step: number): number => tidy(Math.round(value / step), step);

/** The smallest multiple of `step` (> 0) not below `value`. */
export const roundUp = (value: number, step: number): number => tidy(Math.ceil(value / step - EPSILON), step);

/** Whole times that `part` (> 0) goes into `whole`: pieces across a strip, strips across a width. */
export const fits = (whole: number, part: number): number => Math.max(0, Math.floor(whole / part + EPSILON));

/** Dividing by the reciprocal keeps 0.1-steps free of binary tails; adding 0 turns −0 into 0. */
const tidy = (steps: number, step: number): number => {
  const inverse = Math.round(1 / step);
  const exact = Math.abs(inverse * step - 1) < EPSILON && inverse > 0;
  return (exact ? steps / inverse : steps * step) + 0;
};

/**
 * Whole number with commas between thousands, whatever the machine's locale; by hand, because opening the tables of
 * languages takes over a millisecond.
 */
export const whole = (value: number): string => String(Math.round(value)).replace(/\B(?=(\d{3})+$)/g, ',');

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
