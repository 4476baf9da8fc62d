/**
 * A value known only within bounds, both inclusive: a share between 5 % and 12 %, a grade that is worn at best.
 * Ordered choices and grades are held as their index in the vocabulary, 0 first.
 */
export interface Span {
  readonly lo: number;
  readonly hi: number;
}

/** What is known of one finding. `undefined` is unknown: it never reads as "no" or as "good". */
export type Fact = number | string | boolean | Span | undefined;

/** Facts by key: `finding.loss`, `planned.governing_fragility`, `plan.gap_after`, `unit.state`, `family.fragility`. */
export type Facts = Readonly<Record<string, Fact>>;

export const isSpan = (fact: Fact): fact is Span => typeof fact === 'object';

/** A span whose bounds meet is a known value. */
export const span = (lo: number, hi: number): number | Span => (lo === hi ? lo : { lo, hi });

export const lowest = (fact: number | Span): number => (typeof fact === 'number' ? fact : fact.lo);
export const highest = (fact: number | Span): number => (typeof fact === 'number' ? fact : fact.hi);

/** What is known where either of two sets of facts may hold: the same where they agree, else bounds, else nothing. */
export function widest(a: Facts, b: Facts): Facts {
  const either = (x: Fact, y: Fact): Fact => {
    if (x === y) return x;
    const measures = (typeof x === 'number' || isSpan(x)) && (typeof y === 'number' || isSpan(y));
    if (!measures || x === undefined || y === undefined) return undefined;
    return span(Math.min(lowest(x), lowest(y)), Math.max(highest(x), highest(y)));
  };
  return Object.fromEntries(Object.keys(a).map((key) => [key, either(a[key], b[key])]));
}

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
