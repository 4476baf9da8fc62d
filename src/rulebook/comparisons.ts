import { type Fact, isSpan, type Span } from '../findings/fact.ts';
import type { Truth } from './kleene.ts';

/** Values a test compares with. Grades and ordered choices are indices, lengths inches, shares fractions. */
export type Operand = number | string | boolean | readonly (number | string)[] | undefined;

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

/** The lowest and the highest value a fact may have. What is no number compares with nothing, as NaN does. */
const lo = (fact: Exclude<Fact, undefined>): number =>
  typeof fact === 'number' ? fact : isSpan(fact) ? fact.lo : Number.NaN;
const hi = (fact: Exclude<Fact, undefined>): number =>
  typeof fact === 'number' ? fact : isSpan(fact) ? fact.hi : Number.NaN;

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
  'at least': {
    words: 'is at least',
    operand: 'one',
    ordered: true,
    certainly: (f, o) => lo(f) >= num(o) - EPSILON,
    possibly: (f, o) => hi(f) >= num(o) - EPSILON,
  },
  'more than': {
    words: 'is more than',
    operand: 'one',
    ordered: true,
    certainly: (f, o) => lo(f) > num(o) + EPSILON,
    possibly: (f, o) => hi(f) > num(o) + EPSILON,
  },
  'at most': {
    words: 'is at most',
    operand: 'one',
    ordered: true,
    certainly: (f, o) => hi(f) <= num(o) + EPSILON,
    possibly: (f, o) => lo(f) <= num(o) + EPSILON,
  },
  'less than': {
    words: 'is less than',
    operand: 'one',
    ordered: true,
    certainly: (f, o) => hi(f) < num(o) - EPSILON,
    possibly: (f, o) => lo(f) < num(o) - EPSILON,
  },
  between: {
    words: 'is between',
    operand: 'pair',
    ordered: true,
    certainly: (f, o) => lo(f) >= num(list(o)[0]) - EPSILON && hi(f) <= num(list(o)[1]) + EPSILON,
    possibly: (f, o) => hi(f) >= num(list(o)[0]) - EPSILON && lo(f) <= num(list(o)[1]) + EPSILON,
  },
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
export const judge = (name: ComparisonName, fact: Fact, operand: Operand): Truth =>
  fact === undefined ? ofUnknown(name) : ofFact(comparison(name), fact, operand);

const ofUnknown = (name: ComparisonName): Truth =>
  name === 'is unknown' ? true : name === 'is known' ? false : undefined;

function ofFact(way: Comparison, fact: Exclude<Fact, undefined>, operand: Operand): Truth {
  if (way.certainly(fact, operand)) return true;
  // Of a fact with one value, what is possible is certain; only bounds leave anything open.
  return isSpan(fact) && way.possibly(fact, operand) ? undefined : false;
}
