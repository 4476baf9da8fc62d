import { betaQuantile } from '../../statistics/intervals.ts';

/**
 * The further cumulative hazard L = −ln(1 − U) at which the j-th of N units fails, as a survival curve over ln L:
 * U is the j-th order statistic of N uniforms, Beta(j, N − j + 1). Tabled evenly over ln L, for straight interpolation.
 */
export interface DueHazard {
  readonly from: number;
  readonly step: number;
  /** P(L > exp(from + i·step)): 1 before the table, 0 after it. */
  readonly survival: Float64Array;
  /** About the standard deviation of ln L: that of the logarithm of a gamma variable of shape j. */
  readonly spread: number;
}

const INTERVALS = 200;
const TAIL = 1e-6;

/**
 * Tabled by summing the density of ln L, ln L + (j − 1)·ln(1 − e^−L) − (N − j + 1)·L up to a constant, by Simpson's
 * rule between the points: a hundred times quicker than an incomplete beta function at each, and as exact (see the tests).
 */
export function dueHazard(units: number, share: number, fineness: number): DueHazard {
  const j = Math.max(1, Math.ceil(share * units - 1e-9));
  const rest = units - j + 1;
  const from = Math.log(-Math.log1p(-betaQuantile(TAIL, j, rest)));
  // the upper tail is taken from the mirrored distribution, where it does not round to 1
  const to = Math.log(-Math.log(betaQuantile(TAIL, rest, j)));
  const intervals = INTERVALS * fineness;
  const step = (to - from) / intervals;
  const masses = intervalMasses(logDensity(j, rest), from, step, intervals);
  return { from, step, survival: survivalOf(masses), spread: 1 / Math.sqrt(j) };
}

type OfLogHazard = (logHazard: number) => number;

const logDensity =
  (j: number, rest: number): OfLogHazard =>
  (y) => {
    const hazard = Math.exp(y);
    const failed = j === 1 ? 0 : (j - 1) * Math.log(-Math.expm1(-hazard));
    return y + failed - rest * hazard;
  };

/** In proportion to the probability of each interval. */
function intervalMasses(density: OfLogHazard, from: number, step: number, intervals: number): Float64Array {
  // points and midpoints in turn; divided by the greatest, which keeps thousands of units from underflowing
  const logs = Float64Array.from({ length: 2 * intervals + 1 }, (_, i) => density(from + (i * step) / 2));
  const most = logs.reduce((a, b) => Math.max(a, b));
  const at = logs.map((log) => Math.exp(log - most));
  return Float64Array.from(
    { length: intervals },
    (_, i) => (at[2 * i] ?? 0) + 4 * (at[2 * i + 1] ?? 0) + (at[2 * i + 2] ?? 0),
  );
}

/** Summed from the far end, where little survives and rounding would show; the tails outside the table are known. */
function survivalOf(masses: Float64Array): Float64Array {
  const inside = (1 - 2 * TAIL) / masses.reduce((a, b) => a + b);
  const survival = new Float64Array(masses.length + 1).fill(TAIL);
  for (let i = masses.length - 1; i >= 0; i--) {
    survival[i] = (survival[i + 1] ?? 0) + inside * (masses[i] ?? 0);
  }
  return survival;
}
