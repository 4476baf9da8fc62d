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
