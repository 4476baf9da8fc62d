/** The cumulative hazard H already passed, for each of several shapes. */
export interface PassedHazard {
  /** ln H. */
  readonly log: Float64Array;
  readonly hazard: Float64Array;
  /** ln of the probability 1 − e^−H of having failed. */
  readonly logFailed: Float64Array;
}

export const passedHazard = (logs: readonly number[]): PassedHazard => {
  const log = Float64Array.from(logs);
  const hazard = log.map(Math.exp);
  return { log, hazard, logFailed: hazard.map((each) => Math.log(-Math.expm1(-each))) };
};

/** ln of the binomial likelihood, up to a constant, of `failed` of `seen` at the i-th shape. */
export function logLikelihood(
  failed: number,
  seen: number,
  { hazard, logFailed }: PassedHazard,
  i: number,
): number {
  const whole = (seen - failed) * (hazard[i] ?? 0);
  return failed === 0 ? -whole : failed * (logFailed[i] ?? -Infinity) - whole;
}
