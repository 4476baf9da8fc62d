import type { Use } from '../../casebook/scales.ts';
import type { LifeEstimate } from '../model.ts';

/**
 * A part of a quilt that wears as one: one fabric's old cloth, the old seams left alone, the seams resewn on old cloth,
 * the seams between old cloth and new.
 */
export interface LifeElement {
  /** Words for a client, such as "the brown print". */
  readonly name: string;
  /** Index into GRADES; or weights by index where the grade is unknown, a span, or differs within the element. */
  readonly grade: number | GradeWeights;
  /** Units or joins it was made with, survivors or not: a repair is due when a further share of this number fails. */
  readonly units: number;
  /** How many of them were looked at, and how many of those had failed. Absent: not inspected. */
  readonly seen?: number;
  readonly failed?: number;
  /** How much faster than in plain use the plan lets it wear, 1 = no change; by grade index where that differs. */
  readonly wear: number | GradeWeights;
  /** True where the plan takes it out: what was seen still tells how worn the quilt is, but it no longer fails. */
  readonly gone?: boolean;
}

/** Figures by index into GRADES. */
export type GradeWeights = Readonly<Record<number, number>>;

export interface LifeInput {
  readonly elements: readonly LifeElement[];
  /** Wear so far in wear-years (one year of regular bed use = 1), or the years since it was made if known. */
  readonly wear: { readonly known: number } | { readonly madeYearsAgo: number | undefined };
  /** Wear-years in a year of the intended use. */
  readonly ratePerYear: number;
  /** Log-standard deviation of that rate. */
  readonly rateSpread: number;
  /** What is not known of the plan, as alternatives that speed up the wear of every element alike. */
  readonly alternatives?: readonly { readonly weight: number; readonly wear: number }[];
  readonly use: Use;
  readonly wantedYears?: number;
  /** Sentences on what was assumed, passed on with the answer. */
  readonly assumptions?: readonly string[];
}

/** Said with every number of years, wherever it is shown. */
export const FORECAST_NOTE =
  'No published study calibrates the life of a repaired quilt: the years are a forecast from judgement and what was seen.';

export interface RemainingLife extends LifeEstimate {
  /** Probability that no repair is due within the years wanted; undefined where none were named or no forecast stands. */
  readonly chance: number | undefined;
  /** Probability for each element that it is the first to need repair, likeliest first. */
  readonly firstToFail: readonly { readonly name: string; readonly probability: number }[];
}
