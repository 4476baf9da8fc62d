import cdf from '@stdlib/stats-base-dists-beta-cdf';
import quantile from '@stdlib/stats-base-dists-beta-quantile';

/** P(X ≤ x) for X ~ Beta(a, b); a, b > 0. */
export const betaCdf = (x: number, a: number, b: number): number => cdf(x, a, b);

/** The x with P(X ≤ x) = p for X ~ Beta(a, b); p in 0…1, a, b > 0. */
export const betaQuantile = (p: number, a: number, b: number): number => quantile(p, a, b);
