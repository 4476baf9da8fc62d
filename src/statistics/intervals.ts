import quantileOfBeta from '@stdlib/stats-base-dists-beta-quantile';
import cdf from '@stdlib/stats-base-dists-normal-cdf';
import quantile from '@stdlib/stats-base-dists-normal-quantile';
import { seeded } from './seeded.ts';

/** A two-sided interval for a proportion. */
export interface Interval {
  readonly low: number;
  readonly high: number;
}

function checkCount(failed: number, seen: number): void {
  if (!(Number.isInteger(failed) && Number.isInteger(seen) && failed >= 0 && failed <= seen && seen > 0)) {
    throw new RangeError(
      `a proportion needs whole counts 0 ≤ failed ≤ seen, seen > 0; got ${failed} of ${seen}`,
    );
  }
}

/**
 * Exact (Clopper–Pearson) interval for `failed` of `seen` at a two-sided confidence `level` in 0…1: each limit is
 * the proportion at which the observed count sits in a tail of (1 − level) / 2. Never covers less than it claims.
 * NIST/SEMATECH e-Handbook 7.2.4.2. Throws RangeError on impossible counts.
 */
export function clopperPearson(failed: number, seen: number, level: number): Interval {
  checkCount(failed, seen);
  const tail = (1 - level) / 2;
  return {
    low: failed === 0 ? 0 : betaQuantile(tail, failed, seen - failed + 1),
    high: failed === seen ? 1 : betaQuantile(1 - tail, failed + 1, seen - failed),
  };
}

/**
 * Wilson (score) interval for `failed` of `seen` at a two-sided confidence `level`: shorter than the exact one and
 * close to its level on average. NIST/SEMATECH e-Handbook 7.2.4.1. Throws RangeError on impossible counts.
 */
export function wilson(failed: number, seen: number, level: number): Interval {
  checkCount(failed, seen);
  const z = normalQuantile((1 + level) / 2);
  const share = failed / seen;
  const scale = 1 + (z * z) / seen;
  const centre = (share + (z * z) / (2 * seen)) / scale;
  const half = (z * Math.sqrt((share * (1 - share)) / seen + (z * z) / (4 * seen * seen))) / scale;
  return {
    low: failed === 0 ? 0 : centre - half,
    high: failed === seen ? 1 : centre + half,
  };
}

/** P(Z ≤ z) for a standard normal Z. */
export const normalCdf = (z: number): number => cdf(z, 0, 1);

/** The z with P(Z ≤ z) = p for a standard normal Z; p in 0…1. */
export const normalQuantile = (p: number): number => quantile(p, 0, 1);

/** The x with P(X ≤ x) = p for a chi-squared X on one degree of freedom: the square of a normal quantile. */
export const chiSquared1Quantile = (p: number): number => normalQuantile((1 + p) / 2) ** 2;

/** P(X > x) for a chi-squared X on one degree of freedom. */
export const chiSquared1Tail = (x: number): number => 2 * normalCdf(-Math.sqrt(x));

/** The x with P(X ≤ x) = p for X ~ Beta(a, b); p in 0…1, a, b > 0. */
export const betaQuantile = (p: number, a: number, b: number): number => quantileOfBeta(p, a, b);

/** Draws with replacement; enough that the limits move by less than their last shown digit. */
const DRAWS = 1000;
const SEED = 20261125;

/**
 * Percentile bootstrap: the statistic is worked out again on `DRAWS` samples drawn with replacement from the things
 * judged, with a fixed seed, and the middle `level` of the results is the interval. Draws on which the statistic is
 * undefined are left out; undefined where fewer than half remain. With few things the interval is too narrow.
 */
export const bootstrapInterval = <T>(
  things: readonly T[],
  statistic: (sample: readonly T[]) => number | undefined,
  level: number,
): Interval | undefined => {
  const random = seeded(SEED);
  const found: number[] = [];
  for (let draw = 0; draw < DRAWS; draw += 1) {
    const sample = things.map(() => things[Math.floor(random.uniform() * things.length)] as T);
    const value = statistic(sample);
    if (value !== undefined) found.push(value);
  }
  if (found.length < DRAWS / 2) return undefined;
  found.sort((a, b) => a - b);
  const at = (share: number): number => found[Math.round(share * (found.length - 1))] ?? 0;
  return { low: at((1 - level) / 2), high: at((1 + level) / 2) };
};
