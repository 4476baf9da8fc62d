import { betaCdf, betaQuantile } from '../../statistics/beta.ts';

/**
 * The further cumulative hazard L = −ln(1 − U) at which the j-th of N units fails, as a survival curve over ln L:
 * U is the j-th order statistic of N uniforms, Beta(j, N − j + 1). Tabled evenly over ln L, for straight interpolation.
 */
export interface DueHazard {
  readonly from: number;
  readonly step: number;
  /** P(L > exp(from + i·step)): 1 before the table, 0 after it. */
  readonly survival: Float64Array;
}

const INTERVALS = 200;
const TAIL = 1e-6;

export function dueHazard(units: number, share: number, fineness: number): DueHazard {
  const j = Math.max(1, Math.ceil(share * units - 1e-9));
  const rest = units - j + 1;
  const logHazard = (u: number): number => Math.log(-Math.log1p(-u));
  const from = logHazard(betaQuantile(TAIL, j, rest));
  // the upper tail is taken from the mirrored distribution, where it does not round to 1
  const to = Math.log(-Math.log(betaQuantile(TAIL, rest, j)));
  const intervals = INTERVALS * fineness;
  const step = (to - from) / intervals;
  const survival = Float64Array.from({ length: intervals + 1 }, (_, i) =>
    betaCdf(Math.exp(-Math.exp(from + i * step)), rest, j),
  );
  return { from, step, survival };
}
