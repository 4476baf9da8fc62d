import { betaQuantile } from './beta.ts';
import { normalQuantile } from './normal.ts';

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
