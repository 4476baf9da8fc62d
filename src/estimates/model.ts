import type { Use } from '../casebook/scales.ts';
import type { Range } from '../quantities/range.ts';

/** Everything one plan would do, each as a range with what was assumed. */
export interface Estimates {
  readonly life: LifeEstimate;
  readonly holes: HoleEstimate;
  readonly hours: HoursEstimate;
  readonly price: PriceEstimate;
  readonly materials: MaterialsEstimate;
  /** On display only. */
  readonly light: LightEstimate | undefined;
}

/**
 * Years until the next repair is due under the intended use: 10th and 90th percentiles and a middle for ranking.
 * No published study calibrates the life of a repaired quilt: judgement plus evidence.
 */
export interface LifeEstimate {
  readonly low: number;
  readonly middle: number;
  readonly high: number;
  /** Years beyond which nothing is said: figures at it mean "more than". */
  readonly horizon: number;
  /** The element most often first to fail, in words, such as "old seams left as they are". */
  readonly weakestLink: string;
  readonly use: Use;
  readonly assumptions: readonly string[];
}

/** Needle and pin penetrations. Whole numbers. */
export interface HoleEstimate {
  readonly newOldFace: number;
  readonly newOldAllowance: number;
  readonly newOldBacking: number;
  readonly reused: number;
  readonly newCloth: number;
  /** Holes left by removed stitches: already there, reported because they lower what the cloth can bear. */
  readonly inherited: number;
  /** Highest share of a stitched line's length taken by holes: holes per inch × needle in mm ÷ 25.4. */
  readonly perforation: number;
  /** New holes in old cloth by position, where the quilt has a map. */
  readonly byUnit: Readonly<Record<string, number>> | undefined;
  readonly assumptions: readonly string[];
}

/** What light does to a quilt that hangs: the same for every plan. */
export interface LightEstimate {
  /** Dose of a year of being up all the time. */
  readonly luxHoursPerYear: Range;
  /** Years of being up all the time until a fade is just noticeable. */
  readonly yearsToFade: FadeYears;
  /** The same where it is taken down in between: `share` of the time it is up. */
  readonly rotated: { readonly share: number; readonly yearsToFade: FadeYears };
  readonly assumptions: readonly string[];
}

export interface FadeYears {
  readonly withUv: Range;
  readonly uvBlocked: Range;
}

export interface HoursEstimate extends Range {
  readonly operations: readonly {
    readonly operation: string;
    readonly count: number;
    readonly unit: string;
    readonly hours: Range;
  }[];
}

export interface PriceEstimate extends Range {
  readonly currency: string;
  /** Below this the job loses money. */
  readonly floor: number;
  readonly deposit: number;
  readonly materials: Range;
  /** True where a second stage is priced after opening. */
  readonly holdPoint: boolean;
}

export interface MaterialsEstimate {
  readonly items: readonly MaterialItem[];
}

/** One line of a shopping and cutting list. */
export interface MaterialItem {
  readonly what: string;
  readonly amount: number;
  readonly unit: 'yd' | 'in' | 'pieces' | 'spools';
  readonly cost: Range;
  readonly note?: string;
}
