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

/**
 * Facts laid over others without copying them: a plan has a dozen of its own and shares the rest with every other
 * plan of the quilt. Read them by key; listing them lists the upper layer alone.
 */
export const layered = (under: Facts, over: Facts): Facts =>
  Object.create(under, Object.getOwnPropertyDescriptors(over)) as Facts;
