import cdf from '@stdlib/stats-base-dists-normal-cdf';
import quantile from '@stdlib/stats-base-dists-normal-quantile';

/** P(Z ≤ z) for a standard normal Z. */
export const normalCdf = (z: number): number => cdf(z, 0, 1);

/** The z with P(Z ≤ z) = p for a standard normal Z; p in 0…1. */
export const normalQuantile = (p: number): number => quantile(p, 0, 1);

/** The x with P(X ≤ x) = p for a chi-squared X on one degree of freedom: the square of a normal quantile. */
export const chiSquared1Quantile = (p: number): number => normalQuantile((1 + p) / 2) ** 2;

/** P(X > x) for a chi-squared X on one degree of freedom. */
export const chiSquared1Tail = (x: number): number => 2 * normalCdf(-Math.sqrt(x));
