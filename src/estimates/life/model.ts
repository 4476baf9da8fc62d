import { GRADES, type Use } from '../../casebook/scales.ts';
import { highest, lowest, type Span } from '../../findings/fact.ts';
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

export const WEAK = GRADES.indexOf('weak');
export const FAILING = GRADES.indexOf('failing');

/** Chances of each grade within what is known, by the vocabulary's odds; they add up to 1. */
export function gradeChances(fragility: number | Span, odds: readonly number[] = []): GradeWeights {
  const grades = GRADES.map((_, grade) => grade).filter(
    (grade) => grade >= lowest(fragility) && grade <= highest(fragility),
  );
  // odds that are all nothing say nothing
  const silent = grades.every((grade) => !((odds[grade] ?? 0) > 0));
  return normalised(grades.map((grade) => [grade, silent ? 1 : (odds[grade] ?? 0)]));
}

/** Chances mixed by the share of cloth each belongs to. */
export function mixed(
  parts: readonly { readonly share: number; readonly chances: GradeWeights }[],
): GradeWeights {
  // shares that are all nothing say nothing
  const silent = parts.every(({ share }) => !(share > 0));
  const chance = (grade: number): number =>
    parts.reduce((sum, { share, chances }) => sum + (silent ? 1 : share) * (chances[grade] ?? 0), 0);
  return normalised(GRADES.map((_, grade) => [grade, chance(grade)]));
}

/** Grade of the weaker of two pieces picked from such cloth: a seam is as strong as its weaker side. */
export function weakerOfTwo(chances: GradeWeights): GradeWeights {
  let below = 0;
  return normalised(
    GRADES.map((_, grade) => {
      const upTo = below + (chances[grade] ?? 0);
      const both = upTo * upTo - below * below;
      below = upTo;
      return [grade, both];
    }),
  );
}

/** Without failing cloth: what hangs by it is counted with the cloth itself. */
export const withoutFailing = (chances: GradeWeights): GradeWeights =>
  normalised(GRADES.map((_, grade) => [grade, grade === FAILING ? 0 : (chances[grade] ?? 0)]));

/** Chance of a grade or a worse one. */
export const atLeast = (chances: GradeWeights, grade: number): number =>
  Object.entries(chances).reduce((sum, [one, chance]) => sum + (Number(one) >= grade ? chance : 0), 0);

function normalised(entries: readonly (readonly [number, number])[]): GradeWeights {
  const total = entries.reduce((sum, [, weight]) => sum + weight, 0);
  return Object.fromEntries(
    entries.filter(([, weight]) => weight > 0).map(([grade, weight]) => [grade, weight / total]),
  );
}
