import { type Fact, isSpan, type Span } from '../findings/fact.ts';
import type { Truth } from './kleene.ts';
import type { Operand } from './model.ts';

/**
 * How a fact compares with an operand. `certainly` answers for every value the fact may still have, `possibly`
 * for at least one of them; both are asked with a fact that is not `undefined`. Between the two lies undecided.
 */
interface Comparison {
  /** Words for a sentence: "is at least". */
  readonly words: string;
  readonly operand: 'one' | 'many' | 'pair' | 'none';
  /** Whether it needs values that stand in an order. */
  readonly ordered: boolean;
  certainly(fact: Exclude<Fact, undefined>, operand: Operand): boolean;
  possibly(fact: Exclude<Fact, undefined>, operand: Operand): boolean;
}

const num = (operand: Operand): number => (typeof operand === 'number' ? operand : Number.NaN);
const list = (operand: Operand): readonly (number | string)[] => (Array.isArray(operand) ? operand : []);
const bounds = (fact: Exclude<Fact, undefined>): Span =>
  isSpan(fact)
    ? fact
    : { lo: typeof fact === 'number' ? fact : Number.NaN, hi: typeof fact === 'number' ? fact : Number.NaN };

/** Builds an ordered comparison from what it asks of a fact's bounds. */
const byBounds = (
  words: string,
  operand: 'one' | 'pair',
  certain: (b: Span, o: Operand) => boolean,
  possible: (b: Span, o: Operand) => boolean,
): Comparison => ({
  words,
  operand,
  ordered: true,
  certainly: (fact, o) => certain(bounds(fact), o),
  possibly: (fact, o) => possible(bounds(fact), o),
});

const same = (fact: Exclude<Fact, undefined>, value: Operand): boolean => !isSpan(fact) && fact === value;
const mayBe = (fact: Exclude<Fact, undefined>, value: number | string | boolean | undefined): boolean =>
  isSpan(fact) ? typeof value === 'number' && fact.lo <= value && value <= fact.hi : fact === value;
const scalar = (operand: Operand): number | string | boolean | undefined =>
  Array.isArray(operand) ? undefined : (operand as number | string | boolean | undefined);

/** A share of 5 % computed as 7/140 must equal a threshold typed as 5 %: compare with the rounding of doubles allowed for. */
const EPSILON = 1e-9;

export const COMPARISONS = {
  is: {
    words: 'is',
    operand: 'one',
    ordered: false,
    certainly: same,
    possibly: (fact, o) => mayBe(fact, scalar(o)),
  },
  'is not': {
    words: 'is not',
    operand: 'one',
    ordered: false,
    certainly: (fact, o) => !mayBe(fact, scalar(o)),
    possibly: (fact, o) => !same(fact, o),
  },
  'one of': {
    words: 'is one of',
    operand: 'many',
    ordered: false,
    certainly: (fact, o) =>
      isSpan(fact)
        ? integers(fact).every((value) => list(o).includes(value))
        : list(o).some((value) => value === fact),
    possibly: (fact, o) => list(o).some((value) => mayBe(fact, value)),
  },
  'at least': byBounds(
    'is at least',
    'one',
    (b, o) => b.lo >= num(o) - EPSILON,
    (b, o) => b.hi >= num(o) - EPSILON,
  ),
  'more than': byBounds(
    'is more than',
    'one',
    (b, o) => b.lo > num(o) + EPSILON,
    (b, o) => b.hi > num(o) + EPSILON,
  ),
  'at most': byBounds(
    'is at most',
    'one',
    (b, o) => b.hi <= num(o) + EPSILON,
    (b, o) => b.lo <= num(o) + EPSILON,
  ),
  'less than': byBounds(
    'is less than',
    'one',
    (b, o) => b.hi < num(o) - EPSILON,
    (b, o) => b.lo < num(o) - EPSILON,
  ),
  between: byBounds(
    'is between',
    'pair',
    (b, o) => b.lo >= num(list(o)[0]) - EPSILON && b.hi <= num(list(o)[1]) + EPSILON,
    (b, o) => b.hi >= num(list(o)[0]) - EPSILON && b.lo <= num(list(o)[1]) + EPSILON,
  ),
  'is known': {
    words: 'is known',
    operand: 'none',
    ordered: false,
    certainly: (f) => !isSpan(f),
    possibly: (f) => !isSpan(f),
  },
  'is unknown': {
    words: 'is not known',
    operand: 'none',
    ordered: false,
    certainly: isSpan,
    possibly: isSpan,
  },
} as const satisfies Record<string, Comparison>;

export type ComparisonName = keyof typeof COMPARISONS;
export const COMPARISON_NAMES = Object.keys(COMPARISONS) as readonly ComparisonName[];

export const comparison = (name: ComparisonName): Comparison => COMPARISONS[name];

/** A span over grades is a handful of whole steps, so "one of" can ask each of them. */
function integers(fact: Span): number[] {
  const values: number[] = [];
  for (let value = Math.ceil(fact.lo); value <= fact.hi && values.length < 64; value += 1) values.push(value);
  return Number.isInteger(fact.lo) && Number.isInteger(fact.hi) ? values : [Number.NaN];
}

/** Certainly true of a fact, known or not. Only "is unknown" is true of an unknown one. */
export const certainly = (name: ComparisonName, fact: Fact, operand: Operand): boolean =>
  fact === undefined ? name === 'is unknown' : comparison(name).certainly(fact, operand);

/** The verdict of one test on one fact: true, false, or undecided where the fact leaves it open. */
export function judge(name: ComparisonName, fact: Fact, operand: Operand): Truth {
  if (fact === undefined) return name === 'is unknown' ? true : name === 'is known' ? false : undefined;
  const way = comparison(name);
  if (way.certainly(fact, operand)) return true;
  return way.possibly(fact, operand) ? undefined : false;
}
