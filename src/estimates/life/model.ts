import { GRADES } from '../../casebook/scales.ts';
import { highest, lowest, type Span } from '../../findings/fact.ts';

/** Said with every number of years, wherever it is shown. */
export const FORECAST_NOTE =
  'No published study calibrates the life of a repaired quilt: the years are a forecast from judgement and what was seen.';

/** Wear so far in wear-years (one year of regular bed use = 1), or the years since it was made if known. */
export type PastWear = { readonly known: number } | { readonly madeYearsAgo: number | undefined };

/** Cloth that wears alike: fabrics of one grade, or of one range of grades, that share a dye that destroys or have none. */
export interface Kind {
  /** Chances of each grade, by index into GRADES. */
  readonly grades: GradeWeights;
  /** Share of the top as made. */
  readonly share: number;
  /** Parts seen, less those damaged by accident; and how many of them are damaged. Counts may be shared-out parts. */
  readonly seen: number;
  /** By wear, as told; and with no cause told. */
  readonly worn: number;
  readonly untold: number;
}

/** Joins looked at, and how they had opened. */
export interface SeamEvidence {
  readonly seen: number;
  readonly thread: number;
  readonly cloth: number;
  readonly untold: number;
}

/** What is known of one quilt, whatever is done with it. */
export interface QuiltEvidence {
  readonly wear: PastWear;
  readonly kinds: readonly Kind[];
  readonly seams: SeamEvidence;
  /** Parts of the top, and joins, as found. */
  readonly units: number;
  readonly joins: number;
}

/** Some cloth of a kind that meets the same under a plan. */
export interface ClothPart {
  /** Words for a client, such as "the brown print". */
  readonly name: string;
  /** Index into the kinds. */
  readonly kind: number;
  /** Share of the top as planned. */
  readonly share: number;
  /** What multiplies its life, by grade. */
  readonly stretch: readonly number[];
}

/** How joins stand under a plan: shares of all, adding up to 1. */
export interface SeamShares {
  readonly left: number;
  readonly resewn: number;
  /** Between old cloth and new. */
  readonly mixed: number;
  /** Between old cloth and a place left open. */
  readonly edge: number;
  readonly fresh: number;
}

/** Binding or old backing: a part beside the top, of one grade, with its share of the quilt's damage. */
export interface SidePart {
  readonly name: string;
  readonly weight: number;
  readonly grade: number;
  /** True where the plan renews it. */
  readonly fresh: boolean;
}

/** What a plan leaves of a quilt, and what that will meet. */
export interface PlannedQuilt {
  readonly parts: readonly ClothPart[];
  /** Share of the top that is new cloth; with the parts' shares it adds up to 1. */
  readonly fresh: number;
  readonly seams: SeamShares;
  /** What is left of the load on a seam's thread beside the plan's new joining; 1 where there is none. */
  readonly held: number;
  readonly sides: readonly SidePart[];
  /** Damage left unmended: shares of the top and of the joins. */
  readonly open: { readonly cloth: number; readonly seams: number };
}

/** How fast years use up wear. */
export interface Pace {
  /** Wear-years in a year of the intended use, and the log-standard deviation of that. */
  readonly rate: number;
  readonly spread: number;
  /** What is not known, as alternatives that multiply the rate. Weights add up to 1. */
  readonly alternatives: readonly Alternative[];
}

export interface Alternative {
  readonly weight: number;
  readonly wear: number;
}

/** Figures by index into GRADES. */
export type GradeWeights = Readonly<Record<number, number>>;

export const WEAK = GRADES.indexOf('weak');
export const FRAGILE = GRADES.indexOf('fragile');
export const FAILING = GRADES.indexOf('failing');

/** Chances of each grade within what is known, by the vocabulary's odds; they add up to 1. */
export function gradeChances(fragility: number | Span, odds: readonly number[] = []): GradeWeights {
  const grades = GRADES.map((_, grade) => grade).filter(
    (grade) => grade >= lowest(fragility) && grade <= highest(fragility),
  );
  // odds that are all nothing say nothing
  const silent = grades.every((grade) => !((odds[grade] ?? 0) > 0));
  const weights = grades.map((grade) => [grade, silent ? 1 : (odds[grade] ?? 0)] as const);
  const total = weights.reduce((sum, [, weight]) => sum + weight, 0);
  return Object.fromEntries(
    weights.filter(([, weight]) => weight > 0).map(([grade, weight]) => [grade, weight / total]),
  );
}
