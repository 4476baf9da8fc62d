import type { Quilt } from '../casebook/model.ts';
import type { Use } from '../casebook/scales.ts';
import type { MeasureSystem } from '../quantities/measure.ts';
import type { Range } from '../quantities/range.ts';
import { fits } from '../quantities/rounding.ts';

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
  /** The part that makes up most of the damage when a repair is due, in words, such as "old seams left as they are". */
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
  /**
   * The new holes in old cloth, each counted as often as its cloth's grade weighs (`stitching.weight`): what plans are
   * ranked by, because a hole in sound cotton is not one in fragile silk.
   */
  readonly burden: number;
  /** Holes in the top of a plain hand-quilted quilt of this size: a scale to picture the new ones by. */
  readonly plainQuilt: number;
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

/**
 * Chances of 0 … `n` successes in `n` trials whose common chance is Beta(a, b): `n` whole, a and b > 0. By recursion
 * from the first, so no gamma function is needed.
 */
export const betaBinomial = (n: number, a: number, b: number): readonly number[] => {
  let chance = 1;
  for (let i = 0; i < n; i += 1) chance *= (b + i) / (a + b + i);
  const chances = [chance];
  for (let k = 0; k < n; k += 1) {
    chance *= ((n - k) * (a + k)) / ((k + 1) * (b + n - k - 1));
    chances.push(chance);
  }
  return chances;
};

/**
 * The smallest value that count × factor does not exceed with at least the chance `level`; count and factor are
 * independent. `counts` holds the chances of 0, 1, 2 …; factors are above 0; all chances add up to 1.
 */
export const productPercentile = (
  counts: readonly number[],
  factors: readonly { readonly value: number; readonly chance: number }[],
  level: number,
): number => {
  let sum = 0;
  const upTo = counts.map((chance) => {
    sum += chance;
    return sum;
  });
  const last = counts.length - 1;
  // A hair above, so that rounding in the sums cannot push a percentile to the next value.
  const reaches = (x: number): boolean =>
    factors.reduce(
      (total, { value, chance }) => total + chance * (upTo[Math.min(last, fits(x, value))] ?? 0),
      0,
    ) >=
    level - 1e-12;
  const candidates = factors.map(({ value }) => {
    let [low, high] = [0, last];
    while (low < high) {
      const middle = (low + high) >> 1;
      if (reaches(middle * value)) high = middle;
      else low = middle + 1;
    }
    return reaches(low * value) ? low * value : Number.POSITIVE_INFINITY;
  });
  return Math.min(...candidates);
};

/**
 * What an estimate may know beyond the plan. All of it may be left out: what is not known widens the range
 * (how the quilt was joined) or is not counted (a sleeve for a quilt nobody said would hang).
 */
export interface Circumstances {
  /** The quilt as found. */
  readonly found?: Quilt | undefined;
  readonly hung?: boolean | undefined;
  /** Somebody has looked inside: damage that was hidden is among what was found, and the second stage is at hand. */
  readonly opened?: boolean | undefined;
  /** Measures in notes; inches unless given. */
  readonly system?: MeasureSystem | undefined;
}
