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
