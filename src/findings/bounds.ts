import { type Fact, highest, isSpan, lowest, type Span } from './fact.ts';

/** Tails of binary sums go, so that 10 % and 5 % together meet a mark of 15 %. */
const tidy = (value: number): number => Math.round(value * 1e12) / 1e12;

/**
 * What is known between two bounds inside a range: a value, a span, or nothing where the span says no more than the
 * range does.
 */
export const between = (
  lo: number,
  hi: number,
  range: { readonly min: number; readonly max: number },
): Fact => {
  const low = tidy(Math.min(Math.max(lo, range.min), range.max));
  const high = Math.max(low, tidy(Math.min(Math.max(hi, range.min), range.max)));
  if (low === high) return low;
  return low === range.min && high === range.max ? undefined : { lo: low, hi: high };
};

const SHARE = { min: 0, max: 1 };

/** A share of something, between two bounds. */
export const shareBetween = (lo: number, hi: number): Fact => between(lo, hi, SHARE);

/** A value or span as both its bounds. */
export const boundsOf = (value: number | Span): Span =>
  isSpan(value) ? value : { lo: lowest(value), hi: highest(value) };

/** True where any is, unknown where any could be, else false. */
export const anyOf = (values: readonly (boolean | undefined)[]): boolean | undefined => {
  if (values.includes(true)) return true;
  return values.includes(undefined) ? undefined : false;
};
