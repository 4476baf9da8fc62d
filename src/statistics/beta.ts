import quantile from '@stdlib/stats-base-dists-beta-quantile';

/** The x with P(X ≤ x) = p for X ~ Beta(a, b); p in 0…1, a, b > 0. */
export const betaQuantile = (p: number, a: number, b: number): number => quantile(p, a, b);
